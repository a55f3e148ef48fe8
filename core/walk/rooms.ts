// Face loops to rooms: which record names which room, their loops, their clear area and where the entry stands
// (RULES: WK16, WK17). Ticks and square ticks, y down. Rooms stand in canonical order; a room without a record still is one.

import type { FaceLoop, LevelFaces } from '../graph/index.ts';
import { along, floorAt } from '../graph/index.ts';
import { sortedEntries } from '../plan/maps.ts';
import type { Level, RoomId, RoomRecord } from '../plan/schema.ts';
import { type Changes, type Claim, knownClaims, nameOf, roomLender } from './lend.ts';
import { type Floor, walkLoop } from './loops.ts';
import type { LevelWalk, Loop, Room, WalkNote } from './types.ts';

/** Which record belongs to which outer loop, and which to none. */
interface Claims {
  /** By position in `LevelFaces.loops`. */
  readonly claimed: ReadonlyMap<number, Claim>;
  readonly notes: readonly WalkNote[];
}

/** The rooms of a level in canonical order, and what was noticed about their records. `since` lends what it can. */
export function roomsOf(
  floor: Floor,
  since?: LevelWalk,
  changes?: Changes,
): { rooms: Room[]; notes: WalkNote[] } {
  const { faces, level } = floor;
  const { claimed, notes } = claimsOf(faces, level, since && knownClaims(faces, since));
  const lend = since && changes && roomLender(level, since, changes);
  const islands = new Map<number, FaceLoop[]>();
  faces.holders.forEach((holder, position) => {
    if (holder === null) return;
    const list = islands.get(holder);
    if (list === undefined) islands.set(holder, [faces.loops[position]!]);
    else list.push(faces.loops[position]!);
  });
  const rooms: Room[] = [];
  const entryNotes: WalkNote[] = [];
  faces.loops.forEach((outer, position) => {
    if (outer.kind !== 'outer') return;
    const claim = claimed.get(position);
    const loops = [outer, ...(islands.get(position) ?? [])];
    const place = rooms.length + 1;
    const room = lend?.(loops, claim, place) ?? roomOf(loops, claim, place, floor);
    rooms.push(room);
    if (claim !== undefined && claim[1].entry !== undefined && room.entry === null) {
      entryNotes.push({ kind: 'record-unused', record: 'entry', id: claim[0], at: claim[1].at });
    }
  });
  return { rooms, notes: [...notes, ...entryNotes] };
}

function roomOf(
  loopsOfRoom: readonly FaceLoop[],
  claim: Claim | undefined,
  place: number,
  floor: Floor,
): Room {
  const id = claim?.[0] ?? `@${loopsOfRoom[0]!.segments[0]!.key}`;
  const record = claim?.[1];
  const loops = loopsOfRoom.map((loop, position) => walkLoop(loop, floor, id, position));
  const segments = loops.flatMap((loop) => loop.segments);
  return {
    id,
    name: nameOf(record, place),
    level: floor.level.id,
    record,
    loops,
    area: loops.reduce((sum, loop) => sum + loop.signedArea, 0),
    perimeter: segments.reduce((sum, segment) => sum + segment.drawn, 0),
    entry: entryOf(loops, record),
  };
}

/** The entry on this room's side of it; where both sides are in the room, the wall's right side. RULES: WK17. */
function entryOf(loops: readonly Loop[], record: RoomRecord | undefined): Room['entry'] {
  if (record?.entry === undefined) return null;
  const found = loops.flatMap((loop) =>
    loop.segments.flatMap((segment) =>
      segment.openings.filter(({ id }) => id === record.entry).map((opening) => ({ segment, opening })),
    ),
  );
  const entry = found.find(({ opening }) => opening.side === 'right') ?? found[0];
  if (entry === undefined) return null;
  const { segment, opening } = entry;
  const middle = along(segment.start, segment.along, (opening.from + opening.to) / 2);
  return { id: opening.id, segment, middle, inward: segment.inward };
}

/**
 * Gives each record to the outer loop whose floor holds its `at`. Of two in one room the first id in code-unit order
 * wins. RULES: WK16.
 */
function claimsOf(faces: LevelFaces, level: Level, known?: (record: RoomRecord) => number | null): Claims {
  const records = sortedEntries(level.rooms);
  const notes: WalkNote[] = [];
  const byRoom = new Map<number, [RoomId, RoomRecord][]>();
  if (records.length > 0) {
    const roomAt = floorAt(faces);
    for (const entry of records) {
      const room = known?.(entry[1]) ?? roomAt(entry[1].at);
      if (room === null) {
        notes.push({ kind: 'record-unused', record: 'room', id: entry[0], at: entry[1].at });
        continue;
      }
      const list = byRoom.get(room);
      if (list === undefined) byRoom.set(room, [entry]);
      else list.push(entry);
    }
  }
  const claimed = new Map<number, Claim>();
  for (const [room, claims] of [...byRoom].sort(([a], [b]) => a - b)) {
    const [winner] = claims;
    claimed.set(room, winner!);
    if (claims.length > 1) {
      notes.push({ kind: 'room-twice', ids: claims.map(([id]) => id), at: claims[1]![1].at });
    }
  }
  return { claimed, notes };
}
