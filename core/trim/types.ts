// Trim on a walked level: stretches, runs, pieces, ends, casings. Lengths in ticks, angles in degrees.
// Left and right are as seen facing the wall; offsets are outward positive (RULES: LN).

import type {
  BuiltInId,
  LevelId,
  OpeningId,
  Profile,
  ProfileId,
  SegmentKey,
  Side,
  TrimLine,
} from '../plan/schema.ts';
import type { Ticks } from '../units/ticks.ts';
import type { Corner, Room, Segment, SegmentOpening } from '../walk/types.ts';

/** Included angle of a corner, degrees. `used` = the measured or drawn angle with the allowance, at most 180. */
export interface CornerAngles {
  readonly drawn: number;
  readonly measured: number | null;
  /** Signed: inside positive, outside negative, 0 where none applies. */
  readonly allowance: number;
  readonly used: number;
  /** Measured, else drawn: what limits, butts, through ends, shoe and stubs use. */
  readonly plain: number;
}

/** What stands at one end of a stretch, for one trim line. */
export type StopAt =
  | { readonly kind: 'corner'; readonly corner: Corner }
  | {
      readonly kind: 'opening';
      readonly opening: SegmentOpening;
      /** 'casing' or 'plinth' where something stands there; 'open' for a passage or an uncased side. */
      readonly against: 'casing' | 'plinth' | 'open';
      /** Thickness of the casing's outer edge or of the plinth; null where unknown. */
      readonly thickness: Ticks | null;
      /** How far the casing as a whole, or the plinth, stands out: its full thickness; null where unknown [JT20]. */
      readonly body: Ticks | null;
    }
  | { readonly kind: 'builtIn'; readonly id: BuiltInId; readonly ends: 'square' | 'scribe' | 'return' };

/** A part of a segment that one trim line covers without a stop. */
export interface Stretch {
  readonly line: TrimLine;
  readonly segment: Segment;
  /** `corner..o1`: as the plan file keys it. */
  readonly key: string;
  readonly profileId: ProfileId;
  readonly profile: Profile;
  /** Drawn extent along the segment. */
  readonly from: number;
  readonly to: number;
  readonly left: StopAt;
  readonly right: StopAt;
  readonly drawn: number;
  readonly measured: Ticks | null;
  /** Measured, else drawn; for shoe, less or plus what its base takes at corners. */
  readonly L: number;
  /** How far L begins to the right of `from`: 0 but for shoe in a corner, where it is what its base takes there. */
  readonly inset: number;
}

export type EndKind = 'square' | 'cope' | 'mitre' | 'butt' | 'scarf' | 'return' | 'scribe' | 'block';

/** One end of a piece. */
export interface PieceEnd {
  readonly end: EndKind;
  readonly at:
    | { readonly corner: Corner }
    | { readonly opening: OpeningId }
    | { readonly builtIn: BuiltInId }
    | { readonly piece: string }; // the neighbour at a scarf; the parent at a return piece
  readonly backOffset: number;
  readonly faceOffset: number;
  /** Degrees off square on the saw, 0 to 90. */
  readonly sawDeg: number;
  readonly longPoint: 'back' | 'face' | null;
  /** At a scarf: does this piece lap (its face covers) or lie under. */
  readonly lap: 'laps' | 'under' | null;
  /** True where the end runs through a corner to the wall and the neighbour is worked into it. */
  readonly through: boolean;
}

export interface Piece {
  /** `7A`, `shoe-7A`, `7Ar-left`. */
  readonly id: string;
  readonly line: TrimLine;
  readonly room: string;
  readonly profileId: ProfileId;
  readonly profile: Profile;
  readonly segment: Segment;
  readonly stretch: Stretch;
  /** Which equal or given part of the stretch, from the left; 0 and 1 where it is whole. */
  readonly part: number;
  readonly parts: number;
  /** Its share of the stretch's L. */
  readonly L: number;
  readonly back: number;
  readonly face: number;
  readonly overall: number;
  readonly spring: Ticks;
  /** What a board for the whole stretch would have to hold, spring included, however its corners are joined [LN30]. */
  readonly wholeNeed: number;
  readonly left: PieceEnd;
  readonly right: PieceEnd;
  readonly lengthFrom: 'drawn' | 'measured';
  /** Of putting up within the run, from 1. */
  readonly order: number;
  /** The piece this one closes, for a return piece. */
  readonly returnOf: string | null;
}

export interface Run {
  readonly line: TrimLine;
  readonly closed: boolean;
  /** Walking order; a closed run starts at the loop's first corner. Return pieces follow their parent in `returns`. */
  readonly pieces: readonly Piece[];
  readonly returns: readonly Piece[];
  /** True where the user's choices make a circle: finding `order-circle`. */
  readonly circle: boolean;
}

/** What is done at one corner of one line; null in `RoomTrim.joints` where two boards do not meet there. */
export interface JointAt {
  readonly corner: Corner;
  readonly line: TrimLine;
  /** What meets here, as the line is laid out: beside a block one of them may be too short for a board. */
  readonly before: Stretch;
  readonly after: Stretch;
  readonly joint: 'cope' | 'mitre' | 'butt' | 'block';
  readonly coped: 'before' | 'after' | null;
  /** Of the worked board; of a mitre of unequal thickness, the board on the wall walked in on. */
  readonly sawDeg: number;
  readonly why: string;
  readonly chosenBy: 'rule' | 'user';
  /** Set where a cope could not be had because both boards are short: finding `cope-short`. */
  readonly copeShort: boolean;
  /** Heights or profiles differ: finding `height-change`. */
  readonly differs: boolean;
}

/** What the user chose at a corner where two boards do not meet: it cannot be made there [JT3]. */
export interface UnmadeChoice {
  readonly corner: Corner;
  /** A sentence: what was chosen, why it cannot be made, what was done instead. */
  readonly why: string;
}

/** One line in one room, by loop. */
export interface LineTrim {
  readonly line: TrimLine;
  readonly stretches: readonly Stretch[];
  /** Laid out, but they make no piece: too short, or no stub beside a casing [JT21, LN17]. */
  readonly gone: readonly Stretch[];
  readonly unmade: readonly UnmadeChoice[];
  readonly runs: readonly Run[];
  /** Parallel to `room.loops[i].corners`. */
  readonly joints: readonly (readonly (JointAt | null)[])[];
}

export interface RoomTrim {
  readonly room: Room;
  /** Parallel to `room.loops[i].corners`. */
  readonly angles: readonly (readonly CornerAngles[])[];
  readonly lines: readonly LineTrim[];
}

export interface CasingSet {
  /** `o1.left`. */
  readonly id: string;
  readonly opening: OpeningId;
  readonly side: Side;
  readonly room: string | null;
  readonly profileId: ProfileId;
  /** True where the leg's foot height is not known (no new floor on that side): reckoned from the subfloor and marked assumed. */
  readonly assumedFloor: boolean;
  readonly parts: readonly {
    readonly part: 'head' | 'legLeft' | 'legRight' | 'sill';
    readonly short: number;
    readonly long: number;
  }[];
}

/** Where stock wants scarfs, by `level|segment key|line|stretch key`: positions of the joints from the stretch's left end, ticks. */
export type Splits = Readonly<Record<string, readonly Ticks[]>>;

/** Key into `Splits`. Segment keys are unique within a level only. */
export function splitKey(level: LevelId, segment: SegmentKey, line: TrimLine, stretch: string): string {
  return `${level}|${segment}|${line}|${stretch}`;
}

/** Key into `Splits` of a room's stretch. */
export function stretchKey({ level }: Pick<Room, 'level'>, { segment, line, key }: Stretch): string {
  return splitKey(level, segment.key, line, key);
}
