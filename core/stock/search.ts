// The search for the boards of one problem: a first answer by simple rules, a bound by column generation, then either a
// proof (a choice among all boards that a cheaper answer could use) or better answers by rounding. Every step keeps the
// best answer and the best bound; limits are of work, never of time [ST7].

import type { Solver } from '../fit/types.ts';
import { lowerBound } from './bound.ts';
import { type Answer, better, firstAnswer } from './fill.ts';
import { boardsBelow, chosenFrom, roundedAnswer } from './finish.ts';
import { leastUnits, type Pattern, type Problem, unitsOf } from './problem.ts';
import type { StockProgress } from './types.ts';

/** Usual work, multiplied by the budget's: nodes of one knapsack, rounds of column generation. */
const SEARCH = 200_000;
const ROUNDS = 400;
/** Boards listed at most for a proof, and nodes of the search for them. */
const LISTED = 10_000;
const LIST_SEARCH = 400_000;
/** Up to this many listed boards are chosen from at once; of more, first those of a part of the gap. */
const FEW = 1_500;
/** Parts of the gap to the bound that the proof goes through. */
const PARTS = [0.125, 0.35, 1] as const;
/** Nodes of the solver for one choice of boards; fewer where only the number of boards is still open. */
const NODES = 500;
const TIE_NODES = 20;
/** Orders of more pieces are not proved by a choice among all boards: its work has no useful limit. */
const PROVED = 600;
/** Up to this many different pieces the solver also chooses among all boards seen, not only among what rounding leaves. */
const SMALL = 80;

export interface Found {
  readonly answer: Answer;
  /** No answer costs less. */
  readonly bound: number;
}

/** Told after each step; false stops the search with the best so far. */
export type Tell = (found: Found, step: StockProgress['step']) => boolean;

/** The best boards found for a problem with at least one piece, and the bound. `work` 1 is the usual work, 0 none. */
export function searchBoards(problem: Problem, solver: Solver, work: number, tell: Tell): Found {
  let best: Found = { answer: firstAnswer(problem), bound: 0 };
  if (work <= 0 || !tell(best, 'start')) return best;
  const { bound, worths, patterns } = lowerBound(problem, best.answer.boards, solver, {
    goal: best.answer.cost,
    rounds: Math.ceil(ROUNDS * work),
    work: SEARCH * work,
  });
  best = { ...best, bound };

  const done = (): boolean => best.bound >= best.answer.cost;
  /** Nothing costs less in money or length; only the number of boards is open. */
  const tied = (): boolean => leastUnits(problem, best.bound) >= unitsOf(problem, best.answer.cost);
  const nodes = (): number => Math.ceil((tied() ? TIE_NODES : NODES) * work);
  const take = (answer: Answer | null): void => {
    if (answer) best = { ...best, answer: better(best.answer, answer) };
  };
  const round = (finish: number): void =>
    take(roundedAnswer(problem, patterns, worths, solver, { nodes: finish, search: SEARCH * work }));
  const listBelow = (below: number, most: number): Pattern[] | null =>
    boardsBelow(problem, worths, below, {
      boards: Math.ceil(most * work),
      search: Math.ceil(LIST_SEARCH * work),
    });
  /** The best answer among the boards that answers below `below` can use: there is no cheaper one than both. */
  const choose = (listed: readonly Pattern[], below: number): void => {
    const chosen = chosenFrom(problem, listed, solver, nodes());
    take(chosen.answer);
    if (chosen.least === null) return;
    best = {
      ...best,
      bound: Math.max(best.bound, Math.min(below, chosen.least, best.answer.cost)),
    };
  };
  /** False where the boards to choose from are too many. */
  const prove = (): boolean => {
    const wasTied = tied();
    let few: { listed: Pattern[]; below: number } | null = null;
    for (const part of PARTS) {
      const below = best.bound + Math.ceil((best.answer.cost - best.bound) * part);
      const listed = listBelow(below, FEW);
      if (!listed) break;
      few = { listed, below };
    }
    if (!few) return false;
    choose(few.listed, few.below);
    if (done() || wasTied) return true;
    const all = listBelow(best.answer.cost, LISTED);
    if (all) choose(all, best.answer.cost);
    return all !== null;
  };

  if (done() || !tell(best, 'bound')) return best;
  round(0);
  if (done() || !tell(best, 'improve')) return best;
  if (problem.pieces <= PROVED && prove()) return best;
  round(nodes());
  if (done() || tied()) return best;
  if (problem.kinds.length <= SMALL) {
    take(chosenFrom(problem, [...patterns, ...best.answer.boards], solver, nodes()).answer);
  }
  if (done() || problem.pieces > PROVED || !tell(best, 'prove')) return best;
  prove();
  return best;
}
