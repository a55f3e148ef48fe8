// Finds each label a free place: greedy, in the order the labels come, over each label's own candidates. Points, y down.
// Kept: no two placed boxes overlap and none leaves the frame [SH4]; what has no free place is handed back, never squeezed
// in. Lines of the drawing may be covered at a price; labels never. Same labels in the same order, same places.
// Knows nothing of what a label says.

import Flatbush from 'flatbush';
import type { Point } from '../graph/types.ts';
import { type Box, boxesOverlap, boxOf, grown } from './boxes.ts';
import type { Item } from './items.ts';

/** One way of setting a label. */
export interface Candidate {
  /** What it covers: texts, rings, marks. */
  readonly boxes: readonly Box[];
  /** The less the better; 0 is where it would stand if it were alone. */
  readonly cost: number;
  /** A thin line that ties it to what it names; no label may stand on it. */
  readonly leader?: readonly [from: Point, to: Point];
  /** It has a white ground of its own: a line may pass under it at a small price. */
  readonly opaque?: boolean;
  /** Lines that are part of it and would rather cross no label: a dimension's. */
  readonly lines?: readonly (readonly [Point, Point])[];
  readonly items: () => readonly Item[];
}

/** Clear space between labels, points. */
const GAP = 1.2;
/** What covering one line of the drawing costs, and what crossing a label with a line does. */
const LINE_COST = 9;
const CROSS_COST = 14;
const UNDER_COST = 1;
const CELL = 28;

/** A box in use, and what a line across it costs. */
interface Taken {
  readonly box: Box;
  readonly crossing: number;
}

export interface Placer {
  /** Places the best of the candidates whose boxes are free, or returns null and places nothing. */
  place(candidates: Iterable<Candidate>): readonly Item[] | null;
  /** Takes a box that something else stands in. */
  block(box: Box): void;
}

/** A placer for one drawing: labels stay in `frame`; `lines` are what they had better not cover. */
export function makePlacer(frame: Box, lines: readonly (readonly [Point, Point])[]): Placer {
  const index = indexLines(lines);
  const taken = new Map<string, Taken[]>();

  const cells = function* (box: Box): Generator<string> {
    for (let i = Math.floor(box[0] / CELL); i <= Math.floor(box[2] / CELL); i++)
      for (let j = Math.floor(box[1] / CELL); j <= Math.floor(box[3] / CELL); j++) yield `${i},${j}`;
  };
  const block = (box: Box, opaque = false) => {
    const entry: Taken = { box, crossing: opaque ? UNDER_COST : CROSS_COST };
    for (const cell of cells(box)) {
      const list = taken.get(cell);
      if (list) list.push(entry);
      else taken.set(cell, [entry]);
    }
  };
  const isFree = (box: Box): boolean => {
    if (box[0] < frame[0] || box[1] < frame[1] || box[2] > frame[2] || box[3] > frame[3]) return false;
    const wide = grown(box, GAP);
    for (const cell of cells(wide))
      for (const other of taken.get(cell) ?? []) if (boxesOverlap(wide, other.box)) return false;
    return true;
  };
  /** What a line from a to b would cost for the labels that it crosses. */
  const crossing = (a: Point, b: Point): number => {
    const met = new Set<Taken>();
    for (const cell of cells(boxOf([a, b])))
      for (const other of taken.get(cell) ?? []) if (segmentMeetsBox(a, b, other.box)) met.add(other);
    let cost = 0;
    for (const each of met) cost += each.crossing;
    return cost;
  };

  const place = (candidates: Iterable<Candidate>): readonly Item[] | null => {
    let best: Candidate | null = null;
    let bestCost = Number.POSITIVE_INFINITY;
    for (const candidate of candidates) {
      if (candidate.cost >= bestCost) continue;
      if (!candidate.boxes.every(isFree)) continue;
      if (candidate.leader && crossing(...candidate.leader) > 0) continue;
      let cost = candidate.cost;
      for (const box of candidate.boxes) cost += LINE_COST * index.count(grown(box, 0.5));
      for (const line of candidate.lines ?? []) cost += crossing(...line);
      if (cost >= bestCost) continue;
      best = candidate;
      bestCost = cost;
      if (cost === 0) break;
    }
    if (best === null) return null;
    for (const box of best.boxes) block(box, best.opaque);
    if (best.leader) for (const box of beads(...best.leader)) block(box);
    return best.items();
  };

  return { place, block: (box) => block(box) };
}

/** Small boxes along a leader, so that what is placed later keeps off it. */
function beads(from: Point, to: Point): Box[] {
  const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 3));
  return Array.from({ length: count }, (_, k): Box => {
    const t = (k + 0.5) / count;
    const [x, y] = [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
    return [x - 0.8, y - 0.8, x + 0.8, y + 0.8];
  });
}

function indexLines(lines: readonly (readonly [Point, Point])[]): { count(box: Box): number } {
  if (lines.length === 0) return { count: () => 0 };
  const tree = new Flatbush(lines.length);
  for (const [a, b] of lines) {
    const [x0, y0, x1, y1] = boxOf([a, b]);
    tree.add(x0, y0, x1, y1);
  }
  tree.finish();
  return {
    count: (box) =>
      tree.search(box[0], box[1], box[2], box[3]).filter((at) => {
        const [a, b] = lines[at]!;
        return segmentMeetsBox(a, b, box);
      }).length,
  };
}

/** Whether a straight line from a to b has a point inside the box (slab by slab). */
export function segmentMeetsBox(a: Point, b: Point, box: Box): boolean {
  let from = 0;
  let to = 1;
  for (const axis of [0, 1] as const) {
    const d = b[axis] - a[axis];
    const low = box[axis];
    const high = box[axis + 2] as number;
    if (d === 0) {
      if (a[axis] <= low || a[axis] >= high) return false;
      continue;
    }
    const t0 = (low - a[axis]) / d;
    const t1 = (high - a[axis]) / d;
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
    if (from >= to) return false;
  }
  return true;
}
