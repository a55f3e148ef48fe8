// A level opened for change: nodes, walls and what stands on them, with the ancestry of every wall, so that records kept
// under a wall's name can follow it. Lengths in ticks, x right, y down. Every operation here keeps what stands on a
// wall with the part that holds its middle (RULES: ED5). Knows nothing of corners, faces or rooms (carry-*.ts do).

import type { Point } from '../graph/index.ts';
import { distance } from '../graph/index.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type {
  BuiltIn,
  BuiltInId,
  Level,
  Mark,
  MarkId,
  NodeId,
  Opening,
  OpeningId,
  RoomId,
  RoomRecord,
  Side,
  Wall,
  WallId,
} from '../plan/schema.ts';
import { recordOf } from './records.ts';
import { moveStanding, otherSide, type Standing, turnStanding } from './standing.ts';
import type { MendNote } from './types.ts';

/** Where a part of an old wall is now: on `wall`, from `from` to `to` as fractions of it; from > to if it runs the other way. */
export interface Piece {
  readonly wall: WallId;
  readonly from: number;
  readonly to: number;
}

export interface Working {
  /** The level as it was. */
  readonly before: Level;
  readonly nodes: Map<NodeId, Point>;
  readonly walls: Map<WallId, Wall>;
  readonly standing: Map<WallId, Standing[]>;
  /** By wall as it was: what became of it, from its first node on. A wall that is not here is what it was (`piecesOf`). */
  readonly pieces: Map<WallId, readonly Piece[]>;
  /** By wall as it is now: the walls that have pieces on it. One that is not here has its own alone. */
  readonly origins: Map<WallId, Set<WallId>>;
  /** Walls where the places of what stands on them changed. */
  readonly stirred: Set<WallId>;
  readonly notes: MendNote[];
  /** Records of rooms that come with new walls, put in once the walls stand (RULES: ED18, ED21). */
  readonly addedRooms: Map<RoomId, AddedRoom>;
  /** Typed lengths of the faces of new walls, put in once the walls stand (RULES: ED18). */
  readonly measured: MeasuredFace[];
}

export interface AddedRoom {
  readonly record: RoomRecord;
  /** A face of the room that is meant, where its place may miss that room's floor. */
  readonly beside: { readonly wall: WallId; readonly side: Side } | null;
}

/** A new wall's face, how long the line drawn along it is, and the length that was typed for it. Ticks. */
export interface MeasuredFace {
  readonly wall: WallId;
  readonly side: Side;
  readonly drawn: number;
  readonly length: number;
}

export function openLevel(level: Level): Working {
  const working: Working = {
    before: level,
    nodes: new Map(sortedEntries(level.nodes)),
    walls: new Map(sortedEntries(level.walls)),
    standing: new Map(),
    pieces: new Map(),
    origins: new Map(),
    stirred: new Set(),
    notes: [],
    addedRooms: new Map(),
    measured: [],
  };
  const stand = (thing: Standing) => {
    const { wall, at, width } = thing.record;
    thing.overhangs = at < 0 || at + width > wallLength(working, wall) + 1;
    listAt(working.standing, wall).push(thing);
  };
  for (const [id, record] of sortedEntries(level.openings)) {
    stand({ kind: 'openings', id, record, overhangs: false });
  }
  for (const [id, record] of sortedEntries(level.builtIns)) {
    stand({ kind: 'builtIns', id, record, overhangs: false });
  }
  for (const [id, record] of sortedEntries(level.marks)) {
    stand({ kind: 'marks', id, record, overhangs: false });
  }
  return working;
}

function listAt<K, V>(map: Map<K, V[]>, key: K): V[] {
  const list = map.get(key) ?? [];
  map.set(key, list);
  return list;
}

export function mustGet<K, V>(map: ReadonlyMap<K, V>, key: K): V {
  const value = map.get(key);
  if (value === undefined) throw new Error(`no ${String(key)} in the level that is being edited`);
  return value;
}

export function wallLength(working: Working, id: WallId): number {
  const wall = mustGet(working.walls, id);
  return distance(mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to));
}

/** `loses`: something that the user set or typed is gone or stands elsewhere. */
export function note(
  working: Working,
  at: Point | null,
  about: readonly string[],
  message: string,
  loses = false,
): void {
  working.notes.push({ level: working.before.id, at, about, message, ...(loses ? { loses } : {}) });
}

/** The faces of a wall as they are called when it runs the other way. */
export function turnedFaces(faces: Wall['faces']): Wall['faces'] {
  if (faces === undefined) return undefined;
  return {
    ...(faces.right === undefined ? {} : { left: faces.right }),
    ...(faces.left === undefined ? {} : { right: faces.left }),
  };
}

/** What became of a wall of the level as it was, or of a tracked one, from its first node on; nothing for any other. */
export function piecesOf({ pieces, before }: Working, id: WallId): readonly Piece[] {
  const known = pieces.get(id);
  if (known !== undefined) return known;
  return lookup(before.walls, id) === undefined ? [] : [{ wall: id, from: 0, to: 1 }];
}

/** The side of the wall that a piece is on now, which was `side` of the wall it is a piece of. */
export const sideOn = ({ from, to }: Piece, side: Side): Side => (from > to ? otherSide(side) : side);

/** A new wall whose ancestry is kept from here on, so that what came with it finds it split or merged. */
export function keepTrack(working: Working, id: WallId): void {
  working.pieces.set(id, [{ wall: id, from: 0, to: 1 }]);
  working.origins.set(id, new Set([id]));
}

function originsOf({ origins, before }: Working, id: WallId): Set<WallId> {
  return origins.get(id) ?? new Set(lookup(before.walls, id) === undefined ? [] : [id]);
}

/** Replaces the pieces that lie on `wall` in the ancestry of every wall that has some there. */
function replacePieces(working: Working, wall: WallId, change: (piece: Piece) => readonly Piece[]): void {
  const origins = originsOf(working, wall);
  working.origins.set(wall, new Set());
  for (const origin of origins) {
    const pieces = piecesOf(working, origin).flatMap((piece) =>
      piece.wall === wall ? change(piece) : [piece],
    );
    working.pieces.set(origin, pieces);
    for (const piece of pieces) working.origins.set(piece.wall, originsOf(working, piece.wall).add(origin));
  }
}

/**
 * Splits a wall at nodes that lie in its course, in the order given; each cut names the wall that starts there. The
 * wall's id stays on the part at its first node. Nodes must exist and be none of its ends. RULES: ED4, ED5.
 */
export function splitAt(
  working: Working,
  id: WallId,
  cuts: readonly { readonly node: NodeId; readonly newWall: WallId }[],
): void {
  const wall = mustGet(working.walls, id);
  const start = mustGet(working.nodes, wall.from);
  const length = wallLength(working, id);
  const parts: { wall: WallId; low: number; high: number; lowTicks: number; highTicks: number }[] = [];
  let [from, part, low, lowTicks] = [wall.from, id, 0, 0];
  for (const { node, newWall } of cuts) {
    const highTicks = Math.max(lowTicks, distance(start, mustGet(working.nodes, node)));
    const high = Math.min(1, Math.max(low, highTicks / length));
    working.walls.set(part, { ...wall, from, to: node });
    parts.push({ wall: part, low, high, lowTicks, highTicks });
    [from, part, low, lowTicks] = [node, newWall, high, highTicks];
  }
  working.walls.set(part, { ...wall, from, to: wall.to });
  parts.push({ wall: part, low, high: 1, lowTicks, highTicks: Number.POSITIVE_INFINITY });

  replacePieces(working, id, (piece) => cutPiece(piece, parts));

  const things = working.standing.get(id) ?? [];
  working.standing.delete(id);
  for (const thing of things) {
    const middle = thing.record.at + thing.record.width / 2;
    const holder = parts.find((candidate) => middle <= candidate.highTicks)!;
    moveStanding(thing, holder.wall, thing.record.at - holder.lowTicks);
    listAt(working.standing, holder.wall).push(thing);
    working.stirred.add(holder.wall);
  }
}

function cutPiece(
  piece: Piece,
  parts: readonly { readonly wall: WallId; readonly low: number; readonly high: number }[],
): Piece[] {
  const turned = piece.from > piece.to;
  const [low, high] = turned ? [piece.to, piece.from] : [piece.from, piece.to];
  const whole = low === 0 && high === 1;
  const found: Piece[] = [];
  for (const part of turned ? [...parts].reverse() : parts) {
    const from = Math.max(low, part.low);
    const to = Math.min(high, part.high);
    if (from >= to && !whole) continue;
    const place = (at: number) =>
      at <= part.low ? 0 : at >= part.high ? 1 : (at - part.low) / (part.high - part.low);
    const [first, last] = whole ? [0, 1] : [place(from), place(to)];
    found.push({ wall: part.wall, from: turned ? last : first, to: turned ? first : last });
  }
  return found;
}

/**
 * Merges wall `gone` into wall `kept`, which has the same two nodes: what stands on it comes along, and the thicker of
 * the two gives thickness, height and faces (equal: the kept one). RULES: ED3.
 */
export function mergeInto(working: Working, kept: WallId, gone: WallId): void {
  const stays = mustGet(working.walls, kept);
  const goes = mustGet(working.walls, gone);
  const turned = stays.from !== goes.from;
  const length = wallLength(working, kept);
  if (goes.thickness > stays.thickness) {
    const faces = turned ? turnedFaces(goes.faces) : goes.faces;
    working.walls.set(kept, {
      from: stays.from,
      to: stays.to,
      thickness: goes.thickness,
      ...(goes.height === undefined ? {} : { height: goes.height }),
      ...(faces === undefined ? {} : { faces }),
    });
  }
  working.walls.delete(gone);
  working.stirred.delete(gone);
  replacePieces(working, gone, (piece) => [
    turned
      ? { wall: kept, from: 1 - piece.from, to: 1 - piece.to }
      : { wall: kept, from: piece.from, to: piece.to },
  ]);
  const things = working.standing.get(gone) ?? [];
  working.standing.delete(gone);
  for (const thing of things) {
    if (turned) turnStanding(thing, length);
    moveStanding(thing, kept, thing.record.at);
    listAt(working.standing, kept).push(thing);
  }
  working.stirred.add(kept);
}

/** Takes a wall away with all that stands on it. Gives back what stood there. Its nodes stay. */
export function dropWall(working: Working, id: WallId): readonly Standing[] {
  const things = working.standing.get(id) ?? [];
  working.standing.delete(id);
  working.walls.delete(id);
  working.stirred.delete(id);
  replacePieces(working, id, () => []);
  return things;
}

/** Joins two walls in line at `node` into `kept`, which grows over `other`. The node goes. RULES: ED9. */
export function joinAt(working: Working, node: NodeId, kept: WallId, other: WallId): void {
  const stays = mustGet(working.walls, kept);
  const goes = mustGet(working.walls, other);
  const [keptLength, otherLength] = [wallLength(working, kept), wallLength(working, other)];
  const far = goes.from === node ? goes.to : goes.from;
  const atEnd = stays.to === node;
  const turned = atEnd ? goes.to === node : goes.from === node;
  working.walls.set(kept, atEnd ? { ...stays, to: far } : { ...stays, from: far });
  working.walls.delete(other);
  working.stirred.delete(other);
  working.nodes.delete(node);

  const share = (atEnd ? keptLength : otherLength) / (keptLength + otherLength);
  const firstPart = (at: number) => at * share;
  const lastPart = (at: number) => (at === 1 ? 1 : share + at * (1 - share));
  const [ofKept, ofOther] = atEnd ? [firstPart, lastPart] : [lastPart, firstPart];
  replacePieces(working, kept, (piece) => [{ wall: kept, from: ofKept(piece.from), to: ofKept(piece.to) }]);
  const turn = (at: number) => (turned ? 1 - at : at);
  replacePieces(working, other, (piece) => [
    { wall: kept, from: ofOther(turn(piece.from)), to: ofOther(turn(piece.to)) },
  ]);

  const moved = working.standing.get(other) ?? [];
  working.standing.delete(other);
  if (!atEnd) {
    for (const thing of working.standing.get(kept) ?? []) {
      moveStanding(thing, kept, thing.record.at + otherLength);
    }
  }
  for (const thing of moved) {
    if (turned) turnStanding(thing, otherLength);
    moveStanding(thing, kept, thing.record.at + (atEnd ? keptLength : 0));
    listAt(working.standing, kept).push(thing);
  }
  working.stirred.add(kept);
}

/**
 * Moves nodes. What stands on a wall with one moved node keeps its distance from the node that stayed; on a wall that
 * moved whole, from its first node. RULES: ED8.
 */
export function moveNodes(working: Working, places: ReadonlyMap<NodeId, Point>): void {
  const to = new Map(
    [...places].filter(([node, at]) => {
      const was = mustGet(working.nodes, node);
      return was[0] !== at[0] || was[1] !== at[1];
    }),
  );
  const touched = [...working.walls].filter(([, wall]) => to.has(wall.from) || to.has(wall.to));
  const lengths = touched.map(([id]) => wallLength(working, id));
  for (const [node, at] of to) working.nodes.set(node, at);
  for (const [i, [id, wall]] of touched.entries()) {
    const grown = wallLength(working, id) - lengths[i]!;
    if (grown === 0) continue;
    working.stirred.add(id);
    if (to.has(wall.to)) continue;
    for (const thing of working.standing.get(id) ?? []) {
      moveStanding(thing, id, thing.record.at + grown);
    }
  }
}

/** Whether all that stands on walls is what stood there before. */
function standsAsBefore({ before, standing }: Working): boolean {
  let count = 0;
  for (const things of standing.values()) {
    for (const { kind, id, record } of things) {
      if (before[kind][id as never] !== record) return false;
      count += 1;
    }
  }
  const maps = [before.openings, before.builtIns, before.marks];
  return count === maps.reduce((sum, map) => sum + Object.keys(map).length, 0);
}

/** The level as it now is; maps in which nothing changed are the same objects. Corners, faces and rooms as they were. */
export function closeLevel(working: Working): Level {
  const { before } = working;
  const nodes = recordOf(
    before.nodes,
    working.nodes as ReadonlyMap<NodeId, unknown> as ReadonlyMap<NodeId, [number, number]>,
  );
  const walls = recordOf(before.walls, working.walls);
  if (standsAsBefore(working)) return { ...before, nodes, walls };
  const byKind = { openings: new Map(), builtIns: new Map(), marks: new Map() };
  for (const things of working.standing.values()) {
    for (const { kind, id, record } of things) byKind[kind].set(id, record);
  }
  const openings = recordOf(before.openings, byKind.openings as Map<OpeningId, Opening>);
  const builtIns = recordOf(before.builtIns, byKind.builtIns as Map<BuiltInId, BuiltIn>);
  const marks = recordOf(before.marks, byKind.marks as Map<MarkId, Mark>);
  return { ...before, nodes, walls, openings, builtIns, marks };
}
