// `npm start` from the outside, without a terminal: with no desktop runtime, with one that does not start, with one that
// does; and that the built program finds its fonts, its solver, its threads and the demo houses.

import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chmod, copyFile, cp, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Answer, CallName, Sent } from '../../electron/contract.ts';
import { PROGRAM_FOLDER } from '../../electron/services/program.ts';
import { ask, enter, ownHeaders } from './local/client.ts';

const DEMO = join(PROGRAM_FOLDER, 'demo-data', 'thimble-cottage.copewright.json');

describe('npm start', () => {
  let folder: string;
  const children: ChildProcess[] = [];

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'copewright-start-'));
    await mkdir(join(folder, 'runtime'));
    await copyFile(DEMO, join(folder, 'house.copewright.json'));
  });
  afterEach(async () => {
    for (const child of children.splice(0)) {
      try {
        process.kill(-child.pid!, 'SIGKILL');
      } catch {
        // It has ended.
      }
    }
    await rm(folder, { recursive: true, force: true });
  });

  const start = (environment: Record<string, string>, ...words: string[]) =>
    started('npm', ['start', '-s', '--', ...words], environment);

  function started(
    command: string,
    words: readonly string[],
    environment: Record<string, string>,
    cwd = PROGRAM_FOLDER,
  ) {
    const child = spawn(command, words, {
      cwd,
      detached: true,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: {
        ...process.env,
        COPEWRIGHT_NO_BROWSER: '1',
        COPEWRIGHT_USER_DATA: join(folder, 'user'),
        ELECTRON_SKIP_BINARY_DOWNLOAD: '1',
        ...environment,
      },
    });
    children.push(child);
    let said = '';
    child.stdout.on('data', (part) => {
      said += String(part);
    });
    child.stderr.on('data', (part) => {
      said += String(part);
    });
    // With the last who could write there: npm is gone before what it started.
    const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
    const address = async (): Promise<string> => {
      await expect.poll(() => said, { timeout: 90_000 }).toMatch(/Copewright is at http\S+/);
      return /Copewright is at (http\S+)/.exec(said)![1]!;
    };
    return { child, said: () => said, ended, address };
  }

  /** A runtime that writes down what it was asked to run. */
  async function fakeRuntime(exit: number): Promise<string> {
    const path = join(folder, 'runtime', 'electron');
    await writeFile(path, `#!/bin/sh\nprintf '%s\\n' "$@" > '${join(folder, 'asked')}'\nexit ${exit}\n`);
    await chmod(path, 0o755);
    return join(folder, 'runtime');
  }

  async function client(address: string) {
    const local = { address, origin: new URL(address).origin } as Parameters<typeof ask>[0];
    const cookie = await enter(local);
    const call = async <C extends CallName>(name: C, sent: Sent<C>): Promise<Answer<C>> => {
      const headers = ownHeaders(local, cookie);
      const body = JSON.stringify(sent);
      const { status, text } = await ask(local, { method: 'POST', path: `/call/${name}`, headers, body });
      if (status !== 200) throw new Error(`${name}: ${status} ${text}`);
      return JSON.parse(text) as Answer<C>;
    };
    return { call, page: () => ask(local, { headers: { cookie } }) };
  }

  it('without the desktop runtime says so, prints an address, serves the built window, and keeps work at the end', async () => {
    const file = join(folder, 'house.copewright.json');
    // The program is busy when it is told to end: whatever started it waits.
    const busy = join(folder, 'busy.cjs');
    await writeFile(
      busy,
      `if (process.argv[1]?.endsWith('start.ts')) process.on('SIGTERM', () => {
        for (const end = Date.now() + 600; Date.now() < end; );
      });`,
    );
    const run = start(
      { ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'runtime'), NODE_OPTIONS: `--require ${busy}` },
      file,
    );
    const { call, page } = await client(await run.address());
    expect(run.said()).toContain('The desktop runtime is not here, so the window opens in your browser.');
    expect((await page()).text).toContain('<div id="app">');
    const { opened, version } = await call('start', {});
    expect(version).toMatch(/^\d+\.\d+\.\d+$/);
    if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
    expect(opened.view.name).toBe('house.copewright.json');

    // The built program finds what is its own.
    expect((await call('openDemo', { house: 'larkspur-house' })).outcome).toBe('opened');
    const text = `${JSON.stringify(await savedText(file))}${' '.repeat(16 * 1024 * 1024)}`;
    expect((await call('openText', { name: 'large.copewright.json', text })).outcome).toBe('opened');
    const edit = { type: 'setPlan', set: { title: 'Kept' } };
    expect(await call('edit', { handle: opened.view.handle, revision: 0, edit })).toMatchObject({ ok: true });
    process.kill(-run.child.pid!, 'SIGTERM');
    await run.ended;
    const again = start({ ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'runtime') });
    const { offers } = await (await client(await again.address())).call('start', {});
    expect(offers).toEqual(
      expect.arrayContaining([expect.objectContaining({ name: 'house.copewright.json', edits: 1 })]),
    );
  }, 240_000);

  it('takes one plan: two, a name with blanks unquoted, and a switch are refused in a sentence, and nothing starts', async () => {
    for (const words of [
      ['a.copewright.json', 'b.copewright.json'],
      ['my', 'house.copewright.json'],
      ['--help'],
    ]) {
      const run = start({}, ...words);
      expect(await run.ended, words.join(' ')).toBe(2);
      expect(run.said()).toMatch(/^Name one plan and nothing else, [^\n]*\.\n/);
      expect(run.said()).not.toMatch(/Building|http/);
    }
  }, 60_000);

  it('killed, it offers at the next start what was there, and the file was not touched', async () => {
    const file = join(folder, 'house.copewright.json');
    const before = await readFile(file, 'utf8');
    const runtime = { ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'runtime') };
    const run = start(runtime, file);
    const { call } = await client(await run.address());
    const { opened } = await call('start', {});
    if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
    for (const [revision, title] of ['One', 'Two'].entries()) {
      const edit = { type: 'setPlan', set: { title } };
      expect(await call('edit', { handle: opened.view.handle, revision, edit })).toMatchObject({ ok: true });
    }
    // What is older than a second is kept.
    await new Promise((resolve) => setTimeout(resolve, 1200));
    process.kill(-run.child.pid!, 'SIGKILL');
    await run.ended;
    expect(await readFile(file, 'utf8')).toBe(before);
    const again = await client(await start(runtime).address());
    const { offers } = await again.call('start', {});
    expect(offers).toMatchObject([
      { name: 'house.copewright.json', title: 'Two', edits: 2, original: 'same', torn: false },
    ]);
    expect(Math.abs(Date.now() - offers[0]!.at!)).toBeLessThan(240_000);
    expect(await again.call('recover', { id: offers[0]!.id })).toMatchObject({
      outcome: 'opened',
      plan: { title: 'Two' },
      view: { unsaved: true },
    });
    expect(await readFile(file, 'utf8')).toBe(before);
  }, 240_000);

  it('goes on with what is open in it where nobody reads any more what it prints', async () => {
    const file = join(folder, 'house.copewright.json');
    const run = start({ ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'runtime') }, file);
    const address = await run.address();
    const { call } = await client(address);
    const { opened } = await call('start', {});
    if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
    run.child.stdout.destroy();
    run.child.stderr.destroy();
    // Each is told in a line, and any page of any browser can ask so.
    const local = { origin: new URL(address).origin } as Parameters<typeof ask>[0];
    for (let k = 0; k < 5; k += 1)
      expect((await ask(local, { headers: { host: 'elsewhere.example' } })).status).toBe(421);
    const edit = { type: 'setPlan', set: { title: 'All the same' } };
    expect(await call('edit', { handle: opened.view.handle, revision: 0, edit })).toMatchObject({ ok: true });
  }, 240_000);

  it('what was built needs no package: dist, demo-data and package.json alone make the PDF of the command line', async () => {
    for (const part of ['dist', 'demo-data', 'package.json'])
      await cp(join(PROGRAM_FOLDER, part), join(folder, 'alone', part), { recursive: true });
    await mkdir(join(folder, 'home'));
    const program = pathToFileURL(join(folder, 'alone', 'dist', 'host', 'local.mjs')).href;
    const run = started(
      process.execPath,
      [
        '--input-type=module',
        '--eval',
        `const { runLocal } = await import('${program}'); await runLocal(null, console.log);`,
      ],
      { HOME: join(folder, 'home') },
    );
    const { call } = await client(await run.address());
    const demo = await call('openDemo', { house: 'thimble-cottage' });
    if (demo.outcome !== 'opened') throw new Error(JSON.stringify(demo));
    const home = await call('places', { id: null });
    if (home.outcome !== 'place') throw new Error(home.message);
    const { handle, revision } = demo.view;
    const wish = { handle, revision, kind: 'pdf', sheet: 'letter', date: '2026-01-31', over: false } as const;
    expect(await call('exportPlace', { ...wish, place: home.place.id, name: 'sheets' })).toMatchObject({
      outcome: 'written',
      names: ['sheets.pdf'],
    });
    const cli = ['--import', 'tsx', join(PROGRAM_FOLDER, 'electron', 'cli.ts')];
    const other = join(folder, 'other.pdf');
    execFileSync(process.execPath, [...cli, 'pdf', DEMO, '-o', other, '--date', wish.date], {
      cwd: PROGRAM_FOLDER,
    });
    const [ours, theirs] = await Promise.all([readFile(join(folder, 'home', 'sheets.pdf')), readFile(other)]);
    expect(ours.equals(theirs)).toBe(true);
  }, 240_000);

  it('with the desktop runtime runs it on the built program and the named file, and ends as it ends', async () => {
    const runtime = await fakeRuntime(0);
    // From another folder, where the name is meant: npm runs scripts in the program's own.
    const words = ['--prefix', PROGRAM_FOLDER, 'start', '-s', '--', 'house.copewright.json'];
    const run = started('npm', words, { ELECTRON_OVERRIDE_DIST_PATH: runtime }, folder);
    expect(await run.ended).toBe(0);
    const asked = (await readFile(join(folder, 'asked'), 'utf8')).trim().split('\n');
    expect(asked[0]).toBe(join(PROGRAM_FOLDER, 'dist', 'host', 'main.mjs'));
    expect(asked.at(-1)).toBe(join(folder, 'house.copewright.json'));
    expect(run.said()).not.toContain('browser');
  }, 120_000);

  it.each([
    [
      'a file that is not there',
      'nowhere.copewright.json',
      /^nowhere\.copewright\.json is not there; check the name/,
    ],
    ['a folder', 'runtime', /^runtime is a folder; name a plan file \(\.copewright\.json\)\.$/],
    ['a file that is no plan', 'notes.txt', /^notes\.txt: 1:1: found “M” where a value was expected\.$/],
    [
      'a plan of a newer version',
      'newer.json',
      /^newer\.json: version \(1:\d+\): this plan was made by a newer version/,
    ],
  ])(
    'named %s it starts, and the window says so in one sentence',
    async (_, name, sentence) => {
      const newer = { format: 'copewright-plan', version: 2 };
      const files = { 'notes.txt': 'Milk, eggs', 'newer.json': JSON.stringify(newer) };
      for (const [each, text] of Object.entries(files)) await writeFile(join(folder, each), text);
      const run = start({ ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'runtime') }, join(folder, name));
      const { call } = await client(await run.address());
      const { opened } = await call('start', {});
      expect(opened).toMatchObject({ outcome: 'refused', message: expect.stringMatching(sentence) });
      expect(run.said()).not.toMatch(/^\s+at /m);
      for (const [each, text] of Object.entries(files))
        expect(await readFile(join(folder, each), 'utf8')).toBe(text);
    },
    120_000,
  );

  it('with a desktop runtime that does not start says so and goes on in the browser', async () => {
    const run = start({ ELECTRON_OVERRIDE_DIST_PATH: await fakeRuntime(1) });
    const { call } = await client(await run.address());
    expect(run.said()).toContain('The desktop runtime did not start, so the window opens in your browser.');
    expect((await call('start', {})).opened).toBeNull();
  }, 120_000);
});

async function savedText(file: string): Promise<unknown> {
  return JSON.parse(await readFile(file, 'utf8'));
}
