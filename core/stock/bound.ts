// The least that an order can cost, and the boards worth considering: column generation on the dual. What the pieces are
// worth (duals) is a linear programme for the solver; the board that is worth more than it costs is a knapsack of our own.
// The bound is reckoned from rounded, whole-number worths, so it holds whatever the solver's last digits are [ST7].

import type { LinearProgram, Solver } from '../fit/types.ts';
import { bestFilling, worthTable } from './knapsack.ts';
import { alwaysPlaced, type Parts, type Pattern, type Problem } from './problem.ts';

/** Sums stay below this, so that doubles hold them exactly. */
const EXACT = 2 ** 51;
/** A board counts as worth more than it costs beyond this part of the dearest board. */
const PAYS = 1e-9;
/** Boards that pay are looked for with this part of the work first: most need no more. */
const FIRST_PART = 1 / 20;
/** Kept off a bound before it is rounded up: more than the rounding of a handful of operations. */
const SAFE = 1e-13;

/** Worths with which nothing beats its cost, and the bound that follows. Whole numbers in `scale` parts of a cost. */
export interface Worths {
  readonly values: readonly number[];
  readonly scale: number;
  /** What having one more of a limited board would save. */
  readonly rents: readonly number[];
  /** Σ value × sure + Σ least value of a choice − Σ rent × limit: a lower bound in `scale` parts. */
  readonly total: number;
}

export interface BoundResult {
  /** No answer costs less: whole, in the problem's costs. */
  readonly bound: number;
  readonly worths: Worths;
  readonly patterns: readonly Pattern[];
  readonly finished: boolean;
}

/** Columns seen, each once. */
export class PatternPool {
  readonly list: Pattern[] = [];
  readonly #seen = new Set<string>();

  add(supply: number, parts: Parts): boolean {
    const key = `${supply}:${parts.map(([kind, count]) => `${kind}x${count}`).join(',')}`;
    if (parts.length === 0 || this.#seen.has(key)) return false;
    this.#seen.add(key);
    this.list.push({ supply, parts });
    return true;
  }
}

interface Scales {
  readonly dearest: number;
  readonly scale: number;
  readonly missable: boolean;
}

function scalesOf(problem: Problem): Scales {
  const missable = !alwaysPlaced(problem);
  const dearest = Math.max(1, ...problem.supplies.map((each) => each.cost));
  const most = (missable ? problem.miss : dearest) * (problem.pieces + 1);
  let scale = 1;
  while (scale < 2 ** 40 && most * scale * 2 < EXACT) scale *= 2;
  return { dearest, scale, missable };
}

/**
 * max Σ sure·y + Σ σ − Σ limit·v with no pattern above its cost; y, σ and v in units of the dearest board. σ is what a
 * choice is worth: no more than any of its options.
 */
function dualProgram(problem: Problem, pool: PatternPool, scales: Scales): LinearProgram {
  const { kinds, supplies, sure, choices } = problem;
  const most = scales.missable ? problem.miss / scales.dearest : Number.POSITIVE_INFINITY;
  const rent = new Map<number, number>();
  supplies.forEach((each, s) => {
    if (each.limited) rent.set(s, kinds.length + rent.size);
  });
  const firstChoice = kinds.length + rent.size;
  // A piece is worth no more than one in whose place it could lie: holds in the optimum, and saves rounds.
  const order: LinearProgram['rows'][number][] = problem.nearest.flatMap((larger, kind) =>
    larger.map((other) => ({
      lower: Number.NEGATIVE_INFINITY,
      upper: 0,
      terms: [[kind, 1] as const, [other, -1] as const],
    })),
  );
  return {
    columns: [
      ...sure.map((count) => ({ cost: -count, lower: 0, upper: most })),
      ...supplies
        .filter((each) => each.limited)
        .map((each) => ({ cost: each.limit, lower: 0, upper: Number.POSITIVE_INFINITY })),
      ...choices.map(() => ({ cost: -1, lower: 0, upper: Number.POSITIVE_INFINITY })),
    ],
    rows: [
      ...order,
      ...choices.flatMap((options, c) =>
        options.map((option) => ({
          lower: Number.NEGATIVE_INFINITY,
          upper: 0,
          terms: [[firstChoice + c, 1] as const, ...option.map((kind) => [kind, -1] as const)],
        })),
      ),
      ...pool.list.map((pattern) => {
        const terms: (readonly [number, number])[] = pattern.parts.map(([kind, count]) => [kind, count]);
        const at = rent.get(pattern.supply);
        return {
          lower: Number.NEGATIVE_INFINITY,
          upper: supplies[pattern.supply]!.cost / scales.dearest,
          terms: at === undefined ? terms : [...terms, [at, -1] as const],
        };
      }),
    ],
  };
}

/** Worths lowered until no piece is worth more than one in whose place it could lie. */
function inOrder(problem: Problem, values: readonly number[]): number[] {
  const lowered = values.slice();
  // Kinds in whose place another can lie are heavier, so they come first.
  for (let i = 0; i < lowered.length; i++) {
    for (const larger of problem.nearest[i]!) lowered[i] = Math.min(lowered[i]!, lowered[larger]!);
  }
  return lowered;
}

interface Priced {
  readonly worths: Worths;
  readonly fillings: readonly Parts[];
}

/** What all pieces are worth: those that are sure, and of each choice the option worth least. */
export function worthOf({ sure, choices }: Problem, values: readonly number[]): number {
  let worth = values.reduce((sum, value, i) => sum + value * sure[i]!, 0);
  for (const options of choices) {
    worth += Math.min(...options.map((option) => option.reduce((sum, kind) => sum + values[kind]!, 0)));
  }
  return worth;
}

/** What each board can be filled with at most, and the bound that these worths give once scaled to hold. */
function price(problem: Problem, scales: Scales, values: readonly number[], work: number): Priced {
  const { kinds, supplies } = problem;
  const { scale } = scales;
  const counts = kinds.map((kind) => kind.count);
  const table = worthTable(kinds, values, Math.max(...supplies.map((each) => each.room)));
  const filled = supplies.map((each) => bestFilling(table, counts, each.room, 0, work));
  // Worths of which a board without limit could hold more than it costs are all lowered alike (Farley's bound).
  let part = 1;
  supplies.forEach((each, s) => {
    const most = filled[s]!.most;
    if (!each.limited && most > each.cost * scale) part = Math.min(part, (each.cost * scale) / most);
  });
  const lowered = part < 1 ? part * (1 - SAFE) : 1;
  const rents = supplies.map((each, s) =>
    each.limited ? Math.max(0, Math.ceil(filled[s]!.most * lowered) - each.cost * scale) : 0,
  );
  const total =
    lowered * worthOf(problem, values) -
    supplies.reduce((sum, each, s) => sum + (each.limited ? rents[s]! * each.limit : 0), 0);
  const kept = lowered < 1 ? values.map((value) => value * lowered) : values;
  return {
    worths: { values: kept, scale, rents, total },
    fillings: filled.map((each) => each.parts),
  };
}

/** The bound of worths: costs are multiples of the problem's step, so it is rounded up to one. */
function boundOf(problem: Problem, worths: Worths): number {
  const step = alwaysPlaced(problem) ? problem.step : 1;
  return Math.max(0, Math.ceil((worths.total / worths.scale / step) * (1 - SAFE) - SAFE) * step);
}

/**
 * Column generation from the patterns given until no board pays, the bound reaches `goal`, or `rounds` are done. Each
 * round asks the programme's own worths and such as lie between them and the best so far (smoothing), which saves rounds.
 */
export function lowerBound(
  problem: Problem,
  start: readonly Pattern[],
  solver: Solver,
  limits: { readonly goal: number; readonly rounds: number; readonly work: number },
): BoundResult {
  const { kinds, supplies } = problem;
  const scales = scalesOf(problem);
  const { dearest, scale } = scales;
  const pool = new PatternPool();
  for (const pattern of start) pool.add(pattern.supply, pattern.parts);
  kinds.forEach((kind, i) => {
    supplies.forEach((each, s) => {
      if (kind.need > each.room) return;
      let count = 1;
      while (count < kind.count && kind.weight * (count + 1) - kind.kerf <= each.room) count++;
      pool.add(s, [[i, count]]);
    });
  });
  const whole = (value: number): number => Math.max(0, Math.floor(value * dearest * scale));
  const most = scales.missable ? problem.miss * scale : Number.POSITIVE_INFINITY;

  // By length alone: every piece worth its share of the board that gives most room for the money.
  const share = Math.min(
    ...supplies
      .filter((each) => !each.limited || scales.missable)
      .map((each) => each.cost / Math.max(1, each.room)),
  );
  let centre = inOrder(
    problem,
    kinds.map((kind) => Math.min(most, Math.floor(kind.need * share * scale))),
  );
  let work = limits.work * FIRST_PART;
  let best = price(problem, scales, centre, work).worths;
  let finished = false;
  for (let round = 0; round < limits.rounds && boundOf(problem, best) < limits.goal; round++) {
    const answer = solver.solve(dualProgram(problem, pool, scales));
    if (answer.status !== 'optimal') break;
    const exact = inOrder(
      problem,
      kinds.map((_, i) => Math.min(most, whole(answer.x[i]!))),
    );
    const rents = supplies.map(() => 0);
    let at = kinds.length;
    supplies.forEach((each, s) => {
      if (each.limited) rents[s] = answer.x[at++]! * dearest * scale;
    });
    const ceiling = -answer.objective * dearest;
    if (boundOf(problem, best) >= Math.ceil(ceiling * (1 - PAYS))) {
      finished = true;
      break;
    }
    let added = false;
    for (const keep of [0.6, 0]) {
      const asked = exact.map((value, i) => Math.floor(keep * centre[i]! + (1 - keep) * value));
      const priced = price(problem, scales, asked, work);
      if (priced.worths.total > best.total) {
        best = priced.worths;
        centre = asked;
      }
      priced.fillings.forEach((parts, s) => {
        const value = parts.reduce((sum, [kind, count]) => sum + exact[kind]! * count, 0);
        const pays = value - supplies[s]!.cost * scale - rents[s]! > PAYS * dearest * scale;
        if (pays && pool.add(s, parts)) added = true;
      });
    }
    if (!added && work < limits.work) {
      work = limits.work;
    } else if (!added) {
      finished = true;
      break;
    }
  }
  return { bound: boundOf(problem, best), worths: best, patterns: pool.list, finished };
}
