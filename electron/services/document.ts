// One open plan: edits in, journal and file kept. It holds the plan as it is and as it was saved; 'unsaved' is whether
// the two differ. Saves go one after another. It is given its file and its lock; who may hold what is documents.ts.
// RULES: SK1, SK2, SK6, SK8, SK11.

import { basename, dirname, join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { apply, type PatchEdit, sameButCounter } from '../../core/edit/index.ts';
import type { CloseAnswer, DocumentView, EditAnswer } from '../contract.ts';
import { planTextAside, understandAside } from './aside.ts';
import {
  type DocumentHooks,
  type DocumentStart,
  EXTENSION,
  type HeldFile,
  type OpenDocument,
  type TakeOutcome,
} from './document-types.ts';
import { readEdit } from './edit-schema.ts';
import type { Env } from './env.ts';
import { endsAsPlan, nameOf } from './file-names.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import { PlanProblem, readPlanFile, readPlanFileIfThere } from './plan-file.ts';
import { type SaveOutcome, type SaveRequest, save } from './save.ts';
import { keepVersion } from './versions.ts';
import { realTarget } from './write-whole.ts';

export function openDocument(env: Env, hooks: DocumentHooks, begin: DocumentStart): OpenDocument {
  const { handle, journal } = begin;
  let { plan, saved, file, autosaveStopped } = begin;
  let revision = 0;
  let gone = false;
  let closed = false;
  let queue: Promise<unknown> = Promise.resolve();
  let cancelAutosave: (() => void) | null = null;

  const unsaved = (): boolean => gone || saved === null || !sameButCounter(plan, saved);
  const nameNow = (): string => (file === null ? 'This plan' : nameOf(file.realPath));
  const view = (): DocumentView => ({
    handle,
    name: file === null ? null : nameOf(file.realPath),
    title: plan.title,
    revision,
    unsaved: unsaved(),
    autosaveStopped,
    journalProblem: journal.problem(),
  });
  const told = (): void => hooks.changed(view());
  journal.onProblem(told);

  function inTurn<T>(action: () => Promise<T>): Promise<T> {
    const done = queue.then(action);
    queue = done.catch(() => undefined);
    return done;
  }

  function scheduleAutosave(): void {
    const seconds = hooks.autosaveSeconds();
    if (seconds === null || file === null || autosaveStopped !== null || cancelAutosave !== null) return;
    if (closed || !unsaved()) return;
    cancelAutosave = env.timers.after(seconds * 1000, () => {
      cancelAutosave = null;
      if (!closed && unsaved()) void inTurn(() => saveHere('auto'));
    });
  }

  function autosaveAnew(): void {
    cancelAutosave?.();
    cancelAutosave = null;
    scheduleAutosave();
  }

  /** The last edit, as it came: sent once more because its answer was lost, it is not done once more. */
  let last: { readonly seen: number; readonly raw: unknown; readonly inverse: PatchEdit } | null = null;

  function edit(seen: number, raw: unknown): EditAnswer {
    if (closed) return failed('closed', 'This plan is no longer open.');
    if (last !== null && last.seen === seen && revision === seen + 1 && isDeepStrictEqual(last.raw, raw))
      return { ok: true, revision, inverse: last.inverse, unsaved: unsaved() };
    if (seen !== revision)
      return failed(
        'out-of-step',
        `The plan was changed in another window (state ${revision}, not ${seen}); it is shown as it is now.`,
      );
    const wanted = readEdit(raw);
    if (wanted === null) return failed('bad-edit', 'This is not an edit.');
    let done: ReturnType<typeof apply>;
    try {
      done = apply(plan, wanted);
    } catch (error) {
      return failed(
        'bad-edit',
        `The edit cannot be done: ${error instanceof Error ? error.message : error}.`,
      );
    }
    if (!done.ok) return failed(done.code, done.message);
    if (done.plan !== plan) {
      plan = done.plan;
      revision += 1;
      last = { seen, raw, inverse: done.inverse };
      journal.add(wanted, done.inverse, plan);
      scheduleAutosave();
      told();
    }
    return { ok: true, revision, inverse: done.inverse, unsaved: unsaved() };
  }

  type Wish = Pick<SaveRequest, 'known' | 'there' | 'theirs'>;

  /**
   * The sequence: snapshot, text, journal, file, verified; then clean only as far as the snapshot goes: edits that come
   * meanwhile are in no file yet.
   */
  async function saveTo(target: HeldFile, wish: Wish, mustKeep: boolean): Promise<SaveOutcome> {
    if (closed) return { outcome: 'refused', message: 'This plan is no longer open.', elsewhere: false };
    const snapshot = plan;
    const upTo = journal.count();
    const text = await planTextAside(snapshot);
    if (!text.ok)
      return {
        outcome: 'refused',
        message: `The plan holds what no file can hold and was not saved (${text.why}).`,
        elsewhere: false,
      };
    const { bytes, hash } = text;
    await journal.saving(upTo, hash);
    const name = nameOf(target.realPath);
    const outcome = await save(
      {
        path: target.realPath,
        name,
        bytes,
        hash,
        ...wish,
        keepPrevious: async (previous) => {
          try {
            await keepVersion(env, target.realPath, previous.bytes, mustKeep);
          } catch (error) {
            // Of our own file the journal and the plan say as much; of another's work nothing else would be left.
            if (mustKeep) throw error;
          }
        },
      },
      env.calls,
    );
    // Even a failed save may have put these bytes there.
    if (outcome.outcome === 'refused') target.known.add(hash);
    if (outcome.outcome !== 'saved') return outcome;
    target.known.clear();
    target.known.add(hash);
    saved = snapshot;
    gone = false;
    autosaveStopped = null;
    const { size, mtimeMs } = outcome.file;
    await journal.saved(upTo, {
      title: snapshot.title,
      bytes,
      original: { path: target.realPath, hash, size, mtimeMs },
      ours: [hash],
      savedNowhere: false,
    });
    await keepVersion(env, target.realPath, bytes).catch(() => undefined);
    return outcome;
  }

  /** Takes hold of a path that is not this document's; a sentence where that cannot be. */
  async function hold(path: string): Promise<HeldFile | string> {
    try {
      return await hooks.hold(path, handle);
    } catch (error) {
      return `${nameOf(path)} ${error instanceof FileProblem ? error.what : 'cannot be used'}.`;
    }
  }

  /** Where this document's file leads by now: it, or a folder above it, may have become a link since it was held. */
  async function heldNow(own: HeldFile): Promise<HeldFile | string> {
    const target = await realTarget(own.realPath, env.calls).catch(() => own.realPath);
    if (target === own.realPath) return own;
    const held = await hold(target);
    return typeof held === 'string' ? held : { ...held, known: own.known };
  }

  /** Saves to a file that is held; where it is another than this document's, the document goes on there or lets go of it. */
  async function saveHeld(held: HeldFile, wish: Wish, mustKeep: boolean): Promise<SaveOutcome> {
    const outcome = await saveTo(held, wish, mustKeep);
    if (held === file) return outcome;
    if (outcome.outcome !== 'saved') await hooks.letGo(held);
    else {
      if (file !== null) await hooks.letGo(file);
      file = held;
    }
    return outcome;
  }

  async function saveHere(by: 'hand' | 'auto', theirs: string | null = null): Promise<SaveOutcome> {
    if (file === null)
      return {
        outcome: 'refused',
        message: 'This plan has no file yet; choose a name for it.',
        elsewhere: true,
      };
    if (by === 'auto' && autosaveStopped !== null)
      return { outcome: 'refused', message: autosaveStopped, elsewhere: true };
    const there = by === 'auto' ? 'must' : 'may';
    const held = await heldNow(file);
    const outcome: SaveOutcome =
      typeof held === 'string'
        ? { outcome: 'refused', message: held, elsewhere: true }
        : await saveHeld(held, { known: held.known, theirs, there }, theirs !== null);
    if (outcome.outcome !== 'saved') autosaveStopped = outcome.message;
    // Edits came while it was saved, and before that nothing was to be saved by itself.
    scheduleAutosave();
    told();
    return outcome;
  }

  /** Saves under a name that is not this document's; on success the document goes on there. */
  async function moveTo(path: string, wish: Wish): Promise<SaveOutcome> {
    const held = await hold(path);
    if (typeof held === 'string') return { outcome: 'refused', message: held, elsewhere: true };
    const outcome = await saveHeld(held, wish, true);
    scheduleAutosave();
    told();
    if (outcome.outcome !== 'conflict') return outcome;
    // 'Keep mine' would be about this document's own file.
    const message = `${nameOf(path)} was changed by another program meanwhile; choose again.`;
    return { outcome: 'refused', message, elsewhere: true };
  }

  async function saveAs(path: string, over: boolean): Promise<SaveOutcome> {
    const target = await realTarget(path, env.calls).catch(() => null);
    // Onto itself it is a save like any other: what others wrote there meanwhile is noticed.
    if (target !== null && target === file?.realPath) return saveHere('hand');
    return moveTo(path, { known: 'any', theirs: null, there: over ? 'may' : 'refuse' });
  }

  async function saveBeside(): Promise<SaveOutcome> {
    if (file === null) return saveHere('hand');
    const own = file.realPath;
    for (let n = 2; n < 1000; n += 1) {
      const stem = endsAsPlan(own) ? basename(own).slice(0, -EXTENSION.length) : basename(own);
      const path = join(dirname(own), `${stem} (${n})${EXTENSION}`);
      const taken = await env.calls.lstat(path).catch(() => null);
      if (taken === null) return moveTo(path, { known: 'any', theirs: null, there: 'refuse' });
    }
    return { outcome: 'refused', message: `${nameNow()} has too many copies beside it.`, elsewhere: true };
  }

  /** Keeps the plan as it is here among the versions of its file; a sentence where that cannot be. */
  async function whyOursIsNotKept(realPath: string): Promise<string | null> {
    const text = await planTextAside(plan);
    if (!text.ok) return `Yours holds what no file can hold and cannot be kept (${text.why}).`;
    try {
      await keepVersion(env, realPath, text.bytes, true);
      return null;
    } catch (error) {
      return `Yours cannot be kept: the program's own folder ${fileProblem(realPath, error, 'write').what}.`;
    }
  }

  async function takeTheirs(): Promise<TakeOutcome> {
    if (file === null || closed) return { outcome: 'refused', message: 'This plan has no file.' };
    const { realPath, known } = file;
    const seen = revision;
    try {
      const theirs = await readPlanFile(realPath, env.calls);
      const { plan: taken } = await understandAside(realPath, theirs.bytes);
      // Ours must be safe before it goes from the journal.
      const why = unsaved() ? await whyOursIsNotKept(realPath) : null;
      if (why !== null) return { outcome: 'refused', message: `${why} Theirs was not taken.` };
      if (revision !== seen)
        return { outcome: 'refused', message: 'The plan was edited meanwhile; choose again.' };
      plan = taken;
      saved = taken;
      gone = false;
      autosaveStopped = null;
      revision += 1;
      known.clear();
      known.add(theirs.hash);
      const { hash, size, mtimeMs, bytes } = theirs;
      const original = { path: realPath, hash, size, mtimeMs };
      await journal.saved(journal.count(), {
        title: plan.title,
        bytes,
        original,
        ours: [],
        savedNowhere: false,
      });
      told();
      return { outcome: 'taken', plan };
    } catch (error) {
      const what = error instanceof FileProblem ? ` ${error.what}.` : '';
      const why = error instanceof PlanProblem ? `: ${error.what}` : what || ' cannot be read.';
      return { outcome: 'refused', message: `${nameOf(realPath)}${why}` };
    }
  }

  async function look(): Promise<'same' | 'changed' | 'gone' | 'unread' | 'none'> {
    if (file === null) return 'none';
    const { realPath, known } = file;
    try {
      const now = await readPlanFileIfThere(realPath, env.calls);
      const was = gone;
      gone = now === null;
      if (gone !== was) told();
      return now === null ? 'gone' : known.has(now.hash) ? 'same' : 'changed';
    } catch {
      return 'unread';
    }
  }

  async function close(lose: boolean): Promise<CloseAnswer> {
    if (closed) return { outcome: 'closed', kept: false };
    const there = await look();
    // Where nobody can say what the file holds, what was done stays in the journal. What another program wrote over a
    // saved plan is no reason: ours lies among the earlier versions.
    const keep = unsaved() || (there === 'unread' && journal.count() > 0);
    if (keep && !(await journal.keepAll()) && !lose)
      return { outcome: 'refused', message: journal.problem() ?? 'The unsaved work cannot be kept.' };
    closed = true;
    cancelAutosave?.();
    await journal.close(keep);
    if (file !== null) await hooks.letGo(file);
    return { outcome: 'closed', kept: keep };
  }

  return {
    view,
    plan: () => plan,
    realPath: () => file?.realPath ?? null,
    edit,
    save: (by) => inTurn(() => saveHere(by)),
    saveAs: (path, over = true) => inTurn(() => saveAs(path, over)),
    saveBeside: () => inTurn(saveBeside),
    keepMine: (theirs) => inTurn(() => saveHere('hand', theirs)),
    takeTheirs: () => inTurn(takeTheirs),
    look: () => inTurn(look),
    autosaveAnew,
    flush: () => journal.flush(),
    close: (lose = false) => inTurn(() => close(lose)),
  };
}

function failed(code: (EditAnswer & { ok: false })['code'], message: string): EditAnswer {
  return { ok: false, code, message };
}
