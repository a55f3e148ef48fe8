// What the walk noticed, for core/fit to turn into findings: loops too narrow, walls that do not close, records that
// fit nothing (RULES: WK11, WK18, WK19). Ticks, y down. Notes stand in a fixed order: by kind, then canonical or by id.

import Flatbush from 'flatbush';
import type { LevelFaces, Point } from '../graph/index.ts';
import { cross, distance, dot, lengthOf, midpoint, minus, unit } from '../graph/index.ts';
import { byCodeUnit, lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { CornerRecord, Level, NodeId, Wall, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import type { Ticks } from '../units/ticks.ts';
import type { Room, WalkNote } from './types.ts';

/** Rooms with a loop whose faces cross: one note a room, at the first such place. RULES: WK11. */
export function narrowNotes(faces: LevelFaces, rooms: readonly Room[]): WalkNote[] {
  const notes: WalkNote[] = [];
  let next = 0;
  const roomAt = new Map<number, Room>();
  faces.loops.forEach(({ kind }, position) => {
    if (kind === 'outer') roomAt.set(position, rooms[next++]!);
  });
  const noted = new Set<Room>();
  faces.narrowAt.forEach((place, position) => {
    const room = roomAt.get(faces.holders[position] ?? position);
    if (place === null || room === undefined || noted.has(room)) return;
    noted.add(room);
    const walls = new Set(place.segments.flatMap(wallsOfKey));
    notes.push({ kind: 'too-narrow', room: room.id, at: place.at, about: [...walls].sort(byCodeUnit) });
  });
  return notes;
}

/** The walls that a segment key names: one of a face, one or two of a wall end or a jog. */
function wallsOfKey(key: string): string[] {
  const colon = key.indexOf(':');
  const rest = key.slice(colon + 1);
  return rest.includes('>') ? rest.split('>') : [key.slice(0, colon)];
}

/** Walls that enclose nothing, then free ends that nearly meet another wall. RULES: WK18. */
export function notClosedNotes(faces: LevelFaces, level: Level, settings: Settings): WalkNote[] {
  return [...loneWalls(faces, level), ...nearEnds(level, settings)];
}

/** Connected walls that bound the outside and go round no room. What stands in a room or in a void is no such thing. */
function loneWalls(faces: LevelFaces, level: Level): WalkNote[] {
  const notes: WalkNote[] = [];
  for (const { walls, loops } of faces.components) {
    const kinds = new Set(loops.map((position) => faces.loops[position]!.kind));
    if (!kinds.has('outside') || kinds.has('outer')) continue;
    notes.push({ kind: 'not-closed', at: smallestNode(level, walls), about: walls, gap: null });
  }
  return notes;
}

/** The walls' smallest node: y, then x. */
function smallestNode(level: Level, walls: readonly WallId[]): Point {
  const nodes = walls.flatMap((id) => {
    const { from, to } = mustLookup(level.walls, id);
    return [mustLookup(level.nodes, from), mustLookup(level.nodes, to)];
  });
  return nodes.reduce((best, at) => (at[1] < best[1] || (at[1] === best[1] && at[0] < best[0]) ? at : best));
}

/** A wall as the search for near ends sees it. */
interface Body {
  readonly id: WallId;
  readonly wall: Wall;
  readonly start: Point;
  readonly end: Point;
  readonly half: Ticks;
}

/**
 * Free wall ends within `nearlyMeet` of the face of a wall that does not hang on their own wall: the nearest such wall
 * for each end, and one note for two walls whose ends are both near. The gap runs from the end's middle to the face.
 */
function nearEnds(level: Level, settings: Settings): WalkNote[] {
  const free = freeNodes(level);
  if (free.size === 0) return [];
  // The nodes of walls are there: the level is one that was read or mended.
  const bodies = sortedEntries(level.walls).map(([id, wall]): Body => {
    const [start, end] = [level.nodes[wall.from]!, level.nodes[wall.to]!];
    return { id, wall, start, end, half: wall.thickness / 2 };
  });
  const ends = bodies.flatMap((own) => [
    ...(free.has(own.wall.from) ? [{ own, at: own.start }] : []),
    ...(free.has(own.wall.to) ? [{ own, at: own.end }] : []),
  ]);
  let thickest = 0;
  for (const { half } of bodies) thickest = Math.max(thickest, half);
  const reach = settings.nearlyMeet + thickest;
  const near = bodiesNear(bodies, ends.length, reach);
  const best = new Map<string, { at: Point; gap: number; about: readonly WallId[] }>();
  for (const { own, at } of ends) {
    let nearest: { body: Body; gap: number } | null = null;
    for (const body of near(at)) {
      if (body === own || hangsOn(body.wall, own.wall)) continue;
      const gap = distanceToBody(at, body);
      if (gap <= settings.nearlyMeet && (nearest === null || gap < nearest.gap)) nearest = { body, gap };
    }
    if (nearest === null) continue;
    const about = [own.id, nearest.body.id];
    const pair = [...about].sort(byCodeUnit).join(' ');
    const before = best.get(pair);
    if (before === undefined || nearest.gap < before.gap) best.set(pair, { at, gap: nearest.gap, about });
  }
  return [...best.values()].map((note): WalkNote => ({ kind: 'not-closed', ...note }));
}

/** Nodes at which one wall ends and no other. */
function freeNodes(level: Level): Set<NodeId> {
  const free = new Set<NodeId>();
  const seen = new Set<NodeId>();
  for (const id of Object.keys(level.walls) as WallId[]) {
    const { from, to } = level.walls[id]!;
    for (const node of [from, to]) {
      if (seen.has(node)) free.delete(node);
      else {
        seen.add(node);
        free.add(node);
      }
    }
  }
  return free;
}

/** So many times are all bodies looked through before an index of them is worth its making. */
const FEW_ENDS = 24;

/** The bodies within a reach of a point, in their order; for so many points. */
function bodiesNear(bodies: readonly Body[], points: number, reach: number): (at: Point) => Body[] {
  const meets = ({ start, end }: Body, axis: 0 | 1, at: number): boolean =>
    Math.max(start[axis], end[axis]) >= at - reach && Math.min(start[axis], end[axis]) <= at + reach;
  if (points <= FEW_ENDS)
    return (at) => bodies.filter((body) => meets(body, 0, at[0]) && meets(body, 1, at[1]));
  const tree = new Flatbush(bodies.length);
  for (const { start, end } of bodies) {
    tree.add(
      Math.min(start[0], end[0]),
      Math.min(start[1], end[1]),
      Math.max(start[0], end[0]),
      Math.max(start[1], end[1]),
    );
  }
  tree.finish();
  return ([x, y]) =>
    tree
      .search(x - reach, y - reach, x + reach, y + reach)
      .sort((a, b) => a - b)
      .map((i) => bodies[i]!);
}

function hangsOn(a: Wall, b: Wall): boolean {
  return a.from === b.from || a.from === b.to || a.to === b.from || a.to === b.to;
}

/** Distance from a point to a wall as it stands: its faces and its flat ends; 0 within it. */
function distanceToBody(at: Point, { start, end, half }: Body): number {
  const dir = unit(minus(end, start));
  const way = minus(at, start);
  const ahead = dot(way, dir);
  const beyond = Math.max(0, -ahead, ahead - distance(start, end));
  return lengthOf([beyond, Math.max(0, Math.abs(cross(dir, way)) - half)]);
}

/**
 * Both kinds of notes, one for a pair of walls: an end that touches or crosses the face of the wall across is told as what
 * makes the room too narrow, not as well as an end that does not meet. RULES: WK18.
 */
export function joinedNotes(narrow: readonly WalkNote[], notClosed: readonly WalkNote[]): WalkNote[] {
  const told = new Set<WalkNote>();
  const joined = narrow.map((note): WalkNote => {
    if (note.kind !== 'too-narrow') return note;
    const same = notClosed.filter(
      (each) =>
        each.kind === 'not-closed' &&
        each.gap !== null &&
        each.about.length === 2 &&
        each.about.every((wall) => note.about.includes(wall)),
    );
    for (const each of same) told.add(each);
    const [end, to] = same[0]?.kind === 'not-closed' ? same[0].about : [];
    return end === undefined || to === undefined
      ? note
      : { ...note, join: { end: end as WallId, to: to as WallId } };
  });
  return [...joined, ...notClosed.filter((note) => !told.has(note))];
}

/** Which corner and face records may go unused now: they did before, they changed, or what they fitted did. */
export interface Doubtful {
  readonly corners: ReadonlySet<string>;
  readonly faces: ReadonlySet<string>;
}

/**
 * Corner and face records that no room's corner or segment answers to. `doubtful`: where only some can be such, which;
 * then only rooms that may answer to one of them need be given. RULES: WK19.
 */
export function unusedNotes(rooms: readonly Room[], level: Level, doubtful?: Doubtful): WalkNote[] {
  if (doubtful?.corners.size === 0 && doubtful.faces.size === 0) return [];
  // A number alone is kept for a corner that may come back: nothing the user typed goes unused.
  const typed = (record: CornerRecord): boolean =>
    record.measured !== undefined || record.lines !== undefined;
  const corners = new Set<string>();
  const faces = new Set<string>();
  for (const room of rooms) {
    for (const loop of room.loops) {
      for (const { key, record } of loop.corners) if (record !== undefined && typed(record)) corners.add(key);
      for (const { key, record } of loop.segments) if (record !== undefined) faces.add(key);
    }
  }
  const notes: WalkNote[] = [];
  const left = [...(doubtful?.corners ?? Object.keys(level.corners))].filter((id) => {
    const record = lookup(level.corners, id);
    return record !== undefined && typed(record) && !corners.has(id);
  });
  for (const id of left.sort(byCodeUnit)) {
    const at = lookup(level.nodes, id.slice(0, id.indexOf(':'))) ?? null;
    notes.push({ kind: 'record-unused', record: 'corner', id, at });
  }
  for (const id of [...(doubtful?.faces ?? Object.keys(level.faces))].sort(byCodeUnit)) {
    if (faces.has(id) || lookup(level.faces, id) === undefined) continue;
    notes.push({ kind: 'record-unused', record: 'face', id, at: placeOfFace(level, id) });
  }
  return notes;
}

/** The middle of the wall that a segment key names, or the node of a wall end; null where it is gone. */
function placeOfFace(level: Level, key: string): Point | null {
  const name = key.slice(0, key.indexOf(':'));
  if (key.includes('>')) return lookup(level.nodes, name) ?? null;
  const wall = lookup(level.walls, name);
  return wall === undefined
    ? null
    : midpoint(mustLookup(level.nodes, wall.from), mustLookup(level.nodes, wall.to));
}
