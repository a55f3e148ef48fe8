// Given boards and the pieces of an order: can they be shared among them, none left out? First by many quick fillings,
// then by a choice among all fillings that waste no more than the boards have to spare, which also tells that it cannot be
// done; where those are too many, among the boards seen so far. Costs play no part.

import type { Solver } from '../fit/types.ts';
import { withBoards } from './counts.ts';
import { type Answer, answerOf, tidied } from './fill.ts';
import { boardsBelow, chosenFrom, joined, LEAVES, roundedDown } from './finish.ts';
import { bestFilling, worthTable } from './knapsack.ts';
import type { Pattern, Problem } from './problem.ts';
import { triedAnswer } from './tries.ts';

/** Quick fillings of an order of 60 pieces, fewer on larger ones, and nodes of each knapsack in them. */
const USUAL = 60;
const TRIES = 240;
const TRY_SEARCH = 10_000;
/** Fillings tried for what is left of an order shared in parts. */
const PART_TRIES = 60;
/** Fillings listed at most, nodes of the search for them, and nodes of the solver for the choice. */
const LISTED = 4_000;
const LIST_SEARCH = 300_000;
const NODES = 200;
const SEEN = 1_200;
/** Fewer where there are many kinds: so many factors in the programme of a choice. */
const SEEN_FACTORS = 40_000;
const SEEN_NODES = 30;

export interface Shared {
  /** With nothing left out; null where none was found. */
  readonly answer: Answer | null;
  /** It cannot be done with these boards or fewer. */
  readonly never: boolean;
}

/** Orders of more pieces are shared in parts first, then what is left over. */
const FEW = 80;

/**
 * Shares all pieces among `counts` boards of each length, where it can. `work` 1 is the usual work. `seen`: boards that
 * may serve; among them the pieces of a large order are shared in parts, rounded down, and only the rest is searched.
 */
export function shared(
  problem: Problem,
  counts: readonly number[],
  seen: readonly Pattern[],
  solver: Solver,
  work: number,
): Shared {
  if (problem.pieces <= FEW) return sharedWhole(problem, counts, seen, solver, work, TRIES);
  const few = withBoards(problem, counts);
  const rounded = roundedDown(few, seen, solver);
  for (const leave of rounded ? LEAVES : []) {
    const part = rounded!(leave);
    const { rest } = part;
    if (rest.pieces === problem.pieces) break;
    const left = rest.supplies.map((each) => each.limit);
    const own =
      rest.pieces === 0 ? answerOf(rest, []) : sharedWhole(rest, left, [], solver, work, PART_TRIES).answer;
    if (own) return { answer: tidied(problem, joined(few, part, own).boards), never: false };
  }
  return { answer: null, never: false };
}

function sharedWhole(
  problem: Problem,
  counts: readonly number[],
  seen: readonly Pattern[],
  solver: Solver,
  work: number,
  tries: number,
): Shared {
  const { kinds, supplies } = problem;
  const wanted = kinds.map((kind) => kind.count);
  const weights = kinds.map((kind) => kind.weight);
  const whole = (answer: Answer): boolean => answer.missed.every((count) => count === 0);
  const told = (answer: Answer): Shared => ({ answer: tidied(problem, answer.boards), never: false });

  const few = withBoards(problem, counts);
  const all = supplies.reduce((sum, each, s) => sum + counts[s]! * each.room, 0);
  // Filled by room, so that every length is tried; a piece left out costs more than all boards.
  const byRoom: Problem = {
    ...few,
    supplies: few.supplies.map((each) => ({ ...each, cost: Math.max(1, each.room) })),
    miss: all + supplies.length + 1,
  };
  const tried = triedAnswer(byRoom, weights, answerOf(byRoom, []), {
    count: Math.ceil((tries * work) / Math.max(1, problem.pieces / USUAL)),
    goal: all + supplies.length,
    search: TRY_SEARCH,
  });
  if (whole(tried.best)) return told(tried.best);

  const table = worthTable(kinds, weights, Math.max(...supplies.map((each) => each.room)));
  const most = few.supplies.map((each) => bestFilling(table, wanted, each.room, 0, LIST_SEARCH).most);
  const total =
    weights.reduce((sum, weight, kind) => sum + weight * wanted[kind]!, 0) -
    most.reduce((sum, value, s) => sum + value * counts[s]!, 0);
  if (total > 0) return { answer: null, never: true };
  const listed = boardsBelow(few, { values: weights, scale: 1, rents: most, total }, 1, {
    boards: Math.ceil(LISTED * work),
    search: Math.ceil(LIST_SEARCH * work),
  });
  const several = Math.min(SEEN, Math.floor(SEEN_FACTORS / kinds.length));
  const from = listed ?? [...seen, ...tried.boards].slice(-several);
  const nodes = Math.ceil((listed ? NODES : SEEN_NODES) * work);
  const chosen = chosenFrom(few, from, solver, nodes, 1);
  if (chosen.answer && whole(chosen.answer)) return told(chosen.answer);
  return { answer: null, never: listed !== null && chosen.least !== null && chosen.least >= 1 };
}
