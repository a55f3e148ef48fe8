// One order to its boards: least money (or length bought), then fewest boards, then off-cuts gathered; with the bound
// that shows how far it can be from the best. Pure and deterministic: limits are of work, never of time [ST5–ST8].

import type { Solver } from '../fit/types.ts';
import { answerOf, mustHold } from './fill.ts';
import { inListOrder, takeHeld } from './held.ts';
import { leastUnits, type Pattern, type Problem, problemOf, unitsOf } from './problem.ts';
import { type Found, searchBoards, type Tell } from './search.ts';
import { boardsOf, gathered } from './settle.ts';
import type { CutBoard, StockBudget, StockOrder, StockPlan } from './types.ts';

/** Ways of sharing pieces between two boards that are looked at, multiplied by the budget's work. */
const GATHER = 3_000_000;

/**
 * The boards of an order [ST5–ST8, ST13]. Every item is on exactly one board or among `unplaced`, and per board trim, pieces,
 * kerfs and off-cut sum to its length exactly. Throws on an order whose lengths or prices are not whole.
 */
export function cutStock(order: StockOrder, solver: Solver, budget: StockBudget = {}): StockPlan {
  const { boards: held, rest, loosened } = takeHeld(order);
  const problem = problemOf(rest);
  const { work = 1, costAlone = false } = budget;
  const heldCost = costOfBoards(problem.by, held);
  /** `patterns`: the answer's boards, however its pieces are shared among them. */
  const planOf = ({ answer, bound: least }: Found, patterns: readonly Pattern[]): StockPlan => {
    const { boards, missed } = boardsOf(rest, problem, patterns);
    // What is missed costs more than all boards: a bound below that says nothing of the boards.
    const missing = missed.length * problem.miss;
    const cost = bought(problem, patterns);
    const sure = least >= missing;
    const bound = sure ? Math.min(cost, leastUnits(problem, least - missing) * problem.unit) : 0;
    const unplaced = new Set([...problem.tooLong, ...missed]);
    return {
      order,
      by: problem.by,
      cost: heldCost + cost,
      // What is held is no bound of the others: where theirs is not known, none is.
      bound: bound === 0 && cost > 0 ? 0 : heldCost + bound,
      proved: sure && bound === cost,
      fewestProved: least >= answer.cost && problem.tie > 1,
      boards: held.length === 0 ? boards : inListOrder(order, [...held, ...boards]),
      unplaced: order.items.filter((item) => unplaced.has(item)).map((item) => item.id),
      loosened,
    };
  };
  let handed: Found | null = null;
  const handOver = (found: Found): void => {
    const isNews = !handed || found.answer.cost < handed.answer.cost || found.bound > handed.bound;
    if (!isNews) return;
    handed = found;
    budget.found?.(planOf(found, found.answer.boards));
  };
  const tell: Tell = (found, step) => {
    if (budget.found && step !== 'start') handOver(found);
    const go = budget.tell?.({
      profileId: order.profileId,
      step,
      cost: heldCost + bought(problem, found.answer.boards),
      bound: step === 'start' ? null : heldCost + leastUnits(problem, found.bound) * problem.unit,
    });
    return go !== 'stop';
  };
  const found: Found =
    problem.pieces === 0
      ? { answer: answerOf(problem, []), bound: 0 }
      : searchBoards(problem, solver, work, tell, { costAlone });
  mustHold(problem, found.answer);
  tell(found, 'settle');
  const settled = costAlone ? found.answer.boards : gathered(problem, found.answer, GATHER * work);
  mustHold(problem, answerOf(problem, settled));
  return planOf(found, settled);
}

/** What boards cost, in the unit of the plan's cost. */
export function costOfBoards(by: StockPlan['by'], boards: readonly CutBoard[]): number {
  const cost = ({ onHand, price, length }: CutBoard): number =>
    onHand ? 0 : by === 'money' ? (price ?? 0) : length;
  return boards.reduce((sum, board) => sum + cost(board), 0);
}

/** What the boards cost in the problem's own money or length. */
function bought(problem: Problem, boards: readonly Pattern[]): number {
  const cost = boards.reduce((sum, board) => sum + problem.supplies[board.supply]!.cost, 0);
  return unitsOf(problem, cost) * problem.unit;
}
