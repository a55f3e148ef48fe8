// Boards the user holds as they are, taken out of an order before the rest is laid [ST13]. What no longer can be had is
// handed back, never dropped in silence. Ticks.

import { boardOf } from './settle.ts';
import type { CutBoard, LockedBoard, StockItem, StockOrder } from './types.ts';

export interface Locked {
  readonly boards: readonly CutBoard[];
  /** The order without the pieces and boards held. */
  readonly rest: StockOrder;
  readonly loosened: readonly LockedBoard[];
}

/** Takes the boards of this order's profile that are locked out of it, first come first served. */
export function lockBoards(order: StockOrder, locked: readonly LockedBoard[]): Locked {
  const own = locked.filter((board) => board.profileId === order.profileId);
  if (own.length === 0) return { boards: [], rest: order, loosened: [] };
  const place = new Map(order.items.map((item, at) => [item, at]));
  const free = new Map(order.items.map((item) => [item.id, item]));
  const limits = order.lengths.map((each) => each.limit);
  const boards: CutBoard[] = [];
  const loosened: LockedBoard[] = [];
  for (const board of own) {
    const items = board.pieces.flatMap((id): StockItem[] => {
      const item = free.get(id);
      return item ? [item] : [];
    });
    const at = order.lengths.findIndex(
      (each, i) => each.length === board.length && each.onHand === board.onHand && limits[i] !== 0,
    );
    const whole =
      items.length > 0 && items.length === board.pieces.length && new Set(board.pieces).size === items.length;
    const room = board.length - order.endTrim;
    const widest = Math.max(0, ...items.map((item) => item.kerf));
    const takes = items.reduce((sum, item) => sum + item.need + item.kerf, -widest);
    if (at < 0 || !whole || takes > room) {
      loosened.push(board);
      continue;
    }
    boards.push(boardOf(order, order.lengths[at]!, items, place, true));
    for (const item of items) free.delete(item.id);
    const limit = limits[at]!;
    if (limit !== null) limits[at] = limit - 1;
  }
  const rest: StockOrder = {
    ...order,
    items: order.items.filter((item) => free.has(item.id)),
    lengths: order.lengths.map((each, i) => ({ ...each, limit: limits[i]! })),
  };
  return { boards, rest, loosened };
}
