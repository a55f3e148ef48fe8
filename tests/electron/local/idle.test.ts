// When the loopback form ends by itself: a while after the last page is gone, with everything kept; not while one listens,
// and not with work that cannot be kept.

import { once } from 'node:events';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import http from 'node:http';
import { syncBuiltinESMExports } from 'node:module';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Local, type LocalOptions, startLocal } from '../../../electron/local/server.ts';
import { realEnv, type Timers } from '../../../electron/services/env.ts';
import type { FileCalls } from '../../../electron/services/file-calls.ts';
import { freshFolder, quietDesk, remove, textOf, titleEdit } from '../services/helpers.ts';
import { ask, enter, listen, ownHeaders } from './client.ts';

describe('the loopback form and the system', () => {
  let folder: string;
  let local: Local;
  const start = async (more: Partial<LocalOptions>): Promise<Local> => {
    local = await startLocal({
      env: realEnv(join(folder, 'user')),
      version: '0.0.0-test',
      windowFolder: join(folder, 'home'),
      home: join(folder, 'home'),
      file: join(folder, 'home', 'house.copewright.json'),
      openLink: () => undefined,
      log: () => undefined,
      ...more,
    });
    return local;
  };
  const state = async (): Promise<'stopped' | 'running'> =>
    Promise.race([local.stopped.then(() => 'stopped' as const), Promise.resolve('running' as const)]);
  const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

  beforeEach(async () => {
    folder = await freshFolder();
    await mkdir(join(folder, 'home'));
    await writeFile(join(folder, 'home', 'house.copewright.json'), textOf('t0'));
  });
  afterEach(async () => {
    await local.stop();
    await remove(folder);
  });

  /** The system's timers, of which those of so many ms pass only when told. */
  function timersOf(ms: number) {
    const real = realEnv(join(folder, 'user')).timers;
    const waiting = new Set<() => void>();
    const timers: Timers = {
      ...real,
      after: (time, action) => {
        if (time !== ms) return real.after(time, action);
        waiting.add(action);
        return () => waiting.delete(action);
      },
    };
    const pass = (): void => {
      for (const action of [...waiting]) if (waiting.delete(action)) action();
    };
    return { timers, waiting: () => waiting.size, pass };
  }

  /** Sends a call as the window does. */
  const callAs =
    (cookie: string) =>
    async (name: string, sent: unknown): Promise<unknown> => {
      const headers = ownHeaders(local, cookie);
      const body = JSON.stringify(sent);
      return JSON.parse((await ask(local, { method: 'POST', path: `/call/${name}`, headers, body })).text);
    };

  it('[SK17] not at once where a page says goodbye: another may be there, or come back', async () => {
    await start({ idleMs: 60_000, waitMs: 60_000 });
    const cookie = await enter(local);
    const call = callAs(cookie);
    for (const goOn of [() => call('recent', {}), () => listen(local, cookie, () => undefined)]) {
      const leave = await listen(local, cookie, () => undefined);
      await call('quit', {});
      const again = await goOn();
      leave();
      if (typeof again === 'function') again();
      await sleep(200);
      expect(await state()).toBe('running');
    }
  });

  it('goes on where the system lets nobody in for a while', async () => {
    const real = http.createServer;
    let server: http.Server | undefined;
    http.createServer = ((...of: never[]) => {
      server = real(...of);
      return server;
    }) as typeof http.createServer;
    syncBuiltinESMExports();
    const log: string[] = [];
    try {
      await start({ log: (line) => log.push(line) });
    } finally {
      http.createServer = real;
      syncBuiltinESMExports();
    }
    const tooMany = Object.assign(new Error('accept EMFILE'), { code: 'EMFILE' });
    for (let k = 0; k < 3; k += 1) server!.emit('error', tooMany);
    expect(log.filter((line) => line.includes('accept EMFILE')).length).toBeGreaterThan(1);
    expect(await callAs(await enter(local))('recent', {})).toEqual([]);
  });

  it('[SK17] takes no more connections at once than leave file handles for saving', async () => {
    await start({});
    const { port } = new URL(local.origin);
    const sockets = Array.from({ length: 140 }, () => connect(Number(port), '127.0.0.1'));
    for (const socket of sockets) socket.on('error', () => undefined);
    const closed = (): number => sockets.filter((socket) => socket.closed).length;
    await vi.waitUntil(() => closed() >= 12, { timeout: 30_000 });
    // No more than those.
    await sleep(200);
    expect(closed()).toBe(12);
    for (const socket of sockets) socket.destroy();
  });

  it('[SK17] where nobody ever comes', async () => {
    await start({ waitMs: 50 });
    await local.stopped;
    await expect(ask(local, {})).rejects.toThrow();
  });

  it('leaves no connection behind when it is ended, not one either that is in the middle of asking', async () => {
    await start({});
    const socket = connect(Number(new URL(local.origin).port), '127.0.0.1');
    socket.on('error', () => undefined);
    await once(socket, 'connect');
    socket.write('GET / HTTP/1.1\r\nHost:');
    // Until the program has it.
    await enter(local);
    await local.stop();
    await vi.waitUntil(() => socket.closed, { timeout: 5_000 });
  });

  it('leaves no timer behind that would hold the process when it is ended while a page listens', async () => {
    const env = realEnv(join(folder, 'user'));
    const running = new Set<() => void>();
    const after: Timers['after'] = (ms, action) => {
      const cancel = env.timers.after(ms, action);
      running.add(cancel);
      return () => {
        running.delete(cancel);
        cancel();
      };
    };
    await start({ env: { ...env, timers: { after } } });
    await listen(local, await enter(local), () => undefined);
    await local.stop();
    await sleep(100);
    expect(running.size).toBe(0);
  });

  it('[SK8] not with work that no disk takes: it goes on, says how, and gives that work up only when told again', async () => {
    let full = true;
    const env = realEnv(join(folder, 'user'));
    const calls: FileCalls = {
      ...env.calls,
      open: async (path, ...how) => {
        if (full && path.includes('journals')) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
        return env.calls.open(path, ...how);
      },
    };
    const said: string[] = [];
    await start({ env: { ...env, calls }, idleMs: 60, log: (line) => said.push(line) });
    const cookie = await enter(local);
    const call = callAs(cookie);
    const leave = await listen(local, cookie, () => undefined);
    const { opened } = (await call('start', {})) as { opened: { view: { handle: string } } };
    await call('edit', { handle: opened.view.handle, revision: 0, edit: titleEdit('t1') });
    await call('quit', {});
    leave();
    await vi.waitUntil(() => said.length > 0, { timeout: 5_000 });
    await sleep(300);
    expect(await state()).toBe('running');
    // Said once, however often it tried; and the page finds its plan.
    expect(said).toEqual([expect.stringContaining(`The program goes on at ${local.origin}`)]);
    await listen(local, cookie, () => undefined);
    expect(await call('start', {})).toMatchObject({ opened: { view: { title: 't1', unsaved: true } } });
    // Somebody came since, so the first word to end it is not yet one to lose the work.
    expect(await local.stop()).toBe(false);
    expect(await state()).toBe('running');
    expect(await local.stop()).toBe(true);
    await local.stopped;
    await expect(ask(local, {})).rejects.toThrow();
    full = false;
    expect(await readdir(join(folder, 'user', 'locks'))).toEqual([]);
  });

  it('[SK8] nor at the first word, where a page came while it tried to keep that work', async () => {
    const idle = timersOf(400);
    const env = { ...realEnv(join(folder, 'user')), timers: idle.timers };
    let [full, trying] = [true, false];
    let fail = (): void => undefined;
    const failing = new Promise<void>((resolve) => {
      fail = resolve;
    });
    const calls: FileCalls = {
      ...env.calls,
      open: async (path, ...how) => {
        if (!full || !path.includes('journals')) return env.calls.open(path, ...how);
        trying = true;
        await failing;
        throw Object.assign(new Error('full'), { code: 'ENOSPC' });
      },
    };
    const said: string[] = [];
    await start({ env: { ...env, calls }, idleMs: 400, log: (line) => said.push(line) });
    const cookie = await enter(local);
    const call = callAs(cookie);
    const { opened } = (await call('start', {})) as { opened: { view: { handle: string } } };
    await call('edit', { handle: opened.view.handle, revision: 0, edit: titleEdit('t1') });
    idle.pass();
    await vi.waitUntil(() => trying, { timeout: 30_000 });
    await listen(local, cookie, () => undefined);
    fail();
    await vi.waitUntil(() => said.length > 0, { timeout: 30_000 });
    expect(await local.stop()).toBe(false);
    expect(await state()).toBe('running');
    expect(await local.stop()).toBe(true);
    full = false;
  });

  it('[SK17] not while a page calls that cannot listen: each call puts it off, an end of its own comes after the last', async () => {
    const env = realEnv(join(folder, 'user'));
    const [idleMs, waitMs] = [123_456, 654_321];
    const ends: { action: () => void; cancelled: boolean }[] = [];
    const after: Timers['after'] = (ms, action) => {
      if (ms !== idleMs && ms !== waitMs) return env.timers.after(ms, action);
      const end = { action, cancelled: false };
      ends.push(end);
      return () => {
        end.cancelled = true;
      };
    };
    await start({ env: { ...env, timers: { after } }, idleMs, waitMs });
    const standing = () => ends.filter(({ cancelled }) => !cancelled);
    const call = callAs(await enter(local));
    for (let k = 0; k < 3; k += 1) {
      const before = standing();
      expect(before).toHaveLength(1);
      await call('recent', {});
      expect(before[0]!.cancelled).toBe(true);
    }
    const [last] = standing();
    last!.action();
    await local.stopped;
  });

  it('[SK17] a while after the last page is gone, and keeps unsaved work; a page that comes back in time goes on', async () => {
    const idle = timersOf(400);
    await start({ env: { ...realEnv(join(folder, 'user')), timers: idle.timers }, idleMs: 400 });
    const cookie = await enter(local);
    const call = callAs(cookie);
    const one = await listen(local, cookie, () => undefined);
    const { opened } = (await call('start', {})) as { opened: { view: { handle: string } } };
    const { handle } = opened.view;
    await call('edit', { handle, revision: 0, edit: titleEdit('t1') });
    expect(idle.waiting()).toBe(0);
    // Loaded again.
    one();
    await vi.waitUntil(() => idle.waiting() === 1, { timeout: 30_000 });
    const told: unknown[] = [];
    const two = await listen(local, cookie, (_event, data) => told.push(data));
    expect(idle.waiting()).toBe(0);
    expect(await state()).toBe('running');
    // A page that listens again is told how its plan stands.
    await vi.waitUntil(() => told.length > 0, { timeout: 30_000 });
    expect(told).toMatchObject([{ handle, revision: 1, title: 't1', unsaved: true }]);
    two();
    await vi.waitUntil(() => idle.waiting() === 1, { timeout: 30_000 });
    idle.pass();
    await local.stopped;
    const desk = quietDesk({ env: realEnv(join(folder, 'user')), home: folder });
    expect(await desk.handle('offers', {})).toMatchObject([{ name: 'house.copewright.json', edits: 1 }]);
    await desk.end();
  });
});
