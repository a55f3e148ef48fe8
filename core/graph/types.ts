// What the graph of a level is made of. Positions in ticks, x right and y down the sheet, so that turning from +x to +y
// is clockwise as seen. Half-edges run with their wall on the left hand and the room on the right (RULES: WK1).

import type { CornerKey, NodeId, SegmentKey, Side, WallId } from '../plan/schema.ts';

/** A position or a vector on the sheet: [x, y] in ticks, x right, y down. */
export type Point = readonly [x: number, y: number];

/** Smallest and largest x and y of some points, ticks. */
export type Box = readonly [minX: number, minY: number, maxX: number, maxY: number];

/** Position of a half-edge in `HalfEdges.edges`. */
export type HalfEdgeIndex = number;

/**
 * One side of a wall, walked so that the wall is on the left hand and the floor on the right.
 * `side: 'right'` runs from the wall's first node to its second, `side: 'left'` back.
 */
export interface HalfEdge {
  readonly index: HalfEdgeIndex;
  readonly wall: WallId;
  readonly side: Side;
  readonly origin: NodeId;
  readonly target: NodeId;
  readonly twin: HalfEdgeIndex;
  readonly next: HalfEdgeIndex;
  readonly prev: HalfEdgeIndex;
  /** Position of its loop in `HalfEdges.loops`. */
  readonly loop: number;
}

/** All half-edges of a level and the closed walks they form. `loops[i]` lists half-edge indices in walking order. */
export interface HalfEdges {
  readonly edges: readonly HalfEdge[];
  readonly loops: readonly (readonly HalfEdgeIndex[])[];
}

/** A corner of a face loop, where two segments meet. `at` is on the faces, in ticks. */
export interface FaceCorner {
  readonly key: CornerKey;
  readonly node: NodeId;
  /** The node's own position: canonical order sorts by it (y, then x, then key). */
  readonly nodeAt: Point;
  readonly at: Point;
  readonly wallIn: WallId;
  readonly wallOut: WallId;
}

/** The part of a half-edge that lies in a segment, in walking order. */
export interface FacePart {
  readonly wall: WallId;
  readonly side: Side;
  /** Along the segment from its left corner, ticks; the parts tile [0, length]. */
  readonly from: number;
  readonly to: number;
}

/** A straight part of a face loop between two corners. */
export interface FaceSegment {
  readonly key: SegmentKey;
  /** Walls in walking order. One entry that names no face for a wall end or a jog: then `parts` is empty. */
  readonly parts: readonly FacePart[];
  /** Set for a wall end or a jog: the wall side walked in on and the one walked out on; null for a face. */
  readonly link: {
    readonly into: Pick<HalfEdge, 'wall' | 'side'>;
    readonly out: Pick<HalfEdge, 'wall' | 'side'>;
  } | null;
  readonly start: Point;
  readonly end: Point;
}

/**
 * One closed walk along wall faces, starting at its smallest corner (y, then x of its node, then key): that is
 * `corners[0]`. Segment i ends in corner i, so segment 1 leaves the smallest corner and segment 0 comes back to it.
 */
export interface FaceLoop {
  readonly kind: 'outer' | 'island' | 'void' | 'outside';
  readonly segments: readonly FaceSegment[];
  readonly corners: readonly FaceCorner[];
  /** Round its corners. */
  readonly box: Box;
  /** Signed area within the faces, square ticks: positive for clockwise as seen on the sheet (a room's outer loop). */
  readonly signedArea: number;
  /** True when the offset faces cross: finding `too-narrow`, no boards. */
  readonly tooNarrow: boolean;
}

/** Where a loop is too narrow: a point where its faces cross, and the keys of the segments that do. */
export interface NarrowPlace {
  readonly at: Point;
  readonly segments: readonly SegmentKey[];
}

/** Walls that hang together, and the loops along them. */
export interface WallComponent {
  /** Code-unit order. */
  readonly walls: readonly WallId[];
  /** Positions in `LevelFaces.loops`. */
  readonly loops: readonly number[];
}

/** All face loops of a level and how they lie in one another. */
export interface LevelFaces {
  /** Canonical order: each room's outer loop with its islands after it, then voids, then the outside. */
  readonly loops: readonly FaceLoop[];
  /** Parallel to `loops`: for an island the position of the outer loop that holds it, else null. */
  readonly holders: readonly (number | null)[];
  /** Parallel to `loops`: set where `tooNarrow` is true. */
  readonly narrowAt: readonly (NarrowPlace | null)[];
  readonly components: readonly WallComponent[];
}
