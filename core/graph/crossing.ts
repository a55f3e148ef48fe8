// Segments of face loops to the places where they cross, which makes a loop too narrow for boards (RULES: WK11).
// Loops are compared within a group (a room with its islands); touching counts as crossing. Exact for the doubles
// given. Knows nothing of rooms beyond the group.

import Flatbush from 'flatbush';
import { dot, exactTurn, minus } from './orientation.ts';
import type { Point } from './types.ts';

/** One side of a loop, for the comparison. Sides of one loop stand together, in walking order. */
export interface LoopSide {
  readonly loop: number;
  readonly start: Point;
  readonly end: Point;
}

/** Two crossing sides by position in the list. */
export type CrossingPair = readonly [number, number];

/** Up to this many sides every pair is compared; beyond, a spatial index finds the candidates. */
const FEW = 24;

/** All pairs of sides that cross or touch, apart from neighbours in a loop that share their corner. Lower position first. */
export function crossingPairs(sides: readonly LoopSide[]): CrossingPair[] {
  const neighbours = neighbourTest(sides);
  const pairs: CrossingPair[] = [];
  const compare = (i: number, j: number) => {
    const [a, b] = [sides[i]!, sides[j]!];
    const order = neighbours(i, j);
    const crosses = order === 'before' ? foldsBack(a, b) : order === 'after' ? foldsBack(b, a) : touch(a, b);
    if (crosses) pairs.push([i, j]);
  };
  if (sides.length <= FEW) {
    for (let i = 0; i < sides.length; i++) for (let j = i + 1; j < sides.length; j++) compare(i, j);
    return pairs;
  }
  const tree = new Flatbush(sides.length);
  for (const { start, end } of sides) {
    tree.add(
      Math.min(start[0], end[0]),
      Math.min(start[1], end[1]),
      Math.max(start[0], end[0]),
      Math.max(start[1], end[1]),
    );
  }
  tree.finish();
  for (let i = 0; i < sides.length; i++) {
    const { start, end } = sides[i]!;
    const near = tree.search(
      Math.min(start[0], end[0]),
      Math.min(start[1], end[1]),
      Math.max(start[0], end[0]),
      Math.max(start[1], end[1]),
      (j) => j > i,
    );
    for (const j of near.sort((a, b) => a - b)) compare(i, j);
  }
  return pairs;
}

/** Tells whether side i (the lower) comes just before or just after side j in one loop. */
function neighbourTest(sides: readonly LoopSide[]): (i: number, j: number) => 'before' | 'after' | null {
  const first = new Map<number, number>();
  const last = new Map<number, number>();
  sides.forEach(({ loop }, i) => {
    if (!first.has(loop)) first.set(loop, i);
    last.set(loop, i);
  });
  return (i, j) => {
    const loop = sides[i]!.loop;
    if (loop !== sides[j]!.loop) return null;
    if (j === i + 1) return 'before';
    return i === first.get(loop) && j === last.get(loop) ? 'after' : null;
  };
}

/** Neighbours share a corner; they cross only where the second runs back along the first. */
function foldsBack(before: LoopSide, after: LoopSide): boolean {
  return (
    exactTurn(before.start, before.end, after.end) === 0 &&
    dot(minus(before.end, before.start), minus(after.end, after.start)) < 0
  );
}

function touch(a: LoopSide, b: LoopSide): boolean {
  const startOfB = exactTurn(a.start, a.end, b.start);
  const endOfB = exactTurn(a.start, a.end, b.end);
  if (startOfB === endOfB && startOfB !== 0) return false;
  const startOfA = exactTurn(b.start, b.end, a.start);
  const endOfA = exactTurn(b.start, b.end, a.end);
  if (startOfA === endOfA && startOfA !== 0) return false;
  return startOfB !== 0 || endOfB !== 0 || boxesMeet(a, b);
}

function boxesMeet(a: LoopSide, b: LoopSide): boolean {
  const axis = (k: 0 | 1) =>
    Math.min(a.start[k], a.end[k]) <= Math.max(b.start[k], b.end[k]) &&
    Math.min(b.start[k], b.end[k]) <= Math.max(a.start[k], a.end[k]);
  return axis(0) && axis(1);
}
