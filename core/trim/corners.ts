// What happens in each corner of a loop for one trim line, before worked boards are chosen: the joint and its possible
// sides, or how each board ends where it meets no other. Lengths in ticks, angles in degrees. RULES: JT.
// Knows nothing of runs, pieces and scarfs.

import type { JointChoice, TrimLine } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Corner, Loop, SegmentOpening } from '../walk/types.ts';
import { nearSquare } from './angles.ts';
import { endOf, endWithoutNeighbour } from './ends.ts';
import { againstCasingCut, blockCut, STRAIGHT_DEG, stubRoom, throughCut } from './lengths.ts';
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
  readonly refused: JointChoice | null;
  readonly differs: boolean;
}

/** A corner: a joint of two boards, or the ends of those that are there. */
export interface CornerWork {
  readonly joint: CornerJoint | null;
  readonly beforeEnd: PieceEnd | null;
  readonly afterEnd: PieceEnd | null;
  /** Stretches that make no piece because the board round the corner takes their room. */
  readonly gone: readonly Stretch[];
}

interface Stub {
  readonly stretch: Stretch | null;
  readonly gap: number;
  readonly opening: SegmentOpening;
  readonly t: Ticks;
  /** Casing's thickness in front of what this line stands on. */
  readonly c: Ticks;
}

/** The stretch of a segment that ends in its right corner, or starts in its left one. */
function stretchAt(
  segment: SegmentLine,
  side: 'left' | 'right',
  dropped: ReadonlySet<Stretch>,
): Stretch | null {
  const stretch = side === 'right' ? segment.stretches.at(-1) : segment.stretches[0];
  return stretch !== undefined && stretch[side].kind === 'corner' && !dropped.has(stretch) ? stretch : null;
}

/** A board too short to cope between the corner and a casing, or the casing itself where it fills the corner [JT20]. */
function stubAt(
  segment: SegmentLine,
  side: 'left' | 'right',
  stretch: Stretch | null,
  behind: Ticks,
  settings: Settings,
): Stub | null {
  const other = side === 'right' ? 'left' : 'right';
  const stop: StopAt | null =
    stretch !== null ? stretch[other] : side === 'right' ? segment.rightStop : segment.leftStop;
  if (segment.chosen === null || stop === null || stop.kind !== 'opening' || stop.against === 'open')
    return null;
  const gap = stretch?.L ?? 0;
  if (roundHalfAway(gap) >= settings.copeMin) return null;
  return {
    stretch,
    gap,
    opening: stop.opening,
    t: segment.chosen.profile.thickness,
    c: Math.max(0, (stop.thickness ?? 0) - behind),
  };
}

type Room = 'none' | 'exact' | 'some';

/** Is there room for the stub beside the board on the other wall [JT21–JT23]. */
function roomFor(stub: Stub, other: Stretch, alpha: number): Room {
  const gap = roundHalfAway(stub.gap);
  const needed = roundHalfAway(stubRoom(stub.t, other.profile.thickness, stub.c, alpha));
  return gap < needed ? 'none' : gap === needed ? 'exact' : 'some';
}

/** How a board ends in a corner where the stub on the other wall has no room. */
function endBesideStub(stretch: Stretch, stub: Stub, room: Room, corner: Corner, alpha: number): PieceEnd {
  const t = stretch.profile.thickness;
  if (room === 'exact') return endOf('square', { corner }, throughCut(t, alpha, stretch.profile.form));
  return endOf('square', { opening: stub.opening.id }, againstCasingCut(t, stub.c, alpha));
}

/** What happens in corner `index` of the loop [JT1–JT23]. `dropped` are stretches that came out with no length. */
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
  let before = stretchAt(segmentBefore, 'right', dropped);
  let after = stretchAt(segmentAfter, 'left', dropped);
  let beforeEnd: PieceEnd | null = null;
  let afterEnd: PieceEnd | null = null;
  const gone: Stretch[] = [];
  let stubs: { before: Stub | null; after: Stub | null } = { before: null, after: null };

  if (corner.kind === 'inside' && nearSquare(angles.plain)) {
    const chosen = corner.record?.lines?.[at.line]?.joint !== undefined;
    const stub = (
      segment: SegmentLine,
      side: 'left' | 'right',
      own: Stretch | null,
      other: Stretch | null,
    ) =>
      other === null || (own !== null && chosen)
        ? null
        : stubAt(segment, side, own, at.behind[side === 'right' ? index : next]![side], settings);
    stubs = {
      before: stub(segmentBefore, 'right', before, after),
      after: stub(segmentAfter, 'left', after, before),
    };
    const roomBefore = stubs.before && after ? roomFor(stubs.before, after, angles.plain) : 'some';
    const roomAfter = stubs.after && before ? roomFor(stubs.after, before, angles.plain) : 'some';
    if (roomBefore !== 'some') {
      afterEnd = endBesideStub(after!, stubs.before!, roomBefore, corner, angles.plain);
      if (before !== null) gone.push(before);
    }
    if (roomAfter !== 'some') {
      beforeEnd = endBesideStub(before!, stubs.after!, roomAfter, corner, angles.plain);
      if (after !== null) gone.push(after);
    }
    if (roomBefore !== 'some') before = null;
    if (roomAfter !== 'some') after = null;
  }

  if (before !== null && after !== null) {
    const joint = jointOf(corner, angles, at.line, before, after, stubs);
    if (joint.how !== 'block') return { joint, beforeEnd: null, afterEnd: null, gone };
    const end = endOf('block', { corner }, blockCut(settings.blockSize));
    return { joint, beforeEnd: end, afterEnd: end, gone };
  }
  const bare = (stretch: Stretch, side: 'left' | 'right'): PieceEnd => {
    const other = at.loop.segments[side === 'right' ? next : index]!;
    return endWithoutNeighbour(stretch, side, corner, angles, other, settings);
  };
  return {
    joint: null,
    beforeEnd: before === null ? null : (beforeEnd ?? bare(before, 'right')),
    afterEnd: after === null ? null : (afterEnd ?? bare(after, 'left')),
    gone,
  };
}

/** The user's choice, else the joint table [JT1–JT6]. */
function jointOf(
  corner: Corner,
  angles: CornerAngles,
  line: TrimLine,
  before: Stretch,
  after: Stretch,
  stubs: { readonly before: Stub | null; readonly after: Stub | null },
): CornerJoint {
  const user = corner.record?.lines?.[line];
  const differs = before.profileId !== after.profileId;
  const inside = corner.kind === 'inside';
  const alpha = angles.plain;
  const workable = alpha <= STRAIGHT_DEG && alpha >= 180 - STRAIGHT_DEG;
  const possible: Readonly<Record<JointChoice, boolean>> = {
    cope: inside && workable,
    butt: inside && workable,
    mitre: workable || before.profile.thickness === after.profile.thickness,
    block: true,
  };
  const refused = user?.joint !== undefined && !possible[user.joint] ? user.joint : null;
  const picked = refused === null ? user?.joint : undefined;
  const byRule = differs
    ? 'block'
    : !inside || !nearSquare(alpha)
      ? 'mitre'
      : before.profile.form === 'flat'
        ? 'butt'
        : 'cope';
  const how = picked ?? byRule;
  const bare = { corner, angles, before, after, how, refused, differs } as const;
  if (how === 'mitre' || how === 'block') {
    const chosenBy = picked !== undefined ? 'user' : 'rule';
    return { ...bare, sides: [], needsLength: false, chosenBy, sideBy: null, stubAt: null };
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
    ...bare,
    sides,
    needsLength: how === 'cope' && !byUser,
    chosenBy: byUser ? 'user' : 'rule',
    sideBy,
    stubAt: stubOpening,
  };
}
