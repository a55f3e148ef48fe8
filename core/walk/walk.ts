// A level to what a carpenter walks: rooms in canonical order with loops, segments and corners, and what does not fit.
// Ticks and degrees, x right, y down; wall on the left hand, room on the right (RULES: WK1). Derived afresh each time.
// Knows nothing of trim lines.

import { levelFaces } from '../graph/index.ts';
import type { Level, Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { recordsOf } from './loops.ts';
import { joinedNotes, narrowNotes, notClosedNotes, unusedNotes } from './notes.ts';
import { roomsOf } from './rooms.ts';
import { standingOf } from './standing.ts';
import type { LevelWalk } from './types.ts';

/**
 * Walks one level of a plan. Requires a planar level without dangling references, as reading and mending leave it;
 * throws with the value where it is not. RULES: WK1 to WK19, CN1.
 */
export function walkLevel(plan: Plan, level: Level): LevelWalk {
  const settings = settingsOf(plan);
  const faces = levelFaces(level, settings);
  const { rooms, notes } = roomsOf({
    plan,
    level,
    faces,
    standing: standingOf(level),
    records: recordsOf(level),
  });
  const outlines = (kind: 'void' | 'outside') =>
    faces.loops.filter((loop) => loop.kind === kind).map((loop) => loop.corners.map((corner) => corner.at));
  return {
    level,
    levelId: level.id,
    rooms,
    voids: outlines('void'),
    outside: outlines('outside'),
    notes: [
      ...joinedNotes(narrowNotes(faces, rooms), notClosedNotes(faces, level, settings)),
      ...notes,
      ...unusedNotes(rooms, level),
    ],
  };
}
