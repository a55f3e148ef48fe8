// After a crash: which journals of ended processes hold work that is in no saved file, from when it is, and the plan that
// one of them gives. Reads only, but for removing journals that hold nothing. The saved file is never touched.
// RULES: SK9, SK11.

import { join } from 'node:path';
import { MAX_PLAN_BYTES } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import type { DiscardAnswer, RecoveryOffer } from '../contract.ts';
import { replayAside } from './aside.ts';
import type { Env } from './env.ts';
import { codeOf } from './file-calls.ts';
import { GENERATION, journalsFolder } from './journal.ts';
import { type JournalEdit, type Line, type ParsedJournal, parseJournal } from './journal-lines.ts';
import { latestTitle } from './latest-title.ts';
import { isHeld, type Lock, lockKey, takeLock } from './locks.ts';
import { readPlanFileIfThere } from './plan-file.ts';
import { hashOf, readWhole } from './read-whole.ts';
import { writeWhole } from './write-whole.ts';

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
  /** What became of the file since. */
  readonly original: RecoveryOffer['original'];
  /** The journal's end could not be read: the last moments may be missing. */
  readonly torn: boolean;
  /** No edit of it can be read. It is kept; it cannot be recovered. */
  readonly unreadable: boolean;
}

export interface Recovered {
  readonly plan: Plan;
  /** The edits that were done again, so that they can be undone. */
  readonly edits: readonly JournalEdit[];
  /** Edits at the end that could not be done again; 0 as it should be. */
  readonly failed: number;
  /** Not all that the journal holds could be read and done again. */
  readonly incomplete: boolean;
  /** Name of the file in the program's own folder that now has the rest; null where it could not be put there. */
  readonly putAside: string | null;
  readonly journal: ParsedJournal;
  readonly lines: readonly Line[];
  readonly lastGeneration: number;
  /** Null where the program's own folder takes no lock now. */
  readonly lock: Lock | null;
}

interface Found {
  readonly parsed: ParsedJournal | null;
  /** Highest number of any generation there is, sound or not. */
  readonly lastGeneration: number;
  /** Newer generations than the one that was read, which are spoiled; null where one is not even bytes. */
  readonly skipped: readonly (Uint8Array | null)[];
}

/** The newest generation of a journal that is sound. */
async function newest(env: Env, id: string): Promise<Found> {
  const folder = join(journalsFolder(env), id);
  const names = (await env.calls.readdir(folder)).filter((name) => GENERATION.test(name));
  const numbered = names
    .map((name) => ({ name, number: Number(GENERATION.exec(name)![1]) }))
    .sort((a, b) => b.number - a.number);
  const lastGeneration = numbered[0]?.number ?? 0;
  const skipped: (Uint8Array | null)[] = [];
  for (const { name } of numbered) {
    const path = join(folder, name);
    const file = await readWhole(path, MAX_JOURNAL_BYTES, 'a journal', env.calls).catch(() => null);
    const parsed = file && parseJournal(file.bytes);
    if (parsed) return { parsed, lastGeneration, skipped };
    skipped.push(file?.bytes ?? null);
  }
  return { parsed: null, lastGeneration, skipped };
}

/** In place of the hash of a file that cannot be read. */
const UNREAD = 'unread';

/** Hash of the file that a journal belongs to; null where it is gone, `UNREAD` where it cannot be read. */
async function originalHash(env: Env, parsed: ParsedJournal): Promise<string | null> {
  const { original } = parsed.header;
  if (original === null) return null;
  try {
    return (await readPlanFileIfThere(original.path, env.calls))?.hash ?? null;
  } catch {
    return UNREAD;
  }
}

/** Number of the last edit that is in the file as it is now. */
function savedUpTo({ header, savings }: ParsedJournal, now: string | null): number {
  const saving = savings.findLast((each) => each.saving === now);
  return saving?.n ?? header.before;
}

/**
 * What a journal holds where that is one plan that is in no file, and no edit: its hash. Of two such journals one is
 * enough. Null for every other.
 */
function onlyPlanIn({ parsed, skipped }: Found): string | null {
  if (parsed === null || parsed.torn || skipped.length > 0) return null;
  const { header, edits } = parsed;
  return header.original === null && edits.length === 0 ? header.base.hash : null;
}

/** What became of a journal's file, by its hash now. */
function whatBecame({ header, savings }: ParsedJournal, now: string | null): Offer['original'] {
  if (header.original === null) return 'none';
  if (now === null) return 'gone';
  if (now === UNREAD) return 'unread';
  const known = [header.original.hash, ...header.ours, ...savings.map((each) => each.saving)];
  return known.includes(now) ? 'same' : 'changed';
}

async function offerOf(env: Env, id: string, found: Found): Promise<Offer | null> {
  const { parsed } = found;
  if (parsed === null) {
    if (found.skipped.length === 0) return null;
    const none = { title: '', path: null, at: null, edits: 0, original: 'none' } as const;
    return { id, ...none, torn: true, unreadable: true };
  }
  const { header, edits } = parsed;
  const now = await originalHash(env, parsed);
  // A generation that starts from neither the opened nor the saved file has edits in its start.
  const startsUnsaved =
    (header.savedNowhere || header.before > 0) &&
    header.base.hash !== header.original?.hash &&
    header.base.hash !== now &&
    !parsed.savings.some((each) => each.saving === now);
  const inStart = startsUnsaved ? Math.max(0, header.before - header.savedTo) : 0;
  const unsaved = inStart + edits.filter((edit) => edit.n > savedUpTo(parsed, now)).length;
  const original = whatBecame(parsed, now);
  // Without an edit there is something to be had only where the file itself is gone, or may be.
  const nothing = unsaved === 0 && !startsUnsaved && original !== 'gone' && original !== 'unread';
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
    original,
    torn: parsed.torn || found.skipped.length > 0,
    unreadable: nothing,
  };
}

/**
 * Work of ended processes that is in no saved file, latest first. Journals that hold none are removed, and so are those
 * that hold the very plan that a later one holds. [SK11]
 */
export async function listRecoverable(env: Env): Promise<readonly Offer[]> {
  const offers: { readonly offer: Offer; readonly only: string | null }[] = [];
  for (const id of await env.calls.readdir(journalsFolder(env)).catch((): string[] => [])) {
    if (!/^[0-9a-f]{16}$/.test(id) || (await isHeld(env, lockKey('journal', id)))) continue;
    try {
      const found = await newest(env, id);
      const offer = await offerOf(env, id, found);
      if (offer === null) await discardWhere(env, id, async (now) => (await offerOf(env, id, now)) === null);
      else offers.push({ offer, only: onlyPlanIn(found) });
    } catch {
      // A journal that cannot be looked at now stays for the next start.
    }
  }
  offers.sort((a, b) => (b.offer.at ?? 0) - (a.offer.at ?? 0));
  const plans = new Set<string>();
  const told: Offer[] = [];
  for (const { offer, only } of offers) {
    if (only !== null && plans.has(only))
      await discardWhere(env, offer.id, (found) => onlyPlanIn(found) === only).catch(() => null);
    else told.push(offer);
    if (only !== null) plans.add(only);
  }
  return told;
}

/** So many of what could not be recovered are kept however old they are, and all that is younger than this, ms. */
const ASIDE_KEPT = 5;
const ASIDE_KEPT_MS = 31 * 24 * 3600 * 1000;
const ASIDE = /^not-recovered-[0-9a-f]{12}\.journal$/;

/** Removes old files of what could not be recovered, when another has come. A time that lies ahead is no age. */
async function dropOldAside({ calls, clock, userData }: Env): Promise<void> {
  const names = (await calls.readdir(userData)).filter((name) => ASIDE.test(name));
  const dated = await Promise.all(
    names.map(async (name) => {
      const path = join(userData, name);
      return { path, at: (await calls.lstat(path)).mtimeMs };
    }),
  );
  const old = dated.sort((a, b) => b.at - a.at).slice(ASIDE_KEPT);
  for (const { path, at } of old) if (clock.now() - at > ASIDE_KEPT_MS) await calls.unlink(path);
}

/**
 * Keeps what could not be read or done again in a file beside the preferences, for the journal goes with the next save.
 * Gives the file's name; null where there is nothing, or where no disk takes it.
 */
async function putAside(env: Env, parts: readonly (Uint8Array | null)[]): Promise<string | null> {
  const bytes = Buffer.concat(parts.filter((part) => part !== null));
  if (bytes.length === 0) return null;
  const name = `not-recovered-${hashOf(bytes).slice(0, 12)}.journal`;
  try {
    await writeWhole(join(env.userData, name), bytes, { calls: env.calls });
  } catch {
    return null;
  }
  await dropOldAside(env).catch(() => undefined);
  return name;
}

/**
 * The plan that a journal gives, with the journal's lock taken; null where another process has it or there is nothing to
 * read. A folder that can be read but takes no lock gives its plan all the same. Leaves the journal as it is, so that a
 * crash now changes nothing. Throws where core cannot read the plan that the journal starts from. [SK11]
 */
export async function recoverPlan(env: Env, id: string): Promise<Recovered | null> {
  if (!/^[0-9a-f]{16}$/.test(id)) return null;
  // Who holds it was looked at before anything is written.
  const lock = await takeLock(env, lockKey('journal', id)).catch(() => 'unlocked' as const);
  if (lock === null) return null;
  const letGo = async (): Promise<void> => (lock === 'unlocked' ? undefined : lock.release());
  try {
    const { parsed, lastGeneration, skipped } = await newest(env, id);
    if (parsed === null) {
      await letGo();
      return null;
    }
    const all = parsed.edits.map(({ edit }) => edit);
    const { plan, done } = await replayAside('recovered plan', parsed.base, all);
    const failed = all.length - done;
    const rest = failed > 0 || parsed.strange ? [parsed.after(done)] : [];
    const unread = [...rest, ...skipped];
    return {
      plan,
      edits: parsed.edits.slice(0, done),
      failed,
      incomplete: unread.length > 0,
      putAside: await putAside(env, unread),
      journal: parsed,
      lines: parsed.lines.slice(0, done),
      lastGeneration,
      lock: lock === 'unlocked' ? null : lock,
    };
  } catch (error) {
    await letGo();
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

/** What the user saw of an offer when they gave it up. A few edits on a file are all of the plan once the file is gone. */
const SHOWN = ['edits', 'at', 'original', 'torn', 'unreadable'] as const;
export type ShownOffer = Pick<Offer, 'id' | (typeof SHOWN)[number]>;

/** Throws a journal away, at the user's word, where it and its file are as the user was shown. */
export function discardOffered(env: Env, shown: ShownOffer): Promise<DiscardAnswer> {
  return discardWhere(env, shown.id, async (found) => {
    const offer = await offerOf(env, shown.id, found);
    return offer === null || SHOWN.every((what) => offer[what] === shown[what]);
  }).catch((error: unknown) => {
    if (codeOf(error) === undefined) throw error;
    return 'kept';
  });
}

/** Throws a journal away where `may` says so of what it holds now. Not one that a living process holds. */
async function discardWhere(
  env: Env,
  id: string,
  may: (found: Found) => boolean | Promise<boolean>,
): Promise<DiscardAnswer> {
  if (!/^[0-9a-f]{16}$/.test(id)) return 'gone';
  const lock = await takeLock(env, lockKey('journal', id));
  if (lock === null) return 'open';
  try {
    if (!(await may(await newest(env, id)))) return 'changed';
    const folder = join(journalsFolder(env), id);
    for (const name of await env.calls.readdir(folder)) await env.calls.unlink(join(folder, name));
    await env.calls.rmdir(folder);
    return 'discarded';
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return 'gone';
    throw error;
  } finally {
    await lock.release();
  }
}

/** Hashes that the file of a recovered plan may have without having been changed by others. */
export function hashesOfOurs({ header, savings, base }: ParsedJournal): readonly string[] {
  const original = header.original === null ? [] : [header.original.hash];
  return [...new Set([...original, ...header.ours, ...savings.map((each) => each.saving), hashOf(base)])];
}
