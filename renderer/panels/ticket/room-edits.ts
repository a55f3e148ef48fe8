// Edits of a room that may have no record yet: the first thing said of it gives it one, at a place on its floor.

import { type AddRoom, apply, type Edit, idGiver } from '../../../core/edit/index.ts';
import type { Point } from '../../../core/graph/index.ts';
import type { LevelId, Plan, ProfileId, RoomId, RoomRecord, TrimLine } from '../../../core/plan/index.ts';
import { roundHalfAway } from '../../../core/units/index.ts';
import { facingSegments, type Room } from '../../../core/walk/index.ts';

/** Farthest from a wall that a room's name is put, ticks: 1 m. */
const FAR_IN = 320_000;

/** Places that lie on a room's floor in all likelihood, best first: halfway across from its longer walls. */
function likelyPlaces(room: Room): Point[] {
  const faces = (room.loops[0]?.segments ?? [])
    .filter(({ parts }) => parts.length > 0)
    .toSorted((a, b) => b.drawn - a.drawn);
  const into = ({ start, end, inward }: (typeof faces)[number], by: number): Point => [
    roundHalfAway((start[0] + end[0]) / 2 + inward[0] * by),
    roundHalfAway((start[1] + end[1]) / 2 + inward[1] * by),
  ];
  const across = faces.map((face) =>
    into(face, Math.min(FAR_IN, (facingSegments(room, face)[0]?.distance ?? FAR_IN) / 2)),
  );
  return [...across, ...faces.map((face) => into(face, 3200)), ...faces.map((face) => into(face, 320))];
}

/** Gives a room a record with a name. Null where no place on its floor was found. */
export function nameRoom(plan: Plan, room: Room, name: string): AddRoom | null {
  const level = plan.levels.find(({ id }) => id === room.level);
  if (level === undefined) return null;
  const id = idGiver<RoomId>('r', Object.keys(level.rooms))();
  for (const at of likelyPlaces(room)) {
    const record: RoomRecord = { name, at: [at[0], at[1]] };
    const edit: AddRoom = { type: 'addRoom', level: room.level, room: id, record };
    if (apply(plan, edit).ok) return edit;
  }
  return null;
}

/** An edit of the room's record; where it has none yet, that is made as part of the same step. */
export function roomEdit(
  plan: Plan,
  room: Room,
  make: (id: RoomId, level: LevelId) => Edit,
  words?: string,
): Edit | null {
  if (room.record !== undefined) return make(room.id as RoomId, room.level);
  const named = nameRoom(plan, room, room.name);
  if (named === null) return null;
  return {
    type: 'several',
    edits: [named, make(named.room, room.level)],
    words: words ?? `name ${room.name}`,
  };
}

type Heights = 'old' | 'new';

/** One figure of the old or the new base and floor. `null` takes it out. */
export function roomHeight<W extends Heights>(
  plan: Plan,
  room: Room,
  which: W,
  field: keyof NonNullable<RoomRecord[W]>,
  value: number | boolean | null,
): Edit | null {
  const { [field]: _was, ...rest } = (room.record?.[which] ?? {}) as Record<string, unknown>;
  const now = value === null ? rest : { ...rest, [field]: value };
  const set = { [which]: Object.keys(now).length === 0 ? null : now };
  return roomEdit(plan, room, (id, level) => ({ type: 'changeRoom', level, room: id, set }));
}

/** What a room carries of one line: a profile or none. */
export function roomLine(plan: Plan, room: Room, line: TrimLine, profile: ProfileId | null): Edit | null {
  return roomEdit(plan, room, (id, level) => ({
    type: 'setTrim',
    level,
    of: { room: id },
    lines: { [line]: profile === null ? null : { profile } },
  }));
}
