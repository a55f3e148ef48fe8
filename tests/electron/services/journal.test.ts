// The journal and what can be had back from it: within a second, torn, spoiled, on a disk that fails, with the clock set
// back, grown, and through a save in between.

import {
  appendFile,
  mkdir,
  open,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  truncate,
  utimes,
  writeFile,
} from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { DocumentView } from '../../../electron/contract.ts';
import type { OpenDocument } from '../../../electron/services/document-types.ts';
import {
  type Documents,
  type DocumentsOptions,
  openDocuments as openReal,
} from '../../../electron/services/documents.ts';
import type { Env } from '../../../electron/services/env.ts';
import { REAL_CALLS } from '../../../electron/services/file-calls.ts';
import { encodeLine, encodeStart, parseJournal } from '../../../electron/services/journal-lines.ts';
import { lockKey } from '../../../electron/services/locks.ts';
import { hashOf } from '../../../electron/services/read-whole.ts';
import type { Offer } from '../../../electron/services/recovery.ts';
import { random } from '../../seeds.ts';
import {
  bytesOf,
  faultyDisk,
  freshFolder,
  type HandEnv,
  handEnv,
  mustOpen,
  openAt,
  remove,
  retitle,
  row,
  textOf,
  titleEdit,
} from './helpers.ts';

let folder: string;
let path: string;
let userData: string;
beforeEach(async () => {
  folder = await freshFolder();
  path = join(folder, 'house.copewright.json');
  userData = join(folder, 'user');
  await writeFile(path, textOf('t0'));
});
afterEach(async () => {
  // 'Crashed' ones are still running here.
  for (const documents of running.splice(0)) {
    for (const document of documents.all()) await document.close(true);
  }
  await remove(folder);
});

const running: Documents[] = [];
function openDocuments(env: Env, options?: DocumentsOptions): Documents {
  const documents = openReal(env, options);
  running.push(documents);
  return documents;
}

/** What a crash leaves: locks of this process would count as held, so they go, as if the process had ended. */
async function crash(): Promise<void> {
  await rm(join(userData, 'locks'), { recursive: true, force: true });
}

async function journalFiles(): Promise<string[]> {
  const names = await readdir(join(userData, 'journals'), { recursive: true }).catch((): string[] => []);
  return names
    .filter((name) => name.endsWith('.journal'))
    .sort()
    .map((name) => join(userData, 'journals', name));
}

/** Fires the flush timers and waits until that is done. */
async function flushed(env: HandEnv, document: OpenDocument, ms = 1000): Promise<void> {
  env.fire(ms);
  await document.flush();
}

async function recoverAll(env: Env): Promise<{ documents: Documents; titles: string[] }> {
  const documents = openDocuments(env);
  const titles: string[] = [];
  for (const offer of await documents.offers()) {
    titles.push(mustOpen(await documents.recover(offer.id)).plan.title);
  }
  return { documents, titles };
}

describe('[SK8] edits reach the disk within a second', () => {
  it('a flush is never more than 200 ms away once there is an edit, however many follow', async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    expect(env.waiting()).toEqual([500]);
    for (let k = 0; k < 50; k += 1) {
      retitle(document, `t${k + 1}`);
      expect(env.waiting()).toEqual([200]);
    }
    env.fire(200);
    while ((await journalFiles()).length === 0) await new Promise((resolve) => setTimeout(resolve, 1));
    const [file] = await journalFiles();
    // Nobody else on the machine may look in.
    for (let at = dirname(file!); at !== userData; at = dirname(at))
      expect((await stat(at)).mode & 0o777, at).toBe(0o700);
    const parsed = parseJournal(await readFile(file!));
    expect(parsed?.edits.length).toBe(50);
    expect(parsed?.edits.map((edit) => edit.n)).toEqual(Array.from({ length: 50 }, (_, i) => i + 1));
    expect(parsed?.header).toMatchObject({ original: { path, size: textOf('t0').length }, title: 't0' });
  });

  it('the plan that edits start from is there before the first edit; looking at a plan leaves nothing behind', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    await flushed(env, document, 500);
    expect((await journalFiles()).length).toBe(1);
    await documents.closeAll();
    expect(await journalFiles()).toEqual([]);
    expect(await readdir(join(userData, 'journals'))).toEqual([]);
    expect(await readdir(join(userData, 'locks'))).toEqual([]);
  });

  it('its folder is never there without its lock, so that a program that starts meanwhile removes nothing', async () => {
    const other = openDocuments(handEnv(userData));
    const offered: number[] = [];
    const looks = async <T>(done: Promise<T>): Promise<T> => {
      const result = await done;
      offered.push((await other.offers()).length);
      return result;
    };
    const calls: typeof REAL_CALLS = {
      ...REAL_CALLS,
      mkdir: (at, mode) => looks(REAL_CALLS.mkdir(at, mode)),
      open: (at, ...how) => looks(REAL_CALLS.open(at, ...how)),
    };
    const env = handEnv(userData, calls);
    const problems = new Set<string | null>();
    const changed = ({ journalProblem }: DocumentView) => void problems.add(journalProblem);
    const document = await openAt(openDocuments(env, { changed }), path);
    retitle(document, 't1');
    await flushed(env, document);
    expect([...problems]).toEqual([null]);
    expect(offered.length).toBeGreaterThan(3);
    expect(new Set(offered)).toEqual(new Set([0]));
    await crash();
    expect((await recoverAll(handEnv(userData))).titles).toEqual(['t1']);
  });

  it('a first try that failed between lock and folder costs nothing: the next one writes it all, and makes it last', async () => {
    let failing = true;
    const synced: string[] = [];
    const calls: typeof REAL_CALLS = {
      ...REAL_CALLS,
      mkdir: async (at, mode) => {
        if (failing && at.includes('journals')) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
        return REAL_CALLS.mkdir(at, mode);
      },
      open: async (at, ...how) => {
        if (at.endsWith('journals')) synced.push(at);
        return REAL_CALLS.open(at, ...how);
      },
    };
    const env = handEnv(userData, calls);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await flushed(env, document);
    expect(document.view().journalProblem).toMatch(/^Edits cannot be kept safe/);
    expect(await openDocuments(handEnv(userData)).offers()).toEqual([]);
    failing = false;
    await flushed(env, document);
    expect(document.view().journalProblem).toBeNull();
    expect(synced).toEqual([join(userData, 'journals')]);
    await crash();
    expect((await recoverAll(handEnv(userData))).titles).toEqual(['t1']);
  });

  it('after a crash it is offered with its time, recovered as unsaved with its history, the file untouched', async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    retitle(document, 't1');
    retitle(document, 't2');
    await flushed(env, document);
    await crash();
    const later = openDocuments(env);
    expect(await later.offers()).toMatchObject([
      { title: 't2', path, at: Date.UTC(2026, 0, 31, 12), edits: 2, original: 'same', torn: false },
    ]);
    const recovered = mustOpen(await later.recover((await later.offers())[0]!.id));
    expect(recovered.view).toMatchObject({ title: 't2', unsaved: true, name: 'house.copewright.json' });
    expect(await readFile(path, 'utf8')).toBe(textOf('t0'));
    expect(await later.offers()).toEqual([]);
    const undo = recovered.document.edit(0, recovered.history[1]!.inverse);
    expect(undo).toMatchObject({ ok: true });
    expect(recovered.document.plan().title).toBe('t1');
    expect(await recovered.document.save('auto')).toMatchObject({ outcome: 'refused' });
    expect(await recovered.document.save('hand')).toMatchObject({ outcome: 'saved' });
    await later.closeAll();
    expect(await journalFiles()).toEqual([]);
  });

  it('recovered work does not go over a file that others changed since; an untitled plan is recovered untitled', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 'mine');
    const fresh = mustOpen(documents.create('metric')).document;
    retitle(fresh, 'fresh');
    await documents.closeAll();
    await writeFile(path, textOf('theirs'));
    const later = openDocuments(env);
    const offers = await later.offers();
    expect(offers.map((offer) => offer.original).sort()).toEqual(['changed', 'none']);
    for (const { id } of offers) {
      const { document: recovered } = mustOpen(await later.recover(id));
      const outcome = await recovered.save('hand');
      expect(outcome.outcome).toBe(recovered.view().name === null ? 'refused' : 'conflict');
    }
    expect(await readFile(path, 'utf8')).toBe(textOf('theirs'));
    expect(await later.closeAll()).toEqual([]);
    expect((await openDocuments(env).offers()).length).toBe(2);
    for (const offer of await later.offers()) expect(await later.discard(offer)).toBe('discarded');
    expect(await later.offers()).toEqual([]);
  });

  it('[SK7] recovered while its file is open here, it is untitled, and the file goes on being held by who has it', async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    retitle(document, 't1');
    await flushed(env, document);
    await crash();
    const later = openDocuments(env);
    const { handle } = (await openAt(later, path)).view();
    const [offer] = await later.offers();
    const recovered = mustOpen(await later.recover(offer!.id));
    expect(recovered.view).toMatchObject({ name: null, title: 't1', unsaved: true });
    expect(await later.open(path)).toEqual({ outcome: 'shown', handle });
  });

  it('[SK9] a save rotates it: only later edits are left; killed between rename and rotation nothing is offered', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    expect(await journalFiles()).toEqual([]);
    retitle(document, 't2');
    await flushed(env, document);
    const [file] = await journalFiles();
    expect(parseJournal(await readFile(file!))?.edits.length).toBe(1);
    // As if killed just after the rename of the next save: its bytes are in the file, the journal says 'saving' only.
    const copy = await readFile(file!);
    await document.save('hand');
    const parsed = parseJournal(copy)!;
    const saving = encodeLine({
      n: parsed.edits[0]!.n,
      saving: hashOf(textOf('t2')),
    });
    await writeFile(file!, Buffer.concat([copy, saving]));
    await crash();
    expect(await openDocuments(env).offers()).toEqual([]);
    expect(await journalFiles()).toEqual([]);
  });

  it('[SK11] recovering again and again carries on in one journal and never loses what was kept', async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    retitle(document, 'a');
    await flushed(env, document);
    for (const title of ['b', 'c', 'd']) {
      await crash();
      const later = openDocuments(env);
      const offers = await later.offers();
      expect(offers.length).toBe(1);
      const recovered = mustOpen(await later.recover(offers[0]!.id)).document;
      retitle(recovered, title);
      await flushed(env, recovered);
    }
    await crash();
    expect((await recoverAll(env)).titles).toEqual(['d']);
  });
});

describe('[SK8] a journal that was torn or spoiled', () => {
  async function written(edits: number): Promise<string> {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    for (let k = 1; k <= edits; k += 1) retitle(document, `t${k}`);
    await flushed(env, document);
    await crash();
    return (await journalFiles())[0]!;
  }

  it('cut at every byte of its lines: all whole lines before the cut hold', async () => {
    const file = await written(6);
    const whole = await readFile(file);
    const start = parseJournal(whole)!;
    let cuts = 0;
    for (let length = 0; length <= whole.length; length += 1) {
      const parsed = parseJournal(whole.subarray(0, length));
      if (parsed === null) continue;
      cuts += 1;
      const ends = whole.subarray(0, length).toString('latin1').split('\n').length - 1;
      const inStart = whole.subarray(0, length).subarray(0, start.soundBytes).length;
      expect(parsed.edits.length).toBeLessThanOrEqual(6);
      expect(parsed.torn).toBe(length !== parsed.soundBytes);
      if (inStart > 0)
        expect(parsed.edits.length).toBe(Math.max(0, ends - startLines(whole, start.base.length)));
    }
    expect(cuts).toBeGreaterThan(1000);
    await truncate(file, whole.length - 5);
    const env = handEnv(userData);
    const [offer] = await openDocuments(env).offers();
    expect(offer).toMatchObject({ torn: true, edits: 5 });
    expect((await recoverAll(env)).titles).toEqual(['t5']);
    row('torn journal', `cut at each of ${cuts} bytes: whole lines before the cut hold`);
  });

  it('one changed byte anywhere: never a wrong edit, never a crash', async () => {
    const file = await written(6);
    const whole = await readFile(file);
    const start = hashOf(parseJournal(whole)!.base);
    const next = random(77);
    for (let i = 0; i < 2000; i += 1) {
      const spoiled = Buffer.from(whole);
      const at = Math.floor(next() * spoiled.length);
      spoiled[at] = spoiled[at]! ^ (1 + Math.floor(next() * 255));
      const parsed = parseJournal(spoiled);
      parsed?.edits.forEach((edit, k) => {
        expect(edit.edit).toEqual(titleEdit(`t${k + 1}`));
      });
      // The plan that the edits start from is never another one either.
      if (parsed) expect(hashOf(parsed.base)).toBe(start);
    }
  });

  it('a line, the header or the plan in which a letter is another is not taken, though it reads as well as before', async () => {
    const whole = (await readFile(await written(3))).toString('latin1');
    const spoilt = (from: string, to: string) => {
      expect(whole.split(from)).toHaveLength(2);
      return parseJournal(Buffer.from(whole.replace(from, to), 'latin1'));
    };
    const titles = (parsed: ReturnType<typeof parseJournal>) =>
      parsed?.edits.map(({ edit }) => (edit as ReturnType<typeof titleEdit>).patches[0]!.value);
    expect(titles(parseJournal(Buffer.from(whole, 'latin1')))).toEqual(['t1', 't2', 't3']);
    const spoiltEdit = spoilt('"value":"t2"}]},"inverse"', '"value":"x2"}]},"inverse"');
    expect([titles(spoiltEdit), spoiltEdit?.torn, spoiltEdit?.strange]).toEqual([['t1'], true, true]);
    expect(
      spoilt(
        '"journal":"copewright-journal","version":1,"title":"t0"',
        '"journal":"copewright-journal","version":1,"title":"x0"',
      ),
    ).toBeNull();
    expect(spoilt('"title": "t0"', '"title": "x0"')).toBeNull();
  });

  it('an unreadable newest generation falls back to the one before; one where nothing is readable is kept and named', async () => {
    const file = await written(3);
    await writeFile(file.replace('000001', '000002'), 'rubbish');
    const env = handEnv(userData);
    expect(await openDocuments(env).offers()).toMatchObject([{ torn: true, edits: 3, unreadable: false }]);
    await writeFile(file, 'rubbish');
    const documents = openDocuments(env);
    const [offer] = await documents.offers();
    expect(offer).toMatchObject({ unreadable: true });
    expect(await documents.recover(offer!.id)).toMatchObject({ outcome: 'refused' });
    expect((await journalFiles()).length).toBe(2);
    expect(await documents.recover('../../etc')).toMatchObject({ outcome: 'refused' });
  });

  /** A journal of an untitled plan with these edits, as an ended process left it. */
  async function leftWith(edits: readonly object[]): Promise<string> {
    const inverse = { type: 'patch', patches: [] } as const;
    const header = {
      journal: 'copewright-journal',
      version: 1,
      original: null,
      ours: [] as string[],
    } as const;
    const bytes = Buffer.concat([
      encodeStart({ ...header, ours: [], title: 't0', at: 1, before: 0 }, bytesOf(textOf('t0'))),
      ...edits.map((edit, i) => encodeLine({ n: i + 1, at: i, edit: edit as never, inverse })),
    ]);
    const left = join(userData, 'journals', '0123456789abcdef');
    await mkdir(left, { recursive: true });
    await writeFile(join(left, '000001.journal'), bytes);
    return join(left, '000001.journal');
  }

  it('an edit that cannot be done again ends the replay; what came before it is given, and the rest is told', async () => {
    const env = handEnv(userData);
    await leftWith([titleEdit('t1'), { type: 'deleteWall', level: 'L1', wall: 'none' }, titleEdit('t3')]);
    const documents = openDocuments(env);
    const [offer] = await documents.offers();
    const { plan, view } = mustOpen(await documents.recover(offer!.id));
    expect(plan.title).toBe('t1');
    const name = putAsideName(view.autosaveStopped);
    expect(view.autosaveStopped).toBe(
      `This is recovered work; its last 2 edits could not be done again and went to ${name} in the program's own folder. Save it by hand when you have looked at it.`,
    );
  });

  it('[SK11] edits that could not be done again lie beside the preferences, and stay there when the plan is saved', async () => {
    const env = handEnv(userData);
    const lost = [{ type: 'deleteWall', level: 'L1', wall: 'none' }, titleEdit('t3')];
    const whole = await readFile(await leftWith([titleEdit('t1'), ...lost]));
    const documents = openDocuments(env);
    const [offer] = await documents.offers();
    const { document, view } = mustOpen(await documents.recover(offer!.id));
    const aside = join(userData, putAsideName(view.autosaveStopped));
    expect(await document.saveAs(join(folder, 'kept.copewright.json'))).toMatchObject({ outcome: 'saved' });
    await documents.closeAll();
    expect(await journalFiles()).toEqual([]);
    const lines = await readFile(aside, 'utf8');
    expect(whole.toString('utf8').endsWith(lines)).toBe(true);
    const edits = lines
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line.slice(17)).edit);
    expect(edits).toEqual(lost);
  });

  it('[SK11] of what was put aside the last five stay, and all of the last month; older ones go when another comes', async () => {
    const env = handEnv(userData);
    env.setClock(Date.now());
    await leftWith([titleEdit('t1'), { type: 'deleteWall', level: 'L1', wall: 'none' }]);
    const put = async (name: string, days: number): Promise<string> => {
      await writeFile(join(userData, name), name);
      const at = (env.clock.now() - days * 24 * 3600 * 1000) / 1000;
      await utimes(join(userData, name), at, at);
      return name;
    };
    const ages = [5, 20, 29, 30, 32, 400, 500];
    const names: string[] = [];
    for (const [k, days] of ages.entries())
      names.push(await put(`not-recovered-${'0'.repeat(11)}${k}.journal`, days));
    const others = [
      await put('not-recovered-by-hand.journal', 900),
      await put('preferences.json.unreadable-1', 900),
    ];
    const recover = async (): Promise<string> => {
      const documents = openDocuments(env);
      const [offer] = await documents.offers();
      return putAsideName(mustOpen(await documents.recover(offer!.id)).view.autosaveStopped);
    };
    const name = await recover();
    const stay = async () => (await readdir(userData)).filter((each) => each.includes('.')).sort();
    // The one that has just come is among the five.
    expect(await stay()).toEqual([...names.slice(0, 4), name, ...others].sort());
    const newer = await put('not-recovered-ffffffffffff.journal', -400);
    await crash();
    expect(await recover()).toBe(name);
    // Six, and all of the last month.
    expect(await stay()).toEqual([...names.slice(0, 4), name, newer, ...others].sort());
  });

  it('[SK11] what is spoiled in the middle, and a spoiled generation that is newer, are put aside too', async () => {
    const file = await written(3);
    const whole = await readFile(file);
    const { lines } = parseJournal(whole)!;
    const second = whole.indexOf(lines[1]!.bytes);
    whole[second + 20] = whole[second + 20]! ^ 1;
    await writeFile(file, whole);
    await writeFile(file.replace('000001', '000002'), 'spoiled');
    const documents = openDocuments(handEnv(userData));
    const [offer] = await documents.offers();
    const { document, view, plan } = mustOpen(await documents.recover(offer!.id));
    expect(plan.title).toBe('t1');
    expect(view.autosaveStopped).toMatch(
      /^This is recovered work; a part of its journal could not be read and went /,
    );
    const aside = await readFile(join(userData, putAsideName(view.autosaveStopped)));
    expect(aside.equals(Buffer.concat([whole.subarray(second), Buffer.from('spoiled')]))).toBe(true);
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
  });

  it('[SK11] where the rest cannot be put aside, what can be recovered is given all the same, and that is told', async () => {
    const full = Object.assign(new Error('full'), { code: 'ENOSPC' });
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        if (flags === 'wx' && at.endsWith('.tmp')) throw full;
        return open(at, flags, mode);
      },
    };
    await leftWith([titleEdit('t1'), { type: 'deleteWall', level: 'L1', wall: 'none' }]);
    const documents = openDocuments(handEnv(userData, calls));
    const [offer] = await documents.offers();
    const { view, plan } = mustOpen(await documents.recover(offer!.id));
    expect(plan.title).toBe('t1');
    expect(view.autosaveStopped).toContain(
      'its last edit could not be done again and could not be put aside.',
    );
  });

  it('[SK11] many edits are done again as few are', async () => {
    await leftWith(Array.from({ length: 250 }, (_, i) => titleEdit(`t${i + 1}`)));
    const documents = openDocuments(handEnv(userData));
    const [offer] = await documents.offers();
    const { plan, history, view } = mustOpen(await documents.recover(offer!.id));
    expect([plan.title, history.length]).toEqual(['t250', 250]);
    expect(view.autosaveStopped).toBe('This is recovered work; save it by hand when you have looked at it.');
    expect(Object.isFrozen(plan.levels)).toBe(true);
  });

  it('[SK11] edits that no reader here knows, as a newer version writes them, are kept and named, never thrown away', async () => {
    const env = handEnv(userData);
    const file = await leftWith([{ type: 'somethingNewer', by: 1 }, titleEdit('t2')]);
    const documents = openDocuments(env);
    expect(await documents.offers()).toMatchObject([{ title: 't0', torn: true, unreadable: true }]);
    expect(await documents.offers()).toHaveLength(1);
    expect(await readFile(file)).not.toHaveLength(0);
  });

  it('[SK11] where the first edit is spoiled the journal stays, for the others are still in it', async () => {
    const file = await written(3);
    const whole = await readFile(file);
    const { base } = parseJournal(whole)!;
    const first = whole.indexOf(0x0a) + 1 + base.length + 1;
    whole[first + 3] = whole[first + 3]! ^ 1;
    await writeFile(file, whole);
    const documents = openDocuments(handEnv(userData));
    expect(await documents.offers()).toMatchObject([{ torn: true, unreadable: true }]);
    expect(await journalFiles()).toHaveLength(1);
    // A first edit that was cut off in the middle of its writing is the last moment, and nothing else.
    await truncate(file, first + 10);
    expect(await openDocuments(handEnv(userData)).offers()).toEqual([]);
  });
});

/** The file that a sentence says what was not recovered went to. */
function putAsideName(words: string | null): string {
  const name = /not-recovered-[0-9a-f]{12}\.journal/.exec(words ?? '')?.[0];
  if (name === undefined) throw new Error(`no file in: ${words}`);
  return name;
}

/** Lines that a journal has before its first edit: the header's, the plan's, and the end after the plan. */
function startLines(whole: Buffer, baseLength: number): number {
  const headerEnd = whole.indexOf(0x0a) + 1;
  return (
    whole
      .subarray(0, headerEnd + baseLength + 1)
      .toString('latin1')
      .split('\n').length - 1
  );
}

describe('[SK8] what was just saved', () => {
  it('is kept on closing where its file is deleted before the journal has begun again', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await flushed(env, document);
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    await rm(path);
    expect(await documents.close(document.view().handle)).toEqual({ outcome: 'closed', kept: true });
    const after = openDocuments(handEnv(userData));
    const [offer] = await after.offers();
    expect(offer).toMatchObject({ title: 't1', original: 'gone' });
    expect(mustOpen(await after.recover(offer!.id)).plan.title).toBe('t1');
  });
});

describe('[SK9] what was saved, on closing', () => {
  it('is not kept for recovery where another program changed the file since; it lies among the versions', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    await writeFile(path, textOf('theirs'));
    expect(await documents.close(document.view().handle)).toEqual({ outcome: 'closed', kept: false });
    expect(await journalFiles()).toEqual([]);
    const later = openDocuments(handEnv(userData));
    expect(await later.offers()).toEqual([]);
    const again = await openAt(later, path);
    const [ours] = await later.versions(again.view().handle);
    expect(mustOpen(await later.openVersion(ours!.id)).plan.title).toBe('t1');
  });

  it('is kept and offered where nobody can say what the file holds', async () => {
    let broken = false;
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        if (broken && at === path) throw Object.assign(new Error('made to fail'), { code: 'EIO' });
        return open(at, flags, mode);
      },
    };
    const env = handEnv(userData, calls);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    broken = true;
    expect(await documents.close(document.view().handle)).toEqual({ outcome: 'closed', kept: true });
    expect(await openDocuments(env).offers()).toMatchObject([
      { title: 't1', edits: 0, unreadable: false, original: 'unread' },
    ]);
    // And once the disk is well, it is seen that there is nothing to be had.
    broken = false;
    expect(await openDocuments(env).offers()).toEqual([]);
  });
});

describe('[SK8] what is written while more comes', () => {
  it('an edit that comes while closing writes the others is written as well, and nothing is refused', async () => {
    const during: { edit: (() => void) | null } = { edit: null };
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        const handle = await open(at, flags, mode);
        const sync = handle.sync.bind(handle);
        return Object.assign(handle, {
          sync: async () => {
            during.edit?.();
            during.edit = null;
            await sync();
          },
        });
      },
    };
    const env = handEnv(userData, calls);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    await flushed(env, document);
    retitle(document, 't1');
    during.edit = () => retitle(document, 't2');
    expect(await documents.close(document.view().handle)).toEqual({ outcome: 'closed', kept: true });
    expect((await recoverAll(handEnv(userData))).titles).toEqual(['t2']);
  });

  it('the journal begins again half a second after a save that followed an edit at once', async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    await flushed(env, document, 500);
    retitle(document, 't1');
    await document.save('hand');
    expect(env.waiting()).toEqual([500]);
    await flushed(env, document, 500);
    const [file] = await journalFiles();
    expect(parseJournal(await readFile(file!))).toMatchObject({ header: { title: 't1' }, edits: [] });
    await rm(path);
    await crash();
    expect(await openDocuments(env).offers()).toMatchObject([{ title: 't1', original: 'gone' }]);
  });
});

describe('[SK8] on a disk that fails', () => {
  it('whichever operation fails, once or for good: told, tried again, and everything is there when the disk is well', async () => {
    const disk = faultyDisk();
    let [tried, told] = [0, 0];
    for (const forGood of [false, true]) {
      for (let k = 1; k < 200; k += 1) {
        const env = handEnv(join(folder, `user-${forGood}-${k}`), disk.calls);
        disk.disarm();
        const documents = openDocuments(env);
        const document = await openAt(documents, path);
        disk.arm(k, forGood, k % 2 === 0 ? 'ENOSPC' : 'EIO');
        retitle(document, 't1');
        await flushed(env, document);
        retitle(document, 't2');
        await flushed(env, document);
        const struck = disk.struck();
        if (forGood && struck) {
          expect(document.view().journalProblem).toMatch(/^Edits cannot be kept safe [^\n]*\.$/);
          expect(await document.close()).toMatchObject({ outcome: 'refused' });
          told += 1;
        }
        disk.disarm();
        retitle(document, 't3');
        await flushed(env, document);
        await flushed(env, document);
        expect(document.view().journalProblem, `k = ${k}`).toBeNull();
        await rm(join(env.userData, 'locks'), { recursive: true, force: true });
        const { documents: later, titles } = await recoverAll(env);
        expect(titles, `k = ${k}`).toEqual(['t3']);
        await later.closeAll();
        await documents.close(document.view().handle, true);
        tried += 1;
        if (!struck) break;
      }
    }
    row(
      'k-th file operation of the journal fails',
      `${tried} runs, once and for good; ${told} told in a sentence; no edit lost once the disk was well`,
    );
    expect(tried).toBeGreaterThan(20);
  });

  it('a disk that takes only a few bytes at a time, and a file that takes no more for good', async () => {
    let stuck = false;
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        const handle = await open(at, flags, mode);
        if (!at.endsWith('.journal')) return handle;
        const write = handle.write.bind(handle) as (...args: unknown[]) => Promise<unknown>;
        const first = at.endsWith('000001.journal');
        Object.assign(handle, {
          write: async (bytes: Buffer, from: number, length: number, to: number) => {
            if (stuck && first) throw Object.assign(new Error('stuck'), { code: 'EIO' });
            return write(bytes, from, Math.min(length, 7), to);
          },
        });
        return handle;
      },
    };
    const env = handEnv(userData, calls);
    const document = await openAt(openDocuments(env), path);
    await flushed(env, document);
    for (const title of ['t1', 't2', 't3']) retitle(document, title);
    await flushed(env, document);
    stuck = true;
    retitle(document, 't4');
    for (let i = 0; i < 3; i += 1) await flushed(env, document);
    expect(document.view().journalProblem).toBeNull();
    expect((await journalFiles()).length).toBe(2);
    await crash();
    expect((await recoverAll(env)).titles).toEqual(['t4']);
    await rm((await journalFiles())[1]!);
    await crash();
    expect((await recoverAll(env)).titles).toEqual(['t3']);
  });

  it('a journal that is deleted under our hands is written anew, whole', async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    retitle(document, 't1');
    await flushed(env, document);
    await rm(join(userData, 'journals'), { recursive: true });
    retitle(document, 't2');
    await flushed(env, document);
    await flushed(env, document);
    await crash();
    const [offer] = await openDocuments(env).offers();
    expect(offer).toMatchObject({ edits: 2 });
  });
});

describe('[SK11] a plan that is saved nowhere', () => {
  it('an earlier version that was opened and closed is offered; a new plan that nobody touched is not', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    const versions = await documents.versions(document.view().handle);
    mustOpen(documents.create('metric'));
    const version = mustOpen(await documents.openVersion(versions.at(-1)!.id));
    expect(version.view.unsaved).toBe(true);
    expect(await documents.close(version.view.handle)).toEqual({ outcome: 'closed', kept: true });
    expect(await documents.closeAll()).toEqual([]);
    const later = openDocuments(handEnv(userData));
    expect(await later.offers()).toMatchObject([
      { title: 't0', path: null, edits: 0, original: 'none', unreadable: false },
    ]);
  });

  it('is offered once, and as what it was last, however often the same was dropped; what was edited stays apart', async () => {
    const env = handEnv(userData);
    for (const [day, edit] of [
      [1, null],
      [3, null],
      [2, null],
      [4, 'edited'],
    ] as const) {
      env.setClock(Date.UTC(2026, 1, day));
      const documents = openDocuments(env);
      const { document } = mustOpen(await documents.openBytes('dropped', bytesOf(textOf('dropped')), true));
      if (edit !== null) retitle(document, edit);
      await documents.closeAll();
    }
    for (let time = 1; time <= 2; time += 1)
      expect(await openDocuments(env).offers()).toMatchObject([
        { title: 'edited', edits: 1, at: Date.UTC(2026, 1, 4) },
        { title: 'dropped', edits: 0, at: Date.UTC(2026, 1, 3) },
      ]);
    expect((await journalFiles()).length).toBe(2);
  });

  it('[SK11] what was worked on last is offered first, whatever the journals are called', async () => {
    const env = handEnv(userData);
    const days = [4, 1, 6, 3, 5, 2];
    for (const day of days) {
      env.setClock(Date.UTC(2026, 1, day));
      const documents = openDocuments(env);
      retitle(mustOpen(documents.create('metric')).document, `day ${day}`);
      await documents.closeAll();
    }
    const titles = (await openDocuments(env).offers()).map(({ title }) => title);
    expect(titles).toEqual([6, 5, 4, 3, 2, 1].map((day) => `day ${day}`));
  });

  it('stays offered however often it is recovered and closed, until it is saved', async () => {
    const documents = openDocuments(handEnv(userData));
    mustOpen(await documents.openBytes('dropped', bytesOf(textOf('dropped')), true));
    await documents.closeAll();
    for (let time = 1; time <= 3; time += 1) {
      const later = openDocuments(handEnv(userData));
      const [offer] = await later.offers();
      const { document, plan } = mustOpen(await later.recover(offer!.id));
      expect(plan.title).toBe('dropped');
      if (time === 3) await document.saveAs(join(folder, 'kept.copewright.json'));
      await later.closeAll();
    }
    expect(await openDocuments(handEnv(userData)).offers()).toEqual([]);
    expect(await readFile(join(folder, 'kept.copewright.json'), 'utf8')).toBe(textOf('dropped'));
  });
});

describe('[SK11] kept work is thrown away only as it was shown', () => {
  /** One edit of the house, left by an ended process; and as it was shown. */
  async function left() {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    retitle(document, 't1');
    await flushed(env, document);
    await crash();
    const documents = openDocuments(env);
    const [offer] = await documents.offers();
    expect(offer).toMatchObject({ edits: 1, original: 'same', torn: false, unreadable: false });
    return { env, documents, shown: offer! };
  }

  it('as it was shown it goes', async () => {
    const { documents, shown } = await left();
    expect(await documents.discard(shown)).toBe('discarded');
    expect(await journalFiles()).toEqual([]);
  });

  it.each<[string, () => Promise<void>, Partial<Offer>]>([
    ['is deleted', () => rm(path), { original: 'gone' }],
    ['is changed by another program', () => writeFile(path, textOf('theirs')), { original: 'changed' }],
  ])(
    'where its file %s since, it stays, for it may be all there is of the plan',
    async (_what, happen, now) => {
      const { documents, shown } = await left();
      await happen();
      expect(await documents.discard(shown)).toBe('changed');
      const [offer] = await documents.offers();
      expect(offer).toEqual({ ...shown, ...now });
      expect(mustOpen(await documents.recover(offer!.id)).plan.title).toBe('t1');
    },
  );

  it('where its end was torn off since, it stays', async () => {
    const { documents, shown } = await left();
    await appendFile((await journalFiles())[0]!, 'torn');
    expect(await documents.discard(shown)).toBe('changed');
    expect(await documents.offers()).toEqual([{ ...shown, torn: true }]);
  });

  it('where there is one edit more by now, it stays, though the clock stood still', async () => {
    const { env, documents, shown } = await left();
    const { document } = mustOpen(await documents.recover(shown.id));
    retitle(document, 't2');
    await flushed(env, document);
    await crash();
    expect(await documents.discard(shown)).toBe('changed');
    expect(await documents.offers()).toEqual([{ ...shown, title: 't2', edits: 2 }]);
  });

  it('where there is another edit by now, it stays, though it is one again', async () => {
    const { env, documents, shown } = await left();
    const { document } = mustOpen(await documents.recover(shown.id));
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    env.setClock(Date.UTC(2026, 1, 1));
    retitle(document, 't2');
    await flushed(env, document);
    await crash();
    expect(await documents.discard(shown)).toBe('changed');
    expect(await documents.offers()).toEqual([{ ...shown, title: 't2', at: Date.UTC(2026, 1, 1) }]);
  });

  it('where it can be read after all, it stays', async () => {
    const opened = { path, hash: hashOf(textOf('t0')), size: 1, mtimeMs: 1 };
    const start = encodeStart(
      {
        journal: 'copewright-journal',
        version: 1,
        original: opened,
        ours: [hashOf(textOf('t1')), hashOf(textOf('t2'))],
        title: 't1',
        at: 1,
        before: 1,
        savedTo: 1,
      },
      bytesOf(textOf('t1')),
    );
    const file = join(userData, 'journals', '0123456789abcdef', '000001.journal');
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, Buffer.concat([start, bytesOf('a line that is not sound\n')]));
    const documents = openDocuments(handEnv(userData));
    await writeFile(path, textOf('t1'));
    const [shown] = await documents.offers();
    expect(shown).toMatchObject({ edits: 0, original: 'same', unreadable: true });
    // The file is of ours again, but the plan that the journal starts from is in no file any more.
    await writeFile(path, textOf('t2'));
    expect(await documents.discard(shown!)).toBe('changed');
    const [now] = await documents.offers();
    expect(now).toEqual({ ...shown, unreadable: false });
    expect(await documents.discard(now!)).toBe('discarded');
  });

  /** Puts one more edit into the journal in the moment in which a program that looks for kept work takes its lock. */
  function goesOnMeanwhile(id: () => string): typeof REAL_CALLS {
    let done = false;
    return {
      ...REAL_CALLS,
      open: async (at, ...how) => {
        if (how[0] === 'wx' && at.includes(lockKey('journal', id())) && !done) {
          done = true;
          const inverse = { type: 'patch', patches: [] } as const;
          const line = encodeLine({ n: 1, at: 5, edit: titleEdit('gone on') as never, inverse });
          await appendFile(join(userData, 'journals', id(), '000001.journal'), line);
        }
        return REAL_CALLS.open(at, ...how);
      },
    };
  }

  it('a journal that held nothing stays where an edit came before it was removed', async () => {
    const env = handEnv(userData);
    await flushed(env, await openAt(openDocuments(env), path), 500);
    await crash();
    const [id] = await readdir(join(userData, 'journals'));
    expect(
      await openDocuments(
        handEnv(
          userData,
          goesOnMeanwhile(() => id!),
        ),
      ).offers(),
    ).toEqual([]);
    expect(await openDocuments(env).offers()).toMatchObject([{ id, title: 'gone on', edits: 1 }]);
  });

  /** The same text dropped on two days, each closed without an edit: the ids of what is kept of it, older first. */
  async function droppedTwice(): Promise<string[]> {
    const ids: string[] = [];
    for (const day of [1, 2]) {
      const env = handEnv(userData);
      env.setClock(Date.UTC(2026, 1, day));
      const documents = openDocuments(env);
      mustOpen(await documents.openBytes('dropped', bytesOf(textOf('dropped')), true));
      await documents.closeAll();
      ids.push((await readdir(join(userData, 'journals'))).find((id) => !ids.includes(id))!);
    }
    return ids;
  }

  it('of two with the same plan the older stays where an edit came before it was removed', async () => {
    const [older, newer] = await droppedTwice();
    const meanwhile = openDocuments(
      handEnv(
        userData,
        goesOnMeanwhile(() => older!),
      ),
    );
    expect((await meanwhile.offers()).map(({ id }) => id)).toEqual([newer]);
    const offers = await openDocuments(handEnv(userData)).offers();
    expect(offers.map(({ id, title, edits }) => ({ id, title, edits }))).toEqual([
      { id: newer, title: 'dropped', edits: 0 },
      { id: older, title: 'gone on', edits: 1 },
    ]);
  });

  it.each<[string, (folder: string) => Promise<void>]>([
    ['torn', (at) => appendFile(join(at, '000001.journal'), 'an edit that was cut o')],
    ['followed by one that is spoiled', (at) => writeFile(join(at, '000002.journal'), 'rubbish')],
  ])('of two with the same plan one that is %s stays, for there was more in it', async (_what, spoil) => {
    const [older, newer] = await droppedTwice();
    await spoil(join(userData, 'journals', older!));
    for (let time = 1; time <= 2; time += 1)
      expect(await openDocuments(handEnv(userData)).offers()).toMatchObject([
        { id: newer, torn: false },
        { id: older, torn: true },
      ]);
  });
});

describe('[SK11] on a disk that can be read and takes no changes', () => {
  /** The program's own folder, as it is after its disk was found at fault. */
  function readOnlyDisk() {
    const disk = { readOnly: true };
    const refuse = (): void => {
      if (disk.readOnly) throw Object.assign(new Error('read-only'), { code: 'EROFS' });
    };
    const calls: typeof REAL_CALLS = {
      ...REAL_CALLS,
      open: async (at, flags, mode) => {
        if (flags !== 'r' && typeof flags === 'string') refuse();
        return REAL_CALLS.open(at, flags, mode);
      },
      unlink: async (at) => {
        refuse();
        await REAL_CALLS.unlink(at);
      },
      rename: async (from, to) => {
        refuse();
        await REAL_CALLS.rename(from, to);
      },
    };
    return { disk, env: handEnv(userData, calls) };
  }

  async function left(): Promise<void> {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    retitle(document, 't1');
    await flushed(env, document);
    await crash();
  }

  it('kept work can be had all the same, goes on unsaved, and is kept again once the disk is well', async () => {
    await left();
    const { disk, env } = readOnlyDisk();
    const documents = openDocuments(env);
    const [offer] = await documents.offers();
    const { document, plan } = mustOpen(await documents.recover(offer!.id));
    expect(plan.title).toBe('t1');
    retitle(document, 't2');
    await flushed(env, document);
    expect(document.view().journalProblem).toMatch(/^Edits cannot be kept safe [^\n]*\.$/);
    disk.readOnly = false;
    await flushed(env, document);
    expect(document.view().journalProblem).toBeNull();
    // It is held from then on.
    expect(await openDocuments(handEnv(userData)).offers()).toEqual([]);
    await crash();
    expect(await openDocuments(handEnv(userData)).offers()).toMatchObject([{ title: 't2', edits: 2 }]);
  });

  it('it cannot be thrown away, which is said; and what another window has is not had twice', async () => {
    await left();
    const { env } = readOnlyDisk();
    const documents = openDocuments(env);
    const [offer] = await documents.offers();
    expect(await documents.discard(offer!)).toBe('kept');
    expect(await documents.offers()).toEqual([offer]);
    mustOpen(await openDocuments(handEnv(userData)).recover(offer!.id));
    expect(await documents.recover(offer!.id)).toMatchObject({
      outcome: 'refused',
      message: 'This work is open in another window, or is no longer there.',
    });
    expect(await documents.discard(offer!)).toBe('open');
  });
});

describe('[SK9] a journal that grows', () => {
  it('goes on in a new generation from the plan as it is; the old ones stay until a save is verified', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    for (let k = 1; k <= 2000; k += 1) retitle(document, `t${k}`);
    await flushed(env, document);
    await flushed(env, document);
    expect((await journalFiles()).length).toBe(2);
    await crash();
    expect((await openDocuments(env).offers())[0]).toMatchObject({ original: 'same', edits: 2000 });
    for (let k = 2001; k <= 2010; k += 1) retitle(document, `t${k}`);
    await flushed(env, document);
    await crash();
    const later = openDocuments(env);
    const [offer] = await later.offers();
    expect(mustOpen(await later.recover(offer!.id)).plan.title).toBe('t2010');
    // The newest generation spoiled: the one before still has its edits.
    await crash();
    await writeFile((await journalFiles())[1]!, 'rubbish');
    const again = openDocuments(env);
    expect(mustOpen(await again.recover((await again.offers())[0]!.id)).plan.title).toBe('t2000');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(await journalFiles()).toEqual([]);
  });

  it('[SK11] is offered with all edits that are in no file, those too that its newest generation starts from', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    for (let k = 1; k <= 7; k += 1) retitle(document, `t${k}`);
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    for (let k = 8; k <= 2007; k += 1) retitle(document, `t${k}`);
    await flushed(env, document);
    await flushed(env, document);
    for (let k = 2008; k <= 2010; k += 1) retitle(document, `t${k}`);
    await flushed(env, document);
    expect(parseJournal(await readFile((await journalFiles()).at(-1)!))?.edits).toHaveLength(3);
    for (let time = 1; time <= 2; time += 1) {
      await crash();
      const later = openDocuments(env);
      const [offer] = await later.offers();
      expect(offer).toMatchObject({ edits: 2002 + time, original: 'same' });
      const recovered = mustOpen(await later.recover(offer!.id)).document;
      retitle(recovered, `again ${time}`);
      await flushed(env, recovered);
    }
    // Where the file is gone too these are the edits since it was saved.
    await crash();
    await rm(path);
    expect(await openDocuments(env).offers()).toMatchObject([{ edits: 2005, original: 'gone' }]);
  });

  it('that finds no room for a new generation is carried on as it was', async () => {
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        const full = flags === 'wx' && at.endsWith('.tmp') && (await journalFiles()).length > 0;
        if (full) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
        return open(at, flags, mode);
      },
    };
    const env = handEnv(userData, calls);
    const document = await openAt(openDocuments(env), path);
    await flushed(env, document);
    for (let k = 1; k <= 2003; k += 1) {
      retitle(document, `t${k}`);
      if (k < 2000) continue;
      expect(await document.flush()).toBe(true);
      await flushed(env, document);
      expect(document.view().journalProblem).toBeNull();
    }
    expect((await journalFiles()).length).toBe(1);
    await crash();
    expect((await recoverAll(handEnv(userData))).titles).toEqual(['t2003']);
  });

  it.each([
    ['cannot be opened', 'r+', true],
    ['may not last', 'r', true],
    ['cannot be opened or removed', 'r+', false],
    ['may not last, and cannot be removed', 'r', false],
  ])('whose new generation stands but %s loses no edit without a word', async (_what, how, removable) => {
    const failed = Object.assign(new Error('made to fail'), { code: 'EIO' });
    const second = async (): Promise<boolean> =>
      (await journalFiles()).some((file) => file.endsWith('000002.journal'));
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        const concerned = flags === how || flags === 'wx';
        if (concerned && at.includes('journals') && !at.endsWith('000001.journal') && (await second()))
          throw failed;
        return open(at, flags, mode);
      },
      unlink: async (at: string) => {
        if (!removable && at.endsWith('000002.journal')) throw failed;
        await REAL_CALLS.unlink(at);
      },
    };
    const env = handEnv(userData, calls);
    const document = await openAt(openDocuments(env), path);
    for (let k = 1; k <= 2000; k += 1) retitle(document, `t${k}`);
    for (const title of ['t2001', 't2002']) {
      await flushed(env, document);
      await flushed(env, document);
      retitle(document, title);
    }
    await flushed(env, document);
    const { journalProblem } = document.view();
    await crash();
    const { titles } = await recoverAll(handEnv(userData));
    if (removable || journalProblem === null) expect([titles, journalProblem]).toEqual([['t2002'], null]);
  });

  it('loses no edit whichever file operation of its growth fails, once and for good until the disk is well', async () => {
    const disk = faultyDisk();
    let tried = 0;
    for (const forGood of [false, true]) {
      for (let k = 1; k < 100; k += 1) {
        const env = handEnv(join(folder, `user-${forGood}-${k}`), disk.calls);
        disk.disarm();
        const documents = openDocuments(env);
        const document = await openAt(documents, path);
        for (let n = 1; n <= 1999; n += 1) retitle(document, `t${n}`);
        await flushed(env, document);
        retitle(document, 't2000');
        disk.arm(k, forGood, 'EIO');
        await flushed(env, document);
        await flushed(env, document);
        const struck = disk.struck();
        disk.disarm();
        retitle(document, 't2001');
        await flushed(env, document);
        await rm(join(env.userData, 'locks'), { recursive: true, force: true });
        const later = openDocuments(handEnv(env.userData));
        const [offer] = await later.offers();
        expect(mustOpen(await later.recover(offer!.id)).plan.title, `k = ${k}`).toBe('t2001');
        for (const each of [documents, later])
          for (const open of each.all()) await each.close(open.view().handle, true);
        tried += 1;
        if (!struck) break;
      }
    }
    expect(tried).toBeGreaterThan(20);
    row('k-th file operation fails while the journal grows over', `${tried} runs; no edit lost`);
  });

  it('edits made while a save is under way stay in the journal', async () => {
    const during: { document: OpenDocument | null } = { document: null };
    const calls = {
      ...REAL_CALLS,
      rename: async (from: string, to: string) => {
        if (to === path) retitle(during.document!, 't2');
        return rename(from, to);
      },
    };
    const env = handEnv(userData, calls);
    const document = await openAt(openDocuments(env), path);
    during.document = document;
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(await readFile(path, 'utf8')).toBe(textOf('t1'));
    await crash();
    expect((await recoverAll(env)).titles).toEqual(['t2']);
  });
});

describe('the clock is set back', () => {
  it('a year between edits and saves: order, versions and recovery go by number, never by time', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    env.setClock(Date.UTC(2025, 0, 31));
    retitle(document, 't2');
    await document.save('hand');
    retitle(document, 't3');
    env.setClock(Date.UTC(2020, 0, 31));
    retitle(document, 't4');
    await flushed(env, document);
    const versions = await documents.versions(document.view().handle);
    expect(versions.map((version) => version.at > Date.UTC(2025, 5, 1))).toEqual([false, true, true]);
    await appendFile((await journalFiles())[0]!, 'torn');
    await crash();
    const later = openDocuments(env);
    const [offer] = await later.offers();
    expect(offer).toMatchObject({ at: Date.UTC(2020, 0, 31), edits: 2, torn: true });
    expect(mustOpen(await later.recover(offer!.id)).plan.title).toBe('t4');
    row(
      'clock set back',
      'by one and six years between edits and saves: newest version and last edit found by number',
    );
  });
});
