// Whole answers without a solver: board after board, each filled as well as a simple rule can, each then made from the
// cheapest board that holds it. The start of the search, and what is left when work runs out.

import { bestFilling, type WorthTable } from './knapsack.ts';
import { type Parts, type Pattern, type Problem, taken } from './problem.ts';

/** A whole answer: boards, and how many of each kind found none. */
export interface Answer {
  readonly boards: readonly Pattern[];
  readonly missed: readonly number[];
  /** Of the boards, and `miss` for each piece missed. */
  readonly cost: number;
}

/** Puts pieces on a board: `supply` is the index, `left` what is still wanted. Empty when nothing fits. */
export type Filler = (supply: number, left: readonly number[]) => Parts;

/** What boards cost together. */
export function costOf(problem: Problem, boards: readonly Pattern[]): number {
  return boards.reduce((sum, board) => sum + problem.supplies[board.supply]!.cost, 0);
}

/** The answer of these boards: costs summed, what they lack counted as missed. */
export function answerOf(problem: Problem, boards: readonly Pattern[]): Answer {
  const missed = problem.kinds.map((kind) => kind.count);
  for (const { parts } of boards) for (const [kind, count] of parts) missed[kind]! -= count;
  return {
    boards,
    missed,
    cost: costOf(problem, boards) + problem.miss * missed.reduce((sum, each) => sum + each, 0),
  };
}

/** Whether an answer is one: no board overfull, none used too often, no piece twice. Throws with what is wrong. */
export function mustHold(problem: Problem, answer: Answer): void {
  const used = problem.supplies.map(() => 0);
  for (const board of answer.boards) {
    used[board.supply]! += 1;
    const { room } = problem.supplies[board.supply]!;
    if (taken(problem.kinds, board.parts) > room) throw new Error('stock: a board holds more than it can');
  }
  if (used.some((count, s) => count > problem.supplies[s]!.limit)) {
    throw new Error('stock: more boards used than there are');
  }
  if (answer.missed.some((count) => count < 0)) throw new Error('stock: a piece is cut twice');
}

/** Heaviest first, as many as fit. */
export function firstFit(problem: Problem): Filler {
  const { kinds, supplies } = problem;
  return (supply, left) => {
    const { room } = supplies[supply]!;
    const parts: [number, number][] = [];
    let weight = 0;
    let widest = 0;
    for (let i = 0; i < kinds.length; i++) {
      const { weight: own, kerf } = kinds[i]!;
      let count = 0;
      while (count < left[i]! && weight + own - Math.max(widest, kerf) <= room) {
        weight += own;
        widest = Math.max(widest, kerf);
        count++;
      }
      if (count > 0) parts.push([i, count]);
    }
    return parts;
  };
}

/** The most valuable pieces, by a table of worth. */
export function worthFit(problem: Problem, table: WorthTable, work: number): Filler {
  return (supply, left) => bestFilling(table, left, problem.supplies[supply]!.room, 0, work).parts;
}

/**
 * Board after board: of all boards that may be used, the one whose filling costs least for the worth in it. `worth` is
 * what each kind counts for; `only` limits the boards to some of them where those hold the piece.
 */
export function fillAll(
  problem: Problem,
  fill: Filler,
  worth: readonly number[],
  counts: readonly number[],
  stocked: readonly number[],
  only: (supply: number) => boolean = () => true,
): Pattern[] {
  const { kinds, supplies } = problem;
  const left = counts.slice();
  const stock = stocked.slice();
  const boards: Pattern[] = [];
  for (;;) {
    const first = left.findIndex((count) => count > 0);
    if (first < 0) return boards;
    const open = supplies.map((each, s) => stock[s]! > 0 && each.room >= kinds[kinds.length - 1]!.need);
    const wanted = open.map((may, s) => may && only(s));
    const choice = wanted.some((may, s) => may && supplies[s]!.room >= kinds[first]!.need) ? wanted : open;
    let best: Pattern | null = null;
    let price = Number.POSITIVE_INFINITY;
    for (let s = 0; s < supplies.length; s++) {
      if (!choice[s]) continue;
      const parts = fill(s, left);
      const value = parts.reduce((sum, [kind, count]) => sum + worth[kind]! * count, 0);
      if (value <= 0) continue;
      const each = supplies[s]!.cost / value;
      if (each < price) {
        price = each;
        best = { supply: s, parts };
      }
    }
    if (!best) return boards;
    let times = stock[best.supply]!;
    for (const [kind, count] of best.parts) times = Math.min(times, Math.floor(left[kind]! / count));
    for (let t = 0; t < times; t++) boards.push(best);
    stock[best.supply]! -= times;
    for (const [kind, count] of best.parts) left[kind]! -= count * times;
  }
}

/** Takes away what is cut too often, from the fullest boards last, then makes each board from the cheapest that holds it. */
export function tidied(problem: Problem, boards: readonly Pattern[]): Answer {
  const { kinds, supplies } = problem;
  const left = kinds.map((kind) => kind.count);
  const kept: Pattern[] = [];
  for (const board of boards) {
    const parts: [number, number][] = [];
    for (const [kind, count] of board.parts) {
      const take = Math.min(count, left[kind]!);
      if (take > 0) parts.push([kind, take]);
      left[kind]! -= take;
    }
    if (parts.length > 0) kept.push({ supply: board.supply, parts });
  }
  const stock = supplies.map((each) => each.limit);
  for (const board of kept) stock[board.supply]! -= 1;
  const cheapest = kept
    .map((board) => ({ board, need: taken(kinds, board.parts) }))
    .sort((a, b) => b.need - a.need)
    .map(({ board, need }) => {
      let to = board.supply;
      for (let s = 0; s < supplies.length; s++) {
        const better = supplies[s]!;
        if (stock[s]! > 0 && better.room >= need && better.cost < supplies[to]!.cost) to = s;
      }
      stock[board.supply]! += 1;
      stock[to]! -= 1;
      return { supply: to, parts: board.parts };
    });
  return answerOf(problem, cheapest);
}

/** The better of two answers, the first where they cost the same. */
export function better(a: Answer, b: Answer): Answer {
  return b.cost < a.cost ? b : a;
}

/** Every simple way at once: all boards by length, and each board alone where it holds the piece. */
export function firstAnswer(problem: Problem): Answer {
  const { kinds, supplies } = problem;
  const counts = kinds.map((kind) => kind.count);
  const stock = supplies.map((each) => each.limit);
  const worth = kinds.map((kind) => kind.need);
  const fill = firstFit(problem);
  let best = tidied(problem, fillAll(problem, fill, worth, counts, stock));
  for (let s = 0; s < supplies.length; s++) {
    best = better(
      best,
      tidied(
        problem,
        fillAll(problem, fill, worth, counts, stock, (each) => each === s),
      ),
    );
  }
  return best;
}
