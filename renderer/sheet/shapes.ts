// Where things lie on the plan: a polygon, a line or a point for everything that can be chosen. Ticks, x right, y down.
// Read off the derived level; nothing is reckoned again. Knows no screen and no pointer.

import { along, type Point } from '../../core/graph/index.ts';
import { type Level, lookup, sortedEntries } from '../../core/plan/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { Piece, RoomTrim } from '../../core/trim/types.ts';
import type { Corner, Loop, Room, Segment } from '../../core/walk/types.ts';
import type { Ref } from '../state/refs.ts';

/** One thing: `points` is a closed polygon from three on, a line at two, a place at one. */
export interface Thing {
  readonly ref: Ref;
  readonly points: readonly Point[];
  /** Holes of a room: islands. */
  readonly holes?: readonly (readonly Point[])[];
}

/**
 * A wall's body between its nodes, square-ended, shortened at its two ends where asked (below 0: made longer); null where
 * it has no length.
 */
export function wallBody(level: Level, id: string, atFrom = 0, atTo = 0): readonly Point[] | null {
  const wall = lookup(level.walls, id);
  return wall === undefined ? null : bandOf(level, id, atFrom, null, wall.thickness / 2, atTo);
}

/** The hole of an opening, through the whole wall; null where its wall has no length. */
export function openingHole(level: Level, id: string): readonly Point[] | null {
  const opening = lookup(level.openings, id);
  const wall = opening && lookup(level.walls, opening.wall);
  if (!opening || !wall) return null;
  return bandOf(level, opening.wall, opening.at, opening.at + opening.width, wall.thickness / 2);
}

/** A stretch of a wall's centre line, `half` to either side. To the wall's end where `to` is null. */
function bandOf(
  level: Level,
  wallId: string,
  from: number,
  to: number | null,
  half: number,
  shortBy = 0,
): readonly Point[] | null {
  const wall = lookup(level.walls, wallId);
  const a = wall && lookup(level.nodes, wall.from);
  const b = wall && lookup(level.nodes, wall.to);
  if (!a || !b) return null;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return null;
  const u: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const at = (x: number, y: number): Point => [a[0] + u[0] * x - u[1] * y, a[1] + u[1] * x + u[0] * y];
  const end = to ?? length - shortBy;
  return [at(from, -half), at(end, -half), at(end, half), at(from, half)];
}

/** A part of a face, reaching `deep` into the room. */
export function onFace(segment: Segment, from: number, to: number, deep: number): readonly Point[] {
  const { inward } = segment;
  const a = along(segment.start, segment.along, from);
  const b = along(segment.start, segment.along, to);
  return deep === 0 ? [a, b] : [a, b, along(b, inward, deep), along(a, inward, deep)];
}

export function loopPoints(loop: Loop): readonly Point[] {
  return loop.corners.map(({ at }) => at);
}

export function segmentsOf(room: Room): readonly Segment[] {
  return room.loops.flatMap(({ segments }) => segments);
}

export function cornersOf(room: Room): readonly Corner[] {
  return room.loops.flatMap(({ corners }) => corners);
}

/** All boards of a level with their ids; return pieces lie at the end of the board they close. */
export function piecesOf(level: DerivedLevel): readonly Piece[] {
  return level.trims.flatMap(piecesIn);
}

function piecesIn({ lines }: RoomTrim): readonly Piece[] {
  return lines.flatMap(({ runs }) => runs.flatMap(({ pieces, returns }) => [...pieces, ...returns]));
}

/** Where a board lies along its face: its share of the stretch, thickness into the room. */
export function pieceBand(piece: Piece): readonly Point[] {
  const { stretch, segment, part, parts } = piece;
  const [from, long] = [stretch.from, stretch.to - stretch.from];
  const share = parts > 0 ? long / parts : long;
  const [a, b] = piece.returnOf === null ? [from + share * part, from + share * (part + 1)] : [from, from];
  return onFace(segment, a, b, piece.profile.thickness);
}

type OwnRef = Extract<Ref, { kind: 'node' | 'wall' | 'opening' }>;

/** A node, a wall or an opening: what has its place from the plan alone. Null where it is not there, or has no length. */
export function ofItself(level: Level, ref: OwnRef): Thing | null {
  const points =
    ref.kind === 'node'
      ? nodePlace(level, ref.id)
      : ref.kind === 'wall'
        ? wallBody(level, ref.id)
        : openingHole(level, ref.id);
  return points && { ref, points };
}

function nodePlace(level: Level, id: string): readonly Point[] | null {
  const at = lookup(level.nodes, id);
  return at === undefined ? null : [at];
}

/** Everything on a level that can be chosen, with its shape, in no particular order. */
export function thingsOf(derived: DerivedLevel): readonly Thing[] {
  const { walk } = derived;
  const { level, levelId } = walk;
  const things: Thing[] = [];
  const own: readonly OwnRef[] = [
    ...sortedEntries(level.nodes).map(([id]) => ({ kind: 'node' as const, level: levelId, id })),
    ...sortedEntries(level.walls).map(([id]) => ({ kind: 'wall' as const, level: levelId, id })),
    ...sortedEntries(level.openings).map(([id]) => ({ kind: 'opening' as const, level: levelId, id })),
  ];
  for (const ref of own) {
    const thing = ofItself(level, ref);
    if (thing) things.push(thing);
  }
  for (const trim of derived.trims) for (const thing of roomThings(level, trim)) things.push(thing);
  return things;
}

/** A memory by the trimmed room itself, which an edit elsewhere leaves as it is, and the built-ins it was made with. */
const made = new WeakMap<RoomTrim, { builtIns: Level['builtIns']; things: readonly Thing[] }>();

/** Everything in a room that can be chosen. */
function roomThings(level: Level, trim: RoomTrim): readonly Thing[] {
  const { builtIns } = level;
  const known = made.get(trim);
  if (known?.builtIns === builtIns) return known.things;
  const { room } = trim;
  const [outer, ...holes] = room.loops.map(loopPoints);
  const things: Thing[] = [];
  if (outer) things.push({ ref: { kind: 'room', level: level.id, id: room.id }, points: outer, holes });
  for (const { key, at } of cornersOf(room))
    things.push({ ref: { kind: 'corner', level: level.id, id: key }, points: [at] });
  for (const segment of segmentsOf(room)) things.push(...onSegmentThings(level, segment));
  for (const piece of piecesIn(trim))
    things.push({ ref: { kind: 'piece', level: level.id, id: piece.id }, points: pieceBand(piece) });
  made.set(trim, { builtIns, things });
  return things;
}

function onSegmentThings(level: Level, segment: Segment): Thing[] {
  const levelId = level.id;
  const things: Thing[] = [
    { ref: { kind: 'segment', level: levelId, id: segment.key }, points: [segment.start, segment.end] },
  ];
  for (const { id, from, to, roundCorner } of segment.builtIns)
    if (!roundCorner)
      things.push({
        ref: { kind: 'builtIn', level: levelId, id },
        points: onFace(segment, from, to, lookup(level.builtIns, id)?.depth ?? 0),
      });
  for (const { id, from, to } of segment.marks)
    things.push({ ref: { kind: 'mark', level: levelId, id }, points: onFace(segment, from, to, 0) });
  for (const opening of segment.openings)
    if (opening.casing) things.push(...casingThings(levelId, segment, opening));
  return things;
}

/** Both legs of a casing as it lies on the face; each finds the same casing. */
function casingThings(level: Ref['level'], segment: Segment, seen: Segment['openings'][number]): Thing[] {
  const { width = 0, thickness } = seen.casing?.profile ?? { thickness: 0 };
  const ref: Ref = { kind: 'casing', level, opening: seen.id, id: seen.side };
  return [
    [seen.holeFrom - seen.reveal - width, seen.holeFrom - seen.reveal] as const,
    [seen.holeTo + seen.reveal, seen.holeTo + seen.reveal + width] as const,
  ].flatMap(([a, b]) => {
    const [from, to] = [Math.max(0, a), Math.min(segment.drawn, b)];
    return from < to ? [{ ref, points: onFace(segment, from, to, thickness) }] : [];
  });
}
