// The least that boards can cost where lengths run out and stretches may be joined anywhere, in any number of parts: all
// pieces together are no longer than the boards bought, and joints only add to them [ST12]. Money or length, whole.

import type { LinearProgram, Solver } from '../fit/types.ts';
import type { Plan } from '../plan/schema.ts';
import { costOfBoards } from './cut.ts';
import { takeHeld } from './held.ts';
import type { LongStretch } from './long.ts';
import type { TrimmedLevel } from './order.ts';
import { wholeBound } from './problem.ts';
import { withLeastNeeds, without } from './sure.ts';
import type { StockPlan } from './types.ts';

/** Each part is rounded on its own: ticks that a stretch in many parts can lose by that. */
const ROUNDED = 200;
/** Kept off the limit of a row whose factors are near 1. */
const ROUNDING = 1e-9;
const NODES = 600;

/** No boards of this order that leave nothing out cost less, however the stretches `open` are joined. `levels`: as it was cut. */
export function runOutBound(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  { order, by }: StockPlan,
  open: readonly LongStretch[],
  solver: Solver,
): number {
  const { boards: held, rest } = takeHeld(order);
  const { items } = withLeastNeeds(plan, without(rest, levels, open), levels, open);
  const together =
    items.reduce((sum, item) => sum + item.need + item.kerf, 0) +
    open.reduce((sum, long) => sum + Math.floor(long.leastTogether([])) - ROUNDED, 0);
  const heldCost = costOfBoards(by, held);
  if (together <= 0) return heldCost;
  // On each board the widest cut may fall off its end [ST4].
  const widest = Math.max(0, ...rest.items.map((item) => item.kerf));
  const here = rest.lengths.filter(({ length, limit }) => limit !== 0 && length > rest.endTrim);
  const program: LinearProgram = {
    columns: here.map(({ length, limit, price, onHand }) => ({
      cost: onHand ? 0 : by === 'money' ? (price ?? 0) : length,
      lower: 0,
      upper: limit ?? Math.ceil(together / (length - rest.endTrim)),
      integer: true,
    })),
    rows: [
      {
        lower: 1 - ROUNDING,
        upper: Number.POSITIVE_INFINITY,
        terms: here.map(({ length }, i) => [i, Math.min(1, (length - rest.endTrim + widest) / together)]),
      },
    ],
  };
  const solved = solver.solve(program, NODES);
  const least =
    solved.status === 'optimal' ? solved.objective : solved.status === 'limit' ? solved.bound : null;
  return least === null ? 0 : heldCost + wholeBound(least);
}
