// Edits of what is kept of rooms, faces and corners: names, trim, floors, measured figures and chosen joints. Ticks, and
// degrees for angles. A record is only made for a room, a face or a corner that there is. RULES: ED13, ED15.

import type { FaceLoop, LevelFaces } from '../graph/index.ts';
import { levelFaces } from '../graph/index.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import {
  type CornerRecord,
  type FaceRecord,
  type Level,
  LINES,
  type Plan,
  type RoomRecord,
  type TrimChoice,
} from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { roomsOf } from './carry-rooms.ts';
import { type Changes, wholeTicks, withChanges, withOptionalChanges, withRecord } from './fields.ts';
import type {
  AddRoom,
  ChangeRoom,
  CornerChoice,
  DeleteRoom,
  SetCorner,
  SetFace,
  SetTrim,
} from './record-edits.ts';
import { failure, isFailure, newIdFault, wholePoint } from './refuse.ts';
import type { LevelChange } from './standing-edits.ts';
import type { EditFailure } from './types.ts';

export type RoomEdit = AddRoom | ChangeRoom | DeleteRoom | SetTrim | SetCorner | SetFace;

export function editRoom(
  plan: Plan,
  level: Level,
  edit: RoomEdit,
  settings: Settings,
): LevelChange | EditFailure {
  const next = change(plan, level, edit, () => levelFaces(level, settings));
  return isFailure(next) ? next : { level: next, notes: [] };
}

function change(plan: Plan, level: Level, edit: RoomEdit, faces: () => LevelFaces): Level | EditFailure {
  switch (edit.type) {
    case 'addRoom': {
      const fault = newIdFault(edit.room, lookup(level.rooms, edit.room) !== undefined, 'on this level');
      if (fault !== null) return fault;
      const record = wholeTicks(edit.record);
      return (
        entryFault(level, record) ??
        placeFault(level, edit.room, record, faces()) ??
        putRoom(level, edit.room, record)
      );
    }
    case 'changeRoom': {
      const was = lookup(level.rooms, edit.room);
      if (was === undefined) return noRoom(edit.room);
      const record = withChanges<RoomRecord>(was, wholeTicks(edit.set) as Changes<RoomRecord>);
      if (record === was) return level;
      const moved = record.at !== was.at;
      const fault =
        entryFault(level, record) ?? (moved ? placeFault(level, edit.room, record, faces()) : null);
      return fault ?? putRoom(level, edit.room, record);
    }
    case 'deleteRoom':
      if (lookup(level.rooms, edit.room) === undefined) return noRoom(edit.room);
      return { ...level, rooms: withRecord(level.rooms, edit.room, undefined) };
    case 'setTrim':
      return setTrim(plan, level, edit, faces);
    case 'setCorner':
      return setCorner(level, edit, faces);
    case 'setFace':
      return setFace(level, edit, faces);
  }
}

function noRoom(id: string): EditFailure {
  return failure('no-room', `There is no room record ${id} on this level.`);
}

function putRoom(level: Level, id: AddRoom['room'], record: RoomRecord): Level {
  return { ...level, rooms: withRecord(level.rooms, id, record) };
}

function entryFault(level: Level, { entry }: RoomRecord): EditFailure | null {
  if (entry === undefined || lookup(level.openings, entry) !== undefined) return null;
  return failure('no-opening', `There is no opening ${entry} on this level to enter by.`);
}

/** A room's point lies on the floor of a room that no other record names. RULES: ED15. */
function placeFault(level: Level, id: string, record: RoomRecord, faces: LevelFaces): EditFailure | null {
  const at = wholePoint(record.at);
  if (isFailure(at)) return at;
  const rooms = roomsOf(faces);
  const room = rooms.holding(at);
  if (room === null) return failure('no-room', 'There is no room round that place: its walls do not close.');
  for (const [other, { at: there, name }] of sortedEntries(level.rooms)) {
    if (other !== id && rooms.holding(there) === room) {
      return failure('room-taken', `That room has a name already: ${JSON.stringify(name)} (${other}).`);
    }
  }
  return null;
}

function setTrim(
  plan: Plan,
  level: Level,
  { of, lines }: SetTrim,
  faces: () => LevelFaces,
): Level | EditFailure {
  const set: Record<string, string | null | undefined> = {};
  for (const line of LINES) {
    const choice = lines[line];
    if (choice === undefined) continue;
    set[line] = choice === null ? undefined : choice.profile;
    if (choice === null || choice.profile === null) continue;
    const profile = lookup(plan.profiles, choice.profile);
    if (profile === undefined)
      return failure('no-profile', `There is no profile ${choice.profile} in this plan.`);
    if (profile.kind !== line) {
      return failure(
        'no-profile',
        `Profile ${choice.profile} is of kind ${profile.kind} and cannot be a ${line}.`,
      );
    }
  }
  if ('room' in of) {
    const room = lookup(level.rooms, of.room);
    if (room === undefined) return noRoom(of.room);
    return putRoom(level, of.room, withChanges(room, { trim: chosen(room.trim, set) ?? null }));
  }
  const face = lookup(level.faces, of.face);
  const trim = chosen(face?.trim, set);
  if (trim !== undefined && !hasFace(faces(), of.face)) return noFace(of.face);
  const record = withOptionalChanges<FaceRecord>(face, { trim: trim ?? null });
  return { ...level, faces: withRecord(level.faces, of.face, record) };
}

/** Here `null` is a choice (none) and undefined takes the line out: it follows the rule again. */
function chosen(
  trim: TrimChoice | undefined,
  set: Readonly<Record<string, string | null | undefined>>,
): TrimChoice | undefined {
  const lines = new Map<string, unknown>(Object.entries(trim ?? {}));
  for (const [line, profile] of Object.entries(set)) {
    if (profile === undefined) lines.delete(line);
    else lines.set(line, profile);
  }
  return lines.size === 0 ? undefined : (Object.fromEntries(lines) as TrimChoice);
}

function isRoomLoop({ kind }: FaceLoop): boolean {
  return kind === 'outer' || kind === 'island';
}

function hasFace(faces: LevelFaces, key: string): boolean {
  return faces.loops.some((loop) => isRoomLoop(loop) && loop.segments.some((segment) => segment.key === key));
}

function noFace(key: string): EditFailure {
  return failure('no-face', `There is no face ${key} in a room of this level.`);
}

function setCorner(level: Level, { corner, set }: SetCorner, faces: () => LevelFaces): Level | EditFailure {
  const was = lookup(level.corners, corner);
  const measured = set.measured;
  if (measured !== undefined && measured !== null && !(measured > 0 && measured <= 180)) {
    const said = `A measured angle is above 0 and at most 180 degrees: ${measured} is not.`;
    return failure('bad-number', said);
  }
  const changes: { measured?: number | null; lines?: CornerRecord['lines'] | null } = {};
  if (measured !== undefined) changes.measured = measured;
  if (set.lines !== undefined) {
    const lines = new Map(Object.entries(was?.lines ?? {}));
    for (const line of LINES) {
      const choice = set.lines[line];
      if (choice === undefined) continue;
      const now =
        choice === null ? undefined : withOptionalChanges<object>(lines.get(line), choice as CornerChoice);
      if (now === undefined) lines.delete(line);
      else lines.set(line, now);
    }
    changes.lines = lines.size === 0 ? null : (Object.fromEntries(lines) as CornerRecord['lines']);
  }
  const record = withOptionalChanges<CornerRecord>(was, changes as Changes<CornerRecord>);
  const onlyClears = Object.keys(record ?? {}).every((key) => was !== undefined && Object.hasOwn(was, key));
  if (record !== was && !(onlyClears && lessThan(record, was)) && !hasCorner(faces(), corner)) {
    return failure('no-corner', `There is no corner ${corner} in a room of this level.`);
  }
  return { ...level, corners: withRecord(level.corners, corner, record) };
}

function hasCorner(faces: LevelFaces, key: string): boolean {
  return faces.loops.some((loop) => isRoomLoop(loop) && loop.corners.some((corner) => corner.key === key));
}

/** Whether a record holds less than it did: a record that fits nothing can still be emptied. */
function lessThan(now: object | undefined, was: object | undefined): boolean {
  return JSON.stringify(now ?? {}).length < JSON.stringify(was ?? {}).length;
}

function setFace(level: Level, { face, set }: SetFace, faces: () => LevelFaces): Level | EditFailure {
  const was = lookup(level.faces, face);
  const { stretches, ...rest } = wholeTicks(set);
  const changes: Record<string, unknown> = { ...rest };
  for (const list of ['floor', 'line', 'studs'] as const) {
    if (Array.isArray(changes[list]) && changes[list].length === 0) changes[list] = null;
  }
  if (stretches !== undefined) {
    const now = withOptionalChanges(was?.stretches as Record<string, number> | undefined, stretches);
    changes.stretches = now ?? null;
  }
  const record = withOptionalChanges<FaceRecord>(was, changes as Changes<FaceRecord>);
  if (record !== was && !lessThan(record, was) && !hasFace(faces(), face)) return noFace(face);
  return { ...level, faces: withRecord(level.faces, face, record) };
}
