// Turning and mirroring places on the sheet. Ticks, x right, y down; quarter turns are exact. RULES: ED21.

import type { Point } from '../graph/index.ts';

const QUARTERS: readonly Point[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** A place turned about another by degrees, clockwise as seen. Not rounded. */
export function turned(at: Point, about: Point, deg: number): Point {
  const quarter = deg % 90 === 0 ? QUARTERS[(((deg / 90) % 4) + 4) % 4] : undefined;
  const radians = (deg * Math.PI) / 180;
  const [cos, sin] = quarter ?? [Math.cos(radians), Math.sin(radians)];
  const [x, y] = [at[0] - about[0], at[1] - about[1]];
  return [about[0] + x * cos - y * sin, about[1] + x * sin + y * cos];
}

/** A place mirrored left for right in the upright line through another. */
export function mirrored(at: Point, about: Point): Point {
  return [2 * about[0] - at[0], at[1]];
}
