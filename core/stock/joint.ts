// Which of the places a stretch may be joined at serves the boards best: column generation in which the split of a stretch
// is itself a choice, then a choice among the boards seen and the splits together. The bound holds for every choice.
// Costs are the problem's own; nothing is cut here.

import type { Solver } from '../fit/types.ts';
import { lowerBound } from './bound.ts';
import { choice } from './finish.ts';
import { type Cut, leastUnits, type Options, type Pattern, problemOf, unitsOf } from './problem.ts';
import type { StockOrder } from './types.ts';

/** Usual work: rounds of column generation, nodes of one knapsack, boards chosen from, nodes of the solver. */
const ROUNDS = 30;
const SEARCH = 10_000;
const SEEN = 500;
const NODES = 8;

/**
 * No way of joining and cutting costs less: money or length bought, whole. `order` holds the pieces that are sure,
 * `choices` for each stretch what its parts need at least. Stops at `goal`.
 */
export function jointBound(
  order: StockOrder,
  choices: readonly Options<Cut>[],
  solver: Solver,
  goal: number,
  work: number,
): number {
  const problem = problemOf(order, choices);
  if (problem.pieces === 0) return 0;
  const { bound } = lowerBound(problem, [], solver, {
    goal: (goal / problem.unit) * problem.tie + problem.pieces,
    rounds: Math.ceil(ROUNDS * work),
    work: Math.ceil(SEARCH * work),
  });
  return Math.min(goal, leastUnits(problem, bound) * problem.unit);
}

/** The option of each choice that the best boards found use, and what these cost; null where the solver's work ran out with none. */
export function jointPicks(
  order: StockOrder,
  choices: readonly Options<Cut>[],
  solver: Solver,
  work: number,
): { readonly picks: readonly number[]; readonly cost: number } | null {
  const problem = problemOf(order, choices);
  const { patterns, worths } = lowerBound(problem, [], solver, {
    goal: Number.POSITIVE_INFINITY,
    rounds: Math.ceil(ROUNDS * work),
    work: Math.ceil(SEARCH * work),
  });
  // Those that cost least over the worth in them: the others are of no use to a good answer.
  const over = (pattern: Pattern): number =>
    problem.supplies[pattern.supply]!.cost * worths.scale +
    worths.rents[pattern.supply]! -
    pattern.parts.reduce((sum, [kind, count]) => sum + worths.values[kind]! * count, 0);
  const seen = patterns
    .map((pattern, at) => ({ pattern, at, over: over(pattern) }))
    .sort((a, b) => a.over - b.over || a.at - b.at)
    .slice(0, Math.ceil(SEEN * work))
    .map((each) => each.pattern);
  const stock = problem.supplies.map((each) => each.limit);
  const asked = choice(problem, seen, problem.sure, stock, true);
  const solved = solver.solve(asked.program, Math.ceil(NODES * work));
  if ((solved.status !== 'optimal' && solved.status !== 'limit') || !solved.x) return null;
  const { x } = solved;
  return {
    picks: asked.picks.map((columns) =>
      Math.max(
        0,
        columns.findIndex((column) => Math.round(x[column]!) === 1),
      ),
    ),
    cost: unitsOf(problem, Math.round(solved.objective ?? 0)) * problem.unit,
  };
}
