// The boards a plan holds, on its levels as they are laid out: stretches that are joined on a held board stay joined there,
// named by corner, line and stops, which edits elsewhere leave alone. Joints beside them are where the search for others begins:
// they decide which board is worked at a corner. What cannot stay is loosened with the reason [ST13].
// Ticks along the stretch, from its left end where nothing else is said.

import { sortedEntries } from '../plan/maps.ts';
import type { HeldBoard, HeldJoint, Plan, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { longestStock } from '../trim/scarfs.ts';
import { type Piece, type RoomTrim, type Splits, stretchKey } from '../trim/types.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import { ownJoints, takeHeld } from './held.ts';
import { longStretches } from './long.ts';
import { isStocked, needOf, orderOf, type TrimmedLevel } from './order.ts';
import { fewestParts } from './places.ts';
import { nameKey, type StretchName, stretchName } from './stretch-name.ts';
import { joinedParts, jointsOf, piecesIn, trimmedAnew } from './stretches.ts';
import type { CutBoard, Loosened, LooseWhy, StockOrder } from './types.ts';

/** What the joints of other held boards may have brought about, the surest first. */
const JOINTS_CAN: Partial<Record<LooseWhy['is'], number>> = { joint: 1, other: 2, changed: 2 };

/** The boards held, with the levels joined as they want it. */
export interface Holding {
  /** Rooms that are joined as before stay the same objects. */
  readonly levels: readonly TrimmedLevel[];
  /** The splits given, and those of the joints recorded: the same object where there are none. */
  readonly splits: Splits;
  /** Of these, the splits given and those of stretches that a held piece is a part of: they stand, all others are chosen anew. */
  readonly standing: Splits;
  /** Keys into `splits` of stretches in more or fewer parts than they need. */
  readonly otherwise: ReadonlySet<string>;
  /** Other joints recorded of such stretches, that are not laid: where boards run out these come first. */
  readonly recorded: Splits;
  readonly boards: ReadonlyMap<ProfileId, readonly HeldBoard[]>;
  readonly loosened: readonly Loosened[];
}

/** The held boards of a plan, as far as they can be held in these levels, which are joined as `given` says [ST13]. */
export function holdBoards(plan: Plan, levels: readonly TrimmedLevel[], given: Splits): Holding {
  const loosened = new Map<HeldBoard, Loosened>();
  for (;;) {
    const boards = new Map(
      sortedEntries(plan.heldBoards).map(
        ([id, own]) => [id, own.filter((board) => !loosened.has(board))] as const,
      ),
    );
    const [laid, loose] = loosenedLeast(plan, levels, given, boards);
    if (loose.length === 0) return { ...laid, boards, loosened: [...loosened.values()] };
    // Joints of what is loosened are free again, for other boards too: what joints alone can have done is looked at again.
    const hangsOnJoints = (each: Loosened): number => JOINTS_CAN[each.why.is] ?? 0;
    const least = Math.min(...loose.map(hangsOnJoints));
    for (const each of loose.filter((one) => hangsOnJoints(one) === least)) loosened.set(each.board, each);
  }
}

/** Joined as recorded, in other numbers of parts than they need only where fewer boards are loosened so. */
function loosenedLeast(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  boards: Holding['boards'],
): readonly [Laid, readonly Loosened[]] {
  const held = [...boards.values()].flat();
  const usual = joinedAsHeld(plan, levels, given, held, 'needed');
  const loose = looseIn(plan, usual.levels, boards);
  const other = joinedAsHeld(plan, levels, given, held, 'any');
  if (other.otherwise.size === 0) return [usual, loose];
  const fewer = loose.length === 0 ? loose : looseIn(plan, other.levels, boards);
  if (fewer.length < loose.length) return [other, fewer];
  const more = [...other.otherwise].map((key) => [key, other.splits[key]!] as const);
  return [{ ...usual, recorded: Object.fromEntries(more) }, loose];
}

/** An order with the boards that are held of its profile. */
export function withHeld(order: StockOrder, boards: Holding['boards']): StockOrder {
  const held = boards.get(order.profileId);
  return held === undefined || held.length === 0 ? order : { ...order, held };
}

/**
 * A board as it was cut, to be held: its pieces, what they are, and the joints of every joined stretch in the same lines of
 * the same loops, for these decide which board is worked at a corner.
 */
export function heldBoardOf(levels: readonly TrimmedLevel[], { length, onHand, items }: CutBoard): HeldBoard {
  const pieces = items.map((item) => item.id);
  const was = items.map(({ id, need, of }) => ({ piece: id, length: need, ...(of && { of }) }));
  const own = new Set(pieces);
  const joints = levels
    .flatMap((level) => level.trims)
    .flatMap((trim) => {
      const touched = new Set(
        trim.lines
          .flatMap((line) => line.runs)
          .flatMap((run) => [...run.pieces, ...run.returns])
          .filter(({ id }) => own.has(id))
          .map(loopOf),
      );
      return touched.size === 0
        ? []
        : joinedIn(trim).filter((joined) => touched.has(loopOf(joined.pieces[0]!)));
    })
    .map((joined) => heldJoint(joined, pieces));
  return { length, onHand, pieces, was, ...(joints.length === 0 ? {} : { joints }) };
}

/** The line of a loop that a piece of a room is of. */
const loopOf = ({ segment, line }: Piece): string => `${segment.loop}|${line}`;

/** Joints are kept from the end that the held piece is at, so that it stays as long when the wall is measured anew. */
function heldJoint({ name, at, pieces, length }: JoinedStretch, held: readonly string[]): HeldJoint {
  const isHeld = (piece: Piece | undefined): boolean => piece !== undefined && held.includes(piece.id);
  const from = isHeld(pieces.at(-1)) && !isHeld(pieces[0]) ? 'right' : 'left';
  return { ...name, from, at: fromEnd(at, from, length) };
}

/** Places from the left end as places from another, ascending, and the other way round. */
function fromEnd(at: readonly Ticks[], end: HeldJoint['from'], length: number): Ticks[] {
  return end === 'left' ? [...at] : at.map((each) => roundHalfAway(length - each)).reverse();
}

/** Which of the boards cannot be held in levels that are joined so, and why. */
export function looseIn(plan: Plan, levels: readonly TrimmedLevel[], boards: Holding['boards']): Loosened[] {
  if ([...boards.values()].every((held) => held.length === 0)) return [];
  const joined = new Map(joinedStretches(levels).map((each) => [nameKey(each.name), each]));
  const isJoined = (board: HeldBoard): boolean =>
    ownJoints(board).every((joint) => isAsHeld(joined.get(nameKey(joint)), joint));
  const orders = orderOf(plan, levels);
  return [...boards].flatMap(([profileId, held]) => {
    const order = orders.find((each) => each.profileId === profileId);
    const loose = order
      ? takeHeld({ ...order, held }).loosened
      : held.map((board): Loosened => ({ profileId, board, why: whyNoOrder(plan, profileId, board) }));
    const byBoard = new Map(loose.map((each) => [each.board, each]));
    return held.flatMap((board): Loosened[] => {
      const found = byBoard.get(board);
      if (found?.why.is === 'gone' || isJoined(board)) return found ? [found] : [];
      return [{ profileId, board, why: { is: 'joint' } }];
    });
  });
}

/** Why there is no order to hold a board of. */
function whyNoOrder(plan: Plan, profileId: ProfileId, { pieces }: HeldBoard): LooseWhy {
  return isStocked(plan, profileId) ? { is: 'gone', pieces } : { is: 'no-stock' };
}

type Laid = Omit<Holding, 'boards' | 'loosened'>;

interface Wanted {
  readonly joint: HeldJoint;
  /** It stands: a held piece is a part of its stretch. */
  readonly stands: boolean;
}

/**
 * The levels with stretches joined as the boards held have it; where a part would fit no board, as before. `parts`: whether
 * stretches beside are joined in other numbers of parts than they need.
 */
function joinedAsHeld(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  held: readonly HeldBoard[],
  parts: 'needed' | 'any',
): Laid {
  const none: Laid = { levels, splits: given, standing: given, otherwise: new Set(), recorded: {} };
  const wanted = wantedJoints(held);
  if (wanted.size === 0) return none;
  const needed = partsNeeded(plan, levels);
  const isNeeded = (key: string, { at }: HeldJoint): boolean => needed.get(key) === at.length + 1;
  if (parts === 'needed') {
    for (const [key, { joint, stands }] of wanted) if (!stands && !isNeeded(key, joint)) wanted.delete(key);
  }
  const tried = rejoinedAt(plan, levels, given, wanted);
  const isGood = (joined: JoinedStretch): boolean =>
    isAsHeld(joined, wanted.get(nameKey(joined.name))?.joint) &&
    joined.pieces.every((piece) => fitsBoard(plan, piece));
  const good = new Set(
    joinedStretches(tried.levels)
      .filter(isGood)
      .map(({ name }) => nameKey(name)),
  );
  for (const key of wanted.keys()) if (!good.has(key)) wanted.delete(key);
  if (good.size === 0) return none;
  const { levels: laid, own } = rejoinedAt(plan, levels, given, wanted);
  const splitsOf = (some: readonly RejoinedAt['own'][number][]): Splits => ({
    ...given,
    ...Object.fromEntries(some.map(({ key, at }) => [key, at])),
  });
  const other = own.filter(({ name, wanted: { joint, stands } }) => !stands && !isNeeded(name, joint));
  return {
    levels: laid,
    splits: splitsOf(own),
    standing: splitsOf(own.filter((each) => each.wanted.stands)),
    otherwise: new Set(other.map(({ key }) => key)),
    recorded: {},
  };
}

/** Of each stretch that no board holds whole, by name: in how many parts it is joined at least. */
function partsNeeded(plan: Plan, levels: readonly TrimmedLevel[]): Map<string, number> {
  return new Map(
    longStretches(plan, levels, {}, new Set()).map((long) => {
      const trim = levels[long.level]!.trims[long.room]!;
      return [nameKey(stretchName(trim, long.stretch)), fewestParts(long)];
    }),
  );
}

/**
 * What the boards held record of each stretch: of those that their pieces are parts of the first, else the last, which was
 * recorded with all others held already.
 */
function wantedJoints(held: readonly HeldBoard[]): Map<string, Wanted> {
  const all = held.flatMap((board) => {
    const own = new Set(ownJoints(board));
    return (board.joints ?? []).map((joint): Wanted => ({ joint, stands: own.has(joint) }));
  });
  const inTurn = [...all.filter(({ stands }) => stands), ...all.filter(({ stands }) => !stands).reverse()];
  const wanted = new Map<string, Wanted>();
  for (const each of inTurn) {
    const key = nameKey(each.joint);
    if (!wanted.has(key)) wanted.set(key, each);
  }
  return wanted;
}

interface RejoinedAt {
  readonly levels: readonly TrimmedLevel[];
  /** `key` into splits. */
  readonly own: readonly {
    readonly name: string;
    readonly key: string;
    readonly at: readonly Ticks[];
    readonly wanted: Wanted;
  }[];
}

function rejoinedAt(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  wanted: ReadonlyMap<string, Wanted>,
): RejoinedAt {
  const own: RejoinedAt['own'][number][] = [];
  const rooms = new Set<RoomTrim>();
  for (const trim of levels.flatMap((level) => level.trims)) {
    for (const stretch of trim.lines.flatMap((line) => line.stretches)) {
      const name = nameKey(stretchName(trim, stretch));
      const found = wanted.get(name);
      if (found === undefined) continue;
      const at = fromEnd(found.joint.at, found.joint.from, stretch.L);
      own.push({ name, key: stretchKey(trim.room, stretch), at, wanted: found });
      rooms.add(trim);
    }
  }
  const splits = { ...given, ...Object.fromEntries(own.map(({ key, at }) => [key, at])) };
  return { levels: trimmedAnew(plan, levels, splits, (trim) => rooms.has(trim)), own };
}

interface JoinedStretch {
  readonly name: StretchName;
  readonly at: readonly Ticks[];
  readonly pieces: readonly Piece[];
  /** The whole stretch's. */
  readonly length: number;
}

/** Every stretch of more than one part, and where it is joined. */
function joinedStretches(levels: readonly TrimmedLevel[]): JoinedStretch[] {
  return levels.flatMap((level) => level.trims).flatMap(joinedIn);
}

function joinedIn(trim: RoomTrim): JoinedStretch[] {
  return [...joinedParts(piecesIn(trim))].map(([stretch, pieces]): JoinedStretch => {
    return { name: stretchName(trim, stretch), at: jointsOf(pieces), pieces, length: stretch.L };
  });
}

function isAsHeld(joined: JoinedStretch | undefined, joint: HeldJoint | undefined): boolean {
  if (joined === undefined || joint === undefined) return false;
  const wanted = fromEnd(joint.at, joint.from, joined.length);
  return wanted.length === joined.at.length && wanted.every((at, i) => at === joined.at[i]);
}

function fitsBoard(plan: Plan, { profileId, profile, overall, spring }: Piece): boolean {
  const longest = longestStock(plan, profileId, profile);
  return longest !== undefined && needOf(overall + spring) <= longest - settingsOf(plan).endTrim;
}
