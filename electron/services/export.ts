// A plan to what leaves the program: solved report, PDF bytes, CSV files. Loads the solver and the fonts once per call;
// knows no paths but the program's own.

import type { Plan } from '../../core/plan/schema.ts';
import { type Cuts, cutsOf, derive, solve } from '../../core/report/index.ts';
import type { Solved } from '../../core/report/types.ts';
import { fontMetrics, type SheetSize, scaleFault, sheetSet, unprinted } from '../../core/sheets/index.ts';
import { writePdf } from '../../core/sheets/pdf/index.ts';
import { loadFonts } from './fonts.ts';
import { loadHighs } from './solver.ts';

/** Everything the plan gives, scribes and boards included. */
export async function solvePlan(plan: Plan): Promise<Solved> {
  return solve(derive(plan), await loadHighs());
}

/** The boards of a plan, the order list, and what the same pieces cost bought otherwise. */
export async function cutPlan(plan: Plan): Promise<{ solved: Solved; cuts: Cuts }> {
  const solver = await loadHighs();
  const solved = solve(derive(plan), solver);
  return { solved, cuts: cutsOf(solved, solver) };
}

export interface PdfOptions {
  readonly sheet: SheetSize;
  /** `2026-01-31`; printed on every sheet and written as the file's date, so the same plan and date give the same bytes. */
  readonly date: string;
  /** Of the floor plans, as it is typed: `1/4`, `1:50`. Absent: each as large as fits its sheet. */
  readonly scale?: string | undefined;
}

/** `note` says in one sentence which characters could not be printed; `message` why there is no PDF. */
export type PdfAnswer =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly note: string | null }
  | { readonly ok: false; readonly message: string };

/** The crew's PDF. */
export async function pdfOf(solved: Solved, options: PdfOptions): Promise<PdfAnswer> {
  const fonts = await loadFonts();
  const measure = fontMetrics(fonts);
  const fault = scaleFault(solved, measure, options);
  if (fault !== null) return { ok: false, message: fault };
  const set = sheetSet(solved, measure, options);
  const bytes = await writePdf(set, fonts, { date: options.date, creator: 'Copewright' });
  return { ok: true, bytes, note: unprinted(set) };
}
