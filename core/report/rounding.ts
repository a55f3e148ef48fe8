// Numbers as the report prints them: millimetres and degrees to 6 decimals, solver lengths to 0.01 mm, no −0 (RULES: RP1).
// Sine, cosine and tangent differ in the last bit between JavaScript engines; rounding is what makes reports equal.

import type { Point } from '../graph/types.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';

function roundTo(value: number, perUnit: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`a report cannot hold ${value}`);
  const rounded = Math.round(value * perUnit) / perUnit;
  return rounded === 0 ? 0 : rounded;
}

/** Degrees, or any plain number, to 6 decimals. Throws when not finite. */
export const round6 = (value: number): number => roundTo(value, 1e6);

/** Millimetres to 6 decimals of a length in ticks. */
export const reportMm = (ticks: number): number => round6(ticks / TICKS_PER_MM);

/** Square millimetres to 6 decimals of an area in square ticks. */
export const reportMm2 = (squareTicks: number): number => round6(squareTicks / TICKS_PER_MM / TICKS_PER_MM);

/** Millimetres to 0.01 of a length in ticks that came from a solver. */
export const solverMm = (ticks: number): number => roundTo(ticks / TICKS_PER_MM, 100);

/** Square millimetres to 0.01 of an area in square ticks that came from a solver. */
export const solverMm2 = (squareTicks: number): number =>
  roundTo(squareTicks / TICKS_PER_MM / TICKS_PER_MM, 100);

/** A position in mm, 6 decimals. */
export const reportPoint = (point: Point): [number, number] => [reportMm(point[0]), reportMm(point[1])];
