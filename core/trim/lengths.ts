// The length and saw formulas of every kind of end, and nothing else: numbers in, numbers out. Lengths in ticks (any one
// unit would do), angles in degrees. Offsets are along the wall, outward positive, so a piece is L plus both its offsets.
// `t` is the piece's own thickness, `t2` its neighbour's, `alpha` an included angle. RULES: LN.

import type { Ticks } from '../units/ticks.ts';
import { ANGLE_TOLERANCE_DEG } from './angles.ts';

/** One end, as the saw sees it. */
export interface Cut {
  readonly backOffset: number;
  readonly faceOffset: number;
  /** Degrees off square, 0 to 90. */
  readonly sawDeg: number;
  readonly longPoint: 'back' | 'face' | null;
}

/** Flat stock that runs through a corner wider than this is bevelled to it, degrees [LN2]. */
export const BEVEL_OVER_DEG = 95;

/**
 * Nearer to 180° than a turn of 0.05° there is no corner, degrees: only a measured angle can say so. Formulas that grow
 * without limit stop here: a board of flat stock is cut square [LN2], unequal bases take nothing off a shoe [LN20].
 */
export const STRAIGHT_DEG = 179.95;

const RAD = Math.PI / 180;
const sin = (deg: number): number => Math.sin(deg * RAD);
const cos = (deg: number): number => (deg === 90 ? 0 : Math.cos(deg * RAD));
const cot = (deg: number): number => cos(deg) / sin(deg);
/** −x without a negative zero. */
const minus = (x: number): number => (x === 0 ? 0 : -x);

/** A cut from its two offsets and its signed setting; a setting of nothing has no long point. */
function cut(backOffset: number, faceOffset: number, sawDeg: number, longPoint: 'back' | 'face'): Cut {
  const size = Math.abs(sawDeg);
  return { backOffset, faceOffset, sawDeg: size, longPoint: size < ANGLE_TOLERANCE_DEG ? null : longPoint };
}

/** Setting of a mitre of two boards of one thickness, degrees off square: (180 − α) / 2 [LN4]. */
export function mitreSetting(alpha: number): number {
  return (180 - alpha) / 2;
}

/**
 * Setting of the board of thickness `t` in a mitre with one of thickness `t2`, degrees off square [LN5]:
 * tan m = (t2/t + cos α) / sin α. Negative where the board is so much the thicker at a wide corner that its long point
 * changes sides. Requires 0 < α < 180.
 */
export function unequalMitreSetting(t: Ticks, t2: Ticks, alpha: number): number {
  return Math.atan((t2 / t + cos(alpha)) / sin(alpha)) / RAD;
}

/** A square end with nothing to meet: at a casing, plinth or cabinet [LN7]. */
export function squareCut(): Cut {
  return { backOffset: 0, faceOffset: 0, sawDeg: 0, longPoint: null };
}

/** A board that runs through an inside corner to the wall [LN1, LN2]. `alpha`: plain. */
export function throughCut(t: Ticks, alpha: number, form: 'flat' | 'shaped'): Cut {
  const bevelled = alpha > BEVEL_OVER_DEG + ANGLE_TOLERANCE_DEG && alpha <= STRAIGHT_DEG;
  if (form === 'flat' && bevelled) {
    return cut(0, -t * cot(alpha), alpha - 90, 'face');
  }
  const back = minus(Math.max(0, t * cot(alpha)));
  return { backOffset: back, faceOffset: back, sawDeg: 0, longPoint: null };
}

/** A cope: cut as an inside mitre, then coped [LN3]. `alpha`: used. */
export function copeCut(t: Ticks, t2: Ticks, alpha: number): Cut {
  const setting = t === t2 ? mitreSetting(alpha) : unequalMitreSetting(t, t2, alpha);
  // For one thickness t·(1/sin α + cot α) is t·tan m, which stays exact as α nears 180.
  const taken = t === t2 ? t * Math.tan(setting * RAD) : t2 / sin(alpha) + t * cot(alpha);
  return cut(0, minus(taken), setting, setting < 0 ? 'face' : 'back');
}

/** A mitre; with `t2` unlike `t` each board has a setting of its own [LN4, LN5]. `alpha`: used. */
export function mitreCut(kind: 'inside' | 'outside', t: Ticks, t2: Ticks, alpha: number): Cut {
  const setting = t === t2 ? mitreSetting(alpha) : unequalMitreSetting(t, t2, alpha);
  const reach = t * Math.tan(setting * RAD);
  const faceLonger = kind === 'outside' ? setting > 0 : setting < 0;
  return cut(0, kind === 'outside' ? reach : minus(reach), setting, faceLonger ? 'face' : 'back');
}

/** A butt against a board that runs through [LN6]. `alpha`: plain. */
export function buttCut(t: Ticks, t2: Ticks, alpha: number): Cut {
  const back = minus(t2 / sin(alpha));
  return cut(back, back - t * cot(alpha), 90 - alpha, alpha < 90 ? 'back' : 'face');
}

/** A board that ends square against the face of a casing round the corner [JT21]: c the casing's thickness. */
export function againstCasingCut(t: Ticks, c: Ticks, alpha: number): Cut {
  const back = minus(c / sin(alpha) + t * Math.max(0, cot(alpha)));
  return { backOffset: back, faceOffset: back, sawDeg: 0, longPoint: null };
}

/** Up to this a board beside a casing is cut back by the casing's whole thickness, degrees [JT21]. */
const CASING_SQUARE_DEG = 100;

/**
 * A board that ends square in a corner whose other wall has a casing `gap` from the corner and no room for a stub
 * [JT21]. At wider corners it need go back only until its front edge clears the casing's edge, if that is less: that
 * edge stands t·sin α along the other wall and comes nearer by −cos α for each unit cut off.
 */
export function besideCasingCut(t: Ticks, c: Ticks, gap: number, alpha: number): Cut {
  const face = againstCasingCut(t, c, alpha);
  if (alpha <= CASING_SQUARE_DEG + ANGLE_TOLERANCE_DEG) return face;
  const clear = Math.max(0, (t * sin(alpha) - gap) / -cos(alpha));
  const back = Math.max(face.backOffset, minus(clear));
  return { ...face, backOffset: back, faceOffset: back };
}

/** The parent's end of a return, held back `hold` from the edge [LN8]. */
export function returnCut(t: Ticks, hold: Ticks): Cut {
  return { backOffset: minus(t + hold), faceOffset: minus(hold), sawDeg: 45, longPoint: 'face' };
}

/** The mitred end of the return piece itself: its outer face is t, its back 0 [LN8]. */
export function returnPieceCut(t: Ticks): Cut {
  return { backOffset: 0, faceOffset: t, sawDeg: 45, longPoint: 'face' };
}

/** Left long by an allowance to be scribed to stone or brick [LN9]. */
export function scribeCut(allowance: Ticks): Cut {
  return { backOffset: allowance, faceOffset: allowance, sawDeg: 0, longPoint: null };
}

/** Square against a corner block that takes `extent` of the wall [LN10]. */
export function blockCut(extent: Ticks): Cut {
  return { backOffset: minus(extent), faceOffset: minus(extent), sawDeg: 0, longPoint: null };
}

/** One half of a scarf at `scarfDeg`; the piece that lies under has the longer back [LN11]. */
export function scarfCut(t: Ticks, scarfDeg: number, lap: 'laps' | 'under'): Cut {
  const slant = t * Math.tan(scarfDeg * RAD);
  return lap === 'under' ? cut(slant, 0, scarfDeg, 'back') : cut(minus(slant), 0, scarfDeg, 'face');
}

/** What the blank must hold: L and the longer of back and face at both ends [LN12]. */
export function overallLength(L: number, left: Cut, right: Cut): number {
  return L + Math.max(left.backOffset, left.faceOffset) + Math.max(right.backOffset, right.faceOffset);
}

/**
 * The least gap between a corner and a casing that leaves room for the board on the other wall [JT20]:
 * r = t2 / sin α + max(t, c) · max(0, cot α), where `t` is the stub's thickness, `t2` the other board's, `c` the casing's.
 */
export function stubRoom(t: Ticks, t2: Ticks, c: Ticks, alpha: number): number {
  return t2 / sin(alpha) + Math.max(t, c) * Math.max(0, cot(alpha));
}

/**
 * What base takes off a shoe's length at an inside corner, or adds at an outside one [LN20]:
 * t_b2 / sin α + t_b · cot α, `tb` being the base on the shoe's own wall, `tb2` that on the other. `alpha`: plain.
 */
export function shoeTake(tb: Ticks, tb2: Ticks, alpha: number): number {
  if (tb === tb2) return tb * Math.tan(mitreSetting(alpha) * RAD);
  if (alpha > STRAIGHT_DEG) return 0;
  return tb2 / sin(alpha) + tb * cot(alpha);
}
