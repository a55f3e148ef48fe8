// What of an order is sure while joints are open: its pieces without those of the stretches that are joined anew, and the
// least that each of them can need, for joints elsewhere can change which board is worked at a corner [ST12]. Ticks.

import type { Plan } from '../plan/schema.ts';
import { piecesOf } from './layout.ts';
import { type LongStretch, leastCut } from './long.ts';
import type { TrimmedLevel } from './order.ts';
import type { Cut } from './problem.ts';
import type { StockOrder } from './types.ts';

/** The order with each piece of rooms that are joined anew at the least it can need, whichever boards are worked there. */
export function withLeastNeeds(
  plan: Plan,
  order: StockOrder,
  levels: readonly TrimmedLevel[],
  longs: readonly LongStretch[],
): StockOrder {
  const least = new Map<string, Cut>();
  for (const long of longs) {
    for (const line of levels[long.level]!.trims[long.room]!.lines) {
      for (const piece of line.runs.flatMap((run) => run.pieces)) least.set(piece.id, leastCut(plan, piece));
    }
  }
  const items = order.items.map((item) => {
    const own = least.get(item.id);
    if (!own) return item;
    return { ...item, need: Math.min(item.need, own.need), kerf: Math.min(item.kerf, own.kerf) };
  });
  return { ...order, items };
}

/** An order without the pieces of these stretches. */
export function without(
  order: StockOrder,
  levels: readonly TrimmedLevel[],
  longs: readonly LongStretch[],
): StockOrder {
  const parts = new Set(piecesOf(levels, longs).map((piece) => piece.id));
  return { ...order, items: order.items.filter((item) => !parts.has(item.id)) };
}
