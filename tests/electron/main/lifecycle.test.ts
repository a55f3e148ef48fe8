// What the system does to the desktop program: a second copy, a file opened from the desktop, sleep, a window that dies,
// quitting, and a disk on which unsaved work cannot be kept. The real main process, a recorded runtime, a fresh one for
// each test.

import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { OpenAnswer, OpenedPlan, RecentPlan, StartAnswer } from '../../../electron/contract.ts';
import { plansNamedIn } from '../../../electron/main/arguments.ts';
import { realEnv } from '../../../electron/services/index.ts';
import { demoFile } from '../../renderer/window.ts';
import { quietDesk } from '../services/helpers.ts';

let folder: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'copewright-life-'));
  await cp(demoFile('thimble-cottage'), join(folder, 'house.copewright.json'));
  vi.stubEnv('COPEWRIGHT_USER_DATA', join(folder, 'user'));
});
afterEach(async () => {
  vi.unstubAllEnvs();
  vi.doUnmock('electron');
  await rm(folder, { recursive: true, force: true });
});

/** Main, loaded anew, and the runtime that it sees; not yet run. */
async function load(window = folder) {
  vi.resetModules();
  vi.doMock('electron', async () => (await import('./fake-electron.ts')).fakeElectron());
  const { FakeWindow, state } = await import('./fake-electron.ts');
  const { runProgram } = await import('../../../electron/main/program.ts');
  const { ORIGIN } = await import('../../../electron/main/scheme.ts');
  const { callChannel, eventChannel } = await import('../../../electron/channels.ts');
  return {
    FakeWindow,
    state,
    run: () => runProgram({ window, preload: join(folder, 'preload.cjs') }),
    window: async () => {
      state.app.ready();
      await vi.waitUntil(() => FakeWindow.made[0]?.loaded != null, { timeout: 20_000 });
      return FakeWindow.made[0]!;
    },
    call: (name: Parameters<typeof callChannel>[0], sent: unknown) => {
      const sender = FakeWindow.made[0]!.webContents;
      return state.handlers.get(callChannel(name))!(
        { sender, senderFrame: { origin: ORIGIN, parent: null } },
        sent,
      );
    },
    heard: (event: Parameters<typeof eventChannel>[0]) =>
      FakeWindow.made[0]!.webContents.sent.filter(({ channel }) => channel === eventChannel(event)),
  };
}

/** Starts it on the house, and changes the title. */
async function withEdit(title: string) {
  const main = await load();
  main.run();
  main.state.app.emit(
    'open-file',
    { preventDefault: () => undefined },
    join(folder, 'house.copewright.json'),
  );
  const window = await main.window();
  const { opened } = (await main.call('start', {})) as StartAnswer;
  if (opened?.outcome !== 'opened') throw new Error(JSON.stringify(opened));
  const { handle, revision } = opened.view;
  const edit = { type: 'setPlan', set: { title } };
  expect(await main.call('edit', { handle, revision, edit })).toMatchObject({ ok: true });
  return { ...main, window, handle };
}

/** All that the journals hold. */
async function journalled(): Promise<string> {
  const at = join(folder, 'user', 'journals');
  const names = await readdir(at, { recursive: true }).catch((): string[] => []);
  const files = names.filter((name) => name.endsWith('.journal'));
  return (await Promise.all(files.map((name) => readFile(join(at, name), 'utf8')))).join('\n');
}

it.each<[string, string[], boolean, string[]]>([
  ['packaged', ['house.copewright.json'], true, ['/home/house.copewright.json']],
  [
    'packaged, with the runtime’s switches',
    ['--one', '--two=2', 'a b.copewright.json'],
    true,
    ['/home/a b.copewright.json'],
  ],
  ['packaged, with no plan', ['--one'], true, []],
  ['an address of a file', ['file:///home/a%20b%25.json'], true, ['/home/a b%.json']],
  [
    'names that only look like one',
    ['file:house.json', 'http://house.json', 'file:///tmp/a%00b'],
    true,
    ['/house.json', '/home/http:/house.json', '/home/file:/tmp/a%00b'],
  ],
  ['several', ['one.json', '--two', 'file:///else/three.json'], true, ['/home/one.json', '/else/three.json']],
  ['from the build', ['main.mjs', '/else/house.copewright.json'], false, ['/else/house.copewright.json']],
  [
    'from the build, a second start',
    ['--one', 'main.mjs', 'house.copewright.json'],
    false,
    ['/home/house.copewright.json'],
  ],
  ['from the build, a second start with no plan', ['--one', 'main.mjs'], false, []],
  ['an empty word', ['main.mjs', ''], false, []],
])('the plans that a start names: %s', (_what, argv, packaged, plans) => {
  expect(plansNamedIn(argv, '/home', packaged)).toEqual(plans.map((plan) => resolve(plan)));
});

it('an address with what no name can hold is a plan that is not there, in a plain sentence', async () => {
  const [path] = plansNamedIn(['file:///tmp/a%00b'], folder, true);
  const desk = quietDesk({ env: realEnv(join(folder, 'user')), home: folder });
  expect(await desk.openPath(path!)).toMatchObject({
    outcome: 'refused',
    message: 'a%00b is not there; check the name and the folder.',
  });
  await desk.end();
});

describe('the desktop program and the system', () => {
  it('[SK7] a second copy makes no window and goes', async () => {
    const { state, run, FakeWindow } = await load();
    state.app.lock = false;
    run();
    state.app.ready();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(state.app.quits).toBe(1);
    expect(FakeWindow.made).toEqual([]);
    expect([...state.handlers.keys()]).toEqual([]);
  });

  it('without its own files it says so and goes, and is in nobody’s way', async () => {
    const { state, run, FakeWindow } = await load(join(folder, 'not there'));
    run();
    state.app.ready();
    await vi.waitUntil(() => state.app.quits > 0);
    expect(state.errorBoxes).toEqual([
      expect.stringMatching(/^Copewright cannot start: A part of the program is missing/),
    ]);
    expect(FakeWindow.made).toEqual([]);
  });

  it('a file opened from the desktop before the program is ready is the plan it starts with; later it is told', async () => {
    const { state, heard } = await withEdit('Renamed');
    await cp(demoFile('thimble-cottage'), join(folder, 'other.copewright.json'));
    let prevented = false;
    const event = {
      preventDefault: () => {
        prevented = true;
      },
    };
    state.app.emit('open-file', event, join(folder, 'other.copewright.json'));
    await vi.waitUntil(() => heard('opened').length > 0);
    expect(heard('opened')[0]!.data).toMatchObject({ view: { name: 'other.copewright.json' } });
    expect(prevented).toBe(true);
  });

  it('plans that are named before the page asks how things stand are told after the answer, in order', async () => {
    const main = await load();
    main.run();
    for (const name of ['second', 'third'])
      await cp(demoFile('thimble-cottage'), join(folder, `${name}.copewright.json`));
    const named = join(folder, 'house.copewright.json');
    main.state.app.emit('open-file', { preventDefault: () => undefined }, named);
    const window = await main.window();
    const secondStart = (name: string): void => {
      main.state.app.emit('second-instance', {}, ['copewright', `${name}.copewright.json`], folder);
    };
    const told = () => main.heard('opened').map(({ data }) => (data as OpenedPlan).view.name);
    secondStart('second');
    secondStart('third');
    expect(window.shown).toBe(2);
    const { opened } = (await main.call('start', {})) as StartAnswer;
    expect(opened).toMatchObject({ view: { name: 'house.copewright.json' } });
    await vi.waitUntil(() => told().length === 2);
    expect(told()).toEqual(['second.copewright.json', 'third.copewright.json']);

    // The same for a page that is loaded again.
    for (const name of ['second', 'third']) {
      const { handle } = main
        .heard('opened')
        .map(({ data }) => (data as OpenedPlan).view)
        .find((view) => view.name!.startsWith(name))!;
      await main.call('close', { handle, lose: false });
    }
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    secondStart('second');
    // Plans are opened one after another: when a later one is open, nothing was told before the page asked.
    const [third] = ((await main.call('recent', {})) as RecentPlan[]).filter(({ name }) =>
      name.startsWith('third'),
    );
    const later = (await main.call('openRecent', { id: third!.id })) as OpenedPlan;
    expect(later.outcome).toBe('opened');
    expect(told()).toHaveLength(2);
    await main.call('close', { handle: later.view.handle, lose: false });
    expect(await main.call('start', {})).toMatchObject({
      opened: { view: { name: 'house.copewright.json' } },
    });
    await vi.waitUntil(() => told().length === 3);
    expect(told()[2]).toBe('second.copewright.json');
  });

  it('of several plans that are named at once the first is opened, and the others are not dropped without a word', async () => {
    const names = ['house', 'second', 'third'].map((name) => `${name}.copewright.json`);
    for (const name of names.slice(1)) await cp(demoFile('thimble-cottage'), join(folder, name));
    const words = process.argv;
    process.argv = ['copewright', ...names.map((name) => join(folder, name))];
    const main = await load();
    try {
      main.run();
      await main.window();
    } finally {
      process.argv = words;
    }
    const { opened } = (await main.call('start', {})) as StartAnswer;
    expect(opened).toMatchObject({ view: { name: 'house.copewright.json' } });
    const told = () => main.heard('opened').map(({ data }) => data);
    const both = {
      outcome: 'refused',
      message: 'The window shows one plan at a time: second.copewright.json and another were not opened.',
      lastGood: null,
    };
    expect(told()).toEqual([both]);
    // Once, however often the page is loaded.
    await main.call('start', {});
    expect(told()).toHaveLength(1);
    main.state.app.emit('second-instance', {}, ['copewright', names[1], names[2]], folder);
    await vi.waitUntil(() => told().length === 3);
    expect(told().slice(1)).toMatchObject([
      { outcome: 'opened', view: { name: 'second.copewright.json' } },
      {
        outcome: 'refused',
        message: 'The window shows one plan at a time: third.copewright.json was not opened.',
      },
    ]);
  });

  it('the window’s title and its mark of unsaved work are of the plan that it shows, from the first moment', async () => {
    const { state, window, call, handle, heard } = await withEdit('Renamed');
    const shown = () => [window.title, window.edited];
    const renamed = ['• Renamed – house.copewright.json – Copewright', true];
    expect(shown()).toEqual(renamed);
    // Another one is opened, in one way and the other; it is the first that is closed.
    await cp(demoFile('thimble-cottage'), join(folder, 'other.copewright.json'));
    state.app.emit('open-file', { preventDefault: () => undefined }, join(folder, 'other.copewright.json'));
    await vi.waitUntil(() => heard('opened').length > 0);
    const other = ['Thimble Cottage – other.copewright.json – Copewright', false];
    expect(shown()).toEqual(other);
    await call('close', { handle, lose: false });
    expect(shown()).toEqual(other);
    const fresh = (await call('newPlan', { units: 'metric' })) as OpenedPlan;
    expect(shown()).toEqual([expect.stringContaining(' – not saved yet – Copewright'), false]);
    await call('close', { handle: fresh.view.handle, lose: false });
    expect(shown()).toEqual(other);
    await call('close', { handle: (heard('opened')[0]!.data as OpenedPlan).view.handle, lose: false });
    expect(shown()).toEqual(['Copewright', false]);
    // Recovered work is unsaved before anybody edits it.
    const [offer] = ((await call('start', {})) as StartAnswer).offers;
    await call('recover', { id: offer!.id });
    expect(shown()).toEqual(renamed);
    // The page's own title is for a tab.
    let prevented = false;
    window.emit('page-title-updated', {
      preventDefault: () => {
        prevented = true;
      },
    });
    expect(prevented).toBe(true);
  });

  it.each<[string, (main: Awaited<ReturnType<typeof withEdit>>) => void]>([
    ['the machine sleeps', ({ state }) => state.power.emit('suspend')],
    ['the machine is shut down', ({ state }) => state.power.emit('shutdown')],
    ['the session ends', ({ window }) => window.emit('session-end', {})],
  ])('[SK8] before %s, edits go to the journal at once', async (_what, happen) => {
    const main = await withEdit('Awake');
    await vi.waitUntil(async () => (await journalled()).includes('Awake'), { timeout: 10_000 });
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    try {
      const edit = { type: 'setPlan', set: { title: 'Asleep' } };
      expect(await main.call('edit', { handle: main.handle, revision: 1, edit })).toMatchObject({ ok: true });
      // No timer runs: only the news can write it.
      happen(main);
      // Waited for without the test runner's own waiting, which would move the timers on.
      const until = performance.now() + 10_000;
      while (!(await journalled()).includes('Asleep') && performance.now() < until)
        await new Promise((resolve) => setImmediate(resolve));
      expect(await journalled()).toContain('Asleep');
    } finally {
      vi.useRealTimers();
    }
  });

  it('a window that dies is loaded again, with the same plan, its edits and the way back', async () => {
    const { window, call } = await withEdit('Before it died');
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(window.webContents.reloads).toBe(1);
    const { opened } = (await call('start', {})) as { opened: OpenAnswer };
    expect(opened).toMatchObject({
      outcome: 'opened',
      plan: { title: 'Before it died' },
      view: { unsaved: true },
      history: [{ edit: { type: 'setPlan' } }],
    });
  });

  it('a window that dies again and again is not loaded for ever: one sentence, and its edits are offered at the next start', async () => {
    const { state, window } = await withEdit('Kept all the same');
    const die = () => window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    for (let k = 1; k <= 3; k += 1) {
      die();
      expect(window.webContents.reloads).toBe(k);
    }
    // Tried again at the user's word, and counted from there.
    state.boxAnswer = 1;
    die();
    await vi.waitUntil(() => window.webContents.reloads === 4, { timeout: 20_000 });
    expect(await journalled()).toContain('Kept all the same');
    for (let k = 5; k <= 7; k += 1) die();
    expect(window.webContents.reloads).toBe(7);
    state.boxAnswer = 0;
    die();
    await vi.waitUntil(() => window.destroyed, { timeout: 20_000 });
    expect(window.webContents.reloads).toBe(7);
    expect(state.app.quits).toBe(1);
    expect(state.boxes).toHaveLength(2);
    expect(state.boxes[1]).toMatchObject({
      message: 'The window stopped four times within a minute and is not loaded again by itself.',
    });
    const next = await load();
    next.run();
    await next.window();
    const { offers } = (await next.call('start', {})) as StartAnswer;
    expect(offers).toMatchObject([{ title: 'Kept all the same', edits: 1 }]);
  });

  it('a window that dies while the program ends is not loaded again, and what it did is kept', async () => {
    const { state, window, call } = await withEdit('Died at the end');
    await call('quit', {});
    expect(window.destroyed).toBe(false);
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    await vi.waitUntil(() => window.destroyed, { timeout: 20_000 });
    expect([window.webContents.reloads, state.app.quits]).toEqual([0, 1]);
    expect(await journalled()).toContain('Died at the end');
  });

  it('a window that dies once in a while is loaded again each time', async () => {
    const { state, window } = await withEdit('Now and then');
    let now = performance.now();
    vi.spyOn(performance, 'now').mockImplementation(() => now);
    try {
      for (let k = 1; k <= 6; k += 1) {
        window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
        expect(window.webContents.reloads).toBe(k);
        now += 25_000;
      }
    } finally {
      vi.restoreAllMocks();
    }
    expect(state.boxes).toEqual([]);
  });

  it('quitting asks the window for its last edits first', async () => {
    const { state, window, heard } = await withEdit('Last words');
    let prevented = false;
    state.app.emit('before-quit', {
      preventDefault: () => {
        prevented = true;
      },
    });
    expect(prevented).toBe(true);
    expect(heard('closing')).toHaveLength(1);
    expect(window.destroyed).toBe(false);
  });

  it('[SK11] unsaved work that no disk takes is not lost without a word: staying is what a slip chooses', async () => {
    await mkdir(join(folder, 'user'));
    await writeFile(join(folder, 'user', 'journals'), 'in the way of the folder');
    const { state, window, call, handle } = await withEdit('Nowhere to go');
    await call('quit', {});
    await vi.waitUntil(() => state.boxes.length > 0, { timeout: 20_000 });
    const [box] = state.boxes;
    expect(box).toMatchObject({ message: 'The unsaved work cannot be kept on this disk.' });
    expect([box!.buttons[box!.defaultId], box!.buttons[box!.cancelId]]).toEqual(['Stay', 'Stay']);
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect([window.destroyed, state.app.quits]).toEqual([false, 0]);
    // It goes on: the plan is there, and can be saved.
    expect(await call('save', { handle })).toMatchObject({ outcome: 'saved' });
    await call('edit', { handle, revision: 1, edit: { type: 'setPlan', set: { title: 'Lost' } } });
    state.boxAnswer = 1;
    await call('quit', {});
    await vi.waitUntil(() => window.destroyed, { timeout: 20_000 });
    expect(await readFile(join(folder, 'house.copewright.json'), 'utf8')).toContain('Nowhere to go');
  });
});
