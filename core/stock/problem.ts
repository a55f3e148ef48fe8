// An order to the bare problem: equal pieces counted together, boards with whole-number costs in which money (or length)
// comes first and the number of boards second. Everything here is whole numbers, so sums and bounds are exact.

import type { Ticks } from '../units/ticks.ts';
import type { StockItem, StockOrder } from './types.ts';

/** Sums of costs stay below this, so that doubles hold them exactly. */
const EXACT = 2 ** 51;

/** Pieces that are alike to the saw, most of a board first. */
export interface Kind {
  readonly need: Ticks;
  readonly kerf: Ticks;
  /** need + kerf. */
  readonly weight: Ticks;
  /** The most that can be wanted. */
  readonly count: number;
  readonly items: readonly StockItem[];
}

/** Boards that are alike. */
export interface Supply {
  /** Index into the order's lengths. */
  readonly stock: number;
  readonly length: Ticks;
  /** Length less end trim. */
  readonly room: Ticks;
  /** `unit × tie + 1`. */
  readonly cost: number;
  /** How many of them can be of use: no more than there are pieces. */
  readonly limit: number;
  /** False where pieces run out before the boards do. */
  readonly limited: boolean;
}

/** What of a piece matters here. */
export interface Cut {
  readonly need: Ticks;
  readonly kerf: Ticks;
}

/** One of these is taken: each lists its pieces. */
export type Options<Piece> = readonly (readonly Piece[])[];

export interface Problem {
  readonly kinds: readonly Kind[];
  /** What is wanted of each kind whatever is chosen: `count` of the kind, less what only some options want. */
  readonly sure: readonly number[];
  /** Choices still open, their pieces as kinds. None in an order that is ready to be cut. */
  readonly choices: readonly Options<number>[];
  readonly supplies: readonly Supply[];
  readonly pieces: number;
  readonly by: 'money' | 'length';
  /** What one unit of money or length is, hundredths or ticks: every cost is a multiple of it. */
  readonly unit: number;
  /** `cost = units × tie + boards`; 1 where the numbers are too large for a tie to be told, then `cost = units`. */
  readonly tie: number;
  /** Every answer that leaves nothing out costs a multiple of this. */
  readonly step: number;
  /** What a piece left out costs: more than all boards together. */
  readonly miss: number;
  /** Longer than every board. */
  readonly tooLong: readonly StockItem[];
  /**
   * For each kind the kinds whose place it can take on a board: they need as much or more and so does their cut. Only the
   * nearest are listed, those between which no other lies.
   */
  readonly nearest: readonly (readonly number[])[];
}

/** Whether a piece of kind `a` can lie where one of kind `b` was: neither longer nor with a wider cut. */
export function takesPlaceOf(a: Kind, b: Kind): boolean {
  return a.need <= b.need && a.kerf <= b.kerf;
}

function nearestOf(kinds: readonly Kind[]): number[][] {
  return kinds.map((own, i) => {
    const larger = kinds
      .map((_, j) => j)
      .filter((j) => j !== i && takesPlaceOf(own, kinds[j]!))
      .sort((a, b) => kinds[a]!.need - kinds[b]!.need || kinds[a]!.kerf - kinds[b]!.kerf);
    const nearest: number[] = [];
    let least = Number.POSITIVE_INFINITY;
    for (const j of larger) {
      if (kinds[j]!.kerf >= least) continue;
      least = kinds[j]!.kerf;
      nearest.push(j);
    }
    return nearest;
  });
}

/** A board's content: which kinds, how many, kinds ascending. */
export type Parts = readonly (readonly [kind: number, count: number])[];

/** One way of cutting one board. */
export interface Pattern {
  readonly supply: number;
  readonly parts: Parts;
}

/** What is made least: money where every length that can be bought has a price [ST5]. */
export function leastOf({ by, lengths, endTrim }: StockOrder): 'money' | 'length' {
  const bought = lengths.filter((each) => !each.onHand && each.limit !== 0 && each.length >= endTrim);
  return by ?? (bought.every((each) => each.price !== null) ? 'money' : 'length');
}

function greatestCommonDivisor(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}

const keyOf = ({ need, kerf }: Cut): string => `${need} ${kerf}`;

function kindsOf(items: readonly StockItem[], choices: readonly Options<Cut>[]): Kind[] {
  const groups = new Map<string, { need: Ticks; kerf: Ticks; items: StockItem[]; more: number }>();
  const groupOf = (cut: Cut) => {
    const key = keyOf(cut);
    const group = groups.get(key) ?? { need: cut.need, kerf: cut.kerf, items: [], more: 0 };
    groups.set(key, group);
    return group;
  };
  for (const item of items) groupOf(item).items.push(item);
  for (const options of choices) {
    const most = new Map<string, number>();
    for (const option of options) {
      const own = new Map<string, number>();
      for (const cut of option) {
        groupOf(cut);
        own.set(keyOf(cut), (own.get(keyOf(cut)) ?? 0) + 1);
      }
      for (const [key, count] of own) most.set(key, Math.max(most.get(key) ?? 0, count));
    }
    for (const [key, count] of most) groups.get(key)!.more += count;
  }
  return [...groups.values()]
    .map(({ need, kerf, items: own, more }) => {
      return { need, kerf, weight: need + kerf, count: own.length + more, items: own };
    })
    .sort((a, b) => b.weight - a.weight || b.need - a.need);
}

/**
 * The problem of an order, and of choices still open beside it, whose pieces each fit a board. Throws on lengths, kerfs or
 * prices that are not whole numbers of at least 0.
 */
export function problemOf(order: StockOrder, choices: readonly Options<Cut>[] = []): Problem {
  const whole = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;
  for (const item of order.items) {
    if (!whole(item.need) || !whole(item.kerf)) {
      throw new RangeError(`stock: piece ${item.id} needs ${item.need} and a kerf of ${item.kerf} ticks`);
    }
  }
  for (const each of order.lengths) {
    if (!whole(each.length) || !whole(each.price ?? 0) || !whole(each.limit ?? 0)) {
      throw new RangeError(`stock: ${each.limit} boards of ${each.length} ticks at ${each.price}`);
    }
  }
  const here = order.lengths
    .map((each, stock) => ({ ...each, stock, room: each.length - order.endTrim }))
    .filter((each) => each.limit !== 0 && each.room >= 0);
  const longest = Math.max(-1, ...here.map((each) => each.room));
  const items = order.items.filter((item) => item.need <= longest);
  const tooLong = order.items.filter((item) => item.need > longest);
  const kinds = kindsOf(items, choices);
  const kindAt = new Map(kinds.map((kind, at) => [keyOf(kind), at]));
  const pieces =
    items.length +
    choices.reduce((sum, options) => sum + Math.max(0, ...options.map((option) => option.length)), 0);
  const by = leastOf(order);
  const price = (each: (typeof here)[number]): number =>
    each.onHand ? 0 : by === 'money' ? each.price! : each.length;
  const unit = here.reduce((divisor, each) => greatestCommonDivisor(price(each), divisor), 0) || 1;
  const dearest = Math.max(0, ...here.map((each) => price(each) / unit));
  const tie = (dearest * (pieces + 1) + 1) * (pieces + 1) < EXACT ? pieces + 1 : 1;
  const all = here.map((each) => ({
    stock: each.stock,
    length: each.length,
    room: each.room,
    cost: (price(each) / unit) * tie + (tie > 1 ? 1 : 0),
    limit: Math.min(each.limit ?? pieces, pieces),
    limited: each.limit !== null && each.limit < pieces,
  }));
  const supplies = all
    .filter(
      (one, i) =>
        kinds.some((kind) => kind.need <= one.room) &&
        !all.some(
          (other, j) =>
            j !== i &&
            !other.limited &&
            other.room >= one.room &&
            other.cost <= one.cost &&
            (other.room > one.room || other.cost < one.cost || j < i),
        ),
    )
    .sort((a, b) => a.room - b.room || a.cost - b.cost || a.stock - b.stock);
  const step = supplies.reduce((divisor, each) => greatestCommonDivisor(each.cost, divisor), 0) || 1;
  const miss = Math.max(0, ...supplies.map((each) => each.cost)) * pieces + 1;
  return {
    kinds,
    sure: kinds.map((kind) => kind.items.length),
    choices: choices.map((options) => options.map((option) => option.map((cut) => kindAt.get(keyOf(cut))!))),
    supplies,
    pieces,
    by,
    unit,
    tie,
    step,
    miss,
    tooLong,
    nearest: nearestOf(kinds),
  };
}

/** The same problem with fewer pieces and boards: `left` of the kinds named, `free` of each board. Costs stay the same. */
export function restOf(
  problem: Problem,
  kinds: readonly number[],
  left: readonly number[],
  free: readonly number[],
): Problem {
  const rest = kinds.map((kind) => ({ ...problem.kinds[kind]!, count: left[kind]! }));
  const pieces = rest.reduce((sum, kind) => sum + kind.count, 0);
  const supplies = problem.supplies.map((each, s) => ({
    ...each,
    limit: Math.min(free[s]!, pieces),
    limited: each.limited && free[s]! < pieces,
  }));
  const sure = rest.map((kind) => kind.count);
  return { ...problem, kinds: rest, sure, supplies, pieces, tooLong: [], nearest: nearestOf(rest) };
}

/** Whether every kind can be had from boards without limit: then nothing need be left out. */
export function alwaysPlaced(problem: Problem): boolean {
  const room = Math.max(-1, ...problem.supplies.filter((each) => !each.limited).map((each) => each.room));
  return problem.kinds.every((kind) => kind.need <= room);
}

/**
 * What pieces take of a board's room when the widest cut is made last and may fall off the end [ST4]: all that they need
 * and every kerf but the widest.
 */
export function taken(kinds: readonly Kind[], parts: Parts): Ticks {
  let weight = 0;
  let widest = 0;
  for (const [kind, count] of parts) {
    weight += kinds[kind]!.weight * count;
    widest = Math.max(widest, kinds[kind]!.kerf);
  }
  return weight - widest;
}

/** The solver's rounding of a sum of costs, as a part of it. */
const ROUNDING = 1e-9;

/** A solver's bound as a whole cost: one over a whole number by more than the solver's rounding is the next one. */
export function wholeBound(bound: number): number {
  return Math.ceil(bound - ROUNDING * Math.max(1, bound));
}

/** The cost in units and the number of boards, of a sum of costs. */
export function unitsOf(problem: Problem, cost: number): number {
  return Math.floor(cost / problem.tie);
}

/** The units of the cheapest board that costs any, and how many there are of those that cost none; null where these have no limit. */
function cheapestOf({ tie, supplies }: Problem): { readonly units: number; readonly free: number } | null {
  const free = supplies.filter((each) => each.cost < tie);
  const cheapest = Math.min(...supplies.filter((each) => each.cost >= tie).map((each) => each.cost));
  if (!Number.isFinite(cheapest) || free.some((each) => !each.limited)) return null;
  return { units: Math.floor(cheapest / tie), free: free.reduce((sum, each) => sum + each.limit, 0) };
}

/**
 * The least units of an answer that costs at least `cost` in all: its boards are no more than its pieces, nor than the
 * cheapest boards that its units buy and those that cost nothing.
 */
export function leastUnits(problem: Problem, cost: number): number {
  const { tie, pieces } = problem;
  if (tie === 1) return cost;
  const byPieces = Math.ceil((cost - pieces) / tie);
  const cheapest = cheapestOf(problem);
  if (cheapest === null || cost <= cheapest.free) return Math.max(0, byPieces);
  // units × tie + units / cheapest + free ≥ cost, in whole numbers: products may pass what a double holds exactly.
  const units = BigInt(cheapest.units);
  const over = BigInt(tie) * units + 1n;
  const byPrice = Number((BigInt(cost - cheapest.free) * units + over - 1n) / over);
  return Math.max(0, byPieces, byPrice);
}

/** The least cost from which on an answer has at least so many units, more than none: what `leastUnits` tells of it. */
export function costFrom(problem: Problem, units: number): number {
  const { tie, pieces } = problem;
  if (tie === 1) return units;
  const byPieces = (units - 1) * tie + pieces + 1;
  const cheapest = cheapestOf(problem);
  if (cheapest === null || units < 1) return byPieces;
  const over = BigInt(tie) * BigInt(cheapest.units) + 1n;
  const byPrice = cheapest.free + Number((BigInt(units - 1) * over) / BigInt(cheapest.units)) + 1;
  return Math.min(byPieces, byPrice);
}
