// Faces of walls as things stand on them: where the face's corners are along the wall, both gaps to them, and what stands
// there. Ticks along the centre line from the wall's first node (as `at` in the plan); left and right are as seen facing
// the wall.

import type { Point } from '../../core/graph/index.ts';
import { along, cross, distance, dot, minus, rightOf, unit } from '../../core/graph/index.ts';
import { type Level, lookup, mustLookup, type Side, type WallId } from '../../core/plan/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import type { LevelWalk, Loop, Segment } from '../../core/walk/index.ts';
import type { ToolContext } from './types.ts';

export interface Face {
  readonly wall: WallId;
  readonly side: Side;
  readonly from: Point;
  /** Unit vector from the wall's first node to its second. */
  readonly way: Point;
  /** Unit vector from the wall out of this face. */
  readonly out: Point;
  readonly length: number;
  readonly half: number;
  /** The face's corners along the wall; they may lie beyond the wall where the face runs on over others. */
  readonly low: number;
  readonly high: number;
  readonly segment: Segment | null;
  /** Whether each of the two corners is an inside one, which nothing reaches past. */
  readonly shut: { readonly low: boolean; readonly high: boolean };
}

/** The face of a wall. Null where there is no such wall or it has no length. */
export function faceOf(level: Level, walk: LevelWalk, wall: WallId, side: Side): Face | null {
  const record = lookup(level.walls, wall);
  if (record === undefined) return null;
  const [from, to] = [mustLookup(level.nodes, record.from), mustLookup(level.nodes, record.to)];
  const length = distance(from, to);
  if (length === 0) return null;
  const way = unit(minus(to, from));
  const right = rightOf(way);
  const out: Point = side === 'right' ? right : [0 - right[0], 0 - right[1]];
  const [segment, loop] = segmentOf(walk, wall, side) ?? [null, null];
  const ends =
    segment === null ? [0, length] : [segment.start, segment.end].map((at) => dot(minus(at, from), way));
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const shut = segment === null ? OPEN_ENDS : shutEnds(segment, loop, side);
  return { wall, side, from, way, out, length, half: record.thickness / 2, low, high, segment, shut };
}

/** Of a face whose corners hold nothing back. */
export const OPEN_ENDS: Face['shut'] = { low: false, high: false };

/** A wall's right face is walked from its first node on: its left corner is its low end. */
function shutEnds({ index }: Segment, { corners }: Loop, side: Side): Face['shut'] {
  const [left, right] = [corners.at(index - 1)!, corners[index]!].map(({ kind }) => kind === 'inside');
  return side === 'right' ? { low: left!, high: right! } : { low: right!, high: left! };
}

/** All segments of the level's rooms. */
export function segmentsOf(walk: LevelWalk): readonly Segment[] {
  return walk.rooms.flatMap(({ loops }) => loops.flatMap(({ segments }) => segments));
}

function segmentOf(walk: LevelWalk, wall: WallId, side: Side): readonly [Segment, Loop] | null {
  for (const { loops } of walk.rooms)
    for (const loop of loops)
      for (const segment of loop.segments)
        if (segment.parts.some((part) => part.wall === wall && part.side === side)) return [segment, loop];
  return null;
}

/** The face nearest to a place, within a reach of its wall's body; null where there is none. */
export function faceNear({ level, walk }: ToolContext, at: Point, reach: number): Face | null {
  let best: { wall: WallId; side: Side; off: number } | null = null;
  for (const wall of Object.keys(level.walls) as WallId[]) {
    const { from: a, to: b, thickness } = mustLookup(level.walls, wall);
    const [from, to] = [mustLookup(level.nodes, a), mustLookup(level.nodes, b)];
    const way = minus(to, from);
    const square = dot(way, way);
    if (square === 0) continue;
    const t = Math.max(0, Math.min(1, dot(minus(at, from), way) / square));
    const off = Math.max(
      0,
      Math.hypot(at[0] - from[0] - way[0] * t, at[1] - from[1] - way[1] * t) - thickness / 2,
    );
    if (off > reach || (best !== null && off >= best.off)) continue;
    best = { wall, side: cross(way, minus(at, from)) >= 0 ? 'right' : 'left', off };
  }
  return best === null ? null : faceOf(level, walk, best.wall, best.side);
}

/** Where a place lies along the face's wall. */
export function alongFace(face: Face, at: Point): number {
  return dot(minus(at, face.from), face.way);
}

/** Gaps from a thing's edges to the face's corners, as seen facing the wall. */
export function gapsOf(
  face: Face,
  at: number,
  width: number,
): { readonly left: number; readonly right: number } {
  const [first, last] = [at - face.low, face.high - at - width];
  return face.side === 'right' ? { left: first, right: last } : { left: last, right: first };
}

/** Where a thing's nearer edge is when its gap to the left or right corner is so much. Whole ticks. */
export function placeByGap(face: Face, gap: number, from: 'left' | 'right', width: number): number {
  const atLow = (from === 'left') === (face.side === 'right');
  return roundHalfAway(atLow ? face.low + gap : face.high - gap - width);
}

/**
 * A thing on a face as wide as typed: its middle stays, but what stood between the corners does not go past one as long as
 * it has room there. Whole ticks.
 */
export function widened(
  { at, width }: { readonly at: number; readonly width: number },
  to: number,
  face: Pick<Face, 'low' | 'high'> | null,
): { readonly at: number; readonly width: number } {
  const about = roundHalfAway(at + (width - to) / 2);
  if (face === null) return { at: about, width: to };
  const [least, most] = [Math.ceil(face.low), Math.floor(face.high - to)];
  const between = at > face.low - 1 && at + width < face.high + 1;
  return { at: between && least <= most ? Math.max(least, Math.min(most, about)) : about, width: to };
}

/** A place on the face's line, so far along its wall. */
export function onFace(face: Face, at: number, off = 0): Point {
  return along(along(face.from, face.way, at), face.out, face.half + off);
}

/** What stands on the face now, as spans along its wall: openings of the wall, and built-ins and marks of this side. */
export function standingOn(
  level: Level,
  { wall, side }: Pick<Face, 'wall' | 'side'>,
  but: string | null,
): readonly (readonly [number, number])[] {
  const spans: (readonly [number, number])[] = [];
  for (const [id, record] of Object.entries(level.openings))
    if (record.wall === wall && id !== but) spans.push([record.at, record.at + record.width]);
  for (const map of [level.builtIns, level.marks])
    for (const [id, record] of Object.entries(map))
      if (record.wall === wall && record.side === side && id !== but)
        spans.push([record.at, record.at + record.width]);
  return spans;
}

/** The face straight across the room: parallel, looking at this one, beside it, the nearest. */
export function facing(
  walk: LevelWalk,
  segment: Segment,
): { readonly segment: Segment; readonly gap: number } | null {
  const room = walk.rooms.find(({ id }) => id === segment.room);
  let best: { segment: Segment; gap: number } | null = null;
  for (const other of room?.loops.flatMap(({ segments }) => segments) ?? []) {
    if (other === segment || other.parts.length === 0) continue;
    if (dot(other.inward, segment.inward) > -0.999999) continue;
    const gap = dot(minus(other.start, segment.start), segment.inward);
    const [a, b] = [other.start, other.end].map((at) => dot(minus(at, segment.start), segment.along)) as [
      number,
      number,
    ];
    const beside = Math.min(segment.drawn, Math.max(a, b)) - Math.max(0, Math.min(a, b));
    if (gap <= 0 || beside <= 0 || (best !== null && gap >= best.gap)) continue;
    best = { segment: other, gap };
  }
  return best;
}
