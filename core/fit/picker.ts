// The checks turned round: which of the plan's profiles would do in a room, and why each other one would not.
// Each profile is put into the room and the room is trimmed and checked as ever; nothing is estimated.

import { sortedEntries } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId, TrimLine } from '../plan/schema.ts';
import { trimRoom } from '../trim/index.ts';
import type { RoomTrim } from '../trim/types.ts';
import type { Room } from '../walk/types.ts';
import { type LevelBundle, roomFindings, sortFindings } from './level.ts';
import type { Finding, FindingCode } from './types.ts';

/** What a profile can be to blame for. The rest (a narrow stub, a pocket door, an odd angle) any profile would meet. */
const OF_THE_PROFILE: ReadonlySet<FindingCode> = new Set([
  'base-proud',
  'base-flush',
  'base-short',
  'base-close',
  'height-change',
  'outlet-hit',
  'sill-hit',
  'stock-none',
] as const);

export interface Picked {
  readonly profile: ProfileId;
  /** No stop and no fix. */
  readonly passes: boolean;
  /** Where it fails: each failure. Where it passes: what is still worth a look, and what could not be checked. */
  readonly why: readonly string[];
}

/**
 * Every profile of the line's kind, in order of id: does it pass all checks in this room (RULES: FD20)? Faces that have a
 * choice of their own keep it. Throws when the level has no such room.
 */
export function pickProfiles(plan: Plan, level: LevelBundle, roomId: string, line: TrimLine): Picked[] {
  const room = level.walk.rooms.find((each) => each.id === roomId);
  if (!room)
    throw new Error(`pickProfiles: no room ${JSON.stringify(roomId)} on level ${level.walk.levelId}`);
  return sortedEntries(plan.profiles)
    .filter(([, profile]) => profile.kind === line)
    .map(([id, profile]) => picked(plan, level, room, line, id, profile));
}

function picked(
  plan: Plan,
  level: LevelBundle,
  room: Room,
  line: TrimLine,
  id: ProfileId,
  profile: Profile,
): Picked {
  const trim = trimRoom(plan, withProfile(room, line, id), {});
  const found = sortFindings(roomFindings(plan, level.walk.levelId, trim, []), plan);
  const mine = found.filter((each) => OF_THE_PROFILE.has(each.code) && isAbout(each, id, trim, line));
  const failures = mine.filter((each) => each.severity !== 'look');
  const unmeasured = line === 'base' ? found.filter((each) => each.code === 'unmeasured') : [];
  const missing = profile.height === undefined && line === 'base' ? ['Its height is not known.'] : [];
  const why = failures.length > 0 ? failures : [...mine, ...unmeasured];
  return {
    profile: id,
    passes: failures.length === 0,
    why: [...why.map((each) => each.message), ...missing],
  };
}

function withProfile(room: Room, line: TrimLine, id: ProfileId): Room {
  const record = room.record ?? { name: room.name, at: [0, 0] as [number, number] };
  return { ...room, record: { ...record, trim: { ...record.trim, [line]: id } } };
}

/** Findings name the profile, or a board of it. */
function isAbout(found: Finding, id: ProfileId, trim: RoomTrim, line: TrimLine): boolean {
  if (found.about.includes(id)) return true;
  const boards = trim.lines
    .filter((each) => each.line === line)
    .flatMap((each) => each.runs.flatMap((run) => run.pieces));
  return boards.some((piece) => piece.profileId === id && found.about.includes(piece.id));
}
