// An opened and mended level back to a level of the plan: its records carried to the walls there are now. RULES: ED6.

import type { FaceLoop } from '../graph/index.ts';
import { levelFaces } from '../graph/index.ts';
import type { Level } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { addRecords } from './add-records.ts';
import { carryCorners, cornersOf } from './carry-corners.ts';
import { carryFaces } from './carry-faces.ts';
import { carryRooms } from './carry-rooms.ts';
import { kinOf } from './kin.ts';
import { isPlanar, rememberPlanar } from './planar.ts';
import { settleStanding } from './settle.ts';
import type { MendNote } from './types.ts';
import { closeLevel, type Working } from './working.ts';

export interface Finished {
  readonly level: Level;
  /** The level's face loops where they were needed. */
  readonly loops: readonly FaceLoop[] | null;
  readonly notes: readonly MendNote[];
}

/**
 * The level as it now is, with its corner, face and room records under their new keys, and all notes so far. Requires
 * that the level was made planar; throws where it was not and two walls lie on each other.
 */
export function finishLevel(working: Working, settings: Settings): Finished {
  settleStanding(working);
  const { before } = working;
  const closed = closeLevel(working);
  rememberPlanar(closed);
  const records = [before.corners, before.faces, before.rooms];
  const added = working.addedRooms.size + working.measured.length;
  if (added === 0 && records.every((map) => Object.keys(map).length === 0)) {
    return { level: closed, loops: null, notes: working.notes };
  }
  const was = isPlanar(before) ? levelFaces(before, settings) : null;
  const is = levelFaces(closed, settings, before);
  const kin = kinOf(working);
  const now = cornersOf(closed, is, was);
  const { corners, notes: ofCorners } = carryCorners(closed, kin, was, now);
  const { faces, notes: ofFaces } = carryFaces(closed, before, kin, was, is, now);
  const rooms = carryRooms(closed, kin, was, is);
  const carried = { ...closed, corners, faces, rooms };
  const { level, notes: ofNew } = addRecords(carried, working, is);
  return { level, loops: is.loops, notes: [...working.notes, ...ofCorners, ...ofFaces, ...ofNew] };
}
