// A level to what a carpenter walks: rooms in canonical order with loops, segments and corners, and what does not fit.
// Ticks and degrees, x right, y down; wall on the left hand, room on the right (RULES: WK1). An earlier walk lends what
// did not change since (RP3). Knows nothing of trim lines.

import { levelFaces } from '../graph/index.ts';
import type { Level, Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { changesSince, doubtfulRecords } from './lend.ts';
import { recordsOf } from './loops.ts';
import { joinedNotes, narrowNotes, notClosedNotes, unusedNotes } from './notes.ts';
import { roomsOf } from './rooms.ts';
import { standingOf } from './standing.ts';
import type { LevelWalk } from './types.ts';

/**
 * Walks one level of a plan. Requires a planar level without dangling references, as reading and mending leave it;
 * throws with the value where it is not. `since`: an earlier walk of this level, in a plan with the same settings and
 * profiles; rooms that did not change are lent from it as the same objects. RULES: WK1 to WK19, CN1, RP3.
 */
export function walkLevel(plan: Plan, level: Level, since?: LevelWalk): LevelWalk {
  const settings = settingsOf(plan);
  const faces = levelFaces(level, settings, since?.level);
  const lender = since?.levelId === level.id ? since : undefined;
  const changes = lender && changesSince(level, lender);
  const { rooms, notes } = roomsOf(
    {
      plan,
      level,
      faces,
      standing: standingOf(level),
      records: recordsOf(level, lender !== undefined),
    },
    lender,
    changes,
  );
  const lent = new Set(lender?.rooms);
  // No corner or face is in two rooms: those that stayed answer to records that stayed.
  const answering = rooms.filter((room) => !lent.has(room));
  const doubtful = lender && changes && doubtfulRecords(rooms, lender, changes);
  const sameWalls = lender?.level.nodes === level.nodes && lender.level.walls === level.walls;
  const notClosed = sameWalls ? lender.notClosed : notClosedNotes(faces, level, settings);
  const outlines = (kind: 'void' | 'outside') =>
    faces.loops.filter((loop) => loop.kind === kind).map((loop) => loop.corners.map((corner) => corner.at));
  return {
    level,
    levelId: level.id,
    faces,
    rooms,
    voids: outlines('void'),
    outside: outlines('outside'),
    notes: [
      ...joinedNotes(narrowNotes(faces, rooms), notClosed),
      ...notes,
      ...unusedNotes(answering, level, doubtful),
    ],
    notClosed,
  };
}
