// Included angles of corners, degrees: drawn, measured, the build-up allowance, and the angle used.
// The included angle is what an angle finder laid on the two walls reads, at most 180. RULES: CN10 to CN14.

import type { Settings } from '../plan/settings.ts';
import type { Corner, Segment } from '../walk/types.ts';
import type { CornerAngles } from './types.ts';

/** Angles nearer than this are the same, degrees (RULES: CN14). */
export const ANGLE_TOLERANCE_DEG = 1e-6;

/** A build-up allowance never closes an outside corner below this, degrees. */
const LEAST_USED_DEG = 1;

/**
 * The angles of one corner, degrees [CN10–CN13]. `before` is the segment that ends in it, `after` the one that starts
 * there. The allowance is added where nobody measured and both faces are drywall; the angle used is at most 180.
 */
export function cornerAngles(
  corner: Corner,
  before: Segment,
  after: Segment,
  settings: Settings,
): CornerAngles {
  const inside = corner.kind === 'inside';
  const drawn = inside ? corner.roomAngleDeg : 360 - corner.roomAngleDeg;
  const measured = corner.record?.measured ?? null;
  const plain = measured ?? drawn;
  const builtUp = measured === null && before.surfaceRight === 'drywall' && after.surfaceLeft === 'drywall';
  const allowance = !builtUp || settings.buildUpDeg === 0 ? 0 : settings.buildUpDeg * (inside ? 1 : -1);
  const floor = Math.min(plain, LEAST_USED_DEG);
  return { drawn, measured, allowance, used: Math.min(180, Math.max(floor, plain + allowance)), plain };
}

/** Is the plain angle one that is coped or butted inside: 80 to 100 degrees, both ends counted [JT2]. */
export function nearSquare(plain: number): boolean {
  return plain >= 80 - ANGLE_TOLERANCE_DEG && plain <= 100 + ANGLE_TOLERANCE_DEG;
}
