// What ships, really packed: the packager with our configuration and a stand-in for the desktop runtime, which cannot be
// fetched here. The list of files is whole, and the program runs from it alone, laid out as in a package, with what
// threads read beside the archive only. Fuses need the real runtime and are left out here.

import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensure, HOST, partFolder, WINDOW } from '../../electron/scripts/build-parts.ts';
import { PROGRAM_FOLDER } from '../../electron/services/program.ts';
import { ask, enter, ownHeaders } from './local/client.ts';

interface Asar {
  listPackage(archive: string, options: { isPack: boolean }): string[];
  extractAll(archive: string, folder: string): void;
}

const find = createRequire(createRequire(import.meta.url).resolve('electron-builder/package.json'));
/** The archive's own library comes with the packager. */
const asar = createRequire(find.resolve('app-builder-lib/package.json'))('@electron/asar') as Asar;
/** What threads read. */
const BESIDE = ['dist/host/thread.mjs', 'dist/host/highs.wasm', 'dist/host/fonts'];

describe('what is packed', () => {
  let folder: string;
  let archive: string;
  let list: string[];
  let child: ChildProcess | null = null;

  beforeAll(async () => {
    for (const part of [WINDOW, HOST]) await ensure(part, partFolder(part), () => undefined);
    folder = await mkdtemp(join(tmpdir(), 'copewright-packed-'));
    const runtime = join(folder, 'runtime');
    mkdirSync(join(runtime, 'resources'), { recursive: true });
    const { devDependencies } = JSON.parse(readFileSync(join(PROGRAM_FOLDER, 'package.json'), 'utf8'));
    for (const name of ['electron', 'chrome-sandbox', 'version', 'LICENSE', 'LICENSES.chromium.html'])
      writeFileSync(join(runtime, name), `${devDependencies.electron}\n`);
    chmodSync(join(runtime, 'electron'), 0o755);
    const config = {
      extends: join(PROGRAM_FOLDER, 'electron', 'packaging', 'builder.json'),
      electronDist: runtime,
      electronFuses: null,
      directories: { output: join(folder, 'out'), buildResources: 'assets/icons' },
    };
    // The image itself needs tools that are fetched: the packager stops where it has what goes into it.
    const script = join(folder, 'pack.cjs');
    writeFileSync(
      script,
      `const { build, Platform } = require(${JSON.stringify(find.resolve('electron-builder'))});
      build({
        projectDir: ${JSON.stringify(PROGRAM_FOLDER)},
        targets: Platform.LINUX.createTarget(['AppImage']),
        config: ${JSON.stringify(config)},
        effectiveOptionComputed: async ({ desktop }) => {
          require('node:fs').writeFileSync(${JSON.stringify(join(folder, 'desktop'))}, desktop);
          return true;
        },
      });`,
    );
    execFileSync(process.execPath, [script], { cwd: PROGRAM_FOLDER, stdio: 'ignore' });
    archive = join(folder, 'out', 'linux-unpacked', 'resources', 'app.asar');
    list = asar.listPackage(archive, { isPack: false }).map((path) => path.slice(1).replaceAll('\\', '/'));
  }, 300_000);
  afterAll(async () => {
    if (child !== null) process.kill(-child.pid!, 'SIGKILL');
    await rm(folder, { recursive: true, force: true });
  });

  it('is what was built, the demo houses, the licence and the package, and nothing of the sources', () => {
    const built = [WINDOW, HOST].flatMap((part) =>
      execFileSync('find', [partFolder(part), '-type', 'f'], { encoding: 'utf8' })
        .trim()
        .split('\n')
        .map((path) => relative(PROGRAM_FOLDER, path)),
    );
    const houses = ['larkspur-house', 'thimble-cottage'].map((name) => `demo-data/${name}.copewright.json`);
    const folders = new Set(list.filter((path) => list.some((other) => other.startsWith(`${path}/`))));
    expect(list.filter((path) => !folders.has(path)).sort()).toEqual(
      [...built, ...houses, 'LICENSE', 'package.json'].sort(),
    );
    for (const path of BESIDE) expect(existsSync(join(`${archive}.unpacked`, path)), path).toBe(true);
  });

  it('names its start, and holds no script, no test and no tool', () => {
    asar.extractAll(archive, join(folder, 'look'));
    const { main, scripts, devDependencies } = JSON.parse(
      readFileSync(join(folder, 'look', 'package.json'), 'utf8'),
    );
    expect(list).toContain(main);
    expect([scripts, devDependencies]).toEqual([undefined, undefined]);
  });

  it('is started by the system with the plan that was clicked, and no switch that turns the sandbox off', () => {
    const entry = readFileSync(join(folder, 'desktop'), 'utf8');
    expect(entry).toMatch(/^Exec=AppRun %U$/m);
    expect(entry).toContain('MimeType=application/vnd.copewright.plan+json;');
  });

  it('runs alone: the page, a demo house and its PDF, threads from beside the archive', async () => {
    // As the runtime shows it: the archive as a folder, what was taken out of it beside it.
    const app = join(folder, 'alone', 'app.asar');
    asar.extractAll(archive, app);
    for (const path of BESIDE) rmSync(join(app, path), { recursive: true });
    execFileSync('cp', ['-r', `${archive}.unpacked`, join(folder, 'alone')]);
    const home = join(folder, 'home');
    mkdirSync(home);
    const program = pathToFileURL(join(app, 'dist', 'host', 'local.mjs')).href;
    const code = `const { runLocal } = await import('${program}'); await runLocal(null, console.log);`;
    child = spawn(process.execPath, ['--input-type=module', '--eval', code], {
      cwd: folder,
      detached: true,
      stdio: ['ignore', 'pipe', 'inherit'],
      env: {
        ...process.env,
        HOME: home,
        COPEWRIGHT_NO_BROWSER: '1',
        COPEWRIGHT_USER_DATA: join(folder, 'user'),
      },
    });
    let said = '';
    child.stdout!.on('data', (part) => {
      said += String(part);
    });
    await expect.poll(() => said, { timeout: 60_000 }).toMatch(/Copewright is at http\S+/);
    const address = /Copewright is at (http\S+)/.exec(said)![1]!;
    const local = { address, origin: new URL(address).origin } as Parameters<typeof ask>[0];
    const cookie = await enter(local);
    const call = async (name: string, sent: unknown) => {
      const headers = ownHeaders(local, cookie);
      const body = JSON.stringify(sent);
      return JSON.parse((await ask(local, { method: 'POST', path: `/call/${name}`, headers, body })).text);
    };
    const page = await ask(local, { headers: { cookie } });
    for (const [, path] of page.text.matchAll(/(?:src|href)="\.?(\/[^"]+)"/g))
      expect((await ask(local, { path: path!, headers: { cookie } })).status, path).toBe(200);
    const { view } = await call('openDemo', { house: 'thimble-cottage' });
    const { place } = await call('places', { id: null });
    const wish = { handle: view.handle, revision: view.revision, kind: 'pdf', sheet: 'letter' };
    expect(
      await call('exportPlace', {
        ...wish,
        date: '2026-01-31',
        place: place.id,
        name: 'sheets',
        over: false,
      }),
    ).toMatchObject({ outcome: 'written' });
    expect(readFileSync(join(home, 'sheets.pdf')).subarray(0, 5).toString('latin1')).toBe('%PDF-');
  }, 120_000);
});
