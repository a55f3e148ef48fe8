// The search for the boards of one problem: a first answer by simple rules, a bound by column generation, then either a
// proof (a choice among all boards that a cheaper answer could use) or better answers by rounding. Every step keeps the
// best answer and the best bound; limits are of work, never of time [ST7].

import type { Solver } from '../fit/types.ts';
import { lowerBound } from './bound.ts';
import { cheapestCounts, leastCounts, plainRows, type TooFew, worthRow } from './counts.ts';
import { type Answer, answerOf, better, costOf, firstAnswer } from './fill.ts';
import { boardsBelow, chosenFrom, joined, LEAVES, type Rounded, roundedDown } from './finish.ts';
import { alwaysPlaced, costFrom, leastUnits, type Pattern, type Problem, unitsOf } from './problem.ts';
import { shared } from './share.ts';
import { triedAnswer } from './tries.ts';
import type { StockProgress } from './types.ts';

/** Usual work, multiplied by the budget's: nodes of one knapsack, rounds of column generation. */
const SEARCH = 200_000;
const ROUNDS = 400;
/** Boards listed at most for a proof, and nodes of the search for them. */
const LISTED = 10_000;
const LIST_SEARCH = 400_000;
/** Up to this many listed boards are chosen from at once; of more, first those of a part of the gap. */
const FEW = 800;
/** Parts of the gap to the bound that the proof goes through. */
const PARTS = [0.125, 0.35, 1] as const;
/**
 * Nodes of the solver for one choice of boards: more the smaller its programme, few where only their number is still
 * open. Programmes that leave fewer than the least are not asked.
 */
const NODES = 500;
const LEAST_NODES = 8;
const NODE_FACTORS = 3_000_000;
const TIE_NODES = 20;
/** Orders of more pieces are not proved by a choice among all boards: its work has no useful limit. */
const PROVED = 600;
/** Boards seen on the way that the solver chooses from where there are too many to list. */
const SEEN = 1_000;
/** A rest of more pieces that is a larger part of the whole is not searched: what that gains is not worth its work. */
const LEFT = 150;
const MOST_LEFT = 0.5;
/** Up to this many different pieces whole boards are counted for the bound. */
const COUNTED = 120;
/** So many counts are tried on orders of few pieces and on larger ones. */
const COUNTS = 12;
const FEW_PIECES = 80;
const MANY_COUNTS = 2;
/** Quick answers tried on an order of so many pieces, fewer on larger ones, and nodes of each knapsack in them. */
const USUAL = 60;
const TRIES = 120;
/** The same before the bound: they save rounds of column generation. */
const EARLY_TRIES = 24;
const TRY_SEARCH = 20_000;

export interface Found {
  readonly answer: Answer;
  /** No answer costs less. */
  readonly bound: number;
}

/** Told after each step; false stops the search with the best so far. */
export type Tell = (found: Found, step: StockProgress['step']) => boolean;

/** What is asked beside the best boards. */
interface Asked {
  /** Given for what rounding leaves: only answers that cost less are of use, and it is not rounded again. */
  readonly under?: number | null;
  /** Enough once nothing can cost less in money or length. */
  readonly costAlone?: boolean;
}

/** The best boards found for a problem with at least one piece, and the bound. `work` 1 is the usual work, 0 none. */
export function searchBoards(
  problem: Problem,
  solver: Solver,
  work: number,
  tell: Tell,
  { under = null, costAlone = false }: Asked = {},
): Found {
  let best: Found = { answer: firstAnswer(problem), bound: 0 };
  if (work <= 0 || !tell(best, 'start')) return best;
  const triesOf = (count: number): number => Math.ceil((count * work) / Math.max(1, problem.pieces / USUAL));
  const needs = problem.kinds.map((kind) => kind.need);
  const early = triedAnswer(problem, needs, best.answer, {
    count: triesOf(EARLY_TRIES),
    goal: 0,
    search: TRY_SEARCH,
  });
  best = { ...best, answer: early.best };
  const limit = (): number => Math.min(best.answer.cost, under ?? Number.POSITIVE_INFINITY);
  /** Nothing costs less in money or length; only the number of boards is open. */
  const tied = (): boolean => leastUnits(problem, best.bound) >= unitsOf(problem, best.answer.cost);
  const done = (): boolean => best.bound >= limit() || (costAlone && tied());
  const counted = problem.pieces <= PROVED && problem.kinds.length <= COUNTED;
  const plain = counted && alwaysPlaced(problem) ? plainRows(problem) : [];
  if (plain.length > 0) {
    const least = cheapestCounts(problem, plain, [], solver, limit());
    if (least !== null) best = { ...best, bound: least === 'none' ? limit() : least.cost };
    if (done()) return best;
  }
  const known = [...best.answer.boards, ...early.boards];
  const { bound, worths, patterns } = lowerBound(problem, known, solver, {
    goal: under ?? (costAlone ? costFrom(problem, unitsOf(problem, best.answer.cost)) : best.answer.cost),
    rounds: Math.ceil(ROUNDS * work),
    work: SEARCH * work,
  });
  best = { ...best, bound: Math.max(best.bound, bound) };

  const nodesFor = (boards: number): number => {
    const most = Math.floor(NODE_FACTORS / (boards * problem.kinds.length));
    return Math.ceil(Math.min(tied() ? TIE_NODES : NODES, most) * work);
  };
  const take = (answer: Answer | null): void => {
    if (answer) best = { ...best, answer: better(best.answer, answer) };
  };
  const listBelow = (below: number, most: number): Pattern[] | null =>
    boardsBelow(problem, worths, below, {
      boards: Math.ceil(most * work),
      search: Math.ceil(LIST_SEARCH * work),
    });
  /** The best answer among the boards that answers below `below` can use: there is no cheaper one than both. */
  const choose = (listed: readonly Pattern[], below: number): void => {
    const nodes = nodesFor(listed.length);
    if (nodes < LEAST_NODES * work) return;
    const chosen = chosenFrom(problem, listed, solver, nodes, limit());
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

  /** Counts of whole boards, cheapest first, until the pieces can be shared among them; `most` of them are tried. */
  const count = (most: number): void => {
    const rows = [...plain, worthRow(problem, worths)];
    const tooFew: TooFew[] = [];
    let seen: readonly Pattern[] = patterns;
    let sure = true;
    for (let asked = 0; !done(); asked++) {
      const least = leastCounts(problem, rows, tooFew, seen, solver, limit());
      seen = least.seen;
      if (sure) best = { ...best, bound: Math.max(best.bound, Math.min(least.cost, best.answer.cost)) };
      if (least.found === null || done() || asked >= most) return;
      const way = shared(problem, least.found.counts, seen, solver, work);
      take(way.answer);
      if (way.answer) return;
      if (!way.never) sure = false;
      tooFew.push(least.found.counts);
      if (!tell(best, 'prove')) return;
    }
  };

  /** The fractional choice rounded down, and the rest searched on its own; false where that is too much of the whole. */
  const round = (rounded: (leave: number) => Rounded, leave: number): boolean => {
    const part = rounded(leave);
    if (part.rest.pieces > Math.max(LEFT, MOST_LEFT * problem.pieces)) return false;
    if (part.rest.pieces === 0) take(joined(problem, part, answerOf(part.rest, [])));
    else if (part.rest.pieces <= PROVED && part.kept.length > 0) {
      const under = best.answer.cost - costOf(problem, part.kept);
      take(joined(problem, part, searchBoards(part.rest, solver, work, () => true, { under }).answer));
    }
    return true;
  };

  if (done() || !tell(best, 'bound')) return best;
  const effort = { count: triesOf(TRIES), goal: best.bound, search: TRY_SEARCH };
  const tried = triedAnswer(problem, worths.values, best.answer, effort);
  take(tried.best);
  if (done() || !tell(best, 'improve')) return best;
  const small = problem.pieces <= FEW_PIECES;
  if (counted) count(small ? COUNTS : 0);
  if (done() || !tell(best, 'prove')) return best;
  const rounded = under === null && !small ? roundedDown(problem, patterns, solver) : null;
  if (rounded) {
    round(rounded, LEAVES[0]);
    if (done() || tied() || !tell(best, 'improve')) return best;
  }
  if (counted && !small) {
    count(MANY_COUNTS);
    if (done() || !tell(best, 'prove')) return best;
  }
  if (problem.pieces <= PROVED && prove()) return best;
  if (under !== null) {
    const seen = [...patterns, ...best.answer.boards, ...tried.boards].slice(0, SEEN);
    if (!done()) choose(seen, 0);
    return best;
  }
  const again = rounded ?? roundedDown(problem, patterns, solver);
  if (!again) return best;
  for (const leave of rounded ? LEAVES.slice(1) : LEAVES) {
    if (!round(again, leave)) break;
    if (done() || tied() || !tell(best, 'improve')) return best;
  }
  if (problem.pieces <= PROVED && tell(best, 'prove')) prove();
  return best;
}
