// Exact lengths. One tick is 1/320 mm, so 1/64 in (127 ticks) and 0.1 mm (32 ticks) are both whole.
// Every length inside core is in ticks: whole numbers in the plan, doubles where geometry derives a point.
// Millimetres appear only in files and reports, and say so in their names. RULES: UN1, UN2.

/** A length in ticks, 320 to the millimetre, 8128 to the inch. Whole in a plan; may be fractional when derived. */
export type Ticks = number;

export const TICKS_PER_MM = 320;
export const TICKS_PER_INCH = 8128;
export const TICKS_PER_FOOT = 12 * TICKS_PER_INCH;

/** Rounds to a whole number, halves away from zero (RULES: UN2). Never returns −0. */
export function roundHalfAway(value: number): number {
  const whole = Math.trunc(value);
  const rounded = Math.abs(value - whole) >= 0.5 ? whole + Math.sign(value) : whole;
  return rounded === 0 ? 0 : rounded;
}

/** The nearest whole tick to a length in millimetres, halves away from zero. Throws on a number that is not finite. */
export function ticksFromMm(mm: number): Ticks {
  if (!Number.isFinite(mm)) throw new RangeError(`ticksFromMm: ${mm} is not a finite length in mm`);
  return roundHalfAway(mm * TICKS_PER_MM);
}

/** Millimetres of a length in ticks; not rounded. */
export function mmFromTicks(ticks: Ticks): number {
  return ticks / TICKS_PER_MM;
}
