// One room to its trim: corner angles, and for base and shoe the stretches, runs, pieces and joints. Ticks, degrees.
// Pure: the same room and splits give the same trim. RULES: CN, JT, WB, LN.

import type { Plan, TrimLine } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Corner, Loop, Room } from '../walk/types.ts';
import { cornerAngles } from './angles.ts';
import { boardsOf } from './boards.ts';
import { type CornerWork, cornerWork, type LoopLine } from './corners.ts';
import { shoeTake } from './lengths.ts';
import { chainsOf, type Decision, runOf, type View } from './runs.ts';
import type { Making } from './scarfs.ts';
import { sightOf } from './sight.ts';
import { LEAST_LENGTH, type SegmentLine, segmentLine } from './stretches.ts';
import type {
  CornerAngles,
  JointAt,
  LineTrim,
  Piece,
  RoomTrim,
  Run,
  Splits,
  Stretch,
  UnmadeChoice,
} from './types.ts';
import { blockWords, decisionWords, unmadeWords } from './why.ts';

/** The lines that are reckoned; the plan's other lines give none. */
const TRIMMED: readonly TrimLine[] = ['base', 'shoe'];

interface Context extends Making {
  readonly view: View;
}

const leftCorner = (loop: Loop, index: number): Corner =>
  loop.corners[(index + loop.corners.length - 1) % loop.corners.length]!;

/**
 * The trim of one room [CN10–CN14, JT, WB, LN]. Requires a walked room of a plan without dangling ids. A loop that is
 * too narrow has angles but no boards. `splits` says where stock wants scarfs; without an entry a stretch is parted evenly.
 */
export function trimRoom(plan: Plan, room: Room, splits: Splits): RoomTrim {
  const settings = settingsOf(plan);
  const angles = room.loops.map((loop) =>
    loop.corners.map((corner, i) =>
      cornerAngles(corner, loop.segments[i]!, loop.segments[(i + 1) % loop.segments.length]!, settings),
    ),
  );
  const context: Context = { plan, room, settings, splits, view: { room, inSight: rememberedSight(room) } };
  const bases = room.loops.map((loop) => segmentLines(context, loop, 'base'));
  const lines = TRIMMED.map((line): LineTrim => {
    const loops = room.loops.map((loop, l) => {
      const behind = bases[l]!.map((base) =>
        line === 'base'
          ? { left: 0, wall: 0, right: 0 }
          : {
              left: baseAt(base, 'left'),
              wall: base.chosen?.profile.thickness ?? 0,
              right: baseAt(base, 'right'),
            },
      );
      const plain = line === 'base' ? bases[l]! : segmentLines(context, loop, line);
      const segments = line === 'shoe' ? plain.map((each, i) => offBase(each, i, behind, angles[l]!)) : plain;
      return trimLoop(context, { loop, line, segments, angles: angles[l]!, behind });
    });
    return {
      line,
      stretches: loops.flatMap((loop) => loop.stretches),
      gone: loops.flatMap((loop) => loop.gone),
      unmade: loops.flatMap((loop) => loop.unmade),
      runs: loops.flatMap((loop) => loop.runs),
      joints: loops.map((loop) => loop.joints),
    };
  });
  return { room, angles, lines };
}

/** Sight from the entry, worked out once for each corner. */
function rememberedSight(room: Room): View['inSight'] {
  const sight = sightOf(room);
  if (sight === null) return null;
  const known = new Map<Corner, boolean>();
  return (corner) => {
    const seen = known.get(corner) ?? sight(corner.at);
    known.set(corner, seen);
    return seen;
  };
}

function segmentLines({ plan, room }: Context, loop: Loop, line: TrimLine): readonly SegmentLine[] {
  return loop.segments.map((segment, i) =>
    segmentLine(plan, room, segment, leftCorner(loop, i), loop.corners[i]!, line),
  );
}

/** Thickness of the base in a segment's corner, where it reaches it or a casing stands in its place; else 0 [LN20]. */
function baseAt(base: SegmentLine, side: 'left' | 'right'): Ticks {
  if (base.chosen === null) return 0;
  const stop = side === 'left' ? base.leftStop : base.rightStop;
  const cased = stop?.kind === 'opening' && stop.against !== 'open';
  return stop === null || cased ? base.chosen.profile.thickness : 0;
}

/** A shoe's stretches with L as it is in front of the base: less at inside corners, more at outside ones [LN20]. */
function offBase(
  segment: SegmentLine,
  index: number,
  behind: LoopLine['behind'],
  angles: readonly CornerAngles[],
): SegmentLine {
  const count = behind.length;
  const [before, after] = [(index + count - 1) % count, (index + 1) % count];
  const own = behind[index]!;
  const taken = (end: Stretch['left'], mine: Ticks, theirs: Ticks, at: CornerAngles): number => {
    if (end.kind !== 'corner') return 0;
    const take = shoeTake(mine, theirs, at.plain);
    return end.corner.kind === 'inside' ? take : -take;
  };
  const stretches = segment.stretches.map((stretch) => {
    const inset = taken(stretch.left, own.left, behind[before]!.right, angles[before]!);
    const right = taken(stretch.right, own.right, behind[after]!.left, angles[index]!);
    return { ...stretch, L: stretch.L - inset - right, inset };
  });
  return { ...segment, stretches };
}

interface LoopTrim {
  readonly stretches: readonly Stretch[];
  readonly gone: readonly Stretch[];
  readonly unmade: readonly UnmadeChoice[];
  readonly runs: readonly Run[];
  readonly joints: readonly (JointAt | null)[];
}

/**
 * One line in one loop. A stretch, or a piece whose back, face or overall comes out, under 1 mm is left out and the rest
 * reckoned again [LN17]; of two such pieces that meet the shorter goes first, for the other may do without it.
 */
function trimLoop(context: Context, at: LoopLine): LoopTrim {
  const { settings, view } = context;
  const none = { stretches: [], gone: [], unmade: [], runs: [] };
  if (at.loop.tooNarrow) return { ...none, joints: at.loop.corners.map(() => null) };
  const all = at.segments.flatMap((segment) => segment.stretches);
  const dropped = new Set<Stretch>();
  const unparted = new Set<Stretch>();
  for (;;) {
    const works = at.loop.corners.map((_, i) => cornerWork(at, i, dropped, settings));
    const gone = new Set(works.flatMap((work) => work.gone));
    const alive = (stretch: Stretch): boolean => !dropped.has(stretch) && !gone.has(stretch);
    const nothing = all.filter((stretch) => alive(stretch) && tooShort(stretch.L));
    for (const stretch of nothing) dropped.add(stretch);
    if (nothing.length > 0) continue;

    const boards = boardsOf(at, works, alive, unparted, context);
    const results = chainsOf(boards).map((chain) => runOf(chain.boards, chain.closed, settings, view));
    const empty = results.flatMap(({ run }) => emptyOf(run));
    for (const { stretch, parts } of empty) (parts > 1 ? unparted : dropped).add(stretch);
    if (empty.length > 0) continue;

    const runs = results.map((result) => result.run);
    const decisions = results.flatMap((result) => result.decisions);
    return {
      stretches: all.filter(alive),
      gone: all.filter((stretch) => !alive(stretch)),
      unmade: unmadeOf(at, works, runs),
      runs,
      joints: jointsOf(context, at, works, decisions),
    };
  }
}

const tooShort = (length: number): boolean => roundHalfAway(length) < LEAST_LENGTH;
const shortest = (piece: Piece): number => roundHalfAway(Math.min(piece.back, piece.face, piece.overall));

/** Pieces of a run that cannot be made, but for those that meet a shorter one; of equals the first goes. */
function emptyOf({ pieces, closed }: Run): Piece[] {
  const count = pieces.length;
  return pieces.filter((piece, i) => {
    const mine = shortest(piece);
    if (mine >= LEAST_LENGTH) return false;
    const before = i > 0 ? pieces[i - 1] : closed && count > 1 ? pieces[count - 1] : undefined;
    const after = i < count - 1 ? pieces[i + 1] : closed && count > 1 ? pieces[0] : undefined;
    const yields = (other: Piece | undefined, first: boolean): boolean =>
      other !== undefined && (shortest(other) < mine || (first && shortest(other) === mine));
    return !yields(before, i > 0) && !yields(after, i === count - 1);
  });
}

/** What the user chose at corners where nothing meets [JT3]. */
function unmadeOf(at: LoopLine, works: readonly CornerWork[], runs: readonly Run[]): UnmadeChoice[] {
  const pieces = runs.flatMap((run) => run.pieces);
  return works.flatMap(({ joint, lost, beforeEnd, afterEnd }, i): UnmadeChoice[] => {
    const corner = at.loop.corners[i]!;
    const user = corner.record?.lines?.[at.line];
    if (joint !== null || lost === null || (user?.joint === undefined && user?.coped === undefined))
      return [];
    const ends = pieces.filter(
      (piece) =>
        (beforeEnd !== null && piece.right === beforeEnd) || (afterEnd !== null && piece.left === afterEnd),
    );
    return [{ corner, why: unmadeWords(at.line, user, lost, ends[0], ends[0]?.right === beforeEnd) }];
  });
}

function jointsOf(
  { plan, settings }: Context,
  at: LoopLine,
  works: readonly CornerWork[],
  decisions: readonly Decision[],
): (JointAt | null)[] {
  const byCorner = new Map(decisions.map((decision) => [decision.joint.corner, decision]));
  return works.map(({ joint }): JointAt | null => {
    if (joint === null) return null;
    const { corner, chosenBy, differs } = joint;
    const { before, after } = joint;
    if (joint.how === 'block') {
      return {
        corner,
        line: at.line,
        before,
        after,
        joint: 'block',
        coped: null,
        sawDeg: 0,
        why: blockWords(joint),
        chosenBy,
        copeShort: false,
        differs,
      };
    }
    const decision = byCorner.get(corner);
    if (decision === undefined) throw new Error(`corner ${corner.key} of ${at.line} was not decided`);
    const { choice } = decision;
    const worked = choice === 'after' ? decision.after.left : decision.before.right;
    return {
      corner,
      line: at.line,
      before,
      after,
      joint: choice === 'mitre' ? 'mitre' : joint.how,
      coped: choice === 'mitre' ? null : choice,
      sawDeg: worked.sawDeg,
      why: decisionWords(decision, plan, settings),
      chosenBy,
      copeShort: choice === 'mitre' && joint.needsLength,
      differs,
    };
  });
}
