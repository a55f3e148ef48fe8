// The level as a carpenter walks it: rooms, their loops, segments with everything that stands on them, and corners.
// Lengths in ticks along the segment from its left corner, as seen facing the wall; angles in degrees.
// Knows nothing of trim lines: which of these things stops which line is core/trim's.

import type { FacePart, LevelFaces, Point } from '../graph/types.ts';
import type {
  BuiltInId,
  CornerKey,
  CornerRecord,
  FaceRecord,
  FaceSurface,
  Level,
  LevelId,
  MarkId,
  NodeId,
  Opening,
  OpeningId,
  Profile,
  ProfileId,
  RoomRecord,
  SegmentKey,
  Side,
  WallId,
} from '../plan/schema.ts';
import type { Ticks } from '../units/ticks.ts';

/** An opening as seen on one segment. `from` and `to` are clipped to the segment. */
export interface SegmentOpening {
  readonly id: OpeningId;
  readonly opening: Opening;
  /** Side of its wall that is this segment's. */
  readonly side: Side;
  readonly from: Ticks;
  readonly to: Ticks;
  /** The hole's edges before clipping: they may lie beyond the segment. */
  readonly holeFrom: number;
  readonly holeTo: number;
  /** Height of the hole above the subfloor. */
  readonly bottom: Ticks;
  readonly top: Ticks;
  /** Casing on this side: the profile, `null` for none, `undefined` where the plan does not say. */
  readonly casing: { readonly id: ProfileId; readonly profile: Profile } | null | undefined;
  /** 0 where the plan gives none. */
  readonly reveal: Ticks;
  /** The pocket a pocket door slides into, along the segment and clipped to it; null where there is none. */
  readonly pocket: { readonly from: number; readonly to: number } | null;
}

/** A built-in that covers part of a segment. */
export interface SegmentBuiltIn {
  readonly id: BuiltInId;
  readonly from: Ticks;
  readonly to: Ticks;
  readonly bottom: Ticks;
  readonly top: Ticks;
  readonly kind: Level['builtIns'][BuiltInId]['kind'];
  readonly ends: 'square' | 'scribe' | 'return';
  /** True where it stands on the neighbouring wall and reaches round the corner by its depth. */
  readonly roundCorner: boolean;
}

export interface SegmentMark {
  readonly id: MarkId;
  readonly kind: 'outlet' | 'register';
  readonly from: Ticks;
  readonly to: Ticks;
  readonly bottom: Ticks;
  readonly top: Ticks;
}

export interface Segment {
  readonly key: SegmentKey;
  readonly room: string;
  /** Position in its loop; `loop.corners[index]` is its right corner, the one before (cyclically) its left. */
  readonly index: number;
  readonly loop: number;
  readonly parts: readonly FacePart[];
  readonly start: Point;
  readonly end: Point;
  /** Unit vector from start to end. */
  readonly along: Point;
  /** Unit vector from the face into the room. */
  readonly inward: Point;
  /** Drawn length between its corners. */
  readonly drawn: number;
  readonly record: FaceRecord | undefined;
  /** What the face is made of at its left and right end. A wall end or a jog takes its wall's (the thicker wall's) face. */
  readonly surfaceLeft: FaceSurface;
  readonly surfaceRight: FaceSurface;
  /** Lowest wall height along it; null where all reach the ceiling. */
  readonly wallHeight: Ticks | null;
  /** Sorted by `from`, then id. */
  readonly openings: readonly SegmentOpening[];
  readonly builtIns: readonly SegmentBuiltIn[];
  readonly marks: readonly SegmentMark[];
}

export interface Corner {
  readonly key: CornerKey;
  /** Null until `number(plan)` has given it one. */
  readonly number: number | null;
  readonly node: NodeId;
  readonly nodeAt: Point;
  readonly at: Point;
  readonly wallIn: WallId;
  readonly wallOut: WallId;
  /** Inside: room angle below 180°. */
  readonly kind: 'inside' | 'outside';
  /** Between the faces, through the room, as drawn; 0 to 360. */
  readonly roomAngleDeg: number;
  readonly record: CornerRecord | undefined;
}

export interface Loop {
  readonly kind: 'outer' | 'island';
  /** Walking order, starting at the loop's smallest corner; segment i ends in corner i. */
  readonly segments: readonly Segment[];
  readonly corners: readonly Corner[];
  readonly tooNarrow: boolean;
  /** Signed, square ticks: positive for the outer loop. */
  readonly signedArea: number;
}

export interface Room {
  /** The record's id, or `@` and the first segment's key. */
  readonly id: string;
  readonly name: string;
  readonly level: LevelId;
  readonly record: RoomRecord | undefined;
  /** Outer loop first, islands after it in canonical order. */
  readonly loops: readonly Loop[];
  /** Clear floor between faces, islands taken off, square ticks. */
  readonly area: number;
  /** Of all loops, ticks. */
  readonly perimeter: number;
  /** The entry as it stands in this room; null where none is named or it does not open into this room. */
  readonly entry: {
    readonly id: OpeningId;
    readonly segment: Segment;
    /** Middle of the hole on that face. */
    readonly middle: Point;
    readonly inward: Point;
  } | null;
}

/** Something the walk noticed; core/fit turns it into a finding. `at` in ticks. */
export type WalkNote =
  | {
      readonly kind: 'too-narrow';
      readonly room: string;
      readonly at: Point;
      readonly about: readonly string[];
      /** The wall end that crosses the face of another wall, where that is what makes it too narrow. */
      readonly join?: { readonly end: WallId; readonly to: WallId };
    }
  | {
      readonly kind: 'not-closed';
      readonly at: Point;
      readonly about: readonly string[];
      readonly gap: number | null;
    }
  | {
      readonly kind: 'record-unused';
      readonly record: 'room' | 'corner' | 'face' | 'entry';
      readonly id: string;
      readonly at: Point | null;
    }
  | { readonly kind: 'room-twice'; readonly ids: readonly string[]; readonly at: Point };

export interface LevelWalk {
  readonly level: Level;
  readonly levelId: LevelId;
  /** What the rooms were made of: the outer loops stand in the order of `rooms`. */
  readonly faces: LevelFaces;
  /** Canonical order. Voids and the plan's outside are not rooms. */
  readonly rooms: readonly Room[];
  /** Face loops that are no room's, for drawing walls: corners in ticks, walking order. */
  readonly voids: readonly (readonly Point[])[];
  readonly outside: readonly (readonly Point[])[];
  readonly notes: readonly WalkNote[];
  /** Walls that do not close or meet: those of `notes`, and those that are told as part of a narrow place. */
  readonly notClosed: readonly WalkNote[];
}
