// All boards of a plan. A board held as it was laid must not make its order dearer, and a search that is not proved can
// miss the boards it found before: so where boards are held and nothing is proved, they are looked for among the boards
// that were laid before they were held [ST13]. How boards are laid is lay-boards.ts. Pure and deterministic.

import type { Solver } from '../fit/types.ts';
import { sortedEntries } from '../plan/maps.ts';
import type { HeldBoard, Plan, ProfileId } from '../plan/schema.ts';
import type { Splits } from '../trim/types.ts';
import { holdsBoard, inListOrder, saysJoints } from './held.ts';
import { looseIn } from './held-joints.ts';
import { isBetter, withBound } from './join-boards.ts';
import { layBoards, type PlannedBoards } from './lay-boards.ts';
import { joinedAt } from './layout.ts';
import type { TrimmedLevel } from './order.ts';
import { stoppable } from './stoppable.ts';
import type { StockBudget, StockPlan } from './types.ts';

/** How many times the boards of a profile are laid with some of the held ones left free, at most: on large orders once. */
const EARLIER = 4;
const LARGE = 600;

/**
 * The boards of a plan, long stretches joined where it serves them [ST5–ST8, ST12, ST13]. `given` stands as it is, but for
 * joints that the plan holds. Once the budget's `tell` stops, what is found is kept and the rest is laid quickly. `soFar` is
 * told whole boards each time those of a profile got better. They can be worse than earlier ones where stretches are joined
 * anew meanwhile.
 */
export function planBoards(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  solver: Solver,
  asked: StockBudget = {},
  soFar?: (planned: PlannedBoards) => void,
): PlannedBoards {
  const limited = stoppable(asked);
  const { budget, stopped } = limited;
  let best = layBoards(plan, levels, given, solver, limited, soFar);
  if ((budget.work ?? 1) <= 0) return best;
  for (const [id, all] of sortedEntries(plan.heldBoards)) {
    const loose = new Set(best.loosened.map(({ board }) => board));
    const held = all.filter((board) => !loose.has(board));
    // As they were held, one after another: the first that is missing is held next.
    let free = held;
    const times = held.length === 0 ? 0 : isLarge(best, id) ? 1 : EARLIER;
    for (let time = 0; time < times && isOpen(best, id) && !stopped(); time++) {
      const earlier = layBoards(withHeldOf(plan, id, without(held, free)), levels, given, solver, limited);
      const laid = laidOf(plan, levels, earlier, id, held);
      const missing = held.filter(
        (board) => !laid.has(board) || (free.includes(board) && !saysJoints(board)),
      );
      if (missing.length === 0) {
        const found = withHeldIn(earlier, best, id, held);
        best = isBetterIn(found, best, id) ? found : withBoundOf(best, earlier, id);
        soFar?.(best);
        break;
      }
      free = without(free, missing.slice(0, 1));
    }
  }
  return best;
}

const without = <Each>(all: readonly Each[], some: readonly Each[]): Each[] =>
  all.filter((each) => !some.includes(each));

const stockOf = ({ stock }: PlannedBoards, id: ProfileId): StockPlan | undefined =>
  stock.find(({ order }) => order.profileId === id);

/** Something of a profile could still be had cheaper. */
function isOpen(planned: PlannedBoards, id: ProfileId): boolean {
  return stockOf(planned, id)?.proved === false;
}

function isLarge(planned: PlannedBoards, id: ProfileId): boolean {
  return (stockOf(planned, id)?.order.items.length ?? 0) > LARGE;
}

function withHeldOf(plan: Plan, id: ProfileId, held: readonly HeldBoard[]): Plan {
  return { ...plan, heldBoards: { ...plan.heldBoards, [id]: held } };
}

/** The boards of a profile, and all others as they are. */
function withStock(planned: PlannedBoards, own: StockPlan): PlannedBoards {
  const stock = planned.stock.map((each) => (each.order.profileId === own.order.profileId ? own : each));
  return { ...planned, stock };
}

/** With the greater bound of two searches for boards that hold the same: of one that was free to, or of one that had to. */
function withBoundOf(planned: PlannedBoards, freer: PlannedBoards, id: ProfileId): PlannedBoards {
  const [own, other] = [stockOf(planned, id), stockOf(freer, id)];
  if (own === undefined || other === undefined) return planned;
  const isComparable = own.by === other.by && own.unplaced.length === 0 && other.unplaced.length === 0;
  return isComparable && other.bound > own.bound ? withStock(planned, withBound(own, other.bound)) : planned;
}

/** Which of the boards held are among those laid, with the joints that they are held with. */
function laidOf(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  laid: PlannedBoards,
  id: ProfileId,
  held: readonly HeldBoard[],
): ReadonlySet<HeldBoard> {
  const joined = joinedAt(plan, levels, laid.splits, new Set(Object.keys(laid.splits)));
  const loose = new Set(looseIn(plan, joined, new Map([[id, held]])).map(({ board }) => board));
  const boards = stockOf(laid, id)?.boards ?? [];
  return new Set(held.filter((own) => !loose.has(own) && boards.some((board) => holdsBoard(own, board))));
}

/** Boards that were laid before these of a profile were held, with them held; what is loosened is as in `now`. */
function withHeldIn(
  laid: PlannedBoards,
  now: PlannedBoards,
  id: ProfileId,
  held: readonly HeldBoard[],
): PlannedBoards {
  const own = stockOf(laid, id);
  if (own === undefined) return laid;
  const order = { ...own.order, held };
  const boards = own.boards.map((board) =>
    held.some((each) => holdsBoard(each, board)) ? { ...board, held: true } : board,
  );
  const stock = { ...own, order, boards: inListOrder(order, boards), loosened: stockOf(now, id)!.loosened };
  return withBoundOf({ ...withStock(laid, stock), loosened: now.loosened }, now, id);
}

/** Better boards of a profile, and none worse of any other. */
function isBetterIn(found: PlannedBoards, than: PlannedBoards, id: ProfileId): boolean {
  return found.stock.every((each) => {
    const other = stockOf(than, each.order.profileId);
    if (other === undefined) return false;
    return each.order.profileId === id ? isBetter(each, other) : !isBetter(other, each);
  });
}
