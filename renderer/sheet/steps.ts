// Zoom in steps, and how much is drawn at each. Labels are placed once for a step and stay where they are on the plan until
// the next: places found at a smaller zoom keep clear of each other at a larger one, because they only move apart.
// Pixels are CSS pixels; a point (core/sheets) is 1/72 in, so 4/3 of one.

import type { PlanView } from '../../core/sheets/plan-view.ts';

/** CSS pixels to a point. */
export const POINT_PX = 96 / 72;
const STEPS_PER_DOUBLING = 5;
const FAR = 1e12;

/** The step at or below a zoom, as pixels to the tick. */
export function stepAt(pixelsPerTick: number): number {
  return 2 ** (Math.floor(Math.log2(pixelsPerTick) * STEPS_PER_DOUBLING + 1e-6) / STEPS_PER_DOUBLING);
}

/** A view for core/sheets at a step: points from the plan's own origin. */
export function viewAt(step: number): PlanView {
  const per = step / POINT_PX;
  return {
    scale: { name: '', ratio: 0 },
    pointsPerTick: per,
    origin: [0, 0],
    window: [-FAR, -FAR, FAR, FAR],
    on: (p) => [p[0] * per, p[1] * per],
    off: (p) => [p[0] / per, p[1] / per],
  };
}

/** What a room has space for, by its shorter and longer side on the screen, pixels. */
interface Detail {
  readonly boards: boolean;
  readonly corners: boolean;
  readonly names: boolean;
  readonly figures: boolean;
}

/** Level of detail [SH4]: what would only be a blot is left out, boards and figures before names, names before walls. */
export function detailFor(shorterPx: number, longerPx: number): Detail {
  return {
    boards: shorterPx >= 26,
    corners: shorterPx >= 34,
    names: shorterPx >= 22 && longerPx >= 40,
    figures: longerPx >= 70 && shorterPx >= 44,
  };
}

/** Whether the small parts of a thing so many pixels long are drawn: jambs and leaves, treads and fins. */
export function finePartsAt(longPx: number): boolean {
  return longPx >= 9;
}
