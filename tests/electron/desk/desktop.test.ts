// The contract suite over the real main process against a recorded runtime: calls go through its channels and their
// guard, as copies, and the dialogs are the system's. Each host has modules of its own, as each program has.

import { basename } from 'node:path';
import { afterAll, vi } from 'vitest';
import type { CallName, EventName } from '../../../electron/channels.ts';
import { contractSuite } from './contract-suite.ts';
import type { Heard, Host, OpenHost } from './hosts.ts';

const until = (what: () => boolean): Promise<void> =>
  vi.waitFor(
    () => {
      if (!what()) throw new Error('the desktop form did not get there');
    },
    { timeout: 20_000, interval: 5 },
  );

const openDesktop: OpenHost = async ({ folder, file = null }) => {
  vi.resetModules();
  vi.doMock('electron', async () => (await import('../main/fake-electron.ts')).fakeElectron());
  const { FakeWindow, state } = await import('../main/fake-electron.ts');
  const { runProgram } = await import('../../../electron/main/program.ts');
  const { ORIGIN } = await import('../../../electron/main/scheme.ts');
  const { callChannel, EVENT_NAMES, eventChannel } = await import('../../../electron/channels.ts');
  const { programVersion } = await import('../../../electron/services/index.ts');
  const home = `${folder}/home`;
  vi.stubEnv('COPEWRIGHT_USER_DATA', `${folder}/user`);
  vi.stubEnv('HOME', home);
  const { argv } = process;
  process.argv = file === null ? ['copewright'] : ['copewright', file];
  // The suite reads no files of the window.
  runProgram({ window: home, preload: `${home}/preload.cjs` });
  state.app.ready();
  await until(() => FakeWindow.made[0]?.loaded != null);
  process.argv = argv;
  const win = FakeWindow.made[0]!;

  const dialogs = {
    asked: [] as string[],
    set next(path: string | null) {
      state.openAnswer = { canceled: path === null, filePaths: path === null ? [] : [path] };
      state.saveAnswer = { canceled: path === null, filePath: path ?? '' };
    },
    get next(): string | null {
      return state.openAnswer.filePaths[0] ?? null;
    },
  };
  state.asked = (kind, { defaultPath, properties = [] }) => {
    const name = basename(defaultPath);
    if (kind === 'open') dialogs.asked.push(properties.includes('openDirectory') ? 'export csv' : 'open');
    else dialogs.asked.push(name.endsWith('.pdf') ? `export pdf ${name}` : `save ${name}`);
  };
  state.shownInFolder.push = (path) => dialogs.asked.push(`show ${path}`);
  state.viewed.push = (path) => dialogs.asked.push(`view ${path}`);

  const callAnything: Host['callAnything'] = async (name, sent) => {
    const handler = state.handlers.get(callChannel(name as CallName));
    if (handler === undefined) throw new Error(`nothing listens for ${name}`);
    const event = { sender: win.webContents, senderFrame: { origin: ORIGIN, parent: null } };
    return structuredClone(await handler(event, structuredClone(sent)));
  };
  const nameOf = (channel: string): EventName => EVENT_NAMES.find((each) => eventChannel(each) === channel)!;
  return {
    call: (name, sent) => callAnything(name, sent) as never,
    callAnything,
    get heard(): readonly Heard[] {
      return win.webContents.sent.map(({ channel, data }) => ({ event: nameOf(channel), data }));
    },
    version: programVersion(),
    dialogs,
    end: async () => {
      if (win.destroyed) return;
      await callAnything('quit', {});
      await until(() => win.destroyed);
    },
  };
};

afterAll(() => {
  vi.unstubAllEnvs();
  vi.doUnmock('electron');
});
contractSuite('the desktop form', openDesktop);
