// Boards the user holds as they are, taken out of an order before the rest is laid [ST13]. A board knows its pieces by more than
// their letters, which move. What can no longer be held is handed back with the reason, never dropped in silence. Which
// joints stay is held-joints.ts. Ticks.

import type { HeldBoard, HeldJoint, HeldPiece } from '../plan/schema.ts';
import type { Ticks } from '../units/ticks.ts';
import { leastOf } from './problem.ts';
import { boardOf } from './settle.ts';
import { nameKey, samePart } from './stretch-name.ts';
import type { CutBoard, Loosened, LooseWhy, OtherPiece, StockItem, StockOrder } from './types.ts';

/** What differs by no more is cut the same: 1/64 in, the finest step that lengths are printed in. */
const SAME_CUT: Ticks = 127;
const sameCut = (a: Ticks, b: Ticks): boolean => Math.abs(a - b) <= SAME_CUT;

export interface Held {
  readonly boards: readonly CutBoard[];
  /** The order without the pieces and boards held. */
  readonly rest: StockOrder;
  readonly loosened: readonly Loosened[];
}

/** Takes the boards that an order holds out of it, first come first served. */
export function takeHeld(order: StockOrder): Held {
  const { held = [], profileId } = order;
  if (held.length === 0) return { boards: [], rest: order, loosened: [] };
  const place = new Map(order.items.map((item, at) => [item, at]));
  const free = new Map(order.items.map((item) => [item.id, item]));
  const limits = order.lengths.map((each) => each.limit);
  const boards: CutBoard[] = [];
  const loosened: Loosened[] = [];
  for (const board of held) {
    const isAlike = ({ length, onHand }: StockOrder['lengths'][number]): boolean =>
      length === board.length && onHand === board.onHand;
    const at = cheapestOf(order.lengths, (each, i) => isAlike(each) && limits[i] !== 0);
    const items = board.pieces.flatMap((id) => free.get(id) ?? []);
    const why =
      whyOthers(order, board, free) ??
      whyNoRoom(order, board, items, at >= 0 ? 'had' : order.lengths.some(isAlike) ? 'used' : 'none');
    if (why !== null) {
      loosened.push({ profileId, board, why });
      continue;
    }
    boards.push(boardOf(order, order.lengths[at]!, items, place, true));
    for (const item of items) free.delete(item.id);
    const limit = limits[at]!;
    if (limit !== null) limits[at] = limit - 1;
  }
  const { held: _, ...bare } = order;
  const rest: StockOrder = {
    ...bare,
    by: leastOf(order),
    items: order.items.filter((item) => free.has(item.id)),
    lengths: order.lengths.map((each, i) => ({ ...each, limit: limits[i]! })),
  };
  return { boards, rest, loosened };
}

/** The joints that a board records of stretches that its pieces are parts of; all where it does not say what these are. */
export function ownJoints({ joints = [], was = [] }: HeldBoard): readonly HeldJoint[] {
  if (was.length === 0) return joints;
  const own = new Set(was.flatMap(({ of }) => (of !== undefined && of.parts > 1 ? nameKey(of) : [])));
  return joints.filter((joint) => own.has(nameKey(joint)));
}

/** Whether a record says what each of its pieces is, and of parts of a longer stretch where that is joined. */
export function saysJoints({ pieces, joints = [], was = [] }: HeldBoard): boolean {
  const named = new Set(joints.map(nameKey));
  return was.length === pieces.length && was.every(({ of }) => !of || of.parts < 2 || named.has(nameKey(of)));
}

/** The index of the cheapest length that is `wanted`, one without a price last; -1 where there is none. */
function cheapestOf(
  lengths: StockOrder['lengths'],
  wanted: (each: StockOrder['lengths'][number], at: number) => boolean,
): number {
  const price = (at: number): number => lengths[at]!.price ?? Number.POSITIVE_INFINITY;
  return lengths.reduce(
    (best, each, at) => (wanted(each, at) && (best < 0 || price(at) < price(best)) ? at : best),
    -1,
  );
}

/** Why the pieces that have the names held are not those that were held; null where they are. */
function whyOthers(
  order: StockOrder,
  { pieces, was = [] }: HeldBoard,
  free: ReadonlyMap<string, StockItem>,
): LooseWhy | null {
  const known = new Map(was.map((each) => [each.piece, each]));
  const others = pieces.flatMap((piece) => otherPiece(order, known.get(piece), free.get(piece)) ?? []);
  if (others.length > 0) return { is: 'other', pieces: others };
  const gone = pieces.filter((piece) => !free.has(piece));
  if (gone.length > 0 || new Set(pieces).size < pieces.length) return { is: 'gone', pieces: gone };
  const changed = was.flatMap(({ piece, length }) => {
    const now = free.get(piece)!.need;
    return sameCut(now, length) ? [] : [{ piece, was: length, now }];
  });
  return changed.length > 0 ? { is: 'changed', pieces: changed } : null;
}

/** What has the name of a held piece now, where that is another piece; null where it is the same, gone, or nothing is known. */
function otherPiece(
  { items }: StockOrder,
  was: HeldPiece | undefined,
  item: StockItem | undefined,
): OtherPiece | null {
  if (was?.of === undefined || samePart(was.of, item?.of)) return null;
  const now = items.find(({ of, need }) => samePart(of, was.of) && sameCut(need, was.length));
  if (item === undefined && now === undefined) return null;
  const sameStretch = item?.of !== undefined && nameKey(item.of) === nameKey(was.of);
  return {
    piece: was.piece,
    now: now?.id ?? null,
    parts: sameStretch && item.of.parts !== was.of.parts ? { now: item.of.parts, was: was.of.parts } : null,
  };
}

/** Why a board of its length does not hold its pieces. `stock`: whether one can be had, all are used, or there is none. */
function whyNoRoom(
  order: StockOrder,
  board: HeldBoard,
  items: readonly StockItem[],
  stock: 'had' | 'used' | 'none',
): LooseWhy | null {
  if (stock !== 'had') return { is: stock === 'used' ? 'used-up' : 'no-length' };
  const room = board.length - order.endTrim;
  const widest = Math.max(...items.map((item) => item.kerf));
  const takes = items.reduce((sum, item) => sum + item.need + item.kerf, -widest);
  return takes > room ? { is: 'too-long', takes, room } : null;
}

/** Whether a record holds this board as it is cut: its length, its pieces and, where it knows them, what these are. */
export function holdsBoard({ length, onHand, pieces, was = [] }: HeldBoard, board: CutBoard): boolean {
  const items = new Map(board.items.map((item) => [item.id, item]));
  return (
    board.length === length &&
    board.onHand === onHand &&
    items.size === pieces.length &&
    pieces.every((piece) => items.has(piece)) &&
    was.every((each) => {
      const item = items.get(each.piece)!;
      return samePart(each.of, item.of) && sameCut(each.length, item.need);
    })
  );
}

/** Boards as they are listed: those on hand first, then longest first, then least left; what is alike stays as it is. */
export function inListOrder(order: StockOrder, boards: readonly CutBoard[]): CutBoard[] {
  const stock = ({ length, onHand, price }: CutBoard): number =>
    order.lengths.findIndex(
      (each) => each.length === length && each.onHand === onHand && each.price === price,
    );
  return boards.toSorted(
    (a, b) =>
      Number(b.onHand) - Number(a.onHand) ||
      b.length - a.length ||
      stock(a) - stock(b) ||
      a.offcut - b.offcut,
  );
}
