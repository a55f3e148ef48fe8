// Orientation, axes and handedness, stated once for the whole program. x right, y DOWN the sheet, in ticks.
// Turning from +x to +y is clockwise as seen. A walk has the wall on its left hand and the floor on its right, so a
// room's outer loop runs clockwise as seen and its signed area is positive (RULES: WK1). Signs are exact where the name
// says so; nothing here knows walls or rooms. tests/core/graph/orientation.test.ts holds the lopsided test.

import { orient2d } from 'robust-predicates';
import type { Point } from './types.ts';

/** Below this turn two walls in line are one face: no corner (RULES: WK6). */
export const NO_CORNER_DEG = 0.05;
/** Its tangent, for comparing |cross| with dot. */
export const NO_CORNER_TAN = Math.tan((NO_CORNER_DEG * Math.PI) / 180);

export function minus(a: Point, b: Point): Point {
  return [a[0] - b[0], a[1] - b[1]];
}

/** `p` moved by `distance` along the vector `v`. */
export function along(p: Point, v: Point, distance: number): Point {
  return [p[0] + v[0] * distance, p[1] + v[1] * distance];
}

export function midpoint(a: Point, b: Point): Point {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

export function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1];
}

/** Positive where `b` lies clockwise of `a` as seen: a turn to the right. */
export function cross(a: Point, b: Point): number {
  return a[0] * b[1] - a[1] * b[0];
}

/** The vector turned a quarter clockwise as seen: from a walking direction to its right hand, where the floor is. */
export function rightOf(v: Point): Point {
  // 0 − 0 is 0, where −0 would be its own number.
  return [0 - v[1], v[0]];
}

export function lengthOf(v: Point): number {
  return Math.sqrt(v[0] * v[0] + v[1] * v[1]);
}

export function distance(a: Point, b: Point): number {
  return lengthOf([b[0] - a[0], b[1] - a[1]]);
}

/** Unit vector. Throws on a vector of no length. */
export function unit(v: Point): Point {
  const length = lengthOf(v);
  if (length === 0) throw new Error('unit: a vector of no length has no direction');
  return [v[0] / length, v[1] / length];
}

/**
 * Whether the way a → b → c turns right (clockwise as seen, 1), left (−1) or goes straight or back (0). Exact for the
 * doubles given. The predicate counts anticlockwise as seen on a sheet with y down as positive; this turns it round.
 */
export function exactTurn(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const det = orient2d(a[0], a[1], b[0], b[1], c[0], c[1]);
  return det > 0 ? -1 : det < 0 ? 1 : 0;
}

/** The turn from direction `a` to direction `b` in degrees, right positive, in (−180, 180]. */
export function turnDeg(a: Point, b: Point): number {
  return (Math.atan2(cross(a, b), dot(a, b)) * 180) / Math.PI;
}

/**
 * Angle of a corner through the room, 0 to 360 degrees, from the walking directions of the faces before and after it
 * (RULES: CN1). Turning right is an inside corner (below 180), turning left an outside one.
 */
export function roomAngleDeg(before: Point, after: Point): number {
  return 180 - turnDeg(before, after);
}

/** Signed area of a closed polygon, square ticks, positive for clockwise as seen. Doubles. */
export function signedArea(points: readonly Point[]): number {
  const origin = points[0];
  if (origin === undefined) return 0;
  let twice = 0;
  for (let i = 1; i + 1 < points.length; i++) {
    twice += cross(minus(points[i]!, origin), minus(points[i + 1]!, origin));
  }
  return twice / 2;
}

/** Sign of the area of a closed polygon of WHOLE coordinates within 2^31: 1 clockwise as seen, −1 anticlockwise, 0. Exact. */
export function exactAreaSign(points: readonly Point[]): -1 | 0 | 1 {
  const origin = points[0];
  if (origin === undefined) return 0;
  let twice = 0;
  let size = 0;
  for (let i = 1; i + 1 < points.length; i++) {
    const [ax, ay] = minus(points[i]!, origin);
    const [bx, by] = minus(points[i + 1]!, origin);
    twice += ax * by - ay * bx;
    size += Math.abs(ax * by) + Math.abs(ay * bx);
  }
  // Each product and each sum is off by at most 2^-53 of its size; the running sums are at most `size`.
  const sure = size * (points.length + 4) * 2 ** -52;
  if (twice > sure) return 1;
  if (twice < -sure) return -1;
  return bigAreaSign(points, origin);
}

function bigAreaSign(points: readonly Point[], origin: Point): -1 | 0 | 1 {
  let twice = 0n;
  for (let i = 1; i + 1 < points.length; i++) {
    const [ax, ay] = minus(points[i]!, origin);
    const [bx, by] = minus(points[i + 1]!, origin);
    twice += BigInt(ax) * BigInt(by) - BigInt(ay) * BigInt(bx);
  }
  return twice > 0n ? 1 : twice < 0n ? -1 : 0;
}
