// Where it is not proved that boards of several lengths are the cheapest: boards of one of these lengths alone are laid as well,
// its stretches joined for them, so that no table of alternatives holds what is cheaper by the same rules [ST11].

import type { Solver } from '../fit/types.ts';
import type { Splits } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { cutStock } from './cut.ts';
import { type Choice, isBetter, type Joined, joinBoards, withBound } from './join-boards.ts';
import { boughtAlone, type Layout } from './layout.ts';
import type { StockBudget, StockOrder, StockPlan } from './types.ts';

/** On orders of more pieces joints are not chosen anew for one length: that is not worth the work. */
const JOINED_PIECES = 600;

/** The better of the boards found and of those of one length alone. `first`: the joints that the search began with. */
export function oneLengthTried(
  layout: Layout,
  found: Joined,
  choices: readonly Choice[],
  first: { readonly splits: Splits; readonly order: StockOrder },
  solver: Solver,
  budget: StockBudget,
): Joined {
  const { order, bound } = found.stock;
  let best = found;
  for (const only of lengthsAlone(found.stock)) {
    const take = ({ stock, splits }: Joined, whole: StockOrder): void => {
      const own = withBound({ ...stock, order: whole }, bound);
      if (isBetter(own, best.stock)) best = { stock: own, splits };
    };
    take({ stock: cutStock(boughtAlone(order, only), solver, budget), splits: found.splits }, order);
    const isLongest = order.lengths.every(({ length, limit }) => length <= only || limit === 0);
    const isJoined = choices.length > 0 && order.items.length <= JOINED_PIECES;
    if (!isJoined || !isLongest) continue;
    const plain = cutStock(boughtAlone(first.order, only), solver, budget);
    const joined = joinBoards({ ...layout, only }, plain, choices, first.splits, solver, budget);
    const whole = { ...joined.stock.order, lengths: order.lengths };
    take(joined, whole);
    take({ stock: cutStock(whole, solver, budget), splits: joined.splits }, whole);
  }
  return best;
}

/** The lengths without limit of which boards alone hold every piece and could cost less than these boards do. */
function lengthsAlone({ order, by, cost, proved, unplaced }: StockPlan): Ticks[] {
  const { items, lengths, endTrim, held = [] } = order;
  const isOpen = !proved && unplaced.length === 0 && held.length === 0;
  const bought = lengths.filter(({ onHand, limit }) => !onHand && limit !== 0);
  if (!isOpen || new Set(bought.map(({ length }) => length)).size < 2) return [];
  const widest = Math.max(...items.map((item) => item.kerf));
  const longest = Math.max(...items.map((item) => item.need));
  const handy = lengths.reduce(
    (sum, { onHand, length, limit }) =>
      sum + (onHand ? Math.max(0, length - endTrim + widest) * (limit ?? items.length) : 0),
    0,
  );
  const needed = items.reduce((sum, item) => sum + item.need + item.kerf, 0) - handy;
  return bought
    .filter(({ length, limit, price }) => {
      const room = length - endTrim;
      const each = by === 'money' ? (price ?? 0) : length;
      return limit === null && room >= longest && Math.ceil(needed / (room + widest)) * each < cost;
    })
    .map(({ length }) => length);
}
