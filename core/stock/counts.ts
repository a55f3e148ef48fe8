// How many boards of each length an order takes at least, in whole boards. The programme of columns may take half a board;
// here only the filling may. The cheapest whole numbers of boards are asked whether pieces could be shared among them; if
// not even in parts, the worths that show it become a row that every answer must meet, and the next cheapest are asked.
// Costs are the problem's own. Knows nothing of single pieces.

import type { LinearProgram, Solver } from '../fit/types.ts';
import { lowerBound, type Worths, worthOf } from './bound.ts';
import { bestFilling, worthTable } from './knapsack.ts';
import { alwaysPlaced, type Pattern, type Problem } from './problem.ts';

/** Rows asked for at most, and work of each question. */
const ROWS = 40;
const ROUNDS = 120;
const SEARCH = 100_000;
const NODES = 600;
/** Kept off the limits of rows whose factors are near 1. */
const ROUNDING = 1e-9;

/** `Σ boards × most ≥ least` holds for the boards of every answer. Whole numbers. */
export interface CountRow {
  readonly most: readonly number[];
  readonly least: number;
}

/** Boards that hold not all pieces, so neither do fewer of them. */
export type TooFew = readonly number[];

/** Whole boards, how many of each. */
export interface Counts {
  readonly counts: readonly number[];
  /** No answer that meets the rows costs less. */
  readonly cost: number;
}

function rowOf(problem: Problem, values: readonly number[]): CountRow {
  const { kinds, supplies } = problem;
  const counts = kinds.map((kind) => kind.count);
  const table = worthTable(kinds, values, Math.max(...supplies.map((each) => each.room)));
  return {
    most: supplies.map((each) => bestFilling(table, counts, each.room, 0, SEARCH).most),
    least: worthOf(problem, values),
  };
}

/** What holds of length and of the number of pieces. */
export function plainRows(problem: Problem): CountRow[] {
  const { kinds } = problem;
  return [
    rowOf(
      problem,
      kinds.map((kind) => kind.weight),
    ),
    rowOf(
      problem,
      kinds.map(() => 1),
    ),
  ];
}

/** What holds of pieces worth so much. */
export function worthRow(problem: Problem, { values }: Worths): CountRow {
  return rowOf(
    problem,
    values.map((value) => Math.floor(value)),
  );
}

/**
 * The cheapest whole boards that meet the rows, hold more than each of `tooFew` and cost less than `below`. Null when
 * work ends before they are found.
 */
export function cheapestCounts(
  problem: Problem,
  rows: readonly CountRow[],
  tooFew: readonly TooFew[],
  solver: Solver,
  below: number,
): Counts | 'none' | null {
  const { supplies } = problem;
  const columns: LinearProgram['columns'][number][] = supplies.map((each) => ({
    cost: each.cost,
    lower: 0,
    upper: each.limit,
    integer: true,
  }));
  const asked: LinearProgram['rows'][number][] = rows.map(({ most, least }) => ({
    lower: 1 - ROUNDING,
    upper: Number.POSITIVE_INFINITY,
    // A board that alone is enough counts as that: keeps factors near 1.
    terms: most.flatMap((value, s): [number, number][] =>
      value > 0 && least > 0 ? [[s, Math.min(1, value / least)]] : [],
    ),
  }));
  for (const few of tooFew) {
    const any: [number, number][] = [];
    supplies.forEach((each, s) => {
      if (few[s]! >= each.limit) return;
      any.push([columns.length, 1]);
      asked.push({
        lower: 0,
        upper: Number.POSITIVE_INFINITY,
        terms: [
          [s, 1],
          [columns.length, -(few[s]! + 1)],
        ],
      });
      columns.push({ cost: 0, lower: 0, upper: 1, integer: true });
    });
    asked.push({ lower: 1, upper: Number.POSITIVE_INFINITY, terms: any });
  }
  const program = { columns, rows: asked.filter((row) => row.terms.length > 0) };
  const solved = solver.solve(program, NODES, below - 0.5);
  if (solved.status === 'infeasible') return 'none';
  if (solved.status !== 'optimal') return null;
  const counts = supplies.map((_, s) => solved.x[s]!);
  return { counts, cost: counts.reduce((sum, count, s) => sum + count * supplies[s]!.cost, 0) };
}

/** The problem of these boards alone, at no cost: what is left out costs 1. */
export function withBoards(problem: Problem, counts: readonly number[]): Problem {
  const supplies = problem.supplies.map((each, s) => ({
    ...each,
    cost: 0,
    limit: counts[s]!,
    limited: true,
  }));
  return { ...problem, supplies, step: 1, miss: 1 };
}

/**
 * The cheapest whole boards among which the pieces could be shared, cut in parts where need be. Adds rows to `rows`. Stops
 * with what it has once they cost `goal` or more. Only for problems in which nothing need be left out.
 */
export function leastCounts(
  problem: Problem,
  rows: CountRow[],
  tooFew: readonly TooFew[],
  start: readonly Pattern[],
  solver: Solver,
  goal: number,
): { readonly found: Counts | null; readonly cost: number; readonly seen: readonly Pattern[] } {
  if (!alwaysPlaced(problem)) return { found: null, cost: 0, seen: [] };
  let cost = 0;
  let seen = start;
  for (let asked = 0; asked < ROWS; asked++) {
    const next = cheapestCounts(problem, rows, tooFew, solver, goal);
    if (next === null) return { found: null, cost, seen };
    if (next === 'none') return { found: null, cost: goal, seen };
    cost = Math.max(cost, next.cost);
    if (cost >= goal) return { found: null, cost, seen };
    const few = withBoards(problem, next.counts);
    const { bound, worths, patterns } = lowerBound(few, seen, solver, {
      goal: 1,
      rounds: ROUNDS,
      work: SEARCH,
    });
    seen = patterns;
    if (bound < 1) return { found: next, cost, seen };
    const row = worthRow(problem, worths);
    const met = next.counts.reduce((sum, count, s) => sum + count * row.most[s]!, 0);
    if (met >= row.least) return { found: next, cost, seen };
    rows.push(row);
  }
  return { found: null, cost, seen };
}
