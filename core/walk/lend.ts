// What an earlier walk of a level lends to a later one: rooms of which nothing changed, as the same objects, and which
// record names which room. Everything a room is made from is looked at, by identity; what is not sure is made anew.
// Ticks, y down. The plan's settings and profiles are the same in both walks: the caller sees to that. RULES: RP3.

import type { FaceLoop, LevelFaces } from '../graph/index.ts';
import { changedNear } from '../graph/index.ts';
import { changedKeys, lookup } from '../plan/maps.ts';
import type { Level, RoomId, RoomRecord, WallId } from '../plan/schema.ts';
import type { Doubtful } from './notes.ts';
import type { LevelWalk, Room } from './types.ts';

/** A room's record with its id. */
export type Claim = readonly [RoomId, RoomRecord];

/** A room goes by its record's name, else by its place among the rooms, from 1. */
export function nameOf(record: RoomRecord | undefined, place: number): string {
  return record?.name ?? `Room ${place}`;
}

/** The keys of records of a level that are not the same object as before. */
export interface Changes {
  readonly corners: ReadonlySet<string>;
  readonly faces: ReadonlySet<string>;
}

export function changesSince(level: Level, { level: was }: LevelWalk): Changes {
  return {
    corners: new Set(changedKeys(was.corners, level.corners)),
    faces: new Set(changedKeys(was.faces, level.faces)),
  };
}

/** Records that may go unused now: those that did before or changed, and all of rooms that are not what they were. */
export function doubtfulRecords(rooms: readonly Room[], since: LevelWalk, changes: Changes): Doubtful {
  const now = new Set(rooms);
  const corners = new Set(changes.corners);
  const faces = new Set(changes.faces);
  for (const note of since.notes) {
    if (note.kind !== 'record-unused') continue;
    if (note.record === 'corner') corners.add(note.id);
    else if (note.record === 'face') faces.add(note.id);
  }
  for (const room of since.rooms) {
    if (now.has(room)) continue;
    for (const loop of room.loops) {
      for (const { key, record } of loop.corners) if (record !== undefined) corners.add(key);
      for (const { key, record } of loop.segments) if (record !== undefined) faces.add(key);
    }
  }
  return { corners, faces };
}

type Lend = (loops: readonly FaceLoop[], claim: Claim | undefined, place: number) => Room | undefined;

/** Gives the earlier room of some face loops (the outer one first), where it is still what it was. */
export function roomLender(level: Level, since: LevelWalk, { corners, faces }: Changes): Lend {
  const was = since.level;
  if (was.ceilingHeight !== level.ceilingHeight) return () => undefined;
  const stirred = stirredWalls(was, level);
  const known = new Map<FaceLoop, { readonly room: Room; readonly loops: readonly FaceLoop[] }>();
  for (const [i, loops] of loopsByRoom(since.faces).entries()) {
    known.set(loops[0]!, { room: since.rooms[i]!, loops });
  }
  const isTouched = ({ corners: at, segments }: FaceLoop): boolean =>
    (corners.size > 0 && at.some(({ key }) => corners.has(key))) ||
    (faces.size > 0 && segments.some(({ key }) => faces.has(key))) ||
    (stirred.size > 0 && segments.some(({ parts }) => parts.some(({ wall }) => stirred.has(wall))));
  return (loops, claim, place) => {
    const before = known.get(loops[0]!);
    if (before === undefined || before.loops.length !== loops.length) return undefined;
    const { room } = before;
    if (room.record !== claim?.[1] || (claim !== undefined && room.id !== claim[0])) return undefined;
    if (room.name !== nameOf(claim?.[1], place)) return undefined;
    const same = loops.every((loop, i) => loop === before.loops[i] && !isTouched(loop));
    return same ? room : undefined;
  };
}

/** Walls on which an opening, a built-in or a mark changed, came or went. */
function stirredWalls(before: Level, after: Level): Set<WallId> {
  const walls = new Set<WallId>();
  const look = <T extends { readonly wall: WallId }>(was: Record<string, T>, is: Record<string, T>): void => {
    for (const id of changedKeys(was, is)) {
      for (const record of [lookup(was, id), lookup(is, id)])
        if (record !== undefined) walls.add(record.wall);
    }
  };
  look(before.openings, after.openings);
  look(before.builtIns, after.builtIns);
  look(before.marks, after.marks);
  return walls;
}

/** Each room's outer loop with its islands, in the order of the rooms. */
function loopsByRoom({ loops, holders }: LevelFaces): FaceLoop[][] {
  const rooms: FaceLoop[][] = [];
  const at = new Map<number, FaceLoop[]>();
  loops.forEach((loop, position) => {
    if (loop.kind !== 'outer') return;
    const room = [loop];
    at.set(position, room);
    rooms.push(room);
  });
  holders.forEach((holder, position) => {
    if (holder !== null) at.get(holder)!.push(loops[position]!);
  });
  return rooms;
}

/**
 * Tells the outer loop, by position, that a record names, where that cannot have changed: the record named it before, it
 * is still there, and no loop that changed comes near the record's point. Null where it is not sure.
 */
export function knownClaims(faces: LevelFaces, since: LevelWalk): (record: RoomRecord) => number | null {
  const position = new Map<FaceLoop, number>(faces.loops.map((loop, i) => [loop, i]));
  const named = new Map<RoomRecord, number>();
  let next = 0;
  for (const loop of since.faces.loops) {
    if (loop.kind !== 'outer') continue;
    const { record } = since.rooms[next++]!;
    const now = position.get(loop);
    if (record !== undefined && now !== undefined) named.set(record, now);
  }
  const isNear = changedNear(faces, since.faces);
  return (record) => {
    const at = named.get(record);
    return at === undefined || isNear(record.at) ? null : at;
  };
}
