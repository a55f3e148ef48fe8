// Plane geometry for the outside checks, from nothing but coordinates: points in mm, x right, y down, so that a positive
// cross product turns right (clockwise as seen on the sheet).

import type { Vec } from './file.ts';

export const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1]];
export const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1]];
export const mul = (a: Vec, k: number): Vec => [a[0] * k, a[1] * k];
export const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1];
export const cross = (a: Vec, b: Vec): number => a[0] * b[1] - a[1] * b[0];
export const len = (a: Vec): number => Math.hypot(a[0], a[1]);
export const dist = (a: Vec, b: Vec): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const lerp = (a: Vec, b: Vec, t: number): Vec => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
export const unit = (a: Vec): Vec => mul(a, 1 / len(a));
/** A quarter turn clockwise as seen: from walking east to facing south. The room's side of a walk. */
export const rightOf = (a: Vec): Vec => [-a[1], a[0]];

/** Degrees from a to b, clockwise positive, −180 to 180. */
export function turnDeg(a: Vec, b: Vec): number {
  return (Math.atan2(cross(a, b), dot(a, b)) * 180) / Math.PI;
}

/** Where the line through p along u crosses the line through q along v; null when parallel. */
export function meet(p: Vec, u: Vec, q: Vec, v: Vec): Vec | null {
  const denominator = cross(u, v);
  if (Math.abs(denominator) < 1e-12) return null;
  return add(p, mul(u, cross(sub(q, p), v) / denominator));
}

/** Signed area, positive clockwise as seen (y down). */
export function shoelace(ring: readonly Vec[]): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) twice += cross(ring[i]!, ring[(i + 1) % ring.length]!);
  return twice / 2;
}

export function ringLength(ring: readonly Vec[]): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i++) sum += dist(ring[i]!, ring[(i + 1) % ring.length]!);
  return sum;
}

export function centroid(ring: readonly Vec[]): Vec {
  let x = 0;
  let y = 0;
  let area = 0;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    const c = cross(a, b);
    x += (a[0] + b[0]) * c;
    y += (a[1] + b[1]) * c;
    area += c;
  }
  return [x / (3 * area), y / (3 * area)];
}

/** Even–odd, boundary undefined. */
export function inside(point: Vec, ring: readonly Vec[]): boolean {
  let within = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const a = ring[i]!;
    const b = ring[j]!;
    if (a[1] > point[1] !== b[1] > point[1]) {
      const x = ((b[0] - a[0]) * (point[1] - a[1])) / (b[1] - a[1]) + a[0];
      if (point[0] < x) within = !within;
    }
  }
  return within;
}
