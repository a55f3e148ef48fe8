// The figures of mending and editing, named once. Lengths in ticks.

import { MAX_MM } from '../plan/schema.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';

/** A level that is not planar after this many passes is refused (RULES: ED1). */
export const MEND_PASSES = 20;
/** A plan of so many walls may have so many touches and crossings to mend, and pairs of walls to look at (RULES: ED1). */
export const mostEffort = (walls: number) => ({ meets: 5_000 + 2 * walls, pairs: 500_000 + 30 * walls });
/** From this pass on walls also snap to nodes within a tick, so that a dense tangle comes to rest (RULES: ED1). */
export const SNAP_PASS = 8;
/** A node this close to the line between its neighbours joins them in line: what rounding can have moved it (RULES: ED9). */
export const JOIN_OFF_TICKS = 1;
/** Coordinates beyond this are refused, as in a file. */
export const FARTHEST_TICKS = MAX_MM * TICKS_PER_MM;
/** Digits up to which a number in an id counts when the next free id is sought (RULES: ED4). */
export const LONGEST_COUNTED = 9;
/** As near to an old node a corner is looked for when a part too short to show came to lie there (RULES: ED6, WK7). */
export const BESIDE_TICKS = TICKS_PER_MM;
/** A drawn corner so sharp that its walls would meet more than this many half thicknesses away is refused (RULES: ED18). */
export const FURTHEST_CORNER = 20;
/** A face as long as the line drawn along it, within this, is that line's: both ends were rounded (RULES: ED18). */
export const SAME_FACE_TICKS = 2;
