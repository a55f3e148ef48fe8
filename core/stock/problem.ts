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

export interface Problem {
  readonly kinds: readonly Kind[];
  readonly supplies: readonly Supply[];
  readonly pieces: number;
  readonly by: 'money' | 'length';
  /** What one unit of money or length is, hundredths or ticks: every cost is a multiple of it. */
  readonly unit: number;
  /** `cost = units × tie + boards`; 1 where the numbers are too large for a tie to be told, then `cost = units`. */
  readonly tie: number;
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

function greatestCommonDivisor(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}

function kindsOf(items: readonly StockItem[]): Kind[] {
  const groups = new Map<string, StockItem[]>();
  for (const item of items) {
    const key = `${item.need} ${item.kerf}`;
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return [...groups.values()]
    .map((group) => {
      const { need, kerf } = group[0]!;
      return { need, kerf, weight: need + kerf, count: group.length, items: group };
    })
    .sort((a, b) => b.weight - a.weight || b.need - a.need);
}

/** The problem of an order. Throws on lengths, kerfs or prices that are not whole numbers of at least 0. */
export function problemOf(order: StockOrder): Problem {
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
  const kinds = kindsOf(items);
  const pieces = items.length;
  const by = here.every((each) => each.onHand || each.price !== null) ? 'money' : 'length';
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
  const miss = Math.max(0, ...supplies.map((each) => each.cost)) * pieces + 1;
  return { kinds, supplies, pieces, by, unit, tie, miss, tooLong, nearest: nearestOf(kinds) };
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

/** The cost in units and the number of boards, of a sum of costs. */
export function unitsOf(problem: Problem, cost: number): number {
  return Math.floor(cost / problem.tie);
}

/** The least units that a solution costing at least `cost` in all can have: its boards are no more than its pieces. */
export function leastUnits(problem: Problem, cost: number): number {
  return problem.tie === 1 ? cost : Math.max(0, Math.ceil((cost - problem.pieces) / problem.tie));
}
