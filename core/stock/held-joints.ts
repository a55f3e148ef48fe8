// The boards a plan holds, on its levels as they are laid out: stretches that are joined on a held board stay joined there,
// named by corner, line and stops, which edits elsewhere leave alone. What cannot stay is loosened with the reason [ST13].
// Ticks along the stretch, from its left end where nothing else is said.

import { sortedEntries } from '../plan/maps.ts';
import type { HeldBoard, HeldJoint, Plan, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { longestStock } from '../trim/scarfs.ts';
import { type Piece, type RoomTrim, type Splits, stretchKey } from '../trim/types.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import { takeHeld } from './held.ts';
import { isStocked, needOf, orderOf, type TrimmedLevel } from './order.ts';
import { nameKey, type StretchName, stretchName } from './stretch-name.ts';
import { joinedParts, jointsOf, piecesIn, trimmedAnew } from './stretches.ts';
import type { CutBoard, Loosened, LooseWhy, StockOrder } from './types.ts';

/** What the joints of other held boards may have brought about, the surest first. */
const JOINTS_CAN: Partial<Record<LooseWhy['is'], number>> = { joint: 1, other: 2, changed: 2 };

/** The boards held, with the levels joined as they want it. */
export interface Holding {
  /** Rooms that are joined as before stay the same objects. */
  readonly levels: readonly TrimmedLevel[];
  /** The splits given, and those of the joints held: the same object where there are none. */
  readonly splits: Splits;
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
    const laid = joinedAsHeld(plan, levels, given, [...boards.values()].flat());
    const loose = looseIn(plan, laid.levels, boards);
    if (loose.length === 0) return { ...laid, boards, loosened: [...loosened.values()] };
    // Joints of what is loosened are free again, for other boards too: what joints alone can have done is looked at again.
    const hangsOnJoints = (each: Loosened): number => JOINTS_CAN[each.why.is] ?? 0;
    const least = Math.min(...loose.map(hangsOnJoints));
    for (const each of loose.filter((one) => hangsOnJoints(one) === least)) loosened.set(each.board, each);
  }
}

/** An order with the boards that are held of its profile. */
export function withHeld(order: StockOrder, boards: Holding['boards']): StockOrder {
  const held = boards.get(order.profileId);
  return held === undefined || held.length === 0 ? order : { ...order, held };
}

/** A board as it was cut, to be held: its pieces, what they are, and the joints of those that are parts of a longer stretch. */
export function heldBoardOf(levels: readonly TrimmedLevel[], { length, onHand, items }: CutBoard): HeldBoard {
  const pieces = items.map((item) => item.id);
  const was = items.map(({ id, need, of }) => ({ piece: id, length: need, ...(of && { of }) }));
  const joints = joinedStretches(levels)
    .filter((joined) => joined.pieces.some((piece) => pieces.includes(piece.id)))
    .map((joined) => heldJoint(joined, pieces));
  return { length, onHand, pieces, was, ...(joints.length === 0 ? {} : { joints }) };
}

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

function looseIn(plan: Plan, levels: readonly TrimmedLevel[], boards: Holding['boards']): Loosened[] {
  if ([...boards.values()].every((held) => held.length === 0)) return [];
  const joined = new Map(joinedStretches(levels).map((each) => [nameKey(each.name), each]));
  const isJoined = ({ joints = [] }: HeldBoard): boolean =>
    joints.every((joint) => isAsHeld(joined.get(nameKey(joint)), joint));
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

/** The levels with stretches joined as the boards held have it, the first of two that differ; where a part would fit no board, as before. */
function joinedAsHeld(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  held: readonly HeldBoard[],
): Pick<Holding, 'levels' | 'splits'> {
  const joints = held.flatMap((board) => board.joints ?? []);
  if (joints.length === 0) return { levels, splits: given };
  const wanted = new Map<string, HeldJoint>();
  for (const joint of joints) if (!wanted.has(nameKey(joint))) wanted.set(nameKey(joint), joint);
  const tried = rejoinedAt(plan, levels, given, wanted);
  const isGood = (joined: JoinedStretch): boolean =>
    isAsHeld(joined, wanted.get(nameKey(joined.name))) &&
    joined.pieces.every((piece) => fitsBoard(plan, piece));
  const good = new Set(
    joinedStretches(tried.levels)
      .filter(isGood)
      .map(({ name }) => nameKey(name)),
  );
  for (const key of wanted.keys()) if (!good.has(key)) wanted.delete(key);
  return good.size === 0 ? { levels, splits: given } : rejoinedAt(plan, levels, given, wanted);
}

function rejoinedAt(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  wanted: ReadonlyMap<string, HeldJoint>,
): Pick<Holding, 'levels' | 'splits'> {
  const own = new Map<string, readonly Ticks[]>();
  const rooms = new Set<RoomTrim>();
  for (const trim of levels.flatMap((level) => level.trims)) {
    for (const stretch of trim.lines.flatMap((line) => line.stretches)) {
      const joint = wanted.get(nameKey(stretchName(trim, stretch)));
      if (joint === undefined) continue;
      own.set(stretchKey(trim.room, stretch), fromEnd(joint.at, joint.from, stretch.L));
      rooms.add(trim);
    }
  }
  const splits = { ...given, ...Object.fromEntries(own) };
  return {
    splits,
    levels: trimmedAnew(plan, levels, splits, (trim) => rooms.has(trim)),
  };
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
  return levels
    .flatMap((level) => level.trims)
    .flatMap((trim) =>
      [...joinedParts(piecesIn(trim))].map(([stretch, pieces]): JoinedStretch => {
        return { name: stretchName(trim, stretch), at: jointsOf(pieces), pieces, length: stretch.L };
      }),
    );
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
