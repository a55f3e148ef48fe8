// The window in a real browser over the real loopback server, for tests: built once, on folders of its own. Whoever opens
// it closes it. `errors` is what the page complained of, and must stay empty.

import { existsSync } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright';
import { type Local, type LocalOptions, startLocal } from '../../electron/local/server.ts';
import { ensure, isCurrent, keyOf, partFolder, WINDOW } from '../../electron/scripts/build-parts.ts';
import { realEnv } from '../../electron/services/env.ts';
import { launchChromium } from '../chromium.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** The demo house's plan file. */
export const demoFile = (house: string): string => join(root, 'demo-data', `${house}.copewright.json`);

/** A plan's text with no stock to cut it from: no boards are worked out beside what is tested. */
async function unstockedText(file: string): Promise<string> {
  const plan = JSON.parse(await readFile(file, 'utf8')) as { profiles: Record<string, object> };
  for (const profile of Object.values(plan.profiles)) Object.assign(profile, { stock: [] });
  return JSON.stringify(plan);
}

const OLD_MS = 6 * 3600 * 1000;

/** Takes away windows that were built for tests long ago. */
async function dropOld(cache: string): Promise<void> {
  for (const name of await readdir(cache).catch((): string[] => [])) {
    const path = join(cache, name);
    const about = name.startsWith('window-') ? await stat(path).catch(() => null) : null;
    if (about !== null && Date.now() - about.mtimeMs > OLD_MS)
      await rm(path, { recursive: true, force: true });
  }
}

/** The built window: dist/window where it is current, else one built for tests, by the hash of its sources. */
export async function builtWindow(): Promise<string> {
  const key = keyOf(WINDOW);
  if (isCurrent(partFolder(WINDOW), key)) return partFolder(WINDOW);
  const cache = join(root, 'node_modules', '.cache', 'copewright');
  await dropOld(cache);
  const folder = join(cache, `window-${key.slice(0, 16)}`);
  await ensure(WINDOW, folder, () => undefined);
  return folder;
}

export interface WindowOptions {
  /** A plan file; it is copied into the window's home first. Null: none is named. */
  readonly file?: string | null;
  /** The copy has no stock, so that no boards are worked out. */
  readonly unstocked?: boolean;
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  readonly scale?: number;
  /** A folder from an earlier window, to start on the same user data again. */
  readonly folder?: string;
  readonly local?: Partial<LocalOptions>;
}

export interface OpenWindow {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly local: Local;
  /** Has `home` (the user's files) and `user` (the program's own). */
  readonly folder: string;
  /** Path of the copied plan file. */
  readonly file: string | null;
  readonly errors: string[];
  /** What the server refused or failed at. */
  readonly log: string[];
  /** Ends page and server; with `keep` the folder stays. */
  close(keep?: boolean): Promise<void>;
}

/** The real server on folders of its own. */
export async function openServer(
  options: WindowOptions = {},
): Promise<Omit<OpenWindow, 'page' | 'context' | 'errors'>> {
  const windowFolder = await builtWindow();
  const folder = options.folder ?? (await mkdtemp(join(tmpdir(), 'copewright-window-')));
  const home = join(folder, 'home');
  await mkdir(home, { recursive: true });
  let file: string | null = null;
  if (options.file != null) {
    file = join(home, basename(options.file));
    if (!existsSync(file)) {
      if (options.unstocked === true) await writeFile(file, await unstockedText(options.file));
      else await cp(options.file, file);
    }
  }
  const log: string[] = [];
  const local = await startLocal({
    env: realEnv(join(folder, 'user')),
    version: '0.0.0-test',
    windowFolder,
    home,
    file,
    openLink: () => undefined,
    log: (line) => log.push(line),
    ...options.local,
  });
  return {
    local,
    folder,
    file,
    log,
    close: async (keep = false) => {
      await local.stop();
      if (!keep) await rm(folder, { recursive: true, force: true });
    },
  };
}

/** The window, loaded; it shows the plan, where one is named. */
export async function openWindow(options: WindowOptions = {}): Promise<OpenWindow> {
  const server = await openServer(options);
  let browser: Browser | null = null;
  try {
    browser = await launchChromium();
    const context = await browser.newContext({
      viewport: { width: options.width ?? 1280, height: options.height ?? 800 },
      deviceScaleFactor: options.scale ?? 1,
      colorScheme: options.dark ? 'dark' : 'light',
      reducedMotion: 'reduce',
    });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    page.on('pageerror', (error) => errors.push(String(error.stack ?? error)));
    await page.goto(server.local.address, { waitUntil: 'load' });
    const opened = browser;
    return {
      ...server,
      page,
      context,
      errors,
      close: async (keep) => {
        await opened.close();
        await server.close(keep);
      },
    };
  } catch (error) {
    await browser?.close();
    await server.close();
    throw error;
  }
}
