// A walk that misses its start, closed: by the compass rule, or for rooms of right angles by spreading the miss over
// opposite walls. The first point stays; the last is the first. Knows nothing of plans. RULES: SV3, SV4.

import type { Point } from '../graph/index.ts';
import { misclosureOf } from './tape-walk.ts';

/**
 * Closes a row of points by the compass rule: each length takes of the miss what it is of the perimeter. Gives the
 * points without the last, which is the first. Requires lengths above 0; throws on fewer than three. RULES: SV3.
 */
export function compassRule(points: readonly Point[]): readonly Point[] {
  const count = points.length - 1;
  if (count < 3) throw new RangeError(`compassRule: ${count} lengths enclose nothing`);
  const lengths = points.slice(1).map((at, i) => Math.hypot(at[0] - points[i]![0], at[1] - points[i]![1]));
  const perimeter = lengths.reduce((sum, length) => sum + length, 0);
  const { by } = misclosureOf(points, perimeter);
  const closed: Point[] = [];
  let gone = 0;
  for (let i = 0; i < count; i++) {
    const [x, y] = points[i]!;
    const share = perimeter === 0 ? 0 : gone / perimeter;
    closed.push([x - by[0] * share, y - by[1] * share]);
    gone += lengths[i]!;
  }
  return closed;
}

/** Whether every length of the row runs level or upright: then the miss can be spread so that right angles stay. */
export function isSquare(points: readonly Point[]): boolean {
  return points.slice(1).every((at, i) => {
    const was = points[i]!;
    return (at[0] === was[0]) !== (at[1] === was[1]);
  });
}

/**
 * Closes a room of right angles: what is walked one way and back is made equal, each wall taking of the miss in its own
 * direction what its length is of all walls that run so. Right angles stay. Gives the points without the last. Requires
 * `isSquare`; throws otherwise, and where all walls of a direction run one way. RULES: SV4.
 */
export function squareRule(points: readonly Point[]): readonly Point[] {
  if (points.length < 5 || !isSquare(points)) throw new RangeError('squareRule: not a walk of right angles');
  const { by } = misclosureOf(points);
  const [across, down] = [0, 1].map((axis) => {
    const steps = points.slice(1).map((at, i) => at[axis as 0 | 1] - points[i]![axis as 0 | 1]);
    const walked = steps.reduce((sum, step) => sum + Math.abs(step), 0);
    if (Math.abs(by[axis as 0 | 1]) >= walked)
      throw new RangeError('squareRule: all walls of one direction run the same way');
    return steps.map((step) => step - (by[axis as 0 | 1] * Math.abs(step)) / walked);
  }) as [number[], number[]];
  const closed: Point[] = [points[0]!];
  for (let i = 0; i + 2 < points.length; i++) {
    const [x, y] = closed[i]!;
    closed.push([x + across[i]!, y + down[i]!]);
  }
  return closed;
}
