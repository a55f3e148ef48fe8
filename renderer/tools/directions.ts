// Headings and turns in degrees, clockwise as seen (x right, y down): 0 runs to the right, 90 down the sheet. Quarter
// turns are exact.

import type { Point } from '../../core/graph/index.ts';
import { cross, dot } from '../../core/graph/index.ts';

const QUARTERS: readonly Point[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** The unit vector of a heading. */
export function wayOf(deg: number): Point {
  if (deg % 90 === 0) return QUARTERS[(((deg / 90) % 4) + 4) % 4]!;
  const radians = (deg * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}

/** The heading from one place to another, above −180 to 180. */
export function headingOf(from: Point, to: Point): number {
  return (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
}

/** The turn from one way to another, to the right hand positive, above −180 to 180. */
export function turnOfWays(before: Point, after: Point): number {
  return (Math.atan2(cross(before, after), dot(before, after)) * 180) / Math.PI;
}

/** An angle as the tape bar shows it, to a tenth: `90°`, `−22.5°`. */
export function angleText(deg: number): string {
  const tenths = Math.round(deg * 10) / 10;
  return `${tenths < 0 ? '−' : ''}${Math.abs(tenths)}°`;
}
