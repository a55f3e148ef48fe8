// Boards and purchase as the report prints them: ticks to millimetres, hundredths to money. Nothing is decided here.

import { HUNDREDTHS, keptOffcuts, moneyOf, type PurchaseLine, purchaseOf } from '../stock/index.ts';
import type { StockPlan } from '../stock/types.ts';
import { reportMm, round6 } from './rounding.ts';
import type { Report } from './schema.ts';

/** Money of hundredths; null stays null. */
function money<T extends number | null>(hundredths: T): T {
  return (hundredths === null ? null : round6(hundredths / HUNDREDTHS)) as T;
}

/** The boards of every profile that has a stock list and pieces (RULES: ST). */
export function reportStock(plans: readonly StockPlan[]): Report['stock'] {
  return plans.map((plan) => {
    const inUnits = (value: number): number => (plan.by === 'money' ? money(value) : reportMm(value));
    return {
      profile: plan.order.profileId,
      by: plan.by,
      proved: plan.proved,
      cost: inUnits(plan.cost),
      bound: inUnits(plan.bound),
      boards: plan.boards.map((board) => ({
        lengthMm: reportMm(board.length),
        onHand: board.onHand,
        held: board.held,
        pieces: board.items.map((item) => item.id),
        piecesMm: reportMm(board.used),
        kerfMm: reportMm(board.kerfs),
        trimMm: reportMm(board.trim),
        offcutMm: reportMm(board.offcut),
      })),
      keep: keptOffcuts(plan).map(({ length, count }) => ({ lengthMm: reportMm(length), count })),
      unplaced: [...plan.unplaced],
    };
  });
}

/** What the bound of a profile's boards is: with boards held, the others are laid around these (RULES: ST13). */
export function leastWords({ boards }: Report['stock'][number]): string {
  return boards.some((board) => board.held) ? 'least possible around the boards held' : 'least possible';
}

/** Whether a bound was found: a first layout has none, nor have boards whose long lengths run out (RULES: ST7, ST12). */
export function leastKnown({ bound, cost }: Report['stock'][number]): boolean {
  return bound > 0 || cost <= 0;
}

function reportLine(line: PurchaseLine): Report['purchase'][number] {
  return {
    profile: line.profileId,
    lengthMm: reportMm(line.length),
    count: line.count,
    price: money(line.price),
    sum: money(line.sum),
    spare: line.spare,
    spareSum: money(line.spareSum),
  };
}

/** The order list, and its totals in money: boards, spare apart, and how many boards have no price. */
export function reportPurchase(plans: readonly StockPlan[]): {
  purchase: Report['purchase'];
  totals: Report['totals'];
} {
  const lines = plans.flatMap(purchaseOf);
  const sums = moneyOf(lines);
  return {
    purchase: lines.map(reportLine),
    totals:
      plans.length === 0
        ? {}
        : { money: money(sums.money), spareMoney: money(sums.spare), unpricedBoards: sums.unpriced },
  };
}
