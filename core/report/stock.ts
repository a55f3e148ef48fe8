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

const heldByNone = (pieces: number): string =>
  `${pieces === 1 ? '1 piece' : `${pieces} pieces`} that no board holds`;

/**
 * What an order leaves uncut, in one sentence to stand under its total wherever it is printed: `Without 2 pieces that no
 * board holds: 5A, 10A.` Null where it leaves nothing. `nameOf`: how a thing that is cut is called there (RULES: ST6).
 */
export function withoutWords(stock: Report['stock'], nameOf = (id: string): string => id): string | null {
  const left = stock.flatMap(({ unplaced }) => unplaced);
  return left.length === 0 ? null : `Without ${heldByNone(left.length)}: ${left.map(nameOf).join(', ')}.`;
}

/** Whether a bound was found: a first layout has none (RULES: ST7). */
function leastKnown({ bound, cost }: Report['stock'][number]): boolean {
  return bound > 0 || cost <= 0;
}

/**
 * What a profile's boards cost beside the least they can cost: `least possible 214.60, this 214.60, proved`, or by how much
 * they could be cheaper at most. With boards held, the others are laid around these (RULES: ST7, ST13). Where pieces are left
 * out no least is said: it would be that of fewer pieces (RULES: ST6). `say`: an amount, in money or a length bought.
 */
export function costWords(stock: Report['stock'][number], say: (amount: number) => string): string {
  const { boards, bound, cost, proved, unplaced } = stock;
  const own = `this ${say(cost)}`;
  if (unplaced.length > 0) {
    const sure = proved ? 'fewer cannot be left out' : 'whether fewer could be left out is not known';
    return `${own}, without ${heldByNone(unplaced.length)}; ${sure}`;
  }
  const least = boards.some((board) => board.held)
    ? 'least possible around the boards held'
    : 'least possible';
  if (!leastKnown(stock)) return `${least} not known, ${own}, not proved`;
  if (proved) return `${least} ${say(bound)}, ${own}, proved`;
  const gap = cost - bound;
  return `${least} ${say(bound)}, ${own}, not proved: at most ${say(gap)} (${((100 * gap) / cost).toFixed(1)} %) could be saved`;
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

/** The sums of an order's lines, and for spare of those that have any; null where a price is not known. */
export function orderSums(purchase: Report['purchase']): Record<'boards' | 'spare', (number | null)[]> {
  return {
    boards: purchase.map(({ sum }) => sum),
    spare: purchase.filter(({ spare }) => spare > 0).map(({ spareSum }) => spareSum),
  };
}

/** What the lines whose price is known come to; null where none is. */
export function knownSum(sums: readonly (number | null)[]): number | null {
  const known = sums.filter((each) => each !== null);
  return known.length === 0 && sums.length > 0 ? null : known.reduce((all, each) => all + each, 0);
}

/**
 * What lines come to, in words that are the same wherever an order is printed: `812.40`, or where prices are not known
 * `known so far 812.40; 3 of 9 lines have no price`, or `no price is known`. No currency [SH36].
 */
export function sumWords(sums: readonly (number | null)[]): string {
  const known = knownSum(sums);
  if (known === null) return 'no price is known';
  const without = sums.filter((each) => each === null).length;
  if (without === 0) return known.toFixed(2);
  return `known so far ${known.toFixed(2)}; ${without} of ${sums.length} lines ${without === 1 ? 'has' : 'have'} no price`;
}

/** The order list, and its totals in money: boards, spare apart, and how many lines and boards have no price. */
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
        : {
            money: money(sums.money),
            spareMoney: money(sums.spare),
            unpricedLines: lines.filter(({ price }) => price === null).length,
            unpricedBoards: sums.unpriced,
          },
  };
}
