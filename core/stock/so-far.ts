// Whole boards of a plan in the middle of the work on them: what is found of some profiles beside what is laid quickly of the
// others, all for the same joints. For whoever may be ended before the work is done [ST12].

import type { Solver } from '../fit/types.ts';
import type { ProfileId } from '../plan/schema.ts';
import type { Splits } from '../trim/types.ts';
import { cutStock } from './cut.ts';
import { type Layout, levelsAt, ordersOf } from './layout.ts';
import { sameItems } from './order.ts';
import type { StockOrder, StockPlan } from './types.ts';

/** Boards of every order, for the plan laid out at `splits`. */
export interface BoardsSoFar {
  readonly splits: Splits;
  readonly stock: readonly StockPlan[];
}

/**
 * Gives what takes the boards of one profile, as they were found at these splits, and tells all boards there are then. A
 * profile that is not worked on yet, or whose pieces these splits change, is laid by simple rules.
 */
export function soFarOf(
  layout: Layout,
  solver: Solver,
  tell: (boards: BoardsSoFar) => void,
): (splits: Splits, found: StockPlan) => void {
  const known = new Map<ProfileId, StockPlan>();
  let laid: { readonly splits: Splits; readonly orders: readonly StockOrder[] } | null = null;
  return (splits, found) => {
    known.set(found.order.profileId, found);
    if (laid?.splits !== splits) laid = { splits, orders: ordersOf(layout, levelsAt(layout, splits)) };
    const stock = laid.orders.map((order) => {
      const own = known.get(order.profileId);
      if (own !== undefined && sameItems(own.order, order)) return own;
      const quick = cutStock(order, solver, { work: 0 });
      known.set(order.profileId, quick);
      return quick;
    });
    tell({ splits, stock });
  };
}
