// Edits of what stands on walls: openings, built-ins and marks are added, changed, moved and taken away. Ticks along the
// centre line from the wall's first node. Keeps the records that name them true. RULES: ED13, ED14.

import type { LevelFaces } from '../graph/index.ts';
import { distance, levelFaces } from '../graph/index.ts';
import { lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Level, Opening, OpeningId, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { type Changes, wholeTicks, withChanges, withRecord } from './fields.ts';
import type {
  AddBuiltIn,
  AddMark,
  AddOpening,
  ChangeBuiltIn,
  ChangeMark,
  ChangeOpening,
  DeleteBuiltIn,
  DeleteMark,
  DeleteOpening,
} from './record-edits.ts';
import { failure, newIdFault, noWall } from './refuse.ts';
import type { EditFailure, MendNote } from './types.ts';

export interface LevelChange {
  readonly level: Level;
  readonly notes: readonly MendNote[];
}

export type StandingEdit =
  | AddOpening
  | ChangeOpening
  | DeleteOpening
  | AddBuiltIn
  | ChangeBuiltIn
  | DeleteBuiltIn
  | AddMark
  | ChangeMark
  | DeleteMark;

export function editStanding(
  level: Level,
  edit: StandingEdit,
  settings: Settings,
): LevelChange | EditFailure {
  switch (edit.type) {
    case 'addOpening': {
      const fault = newIdFault(edit.opening, lookup(level.openings, edit.opening) !== undefined, HERE);
      return fault ?? putOpening(level, edit.opening, wholeTicks(edit.record), settings);
    }
    case 'changeOpening': {
      const record = lookup(level.openings, edit.opening);
      if (record === undefined)
        return failure('no-opening', `There is no opening ${edit.opening} on this level.`);
      return putOpening(level, edit.opening, changed(record, edit.set), settings);
    }
    case 'deleteOpening': {
      if (lookup(level.openings, edit.opening) === undefined)
        return failure('no-opening', `There is no opening ${edit.opening} on this level.`);
      const openings = withRecord(level.openings, edit.opening, undefined);
      return withoutStretches(
        { ...level, openings, rooms: roomsWithout(level, edit.opening) },
        edit.opening,
        null,
      );
    }
    case 'addBuiltIn':
      return addStanding(level, 'builtIns', edit.builtIn, edit.record);
    case 'changeBuiltIn':
      return changeStanding(level, 'builtIns', edit.builtIn, edit.set, settings);
    case 'deleteBuiltIn':
      return deleteStanding(level, 'builtIns', edit.builtIn);
    case 'addMark':
      return addStanding(level, 'marks', edit.mark, edit.record);
    case 'changeMark':
      return changeStanding(level, 'marks', edit.mark, edit.set, settings);
    case 'deleteMark':
      return deleteStanding(level, 'marks', edit.mark);
  }
}

const HERE = 'on this level';
const NAMES = {
  builtIns: { missing: 'no-built-in', word: 'built-in', first: 'Built-in' },
  marks: { missing: 'no-mark', word: 'mark', first: 'Mark' },
} as const;

function changed<T extends object>(record: T, set: Changes<T>): T {
  return withChanges(record, wholeTicks(set));
}

/** An opening lies inside its wall: what is typed is done as typed or not at all. RULES: ED14. */
function putOpening(
  level: Level,
  id: OpeningId,
  record: Opening,
  settings: Settings,
): LevelChange | EditFailure {
  const was = lookup(level.openings, id);
  if (record === was) return { level, notes: [] };
  const length = lengthOfWall(level, record.wall);
  if (length === null) return noWall(record.wall);
  if (!(record.width >= 1)) return failure('bad-number', 'An opening needs a width of more than nothing.');
  const past = record.at + record.width - length;
  if (!(record.at >= 0 && past <= 0.5)) {
    const where = record.width > length + 0.5 ? 'is wider than' : 'would reach past the end of';
    return failure(
      'off-wall',
      `Opening ${id} ${where} wall ${record.wall}: it must lie between the wall’s ends.`,
    );
  }
  const next = { ...level, openings: withRecord(level.openings, id, record) };
  return was === undefined || was.wall === record.wall
    ? { level: next, notes: [] }
    : withoutStretches(next, id, { wall: record.wall, faces: levelFaces(level, settings) });
}

type Kind = 'builtIns' | 'marks';

function addStanding<K extends Kind>(
  level: Level,
  kind: K,
  id: string,
  record: Level[K][keyof Level[K]],
): LevelChange | EditFailure {
  const map = level[kind] as Record<string, typeof record>;
  return (
    newIdFault(id, lookup(map, id) !== undefined, HERE) ??
    putStanding(level, kind, id, wholeTicks(record), null)
  );
}

function changeStanding<K extends Kind>(
  level: Level,
  kind: K,
  id: string,
  set: Changes<Level[K][keyof Level[K]]>,
  settings: Settings,
): LevelChange | EditFailure {
  const record = lookup(level[kind] as Record<string, Level[K][keyof Level[K]]>, id);
  if (record === undefined) return noStanding(kind, id);
  return putStanding(
    level,
    kind,
    id,
    changed(record as object, set as Changes<object>) as typeof record,
    settings,
  );
}

function noStanding(kind: Kind, id: string): EditFailure {
  return failure(NAMES[kind].missing, `There is no ${NAMES[kind].word} ${id} on this level.`);
}

function deleteStanding(level: Level, kind: Kind, id: string): LevelChange | EditFailure {
  const map = level[kind] as Record<string, unknown>;
  if (lookup(map, id) === undefined) return noStanding(kind, id);
  const next: Level = { ...level, [kind]: withRecord(map, id, undefined) };
  return kind === 'builtIns' ? withoutStretches(next, id, null) : { level: next, notes: [] };
}

function putStanding<K extends Kind>(
  level: Level,
  kind: K,
  id: string,
  record: Level[K][keyof Level[K]],
  settings: Settings | null,
): LevelChange | EditFailure {
  const map = level[kind] as Record<string, typeof record>;
  const was = lookup(map, id);
  if (was === record) return { level, notes: [] };
  const { wall, side } = record as { wall: WallId; side: string };
  const length = lengthOfWall(level, wall);
  if (length === null) return noWall(wall);
  const { at, width } = record as { at: number; width: number };
  if (!(at < length && at + width > 0)) {
    const name = NAMES[kind].first;
    return failure(
      'off-wall',
      `${name} ${id} would stand beyond wall ${wall}: some of it must be within the wall’s ends.`,
    );
  }
  const next: Level = { ...level, [kind]: withRecord(map, id, record) };
  const before = was as { wall: WallId; side: string } | undefined;
  const stays = before === undefined || (before.wall === wall && before.side === side);
  if (kind === 'marks' || stays || settings === null) return { level: next, notes: [] };
  return withoutStretches(next, id, { wall, side, faces: levelFaces(level, settings) });
}

function lengthOfWall(level: Level, id: WallId): number | null {
  const wall = lookup(level.walls, id);
  if (wall === undefined) return null;
  return distance(mustLookup(level.nodes, wall.from), mustLookup(level.nodes, wall.to));
}

function roomsWithout(level: Level, opening: OpeningId): Level['rooms'] {
  let rooms = level.rooms;
  for (const [id, room] of sortedEntries(level.rooms)) {
    if (room.entry === opening) rooms = withRecord(rooms, id, withChanges(room, { entry: null }));
  }
  return rooms;
}

/**
 * Takes out measured stretches that end at a thing which no longer stands on their face: none of them where it is gone,
 * those of other faces where it now stands on `wall`. RULES: ED14.
 */
function withoutStretches(
  level: Level,
  id: string,
  now: { readonly wall: WallId; readonly side?: string; readonly faces: LevelFaces } | null,
): LevelChange {
  const notes: MendNote[] = [];
  let faces = level.faces;
  for (const [key, face] of sortedEntries(level.faces)) {
    const gone = Object.keys(face.stretches ?? {}).filter((stretch) => stretch.split('..').includes(id));
    if (gone.length === 0 || (now !== null && standsOn(key, now))) continue;
    const left = Object.entries(face.stretches ?? {}).filter(([stretch]) => !gone.includes(stretch));
    const stretches = left.length === 0 ? null : Object.fromEntries(left);
    const record = withChanges(face, { stretches });
    faces = withRecord(faces, key, Object.keys(record).length === 0 ? undefined : record);
    const message = `Face ${key} has no ${id} any more: its measured stretches ${gone.join(', ')} are dropped.`;
    notes.push({ level: level.id, at: null, about: [key, id], message, loses: true });
  }
  return { level: { ...level, faces }, notes };
}

function standsOn(
  key: string,
  { wall, side, faces }: { readonly wall: WallId; readonly side?: string; readonly faces: LevelFaces },
): boolean {
  return faces.loops.some((loop) =>
    loop.segments.some(
      (segment) =>
        segment.key === key &&
        segment.parts.some((part) => part.wall === wall && (side === undefined || part.side === side)),
    ),
  );
}
