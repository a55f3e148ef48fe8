// The calls that hand a plan over as files. The work is done in a thread; what it made is written whole, and never over a
// plan. Only the revision that the window shows is handed over.

import { basename, dirname, join } from 'node:path';
import type { Plan } from '../../core/plan/schema.ts';
import type { ExportAnswer, ExportKind, Sent } from '../contract.ts';
import type { DeskState } from './desk-state.ts';
import type { DeskCalls } from './desk-types.ts';
import type { OpenDocument } from './document-types.ts';
import { nameFault, nameOf, stemOf, withEnding } from './file-names.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import { Cancelled, inThread, type Running, WorkFailed } from './in-thread.ts';
import { mustLeadToNoPlan, mustNotBe } from './same-file.ts';
import type { MadeExport } from './thread-jobs.ts';
import { writeAllInto } from './write-all.ts';
import { writeWhole } from './write-whole.ts';

const ENDING: Readonly<Record<ExportKind, string>> = { pdf: '.pdf', report: '.report.json', csv: '' };
/** Names of the tables, to see before the work whether one is there. */
const TABLES = ['boards.csv', 'casings.csv', 'corners.csv', 'findings.csv', 'cuts.csv', 'order.csv'] as const;

type Wish = Sent<'export'>;

interface Wished {
  readonly document: OpenDocument;
  readonly plan: Plan;
}

const refused = (message: string): ExportAnswer => ({ outcome: 'refused', message });

function isDate(text: string): boolean {
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}

export function exportCalls(state: DeskState) {
  const { options, documents, ids } = state;
  const { calls } = options.env;
  /** What was written here. Nothing else is shown or opened, whatever other ids the window has. */
  const written = new Map<string, { path: string; kind: ExportKind }>();
  /** The export that is asked for, worked out or written. */
  let current: { running: Running<MadeExport> | null; cancelled: boolean } | null = null;

  function cancel(): void {
    if (current === null) return;
    current.cancelled = true;
    current.running?.cancel();
  }

  const isThere = async (path: string): Promise<boolean> =>
    (await calls.lstat(path).catch(() => null)) !== null;

  /** Why this wish cannot be met; else the document, and its plan as it is now: edits may come before it is worked out. */
  function wished({ handle, revision, date }: Wish): Wished | string {
    const document = documents.get(handle);
    if (document === null) return 'This plan is no longer open.';
    if (document.view().revision !== revision)
      return 'The plan has changed since; look at it again and hand it over once more.';
    if (!isDate(date)) return `${date} is not a day; write a date as year-month-day, such as 2026-01-31.`;
    return { document, plan: document.plan() };
  }

  /** Throws `FileProblem` where writing to `path` would replace a plan: one that is open, or a file with a plan's name. */
  async function mustBeNoPlan(path: string): Promise<void> {
    for (const plan of documents.all()) {
      const own = plan.realPath();
      if (own !== null) await mustNotBe(own, path);
    }
    await mustLeadToNoPlan(path, calls);
  }

  /** Works it out and writes it: one file at `path`, or for tables a folder there. */
  async function handOver(plan: Plan, wish: Wish, path: string): Promise<ExportAnswer> {
    const { kind, sheet, date, scale } = wish;
    const single = kind !== 'csv';
    try {
      if (single) await mustBeNoPlan(path);
      if (current!.cancelled) return { outcome: 'cancelled' };
      const running = inThread(
        { kind: 'export', what: kind, sheet, date, scale },
        { plan, tell: (words, done, all) => options.emit('progress', { words, done, all }) },
      );
      current!.running = running;
      const { answer: made } = await running.done;
      if (!made.ok) return refused(made.message);
      options.emit('progress', { words: 'Writing', done: 2, all: 3 });
      if (single) {
        await mustBeNoPlan(path);
        await writeWhole(path, made.files[0]!.bytes, { calls });
      } else await writeAllInto(path, made.files, { calls, look: mustBeNoPlan });
      options.emit('progress', { words: 'Done', done: 3, all: 3 });
      const id = ids.give(path);
      written.set(id, { path, kind });
      return {
        outcome: 'written',
        id,
        names: single ? [basename(path)] : made.files.map(({ name }) => name),
        note: made.note,
      };
    } catch (error) {
      if (error instanceof Cancelled) return { outcome: 'cancelled' };
      if (error instanceof WorkFailed)
        return refused(`This could not be made from the plan (${error.message}); the plan is as it was.`);
      const problem = error instanceof FileProblem ? error : fileProblem(path, error, 'write');
      return refused(`${nameOf(problem.path)} ${problem.what}.`);
    }
  }

  /** One at a time. */
  async function alone(action: () => Promise<ExportAnswer>): Promise<ExportAnswer> {
    if (current !== null) return refused('Another export is under way; wait for it or cancel it.');
    current = { running: null, cancelled: false };
    try {
      return await action();
    } finally {
      current = null;
    }
  }

  async function bySystem(wish: Wish): Promise<ExportAnswer> {
    const { chooser } = options;
    const first = wished(wish);
    if (typeof first === 'string') return refused(first);
    if (chooser === null) return { outcome: 'choose' };
    const { document } = first;
    const { name, title } = document.view();
    const stem = stemOf(name, title);
    const own = document.realPath();
    const folder = own === null ? state.lastFolder() : dirname(own);
    const chosen = await chooser.exportTo(wish.kind, `${stem}${ENDING[wish.kind]}`, folder);
    if (chosen === null) return { outcome: 'cancelled' };
    // While the dialog was open the plan may have gone on.
    const now = wished(wish);
    if (typeof now === 'string') return refused(now);
    if (wish.kind === 'csv') return handOver(now.plan, wish, await newFolder(chosen, `${stem} tables`));
    const path = withEnding(chosen, ENDING[wish.kind]);
    if (path !== chosen && (await isThere(path)))
      return refused(`${nameOf(path)} is there already; choose another name.`);
    return handOver(now.plan, wish, path);
  }

  async function newFolder(inside: string, name: string): Promise<string> {
    for (let n = 1; ; n += 1) {
      const path = join(inside, n === 1 ? name : `${name} (${n})`);
      if (!(await isThere(path))) return path;
    }
  }

  async function byPlace({ place, name, over, ...wish }: Sent<'exportPlace'>): Promise<ExportAnswer> {
    const now = wished(wish);
    if (typeof now === 'string') return refused(now);
    const inside = ids.thingOf(place);
    if (inside === null) return refused('This folder is no longer offered; choose it again.');
    const file = withEnding(name.trim(), ENDING[wish.kind]);
    const fault = nameFault(file);
    if (fault !== null) return refused(fault);
    const path = join(inside, file);
    const single = wish.kind !== 'csv';
    for (const each of single ? [path] : TABLES.map((table) => join(path, table))) {
      if (!over && (await isThere(each)))
        return { outcome: 'exists', message: `${nameOf(each)} is there already.` };
    }
    return handOver(now.plan, wish, path);
  }

  const exporting = {
    export: (wish) => alone(() => bySystem(wish)),
    exportPlace: (wish) => alone(() => byPlace(wish)),
    cancelExport: async () => {
      cancel();
      return null;
    },
    showExport: async ({ id }) => {
      const made = written.get(id);
      if (made !== undefined) options.chooser?.showInFolder(made.path);
      return null;
    },
    openExport: async ({ id }) => {
      const made = written.get(id);
      if (made?.kind !== 'pdf' || options.chooser === null) return 'This file is not one to be opened here.';
      if (!made.path.toLowerCase().endsWith('.pdf')) return 'Only a file that ends in .pdf is opened.';
      if (await options.chooser.openInViewer(made.path)) return null;
      return `${nameOf(made.path)} could not be opened; the system may have no program for PDF files.`;
    },
  } satisfies Partial<DeskCalls>;
  return { calls: exporting, stop: cancel };
}
