// One order to its boards: least money (or length bought), then fewest boards, then off-cuts gathered; with the bound
// that shows how far it can be from the best. Pure and deterministic: limits are of work, never of time [ST5–ST8].

import type { Solver } from '../fit/types.ts';
import { lowerBound } from './bound.ts';
import { type Answer, answerOf, better, firstAnswer, mustHold } from './fill.ts';
import { boardsBelow, chosenFrom, roundedAnswer } from './finish.ts';
import { leastUnits, type Pattern, type Problem, problemOf, unitsOf } from './problem.ts';
import { boardsOf, gathered } from './settle.ts';
import type { StockBudget, StockOrder, StockPlan, StockProgress } from './types.ts';

/** Usual work, multiplied by the budget's. Nodes of our own search, rounds, listed boards, nodes of the solver's. */
const SEARCH = 200_000;
const ROUNDS = 400;
const LISTED = 10_000;
/** Up to this many listed boards are chosen from at once; of more, first those of a part of the gap. */
const FEW = 1_500;
const LIST_SEARCH = 600_000;
const NODES = 500;
const GATHER = 3_000_000;
/** Parts of the gap to the bound that the proof goes through. */
const PARTS = [1, 0.35, 0.125] as const;
/** Up to this many different pieces the solver chooses among all boards at hand; above, among what rounding leaves. */
const SMALL = 80;

interface Found {
  readonly answer: Answer;
  readonly bound: number;
}

function search(
  problem: Problem,
  solver: Solver,
  work: number,
  tell: (found: Found | Answer, step: StockProgress['step']) => boolean,
): Found {
  let answer = firstAnswer(problem);
  if (work <= 0 || !tell(answer, 'start')) return { answer, bound: 0 };
  const least = lowerBound(problem, answer.boards, solver, {
    goal: answer.cost,
    rounds: Math.ceil(ROUNDS * work),
    work: SEARCH * work,
  });
  let { bound } = least;
  if (bound >= answer.cost || !tell({ answer, bound }, 'bound')) return { answer, bound };

  const nodes = Math.ceil(NODES * work);
  const limits = { boards: Math.ceil(LISTED * work), search: LIST_SEARCH * work };
  const round = (finish: number): void => {
    const effort = { nodes: finish, search: SEARCH };
    const rounded = roundedAnswer(problem, least.patterns, least.worths, solver, effort);
    if (rounded) answer = better(answer, rounded);
  };
  // The best answer among the boards that answers below `below` can use: none cheaper than both exists.
  const choose = (listed: readonly Pattern[], below: number): void => {
    const chosen = chosenFrom(problem, listed, solver, nodes);
    if (chosen.answer) answer = better(answer, chosen.answer);
    if (chosen.least !== null) bound = Math.max(bound, Math.min(below, chosen.least, answer.cost));
  };
  const prove = (): boolean => {
    for (const part of PARTS) {
      const below = bound + Math.ceil((answer.cost - bound) * part);
      const few = boardsBelow(problem, least.worths, below, { ...limits, boards: FEW });
      if (!few) continue;
      choose(few, below);
      break;
    }
    if (bound >= answer.cost) return true;
    const all = boardsBelow(problem, least.worths, answer.cost, limits);
    if (all) choose(all, answer.cost);
    return all !== null;
  };
  round(0);
  if (bound >= answer.cost || !tell({ answer, bound }, 'improve')) return { answer, bound };
  if (!prove()) {
    round(nodes);
    if (bound < answer.cost && problem.kinds.length <= SMALL) {
      const chosen = chosenFrom(problem, [...least.patterns, ...answer.boards], solver, nodes);
      if (chosen.answer) answer = better(answer, chosen.answer);
    }
    if (bound < answer.cost && tell({ answer, bound }, 'prove')) prove();
  }
  return { answer, bound };
}

/**
 * The boards of an order [ST5–ST8]. Every item is on exactly one board or among `unplaced`, and per board trim, pieces,
 * kerfs and off-cut sum to its length exactly. Throws on an order whose lengths or prices are not whole.
 */
export function cutStock(order: StockOrder, solver: Solver, budget: StockBudget = {}): StockPlan {
  const problem = problemOf(order);
  const work = budget.work ?? 1;
  const tell = (now: Found | Answer, step: StockProgress['step']): boolean => {
    const answer = 'answer' in now ? now.answer : now;
    const progress: StockProgress = {
      profileId: order.profileId,
      step,
      cost: bought(problem, answer.boards),
      bound: 'bound' in now ? leastUnits(problem, now.bound) * problem.unit : null,
    };
    return budget.tell?.(progress) !== 'stop';
  };
  const found: Found =
    problem.pieces === 0 ? { answer: answerOf(problem, []), bound: 0 } : search(problem, solver, work, tell);
  mustHold(problem, found.answer);
  tell(found, 'settle');
  const settled = gathered(problem, found.answer, GATHER * work);
  mustHold(problem, answerOf(problem, settled));
  const { boards, missed } = boardsOf(order, problem, settled);
  const missing = missed.length * problem.miss;
  const cost = bought(problem, settled);
  const bound = Math.min(cost, leastUnits(problem, Math.max(0, found.bound - missing)) * problem.unit);
  const sure = missed.length === 0 || found.bound >= missing;
  return {
    order,
    by: problem.by,
    cost,
    bound: sure ? bound : 0,
    proved: sure && bound === cost,
    fewestProved: found.bound >= found.answer.cost && problem.tie > 1,
    boards,
    unplaced: [...problem.tooLong, ...missed]
      .sort((a, b) => order.items.indexOf(a) - order.items.indexOf(b))
      .map((item) => item.id),
  };
}

function bought(problem: Problem, boards: readonly Pattern[]): number {
  const cost = boards.reduce((sum, board) => sum + problem.supplies[board.supply]!.cost, 0);
  return unitsOf(problem, cost) * problem.unit;
}
