// Handing a plan over: the same bytes as the command line's, whole files, only what the window shows, never over a plan;
// and the program goes on answering meanwhile.

import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { link, mkdir, readdir, readFile, stat, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Answer, Sent } from '../../../electron/contract.ts';
import { PROGRAM_FOLDER } from '../../../electron/services/program.ts';
import { freshFolder, remove, titleEdit } from '../services/helpers.ts';
import { HOSTS, type Host } from './hosts.ts';

const DAY = { sheet: 'letter', date: '2026-01-31' } as const;

/** One room with baseboard and a door: everything a hand-over has, and nothing that takes long. */
function hut(): string {
  return JSON.stringify({
    format: 'copewright-plan',
    version: 1,
    title: 'Hut',
    units: 'metric',
    profiles: {
      p1: {
        kind: 'base',
        name: 'Plain base',
        height: 95,
        thickness: 14,
        form: 'flat',
        material: 'pine',
        stock: [{ length: 4800, price: 21 }],
      },
    },
    levels: [
      {
        id: 'L1',
        name: 'Ground',
        ceilingHeight: 2400,
        nodes: { n1: [0, 0], n2: [3200, 0], n3: [3200, 2600], n4: [0, 2600] },
        walls: {
          w1: { from: 'n1', to: 'n2', thickness: 100 },
          w2: { from: 'n2', to: 'n3', thickness: 100 },
          w3: { from: 'n3', to: 'n4', thickness: 100 },
          w4: { from: 'n4', to: 'n1', thickness: 100 },
        },
        openings: { o1: { wall: 'w1', at: 900, width: 800, height: 2000, sill: 0, kind: 'door' } },
        rooms: { r1: { name: 'Room', at: [1600, 1300], trim: { base: 'p1' } } },
      },
    ],
  });
}

describe('handing over', () => {
  let folder: string;
  let home: string;
  let host: Host;
  let handle: string;
  let revision = 0;
  let place: string;
  const plan = (): string => join(home, 'cottage.copewright.json');

  const wish = (more: Partial<Sent<'exportPlace'>>): Promise<Answer<'exportPlace'>> =>
    host.call('exportPlace', {
      handle,
      revision,
      kind: 'report',
      ...DAY,
      place,
      name: 'cottage',
      over: false,
      ...more,
    });
  const commandLine = (...words: string[]): string =>
    execFileSync(
      process.execPath,
      ['--import', 'tsx', join(PROGRAM_FOLDER, 'electron', 'cli.ts'), ...words],
      {
        encoding: 'utf8',
        cwd: PROGRAM_FOLDER,
        maxBuffer: 1 << 28,
      },
    );

  beforeAll(async () => {
    folder = await freshFolder();
    home = join(folder, 'home');
    await mkdir(home);
    await writeFile(plan(), hut());
    host = await HOSTS[0]!.open({ folder, file: plan() });
    const { opened } = await host.call('start', {});
    if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
    handle = opened.view.handle;
    const here = await host.call('places', { id: null });
    if (here.outcome !== 'place') throw new Error(here.message);
    place = here.place.id;
  });
  afterAll(async () => {
    await host.end();
    await remove(folder);
  });
  afterEach(async () => {
    const left = await readdir(home);
    expect(left.filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  it('[SK18] PDF, report and tables are, byte for byte, those of the command line', async () => {
    expect(await wish({ kind: 'pdf' })).toMatchObject({ outcome: 'written', names: ['cottage.pdf'] });
    expect(await wish({})).toMatchObject({ outcome: 'written', names: ['cottage.report.json'] });
    const tables = await wish({ kind: 'csv', name: 'tables' });
    expect(tables).toMatchObject({
      outcome: 'written',
      names: expect.arrayContaining(['boards.csv', 'order.csv']),
    });
    const other = join(folder, 'other');
    await mkdir(other);
    commandLine('pdf', plan(), '-o', join(other, 'cottage.pdf'), '--date', DAY.date);
    commandLine('csv', plan(), '-o', join(other, 'tables'));
    const same = async (name: string): Promise<boolean> =>
      (await readFile(join(home, name))).equals(await readFile(join(other, name)));
    expect(await same('cottage.pdf')).toBe(true);
    const names = await readdir(join(other, 'tables'));
    expect(await readdir(join(home, 'tables'))).toEqual(names);
    for (const name of names) expect(await same(join('tables', name)), name).toBe(true);
    // Others may look into it as into any folder of the user's.
    const modeOf = async (path: string): Promise<number> => (await stat(path)).mode & 0o777;
    expect(await modeOf(join(home, 'tables'))).toBe(await modeOf(other));
    const report = commandLine('report', plan(), '--json');
    expect(await readFile(join(home, 'cottage.report.json'), 'utf8')).toBe(report);
    await expect
      .poll(() => host.heard.filter(({ event }) => event === 'progress').map(({ data }) => data))
      .toEqual(expect.arrayContaining([{ words: 'Drawing the sheets', done: 1, all: 3 }]));
  }, 300_000);

  it('[SK18] what is there already is replaced only when the user said so', async () => {
    await writeFile(join(home, 'mine.report.json'), 'mine');
    await mkdir(join(home, 'mine'));
    await writeFile(join(home, 'mine', 'cuts.csv'), 'mine');
    expect(await wish({ name: 'mine' })).toMatchObject({
      outcome: 'exists',
      message: expect.stringContaining('mine.report.json'),
    });
    expect(await wish({ name: 'mine', kind: 'csv' })).toMatchObject({ outcome: 'exists' });
    expect(await readFile(join(home, 'mine.report.json'), 'utf8')).toBe('mine');
    expect(await readFile(join(home, 'mine', 'cuts.csv'), 'utf8')).toBe('mine');
    expect((await wish({ name: 'mine', over: true })).outcome).toBe('written');
    expect(await readFile(join(home, 'mine.report.json'), 'utf8')).not.toBe('mine');
  }, 120_000);

  it('[SK18] never over a plan, under whatever name it is reached', async () => {
    const before = await readFile(plan());
    await link(plan(), join(home, 'sheet.pdf'));
    await mkdir(join(home, 'linked'));
    await link(plan(), join(home, 'linked', 'boards.csv'));
    for (const each of [
      { name: 'sheet', kind: 'pdf', over: true },
      { name: 'linked', kind: 'csv', over: true },
    ] as const) {
      const outcome = await wish(each);
      expect(outcome).toMatchObject({
        outcome: 'refused',
        message: expect.stringMatching(/is the plan itself; name another file for the result\.$/),
      });
    }
    expect((await readFile(plan())).equals(before)).toBe(true);
  }, 120_000);

  it('[SK18] never through a link over a plan that is not open, and then no table is written at all', async () => {
    const other = join(home, 'other.copewright.json');
    await writeFile(other, hut());
    await symlink(other, join(home, 'link.pdf'));
    await mkdir(join(home, 'links'));
    await symlink(other, join(home, 'links', 'cuts.csv'));
    for (const each of [
      { name: 'link', kind: 'pdf', over: true },
      { name: 'links', kind: 'csv', over: true },
    ] as const) {
      expect(await wish(each)).toMatchObject({
        outcome: 'refused',
        message: expect.stringMatching(/ leads to a plan; choose another name\.$/),
      });
    }
    expect(await readFile(other, 'utf8')).toBe(hut());
    expect(await readdir(join(home, 'links'))).toEqual(['cuts.csv']);
  }, 120_000);

  it('[SK18] all tables or none: where one cannot be replaced the others are as they were', async () => {
    const at = join(home, 'half');
    await mkdir(join(at, 'order.csv'), { recursive: true });
    await writeFile(join(at, 'boards.csv'), 'old');
    expect(await wish({ name: 'half', kind: 'csv', over: true })).toMatchObject({
      outcome: 'refused',
      message: 'order.csv is not an ordinary file; name another.',
    });
    expect((await readdir(at)).sort()).toEqual(['boards.csv', 'order.csv']);
    expect(await readFile(join(at, 'boards.csv'), 'utf8')).toBe('old');
  }, 120_000);

  it('[SK18] what was edited while the system’s dialog was open is not left out without a word', async () => {
    const own = join(folder, 'dialogs', 'home');
    await mkdir(own, { recursive: true });
    await writeFile(join(own, 'hut.copewright.json'), hut());
    const other = await HOSTS[1]!.open({
      folder: join(folder, 'dialogs'),
      file: join(own, 'hut.copewright.json'),
    });
    const { opened } = await other.call('start', {});
    if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
    const of = { handle: opened.view.handle, revision: 0 };
    const target = join(own, 'hut.report.json');
    Object.defineProperty(other.dialogs, 'next', {
      get: async () => {
        expect(await other.call('edit', { ...of, edit: titleEdit('meanwhile') })).toMatchObject({ ok: true });
        return target;
      },
    });
    expect(await other.call('export', { ...of, kind: 'report', ...DAY })).toEqual({
      outcome: 'refused',
      message: 'The plan has changed since; look at it again and hand it over once more.',
    });
    expect(existsSync(target)).toBe(false);
    await other.end();
  }, 120_000);

  it('[SK18] a stale revision, a day that is none, a folder that is none, a name that is none are refused in a sentence', async () => {
    const before = (await readdir(home)).sort();
    const bad: Partial<Sent<'exportPlace'>>[] = [
      { revision: revision + 1 },
      { date: '2026-02-31' },
      { place: 'f'.repeat(32) },
      { name: '..' },
      { name: 'nul' },
      { handle: '0'.repeat(32) },
    ];
    for (const each of bad) {
      expect(await wish(each), JSON.stringify(each)).toMatchObject({
        outcome: 'refused',
        message: expect.stringMatching(/^[^\n/]+\.$/),
      });
    }
    expect((await readdir(home)).sort()).toEqual(before);
  });

  it('[SK18] can be cancelled at once, one goes at a time, and edits and saves go on meanwhile', async () => {
    const told = (): number => host.heard.filter(({ event }) => event === 'progress').length;
    const soon = wish({ kind: 'pdf', name: 'cancelled' });
    await host.call('cancelExport', {});
    expect(await soon).toEqual({ outcome: 'cancelled' });
    const before = told();
    const exporting = wish({ kind: 'pdf', name: 'cancelled' });
    await expect.poll(told, { timeout: 60_000 }).toBeGreaterThan(before);
    expect(await wish({ name: 'second' })).toMatchObject({ outcome: 'refused' });
    // While the thread works, calls are answered; an edit makes no difference to what is being handed over.
    let answered = 0;
    for (; answered < 20; answered += 1) {
      const answer = await host.call('edit', { handle, revision, edit: titleEdit(`meanwhile ${answered}`) });
      if (answer.ok) revision = answer.revision;
    }
    expect(revision).toBe(20);
    expect(await host.call('cancelExport', {})).toBeNull();
    expect(await exporting).toEqual({ outcome: 'cancelled' });
    expect(existsSync(join(home, 'cancelled.pdf'))).toBe(false);
    expect(await host.call('cancelExport', {})).toBeNull();
    expect((await wish({ name: 'afterwards' })).outcome).toBe('written');
    expect(await readFile(join(home, 'afterwards.report.json'), 'utf8')).toContain('meanwhile 19');
  }, 120_000);

  it('[SK18] a folder that takes no files is told in a sentence, and the plan is as it was', async () => {
    const gone = join(home, 'gone');
    await mkdir(gone);
    const here = await host.call('places', { id: place });
    const id = here.outcome === 'place' ? here.place.entries.find(({ name }) => name === 'gone')!.id : '';
    await remove(gone);
    expect(await wish({ place: id })).toMatchObject({
      outcome: 'refused',
      message: 'cottage.report.json is not there; check the name and the folder.',
    });
  }, 120_000);
});
