// What the window and its worker say to each other. The worker derives the plan again, so that only a plan goes over and
// only what a solver decides comes back; one job at a time. Boards come in stages: each answer replaces the one before.

import type { Finding, Scribe } from '../../core/fit/index.ts';
import type { Plan } from '../../core/plan/index.ts';
import { type Cuts, type Derived, type Report, rejoined, type Solved } from '../../core/report/index.ts';
import type { SheetSet, SheetSize } from '../../core/sheets/index.ts';
import type { StockPlan } from '../../core/stock/index.ts';
import type { Splits } from '../../core/trim/index.ts';

/** What the solver adds to a derived plan. */
export interface SolvedParts {
  readonly findings: readonly Finding[];
  readonly scribes: readonly Scribe[];
  readonly stock: readonly StockPlan[];
  readonly report: Report;
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
      /** `2026-01-31`. */
      readonly date: string;
    };

export type WorkAnswer =
  | { readonly kind: 'progress'; readonly progress: WorkProgress }
  | {
      readonly kind: 'staged';
      readonly stage: Exclude<WorkStage, 'whole'>;
      readonly parts: SolvedParts;
      readonly cuts: Cuts;
    }
  /** What the boards of the last stage cost bought otherwise. */
  | { readonly kind: 'solved'; readonly cuts: Cuts }
  | { readonly kind: 'sheets'; readonly set: SheetSet }
  | { readonly kind: 'failed'; readonly message: string };

export function partsOf({ findings, scribes, stock, report, splits }: Solved): SolvedParts {
  return { findings, scribes, stock, report, splits };
}

/** What a solver found, on what was derived of the same plan. */
export function solvedFrom(derived: Derived, parts: SolvedParts): Solved {
  return { ...rejoined(derived, parts.splits), ...parts };
}
