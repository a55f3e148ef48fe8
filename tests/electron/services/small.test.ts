// The program's own small files, kept versions, and sweeping.

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Writable } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { REAL_CALLS } from '../../../electron/services/file-calls.ts';
import { preferencesFile } from '../../../electron/services/preferences.ts';
import { ownMark, stateOf, UNKNOWN_START } from '../../../electron/services/process-mark.ts';
import { recentFiles } from '../../../electron/services/recent.ts';
import { sweep, temporaryIn } from '../../../electron/services/temporary.ts';
import { keepVersion, listVersions, readVersion } from '../../../electron/services/versions.ts';
import { bytesOf, faultyDisk, freshFolder, handEnv, quietDesk, remove } from './helpers.ts';

let folder: string;
let userData: string;
beforeEach(async () => {
  folder = await freshFolder();
  userData = join(folder, 'user');
});
afterEach(() => remove(folder));

describe('[SK12] preferences and recent files', () => {
  it('are the defaults where there are none, and what was changed afterwards', async () => {
    const file = preferencesFile(handEnv(userData));
    expect(await file.read()).toEqual({
      units: 'imperial',
      theme: 'system',
      autosaveSeconds: null,
      angleStepDeg: 15,
      gridMm: null,
      window: null,
    });
    await Promise.all([
      file.change((now) => ({ ...now, units: 'metric' })),
      file.change((now) => ({ ...now, theme: 'dark' })),
    ]);
    expect(await preferencesFile(handEnv(userData)).read()).toMatchObject({ units: 'metric', theme: 'dark' });
    expect(await readdir(userData)).toEqual(['preferences.json']);
  });

  it('that cannot be understood are put aside, each under a name of its own, and the defaults taken', async () => {
    const env = handEnv(userData);
    await mkdir(userData);
    const path = join(userData, 'preferences.json');
    const bad = ['{', '[]', '{"units":"cubits"}', '{"autosaveSeconds":0}', '\u0000', '"'.repeat(2_000_000)];
    for (const text of bad) {
      await writeFile(path, text);
      expect(await preferencesFile(env).read()).toMatchObject({ units: 'imperial' });
    }
    const names = (await readdir(userData)).sort();
    expect(names).toEqual(bad.map((_, i) => `preferences.json.unreadable-${i + 1}`));
    expect(await readFile(join(userData, names[0]!), 'utf8')).toBe('{');
    // A key of a later version is no fault.
    await writeFile(path, '{"units":"metric","later":1}');
    expect(await preferencesFile(env).read()).toMatchObject({ units: 'metric' });
  });

  it('that the disk cannot read now are neither put aside nor written over', async () => {
    const disk = faultyDisk();
    const env = handEnv(userData, disk.calls);
    await preferencesFile(env).change((now) => ({ ...now, units: 'metric' }));
    disk.arm(1, true, 'EIO');
    expect((await preferencesFile(env).read()).units).toBe('imperial');
    disk.arm(1, false, 'EIO');
    await expect(preferencesFile(env).change((now) => ({ ...now, theme: 'dark' }))).rejects.toThrow(
      /disk reports an error/,
    );
    disk.disarm();
    expect(await preferencesFile(env).read()).toMatchObject({ units: 'metric', theme: 'system' });
  });

  it('recent files: newest first by the order of opening, ten at most, by ids that are no paths', async () => {
    const env = handEnv(userData);
    const recent = recentFiles(env);
    for (let i = 0; i < 12; i += 1) {
      env.setClock(1e12 - i * 1e9);
      await recent.add(`/houses/${i % 2}/h${i}.copewright.json`);
    }
    await recent.add('/houses/1/h5.copewright.json');
    const list = await recent.list();
    expect(list.map((file) => file.name)).toEqual(
      [5, 11, 10, 9, 8, 7, 6, 4, 3, 2].map((i) => `h${i}.copewright.json`),
    );
    expect(list[0]).toMatchObject({ folder: '1' });
    expect(JSON.stringify(list)).not.toContain('houses');
    expect(await recent.pathOf(list[0]!.id)).toBe('/houses/1/h5.copewright.json');
    expect(await recent.pathOf('/etc/passwd')).toBeNull();
    await recent.remove(list[0]!.id);
    expect((await recent.list()).length).toBe(9);
    await recent.clear();
    expect(await recent.list()).toEqual([]);
  });
});

describe('[SK10] versions', () => {
  it('the last five of each file are kept, newest first, the same bytes not twice in a row', async () => {
    const env = handEnv(userData);
    for (let i = 0; i < 8; i += 1) {
      env.setClock(1e12 - i);
      await keepVersion(env, '/a', bytesOf(`a${i}`));
      await keepVersion(env, '/a', bytesOf(`a${i}`));
    }
    await keepVersion(env, '/b', bytesOf('b'));
    const texts = await Promise.all(
      (await listVersions(env, '/a')).map(async ({ id }) =>
        Buffer.from((await readVersion(env, id))!).toString(),
      ),
    );
    expect(texts).toEqual(['a7', 'a6', 'a5', 'a4', 'a3']);
    expect((await listVersions(env, '/b')).length).toBe(1);
  });

  it('one that the user was told of stays however many follow, though the same bytes were kept before unasked', async () => {
    const env = handEnv(userData);
    await keepVersion(env, '/a', bytesOf('work'));
    await keepVersion(env, '/a', bytesOf('work'), true);
    for (let i = 0; i < 8; i += 1) await keepVersion(env, '/a', bytesOf(`a${i}`));
    const texts = await Promise.all(
      (await listVersions(env, '/a')).map(async ({ id }) =>
        String(Buffer.from((await readVersion(env, id))!)),
      ),
    );
    expect(texts).toEqual(['a7', 'a6', 'a5', 'a4', 'a3', 'work']);
  });

  it('whichever operation fails, no version that was there is lost', async () => {
    const disk = faultyDisk();
    const env = handEnv(userData, disk.calls);
    for (let i = 0; i < 5; i += 1) await keepVersion(env, '/a', bytesOf(`a${i}`));
    for (let k = 1; ; k += 1) {
      disk.arm(k, true, 'EIO');
      await keepVersion(env, '/a', bytesOf(`new${k}`)).catch(() => undefined);
      const struck = disk.struck();
      disk.disarm();
      expect((await listVersions(env, '/a')).length).toBeGreaterThanOrEqual(5);
      if (!struck) break;
    }
  });
});

describe('[SK5] sweeping', () => {
  it('of folders on a drive that does not answer holds up neither the start nor the end', async () => {
    const gone = join(folder, 'gone');
    await recentFiles(handEnv(userData)).add(join(gone, 'house.copewright.json'));
    let asked = false;
    const readdir = (at: string): Promise<string[]> => {
      if (at !== gone) return REAL_CALLS.readdir(at);
      asked = true;
      return new Promise(() => undefined);
    };
    const desk = quietDesk({ env: handEnv(userData, { ...REAL_CALLS, readdir }), home: folder });
    expect(await desk.handle('start', {})).toMatchObject({ recent: [{ name: 'house.copewright.json' }] });
    await vi.waitUntil(() => asked);
    expect(await desk.end()).toBe(true);
  });

  it.skipIf(process.platform !== 'linux')(
    'takes what a process left that has ended and only waits to be collected',
    async () => {
      // What the shell becomes never asks for the child that the shell had; that ends when nothing more is said to it.
      const parent = spawn('sh', ['-c', 'cat <&3 & echo $!; exec sleep 60 3<&-'], {
        stdio: ['ignore', 'pipe', 'ignore', 'pipe'],
      });
      try {
        const [line] = (await once(parent.stdout!, 'data')) as [Buffer];
        const pid = Number(String(line));
        const said = (of: number | undefined, what: string) => readFileSync(`/proc/${of}/${what}`, 'latin1');
        await vi.waitUntil(() => said(parent.pid, 'comm') === 'sleep\n', { timeout: 10_000 });
        (parent.stdio[3] as Writable).end();
        await vi.waitUntil(() => said(pid, 'stat').split(' ')[2] === 'Z', { timeout: 10_000 });
        process.kill(pid, 0);
        const { host } = ownMark();
        expect(stateOf({ host, pid: process.pid, start: UNKNOWN_START })).toBe('alive');
        expect(stateOf({ host, pid, start: UNKNOWN_START })).toBe('dead');
        await writeFile(join(folder, `.copewright-${host}-${pid}-0-${'1'.repeat(16)}.tmp`), '');
        const env = handEnv(userData);
        expect(await sweep(folder, env.calls, env.clock)).toBe(1);
      } finally {
        parent.kill('SIGKILL');
      }
    },
  );

  it('takes what dead processes left, and leaves what living ones write, what is ours by no name, and a folder that is gone', async () => {
    const env = handEnv(userData);
    const mine = temporaryIn(folder);
    const { host, pid, start } = ownMark();
    const dead = join(folder, `.copewright-${host}-${pid}-${'0a'.repeat(4)}-${'1'.repeat(16)}.tmp`);
    const gone = join(folder, `.copewright-${host}-999999999-${start}-${'2'.repeat(16)}.tmp`);
    const far = join(folder, `.copewright-ffffffff-1-${start}-${'3'.repeat(16)}.tmp`);
    const other = join(folder, '.copewright-notes.tmp');
    for (const path of [mine, dead, gone, far, other]) await writeFile(path, '');
    env.setClock(Date.now());
    expect(await sweep(folder, env.calls, env.clock)).toBe(2);
    expect((await readdir(folder)).length).toBe(3);
    env.setClock(Date.now() + 2 * 24 * 3600 * 1000);
    expect(await sweep(folder, env.calls, env.clock)).toBe(1);
    expect((await readdir(folder)).length).toBe(2);
    expect(await sweep(join(folder, 'none'), env.calls, env.clock)).toBe(0);
  });
});
