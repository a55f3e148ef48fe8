// What the window and its worker say to each other. The worker derives the plan again, so that only a plan goes over and
// only what a solver decides comes back; one job at a time. Boards come in stages: each answer replaces the one before.

import type { Plan } from '../../core/plan/index.ts';
import {
  type Cuts,
  type Derived,
  rejoining,
  type Solved,
  type SolvedParts,
  solvedOn,
} from '../../core/report/index.ts';
import type { SheetSet, SheetSize } from '../../core/sheets/index.ts';

/**
 * Boards laid quickly by simple rules; the best so far, some mouldings as good as the usual work finds them; all of them;
 * then with what they cost bought otherwise.
 */
export type WorkStage = 'first' | 'better' | 'boards' | 'whole';

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
      /** What was solved of this plan: the sheets show the boards that the window shows. */
      readonly parts: SolvedParts;
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

/** What is left out, money, length bought, then how little is known of what could be saved: each the less the better. */
function faults({ stock }: SolvedParts): readonly number[] {
  const sum = (of: (each: SolvedParts['stock'][number]) => number): number =>
    stock.reduce((all, each) => all + of(each), 0);
  return [
    sum(({ unplaced }) => unplaced.length),
    sum(({ by, cost }) => (by === 'money' ? cost : 0)),
    sum(({ by, cost }) => (by === 'length' ? cost : 0)),
    sum(({ by, bound }) => (by === 'money' ? -bound : 0)),
    sum(({ by, bound }) => (by === 'length' ? -bound : 0)),
  ];
}

/** Whether boards of a plan are as good, and as well known to be, as others of the same plan. */
export function isNoWorse(a: SolvedParts, b: SolvedParts): boolean {
  const [ours, theirs] = [faults(a), faults(b)];
  const at = ours.findIndex((each, i) => each !== theirs[i]);
  return at < 0 || ours[at]! < theirs[at]!;
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
