// The journal of one open plan: every edit goes to a file in the program's own folder within a second, so that a crash
// loses no more. A journal is a folder of generations `000001.journal`, …; each is written whole with the plan it starts
// from, then grows by lines at a known place. A generation goes only when a save is verified. RULES: SK8, SK9.

import { randomBytes } from 'node:crypto';
import type { FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import type { Edit, PatchEdit } from '../../core/edit/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { planTextAside } from './aside.ts';
import type { Env } from './env.ts';
import { codeOf } from './file-calls.ts';
import { fileProblem } from './file-problem.ts';
import { encodeLine, encodeStart, type JournalHeader, type JournalLine, type Line } from './journal-lines.ts';
import { type Lock, lockKey, takeLock } from './locks.ts';
import { oneTimer } from './one-timer.ts';
import { syncFolder, writeWhole } from './write-whole.ts';

/** From an edit to its write; the rest of the second is for the disk. */
export const FLUSH_MS = 200;
/** From a failed write to the next try. */
const RETRY_MS = 1000;
/** From opening to writing the plan that edits will start from, so that a first edit need not wait for it. */
const BEGIN_MS = 500;
/** A generation that has grown past these is followed by a new one, so that recovery stays quick. */
const LINES_A_GENERATION = 2000;
const BYTES_A_GENERATION = 16 * 1024 * 1024;

export const GENERATION = /^(\d{6,9})\.journal$/;
export const journalsFolder = (env: Env): string => join(env.userData, 'journals');

/** What a generation starts from: the plan as bytes, and the file it belongs to. */
export interface JournalStart extends Pick<JournalHeader, 'title' | 'original' | 'savedNowhere'> {
  readonly bytes: Uint8Array;
  readonly ours: readonly string[];
}

/** A journal that was found after a crash, to be carried on. */
export interface Adopted {
  readonly id: string;
  /** Null where it could not be taken yet. */
  readonly lock: Lock | null;
  readonly lastGeneration: number;
  /** Number of edits before the first of `lines`. */
  readonly before: number;
  /** So many of those are in the saved file. */
  readonly savedTo: number;
  readonly lines: readonly Line[];
}

export interface Journal {
  readonly id: string;
  /** One sentence while edits cannot be kept; null while they are. */
  problem(): string | null;
  /** Calls `told` whenever that changes: it comes up on writing, after the edit was answered. */
  onProblem(told: () => void): void;
  /** Number of the last edit. */
  count(): number;
  /** Takes an edit; on disk within a second. `after` is the plan that it gave. */
  add(edit: Edit, inverse: PatchEdit, after: Plan): void;
  /** Writes what waits; true when nothing waits any more. Never throws. */
  flush(): Promise<boolean>;
  /** Notes that a save of the plan after edit `n` begins, so that after a crash our own bytes are known as ours. */
  saving(n: number, hash: string): Promise<void>;
  /** A save of the plan after edit `n` is verified: what was before goes, later edits stay. [SK9] */
  saved(n: number, start: JournalStart): Promise<void>;
  /** Ends. With `keep` everything stays for recovery, so see that `keepAll` holds first; without it, the journal goes. */
  close(keep: boolean): Promise<void>;
  /** Puts everything on disk, the plan that the edits start from too; true when it is there. Never throws. */
  keepAll(): Promise<boolean>;
}

/** A journal for an open plan. Touches the disk only when something is to be kept. [SK8] */
export function openJournal(env: Env, begin: JournalStart, adopted: Adopted | null = null): Journal {
  const { calls, clock } = env;
  const id = adopted?.id ?? randomBytes(8).toString('hex');
  const folder = join(journalsFolder(env), id);
  let start = begin;
  let lock: Lock | null = adopted?.lock ?? null;
  let generation = adopted?.lastGeneration ?? 0;
  /** Generations up to this one are no longer needed once the present state is safe. */
  let obsolete = 0;
  let handle: FileHandle | null = null;
  /** Where the next line goes; beyond it there may be the rest of a write that failed. */
  let end = 0;
  let before = adopted?.before ?? 0;
  let savedTo = adopted?.savedTo ?? 0;
  /** All lines since the plan the generation starts from; those from `written` on are not yet safe in the file. */
  let lines: Line[] = [...(adopted?.lines ?? [])];
  let written = lines.length;
  let n = lines.at(-1)?.n ?? before;
  let latest: Plan | null = null;
  /** The text that a new generation is to start from is being made. */
  let growing = false;
  /** Saves so far. */
  let saves = 0;
  /** Whether a generation is there that holds the plan the edits start from. */
  let begun = adopted !== null;
  let problem: string | null = null;
  let told: () => void = () => undefined;
  let failures = 0;
  let closed = false;
  let queue: Promise<unknown> = Promise.resolve();
  const timer = oneTimer(env);

  function inTurn<T>(action: () => Promise<T>): Promise<T> {
    const done = queue.then(action);
    queue = done.catch(() => undefined);
    return done;
  }

  async function letGo(): Promise<void> {
    const open = handle;
    handle = null;
    await open?.close().catch(() => undefined);
  }

  /** The file of a new generation, whole and open. Where that fails an open one before it is carried on. */
  async function opened(path: string, whole: Uint8Array): Promise<FileHandle> {
    try {
      await writeWhole(path, whole, { calls });
      return await calls.open(path, 'r+');
    } catch (error) {
      // It may stand all the same, and would be read in place of the one that is carried on.
      if (handle !== null)
        await calls.unlink(path).catch(async (why: unknown) => {
          if (codeOf(why) !== 'ENOENT') await letGo();
        });
      throw error;
    }
  }

  /** Writes a new generation with all lines since its plan; only then are earlier ones let go. */
  async function nextGeneration(): Promise<void> {
    // Before there is a folder: an empty one that nobody holds is taken for the rest of a journal, and removed.
    lock ??= await takeLock(env, lockKey('journal', id));
    if (lock === null) throw new Error(`journal ${id} is held by another process`);
    await calls.mkdir(folder);
    if (generation === 0) await syncFolder(journalsFolder(env), calls);
    const { bytes, ours, ...rest } = start;
    const first = encodeStart(
      {
        journal: 'copewright-journal',
        version: 1,
        ...rest,
        ours: [...ours],
        at: clock.now(),
        before,
        savedTo,
      },
      bytes,
    );
    const count = lines.length;
    const whole = Buffer.concat([first, ...lines.map((line) => line.bytes)]);
    const path = join(folder, `${String(generation + 1).padStart(6, '0')}.journal`);
    const next = await opened(path, whole);
    await letGo();
    handle = next;
    generation += 1;
    begun = true;
    end = whole.byteLength;
    written = count;
    await dropObsolete();
  }

  async function dropObsolete(): Promise<void> {
    if (obsolete === 0) return;
    for (const name of await calls.readdir(folder).catch((): string[] => [])) {
      const which = Number(GENERATION.exec(name)?.[1] ?? Number.POSITIVE_INFINITY);
      if (which <= obsolete) await calls.unlink(join(folder, name)).catch(() => undefined);
    }
    obsolete = 0;
  }

  /** Puts the waiting lines at the end of the file. What an earlier, failed try left there is written over. */
  async function append(open: FileHandle): Promise<void> {
    const count = lines.length - written;
    const bytes = Buffer.concat(lines.slice(written).map((line) => line.bytes));
    let done = 0;
    while (done < bytes.length) {
      const { bytesWritten } = await open.write(bytes, done, bytes.length - done, end + done);
      if (bytesWritten === 0) throw Object.assign(new Error('nothing written'), { code: 'ENOSPC' });
      done += bytesWritten;
    }
    await open.sync();
    end += bytes.length;
    written += count;
  }

  function setProblem(now: string | null): void {
    if (now === problem) return;
    problem = now;
    if (!closed) told();
  }

  async function flushNow(beginning: boolean): Promise<boolean> {
    if (closed) return true;
    try {
      // A file that was removed under our hands takes writes without a word and keeps none of them.
      if (handle !== null && (await handle.stat()).nlink === 0) {
        await letGo();
        written = 0;
      }
      if (handle !== null && written < lines.length) await append(handle);
      else if (handle === null && (beginning || written < lines.length)) await nextGeneration();
      setProblem(null);
      failures = 0;
    } catch (error) {
      failures += 1;
      // A second failure at the same place: try a new file next time.
      if (failures > 1) await letGo();
      const { what } = fileProblem(folder, error, 'write');
      setProblem(`Edits cannot be kept safe at present: the program's own folder ${what}.`);
      timer.set(RETRY_MS, () => flushNow(beginning));
      return false;
    }
    growOver();
    if (written < lines.length) timer.set(FLUSH_MS, () => flushNow(false));
    return written === lines.length;
  }

  /** As `flushNow`, and then what came meanwhile. */
  async function flushAll(beginning: boolean): Promise<boolean> {
    while (!(await flushNow(beginning))) if (problem !== null) return false;
    return true;
  }

  /** Begins to make a generation that starts from the plan as it is now; edits go on being written meanwhile. */
  function growOver(): void {
    const size = lines.reduce((sum, line) => sum + line.bytes.length, 0);
    if (growing || latest === null) return;
    if (lines.length < LINES_A_GENERATION && size < BYTES_A_GENERATION) return;
    growing = true;
    const [from, upTo, { title }] = [saves, n, latest];
    planTextAside(latest)
      .then((text) =>
        inTurn(async () => {
          if (text.ok && from === saves && !closed) await beginAfter(upTo, title, text.bytes);
        }),
      )
      .catch(() => undefined)
      .finally(() => {
        growing = false;
      });
  }

  /** A new generation from the plan after edit `upTo`. The old ones stay until a save is verified. */
  async function beginAfter(upTo: number, title: string, bytes: Uint8Array): Promise<void> {
    const old = { start, before, lines, written };
    start = { ...start, title, bytes };
    [before, lines, written] = [upTo, lines.filter((line) => line.n > upTo), 0];
    const later = lines.length;
    try {
      await nextGeneration();
    } catch {
      // The old generation is sound and is carried on; edits that came meanwhile go behind its own.
      const since = lines.slice(later);
      ({ before, written } = old);
      start = { ...old.start, ours: start.ours };
      lines = [...old.lines, ...since];
    }
  }

  function put(content: JournalLine): void {
    lines.push({ n: content.n, bytes: encodeLine(content) });
  }

  timer.run = (action) => {
    void inTurn(action);
  };
  if (adopted === null) timer.set(BEGIN_MS, () => flushNow(true));

  return {
    id,
    problem: () => problem,
    onProblem: (tell) => {
      told = tell;
    },
    count: () => n,
    add: (edit, inverse, after) => {
      n += 1;
      latest = after;
      put({ n, at: clock.now(), edit, inverse });
      timer.set(problem === null ? FLUSH_MS : RETRY_MS, () => flushNow(false));
    },
    flush: () => inTurn(() => flushAll(false)),
    saving: async (upTo, hash) => {
      start = { ...start, ours: [...start.ours, hash].slice(-100) };
      // Where nothing is kept there is nothing to tell apart after a crash.
      if (handle === null && lines.length === 0) return;
      put({ n: upTo, saving: hash });
      await inTurn(() => flushNow(false));
    },
    saved: (upTo, next) =>
      inTurn(async () => {
        saves += 1;
        savedTo = upTo;
        obsolete = generation;
        lines = lines.filter((line) => line.n > upTo);
        written = 0;
        // A generation that began later than the saved plan holds edits that are in no line: it keeps its own start.
        const { original, ours, savedNowhere } = next;
        start = before > upTo ? { ...start, original, ours, savedNowhere } : next;
        const ahead = before > upTo;
        before = Math.max(before, upTo);
        await letGo();
        if (ahead || lines.length > 0) await flushNow(true);
        else {
          begun = false;
          timer.drop();
          timer.set(BEGIN_MS, () => flushNow(true));
          await dropObsolete();
        }
      }),
    keepAll: () => inTurn(() => flushAll(!begun)),
    close: (keep) =>
      inTurn(async () => {
        if (keep && written < lines.length) await flushNow(false);
        closed = true;
        timer.stop();
        await letGo();
        if (!keep) {
          obsolete = generation;
          await dropObsolete();
          await calls.rmdir(folder).catch(() => undefined);
        }
        await lock?.release();
        lock = null;
      }),
  };
}
