// What to buy for the boards: lines by profile and length with counts and sums, the spare apart, and the off-cuts worth
// keeping. Counted from the boards themselves, so the order list and the boards cannot differ. Ticks and hundredths.

import type { ProfileId } from '../plan/schema.ts';
import type { Ticks } from '../units/ticks.ts';
import type { StockPlan } from './types.ts';

export interface PurchaseLine {
  readonly profileId: ProfileId;
  readonly length: Ticks;
  readonly count: number;
  /** Each, hundredths; null where not known. */
  readonly price: number | null;
  /** count × price. */
  readonly sum: number | null;
  /** Boards more of this length as a spare: not in `count` or `sum` [ST9]. */
  readonly spare: number;
  readonly spareSum: number | null;
}

/**
 * The order list of one profile, longest first, then dearest [ST9]. The spare is its percentage of all that its pieces
 * need, in whole boards of the longest length bought, so that any piece can be cut again from it.
 */
export function purchaseOf(plan: StockPlan): PurchaseLine[] {
  const lines = new Map<string, { length: Ticks; price: number | null; count: number }>();
  let needed = 0;
  for (const board of plan.boards) {
    needed += board.used;
    if (board.onHand) continue;
    const key = `${board.length} ${board.price}`;
    const line = lines.get(key);
    if (line) line.count += 1;
    else lines.set(key, { length: board.length, price: board.price, count: 1 });
  }
  const { sparePercent, profileId, lengths } = plan.order;
  const sorted = [...lines.values()].sort((a, b) => b.length - a.length || (b.price ?? 0) - (a.price ?? 0));
  const spareIn = (length: Ticks): number => Math.ceil((needed * sparePercent) / 100 / length);
  const toBeHad = (length: Ticks, price: number | null): number =>
    lengths
      .filter((each) => !each.onHand && each.length === length && each.price === price)
      .reduce((sum, { limit }) => sum + (limit ?? Number.POSITIVE_INFINITY), 0);
  // Of the longest length of which so many more can be had.
  const spareAt = sorted.findIndex(
    ({ length, price, count }) => count + spareIn(length) <= toBeHad(length, price),
  );
  return sorted.map(({ length, price, count }, at) => {
    const spare = at === Math.max(0, spareAt) ? spareIn(length) : 0;
    return {
      profileId,
      length,
      count,
      price,
      sum: price === null ? null : price * count,
      spare,
      spareSum: price === null ? null : price * spare,
    };
  });
}

/** What the boards cost altogether, hundredths; `unpriced` counts bought boards whose price is not known. */
export function moneyOf(lines: readonly PurchaseLine[]): { money: number; spare: number; unpriced: number } {
  return {
    money: lines.reduce((sum, line) => sum + (line.sum ?? 0), 0),
    spare: lines.reduce((sum, line) => sum + (line.spareSum ?? 0), 0),
    unpriced: lines.reduce((sum, line) => sum + (line.price === null ? line.count : 0), 0),
  };
}

/** Off-cuts as long as the order's `keepFrom` or longer, longest first, equal ones together [ST10]. */
export function keptOffcuts(plan: StockPlan): { length: Ticks; count: number }[] {
  const counts = new Map<Ticks, number>();
  for (const { offcut } of plan.boards) {
    if (offcut > 0 && offcut >= plan.order.keepFrom) counts.set(offcut, (counts.get(offcut) ?? 0) + 1);
  }
  return [...counts].map(([length, count]) => ({ length, count })).sort((a, b) => b.length - a.length);
}
