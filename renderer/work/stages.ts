// Boards and scribes in stages, as the worker answers them: something at once, then the best there is each time it got better,
// what the usual work finds, and what it would cost bought otherwise. Whoever ends the worker has the last answer. Knows no
// worker: whoever asks says where answers go.

import type { Solver } from '../../core/fit/types.ts';
import { lookup, type Plan } from '../../core/plan/index.ts';
import { cutsOf, derive, solve } from '../../core/report/index.ts';
import type { StockProgress } from '../../core/stock/index.ts';
import { isNoWorse, partsOf, type WorkAnswer } from './protocol.ts';

const STEPS: Readonly<Record<StockProgress['step'], string>> = {
  start: 'first boards',
  bound: 'least possible',
  improve: 'better boards',
  prove: 'proof',
  settle: 'order of cutting',
  join: 'where boards are joined',
};

/** Tells each step of the work on boards as progress. */
function teller(plan: Plan, answer: (message: WorkAnswer) => void): (progress: StockProgress) => 'go' {
  return ({ profileId, step, cost, bound }) => {
    const name = lookup(plan.profiles, profileId)?.name ?? profileId;
    answer({ kind: 'progress', progress: { words: `${name}: ${STEPS[step]}`, cost, bound } });
    return 'go';
  };
}

/** Answers the stages on the way; what it gives is the last answer. */
export function solveInStages(
  plan: Plan,
  engine: Solver,
  answer: (message: WorkAnswer) => void,
): Extract<WorkAnswer, { kind: 'solved' }> {
  const derived = derive(plan);
  let best = partsOf(solve(derived, engine, { work: 0 }));
  answer({ kind: 'staged', stage: 'first', parts: best });
  const solved = solve(derived, engine, { tell: teller(plan, answer) }, (parts) => {
    if (!isNoWorse(parts, best)) return;
    best = parts;
    answer({ kind: 'staged', stage: 'better', parts });
  });
  answer({ kind: 'staged', stage: 'boards', parts: partsOf(solved) });
  return { kind: 'solved', alternatives: cutsOf(solved, engine).alternatives };
}
