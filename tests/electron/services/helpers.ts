// What the tests of safekeeping share: folders, a small plan, edits, disks that fail on demand, timers driven by hand, and
// the child process that is killed. `row` prints a line of the fault table.

import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { chmod, type FileHandle, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { prepare } from '../../../core/edit/index.ts';
import { writePlan } from '../../../core/plan/index.ts';
import type { Plan } from '../../../core/plan/schema.ts';
import { openDesk } from '../../../electron/services/desk.ts';
import type { Desk, DeskOptions } from '../../../electron/services/desk-types.ts';
import type { OpenDocument } from '../../../electron/services/document-types.ts';
import type { Documents, Opened, OpenOutcome } from '../../../electron/services/documents.ts';
import { type Env, realEnv } from '../../../electron/services/env.ts';
import { type FileCalls, REAL_CALLS } from '../../../electron/services/file-calls.ts';
import { TEMPORARY } from '../../../electron/services/temporary.ts';
import { cottage } from '../../fixtures/cottage.ts';

/**
 * A disk of its own, in memory, at the folder it makes; `size` as mount takes it. Null where this account may mount none: that
 * is printed as the row of the fault, with what stands for it.
 */
export function smallDisk(
  folder: string,
  size: string,
  { fault, instead }: { readonly fault: string; readonly instead: string },
): { gone(): void } | null {
  mkdirSync(folder, { recursive: true });
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'tmpfs', folder]);
  if (status === 0) return { gone: () => void spawnSync('umount', [folder], { stdio: 'ignore' }) };
  row(fault, `mounting a small disk was refused here; ${instead} stands for it`);
  return null;
}

/** A line of the fault table. */
export function row(fault: string, figure: string): void {
  console.log(`fault table | ${fault} | ${figure}`);
}

/** A fresh folder; in memory where that can be had, because many tests write thousands of files. */
export async function freshFolder(where: 'memory' | 'disk' = 'memory'): Promise<string> {
  const parent = where === 'memory' && existsSync('/dev/shm') ? '/dev/shm' : tmpdir();
  return mkdtemp(join(parent, 'copewright-safe-'));
}

export const remove = (folder: string): Promise<void> => rm(folder, { recursive: true, force: true });

/** The cottage, mended and numbered, so that its text is what a save writes. */
export function preparedCottage(title = 't0'): Plan {
  const prepared = prepare({ ...cottage(), title });
  if (!prepared.ok) throw new Error(prepared.message);
  return prepared.plan;
}

/** The cottage with so many records of rooms more, some with names that mean something to the language. */
export function roomy(count: number): Plan {
  const ids = ['constructor', 'toString', ...Array.from({ length: count }, (_, i) => `more${i}`)];
  const plan = preparedCottage();
  const [first, ...others] = plan.levels;
  const more = ids.map((id, i) => [id, { name: `Room ${i}`, at: [i * 320, -320_000] }]);
  const rooms = { ...first!.rooms, ...Object.fromEntries(more) };
  return { ...plan, levels: [{ ...first!, rooms }, ...others] };
}

const NUMBERED = writePlan(preparedCottage('TITLE'));
/** The file's text for the cottage under a title. */
export const textOf = (title: string): string =>
  NUMBERED.replace('"title": "TITLE"', `"title": ${JSON.stringify(title)}`);

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const titleEdit = (title: string) => ({
  type: 'patch',
  patches: [{ op: 'replace', path: ['title'], value: title }],
});

/** Edits the title; throws where it is refused. */
export function retitle(document: OpenDocument, title: string): void {
  const answer = document.edit(document.view().revision, titleEdit(title));
  if (!answer.ok) throw new Error(answer.message);
}

export function mustOpen(outcome: OpenOutcome): Opened {
  if (outcome.outcome !== 'opened') throw new Error(`not opened: ${JSON.stringify(outcome)}`);
  return outcome;
}

export async function openAt(documents: Documents, path: string): Promise<OpenDocument> {
  return mustOpen(await documents.open(path)).document;
}

/** Names of our temporary files in a folder and below. */
export async function strays(folder: string): Promise<string[]> {
  const names = await readdir(folder, { recursive: true });
  return names.filter((name) => TEMPORARY.test(name.split('/').at(-1)!));
}

/** Timers that fire only when told, and a clock that says what it is told. */
export interface HandEnv extends Env {
  readonly calls: FileCalls;
  /** What is set, in ms, soonest first. */
  waiting(): number[];
  /** Fires all timers of at most `ms`; those that they set wait for the next time. */
  fire(ms: number): void;
  setClock(now: number): void;
}

export function handEnv(userData: string, calls: FileCalls = REAL_CALLS): HandEnv {
  let now = Date.UTC(2026, 0, 31, 12);
  let timers: { ms: number; action: () => void }[] = [];
  return {
    userData,
    calls,
    leftLocks: new Set(),
    clock: { now: () => now },
    timers: {
      after: (ms, action) => {
        const timer = { ms, action };
        timers.push(timer);
        return () => {
          timers = timers.filter((other) => other !== timer);
        };
      },
    },
    waiting: () => timers.map((timer) => timer.ms).sort((a, b) => a - b),
    fire: (ms) => {
      const due = timers.filter((timer) => timer.ms <= ms);
      timers = timers.filter((timer) => timer.ms > ms);
      for (const { action } of due) action();
    },
    setClock: (to) => {
      now = to;
    },
  };
}

export const wallEnv = (userData: string): Env => realEnv(userData);

/** A disk on which the k-th operation fails, once or from then on. */
export interface FaultyDisk {
  readonly calls: FileCalls;
  /** Counts from here; `k` 0: nothing fails. */
  arm(k: number, forGood: boolean, code: string): void;
  disarm(): void;
  /** Whether the k-th came. */
  struck(): boolean;
  /** Operations since `arm`. */
  count(): number;
}

const HANDLE_CALLS = ['read', 'write', 'writeFile', 'sync', 'stat', 'chmod', 'chown', 'truncate'] as const;

export function faultyDisk(): FaultyDisk {
  let [at, forGood, code, count, hit] = [0, false, 'EIO', 0, false];
  let live = true;
  const step = (): void => {
    if (!live || at === 0) return;
    count += 1;
    if (count === at || (forGood && count > at)) {
      hit = true;
      throw Object.assign(new Error('made to fail'), { code });
    }
  };
  const watched = (handle: FileHandle): FileHandle => {
    for (const name of HANDLE_CALLS) {
      const real = handle[name].bind(handle) as (...args: unknown[]) => Promise<unknown>;
      Object.assign(handle, {
        [name]: async (...args: unknown[]) => {
          step();
          return real(...args);
        },
      });
    }
    return handle;
  };
  const calls = Object.fromEntries(
    Object.entries(REAL_CALLS).map(([name, real]) => [
      name,
      async (...args: unknown[]) => {
        step();
        const result = await (real as (...args: unknown[]) => Promise<unknown>)(...args);
        return name === 'open' ? watched(result as FileHandle) : result;
      },
    ]),
  ) as unknown as FileCalls;
  return {
    calls,
    arm: (k, good, which) => {
      [at, forGood, code, count, hit] = [k, good, which, 0, false];
      live = true;
    },
    disarm: () => {
      live = false;
    },
    struck: () => hit,
    count: () => count,
  };
}

/** Builds the child process of these tests into one file in `folder`, readable by everyone. */
export async function buildChild(folder: string): Promise<string> {
  const outfile = join(folder, 'child.mjs');
  buildSync({
    entryPoints: [join(dirname(fileURLToPath(import.meta.url)), 'child.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'silent',
  });
  await chmod(folder, 0o755);
  return outfile;
}

/** A desk without dialogs that nobody listens to. */
export function quietDesk({
  file = null,
  ...given
}: Pick<DeskOptions, 'env' | 'home'> & { file?: string | null }): Desk {
  const nothing = (): void => undefined;
  return openDesk({
    ...given,
    file,
    version: '',
    chooser: null,
    emit: nothing,
    openLink: nothing,
    quit: nothing,
  });
}
