// Where the sheet is looked at: plan places (ticks, x right, y down) to places on the screen (pixels from the canvas's top
// left) and back. Its pixels are CSS pixels at the usual size of text; where text is larger, so are they, with all that is
// drawn (`textScale` in the state). A viewport is data; every change gives a new one.

import type { Point } from '../../core/graph/index.ts';

export interface Viewport {
  /** The plan place in the middle of the canvas. */
  readonly centre: Point;
  readonly pixelsPerTick: number;
  /** Of the canvas, pixels; 0 before it is laid out. */
  readonly width: number;
  readonly height: number;
}

/** left, top, right, bottom in ticks. */
export type Bounds = readonly [left: number, top: number, right: number, bottom: number];

/** A CSS pixel is 1/96 in: real size on a screen that keeps to it. */
export const REAL_SIZE = 96 / 8128;
const FARTHEST = REAL_SIZE / 4000;
const NEAREST = REAL_SIZE * 40;

export function toScreen({ centre, pixelsPerTick, width, height }: Viewport, at: Point): Point {
  return [width / 2 + (at[0] - centre[0]) * pixelsPerTick, height / 2 + (at[1] - centre[1]) * pixelsPerTick];
}

export function toPlan({ centre, pixelsPerTick, width, height }: Viewport, at: Point): Point {
  return [centre[0] + (at[0] - width / 2) / pixelsPerTick, centre[1] + (at[1] - height / 2) / pixelsPerTick];
}

/** What the screen shows. */
export function boundsOf(viewport: Viewport): Bounds {
  const [left, top] = toPlan(viewport, [0, 0]);
  const [right, bottom] = toPlan(viewport, [viewport.width, viewport.height]);
  return [left, top, right, bottom];
}

/** Zooms by a factor; the plan place under `at` (pixels) stays under it. */
export function zoomedAt(viewport: Viewport, at: Point, factor: number): Viewport {
  const pixelsPerTick = Math.min(NEAREST, Math.max(FARTHEST, viewport.pixelsPerTick * factor));
  const under = toPlan(viewport, at);
  const centre: Point = [
    under[0] - (at[0] - viewport.width / 2) / pixelsPerTick,
    under[1] - (at[1] - viewport.height / 2) / pixelsPerTick,
  ];
  return { ...viewport, centre, pixelsPerTick };
}

/** Moves what is shown by so many pixels. */
export function pannedBy(viewport: Viewport, by: Point): Viewport {
  const { centre, pixelsPerTick } = viewport;
  return { ...viewport, centre: [centre[0] - by[0] / pixelsPerTick, centre[1] - by[1] / pixelsPerTick] };
}

/** Shows the whole of some bounds, with a margin in pixels. A point is shown at `most` pixels to the tick. */
export function fitted(viewport: Viewport, bounds: Bounds, margin = 56, most = REAL_SIZE / 4): Viewport {
  const [left, top, right, bottom] = bounds;
  const across = Math.max(1, viewport.width - 2 * margin) / Math.max(1, right - left);
  const down = Math.max(1, viewport.height - 2 * margin) / Math.max(1, bottom - top);
  const pixelsPerTick = Math.min(most, NEAREST, Math.max(FARTHEST, Math.min(across, down)));
  return { ...viewport, centre: [(left + right) / 2, (top + bottom) / 2], pixelsPerTick };
}

/** The smallest bounds round some points; null of none. */
export function boundsOfPoints(points: Iterable<Point>): Bounds | null {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  }
  return left > right ? null : [left, top, right, bottom];
}
