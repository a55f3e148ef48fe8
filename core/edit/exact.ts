// Where two walls meet, exactly. Positions are whole ticks, x right, y down. Signs come from the exact turn of
// core/graph; the point of a crossing is a fraction of big integers, rounded once to ticks. Knows no walls, only points.
// RULES: ED1.

import type { Point } from '../graph/index.ts';
import { exactTurn } from '../graph/index.ts';

/** Whether `p` lies on the line from `a` to `b`, strictly between the two. Exact. */
export function liesInside(a: Point, b: Point, p: Point): boolean {
  if (exactTurn(a, b, p) !== 0) return false;
  // On the line of two different points: the longer axis alone tells where.
  const axis = Math.abs(b[0] - a[0]) >= Math.abs(b[1] - a[1]) ? 0 : 1;
  return (a[axis] < p[axis] && p[axis] < b[axis]) || (b[axis] < p[axis] && p[axis] < a[axis]);
}

/** Whether a–b and c–d cross at a point that is strictly inside both. Exact. */
export function crossInside(a: Point, b: Point, c: Point, d: Point): boolean {
  return exactTurn(a, b, c) * exactTurn(a, b, d) === -1 && exactTurn(c, d, a) * exactTurn(c, d, b) === -1;
}

/** Whether a–b meets the square of one tick round `p`, its edge included. Exact for whole coordinates. */
export function passesTick(a: Point, b: Point, p: Point): boolean {
  const [low, high] = [
    (axis: 0 | 1) => Math.min(a[axis], b[axis]),
    (axis: 0 | 1) => Math.max(a[axis], b[axis]),
  ];
  for (const axis of [0, 1] as const) {
    if (p[axis] + 0.5 < low(axis) || p[axis] - 0.5 > high(axis)) return false;
  }
  const turns = [
    [-0.5, -0.5],
    [0.5, -0.5],
    [0.5, 0.5],
    [-0.5, 0.5],
  ].map(([dx, dy]) => exactTurn(a, b, [p[0] + dx!, p[1] + dy!]));
  return !(turns.every((turn) => turn === 1) || turns.every((turn) => turn === -1));
}

/**
 * The tick nearest to where the lines a–b and c–d cross, halves away from zero in each coordinate (RULES: ED1, UN2).
 * Requires whole coordinates. Throws when the lines are parallel.
 */
export function crossingTick(a: Point, b: Point, c: Point, d: Point): Point {
  const [ax, ay] = [BigInt(a[0]), BigInt(a[1])];
  const [rx, ry] = [BigInt(b[0]) - ax, BigInt(b[1]) - ay];
  const [cx, cy] = [BigInt(c[0]), BigInt(c[1])];
  const [sx, sy] = [BigInt(d[0]) - cx, BigInt(d[1]) - cy];
  const below = rx * sy - ry * sx;
  if (below === 0n) throw new Error(`crossingTick: ${a}–${b} and ${c}–${d} are parallel`);
  const above = (cx - ax) * sy - (cy - ay) * sx;
  return [nearest(ax * below + rx * above, below), nearest(ay * below + ry * above, below)];
}

/** above / below to the nearest whole number, halves away from zero. */
function nearest(above: bigint, below: bigint): number {
  const negative = above < 0n !== below < 0n;
  const size = above < 0n ? -above : above;
  const by = below < 0n ? -below : below;
  const whole = (2n * size + by) / (2n * by);
  return whole === 0n ? 0 : Number(negative ? -whole : whole);
}
