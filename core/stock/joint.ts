// Which of the places a stretch may be joined at serves the boards best: column generation in which the split of a stretch
// is itself a choice, then a choice among the boards seen and the splits together. The bound holds for every choice.
// Costs are the problem's own; nothing is cut here.

import type { Solver } from '../fit/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { lowerBound } from './bound.ts';
import { type CountRow, leastCounts, plainRows, worthRow } from './counts.ts';
import { choice } from './finish.ts';
import {
  type Cut,
  costFrom,
  leastUnits,
  type Options,
  type Pattern,
  type Problem,
  problemOf,
  unitsOf,
} from './problem.ts';
import type { StockOrder } from './types.ts';

/** Usual work: rounds of column generation, nodes of one knapsack, boards chosen from, nodes of the solver. */
const ROUNDS = 30;
const SEARCH = 10_000;
const SEEN = 500;
const NODES = 8;

/** A stretch whose joints are open: what its parts need at least in each option, and all of them together in any. */
export interface OpenJoints {
  readonly options: Options<Cut>;
  /** With their cuts. Options that stand for many places take less than any of these does. */
  readonly together: Ticks;
}

/**
 * No way of joining and cutting that leaves nothing out costs less: money or length bought, whole. `order` holds the
 * pieces that are sure, `choices` the stretches that are joined somewhere. Stops at `goal`.
 */
export function jointBound(
  order: StockOrder,
  choices: readonly OpenJoints[],
  solver: Solver,
  goal: number,
  work: number,
): number {
  const problem = problemOf(
    order,
    choices.map((each) => each.options),
  );
  if (problem.pieces === 0) return 0;
  const enough = costFrom(problem, goal / problem.unit);
  const { bound, worths, patterns } = lowerBound(problem, [], solver, {
    goal: enough,
    rounds: Math.ceil(ROUNDS * work),
    work: Math.ceil(SEARCH * work),
  });
  const unitsAt = (cost: number): number => Math.min(goal, leastUnits(problem, cost) * problem.unit);
  if (unitsAt(bound) >= goal || work <= 0) return unitsAt(bound);
  const rows = [...plainRows(problem), worthRow(problem, worths), togetherRow(problem, choices)];
  const { cost } = leastCounts(problem, rows, [], patterns, solver, enough);
  return unitsAt(Math.max(bound, cost));
}

/** All boards have room for everything; each may let its widest cut fall off its end [ST4]. */
function togetherRow({ kinds, sure, supplies }: Problem, choices: readonly OpenJoints[]): CountRow {
  const widest = Math.max(...kinds.map((kind) => kind.kerf));
  return {
    most: supplies.map((each) => each.room + widest),
    least:
      kinds.reduce((sum, kind, i) => sum + kind.weight * sure[i]!, 0) +
      choices.reduce((sum, each) => sum + each.together, 0),
  };
}

/** The option of each choice that the best boards found use. */
export interface JointPicks {
  readonly picks: readonly number[];
  /** What these boards cost; nothing is told of it where pieces are left out. */
  readonly cost: number;
  /** How many pieces find no board. */
  readonly missed: number;
}

/** The choices that serve the boards best, as far as boards seen on the way tell; null where no board holds any, or the solver's work ran out with none. */
export function jointPicks(
  order: StockOrder,
  choices: readonly Options<Cut>[],
  solver: Solver,
  work: number,
): JointPicks | null {
  const problem = problemOf(order, choices);
  if (problem.supplies.length === 0) return null;
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
  const cost = Math.round(solved.objective ?? 0);
  return {
    picks: asked.picks.map((columns) =>
      Math.max(
        0,
        columns.findIndex((column) => Math.round(x[column]!) === 1),
      ),
    ),
    cost: unitsOf(problem, cost) * problem.unit,
    missed: problem.tooLong.length + Math.floor(cost / problem.miss),
  };
}
