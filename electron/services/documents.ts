// All open plans of this program, by opaque handles: opening, new ones, recovered ones, earlier versions; and that each
// file, by its real path, has one holder, here and among other running copies. RULES: SK6, SK7, SK10, SK11, SK14.

import { randomBytes } from 'node:crypto';
import { dirname, join } from 'node:path';
import type { MendNote } from '../../core/edit/index.ts';
import { emptyPlan, writePlan } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import type { CloseAnswer, DiscardAnswer, DocumentView, OpenedPlan } from '../contract.ts';
import { understandAside } from './aside.ts';
import { openDocument } from './document.ts';
import type { DocumentHooks, DocumentStart, HeldFile, OpenDocument } from './document-types.ts';
import type { Env } from './env.ts';
import { nameOf } from './file-names.ts';
import { fileProblem } from './file-problem.ts';
import { openJournal } from './journal.ts';
import { type Lock, lockKey, sweepLocks, takeLock } from './locks.ts';
import { PlanProblem, readPlanFile } from './plan-file.ts';
import type { WholeFile } from './read-whole.ts';
import {
  discardOffered,
  hashesOfOurs,
  listRecoverable,
  type Offer,
  type Recovered,
  recoverPlan,
  type ShownOffer,
} from './recovery.ts';
import { sweep } from './temporary.ts';
import { lastGoodVersion, listVersions, readVersion, type Version } from './versions.ts';
import { realTarget } from './write-whole.ts';

export interface Opened {
  readonly outcome: 'opened';
  readonly document: OpenDocument;
  readonly view: DocumentView;
  readonly plan: Plan;
  readonly notes: readonly MendNote[];
  /** Edits with their inverses, oldest first, that can be undone; only after recovery. */
  readonly history: OpenedPlan['history'];
}

export type OpenOutcome =
  | Opened
  /** It is open here already: show that window. */
  | { readonly outcome: 'shown'; readonly handle: string }
  /** Another running copy holds it; a copy of it can be opened as an untitled plan. */
  | { readonly outcome: 'held'; readonly message: string }
  | {
      readonly outcome: 'refused';
      readonly message: string;
      /** An earlier version that can be opened as an untitled plan; the file itself is left as it is. */
      readonly lastGood: Version | null;
    };

export interface Documents {
  open(path: string): Promise<OpenOutcome>;
  /** The contents of a file as an untitled plan; the file is not held. */
  openCopy(path: string): Promise<OpenOutcome>;
  /** Bytes that came without a file as an untitled plan; `name` for the sentence. `unsaved`: it is saved nowhere. */
  openBytes(name: string, bytes: Uint8Array, unsaved: boolean): Promise<OpenOutcome>;
  create(units: 'imperial' | 'metric'): OpenOutcome;
  offers(): Promise<readonly Offer[]>;
  /** Opens what a crash left, as unsaved. [SK11] */
  recover(id: string): Promise<OpenOutcome>;
  discard(offer: ShownOffer): Promise<DiscardAnswer>;
  versions(handle: string): Promise<readonly Version[]>;
  openVersion(id: string): Promise<OpenOutcome>;
  get(handle: string): OpenDocument | null;
  all(): readonly OpenDocument[];
  /** As the document's own `close`. */
  close(handle: string, lose?: boolean): Promise<CloseAnswer>;
  /** Closes what can be closed without loss, or with `lose` all of them; gives what could not. */
  closeAll(lose?: boolean): Promise<readonly CloseAnswer[]>;
  /** Removes what killed processes left behind in the program's own folder and in those given. */
  sweep(folders: readonly string[]): Promise<number>;
}

export interface DocumentsOptions {
  readonly autosaveSeconds?: () => number | null;
  readonly changed?: (view: DocumentView) => void;
}

function recoveredWords({ failed, incomplete, putAside }: Recovered): string {
  if (!incomplete) return 'This is recovered work; save it by hand when you have looked at it.';
  const which =
    failed === 0 ? 'a part of its journal' : failed === 1 ? 'its last edit' : `its last ${failed} edits`;
  const what = `${which} could not be ${failed === 0 ? 'read' : 'done again'}`;
  const where =
    putAside === null ? 'could not be put aside' : `went to ${putAside} in the program's own folder`;
  return `This is recovered work; ${what} and ${where}. Save it by hand when you have looked at it.`;
}

export function openDocuments(env: Env, options: DocumentsOptions = {}): Documents {
  const byHandle = new Map<string, OpenDocument>();
  /** Real path to handle; set before the file is read, so that two openings at once do not both get it. */
  const holders = new Map<string, string>();
  let queue: Promise<unknown> = Promise.resolve();

  function inTurn<T>(action: () => Promise<T>): Promise<T> {
    const done = queue.then(action);
    queue = done.catch(() => undefined);
    return done;
  }

  /** Holds a real path; null where another running copy has it. Without a disk for locks the file is still opened. */
  async function holdReal(realPath: string, handle: string): Promise<HeldFile | null> {
    holders.set(realPath, handle);
    let lock: Lock | null = null;
    try {
      lock = await takeLock(env, lockKey('file', realPath));
      if (lock === null) {
        holders.delete(realPath);
        return null;
      }
    } catch {
      // No lock can be written; every save still compares the file with what is known.
    }
    return { realPath, lock, known: new Set() };
  }

  async function letGo(file: HeldFile): Promise<void> {
    holders.delete(file.realPath);
    await file.lock?.release();
  }

  const heldMessage = (path: string): string =>
    `${nameOf(path)} is open in another running copy of the program; close it there first.`;

  const hooks: DocumentHooks = {
    autosaveSeconds: options.autosaveSeconds ?? (() => null),
    changed: options.changed ?? (() => undefined),
    letGo,
    hold: async (path, handle) => {
      let realPath: string;
      try {
        realPath = await realTarget(path, env.calls);
      } catch (error) {
        throw fileProblem(path, error, 'write');
      }
      const holder = holders.get(realPath);
      if (holder !== undefined)
        return `${nameOf(path)} is open in another window; choose another name or close it there.`;
      return (await holdReal(realPath, handle)) ?? heldMessage(path);
    },
  };

  function add(
    start: DocumentStart,
    notes: readonly MendNote[] = [],
    history: Opened['history'] = [],
  ): OpenOutcome {
    const document = openDocument(env, hooks, start);
    byHandle.set(start.handle, document);
    return { outcome: 'opened', document, view: document.view(), plan: start.plan, notes, history };
  }

  const newHandle = (): string => randomBytes(16).toString('hex');

  function untitled(
    plan: Plan,
    bytes: Uint8Array,
    saved: Plan | null,
    notes?: readonly MendNote[],
  ): OpenOutcome {
    const { title } = plan;
    const savedNowhere = saved === null;
    const journal = openJournal(env, { title, bytes, original: null, ours: [], savedNowhere });
    const start = { handle: newHandle(), plan, saved, file: null, journal, autosaveStopped: null };
    return add(start, notes);
  }

  async function refusal(path: string, error: unknown, realPath: string | null): Promise<OpenOutcome> {
    const name = nameOf(path);
    if (error instanceof PlanProblem) {
      const spoiled = realPath !== null && !error.newer;
      const lastGood = spoiled ? await lastGoodVersion(env, realPath) : null;
      return { outcome: 'refused', message: `${name}: ${error.what}`, lastGood };
    }
    const { what } = fileProblem(path, error, 'read');
    return { outcome: 'refused', message: `${name} ${what}.`, lastGood: null };
  }

  async function open(path: string): Promise<OpenOutcome> {
    const handle = newHandle();
    let realPath: string | null = null;
    let held: HeldFile | null = null;
    try {
      realPath = await env.calls.realpath(path);
      const holder = holders.get(realPath);
      if (holder !== undefined) return { outcome: 'shown', handle: holder };
      held = await holdReal(realPath, handle);
      if (held === null) return { outcome: 'held', message: heldMessage(path) };
      const file = await readPlanFile(realPath, env.calls);
      const { plan, notes } = await understandAside(path, file.bytes);
      await sweep(dirname(realPath), env.calls, env.clock);
      held.known.add(file.hash);
      const { hash, size, mtimeMs, bytes } = file;
      const original = { path: realPath, hash, size, mtimeMs };
      const { title } = plan;
      const journal = openJournal(env, { title, bytes, original, ours: [], savedNowhere: false });
      return add({ handle, plan, saved: plan, file: held, journal, autosaveStopped: null }, notes);
    } catch (error) {
      if (held !== null) await letGo(held);
      return refusal(path, error, realPath);
    }
  }

  async function openCopy(path: string): Promise<OpenOutcome> {
    let file: WholeFile;
    try {
      file = await readPlanFile(path, env.calls);
      const { plan, notes } = await understandAside(path, file.bytes);
      return untitled(plan, file.bytes, null, notes);
    } catch (error) {
      return refusal(path, error, null);
    }
  }

  async function openBytes(name: string, bytes: Uint8Array, unsaved: boolean): Promise<OpenOutcome> {
    try {
      const { plan, notes } = await understandAside(name, bytes);
      return untitled(plan, bytes, unsaved ? null : plan, notes);
    } catch (error) {
      return refusal(name, error, null);
    }
  }

  async function recover(id: string): Promise<OpenOutcome> {
    const none = (message: string): OpenOutcome => ({ outcome: 'refused', message, lastGood: null });
    let recovered: Recovered | null;
    try {
      recovered = await recoverPlan(env, id);
    } catch {
      return none('The plan that was kept cannot be read; it stays where it is.');
    }
    if (recovered === null) return none('This work is open in another window, or is no longer there.');
    const { plan, journal: parsed, lock, lastGeneration, lines, edits } = recovered;
    const handle = newHandle();
    const { original, title, savedNowhere, before, savedTo } = parsed.header;
    const ours = hashesOfOurs(parsed);
    const free = original !== null && !holders.has(original.path);
    const file = free ? await holdReal(original.path, handle) : null;
    for (const hash of ours) file?.known.add(hash);
    const journal = openJournal(
      env,
      { title, bytes: parsed.base, original: file === null ? null : original, ours, savedNowhere },
      { id, lock, lastGeneration, before, savedTo, lines },
    );
    const autosaveStopped = recoveredWords(recovered);
    const history = edits.map(({ edit, inverse }) => ({ edit, inverse }));
    return add({ handle, plan, saved: null, file, journal, autosaveStopped }, [], history);
  }

  async function openVersion(id: string): Promise<OpenOutcome> {
    const bytes = await readVersion(env, id);
    const gone = 'This version is no longer there, or is damaged.';
    if (bytes === null) return { outcome: 'refused', message: gone, lastGood: null };
    try {
      const { plan, notes } = await understandAside('version', bytes);
      return untitled(plan, bytes, null, notes);
    } catch (error) {
      return refusal('This version', error, null);
    }
  }

  async function close(handle: string, lose = false): Promise<CloseAnswer> {
    const outcome = await byHandle.get(handle)?.close(lose);
    if (outcome?.outcome === 'closed') byHandle.delete(handle);
    return outcome ?? { outcome: 'closed', kept: false };
  }

  return {
    open: (path) => inTurn(() => open(path)),
    // One large file is read at a time.
    openCopy: (path) => inTurn(() => openCopy(path)),
    openBytes: (name, bytes, unsaved) => inTurn(() => openBytes(name, bytes, unsaved)),
    create: (units) => {
      const plan = emptyPlan(units);
      return untitled(plan, new TextEncoder().encode(writePlan(plan)), plan);
    },
    offers: () => listRecoverable(env),
    recover: (id) => inTurn(() => recover(id)),
    discard: (offer) => discardOffered(env, offer),
    versions: async (handle) => {
      const path = byHandle.get(handle)?.realPath() ?? null;
      return path === null ? [] : listVersions(env, path);
    },
    openVersion: (id) => inTurn(() => openVersion(id)),
    get: (handle) => byHandle.get(handle) ?? null,
    all: () => [...byHandle.values()],
    close,
    closeAll: async (lose) => {
      const outcomes: CloseAnswer[] = [];
      for (const handle of [...byHandle.keys()]) outcomes.push(await close(handle, lose));
      return outcomes.filter((each) => each.outcome === 'refused');
    },
    sweep: async (folders) => {
      await sweepLocks(env);
      const own = ['journals', 'versions'].map((name) => join(env.userData, name));
      const inner: string[] = [];
      for (const folder of own) {
        const names = await env.calls.readdir(folder).catch((): string[] => []);
        inner.push(...names.map((name) => join(folder, name)));
      }
      let swept = 0;
      for (const folder of new Set([env.userData, ...inner, ...folders])) {
        swept += await sweep(folder, env.calls, env.clock);
      }
      return swept;
    },
  };
}
