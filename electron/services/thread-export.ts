// What a plan is handed over as: the bytes of each file. Runs in a thread; reads the program's fonts and solver only.

import { lookup, type Plan } from '../../core/plan/index.ts';
import { derive, reportToJson, type Solved, solve } from '../../core/report/index.ts';
import { csvFiles } from '../../core/sheets/index.ts';
import { pdfOf } from './export.ts';
import { loadHighs } from './solver.ts';
import type { MadeExport, ThreadJob } from './thread-jobs.ts';

type Tell = (words: string, done: number, all: number) => void;

/** Working out, drawing, writing; the last is done by who asked. */
const ALL = 3;

async function solved(plan: Plan, tell: Tell): Promise<Solved> {
  tell('Working out joints and lengths', 0, ALL);
  const engine = await loadHighs();
  return solve(derive(plan), engine, {
    tell: ({ profileId }) => {
      tell(`Laying ${lookup(plan.profiles, profileId)?.name ?? profileId} into boards`, 0, ALL);
      return 'go';
    },
  });
}

/** The files, in memory. The same plan, sheet and date give the same bytes as the command line. [SK18] */
export async function made(
  { what, sheet, date, scale }: Extract<ThreadJob, { kind: 'export' }>,
  plan: Plan,
  tell: Tell,
): Promise<MadeExport> {
  const done = await solved(plan, tell);
  tell(what === 'pdf' ? 'Drawing the sheets' : 'Filling in the tables', 1, ALL);
  const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
  if (what === 'pdf') {
    const pdf = await pdfOf(done, { sheet, date, scale });
    return pdf.ok ? { ok: true, files: [{ name: '', bytes: pdf.bytes }], note: pdf.note } : pdf;
  }
  const texts = what === 'report' ? { '': reportToJson(done.report) } : csvFiles(done.report);
  const files = Object.entries(texts).map(([name, text]) => ({ name, bytes: encode(text) }));
  return { ok: true, files, note: null };
}
