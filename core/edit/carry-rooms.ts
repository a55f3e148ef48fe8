// Room records through a change of walls. A record stays where its point is; where a moved wall would leave the point
// outside the room it was in, the point moves onto that room's floor. A room of now descends from an old one when it
// has part of a wall side that bounded that. Ticks, y down. RULES: ED12.

import type { FaceLoop, LevelFaces, Point } from '../graph/index.ts';
import { changedNear, floorAt, once } from '../graph/index.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type { Level, RoomId, RoomRecord } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import type { Kin } from './kin.ts';
import { recordOf } from './records.ts';

/** Rooms are known by the position of their outer loop. */
export interface Rooms {
  /** The room whose floor holds a point, or null. */
  holding(at: Point): number | null;
  /** The outer loop and the islands of a room. */
  loopsOf(room: number): readonly FaceLoop[];
}

/**
 * The room records of `level` (its walls changed already) with points moved where they must be, and entries that name
 * an opening no more taken out. `before` is null where the old level was not planar: then no point moves. The same
 * object when nothing changes.
 */
export function carryRooms(
  level: Level,
  kin: Pick<Kin, 'sidesOf'>,
  before: LevelFaces | null,
  after: LevelFaces,
): Level['rooms'] {
  if (Object.keys(level.rooms).length === 0) return level.rooms;
  const change = before === null ? null : changeOf(before, after, kin);
  const carried = new Map<RoomId, RoomRecord>();
  for (const [id, record] of sortedEntries(level.rooms)) {
    let room = record;
    if (room.entry !== undefined && lookup(level.openings, room.entry) === undefined) {
      const { entry: _gone, ...rest } = room;
      room = rest;
    }
    const at = change === null || !change.near(record.at) ? record.at : pointNow(record.at, change);
    carried.set(id, at === record.at ? room : { ...room, at });
  }
  return recordOf(level.rooms, carried);
}

/** Rooms before and after a change of walls. */
interface Change {
  /** Whether a point lies where rooms changed: elsewhere it is in the room it was in. */
  readonly near: (at: Point) => boolean;
  readonly then: Rooms;
  readonly now: Rooms;
  readonly kin: Pick<Kin, 'sidesOf'>;
  /** By wall side: the room it bounds now, and how much of it shows there. Made when it is first asked for. */
  readonly sides: () => ReadonlyMap<string, readonly [room: number, length: number]>;
}

function changeOf(before: LevelFaces, after: LevelFaces, kin: Pick<Kin, 'sidesOf'>): Change {
  const [then, now] = [roomsOf(before), roomsOf(after)];
  return { near: changedNear(before, after), then, now, kin, sides: once(() => sidesOf(after)) };
}

function sidesOf({ loops, holders }: LevelFaces): Map<string, readonly [room: number, length: number]> {
  const sides = new Map<string, readonly [room: number, length: number]>();
  loops.forEach((loop, position) => {
    const owner = loop.kind === 'outer' ? position : holders[position]!;
    if (loop.kind !== 'outer' && loop.kind !== 'island') return;
    for (const { parts } of loop.segments) {
      for (const part of parts) sides.set(`${part.wall}:${part.side}`, [owner, part.to - part.from]);
    }
  });
  return sides;
}

function pointNow(at: RoomRecord['at'], change: Change): RoomRecord['at'] {
  const { then, now } = change;
  const was = then.holding(at);
  if (was === null) return at;
  const heirs = heirsOf(was, change);
  const holder = now.holding(at);
  if (heirs.size === 0 || (holder !== null && heirs.has(holder))) return at;
  const [heir] = [...heirs].sort(([a, one], [b, other]) => other - one || a - b)[0]!;
  return pointInside(heir, now) ?? at;
}

/** The rooms that have sides of walls which bounded an old room, with how much of them. */
function heirsOf(room: number, { then, kin, sides }: Change): Map<number, number> {
  const heirs = new Map<number, number>();
  const old = then.loopsOf(room).flatMap((loop) => loop.segments.flatMap((segment) => segment.parts));
  for (const part of old) {
    for (const { wall, side } of kin.sidesOf(part.wall, part.side)) {
      const found = sides().get(`${wall}:${side}`);
      if (found !== undefined) heirs.set(found[0], (heirs.get(found[0]) ?? 0) + found[1]);
    }
  }
  return heirs;
}

export function roomsOf(faces: LevelFaces): Rooms {
  const { loops, holders } = faces;
  // As the walk finds a record's room.
  const holding = floorAt(faces);
  const loopsOf = (room: number) => loops.filter((_, i) => i === room || holders[i] === room);
  return { holding, loopsOf };
}

/**
 * A whole point well inside a room's floor: the middle of the roomiest place found on level lines halfway between
 * corner heights; of equals the topmost, then leftmost. Null where the floor holds no such tick.
 */
export function pointInside(room: number, rooms: Rooms): [number, number] | null {
  const rings = rooms.loopsOf(room).map((loop) => loop.corners.map((corner) => corner.at));
  const heights = [...new Set(rings.flat().map((at) => at[1]))].sort((a, b) => a - b);
  const places: { at: [number, number]; room: number }[] = [];
  for (let i = 1; i < heights.length; i++) {
    const [top, bottom] = [heights[i - 1]!, heights[i]!];
    const y = (top + bottom) / 2;
    const crossings = rings.flatMap((ring) => crossingsAt(ring, y)).sort((a, b) => a - b);
    for (let k = 1; k < crossings.length; k += 2) {
      const [left, right] = [crossings[k - 1]!, crossings[k]!];
      const at: [number, number] = [roundHalfAway((left + right) / 2), roundHalfAway(y)];
      places.push({ at, room: Math.min(right - left, bottom - top) });
    }
  }
  places.sort((a, b) => b.room - a.room || a.at[1] - b.at[1] || a.at[0] - b.at[0]);
  return places.find(({ at }) => rooms.holding(at) === room)?.at ?? null;
}

function crossingsAt(ring: readonly Point[], y: number): number[] {
  return ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    if (a[1] < y === b[1] < y) return [];
    return [a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1])];
  });
}
