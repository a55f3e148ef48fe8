// Worths and boards worth considering to a whole answer, and the proof that none is better: every board that could be in
// a better answer is listed (its cost beyond the worth in it is less than the gap), and a mixed programme chooses
// among those [ST7]. Where the list is too long the bound stands beside the answer.

import type { LinearProgram, Solver } from '../fit/types.ts';
import type { Worths } from './bound.ts';
import { type Answer, tidied } from './fill.ts';
import { goodFillings, worthTable } from './knapsack.ts';
import { alwaysPlaced, type Pattern, type Problem, restOf, wholeBound } from './problem.ts';

/** Below this a part of a board in a solver's answer is none. */
const WHOLE = 1e-6;
/** Kept off limits that come from sums of rounded worths: parts of the sum. */
const SLOP = 1e-12;

/** How many of each board rounding gives up in turn: the more, the larger the rest that is searched on its own. */
export const LEAVES = [0, 1, 3] as const;

export interface Choice {
  readonly program: LinearProgram;
  /** The column of each option of each open choice. */
  readonly picks: readonly (readonly number[])[];
  readonly swaps: readonly (readonly [from: number, to: number, column: number])[];
}

/** Choose boards, each a whole number of times: all pieces covered, one option of each choice, no more boards than there are. */
export function choice(
  problem: Problem,
  patterns: readonly Pattern[],
  counts: readonly number[],
  stock: readonly number[],
  integer: boolean,
): Choice {
  const { kinds, supplies } = problem;
  const missable = !alwaysPlaced(problem);
  const cover: [number, number][][] = kinds.map(() => []);
  const boards: [number, number][][] = supplies.map(() => []);
  patterns.forEach((pattern, at) => {
    for (const [kind, count] of pattern.parts) cover[kind]!.push([at, count]);
    boards[pattern.supply]!.push([at, 1]);
  });
  const columns = patterns.map((pattern) => ({
    cost: supplies[pattern.supply]!.cost,
    lower: 0,
    // No narrower: a place for a piece that is wanted once may serve smaller ones on other boards.
    upper: stock[pattern.supply]!,
    integer,
  }));
  if (missable) {
    kinds.forEach((_, kind) => {
      cover[kind]!.push([columns.length, 1]);
      columns.push({ cost: problem.miss, lower: 0, upper: kinds[kind]!.count, integer });
    });
  }
  const one: [number, number][][] = [];
  const picks = problem.choices.map((options) => {
    const taken = options.map((option) => {
      for (const kind of option) cover[kind]!.push([columns.length, -1]);
      columns.push({ cost: 0, lower: 0, upper: 1, integer });
      return columns.length - 1;
    });
    one.push(taken.map((column) => [column, 1]));
    return taken;
  });
  const rows: LinearProgram['rows'][number][] = cover.map((terms, kind) => ({
    lower: counts[kind]!,
    upper: Number.POSITIVE_INFINITY,
    terms,
  }));
  for (const terms of one) rows.push({ lower: 1, upper: 1, terms });
  // A place for a piece may be given to one that can lie there.
  const swaps: (readonly [from: number, to: number, column: number])[] = [];
  problem.nearest.forEach((larger, kind) => {
    for (const from of larger) {
      swaps.push([from, kind, columns.length]);
      cover[from]!.push([columns.length, -1]);
      cover[kind]!.push([columns.length, 1]);
      columns.push({ cost: 0, lower: 0, upper: problem.pieces, integer: false });
    }
  });
  // How many boards of each length: whole too, which the solver can branch on.
  supplies.forEach((_, s) => {
    if (boards[s]!.length === 0) return;
    boards[s]!.push([columns.length, -1]);
    columns.push({ cost: 0, lower: 0, upper: stock[s]!, integer });
    rows.push({ lower: 0, upper: 0, terms: boards[s]! });
  });
  return { program: { columns, rows }, picks, swaps };
}

/** The boards chosen, `x` rounded, places given to smaller pieces where the answer says so, largest first. */
function boardsIn(
  patterns: readonly Pattern[],
  { swaps }: Choice,
  x: readonly number[],
  round: (value: number) => number,
): Pattern[] {
  const boards = patterns.flatMap((pattern, at) =>
    Array.from({ length: round(x[at]!) }, () => ({
      supply: pattern.supply,
      parts: new Map(pattern.parts),
    })),
  );
  const ordered = swaps.slice().sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  for (const [from, to, column] of ordered) {
    let times = Math.round(x[column]!);
    for (const { parts } of boards) {
      const here = parts.get(from) ?? 0;
      const give = Math.min(times, here);
      if (give <= 0) continue;
      times -= give;
      parts.set(from, here - give);
      parts.set(to, (parts.get(to) ?? 0) + give);
    }
  }
  return boards.map(({ supply, parts }) => ({
    supply,
    parts: [...parts].filter(([, count]) => count > 0).sort((a, b) => a[0] - b[0]),
  }));
}

/**
 * The best answer out of these boards alone that costs less than `below`; null when the solver's work ran out with none.
 * `least`: no answer out of them costs less, whole; Infinity where there is none below.
 */
export function chosenFrom(
  problem: Problem,
  patterns: readonly Pattern[],
  solver: Solver,
  nodes: number,
  below: number,
): { answer: Answer | null; least: number | null } {
  const counts = problem.kinds.map((kind) => kind.count);
  const stock = problem.supplies.map((each) => each.limit);
  const asked = choice(problem, patterns, counts, stock, true);
  const solved = solver.solve(asked.program, nodes, below - 0.5);
  if (solved.status === 'infeasible') return { answer: null, least: Number.POSITIVE_INFINITY };
  if (solved.status === 'unbounded') throw new Error('stock: the choice of boards has no bound');
  const answer = solved.x ? tidied(problem, boardsIn(patterns, asked, solved.x, Math.round)) : null;
  return { answer, least: solved.bound === null ? null : wholeBound(solved.bound) };
}

/** What rounding leaves: the boards kept, and the rest as a problem of its own. */
export interface Rounded {
  readonly kept: readonly Pattern[];
  readonly rest: Problem;
  /** The kind in the whole problem of each kind of the rest. */
  readonly kinds: readonly number[];
}

/**
 * The fractional choice among these boards, each taken a whole number of times, rounded down and less often by `leave`.
 * Null when the solver gives no choice.
 */
export function roundedDown(
  problem: Problem,
  patterns: readonly Pattern[],
  solver: Solver,
): ((leave: number) => Rounded) | null {
  const counts = problem.kinds.map((kind) => kind.count);
  const stock = problem.supplies.map((each) => each.limit);
  const relaxed = choice(problem, patterns, counts, stock, false);
  const fractional = solver.solve(relaxed.program);
  if (fractional.status !== 'optimal') return null;
  return (leave) => {
    const down = (value: number): number => Math.max(0, Math.floor(value + WHOLE) - leave);
    const { boards: kept, missed: left } = tidied(problem, boardsIn(patterns, relaxed, fractional.x, down));
    const free = stock.slice();
    for (const board of kept) free[board.supply]! -= 1;
    const kinds = left.flatMap((count, kind) => (count > 0 ? [kind] : []));
    return { kept, rest: restOf(problem, kinds, left, free), kinds };
  };
}

/** The whole answer of boards kept and an answer to the rest. */
export function joined(problem: Problem, { kept, kinds }: Rounded, rest: Answer): Answer {
  const boards = rest.boards.map(({ supply, parts }) => ({
    supply,
    parts: parts.map(([kind, count]) => [kinds[kind]!, count] as const),
  }));
  return tidied(problem, [...kept, ...boards]);
}

/** Every board that an answer costing less than `below` can hold, filled up; null when they are too many. */
export function boardsBelow(
  problem: Problem,
  worths: Worths,
  below: number,
  limits: { readonly boards: number; readonly search: number },
): Pattern[] | null {
  const { kinds, supplies } = problem;
  const { scale, values, rents, total } = worths;
  const table = worthTable(kinds, values, Math.max(...supplies.map((each) => each.room)));
  const spare = (below - 1) * scale - total;
  const found: Pattern[] = [];
  for (let s = 0; s < supplies.length; s++) {
    const full = supplies[s]!.cost * scale + rents[s]!;
    const least = full - spare - SLOP * (Math.abs(full) + Math.abs(below * scale));
    const more = goodFillings(table, supplies[s]!.room, least, limits.boards - found.length, limits.search);
    if (!more) return null;
    for (const parts of more) found.push({ supply: s, parts });
  }
  return found;
}
