// What happens in each corner of a loop for one trim line, before worked boards are chosen: the joint and its possible
// sides, or how each board ends where it meets no other. Lengths in ticks, angles in degrees. RULES: JT.
// Knows nothing of runs, pieces and scarfs.

import type { JointChoice, TrimLine } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Corner, Loop, SegmentOpening } from '../walk/types.ts';
import { nearSquare } from './angles.ts';
import { endOf, endWithoutNeighbour } from './ends.ts';
import { besideCasingCut, blockCut, STRAIGHT_DEG, stubRoom } from './lengths.ts';
import type { SegmentLine } from './stretches.ts';
import type { CornerAngles, PieceEnd, StopAt, Stretch } from './types.ts';

/** What a line's decisions in one loop are made from. Arrays are parallel to the loop's segments or corners. */
export interface LoopLine {
  readonly loop: Loop;
  readonly line: TrimLine;
  readonly segments: readonly SegmentLine[];
  readonly angles: readonly CornerAngles[];
  /** Thickness of the base behind this line in either corner of each segment and along it; 0 for base itself. */
  readonly behind: readonly { readonly left: Ticks; readonly wall: Ticks; readonly right: Ticks }[];
}

/** Why a joint that the user chose cannot be made: an outside corner, this angle, or a board that would come out too short. */
export type Refusal = 'outside' | 'angle' | 'short';

/** Two boards that meet in a corner. */
export interface CornerJoint {
  readonly corner: Corner;
  readonly angles: CornerAngles;
  readonly before: Stretch;
  readonly after: Stretch;
  readonly how: 'cope' | 'butt' | 'mitre' | 'block';
  /** Of a cope or butt: which board may be worked. Empty for mitre and block. */
  readonly sides: readonly ('after' | 'before')[];
  /** True for a cope by rule: it needs its length, and turns into a mitre where neither board has it [JT2]. */
  readonly needsLength: boolean;
  readonly chosenBy: 'rule' | 'user';
  /** Why only one side may be worked. */
  readonly sideBy: 'user' | 'taller' | 'stub' | null;
  /** The opening beside the stub that decides the side. */
  readonly stubAt: SegmentOpening | null;
  /** A choice of the user that cannot be made here. */
  readonly refused: { readonly joint: JointChoice; readonly why: Refusal } | null;
  /** The user said which board is worked, and none is: a mitre or a block [JT3]. */
  readonly sideUnused: boolean;
  /** Beside a block the wall is too short for a board. */
  readonly bare: boolean;
  readonly differs: boolean;
}

/** Why two boards do not meet in a corner, as far as one of them is there. */
export type Lost =
  | { readonly kind: 'no-room' | 'filled'; readonly opening: SegmentOpening; readonly against: StopAt }
  | { readonly kind: 'stop'; readonly stop: StopAt }
  | { readonly kind: 'no-line' | 'short' };

/** A corner: a joint of two boards, or the ends of those that are there. */
export interface CornerWork {
  readonly joint: CornerJoint | null;
  readonly beforeEnd: PieceEnd | null;
  readonly afterEnd: PieceEnd | null;
  /** Stretches that make no piece because the board round the corner takes their room. */
  readonly gone: readonly Stretch[];
  /** Where there is no joint: what keeps the boards apart. */
  readonly lost: Lost | null;
}

interface Stub {
  readonly gap: number;
  readonly opening: SegmentOpening;
  readonly stop: StopAt;
  readonly t: Ticks;
  /** Casing's whole thickness in front of what this line stands on. */
  readonly c: Ticks;
}

/** The stretch of a segment that is laid out to its right corner, or from its left one. */
function laidTo(segment: SegmentLine, side: 'left' | 'right'): Stretch | null {
  const stretch = side === 'right' ? segment.stretches.at(-1) : segment.stretches[0];
  return stretch !== undefined && stretch[side].kind === 'corner' ? stretch : null;
}

/** What stands in a corner in place of the line, or at the far end of the line that reaches it. */
function stopBeside(segment: SegmentLine, side: 'left' | 'right', laid: Stretch | null): StopAt | null {
  if (laid !== null) return laid[side === 'right' ? 'left' : 'right'];
  return side === 'right' ? segment.rightStop : segment.leftStop;
}

/** A board too short to cope between the corner and a casing, or the casing itself where it fills the corner [JT20]. */
function stubAt(
  segment: SegmentLine,
  side: 'left' | 'right',
  laid: Stretch | null,
  behind: Ticks,
  settings: Settings,
): Stub | null {
  const stop = stopBeside(segment, side, laid);
  if (segment.chosen === null || stop === null || stop.kind !== 'opening' || stop.against === 'open')
    return null;
  const gap = laid?.L ?? 0;
  if (roundHalfAway(gap) >= settings.copeMin) return null;
  const { thickness } = segment.chosen.profile;
  return { gap, opening: stop.opening, stop, t: thickness, c: Math.max(0, (stop.body ?? 0) - behind) };
}

type StubRoom = 'none' | 'exact' | 'some';

/** Is there room for the stub beside the board on the other wall [JT21–JT23]. */
function roomFor(stub: Stub, other: Stretch, alpha: number): StubRoom {
  const gap = roundHalfAway(stub.gap);
  const needed = roundHalfAway(stubRoom(stub.t, other.profile.thickness, stub.c, alpha));
  return gap < needed ? 'none' : gap === needed ? 'exact' : 'some';
}

interface Sides<T> {
  readonly before: T;
  readonly after: T;
}
const otherOf = { before: 'after', after: 'before' } as const;

/** What happens in corner `index` of the loop [JT1–JT24]. `dropped` are stretches whose pieces came out too short. */
export function cornerWork(
  at: LoopLine,
  index: number,
  dropped: ReadonlySet<Stretch>,
  settings: Settings,
): CornerWork {
  const next = (index + 1) % at.segments.length;
  const [segmentBefore, segmentAfter] = [at.segments[index]!, at.segments[next]!];
  const corner = at.loop.corners[index]!;
  const angles = at.angles[index]!;
  const alpha = angles.plain;
  const user = corner.record?.lines?.[at.line];
  const laid: Sides<Stretch | null> = {
    before: laidTo(segmentBefore, 'right'),
    after: laidTo(segmentAfter, 'left'),
  };
  const stubs: Sides<Stub | null> =
    corner.kind === 'inside'
      ? {
          before: stubAt(segmentBefore, 'right', laid.before, at.behind[index]!.right, settings),
          after: stubAt(segmentAfter, 'left', laid.after, at.behind[next]!.left, settings),
        }
      : { before: null, after: null };

  // A stub without room is no stub, whatever joint was chosen but a block, which both boards stop short of.
  const gone: Stretch[] = [];
  if (corner.kind === 'inside' && nearSquare(alpha) && user?.joint !== 'block') {
    for (const side of ['before', 'after'] as const) {
      const [mine, other, stub] = [laid[side], laid[otherOf[side]], stubs[side]];
      if (mine === null || other === null || stub === null) continue;
      if (dropped.has(mine) || dropped.has(other)) continue;
      const room = roomFor(stub, other, alpha);
      if (room === 'none' || (room === 'exact' && user?.joint === undefined)) gone.push(mine);
    }
  }
  const alive = (stretch: Stretch | null): Stretch | null =>
    stretch !== null && !dropped.has(stretch) && !gone.includes(stretch) ? stretch : null;
  const there: Sides<Stretch | null> = { before: alive(laid.before), after: alive(laid.after) };

  if (laid.before !== null && laid.after !== null && gone.length === 0) {
    const whole = there.before !== null && there.after !== null;
    const sideStubs = nearSquare(alpha) && user?.joint === undefined ? stubs : { before: null, after: null };
    const joint = jointOf(corner, angles, at.line, laid.before, laid.after, sideStubs, whole);
    if (joint.how === 'block') {
      const end = endOf('block', { corner }, blockCut(settings.blockSize));
      return { joint, beforeEnd: end, afterEnd: end, gone, lost: null };
    }
    if (whole) return { joint, beforeEnd: null, afterEnd: null, gone, lost: null };
  }

  /** The end of the board that is there on one side, where the other wall has none to meet it. */
  const endOn = (side: 'before' | 'after'): PieceEnd | null => {
    const mine = there[side];
    if (mine === null) return null;
    const stub = stubs[otherOf[side]];
    const t = mine.profile.thickness;
    if (stub !== null && roomFor(stub, mine, alpha) === 'none')
      return endOf('square', { opening: stub.opening.id }, besideCasingCut(t, stub.c, stub.gap, alpha));
    const other = at.loop.segments[side === 'before' ? next : index]!;
    return endWithoutNeighbour(mine, side === 'before' ? 'right' : 'left', corner, angles, other, settings);
  };
  return {
    joint: null,
    beforeEnd: endOn('before'),
    afterEnd: endOn('after'),
    gone,
    lost: lostAt({ before: segmentBefore, after: segmentAfter }, laid, there, stubs),
  };
}

/** What keeps two boards from meeting: told of the first side, in walking order, on which there is none. */
function lostAt(
  segments: Sides<SegmentLine>,
  laid: Sides<Stretch | null>,
  there: Sides<Stretch | null>,
  stubs: Sides<Stub | null>,
): Lost {
  const side = there.before === null ? 'before' : 'after';
  const stub = stubs[side];
  const stop = stopBeside(segments[side], side === 'before' ? 'right' : 'left', laid[side]);
  if (segments[side].chosen === null) return { kind: 'no-line' };
  if (laid[side] !== null)
    return stub === null ? { kind: 'short' } : { kind: 'no-room', opening: stub.opening, against: stub.stop };
  if (stub !== null) return { kind: 'filled', opening: stub.opening, against: stub.stop };
  return stop === null ? { kind: 'no-line' } : { kind: 'stop', stop };
}

/** The user's choice, else the joint table [JT1–JT6]. `whole`: both boards can be made. */
function jointOf(
  corner: Corner,
  angles: CornerAngles,
  line: TrimLine,
  before: Stretch,
  after: Stretch,
  stubs: Sides<Stub | null>,
  whole: boolean,
): CornerJoint {
  const user = corner.record?.lines?.[line];
  const differs = before.profileId !== after.profileId;
  const inside = corner.kind === 'inside';
  const alpha = angles.plain;
  const workable = alpha <= STRAIGHT_DEG && alpha >= 180 - STRAIGHT_DEG;
  const refusal = (joint: JointChoice): Refusal | null => {
    if (joint === 'block') return null;
    if (joint === 'mitre') {
      if (!workable && before.profile.thickness !== after.profile.thickness) return 'angle';
    } else if (!inside) return 'outside';
    else if (!workable) return 'angle';
    return whole ? null : 'short';
  };
  const why = user?.joint === undefined ? null : refusal(user.joint);
  const refused = user?.joint === undefined || why === null ? null : { joint: user.joint, why };
  const picked = refused === null ? user?.joint : undefined;
  const byRule = differs
    ? 'block'
    : !inside || !nearSquare(alpha)
      ? 'mitre'
      : before.profile.form === 'flat'
        ? 'butt'
        : 'cope';
  const how = picked ?? byRule;
  const bare = !whole;
  if (how === 'mitre' || how === 'block') {
    const chosenBy = picked !== undefined ? 'user' : 'rule';
    const sideUnused = user?.coped !== undefined && refused === null;
    return {
      corner,
      angles,
      before,
      after,
      how,
      sides: [],
      needsLength: false,
      chosenBy,
      sideBy: null,
      stubAt: null,
      refused,
      sideUnused,
      bare,
      differs,
    };
  }

  const [low, high] = [before.profile.height ?? 0, after.profile.height ?? 0];
  let sides: readonly ('after' | 'before')[] = ['after', 'before'];
  let sideBy: CornerJoint['sideBy'] = null;
  let stubOpening: SegmentOpening | null = null;
  if (user?.coped !== undefined) {
    sides = [user.coped];
    sideBy = 'user';
  } else if (differs && low !== high) {
    sides = [low > high ? 'after' : 'before'];
    sideBy = 'taller';
  } else if ((stubs.before === null) !== (stubs.after === null)) {
    sides = [stubs.before !== null ? 'after' : 'before'];
    sideBy = 'stub';
    stubOpening = (stubs.before ?? stubs.after)!.opening;
  }
  const byUser = picked !== undefined || user?.coped !== undefined;
  return {
    corner,
    angles,
    before,
    after,
    how,
    sides,
    needsLength: how === 'cope' && !byUser,
    chosenBy: byUser ? 'user' : 'rule',
    sideBy,
    stubAt: stubOpening,
    refused,
    sideUnused: false,
    bare,
    differs,
  };
}
