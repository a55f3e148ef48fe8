// A finished ring of sides to a face loop's segments and corners: keys, parts and the canonical start (RULES: WK8, WK9).
// Ticks, y down. A loop starts at its smallest corner: that is corner 0, and segment i ends in corner i, so segment 1
// leaves it. Knows nothing of what the loop encloses.

import { byCodeUnit } from '../plan/maps.ts';
import type { CornerKey, NodeId, SegmentKey, WallId } from '../plan/schema.ts';
import type { Faces, Side } from './offset.ts';
import { sidesOf } from './offset.ts';
import { distance, dot, minus } from './orientation.ts';
import type { FaceCorner, FacePart, FaceSegment, HalfEdge, Point } from './types.ts';

/** Segments and corners of one loop, in canonical walking order. */
export interface Outline {
  readonly segments: readonly FaceSegment[];
  readonly corners: readonly FaceCorner[];
  /** Parallel to `segments`: it comes out against its wall's walking direction. */
  readonly reversed: readonly boolean[];
}

/** Names the sides and corners of a ring and turns it to its canonical start. RULES: WK8, WK9. */
export function outlineOf(start: Side, faces: Faces): Outline {
  const sides = sidesOf(start);
  const corners = sides.map((side) => cornerAfter(side, faces));
  let smallest = 0;
  for (let i = 1; i < corners.length; i++) {
    if (compareCorners(corners[i]!, corners[smallest]!) < 0) smallest = i;
  }
  const turned = <T>(list: readonly T[]): T[] => [...list.slice(smallest), ...list.slice(0, smallest)];
  const ordered = turned(sides);
  return {
    segments: ordered.map((side) => segmentOf(side, faces)),
    corners: turned(corners),
    reversed: ordered.map((side) => dot(minus(side.end.face, side.prev.end.face), side.first.dir) < 0),
  };
}

/** Canonical order of corners: y, then x of the node, then key. RULES: WK9. */
export function compareCorners(a: FaceCorner, b: FaceCorner): number {
  return a.nodeAt[1] - b.nodeAt[1] || a.nodeAt[0] - b.nodeAt[0] || byCodeUnit(a.key, b.key);
}

/** Key of a wall end or a jog: its corners' key without `#`. RULES: WK8. */
function linkKey(node: NodeId, into: WallId, out: WallId): string {
  return `${node}:${into}>${out}`;
}

/** The corner where a side meets the next one. RULES: WK8. */
function cornerAfter(side: Side, faces: Faces): FaceCorner {
  const next = side.next;
  const wasLink = side.run.length === 0;
  const toLink = next.run.length === 0;
  const into = wasLink ? side.link!.into : side.run[side.run.length - 1]!;
  const out = toLink ? next.link!.out : next.run[0]!;
  const node = faces.edges[into]!.target;
  const nodeAt = faces.originAt[faces.edges[into]!.twin]!;
  const wallIn = faces.edges[into]!.wall;
  const wallOut = faces.edges[out]!.wall;
  const suffix = wasLink ? '#1' : toLink ? '#0' : '';
  const key = `${linkKey(node, wallIn, wallOut)}${suffix}` as CornerKey;
  return { key, node, nodeAt, at: side.end.face, wallIn, wallOut };
}

function segmentOf(side: Side, faces: Faces): FaceSegment {
  const start = side.prev.end.face;
  const end = side.end.face;
  if (side.run.length === 0) {
    const { into, out } = side.link!;
    const key = linkKey(
      faces.edges[into]!.target,
      faces.edges[into]!.wall,
      faces.edges[out]!.wall,
    ) as SegmentKey;
    const link = { into: sideOf(faces.edges[into]!), out: sideOf(faces.edges[out]!) };
    return { key, parts: [], link, start, end };
  }
  const first = faces.edges[side.run[0]!]!;
  const key = `${first.wall}:${first.side}` as SegmentKey;
  return { key, parts: partsOf(side, start, end, faces), link: null, start, end };
}

function sideOf({ wall, side }: HalfEdge): Pick<HalfEdge, 'wall' | 'side'> {
  return { wall, side };
}

/** The walls of a segment tile it: cut where their nodes project square onto it. */
function partsOf(side: Side, start: Point, end: Point, faces: Faces): FacePart[] {
  const length = distance(start, end);
  const chord = minus(end, start);
  let from = 0;
  return side.run.map((index, i) => {
    const edge = faces.edges[index]!;
    const last = i === side.run.length - 1;
    const node = faces.originAt[edge.twin]!;
    const cut = last || length === 0 ? length : dot(minus(node, start), chord) / length;
    const to = Math.min(length, Math.max(from, cut));
    const part: FacePart = { wall: edge.wall, side: edge.side, from, to };
    from = to;
    return part;
  });
}
