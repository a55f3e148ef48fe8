// Where a long stretch might be joined: as cells, which together cover every place that is allowed (what the parts need at
// least in each gives a bound), and as places proper, which are tried. Where studs are few enough each cell is one stud and
// the two are the same. Ticks. Which is best is decided elsewhere [ST12].

import type { Plan } from '../plan/schema.ts';
import { TICKS_PER_INCH, TICKS_PER_MM, type Ticks } from '../units/ticks.ts';
import type { Cell, LongStretch, Part } from './long.ts';
import type { Cut } from './problem.ts';
import type { StockOrder } from './types.ts';

/** One way of joining a stretch. */
export interface Option {
  readonly cuts: readonly Ticks[];
  readonly parts: readonly Part[];
}

/** Joints of a stretch in how many parts, every cell that could hold them, and whether each cell is one place. */
export interface Cells {
  readonly count: number;
  readonly options: readonly (readonly Part[])[];
  /** What its parts and their cuts take together at least, in whichever of the cells it is joined. */
  readonly together: Ticks;
  /** The options as places, where each cell is one; else null. */
  readonly exact: readonly Option[] | null;
  /** Then also every place that any choice at the corners could allow. */
  readonly all: readonly (readonly Ticks[])[] | null;
}

/** A stretch is joined at most this often more than equal parts ask for, so that joints find their studs. */
const MORE_PARTS = 2;
/** Tuples of places looked at for one stretch, as a multiple of those kept. */
const LOOKED = 40;

/** All increasing ways to take one of each list. Stops after `most`. */
function tuples<T>(lists: readonly (readonly T[])[], after: (a: T, b: T) => boolean, most: number): T[][] {
  const found: T[][] = [];
  const take = (chosen: readonly T[]): void => {
    if (chosen.length === lists.length) {
      found.push([...chosen]);
      return;
    }
    for (const next of lists[chosen.length]!) {
      if (found.length >= most) return;
      if (chosen.length === 0 || after(chosen.at(-1)!, next)) take([...chosen, next]);
    }
  };
  take([]);
  return found;
}

/** The same, or null where there are more than `most`: what stands for every way must be whole. */
function allTuples<T>(...[lists, after, most]: Parameters<typeof tuples<T>>): T[][] | null {
  const found = tuples(lists, after, most + 1);
  return found.length > most ? null : found;
}

/** The bounds of each joint: far enough from the ends for the parts before and after, with `spare` for what ends add. */
function rangesOf(long: LongStretch, joints: number, least: Ticks, spare: Ticks): Cell[] {
  const { L } = long.stretch;
  const [short, long_] = [Math.max(1, least - spare), long.longest + spare];
  return Array.from({ length: joints }, (_, i): Cell => {
    const [before, after] = [i + 1, joints - i];
    return [
      Math.ceil(Math.max(before * short, L - after * long_)),
      Math.floor(Math.min(L - after * short, before * long_)),
    ];
  });
}

function cellsIn([from, to]: Cell, studs: readonly Ticks[] | null, most: number): Cell[] {
  if (from > to) return [];
  if (studs !== null) {
    const here = studs.filter((at) => at >= from && at <= to);
    const each = Math.ceil(here.length / most);
    return Array.from({ length: Math.ceil(here.length / Math.max(1, each)) }, (_, i): Cell => {
      const own = here.slice(i * each, (i + 1) * each);
      return [own[0]!, own.at(-1)!];
    });
  }
  const count = Math.max(1, Math.min(most, to - from));
  const at = (i: number): Ticks => from + Math.floor(((to - from) * i) / count);
  return Array.from({ length: count }, (_, i): Cell => [at(i), at(i + 1)]);
}

/**
 * The cells of a stretch, in the fewest parts that have any: at most about `most` ways. Null where no joint is allowed
 * anywhere. `least` is the shortest part, ticks.
 */
export function cellsOf(long: LongStretch, least: Ticks, most: number): Cells | null {
  const fewest = long.pieces.length;
  const spare = Math.ceil(
    long.pieces.reduce(
      (sum, { left, right }) =>
        sum +
        Math.max(Math.abs(left.backOffset), Math.abs(left.faceOffset)) +
        Math.max(Math.abs(right.backOffset), Math.abs(right.faceOffset)),
      0,
    ),
  );
  for (let count = fewest; count <= fewest + MORE_PARTS; count++) {
    const joints = count - 1;
    const each = Math.max(2, Math.floor(most ** (1 / joints)));
    const ranges = rangesOf(long, joints, least, spare);
    const cells = (most: number): Cell[][] => ranges.map((range) => cellsIn(range, long.studs, most));
    const lists = cells(each);
    if (lists.some((list) => list.length === 0)) continue;
    // Too many ways to list them all: one cell for each joint still covers every place.
    const all = allTuples(lists, (a, b) => b[1] > a[0], most * LOOKED) ?? [cells(1).flat()];
    const areExact = all.flat().every(([from, to]) => from === to);
    const places = areExact ? all.map((cells) => cells.map(([at]) => at)) : null;
    const allowed = places?.filter((cuts) => long.allows(cuts)) ?? null;
    const may = all
      .filter((cells) => areExact || mayHold(long, cells, least, spare))
      .map((cells) => ({ cells, parts: long.leastBetween(cells) }))
      .filter(({ parts }) => parts.every((part) => part.need <= long.longest));
    const some = allowed ? allowed.length > 0 : may.length > 0 && firstAllowed(long, count) !== null;
    if (!some) continue;
    return {
      count,
      options: may.map(({ parts }) => parts),
      together: Math.floor(Math.min(...may.map(({ cells }) => long.leastTogether(cells)))),
      exact: allowed?.map((cuts): Option => ({ cuts, parts: long.partsAt(cuts) })) ?? null,
      all: places,
    };
  }
  return null;
}

/** Whether every part could be long enough while joints stay in their cells. */
function mayHold(long: LongStretch, cells: readonly Cell[], least: Ticks, spare: Ticks): boolean {
  const from = [0, ...cells.map((cell) => cell[0])];
  const to = [...cells.map((cell) => cell[1]), long.stretch.L];
  return to.every((end, i) => end - from[i]! + spare >= least);
}

/** The allowed joints nearest to equal parts; null where a walk over the places finds none. */
export function firstAllowed(long: LongStretch, count: number): readonly Ticks[] | null {
  const { L } = long.stretch;
  const equal = Array.from({ length: count - 1 }, (_, i) => Math.round((L * (i + 1)) / count));
  if (long.pieces.length === count && long.allows(long.usual)) return long.usual;
  if (long.allows(equal)) return equal;
  const { studs } = long;
  if (studs === null) return null;
  const near = equal.map((at) => studs.toSorted((a, b) => Math.abs(a - at) - Math.abs(b - at) || a - b));
  const off = (cuts: readonly Ticks[]): number =>
    cuts.reduce((sum, at, i) => sum + Math.abs(at - equal[i]!), 0);
  const kept = near.map((list) => list.slice(0, count === 2 ? list.length : 8));
  const all = tuples(kept, (a, b) => b > a, 100_000).filter((cuts) => long.allows(cuts));
  return all.toSorted((a, b) => off(a) - off(b))[0] ?? null;
}

/** In how many parts a stretch is joined at least, so that its joints are allowed; as it is now where none are. */
export function fewestParts(long: LongStretch): number {
  const now = long.pieces.length;
  const counts = Array.from({ length: MORE_PARTS + 1 }, (_, more) => now + more);
  return counts.find((count) => firstAllowed(long, count) !== null) ?? now;
}

/** To whole sixteenths or millimetres, so that what is printed is what is cut. */
function steps(plan: Plan): Ticks {
  return plan.units === 'imperial' ? TICKS_PER_INCH / 16 : TICKS_PER_MM;
}

/** What boards of an order hold, each once, most first. */
export function roomsOf({ lengths, endTrim }: StockOrder): Ticks[] {
  return [...new Set(lengths.map((each) => each.length - endTrim))]
    .filter((room) => room > 0)
    .sort((a, b) => b - a);
}

/**
 * Places worth trying, at most about `most` ways: as equal parts have it, where a part alone or with one or two of the
 * other pieces fills a board to its end, and evenly along the stretch between. `rooms`: what each board holds.
 */
export function optionsOf(
  plan: Plan,
  long: LongStretch,
  count: number,
  others: readonly Cut[],
  rooms: readonly Ticks[],
  most: number,
): Option[] {
  const step = steps(plan);
  const { L } = long.stretch;
  const usual = firstAllowed(long, count);
  const places = [
    ...new Set([...(usual ?? []), ...(long.studs ?? fills(long, count, others, rooms, step, most))]),
  ];
  if (long.studs === null) {
    const even = Math.max(step, Math.ceil(L / most / step) * step);
    for (let at = even; at < L; at += even) if (!places.includes(at)) places.push(at);
  }
  const usable = places.filter((at) => at > 0 && at < L);
  const build = (size: number): number[][] => {
    const sorted = usable.slice(0, size).sort((a, b) => a - b);
    const lists = Array.from({ length: count - 1 }, () => sorted);
    return tuples(lists, (a, b) => b > a, most * LOOKED).filter((cuts) => long.allows(cuts));
  };
  let found = build(usable.length);
  for (let size = usable.length; found.length > most && size > count; size = Math.floor(size * 0.7)) {
    found = build(size);
  }
  if (usual !== null && !found.some((cuts) => cuts.join() === usual.join())) found.unshift([...usual]);
  return found.map((cuts): Option => ({ cuts, parts: long.partsAt(cuts) }));
}

/** Places at which a part fills a board: alone first, then beside one other piece, then beside two. */
function fills(
  long: LongStretch,
  count: number,
  others: readonly Cut[],
  rooms: readonly Ticks[],
  step: Ticks,
  most: number,
): Ticks[] {
  const { L } = long.stretch;
  const { left: leftOut, right: rightOut, slant } = long.ends;
  const kerf = Math.max(...long.partsAt(long.usual).map((part) => part.kerf));
  const beside: Ticks[] = [0];
  for (const one of others) beside.push(one.need + Math.min(one.kerf, kerf));
  for (let i = 0; i < others.length && beside.length < most; i++) {
    for (let j = i; j < others.length && beside.length < most; j++) {
      const [a, b] = [others[i]!, others[j]!];
      beside.push(a.need + b.need + a.kerf + b.kerf + kerf - Math.max(a.kerf, b.kerf, kerf));
    }
  }
  const found: Ticks[] = [];
  for (const take of beside) {
    for (const room of rooms) {
      for (const more of [0, slant]) {
        const left = Math.floor((room - take - leftOut - more) / step) * step;
        const right = Math.ceil((L - (room - take - rightOut - more)) / step) * step;
        found.push(left, right);
        if (take > 0) continue;
        for (let k = 1; k < count - 1; k++) {
          const further = Math.floor((room - slant) / step) * step * k;
          found.push(left + further, right - further);
        }
      }
    }
    if (found.length > 2 * most) break;
  }
  return found;
}
