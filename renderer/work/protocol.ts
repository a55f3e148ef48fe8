// What the window and its worker say to each other. The worker derives the plan again, so that only a plan goes over and
// only what a solver decides comes back; one job at a time. Boards come in stages: each answer replaces the one before.

import type { Plan } from '../../core/plan/index.ts';
import {
  type Cuts,
  type Derived,
  rejoining,
  type Solved,
  type SolverFound,
  solvedOn,
} from '../../core/report/index.ts';
import type { SheetSet, SheetSize } from '../../core/sheets/index.ts';
import type { Splits } from '../../core/trim/index.ts';

/** What the solver adds to a derived plan. */
export interface SolvedParts extends SolverFound {
  readonly splits: Splits;
}

/** Boards laid quickly by simple rules, then as good as the usual work finds them, then with what they cost bought otherwise. */
export type WorkStage = 'first' | 'boards' | 'whole';

export interface WorkProgress {
  readonly words: string;
  readonly cost: number;
  readonly bound: number | null;
}

export type WorkRequest =
  | { readonly kind: 'solve'; readonly plan: Plan }
  | {
      readonly kind: 'sheets';
      readonly plan: Plan;
      /** What was solved of this plan; null: it is solved for the sheets. */
      readonly parts: SolvedParts | null;
      readonly sheet: SheetSize;
      /** Of the floor plans; absent: each as large as fits. */
      readonly scale?: string | undefined;
      /** `2026-01-31`. */
      readonly date: string;
    };

export type WorkAnswer =
  | { readonly kind: 'progress'; readonly progress: WorkProgress }
  | {
      readonly kind: 'staged';
      readonly stage: Exclude<WorkStage, 'whole'>;
      readonly parts: SolvedParts;
    }
  /** What the boards of the last stage cost bought otherwise. */
  | { readonly kind: 'solved'; readonly alternatives: Cuts['alternatives'] }
  /** `note`: which characters could not be printed. */
  | { readonly kind: 'sheets'; readonly set: SheetSet; readonly note: string | null }
  | { readonly kind: 'failed'; readonly message: string };

export function partsOf({ scribes, stock, solverFindings, splits }: Solved): SolvedParts {
  return { scribes, stock, solverFindings, splits };
}

/**
 * What a solver found, on what was derived of the same plan, in steps of a few milliseconds. `earlier`: what was solved before,
 * of this plan or of another; it lends what is still so.
 */
export function* solvedInSteps(
  derived: Derived,
  { splits, ...found }: SolvedParts,
  earlier?: Solved,
): Generator<void, Solved> {
  const ready = yield* rejoining(derived, splits, earlier);
  yield;
  return solvedOn(ready, found, derived);
}
