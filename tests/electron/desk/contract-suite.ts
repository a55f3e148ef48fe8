// What every form of the program owes the window, as one suite: the contract's calls from the outside, whatever carries
// them. Each case starts on folders of its own.

import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { apply } from '../../../core/edit/index.ts';
import type { Plan } from '../../../core/plan/index.ts';
import type { Answer, OpenAnswer, OpenedPlan, PlaceAnswer } from '../../../electron/contract.ts';
import { freshFolder, preparedCottage, remove, textOf, titleEdit } from '../services/helpers.ts';
import type { Host, OpenHost } from './hosts.ts';

const DAY = { sheet: 'letter', date: '2026-01-31' } as const;

function opened(answer: OpenAnswer | null): OpenedPlan {
  if (answer?.outcome !== 'opened') throw new Error(`not opened: ${JSON.stringify(answer)}`);
  return answer;
}

function place(answer: PlaceAnswer) {
  if (answer.outcome !== 'place') throw new Error(answer.message);
  return answer.place;
}

export function contractSuite(name: string, openHost: OpenHost): void {
  describe(`the contract over ${name}`, () => {
    let folder: string;
    let home: string;
    let host: Host;
    let hosts: Host[];

    const file = (of = 'house'): string => join(home, `${of}.copewright.json`);
    const start = async (named: string | null = null): Promise<Host> => {
      host = await openHost({ folder, file: named });
      hosts.push(host);
      return host;
    };
    const retitle = (handle: string, revision: number, title: string): Promise<Answer<'edit'>> =>
      host.call('edit', { handle, revision, edit: titleEdit(title) });

    beforeEach(async () => {
      folder = await freshFolder();
      home = join(folder, 'home');
      hosts = [];
      await mkdir(home);
      await writeFile(file(), textOf('t0'));
    });
    afterEach(async () => {
      for (const each of hosts) await each.end();
      await remove(folder);
    });

    it('a start without a file: version, preferences, nothing open, nothing to recover', async () => {
      await start();
      expect(await host.call('start', {})).toEqual({
        version: host.version,
        preferences: {
          units: 'imperial',
          theme: 'system',
          autosaveSeconds: null,
          angleStepDeg: 15,
          gridMm: null,
        },
        recent: [],
        offers: [],
        opened: null,
      });
    });

    it('a start with a file opens it, puts it on the recent list, and tells names, never a path', async () => {
      await start(file());
      const first = await host.call('start', {});
      const { view, plan } = opened(first.opened);
      expect(plan).toEqual(preparedCottage('t0'));
      expect(view).toMatchObject({ name: 'house.copewright.json', title: 't0', revision: 0, unsaved: false });
      const again = await host.call('start', {});
      expect(again.recent).toMatchObject([{ name: 'house.copewright.json', folder: 'home' }]);
      expect(JSON.stringify([first, again])).not.toContain(folder);
    });

    it('a file that cannot be read is told at the start, in one sentence', async () => {
      await start(file('nowhere'));
      expect((await host.call('start', {})).opened).toMatchObject({
        outcome: 'refused',
        message: 'nowhere.copewright.json is not there; check the name and the folder.',
      });
    });

    it('edits go one by one, are told as events, and one out of step is not done', async () => {
      await start(file());
      const { view, plan } = opened((await host.call('start', {})).opened);
      const { handle } = view;
      const one = await retitle(handle, 0, 't1');
      expect(one).toMatchObject({ ok: true, revision: 1, unsaved: true });
      expect(await retitle(handle, 0, 't2')).toMatchObject({ ok: false, code: 'out-of-step' });
      const back = one.ok ? one.inverse : null;
      expect(await host.call('edit', { handle, revision: 1, edit: back })).toMatchObject({
        ok: true,
        unsaved: false,
      });
      expect((await host.call('plan', { handle }))?.plan).toEqual(plan);
      await expect
        .poll(() => host.heard.filter(({ event }) => event === 'changed').map(({ data }) => data))
        .toEqual([
          expect.objectContaining({ handle, revision: 1, title: 't1', unsaved: true }),
          expect.objectContaining({ handle, revision: 2, title: 't0', unsaved: false }),
        ]);
      for (const bad of [null, 7, {}, { type: 'explode' }, { ...titleEdit('x'), more: 1 }]) {
        expect(await host.call('edit', { handle, revision: 2, edit: bad })).toMatchObject({
          ok: false,
          code: 'bad-edit',
        });
      }
      const other = '0'.repeat(32);
      expect(await host.call('edit', { handle: other, revision: 0, edit: titleEdit('x') })).toMatchObject({
        ok: false,
        code: 'closed',
      });
      expect(await host.call('plan', { handle: other })).toBeNull();
    });

    it('after the window is loaded again it has the same plan, and can still undo', async () => {
      await start(file());
      const { view } = opened((await host.call('start', {})).opened);
      for (const [n, title] of ['t1', 't2', 't3'].entries()) {
        const done = await retitle(view.handle, n, title);
        // Sent once more, as where its answer was lost, it is no other edit and no other step.
        expect(await retitle(view.handle, n, title)).toEqual(done);
      }
      const again = opened((await host.call('start', {})).opened);
      expect(again.view).toMatchObject({ handle: view.handle, revision: 3, unsaved: true, title: 't3' });
      expect(again.history.length).toBe(3);
      let plan: Plan = again.plan;
      for (const { inverse } of again.history.toReversed()) {
        const undone = apply(plan, inverse);
        if (!undone.ok) throw new Error(undone.message);
        plan = undone.plan;
      }
      expect(plan.title).toBe('t0');
    });

    it('save writes the file; look tells of others, and nothing of theirs is written over unasked', async () => {
      await start(file());
      const { handle } = opened((await host.call('start', {})).opened).view;
      await retitle(handle, 0, 't1');
      expect(await host.call('save', { handle })).toEqual({
        outcome: 'saved',
        name: 'house.copewright.json',
      });
      expect(await readFile(file(), 'utf8')).toBe(textOf('t1'));
      expect(await host.call('look', { handle })).toBe('same');
      await writeFile(file(), textOf('theirs'));
      expect(await host.call('look', { handle })).toBe('changed');
      await retitle(handle, 1, 't2');
      const conflict = await host.call('save', { handle });
      if (conflict.outcome !== 'conflict') throw new Error(conflict.outcome);
      expect(await readFile(file(), 'utf8')).toBe(textOf('theirs'));
      expect(await host.call('saveBeside', { handle })).toEqual({
        outcome: 'saved',
        name: 'house (2).copewright.json',
      });
      expect(await readFile(file(), 'utf8')).toBe(textOf('theirs'));
      expect(await readFile(file('house (2)'), 'utf8')).toBe(textOf('t2'));
    });

    it('keep mine is for what was told only; take theirs gives their plan and keeps ours as a version', async () => {
      await start(file());
      const { handle } = opened((await host.call('start', {})).opened).view;
      await retitle(handle, 0, 'mine');
      await writeFile(file(), textOf('theirs'));
      const conflict = await host.call('save', { handle });
      if (conflict.outcome !== 'conflict') throw new Error(conflict.outcome);
      await writeFile(file(), textOf('later'));
      expect((await host.call('keepMine', { handle, theirs: conflict.theirs })).outcome).toBe('conflict');
      const taken = await host.call('takeTheirs', { handle });
      expect(taken).toMatchObject({ outcome: 'taken', plan: { title: 'later' }, view: { unsaved: false } });
      const versions = await host.call('versions', { handle });
      expect(versions.length).toBeGreaterThan(0);
      const mine = opened(await host.call('openVersion', { id: versions[0]!.id }));
      expect(mine.view).toMatchObject({ name: null, unsaved: true, title: 'mine' });
      expect(await host.call('openVersion', { id: 'no-such-version' })).toMatchObject({ outcome: 'refused' });
    });

    it('new plans and demo houses are untitled copies; the demo files are never written', async () => {
      await start();
      const fresh = opened(await host.call('newPlan', { units: 'metric' }));
      expect(fresh.view).toMatchObject({ name: null, unsaved: false });
      expect(fresh.plan.units).toBe('metric');
      const demo = opened(await host.call('openDemo', { house: 'thimble-cottage' }));
      expect(demo.view).toMatchObject({ name: null, unsaved: false });
      expect(demo.plan.levels.length).toBeGreaterThan(0);
      expect(await host.call('close', { handle: demo.view.handle, lose: false })).toEqual({
        outcome: 'closed',
        kept: false,
      });
      expect(await host.call('offers', {})).toEqual([]);
    });

    it('dropped text opens untitled, and what is no plan is refused by its name', async () => {
      await start();
      const dropped = opened(
        await host.call('openText', { name: 'dropped.copewright.json', text: textOf('dropped') }),
      );
      expect(dropped.view).toMatchObject({ name: null, unsaved: true, title: 'dropped' });
      const bad = await host.call('openText', { name: '/etc/notes.txt', text: 'hello' });
      expect(bad).toMatchObject({ outcome: 'refused', message: expect.stringMatching(/^notes\.txt: /) });
    });

    it('dropped text that was closed without saving is offered at the next start, and is the same plan', async () => {
      await start();
      await host.call('openText', { name: 'dropped.copewright.json', text: textOf('dropped') });
      await host.end();
      await start();
      const { offers } = await host.call('start', {});
      expect(offers).toMatchObject([
        { title: 'dropped', name: null, edits: 0, original: 'none', torn: false, unreadable: false },
      ]);
      const { view, plan } = opened(await host.call('recover', { id: offers[0]!.id }));
      expect(view).toMatchObject({ name: null, unsaved: true });
      expect(plan).toEqual(preparedCottage('dropped'));
      const { id } = place(await host.call('places', { id: null }));
      const where = { handle: view.handle, place: id, name: 'dropped', over: false };
      expect(await host.call('savePlace', where)).toMatchObject({ outcome: 'saved' });
      expect(await readFile(file('dropped'), 'utf8')).toBe(textOf('dropped'));
      await host.end();
      await start();
      expect((await host.call('start', {})).offers).toEqual([]);
    });

    it('a file that is open already is shown, by whatever name it is reached', async () => {
      await start(file());
      const { handle } = opened((await host.call('start', {})).opened).view;
      await symlink(file(), join(home, 'another.copewright.json'));
      const { entries } = place(await host.call('places', { id: null }));
      for (const entry of entries.filter(({ kind }) => kind === 'plan')) {
        expect(await host.call('openPlace', { id: entry.id })).toEqual({ outcome: 'shown', handle });
      }
      const [recent] = await host.call('recent', {});
      expect(await host.call('openRecent', { id: recent!.id })).toEqual({ outcome: 'shown', handle });
    });

    it('a second copy of the program on the same file is told, and may have a copy of it', async () => {
      const first = await start(file());
      await first.call('start', {});
      await start(file());
      const held = (await host.call('start', {})).opened;
      if (held?.outcome !== 'held') throw new Error(JSON.stringify(held));
      expect(held.message).toMatch(/^house\.copewright\.json is open in another running copy/);
      const copy = opened(await host.call('openPlaceCopy', { id: held.id! }));
      expect(copy.view).toMatchObject({ name: null, unsaved: true });
      await first.end();
      const [recent] = await host.call('recent', {});
      expect(opened(await host.call('openRecent', { id: recent!.id })).view.unsaved).toBe(false);
    });

    it('unsaved work is kept at the end, offered by its name at the next start, and recovered with its undo', async () => {
      await start(file());
      const { handle } = opened((await host.call('start', {})).opened).view;
      await retitle(handle, 0, 't1');
      await host.end();
      await start();
      const [offer] = (await host.call('start', {})).offers;
      expect(offer).toMatchObject({ name: 'house.copewright.json', edits: 1, original: 'same' });
      expect(JSON.stringify(offer)).not.toContain(home);
      const recovered = opened(await host.call('recover', { id: offer!.id }));
      expect(recovered.view).toMatchObject({ unsaved: true, title: 't1', name: 'house.copewright.json' });
      expect(recovered.history.length).toBe(1);
      expect(await readFile(file(), 'utf8')).toBe(textOf('t0'));
      expect(await host.call('offers', {})).toEqual([]);
    });

    it('[SK11] offered work can be thrown away as it was shown, not what came since; then it is gone', async () => {
      await start();
      const { handle } = opened(await host.call('newPlan', { units: 'metric' })).view;
      await retitle(handle, 0, 'never saved');
      expect(await host.call('close', { handle, lose: false })).toEqual({ outcome: 'closed', kept: true });
      const listed = async () => {
        const [offer] = await host.call('offers', {});
        const { title: _title, name: _name, ...shown } = offer!;
        return shown;
      };
      expect(await host.call('offers', {})).toMatchObject([
        { name: null, original: 'none', title: expect.any(String) },
      ]);
      const shown = await listed();
      const again = opened(await host.call('recover', { id: shown.id })).view;
      expect(await host.call('discardRecovery', shown)).toBe('open');
      await retitle(again.handle, again.revision, 'gone on with elsewhere');
      await host.call('close', { handle: again.handle, lose: false });
      expect(await host.call('discardRecovery', shown)).toBe('changed');
      const now = await listed();
      expect(now).toMatchObject({ id: shown.id, edits: shown.edits + 1 });
      expect(await host.call('discardRecovery', now)).toBe('discarded');
      expect(await host.call('offers', {})).toEqual([]);
      expect(await host.call('discardRecovery', now)).toBe('gone');
      expect(await host.call('recover', { id: now.id })).toMatchObject({
        outcome: 'refused',
        message: 'This work is open in another window, or is no longer there.',
      });
      expect(await host.call('discardRecovery', { ...now, id: '../../home' })).toBe('gone');
      expect(existsSync(file())).toBe(true);
    });

    it('places: folders, plans and other files by name; hidden ones and pipes left out; no path in it', async () => {
      await mkdir(join(home, 'jobs', 'deeper'), { recursive: true });
      await mkdir(join(home, '.hidden'));
      await writeFile(join(home, 'notes.txt'), '');
      await writeFile(join(home, '.secret'), '');
      await symlink('/nowhere', join(home, 'broken'));
      await symlink(join(home, 'jobs'), join(home, 'link to jobs'));
      await start();
      const here = place(await host.call('places', { id: null }));
      expect(here.entries.map(({ name: each, kind }) => [each, kind])).toEqual([
        ['jobs', 'folder'],
        ['link to jobs', 'folder'],
        ['house.copewright.json', 'plan'],
        ['notes.txt', 'other'],
      ]);
      expect(here).toMatchObject({ name: 'home', readOnly: false });
      const linked = place(await host.call('places', { id: here.entries[1]!.id }));
      expect(linked.trail.at(-1)!.name).toBe('jobs');
      expect(linked.entries.map((each) => each.name)).toEqual(['deeper']);
      const up = place(await host.call('places', { id: linked.trail.at(-2)!.id }));
      expect(up.id).toBe(here.id);
      expect(JSON.stringify([here, linked])).not.toContain(home);
      for (const guessed of [home, '/', '..', 'home', '0'.repeat(32), here.id.toUpperCase()]) {
        expect((await host.call('places', { id: guessed })).outcome).toBe('refused');
        expect((await host.call('openPlace', { id: guessed })).outcome).toBe('refused');
      }
    });

    it('savePlace asks before it replaces, adds the ending, and takes no path for a name', async () => {
      await start();
      const { handle } = opened(await host.call('newPlan', { units: 'metric' })).view;
      const here = place(await host.call('places', { id: null })).id;
      const to = { handle, place: here, over: false };
      expect(await host.call('savePlace', { ...to, name: 'mill' })).toEqual({
        outcome: 'saved',
        name: 'mill.copewright.json',
      });
      expect((await host.call('plan', { handle }))?.view.name).toBe('mill.copewright.json');
      expect(await host.call('savePlace', { ...to, name: 'house' })).toMatchObject({ outcome: 'exists' });
      expect(await readFile(file(), 'utf8')).toBe(textOf('t0'));
      expect(await host.call('savePlace', { ...to, name: 'house', over: true })).toMatchObject({
        outcome: 'saved',
      });
      for (const bad of ['..', '.hidden', 'a:b', 'con', 'é'.repeat(190), 'quote"']) {
        expect((await host.call('savePlace', { ...to, name: bad })).outcome, bad).not.toBe('saved');
      }
      for (const path of ['../mill', 'jobs/mill', 'jobs\\mill', 'a\u0000b', '']) {
        await expect(host.callAnything('savePlace', { ...to, name: path })).rejects.toThrow();
      }
      expect((await host.call('savePlace', { ...to, name: 'y', place: home })).outcome).toBe('refused');
      expect((await readdir(home)).sort()).toEqual(['house.copewright.json', 'mill.copewright.json']);
    });

    it("where there are the system's dialogs they are asked; else the window is told to show its own", async () => {
      await start();
      const { dialogs } = host;
      if (dialogs === null) {
        expect(await host.call('open', {})).toEqual({ outcome: 'choose' });
        const { handle } = opened(await host.call('newPlan', { units: 'metric' })).view;
        expect(await host.call('save', { handle })).toEqual({ outcome: 'choose' });
        expect(await host.call('saveAs', { handle })).toEqual({ outcome: 'choose' });
        expect(await host.call('export', { handle, revision: 0, kind: 'pdf', ...DAY })).toEqual({
          outcome: 'choose',
        });
        return;
      }
      expect(await host.call('open', {})).toEqual({ outcome: 'cancelled' });
      dialogs.next = file();
      const { handle } = opened(await host.call('open', {})).view;
      await retitle(handle, 0, 't1');
      dialogs.next = join(home, 'elsewhere');
      expect(await host.call('saveAs', { handle })).toEqual({
        outcome: 'saved',
        name: 'elsewhere.copewright.json',
      });
      dialogs.next = join(home, 'report.pdf');
      const wish = { handle, revision: 1, ...DAY };
      const pdf = await host.call('export', { ...wish, kind: 'pdf' });
      expect(pdf).toMatchObject({ outcome: 'written', names: ['report.pdf'] });
      dialogs.next = home;
      for (const tables of ['elsewhere tables', 'elsewhere tables (2)']) {
        expect((await host.call('export', { ...wish, kind: 'csv' })).outcome).toBe('written');
        expect((await readdir(join(home, tables))).length).toBe(6);
      }
      if (pdf.outcome === 'written') {
        await host.call('showExport', { id: pdf.id });
        expect(await host.call('openExport', { id: pdf.id })).toBeNull();
      }
      // Ids of other things open nothing: not a file shown in a folder, not tables, not a guess.
      const { entries, id: folderId } = place(await host.call('places', { id: null }));
      const others = [...entries.map(({ id }) => id), folderId, '0'.repeat(32), 'constructor'];
      for (const id of others.filter((each) => pdf.outcome !== 'written' || each !== pdf.id)) {
        expect(await host.call('openExport', { id })).toMatch(/not one to be opened/);
      }
      await host.call('showExport', { id: folderId });
      expect(dialogs.asked).toEqual([
        'open',
        'open',
        'save house.copewright.json',
        'export pdf elsewhere.pdf',
        'export csv',
        'export csv',
        `show ${join(home, 'report.pdf')}`,
        `view ${join(home, 'report.pdf')}`,
      ]);
    });

    it('preferences are kept, and hold from now on', async () => {
      await start();
      const drawing = { angleStepDeg: 22.5, gridMm: 304.8 } as const;
      const changed = { units: 'metric', theme: 'dark', autosaveSeconds: 5, ...drawing } as const;
      expect(await host.call('setPreferences', drawing)).toMatchObject(drawing);
      expect(await host.call('setPreferences', { units: 'metric' })).toMatchObject({ units: 'metric' });
      expect(await host.call('setPreferences', { theme: 'dark', autosaveSeconds: 5 })).toEqual(changed);
      await host.end();
      await start();
      expect((await host.call('start', {})).preferences).toEqual(changed);
    });

    it('the recent list can be emptied', async () => {
      await start(file());
      await host.call('start', {});
      expect((await host.call('recent', {})).length).toBe(1);
      expect(await host.call('clearRecent', {})).toBeNull();
      expect(await host.call('recent', {})).toEqual([]);
    });

    it('what is not in the contract is refused loudly, and does nothing', async () => {
      await start(file());
      const { handle } = opened((await host.call('start', {})).opened).view;
      const bad: [string, unknown][] = [
        ['explode', {}],
        ['constructor', {}],
        ['__proto__', {}],
        ['toString', {}],
        ['', {}],
        ['start', null],
        ['start', { more: 1 }],
        ['save', {}],
        ['save', { handle: 'x' }],
        ['save', { handle, path: '/tmp/x' }],
        ['openDemo', { house: '../secret' }],
        ['newPlan', { units: 'cubits' }],
        ['edit', { handle, revision: -1, edit: {} }],
        ['setPreferences', { window: null }],
        ['export', { handle, revision: 0, kind: 'exe', ...DAY }],
        ['editField', { how: 'cut' }],
        ['editField', { how: 'executeJavaScript' }],
        ['openLink', { id: 'https://example.invalid' }],
      ];
      for (const [call, sent] of bad) {
        await expect(host.callAnything(call, sent), `${call} ${JSON.stringify(sent)}`).rejects.toThrow();
      }
      expect(await readFile(file(), 'utf8')).toBe(textOf('t0'));
    });
  });
}
