// Many quick whole answers: each piece's worth is shaken a little and boards are filled by worth again. What shaking finds
// in a moment would take the solver seconds. The shaking is a fixed sequence of numbers: the same problem, the same tries.

import { PatternPool } from './bound.ts';
import { type Answer, better, fillAll, tidied, worthFit } from './fill.ts';
import { worthTable } from './knapsack.ts';
import type { Pattern, Problem } from './problem.ts';

/** How far worths are shaken, in turn: parts of themselves. */
const SHAKES = [0.01, 0.03, 0.1, 0.3] as const;
/** A linear congruential sequence, modulus 2^31. Source: Numerical Recipes' constants, from memory. */
const FACTOR = 1_664_525;
const STEP = 1_013_904_223;
const MODULUS = 2 ** 31;

/** Numbers from 0 up to 1, the same on every run. */
function sequence(): () => number {
  let state = 20;
  return () => {
    // Two halves, so that no product passes 2^53.
    const high = Math.floor(state / 65536);
    const low = state % 65536;
    state = (((((high * FACTOR) % 32768) * 65536 + low * FACTOR) % MODULUS) + STEP) % MODULUS;
    return state / MODULUS;
  };
}

/** The best answer, and every board that one of the tries used. */
export interface Tried {
  readonly best: Answer;
  readonly boards: readonly Pattern[];
}

/** The best of `count` tries around `worths`, and of `start`. Stops at an answer that costs no more than `goal`. */
export function triedAnswer(
  problem: Problem,
  worths: readonly number[],
  start: Answer,
  limits: { readonly count: number; readonly goal: number; readonly search: number },
): Tried {
  const { kinds, supplies } = problem;
  const counts = kinds.map((kind) => kind.count);
  const stock = supplies.map((each) => each.limit);
  const room = Math.max(...supplies.map((each) => each.room));
  const next = sequence();
  const seen = new PatternPool();
  let best = start;
  for (let i = 0; i < limits.count && best.cost > limits.goal; i++) {
    const shake = SHAKES[i % SHAKES.length]!;
    const shaken = worths.map((worth) => Math.floor(worth * (1 + shake * (next() - 0.5))));
    const fill = worthFit(problem, worthTable(kinds, shaken, room), limits.search);
    const answer = tidied(problem, fillAll(problem, fill, shaken, counts, stock));
    for (const { supply, parts } of answer.boards) seen.add(supply, parts);
    best = better(best, answer);
  }
  return { best, boards: seen.list };
}
