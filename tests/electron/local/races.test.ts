// Calls that come at the same moment, over loopback as the window sends them: saving while the plan is closed, while it is
// exported, while it is edited, while the program ends; and a disk for the journal that fills up and is freed. Whatever
// the order: the file is a whole plan that was there once, and no edit that was answered is lost.

import { execFileSync } from 'node:child_process';
import { mkdir, mkdtemp, open, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Answer } from '../../../electron/contract.ts';
import { cases, random } from '../../seeds.ts';
import { HOSTS, type Host } from '../desk/hosts.ts';
import { remove, row, smallDisk, strays, textOf, titleEdit } from '../services/helpers.ts';

const openLoopback = HOSTS.find(({ name }) => name.startsWith('loopback'))!.open;
const SEED = 515;
const WISH = { kind: 'pdf', sheet: 'letter', date: '2026-01-31', over: true } as const;

describe('at the same moment', () => {
  let folder: string;
  let file: string;
  let host: Host;

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'copewright-races-'));
    file = join(folder, 'home', 'house.copewright.json');
    await mkdir(join(folder, 'home'));
    await writeFile(file, textOf('t0'));
    host = await openLoopback({ folder, file });
  });
  afterEach(async () => {
    await host.end();
    await remove(folder);
  });

  async function opened(): Promise<string> {
    const { opened: now } = await host.call('start', {});
    if (now?.outcome !== 'opened') throw new Error(JSON.stringify(now));
    return now.view.handle;
  }
  const edit = (handle: string, revision: number, title: string) =>
    host.call('edit', { handle, revision, edit: titleEdit(title) });
  const titleIn = async (path = file): Promise<string> => {
    const text = await readFile(path, 'utf8');
    const title = /"title": "([^"]*)"/.exec(text)![1]!;
    expect(text).toBe(textOf(title));
    return title;
  };
  async function again(): Promise<void> {
    await host.end();
    host = await openLoopback({ folder });
  }

  it('[SK1, SK11] saving while closing, in whatever order: it is in the file, or kept and offered', async () => {
    const next = random(SEED);
    const rounds = cases(200);
    const seen = { saved: 0, kept: 0 };
    let handle = await opened();
    for (let i = 1; i <= rounds; i += 1) {
      const title = `t${i}`;
      expect(await edit(handle, 0, title)).toMatchObject({ ok: true });
      const both = [() => host.call('save', { handle }), () => host.call('close', { handle, lose: false })];
      if (next() < 0.5) both.reverse();
      const wait = next() < 0.5 ? 0 : next() * 12;
      const first = both[0]!();
      if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait));
      await Promise.all([first, both[1]!()]);
      const now = await titleIn();
      const offers = await host.call('offers', {});
      let answer: Answer<'openRecent'>;
      if (now === title) {
        seen.saved += 1;
        expect(offers, `round ${i} of seed ${SEED}`).toEqual([]);
        const [recent] = await host.call('recent', {});
        answer = await host.call('openRecent', { id: recent!.id });
      } else {
        seen.kept += 1;
        expect(offers, `round ${i} of seed ${SEED}`).toMatchObject([{ title, edits: 1, original: 'same' }]);
        answer = await host.call('recover', { id: offers[0]!.id });
      }
      if (answer.outcome !== 'opened') throw new Error(JSON.stringify(answer));
      expect(answer.plan.title).toBe(title);
      handle = answer.view.handle;
      expect(await host.call('save', { handle })).toMatchObject({ outcome: 'saved' });
      // From a fresh opening the revision is 0 again.
      await host.call('close', { handle, lose: false });
      const [recent] = await host.call('recent', {});
      const fresh = await host.call('openRecent', { id: recent!.id });
      if (fresh.outcome !== 'opened') throw new Error(JSON.stringify(fresh));
      handle = fresh.view.handle;
    }
    expect(await strays(folder)).toEqual([]);
    row(
      'saving while closing',
      `${rounds} rounds (seed ${SEED}): in the file ${seen.saved}, kept and offered ${seen.kept}, lost 0`,
    );
    expect(seen.saved).toBeGreaterThan(0);
    expect(seen.kept).toBeGreaterThan(0);
  }, 300_000);

  it('[SK2] saving while exporting while editing: the sheets are of what was shown, the file of what was saved', async () => {
    const handle = await opened();
    expect(await edit(handle, 0, 't1')).toMatchObject({ ok: true });
    const here = await host.call('places', { id: null });
    if (here.outcome !== 'place') throw new Error(here.message);
    const exporting = host.call('exportPlace', {
      ...WISH,
      handle,
      revision: 1,
      place: here.place.id,
      name: 'sheets',
    });
    const saves: Promise<unknown>[] = [];
    for (let revision = 1; revision <= 30; revision += 1) {
      expect(await edit(handle, revision, `t${revision + 1}`)).toMatchObject({ ok: true });
      if (revision % 5 === 0) saves.push(host.call('save', { handle }));
    }
    for (const each of await Promise.all(saves)) expect(each).toMatchObject({ outcome: 'saved' });
    expect(await host.call('save', { handle })).toMatchObject({ outcome: 'saved' });
    expect(await titleIn()).toBe('t31');
    expect(await exporting).toMatchObject({ outcome: 'written', names: ['sheets.pdf'] });
    const pdf = join(folder, 'home', 'sheets.pdf');
    execFileSync('qpdf', ['--check', pdf], { stdio: 'ignore' });
    const words = execFileSync('pdftotext', ['-l', '1', pdf, '-'], { encoding: 'utf8' });
    expect(words).toMatch(/· t1$/m);
  }, 120_000);

  it('[SK11] the program ends while a save and an export are under way: nothing is lost, nothing is left half', async () => {
    const handle = await opened();
    expect(await edit(handle, 0, 't1')).toMatchObject({ ok: true });
    const here = await host.call('places', { id: null });
    if (here.outcome !== 'place') throw new Error(here.message);
    const place = here.place.id;
    const under = [
      host.call('exportPlace', { ...WISH, handle, revision: 1, place, name: 'sheets' }),
      host.call('save', { handle }),
      edit(handle, 1, 't2'),
    ];
    // The connection may break before the answer.
    const answers = Promise.allSettled(under);
    expect(await under[2]).toMatchObject({ ok: true });
    await again();
    await answers;
    const { offers } = await host.call('start', {});
    const now = await titleIn();
    expect(['t0', 't1', 't2']).toContain(now);
    if (now !== 't2') {
      expect(offers).toMatchObject([{ title: 't2' }]);
      expect(await host.call('recover', { id: offers[0]!.id })).toMatchObject({ plan: { title: 't2' } });
    }
    expect(await strays(join(folder, 'home'))).toEqual([]);
    const sheets = await readFile(join(folder, 'home', 'sheets.pdf')).catch(() => null);
    if (sheets !== null) expect(sheets.subarray(-6).toString('latin1')).toContain('%%EOF');
  }, 120_000);
});

describe('a full disk for the journal', () => {
  it('[SK8] the window is told, edits go on and are kept once there is space, after a kill too', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'copewright-full-'));
    const user = join(folder, 'user');
    const home = join(folder, 'home');
    const file = join(home, 'house.copewright.json');
    await mkdir(home);
    await writeFile(file, textOf('t0'));
    const disk = smallDisk(user, '256k', {
      fault: 'journal on a full disk',
      instead: 'services/journal.test.ts',
    });
    if (disk === null) {
      await remove(folder);
      return;
    }
    const host = await openLoopback({ folder, file });
    try {
      const { opened } = await host.call('start', {});
      if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
      const { handle } = opened.view;
      let revision = 0;
      const edit = async (title: string): Promise<void> => {
        expect(await host.call('edit', { handle, revision, edit: titleEdit(title) })).toMatchObject({
          ok: true,
        });
        revision += 1;
      };
      const problem = (): string | null =>
        (host.heard.findLast(({ event }) => event === 'changed')!.data as { journalProblem: string | null })
          .journalProblem;
      await edit('t1');
      const filler = await open(join(user, 'filler'), 'w');
      await expect(
        (async () => {
          for (;;) await filler.write(Buffer.alloc(1024));
        })(),
      ).rejects.toMatchObject({ code: 'ENOSPC' });
      await filler.close();
      for (let k = 0; k < 60; k += 1) await edit(`full ${k} ${'x'.repeat(150)}`);
      await vi.waitUntil(() => problem() !== null, { timeout: 15_000 });
      const said = problem()!;
      expect(said).toMatch(/^Edits cannot be kept safe at present: .* disk is full.*\.$/);
      // What is on the user's own disk can still be saved, and the window goes on.
      expect(await host.call('save', { handle })).toMatchObject({ outcome: 'saved' });
      await edit('after the save');
      await rm(join(user, 'filler'));
      await vi.waitUntil(() => problem() === null, { timeout: 15_000 });
      // As after a kill: the journal as it lies there, and no lock of a living process.
      const copy = join(folder, 'copy');
      await mkdir(copy);
      execFileSync('cp', ['-r', user, copy]);
      await rm(join(copy, 'user', 'locks'), { recursive: true });
      const later = await openLoopback({ folder: copy });
      const { offers } = await later.call('start', {});
      expect(offers).toMatchObject([{ title: 'after the save', edits: 1, original: 'same' }]);
      await later.end();
      row('journal on a full disk (tmpfs of 256 KiB)', said);
    } finally {
      await host.end();
      disk.gone();
      await remove(folder);
    }
  }, 120_000);
});
