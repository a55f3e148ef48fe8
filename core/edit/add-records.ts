// Records that come with new walls, once the walls stand: a name for the room they go round, and the typed lengths of
// their faces. What finds no place is not kept, with a note. Ticks. RULES: ED18, ED21.

import type { FaceSegment, LevelFaces } from '../graph/index.ts';
import { distance } from '../graph/index.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type { Level } from '../plan/schema.ts';
import { pointInside, roomsOf } from './carry-rooms.ts';
import { withRecord } from './fields.ts';
import { SAME_FACE_TICKS } from './limits.ts';
import type { MendNote } from './types.ts';
import { type MeasuredFace, piecesOf, sideOn, type Working } from './working.ts';

/** `level` with the new records of `working`; `faces` are the level's as it now is. */
export function addRecords(
  level: Level,
  working: Working,
  faces: LevelFaces,
): { readonly level: Level; readonly notes: readonly MendNote[] } {
  const notes: MendNote[] = [];
  const rooms = addRooms(level, working, faces, notes);
  const measured = addMeasured(level, working, faces, notes);
  return { level: { ...level, rooms, faces: measured }, notes };
}

/** A new record is kept where its place is in a room that no other record names. */
function addRooms(level: Level, working: Working, faces: LevelFaces, notes: MendNote[]): Level['rooms'] {
  if (working.addedRooms.size === 0) return level.rooms;
  const floors = roomsOf(faces);
  const named = new Set(sortedEntries(level.rooms).map(([, { at }]) => floors.holding(at)));
  let rooms = level.rooms;
  for (const [id, { record: wanted, beside }] of working.addedRooms) {
    const meant = faces.loops.findIndex(
      ({ kind, segments }) =>
        kind === 'outer' &&
        segments.some(({ parts }) =>
          parts.some(({ wall, side }) => wall === beside?.wall && side === beside.side),
        ),
    );
    const held = floors.holding(wanted.at);
    const at = meant === -1 || held === meant ? wanted.at : (pointInside(meant, floors) ?? wanted.at);
    const record = { ...wanted, at };
    const room = floors.holding(at);
    if (room !== null && !named.has(room)) {
      named.add(room);
      const { entry, ...rest } = record;
      const kept = entry !== undefined && lookup(level.openings, entry) !== undefined ? record : rest;
      rooms = withRecord(rooms, id, kept);
      continue;
    }
    const why = room === null ? 'its walls do not go round that place' : 'that room has a name already';
    const message = `Room ${JSON.stringify(record.name)} is not kept: ${why}.`;
    notes.push({ level: level.id, at: record.at, about: [id], message, loses: 'new' });
  }
  return rooms;
}

const TOO_SMALL =
  'The walls are as long as you typed, but their floor is less than the smallest room (a job setting): no room is made there, and no length is kept as measured.';

/** Lengths typed along one face are kept together, as their sum: where the lines drawn are the whole of that face. */
function addMeasured(level: Level, working: Working, faces: LevelFaces, notes: MendNote[]): Level['faces'] {
  const { measured } = working;
  if (measured.length === 0) return level.faces;
  const segments = new Map<string, FaceSegment>();
  const tooSmall = new Set<string>();
  for (const { kind, segments: own, signedArea } of faces.loops) {
    const isVoid = kind === 'void' && signedArea > 0;
    if (!isVoid && kind !== 'outer' && kind !== 'island') continue;
    for (const segment of own) {
      for (const { wall, side } of segment.parts) {
        if (isVoid) tooSmall.add(`${wall}:${side}`);
        else segments.set(`${wall}:${side}`, segment);
      }
    }
  }
  const typed = new Map<FaceSegment | undefined, MeasuredFace[]>();
  const inVoid: MeasuredFace[] = [];
  for (const face of measured) {
    const [piece] = piecesOf(working, face.wall);
    const key = piece && `${piece.wall}:${sideOn(piece, face.side)}`;
    if (key !== undefined && tooSmall.has(key)) {
      inVoid.push(face);
      continue;
    }
    const segment = key === undefined ? undefined : segments.get(key);
    typed.set(segment, [...(typed.get(segment) ?? []), face]);
  }
  let records = level.faces;
  for (const [segment, parts] of typed) {
    const sum = (of: 'drawn' | 'length') => parts.reduce((total, part) => total + part[of], 0);
    const whole =
      segment !== undefined &&
      Math.abs(distance(segment.start, segment.end) - sum('drawn')) <= SAME_FACE_TICKS * parts.length;
    if (whole) {
      const was = lookup(records, segment.key);
      if (was?.measured === undefined)
        records = withRecord(records, segment.key, { ...was, measured: sum('length') });
      continue;
    }
    for (const { wall } of parts) {
      const now = piecesOf(working, wall)[0]?.wall ?? wall;
      const message = `Wall ${now} is as long as you typed, but that is not kept as measured: no room has just that face.`;
      notes.push({ level: level.id, at: segment?.start ?? null, about: [now], message, loses: 'new' });
    }
  }
  if (inVoid.length > 0) {
    const about = inVoid.map(({ wall }) => piecesOf(working, wall)[0]?.wall ?? wall);
    notes.push({ level: level.id, at: null, about, message: TOO_SMALL, loses: 'new' });
  }
  return records;
}
