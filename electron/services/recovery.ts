// After a crash: which journals of ended processes hold work that is in no saved file, from when it is, and the plan that
// one of them gives. Reads only, but for removing journals that hold nothing. The saved file is never touched.
// RULES: SK9, SK11.

import { join } from 'node:path';
import { apply } from '../../core/edit/index.ts';
import { MAX_PLAN_BYTES } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import type { Env } from './env.ts';
import { GENERATION, journalsFolder, type Line } from './journal.ts';
import { encodeLine, type JournalEdit, type ParsedJournal, parseJournal } from './journal-lines.ts';
import { latestTitle } from './latest-title.ts';
import { isHeld, type Lock, lockKey, takeLock } from './locks.ts';
import { readPlanFileIfThere } from './plan-file.ts';
import { hashOf, readWhole } from './read-whole.ts';
import { understandAside } from './understand-aside.ts';

/** A plan and a good many edits; a larger journal is left where it is. */
const MAX_JOURNAL_BYTES = 4 * MAX_PLAN_BYTES;

/** Work that can be had back. */
export interface Offer {
  readonly id: string;
  /** The plan's title. */
  readonly title: string;
  /** Path of the file it belongs to; null for a plan that was never saved. For the services and the main process. */
  readonly path: string | null;
  /** When the last edit was made by the clock of then, ms since 1970; null where that cannot be read any more. */
  readonly at: number | null;
  /** Edits that are in no saved file. */
  readonly edits: number;
  /** What became of the file since: `none` where there was no file. */
  readonly original: 'same' | 'changed' | 'gone' | 'none';
  /** The journal's end could not be read: the last moments may be missing. */
  readonly torn: boolean;
  /** No edit of it can be read. It is kept; it cannot be recovered. */
  readonly unreadable: boolean;
}

export interface Recovered {
  readonly plan: Plan;
  /** The plan that the edits start from. */
  readonly base: Plan;
  readonly baseBytes: Uint8Array;
  /** The edits that were done again, so that they can be undone. */
  readonly edits: readonly JournalEdit[];
  /** Edits at the end that could not be done again; 0 as it should be. */
  readonly failed: number;
  readonly journal: ParsedJournal;
  readonly lines: readonly Line[];
  readonly lastGeneration: number;
  readonly lock: Lock;
}

interface Found {
  readonly parsed: ParsedJournal | null;
  /** Highest number of any generation there is, sound or not. */
  readonly lastGeneration: number;
  /** A newer generation than the one that was read is spoiled. */
  readonly skipped: boolean;
}

/** The newest generation of a journal that is sound. */
async function newest(env: Env, id: string): Promise<Found> {
  const folder = join(journalsFolder(env), id);
  const names = (await env.calls.readdir(folder)).filter((name) => GENERATION.test(name));
  const numbered = names
    .map((name) => ({ name, number: Number(GENERATION.exec(name)![1]) }))
    .sort((a, b) => b.number - a.number);
  const lastGeneration = numbered[0]?.number ?? 0;
  for (const [i, { name }] of numbered.entries()) {
    const path = join(folder, name);
    const file = await readWhole(path, MAX_JOURNAL_BYTES, 'a journal', env.calls).catch(() => null);
    const parsed = file && parseJournal(file.bytes);
    if (parsed) return { parsed, lastGeneration, skipped: i > 0 };
  }
  return { parsed: null, lastGeneration, skipped: numbered.length > 0 };
}

/** Hash of the file that a journal belongs to; null where it is gone, `unread` where it cannot be read. */
async function originalHash(env: Env, parsed: ParsedJournal): Promise<string | null> {
  const { original } = parsed.header;
  if (original === null) return null;
  try {
    return (await readPlanFileIfThere(original.path, env.calls))?.hash ?? null;
  } catch {
    return 'unread';
  }
}

/** Number of the last edit that is in the file as it is now. */
function savedUpTo({ header, savings }: ParsedJournal, now: string | null): number {
  const saving = savings.findLast((each) => each.saving === now);
  return saving?.n ?? header.before;
}

async function offerOf(env: Env, id: string, found: Found): Promise<Offer | null> {
  const { parsed } = found;
  if (parsed === null) {
    if (!found.skipped) return null;
    const none = { title: '', path: null, at: null, edits: 0, original: 'none' } as const;
    return { id, ...none, torn: true, unreadable: true };
  }
  const { header, edits } = parsed;
  const now = await originalHash(env, parsed);
  const known = [header.original?.hash, ...header.ours, ...parsed.savings.map((each) => each.saving)];
  // A generation that starts from neither the opened nor the saved file has edits in its start.
  const startsUnsaved =
    header.before > 0 &&
    header.base.hash !== header.original?.hash &&
    header.base.hash !== now &&
    !parsed.savings.some((each) => each.saving === now);
  const unsaved = edits.filter((edit) => edit.n > savedUpTo(parsed, now)).length;
  const gone = header.original !== null && now === null;
  // Without an edit there is something to be had only where the file itself is gone.
  const nothing = unsaved === 0 && !startsUnsaved && !gone;
  if (nothing && !parsed.strange) return null;
  return {
    id,
    title: latestTitle(
      edits.map(({ edit }) => edit),
      header.title,
    ),
    path: header.original?.path ?? null,
    at: edits.at(-1)?.at ?? header.at,
    edits: unsaved,
    original:
      header.original === null ? 'none' : gone ? 'gone' : known.includes(now ?? '') ? 'same' : 'changed',
    torn: parsed.torn || found.skipped,
    unreadable: nothing,
  };
}

/** Work of ended processes that is in no saved file, latest first. Journals that hold none are removed. [SK11] */
export async function listRecoverable(env: Env): Promise<readonly Offer[]> {
  const offers: Offer[] = [];
  for (const id of await env.calls.readdir(journalsFolder(env)).catch((): string[] => [])) {
    if (!/^[0-9a-f]{16}$/.test(id) || (await isHeld(env, lockKey('journal', id)))) continue;
    try {
      const offer = await offerOf(env, id, await newest(env, id));
      if (offer === null) await discardRecoverable(env, id);
      else offers.push(offer);
    } catch {
      // A journal that cannot be looked at now stays for the next start.
    }
  }
  return offers.sort((a, b) => (b.at ?? 0) - (a.at ?? 0));
}

/**
 * The plan that a journal gives, with the journal's lock taken; null where another process has it or there is nothing to
 * read. Changes nothing on disk, so that a crash now leaves all as it was. Throws where core cannot read the plan that
 * the journal starts from. [SK11]
 */
export async function recoverPlan(env: Env, id: string): Promise<Recovered | null> {
  if (!/^[0-9a-f]{16}$/.test(id)) return null;
  const lock = await takeLock(env, lockKey('journal', id));
  if (lock === null) return null;
  try {
    const { parsed, lastGeneration } = await newest(env, id);
    if (parsed === null) {
      await lock.release();
      return null;
    }
    const { plan: base } = await understandAside('recovered plan', parsed.base);
    const { plan, done } = replay(base, parsed.edits);
    const edits = parsed.edits.slice(0, done);
    return {
      plan,
      base,
      baseBytes: parsed.base,
      edits,
      failed: parsed.edits.length - done,
      journal: parsed,
      lines: edits.map((edit) => ({ n: edit.n, bytes: encodeLine(edit) })),
      lastGeneration,
      lock,
    };
  } catch (error) {
    await lock.release();
    throw error;
  }
}

/** Does edits again, one after another, until one cannot be done. */
function replay(base: Plan, edits: readonly JournalEdit[]): { plan: Plan; done: number } {
  let plan = base;
  for (const [done, { edit }] of edits.entries()) {
    try {
      const next = apply(plan, edit);
      if (!next.ok) return { plan, done };
      plan = next.plan;
    } catch {
      return { plan, done };
    }
  }
  return { plan, done: edits.length };
}

/** Throws a journal away, at the user's word or because it holds nothing. Not one that a living process holds. */
export async function discardRecoverable(env: Env, id: string): Promise<boolean> {
  if (!/^[0-9a-f]{16}$/.test(id)) return false;
  const lock = await takeLock(env, lockKey('journal', id));
  if (lock === null) return false;
  try {
    const folder = join(journalsFolder(env), id);
    for (const name of await env.calls.readdir(folder)) await env.calls.unlink(join(folder, name));
    await env.calls.rmdir(folder);
    return true;
  } finally {
    await lock.release();
  }
}

/** Hashes that the file of a recovered plan may have without having been changed by others. */
export function hashesOfOurs({ header, savings, base }: ParsedJournal): readonly string[] {
  const original = header.original === null ? [] : [header.original.hash];
  return [...new Set([...original, ...header.ours, ...savings.map((each) => each.saving), hashOf(base)])];
}
