// The best filling of one board, pieces having values, and all fillings that are good enough. Exact: a depth-first search
// over kinds, cut by a table of what the kinds still to come can be worth at most in the room left.
// Values are whole numbers held in doubles. Kinds come heaviest first. No piece is used more often than it is wanted.

import { type Kind, type Parts, takesPlaceOf } from './problem.ts';

const MOST_CELLS = 4096;
const MOST_ENTRIES = 2_000_000;

/** `rows[i][c]`: no choice from kinds i and after that takes at most `(c + 1) × step` ticks is worth more. */
export interface WorthTable {
  readonly step: number;
  readonly rows: readonly Float64Array[];
  /** The widest kerf among kinds i and after. */
  readonly widest: readonly number[];
  readonly kinds: readonly Kind[];
  readonly values: readonly number[];
}

/** The table for boards with at most `room` ticks. Weights are rounded down to cells, so it never promises too little. */
export function worthTable(kinds: readonly Kind[], values: readonly number[], room: number): WorthTable {
  const widest: number[] = new Array(kinds.length + 1).fill(0);
  for (let i = kinds.length - 1; i >= 0; i--) widest[i] = Math.max(widest[i + 1]!, kinds[i]!.kerf);
  const cells = Math.max(64, Math.min(MOST_CELLS, Math.floor(MOST_ENTRIES / (kinds.length + 1))));
  const step = Math.max(1, Math.ceil((room + widest[0]! + 1) / cells));
  const width = Math.floor((room + widest[0]!) / step) + 1;
  const rows: Float64Array[] = new Array(kinds.length + 1);
  rows[kinds.length] = new Float64Array(width);
  for (let i = kinds.length - 1; i >= 0; i--) {
    const row = Float64Array.from(rows[i + 1]!);
    rows[i] = row;
    const value = values[i]!;
    if (value <= 0) continue;
    let left = kinds[i]!.count;
    for (let bundle = 1; left > 0; bundle *= 2) {
      const take = Math.min(bundle, left);
      left -= take;
      const weight = Math.floor(kinds[i]!.weight / step) * take;
      if (weight >= width) break;
      const worth = value * take;
      for (let c = width - 1; c >= weight; c--) {
        const with_ = row[c - weight]! + worth;
        if (with_ > row[c]!) row[c] = with_;
      }
    }
  }
  return { step, rows, widest, kinds, values };
}

export interface Filling {
  readonly value: number;
  readonly parts: Parts;
  /** No filling is worth more. Equal to `value` unless the search ran out of work. */
  readonly most: number;
}

function counted(chosen: readonly number[]): [number, number][] {
  const parts: [number, number][] = [];
  for (const kind of chosen) {
    const last = parts.at(-1);
    if (last && last[0] === kind) last[1] += 1;
    else parts.push([kind, 1]);
  }
  return parts;
}

/**
 * The most valuable filling of a board with `room` ticks, of at most `counts[i]` of each kind. `over`: only what is worth
 * more is of interest. Stops after `work` nodes with the best so far and `most` from the table.
 */
export function bestFilling(
  table: WorthTable,
  counts: readonly number[],
  room: number,
  over: number,
  work: number,
): Filling {
  const { kinds, values, rows, widest, step } = table;
  const chosen: number[] = [];
  const left = counts.slice();
  let best = over;
  let parts: Parts = [];
  let nodes = 0;
  const search = (from: number, weight: number, kerf: number, value: number): void => {
    for (let i = from; i < kinds.length; i++) {
      if (nodes >= work) return;
      const free = room + Math.max(kerf, widest[i]!) - weight;
      if (free < 0 || value + rows[i]![Math.floor(free / step)]! <= best) return;
      const kind = kinds[i]!;
      if (left[i]! <= 0 || values[i]! <= 0) continue;
      const heavier = weight + kind.weight;
      const wider = Math.max(kerf, kind.kerf);
      if (heavier - wider > room) continue;
      nodes++;
      left[i]! -= 1;
      chosen.push(i);
      const richer = value + values[i]!;
      if (richer > best) {
        best = richer;
        parts = counted(chosen);
      }
      search(i, heavier, wider, richer);
      chosen.pop();
      left[i]! += 1;
    }
  };
  search(0, 0, 0, 0);
  const top = rows[0]![Math.floor((room + widest[0]!) / step)]!;
  return { value: best, parts, most: nodes >= work ? Math.max(best, top) : best };
}

/**
 * All fillings worth at least `least` that no other makes needless, kinds ascending: nothing can be added, and no piece
 * changed for one in whose place it could lie. Null when there are more than `most`, or after `work` nodes.
 */
export function goodFillings(
  table: WorthTable,
  room: number,
  least: number,
  most: number,
  work: number,
): Parts[] | null {
  const { kinds, values, rows, widest, step } = table;
  const left = kinds.map((kind) => kind.count);
  const chosen: number[] = [];
  const found: Parts[] = [];
  let nodes = 0;
  const fitsMore = (weight: number, kerf: number): boolean => {
    for (let i = kinds.length - 1; i >= 0; i--) {
      if (left[i]! <= 0) continue;
      if (weight + kinds[i]!.weight - Math.max(kerf, kinds[i]!.kerf) <= room) return true;
    }
    return false;
  };
  const fitsLarger = (weight: number): boolean => {
    for (let at = 0; at < chosen.length; at++) {
      const out = chosen[at]!;
      if (at > 0 && chosen[at - 1] === out) continue;
      let rest = 0;
      for (let other = 0; other < chosen.length; other++) {
        if (other !== at) rest = Math.max(rest, kinds[chosen[other]!]!.kerf);
      }
      for (let i = out - 1; i >= 0; i--) {
        if (left[i]! <= 0 || !takesPlaceOf(kinds[out]!, kinds[i]!)) continue;
        const heavier = weight - kinds[out]!.weight + kinds[i]!.weight;
        if (heavier - Math.max(rest, kinds[i]!.kerf) <= room) return true;
      }
    }
    return false;
  };
  const search = (from: number, weight: number, kerf: number, value: number): boolean => {
    if (value >= least && chosen.length > 0 && !fitsMore(weight, kerf) && !fitsLarger(weight)) {
      if (found.length >= most) return false;
      found.push(counted(chosen));
    }
    for (let i = from; i < kinds.length; i++) {
      const free = room + Math.max(kerf, widest[i]!) - weight;
      if (free < 0 || value + rows[i]![Math.floor(free / step)]! < least) return true;
      const kind = kinds[i]!;
      if (left[i]! <= 0) continue;
      const heavier = weight + kind.weight;
      const wider = Math.max(kerf, kind.kerf);
      if (heavier - wider > room) continue;
      if (++nodes > work) return false;
      left[i]! -= 1;
      chosen.push(i);
      const go = search(i, heavier, wider, value + values[i]!);
      chosen.pop();
      left[i]! += 1;
      if (!go) return false;
    }
    return true;
  };
  return search(0, 0, 0, 0) ? found : null;
}
