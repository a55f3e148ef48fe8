// How a level falls on paper: the part of it that is shown, the scale, and the way from ticks to points. Both axes run
// the same way on the plan and on the sheet (x right, y down), so a plan is never mirrored.

import type { Point } from '../graph/types.ts';
import type { LevelWalk } from '../walk/types.ts';
import { type Box, boxOf } from './boxes.ts';
import { type NamedScale, pointsPerTick } from './scale.ts';

/** [x0, y0, x1, y1] in ticks. */
export type TickBox = readonly [x0: number, y0: number, x1: number, y1: number];

export interface PlanView {
  readonly scale: NamedScale;
  readonly pointsPerTick: number;
  /** Where the plan's [0, 0] falls on the sheet. */
  readonly origin: Point;
  /** What is drawn, on the sheet; walls are cut off here. */
  readonly window: Box;
  /** Ticks to points. */
  on(p: Point): Point;
  /** Points to ticks. */
  off(p: Point): Point;
}

/** A view that sets the middle of `shown` (ticks) in the middle of `window` (points). */
export function viewOf(shown: TickBox, window: Box, scale: NamedScale): PlanView {
  const per = pointsPerTick(scale.ratio);
  const origin: Point = [
    (window[0] + window[2]) / 2 - ((shown[0] + shown[2]) / 2) * per,
    (window[1] + window[3]) / 2 - ((shown[1] + shown[3]) / 2) * per,
  ];
  return {
    scale,
    pointsPerTick: per,
    origin,
    window,
    on: (p) => [origin[0] + p[0] * per, origin[1] + p[1] * per],
    off: (p) => [(p[0] - origin[0]) / per, (p[1] - origin[1]) / per],
  };
}

/** Every wall outline of a level, in ticks: what stands outside, rooms, voids. Even-odd, they fill the walls. */
export function wallRings(walk: LevelWalk): Point[][] {
  return [
    ...walk.outside.map((ring) => [...ring]),
    ...walk.voids.map((ring) => [...ring]),
    ...walk.rooms.flatMap((room) => room.loops.map((loop) => loop.corners.map((corner) => corner.at))),
  ].filter((ring) => ring.length >= 3);
}

/** The box round all that a level has of walls, ticks; null where it has none. */
export function extentOf(walk: LevelWalk): TickBox | null {
  const points = wallRings(walk).flat();
  return points.length === 0 ? null : boxOf(points);
}

/** Whether a point lies in one of the rings, even-odd. The edge itself may fall either way. */
export function inRings(rings: readonly (readonly Point[])[], [x, y]: Point): boolean {
  let inside = false;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[i]!;
      const [bx, by] = ring[j]!;
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
    }
  }
  return inside;
}
