// The desktop form as a user meets it, as far as it goes without the runtime: the built window in Chromium, the built
// preload, and the real main process with a recorded runtime between them. The file that uses it mocks 'electron' with
// main/fake-electron.ts. What the runtime itself would add (its sandbox, its menus on the screen) is not here.

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { vi } from 'vitest';
import { runProgram } from '../../../electron/main/program.ts';
import { ORIGIN, SCHEME } from '../../../electron/main/scheme.ts';
import { launchChromium } from '../../chromium.ts';
import { builtWindow } from '../../renderer/window.ts';
import { builtPreload } from '../built-preload.ts';
import { FakeWindow, state } from '../main/fake-electron.ts';

/** Stands for the window's own scheme, which a browser does not know. */
const PAGE = 'https://window.test';

export interface DesktopWindow {
  readonly page: Page;
  readonly errors: string[];
  /** Path of a file in the user's folder. */
  atHome(name: string): string;
  /** Chooses an item of the native menus, by its label. Throws where there is none. */
  choose(label: string): void;
  /** Labels of the native menu's recent plans, as they are now. */
  recent(): string[];
  /** What the system's next dialog for a file to be written answers. */
  saveTo(path: string): void;
  close(): Promise<void>;
}

interface Item {
  readonly label?: string;
  readonly click?: () => void;
  readonly submenu?: readonly Item[];
}
const flat = (items: readonly Item[]): readonly Item[] =>
  items.flatMap((item) => [item, ...flat(item.submenu ?? [])]);
const items = (): readonly Item[] => flat(state.menu as readonly Item[]);

/** What the runtime gives a sandboxed preload, in the page: the bridge by name, calls over a binding, events by a hook. */
const preloadIn = (preload: string): string => `(() => {
  const listeners = {};
  const electron = {
    contextBridge: { exposeInMainWorld: (name, value) => { globalThis[name] = value; } },
    ipcRenderer: {
      invoke: async (channel, sent) => JSON.parse(await globalThis.__invoke(channel, JSON.stringify(sent))),
      on: (channel, hear) => { (listeners[channel] ??= new Set()).add(hear); },
      removeListener: (channel, hear) => listeners[channel]?.delete(hear),
    },
    webUtils: { getPathForFile: (file) => file.name },
  };
  globalThis.__hear = (channel, data) => { for (const hear of listeners[channel] ?? []) hear({}, data); };
  const module = { exports: {} };
  ((require, process, module, exports) => {${preload}
  })(() => electron, { platform: 'linux' }, module, module.exports);
})()`;

/**
 * Starts the program on folders of its own under `folder`: `home` is the user's, `user` the program's. `meanwhile` happens
 * when there is a window, and before its page is loaded.
 */
export async function openDesktopWindow(
  folder: string,
  file: string | null,
  meanwhile: () => void = () => undefined,
): Promise<DesktopWindow> {
  const home = join(folder, 'home');
  await mkdir(home, { recursive: true });
  vi.stubEnv('COPEWRIGHT_USER_DATA', join(folder, 'user'));
  vi.stubEnv('HOME', home);
  const { argv } = process;
  process.argv = file === null ? ['copewright'] : ['copewright', file];
  runProgram({ window: await builtWindow(), preload: 'preload.cjs' });
  state.app.ready();
  await vi.waitUntil(() => FakeWindow.made[0]?.loaded != null, { timeout: 20_000 });
  process.argv = argv;
  meanwhile();
  const { webContents } = FakeWindow.made[0]!;
  let browser: Browser | null = null;
  try {
    browser = await launchChromium();
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(String(error.stack ?? error)));
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    await page.route(`${PAGE}/**`, async (route) => {
      const { schemes } = state.session;
      const url = route.request().url().replace(PAGE, ORIGIN);
      const answer = schemes.get(SCHEME)!({ method: route.request().method(), url });
      const headers = Object.fromEntries(answer.headers);
      await route.fulfill({ status: answer.status, headers, body: Buffer.from(await answer.arrayBuffer()) });
    });
    await page.exposeFunction('__invoke', async (channel: string, sent: string) => {
      const event = { sender: webContents, senderFrame: { origin: ORIGIN, parent: null } };
      return JSON.stringify((await state.handlers.get(channel)!(event, JSON.parse(sent))) ?? null);
    });
    webContents.hear = (channel, data) => {
      const told = page.evaluate(([to, what]) => (globalThis as never as Hearing).__hear(to, what), [
        channel,
        data,
      ] as const);
      // The page may be on its way out.
      void told.catch(() => undefined);
    };
    await page.addInitScript({ content: preloadIn(await builtPreload()) });
    await page.goto(`${PAGE}/index.html`, { waitUntil: 'load' });
    const opened = browser;
    return {
      page,
      errors,
      atHome: (name) => join(home, name),
      choose: (label) => {
        const item = items().find((each) => each.label === label && each.click !== undefined);
        if (item === undefined) throw new Error(`the menus have no ${label}`);
        item.click!();
      },
      recent: () =>
        items()
          .find(({ label }) => label === 'Recent plans')!
          .submenu!.map(({ label }) => label!),
      saveTo: (path) => {
        state.saveAnswer = { canceled: false, filePath: path };
      },
      close: async () => {
        webContents.hear = null;
        await opened.close();
        vi.unstubAllEnvs();
      },
    };
  } catch (error) {
    await browser?.close();
    throw error;
  }
}

interface Hearing {
  __hear(channel: string, data: unknown): void;
}
