// What panels and sheet ask of the state. Derived only; nothing is kept.

import type { Level } from '../../core/plan/index.ts';
import type { Derived, DerivedLevel, Solved } from '../../core/report/index.ts';
import type { AppState } from './app-state.ts';

/** The solved report where it belongs to the plan shown; else what is derived, without boards and scribes. */
export function shownOf(state: AppState): Derived | Solved | null {
  return solvedOf(state) ?? state.open?.derived ?? null;
}

/** What is solved of the plan shown, first results too (`stage`); null while there is nothing yet. */
export function solvedOf({ open, solution }: AppState): Solved | null {
  if (open === null || solution.state === 'none' || solution.last === null) return null;
  return solution.last.plan === open.plan ? solution.last.solved : null;
}

/** Whether the boards of the plan shown are all laid out: where their joints are stays so. */
export function hasAllBoards({ open, solution }: Pick<AppState, 'open' | 'solution'>): boolean {
  const last = solution.state === 'none' ? null : solution.last;
  return last !== null && last.plan === open?.plan && (last.stage === 'boards' || last.stage === 'whole');
}

/** Whether joints of long walls may still move, and with them the lengths of the boards joined there. */
export function isPlacingJoints(state: Pick<AppState, 'open' | 'solution'>): boolean {
  return state.solution.state === 'pending' && !hasAllBoards(state);
}

export function levelOf({ open, level }: AppState): Level | null {
  return open?.plan.levels.find(({ id }) => id === level) ?? null;
}

export function derivedLevelOf(state: AppState): DerivedLevel | null {
  return shownOf(state)?.levels.find(({ walk }) => walk.levelId === state.level) ?? null;
}
