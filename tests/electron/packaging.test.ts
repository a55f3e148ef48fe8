// The packaging configuration, held against the packager's own published schema, and what it promises: fuses, archive,
// names. The packages themselves are not built here.

import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Ajv from 'ajv';
import { describe, expect, it, vi } from 'vitest';
import { ensure, HOST, WINDOW } from '../../electron/scripts/build-parts.ts';
import { licencesText } from '../../electron/scripts/licences.ts';
import { threadProgram } from '../../electron/services/in-thread.ts';
import { PROGRAM_FOLDER } from '../../electron/services/program.ts';

const find = createRequire(import.meta.url);
const read = (path: string) => JSON.parse(readFileSync(path, 'utf8'));

describe('packaging', () => {
  const config = read('electron/packaging/builder.json');

  it('is what the packager’s schema allows', () => {
    const schema = read(find.resolve('app-builder-lib/scheme.json'));
    const check = new Ajv({ strict: false, allErrors: true, logger: false }).compile(schema);
    check(config);
    expect(check.errors ?? []).toEqual([]);
    check({ ...config, asar: 'perhaps', colour: 'blue' });
    expect(check.errors?.length).toBeGreaterThan(0);
  });

  it('sets the fuses, loads from the archive only and checks it', () => {
    expect(config.asar).toBe(true);
    expect(config.electronFuses).toEqual({
      runAsNode: false,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableCookieEncryption: true,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      grantFileProtocolExtraPrivileges: false,
    });
  });

  it('takes what the build makes and nothing of the sources; what a thread reads lies beside the archive', () => {
    expect(config.files).toEqual([
      'dist/host/**',
      'dist/window/**',
      'package.json',
      'demo-data/*.copewright.json',
      'LICENSE',
      '!node_modules/**',
    ]);
    expect(config.asarUnpack).toEqual(['dist/host/thread.mjs', 'dist/host/highs.wasm', 'dist/host/fonts/**']);
    const { main, scripts } = read('package.json');
    expect(main).toBe('dist/host/main.mjs');
    expect(scripts.package).toBe('tsx electron/scripts/package.ts');
    expect(threadProgram('file:///opt/C/resources/app.asar/dist/host/main.mjs').href).toBe(
      'file:///opt/C/resources/app.asar.unpacked/dist/host/thread.mjs',
    );
    expect(threadProgram('file:///src/app.asarx/host/main.mjs').href).toBe(
      'file:///src/app.asarx/host/thread.mjs',
    );
  });

  it('each part is built anew where a file that it is made from changes: its own, those of others, the packages', () => {
    const isSource = ({ sources }: typeof WINDOW, file: string): boolean =>
      sources.some((each) => file === each || file.startsWith(`${each}/`));
    /** The files of a folder, what they import from this tree, and what that imports. */
    const filesOf = (folder: string): string[] => {
      const found = new Set(
        (readdirSync(folder, { recursive: true }) as string[])
          .filter((name) => /\.tsx?$/.test(name))
          .map((name) => join(folder, name)),
      );
      for (const file of found)
        for (const [, path] of readFileSync(file, 'utf8').matchAll(/from '(\.[^']+\.tsx?)'/g))
          found.add(join(dirname(file), path!));
      return [...found];
    };
    const ofWindow = filesOf('renderer');
    expect(ofWindow).toEqual(
      expect.arrayContaining(['electron/channels.ts', 'electron/contract.ts', 'electron/menu.ts']),
    );
    for (const file of [...ofWindow, 'renderer/app/licences.json', 'package-lock.json'])
      expect(isSource(WINDOW, file), file).toBe(true);
    for (const file of [...filesOf('electron'), 'package-lock.json'])
      expect(isSource(HOST, file), file).toBe(true);
  });

  it('names an installer for each system and the plan’s own file ending', () => {
    expect([config.linux.target, config.win.target, config.mac.target]).toEqual([
      ['AppImage', 'tar.gz'],
      ['nsis'],
      ['dmg'],
    ]);
    expect(config.fileAssociations[0].ext).toBe('copewright.json');
    expect(config.publish).toBeNull();
    expect(config.mac.hardenedRuntime).toBe(true);
  });

  it('the runtime is pinned and is one of the newest three majors at the time of writing (43 to 45)', () => {
    const { devDependencies } = read('package.json');
    expect(devDependencies.electron).toMatch(/^4[345]\.\d+\.\d+$/);
  });

  it('the list of licences is current and every package has one', () => {
    expect(readFileSync('renderer/app/licences.json', 'utf8')).toBe(licencesText());
  });
});

describe('a part that several processes build at once', () => {
  /** Makes a part into `folder`, in this process. */
  const build = (folder: string): Promise<void> => {
    const make = async (aside: string): Promise<void> => mkdirSync(aside);
    return ensure({ name: 'window', sources: ['core/units'], make }, folder, () => undefined);
  };
  const inside = async <T>(action: (root: string) => Promise<T>): Promise<T> => {
    const root = await mkdtemp(join(tmpdir(), 'copewright-build-'));
    try {
      return await action(root);
    } finally {
      await rm(root, { recursive: true, force: true });
    }
  };

  it.each([
    ['of a build that was killed', -3600_000, 1],
    ['that lies ahead of the clock', 24 * 3600_000, 15_000],
  ])('does not wait without end for a lock %s', (_what, aheadMs, withinMs) =>
    inside(async (root) => {
      const folder = join(root, 'part');
      mkdirSync(`${folder}.lock`);
      const at = new Date(Date.now() + aheadMs);
      utimesSync(`${folder}.lock`, at, at);
      vi.useFakeTimers();
      try {
        let built = false;
        const done = build(folder).then(() => {
          built = true;
        });
        await vi.advanceTimersByTimeAsync(withinMs);
        expect(built).toBe(true);
        await done;
      } finally {
        vi.useRealTimers();
      }
      expect(readdirSync(root).sort()).toEqual(['part', 'part.key']);
    }),
  );

  it('sweeps what killed builds of it left, and nothing that another is at, or that is not its own', () =>
    inside(async (root) => {
      const ended = spawnSync(process.execPath, ['--eval', '']).pid;
      const left = [`part-${ended}-${Date.now()}.tmp`, `part-${process.pid}-1700000000000.tmp`];
      const others = [
        `part-${process.pid}-${Date.now()}.tmp`,
        `host-${ended}-1.tmp`,
        `a-part-${ended}-1.tmp`,
        `part-${ended}.tmp`,
      ];
      for (const name of [...left, ...others]) {
        mkdirSync(join(root, name));
        writeFileSync(join(root, name, 'file'), '');
      }
      await build(join(root, 'part'));
      expect(readdirSync(root).sort()).toEqual([...others, 'part', 'part.key'].sort());
    }));

  it('is put in its place once, and nobody takes it away from the others', async () => {
    const root = await mkdtemp(join(tmpdir(), 'copewright-build-'));
    const folder = join(root, 'part');
    const script = pathToFileURL(join(PROGRAM_FOLDER, 'electron', 'scripts', 'build-parts.ts')).href;
    // All are done with the making at one moment; each then looks at its part for a while.
    const code = `
      const { ensure } = await import(${JSON.stringify(script)});
      const { existsSync, mkdirSync, writeFileSync } = await import('node:fs');
      const make = async (aside) => {
        mkdirSync(aside);
        writeFileSync(aside + '/file', '');
        while (Date.now() < ${Date.now() + 1500});
      };
      await ensure({ name: 'window', sources: ['core/units'], make }, ${JSON.stringify(folder)}, () => {});
      for (const end = Date.now() + 300; Date.now() < end; )
        if (!existsSync(${JSON.stringify(join(folder, 'file'))})) process.exit(3);
    `;
    const one = (): Promise<number | null> =>
      new Promise((resolve) => {
        const words = ['--import', 'tsx', '--input-type=module', '--eval', code];
        spawn(process.execPath, words, { cwd: PROGRAM_FOLDER, stdio: 'ignore' }).on('exit', resolve);
      });
    expect(await Promise.all([one(), one(), one(), one()])).toEqual([0, 0, 0, 0]);
    await rm(root, { recursive: true, force: true });
  });
});
