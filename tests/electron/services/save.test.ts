// Saving open plans: the sequence, what changed on disk meanwhile, every file operation failing in turn, two holders.

import { spawn } from 'node:child_process';
import {
  chmod,
  chown,
  copyFile,
  lstat,
  mkdir,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  symlink,
  unlink,
  utimes,
  writeFile,
} from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openDocument } from '../../../electron/services/document.ts';
import type { OpenDocument } from '../../../electron/services/document-types.ts';
import { openDocuments } from '../../../electron/services/documents.ts';
import { REAL_CALLS } from '../../../electron/services/file-calls.ts';
import { openJournal } from '../../../electron/services/journal.ts';
import { lockKey, takeLock } from '../../../electron/services/locks.ts';
import { ownMark } from '../../../electron/services/process-mark.ts';
import { hashOf } from '../../../electron/services/read-whole.ts';
import { readVersion } from '../../../electron/services/versions.ts';
import {
  buildChild,
  bytesOf,
  faultyDisk,
  freshFolder,
  handEnv,
  mustOpen,
  openAt,
  preparedCottage,
  quietDesk,
  remove,
  retitle,
  row,
  strays,
  textOf,
  titleEdit,
  wallEnv,
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
afterEach(() => remove(folder));

const inFile = (at = path): Promise<string> => readFile(at, 'utf8');

describe('a save', () => {
  it('[SK1] puts the plan into the file, is clean after it, and writes nothing when nothing changed', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    expect(document.view()).toMatchObject({ unsaved: false, name: 'house.copewright.json', title: 't0' });
    const before = await stat(path);
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved', written: false });
    expect((await stat(path)).ino).toBe(before.ino);
    retitle(document, 't1');
    expect(document.view().unsaved).toBe(true);
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved', written: true });
    expect(document.view().unsaved).toBe(false);
    expect(await inFile()).toBe(textOf('t1'));
    await documents.closeAll();
    expect(await readdir(folder)).toEqual(['house.copewright.json', 'user']);
  });

  it('[SK1] is clean only as far as the snapshot goes; saves asked for at once go one after another', async () => {
    const during: { document: OpenDocument | null; renames: number } = { document: null, renames: 0 };
    const calls = {
      ...REAL_CALLS,
      rename: async (from: string, to: string) => {
        if (to === path) {
          during.renames += 1;
          if (during.renames === 1) retitle(during.document!, 't2');
          expect(await strays(folder)).toHaveLength(1);
        }
        return rename(from, to);
      },
    };
    const documents = openDocuments(handEnv(userData, calls));
    const document = await openAt(documents, path);
    during.document = document;
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(document.view()).toMatchObject({ unsaved: true, title: 't2' });
    expect(await inFile()).toBe(textOf('t1'));
    retitle(document, 't3');
    const many = await Promise.all([document.save('hand'), document.save('hand'), document.save('hand')]);
    expect(many.map((each) => each.outcome === 'saved' && each.written)).toEqual([true, false, false]);
    expect(await inFile()).toBe(textOf('t3'));
    expect(during.renames).toBe(2);
    await documents.closeAll();
  });

  it('[SK7] under one new name twice at once, or there and back, is none of another window', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    const other = join(folder, 'other.copewright.json');
    retitle(document, 't1');
    const twice = await Promise.all([document.saveAs(other), document.saveAs(other)]);
    expect(twice).toMatchObject([{ outcome: 'saved' }, { outcome: 'saved', written: false }]);
    const there = document.saveAs(path);
    retitle(document, 't2');
    expect(await Promise.all([there, document.saveAs(other)])).toMatchObject([
      { outcome: 'saved' },
      { outcome: 'saved' },
    ]);
    expect(document.realPath()).toBe(other);
    expect(document.view().unsaved).toBe(false);
    await documents.closeAll();
  });

  it('[SK1] undoing back to the saved plan makes it clean again', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    const answer = document.edit(0, {
      type: 'patch',
      patches: [{ op: 'replace', path: ['title'], value: 'other' }],
    });
    if (!answer.ok) throw new Error(answer.message);
    expect(document.view().unsaved).toBe(true);
    expect(document.edit(1, answer.inverse)).toMatchObject({ ok: true, unsaved: false });
    await documents.closeAll();
    expect(await openDocuments(handEnv(userData)).offers()).toEqual([]);
  });

  it('refuses edits that are none, out of step, impossible, or for a closed plan', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    const codes = [
      document.edit(0, { type: 'nothing' }),
      document.edit(0, null),
      document.edit(5, { type: 'deleteWall', level: 'L1', wall: 'w1' }),
      document.edit(0, { type: 'deleteWall', level: 'L1', wall: 'constructor' }),
      document.edit(0, { type: 'patch', patches: [{ op: 'replace', path: ['__proto__', 'x'], value: 1 }] }),
      document.edit(0, { type: 'patch', patches: [{ op: 'replace', path: [], value: 7 }] }),
      document.edit(0, {
        type: 'patch',
        patches: [{ op: 'replace', path: ['levels', 0, 'ceilingHeight'], value: null }],
      }),
    ].map((answer) => (answer.ok ? 'ok' : answer.code));
    expect(codes.slice(0, 4)).toEqual(['bad-edit', 'bad-edit', 'out-of-step', 'no-wall']);
    expect(codes.slice(4)).not.toContain('ok');
    expect(document.view()).toMatchObject({ revision: 0, unsaved: false });
    await documents.closeAll();
    expect(document.edit(0, { type: 'joinWalls', level: 'L1', node: 'n1' })).toMatchObject({
      code: 'closed',
    });
  });

  it('[SK1] refuses a plan that holds what is not finite, leaves the file, and takes no other in its place', async () => {
    const env = handEnv(userData);
    const bad = { ...preparedCottage(), builtYear: Number.POSITIVE_INFINITY };
    const hooks = {
      autosaveSeconds: () => null,
      hold: async () => ({ realPath: path, lock: null, known: new Set<string>() }),
      letGo: async () => undefined,
      changed: () => undefined,
    };
    const journal = openJournal(env, {
      title: '',
      bytes: bytesOf(textOf('t0')),
      original: null,
      ours: [],
      savedNowhere: false,
    });
    const document = openDocument(env, hooks, {
      handle: 'h',
      plan: bad,
      saved: null,
      file: { realPath: path, lock: null, known: new Set() },
      journal,
      autosaveStopped: null,
    });
    expect(await document.save('hand')).toMatchObject({
      outcome: 'refused',
      message: expect.stringMatching(/builtYear/),
    });
    expect(await document.takeTheirs()).toEqual({
      outcome: 'refused',
      message: expect.stringMatching(
        /^Yours holds what no file can hold and cannot be kept \(.*builtYear.*\)\. Theirs was not taken\.$/,
      ),
    });
    expect(await inFile()).toBe(textOf('t0'));
    await journal.close(false);
  });

  it('[SK4] keeps mode bits; a link stays a link to the same file', async () => {
    const link = join(folder, 'link.copewright.json');
    await chmod(path, 0o660);
    // Root alone may have another's file, and must leave it theirs.
    const owner = process.getuid?.() === 0 ? 65534 : (process.getuid?.() ?? 0);
    await chown(path, owner, -1);
    await symlink(path, link);
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, link);
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect((await lstat(link)).isSymbolicLink()).toBe(true);
    expect((await stat(path)).mode & 0o777).toBe(0o660);
    expect((await stat(path)).uid).toBe(owner);
    expect(await inFile()).toBe(textOf('t1'));
    await documents.closeAll();
    row('symlink', 'saved through it; link and mode 0660 kept');
  });
});

describe('[SK2] a file that another program changed', () => {
  it('is noticed by its hash even where size and time are as they were; nothing is written', async () => {
    const documents = openDocuments(handEnv(userData));
    await utimes(path, 1_800_000_000, 1_800_000_000);
    const document = await openAt(documents, path);
    const before = await stat(path);
    await writeFile(path, textOf('tX'));
    await utimes(path, before.atime, before.mtime);
    const now = await stat(path);
    expect([now.size, now.mtimeMs]).toEqual([before.size, before.mtimeMs]);
    expect(await document.look()).toBe('changed');
    retitle(document, 't1');
    const outcome = await document.save('hand');
    expect(outcome.outcome).toBe('conflict');
    expect(await inFile()).toBe(textOf('tX'));
    expect(document.view().unsaved).toBe(true);
    row('changed by another program, size and time kept', 'conflict, nothing written');

    // Keep mine: only over what the user was told of.
    const theirs = outcome.outcome === 'conflict' ? outcome.theirs : '';
    await writeFile(path, textOf('tY'));
    const later = await document.keepMine(theirs);
    expect(later.outcome).toBe('conflict');
    expect(await inFile()).toBe(textOf('tY'));
    const again = await document.keepMine(later.outcome === 'conflict' ? later.theirs : '');
    expect(again).toMatchObject({ outcome: 'saved', written: true });
    expect(await inFile()).toBe(textOf('t1'));
    const texts = async () =>
      Promise.all(
        (await documents.versions(document.view().handle)).map(async ({ id }) =>
          Buffer.from((await readVersion(handEnv(userData), id))!).toString(),
        ),
      );
    expect(await texts()).toEqual([textOf('t1'), textOf('tY')]);
    // What was promised to be kept is not pushed out by the saves that follow.
    for (let i = 2; i <= 9; i += 1) {
      retitle(document, `t${i}`);
      await document.save('auto');
    }
    expect(await texts()).toEqual(['t9', 't8', 't7', 't6', 't5', 'tY'].map((title) => textOf(title)));
    await documents.closeAll();
  });

  it('just before the old file goes is noticed as well', async () => {
    const disk = faultyDisk();
    let armed = false;
    const calls = {
      ...disk.calls,
      open: async (at: string, flags: string | number, mode?: number) => {
        if (armed && flags === 'wx' && at.startsWith(`${folder}/.copewright-`))
          await writeFile(path, textOf('tX'));
        return disk.calls.open(at, flags, mode);
      },
    };
    const documents = openDocuments(handEnv(userData, calls));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    armed = true;
    expect(await document.save('hand')).toMatchObject({ outcome: 'conflict' });
    expect(await inFile()).toBe(textOf('tX'));
    expect(await strays(folder)).toEqual([]);
    await documents.closeAll();
  });

  it('is no conflict of its own file where it was to be saved under that name: what is there is left, and so is ours', async () => {
    const other = join(folder, 'other.copewright.json');
    let meddle = false;
    const calls = {
      ...REAL_CALLS,
      open: async (at: string, flags: string | number, mode?: number) => {
        if (meddle && flags === 'wx' && at.startsWith(`${folder}/.`)) {
          meddle = false;
          await writeFile(other, textOf('theirs, later'));
        }
        return REAL_CALLS.open(at, flags, mode);
      },
    };
    const documents = openDocuments(handEnv(userData, calls));
    const document = await openAt(documents, path);
    await writeFile(other, textOf('theirs'));
    retitle(document, 'mine');
    meddle = true;
    expect(await document.saveAs(other)).toEqual({
      outcome: 'refused',
      message: 'other.copewright.json was changed by another program meanwhile; choose again.',
      elsewhere: true,
    });
    expect([await inFile(), await inFile(other)]).toEqual([textOf('t0'), textOf('theirs, later')]);
    expect(document.view()).toMatchObject({ name: 'house.copewright.json', unsaved: true });
    await documents.closeAll();
  });

  it('[SK10] is not written over, nor is another plan, where no version of it can be kept first', async () => {
    const full = Object.assign(new Error('made to fail'), { code: 'ENOSPC' });
    const calls = {
      ...REAL_CALLS,
      mkdir: async (at: string) => {
        if (at.includes('/versions/')) throw full;
        await REAL_CALLS.mkdir(at);
      },
    };
    const documents = openDocuments(handEnv(userData, calls));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await writeFile(path, textOf('theirs'));
    const other = join(folder, 'other.copewright.json');
    await writeFile(other, textOf('other'));
    const conflict = await document.save('hand');
    if (conflict.outcome !== 'conflict') throw new Error(JSON.stringify(conflict));
    for (const outcome of [await document.keepMine(conflict.theirs), await document.saveAs(other)])
      expect(outcome).toMatchObject({ outcome: 'refused', message: expect.stringContaining('disk is full') });
    expect([await inFile(), await inFile(other)]).toEqual([textOf('theirs'), textOf('other')]);
    expect(document.view().unsaved).toBe(true);
    await documents.closeAll();
  });

  it('take theirs: it becomes the plan, ours is kept as a version', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env);
    const document = await openAt(documents, path);
    retitle(document, 'mine');
    await writeFile(path, textOf('theirs'));
    expect(await document.takeTheirs()).toMatchObject({ outcome: 'taken', plan: { title: 'theirs' } });
    expect(document.view()).toMatchObject({ unsaved: false, title: 'theirs', revision: 2 });
    const [version] = await documents.versions(document.view().handle);
    expect(mustOpen(await documents.openVersion(version!.id)).plan.title).toBe('mine');
    // An edit that comes while ours is being kept is not thrown away.
    retitle(document, 'mine again');
    await writeFile(path, textOf('theirs 2'));
    const taking = document.takeTheirs();
    await new Promise((resolve) => setImmediate(resolve));
    retitle(document, 'later');
    const taken = await taking;
    expect(taken.outcome).toBe('refused');
    expect(document.view().title).toBe('later');
    expect(await document.takeTheirs()).toMatchObject({ outcome: 'taken', plan: { title: 'theirs 2' } });
    await writeFile(path, '{');
    expect(await document.takeTheirs()).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('1:2'),
    });
    expect(document.view().title).toBe('theirs 2');
    await documents.closeAll();
    expect(await document.save('hand')).toMatchObject({ outcome: 'refused' });
  });

  it('take theirs, where ours cannot be kept first: theirs is not taken, and what is said is of ours', async () => {
    let full = false;
    const open: typeof REAL_CALLS.open = async (at, ...how) => {
      if (full && at.startsWith(join(userData, 'versions')))
        throw Object.assign(new Error('full'), { code: 'ENOSPC' });
      return REAL_CALLS.open(at, ...how);
    };
    const documents = openDocuments(handEnv(userData, { ...REAL_CALLS, open }));
    const document = await openAt(documents, path);
    await writeFile(path, textOf('theirs'));
    retitle(document, 'mine');
    full = true;
    expect(await document.takeTheirs()).toEqual({
      outcome: 'refused',
      message:
        "Yours cannot be kept: the program's own folder does not fit: the disk is full; free some space or choose another disk. Theirs was not taken.",
    });
    expect(document.view()).toMatchObject({ unsaved: true, title: 'mine' });
    full = false;
    expect(await document.takeTheirs()).toMatchObject({ outcome: 'taken', plan: { title: 'theirs' } });
    await documents.closeAll();
  });

  it('save beside: a new name in the same folder, never one that is taken; theirs stays', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    retitle(document, 'mine');
    await writeFile(path, textOf('theirs'));
    await writeFile(join(folder, 'house (2).copewright.json'), 'taken');
    expect(await document.saveBeside()).toMatchObject({ outcome: 'saved' });
    expect(await inFile()).toBe(textOf('theirs'));
    expect(await inFile(join(folder, 'house (2).copewright.json'))).toBe('taken');
    expect(await inFile(join(folder, 'house (3).copewright.json'))).toBe(textOf('mine'));
    expect(document.view()).toMatchObject({ name: 'house (3).copewright.json', unsaved: false });
    // The file that was let go can be opened again.
    expect((await documents.open(path)).outcome).toBe('opened');
    await documents.closeAll();
  });

  it('autosave stops in a conflict and after an error until a save by hand, and never puts back a file that is gone', async () => {
    const env = handEnv(userData);
    const documents = openDocuments(env, { autosaveSeconds: () => 30 });
    const document = await openAt(documents, path);
    const autosave = async (title: string): Promise<void> => {
      retitle(document, title);
      env.fire(30_000);
      await document.look();
    };
    await autosave('t1');
    expect(await inFile()).toBe(textOf('t1'));
    await writeFile(path, textOf('theirs'));
    await autosave('t2');
    expect(document.view().autosaveStopped).toContain('changed by another program');
    await writeFile(path, textOf('t1'));
    await autosave('t3');
    expect(env.waiting()).not.toContain(30_000);
    expect(await inFile()).toBe(textOf('t1'));
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(document.view().autosaveStopped).toBeNull();
    await unlink(path);
    await autosave('t4');
    expect(await readdir(folder)).toEqual(['user']);
    expect(document.view().autosaveStopped).toContain('no longer where it was');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(await inFile()).toBe(textOf('t4'));
    await documents.closeAll();
  });
});

describe('autosave is on its way', () => {
  /** A disk that calls `during` once, in the middle of a save. */
  function meddled(): { calls: typeof REAL_CALLS; during: (() => void) | null } {
    const meddle = {
      during: null as (() => void) | null,
      calls: {
        ...REAL_CALLS,
        rename: async (from: string, to: string) => {
          if (to.endsWith('.copewright.json')) {
            const { during } = meddle;
            meddle.during = null;
            during?.();
          }
          await rename(from, to);
        },
      },
    };
    return meddle;
  }

  it('after edits that came during the save by hand that lifted its stop', async () => {
    const disk = meddled();
    const env = handEnv(userData, disk.calls);
    const documents = openDocuments(env, { autosaveSeconds: () => 30 });
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await unlink(path);
    env.fire(30_000);
    await document.look();
    expect(document.view().autosaveStopped).not.toBeNull();
    disk.during = () => retitle(document, 't2');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(document.view().unsaved).toBe(true);
    env.fire(30_000);
    await document.look();
    expect(await inFile()).toBe(textOf('t2'));
    await documents.closeAll();
  });

  it('after edits that came while a plan was given its first file', async () => {
    const disk = meddled();
    const env = handEnv(userData, disk.calls);
    const documents = openDocuments(env, { autosaveSeconds: () => 30 });
    const { document } = mustOpen(await documents.openBytes('dropped', bytesOf(textOf('t1')), true));
    disk.during = () => retitle(document, 't2');
    expect(await document.saveAs(path)).toMatchObject({ outcome: 'saved' });
    env.fire(30_000);
    await document.look();
    expect(await inFile()).toBe(textOf('t2'));
    await documents.closeAll();
  });

  it('for what was edited before it was switched on, and not once it is switched off', async () => {
    const env = handEnv(userData);
    const desk = quietDesk({ env, home: folder, file: path });
    const { opened } = (await desk.handle('start', {})) as { opened: { view: { handle: string } } };
    const { handle } = opened.view;
    await desk.handle('edit', { handle, revision: 0, edit: titleEdit('t1') });
    await desk.handle('setPreferences', { autosaveSeconds: 30 });
    expect(env.waiting()).toContain(30_000);
    await desk.handle('setPreferences', { autosaveSeconds: null });
    expect(env.waiting()).not.toContain(30_000);
    await desk.handle('setPreferences', { autosaveSeconds: 10 });
    env.fire(10_000);
    await expect.poll(() => inFile()).toBe(textOf('t1'));
    expect(await desk.end()).toBe(true);
  });
});

describe('[SK13] a plan of a newer version', () => {
  it('is refused in one sentence and never written over: by opening, saving as, or keeping mine', async () => {
    const newer = textOf('t0').replace('"version": 1', '"version": 2');
    const other = join(folder, 'newer.copewright.json');
    await writeFile(other, newer);
    const documents = openDocuments(handEnv(userData));
    expect(await documents.open(other)).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('newer version'),
      lastGood: null,
    });
    const document = await openAt(documents, path);
    retitle(document, 't1');
    expect(await document.saveAs(other)).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('never written over'),
    });
    await writeFile(path, newer);
    expect(await document.save('hand')).toMatchObject({ outcome: 'refused' });
    // Whatever the window says that the user was told of.
    expect(await document.keepMine(hashOf(newer))).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('never written over'),
    });
    expect([await inFile(other), await inFile()]).toEqual([newer, newer]);
    expect(await document.saveBeside()).toMatchObject({ outcome: 'saved' });
    await documents.closeAll();
  });

  it('is known wherever its version stands, and also where the rest of it is nothing that we read', async () => {
    const whole = textOf('t0').replace('"version": 1', '"version": 2');
    const { format, version, ...rest } = JSON.parse(whole) as Record<string, unknown>;
    const files = [
      JSON.stringify({ ...rest, version, format }),
      whole.slice(0, whole.length / 2),
      `\ufeff${whole}`,
      whole.replace('"version": 2', `"version": 2, "deep": ${'['.repeat(500)}${']'.repeat(500)}`),
    ];
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    for (const [i, text] of files.entries()) {
      retitle(document, `mine ${i}`);
      await writeFile(path, text);
      for (const outcome of [await document.save('hand'), await document.keepMine(hashOf(text))])
        expect(outcome, text.slice(0, 60)).toMatchObject({
          outcome: 'refused',
          message: expect.stringContaining('newer version'),
        });
      expect(await inFile()).toBe(text);
    }
    // What only says so in a title is no newer plan.
    await writeFile(path, textOf('"version": 2'));
    const conflict = await document.save('hand');
    expect(conflict.outcome).toBe('conflict');
    await documents.closeAll();
  });
});

describe('[SK1] whichever file operation fails', () => {
  for (const forGood of [false, true]) {
    it(`${forGood ? 'and all after it' : 'once'}: old or new, still unsaved, a sentence, and later a good save`, async () => {
      const disk = faultyDisk();
      let failed = 0;
      let survived = 0;
      for (let k = 1; ; k += 1) {
        const at = join(folder, `k${k}.copewright.json`);
        await writeFile(at, textOf('t0'));
        const documents = openDocuments(handEnv(join(folder, `user-${k}`), disk.calls));
        disk.disarm();
        const document = await openAt(documents, at);
        retitle(document, 't1');
        disk.arm(k, forGood, k % 2 === 0 ? 'EIO' : 'EPERM');
        const outcome = await document.save('hand');
        const struck = disk.struck();
        disk.disarm();
        const text = await inFile(at);
        expect([textOf('t0'), textOf('t1')], `k = ${k}`).toContain(text);
        if (outcome.outcome === 'saved') {
          survived += struck ? 1 : 0;
          expect(text).toBe(textOf('t1'));
          expect(document.view().unsaved).toBe(false);
        } else {
          failed += 1;
          expect(outcome.outcome, `k = ${k}`).toBe('refused');
          expect(outcome.message).toMatch(/^k\d+\.copewright\.json [^\n]*\.$/);
          expect(outcome.message).not.toContain(folder);
          expect(document.view().unsaved).toBe(true);
          // The disk is well again. What a failed try put there is ours, not another's.
          if (k % 3 !== 0) retitle(document, 't2');
          expect(await document.save('hand'), `k = ${k}`).toMatchObject({ outcome: 'saved' });
          expect(await inFile(at)).toBe(textOf(document.view().title));
        }
        await documents.sweep([folder]);
        await documents.closeAll();
        expect((await strays(folder)).length, `k = ${k}`).toBeLessThanOrEqual(forGood ? 1 : 0);
        await unlink(at);
        for (const stray of await strays(folder)) await unlink(join(folder, stray));
        if (!struck) break;
      }
      row(
        `k-th file operation of a save fails ${forGood ? 'for good' : 'once'}`,
        `${failed + survived} operations; ${failed} refused with a sentence, ${survived} not needed for the save; file old or new each time`,
      );
      expect(failed).toBeGreaterThanOrEqual(10);
    });
  }

  it('rename refused, folder removed: the plan stays open and unsaved, and is saved when the folder is back', async () => {
    const disk = faultyDisk();
    const calls = {
      ...disk.calls,
      rename: async (from: string, to: string) => {
        if (to === path) throw Object.assign(new Error('no'), { code: 'EPERM' });
        return rename(from, to);
      },
    };
    const documents = openDocuments(handEnv(userData, calls));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    const refused = await document.save('hand');
    expect(refused).toMatchObject({ outcome: 'refused', elsewhere: true });
    expect(await inFile()).toBe(textOf('t0'));
    expect(await strays(folder)).toEqual([]);
    row('rename refused', refused.outcome === 'refused' ? refused.message : '');
    await documents.closeAll();

    const house = join(folder, 'house');
    await mkdir(house);
    const inside = join(house, 'a.copewright.json');
    await copyFile(path, inside);
    const again = openDocuments(handEnv(userData));
    const other = await openAt(again, inside);
    retitle(other, 't2');
    await rm(house, { recursive: true });
    const gone = await other.save('hand');
    expect(gone).toMatchObject({ outcome: 'refused' });
    expect(other.view().unsaved).toBe(true);
    expect(await other.look()).toBe('gone');
    row('folder removed', gone.outcome === 'refused' ? gone.message : '');
    const elsewhere = join(folder, 'elsewhere.copewright.json');
    expect(await other.saveAs(elsewhere)).toMatchObject({ outcome: 'saved' });
    expect(await inFile(elsewhere)).toBe(textOf('t2'));
    await again.closeAll();
  });

  it('[SK1] what reads back otherwise than it was written is no save', async () => {
    const calls = {
      ...REAL_CALLS,
      rename: async (from: string, to: string) => {
        await rename(from, to);
        if (to === path) await writeFile(path, 'spoiled');
      },
    };
    const documents = openDocuments(handEnv(userData, calls));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('does not read back'),
    });
    expect(document.view().unsaved).toBe(true);
    expect(await document.flush()).toBe(true);
    await document.close();
    expect(await openDocuments(handEnv(userData)).offers()).toMatchObject([
      { edits: 1, original: 'changed' },
    ]);
  });

  it('[SK8] a clean plan whose file is deleted counts as unsaved, and closing keeps it', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    await unlink(path);
    expect(await document.look()).toBe('gone');
    expect(document.view().unsaved).toBe(true);
    expect(await document.close()).toEqual({ outcome: 'closed', kept: true });
    const later = openDocuments(handEnv(userData));
    const [offer] = await later.offers();
    expect(offer).toMatchObject({ original: 'gone', edits: 0 });
    const recovered = mustOpen(await later.recover(offer!.id));
    expect(await recovered.document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(await inFile()).toBe(textOf('t0'));
    await later.closeAll();
  });
});

describe('[SK7] one holder of a file', () => {
  it('in one program: the same path, a link, and two at once show the window that has it', async () => {
    const link = join(folder, 'link.copewright.json');
    await symlink(path, link);
    const documents = openDocuments(handEnv(userData));
    const outcomes = await Promise.all([documents.open(path), documents.open(link), documents.open(path)]);
    expect(outcomes.map((each) => each.outcome)).toEqual(['opened', 'shown', 'shown']);
    const other = join(folder, 'other.copewright.json');
    await copyFile(path, other);
    const second = await openAt(documents, other);
    expect(await second.saveAs(link)).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('open in another window'),
    });
    expect(await documents.openCopy(path)).toMatchObject({ outcome: 'opened', view: { name: null } });
    await documents.closeAll();
    expect((await documents.open(link)).outcome).toBe('opened');
    await documents.closeAll();
  });

  it('a file that became a link since it was opened: the save goes to what it leads to, which is held from then on', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    const real = join(folder, 'real.copewright.json');
    await rename(path, real);
    await symlink(real, path);
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved', file: { realPath: real } });
    expect(await inFile(real)).toBe(textOf('t1'));
    expect((await lstat(path)).isSymbolicLink()).toBe(true);
    const { handle, name } = document.view();
    expect(name).toBe('real.copewright.json');
    expect(await documents.open(real)).toEqual({ outcome: 'shown', handle });
    expect(await documents.open(path)).toEqual({ outcome: 'shown', handle });
    // The old name is held no more.
    await unlink(path);
    await writeFile(path, textOf('another'));
    expect((await documents.open(path)).outcome).toBe('opened');
    await documents.closeAll();
  });

  it('a file that became a link to one that is open elsewhere, or that others wrote, is not saved over it', async () => {
    const documents = openDocuments(handEnv(userData));
    const document = await openAt(documents, path);
    const other = join(folder, 'other.copewright.json');
    await rename(path, other);
    await symlink(other, path);
    const second = await openAt(documents, other);
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({
      outcome: 'refused',
      message: 'other.copewright.json is open in another window; choose another name or close it there.',
      elsewhere: true,
    });
    expect(await inFile(other)).toBe(textOf('t0'));
    await documents.close(second.view().handle);
    await writeFile(other, textOf('theirs'));
    const conflict = await document.save('hand');
    if (conflict.outcome !== 'conflict') throw new Error(JSON.stringify(conflict));
    expect(await inFile(other)).toBe(textOf('theirs'));
    // What was only tried is not held.
    const again = await openAt(documents, other);
    await documents.close(again.view().handle);
    expect(await document.keepMine(conflict.theirs)).toMatchObject({ outcome: 'saved' });
    expect(await inFile(other)).toBe(textOf('t1'));
    await documents.closeAll();
  });

  it('two programs: the second is told; a killed one holds nothing; a process id given again does not count', async () => {
    const program = await buildChild(folder);
    const child = spawn(process.execPath, [program, 'hold', userData, path], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    await new Promise<void>((resolve) => child.stdout.once('data', () => resolve()));
    const documents = openDocuments(wallEnv(userData));
    const held = await documents.open(path);
    expect(held).toMatchObject({
      outcome: 'held',
      message: expect.stringContaining('another running copy'),
    });
    const link = join(folder, 'link.copewright.json');
    await symlink(path, link);
    expect((await documents.open(link)).outcome).toBe('held');
    const locks = () => readdir(join(userData, 'locks'));
    await documents.sweep([]);
    expect(await locks()).toHaveLength(1);
    child.kill('SIGKILL');
    await new Promise((resolve) => child.once('close', resolve));
    expect((await documents.open(path)).outcome).toBe('opened');
    await documents.closeAll();
    expect(await locks()).toEqual([]);

    const { host, pid } = ownMark();
    const given = (key: string) => `${key}.${host}-${pid}-${'ab'.repeat(4)}.${'0'.repeat(16)}.lock`;
    await writeFile(join(userData, 'locks', given(lockKey('file', path))), '');
    expect((await documents.open(path)).outcome).toBe('opened');
    await documents.closeAll();
    // Nor does it stay where nobody asks for what it held.
    await writeFile(join(userData, 'locks', given(lockKey('journal', '0123456789abcdef'))), '');
    await documents.sweep([]);
    expect(await locks()).toEqual([]);
    row(
      'two holders on one file',
      'held by path and by link; free after kill -9; process id given again: free',
    );
  });

  it('of many that want a lock at once at most one gets it', async () => {
    const env = wallEnv(userData);
    for (let i = 0; i < 20; i += 1) {
      const key = lockKey('file', `race ${i}`);
      const locks = await Promise.all(Array.from({ length: 6 }, () => takeLock(env, key)));
      expect(locks.filter((lock) => lock !== null).length).toBeLessThanOrEqual(1);
      for (const lock of locks) await lock?.release();
      const after = await takeLock(env, key);
      expect(after).not.toBeNull();
      await after?.release();
    }
  });
});
