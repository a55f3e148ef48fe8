// Boards the user holds as they are, taken out of an order before the rest is laid [ST13]. What can no longer be held is
// handed back with the reason, never dropped in silence. Which joints stay is held-joints.ts. Ticks.

import type { HeldBoard } from '../plan/schema.ts';
import { leastOf } from './problem.ts';
import { boardOf } from './settle.ts';
import type { CutBoard, Loosened, LooseWhy, StockItem, StockOrder } from './types.ts';

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
    const at = order.lengths.findIndex((each, i) => isAlike(each) && limits[i] !== 0);
    const items = board.pieces.flatMap((id) => free.get(id) ?? []);
    const why = whyLoose(
      order,
      board,
      items,
      at >= 0 ? 'had' : order.lengths.some(isAlike) ? 'used' : 'none',
    );
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

/** `stock`: whether a board like it can be had, all are used, or there is none of that length. */
function whyLoose(
  order: StockOrder,
  board: HeldBoard,
  items: readonly StockItem[],
  stock: 'had' | 'used' | 'none',
): LooseWhy | null {
  const found = new Set(items.map((item) => item.id));
  const gone = board.pieces.filter((id) => !found.has(id));
  if (gone.length > 0 || found.size !== items.length || items.length === 0)
    return { is: 'gone', pieces: gone };
  if (stock !== 'had') return { is: stock === 'used' ? 'used-up' : 'no-length' };
  const room = board.length - order.endTrim;
  const widest = Math.max(...items.map((item) => item.kerf));
  const takes = items.reduce((sum, item) => sum + item.need + item.kerf, -widest);
  return takes > room ? { is: 'too-long', takes, room } : null;
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
