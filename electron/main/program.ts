// The desktop program: one instance, one window, the desk beside it. Order matters here: sandbox and scheme before the
// system is ready, guards before there is a page, the window last. Unsaved work is kept by the desk whatever ends first.

import { homedir } from 'node:os';
import {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  Menu,
  powerMonitor,
  protocol,
  screen,
  session,
  shell,
} from 'electron';
import { eventChannel } from '../channels.ts';
import type { EventName, Events } from '../contract.ts';
import {
  builtFiles,
  type Env,
  openDesk,
  type Preferences,
  preferencesFile,
  programVersion,
  realEnv,
  recentFiles,
  type SmallFile,
  userDataFolder,
} from '../services/index.ts';
import { notOpened, plansNamedIn } from './arguments.ts';
import { listen } from './calls.ts';
import { nativeChooser } from './chooser.ts';
import { guardContents, guardSession } from './guards.ts';
import { menuTemplate } from './menu-template.ts';
import { answerRequest, SCHEME, START_ADDRESS } from './scheme.ts';
import { placeOf, windowOptions, windowTitle } from './window.ts';

/** A window that dies more often than this within a minute is not loaded again. */
const MOST_RELOADS = 3;
const RELOADS_WITHIN_MS = 60_000;

/** How long the window may take to hand over its last edits before it is closed anyway, ms. */
const LAST_WORDS_MS = 5_000;

export interface ProgramFiles {
  /** The built window. */
  readonly window: string;
  readonly preload: string;
}

/** Starts the program. Gives nothing back: from here on the system calls. */
export function runProgram(files: ProgramFiles): void {
  app.enableSandbox();
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
  guardContents(app);
  const early: string[] = [];
  const onOpenFile = (event: { preventDefault(): void }, path: string): void => {
    event.preventDefault();
    early.push(path);
  };
  app.on('open-file', onOpenFile);
  void app
    .whenReady()
    .then(async () => {
      app.off('open-file', onOpenFile);
      const words = process.argv.slice(1);
      const named = early.length > 0 ? early : plansNamedIn(words, process.cwd(), app.isPackaged);
      await openProgram(files, named);
    })
    .catch(cannotStart);
}

/** Without a window nobody could end it, and it would stand in the way of every later start. */
function cannotStart(error: unknown): void {
  const why = error instanceof Error ? error.message : String(error);
  dialog.showErrorBox(
    'Copewright cannot start',
    `A part of the program is missing or cannot be read: ${why}`,
  );
  app.quit();
}

async function openProgram(files: ProgramFiles, [named, ...others]: readonly string[]): Promise<void> {
  const developing = !app.isPackaged;
  const env: Env = realEnv(userDataFolder());
  const preferences = preferencesFile(env);
  const log = (line: string): void => void process.stderr.write(`${line}\n`);
  let window: BrowserWindow | null = null;
  let ending = false;
  let lastWords: NodeJS.Timeout | undefined;
  /** Plans that were named while the page had not asked yet how things stand; null once it hears what comes unasked. */
  let early: (readonly string[])[] | null = [];
  /** When the window was loaded again after it had died, ms. */
  let reloads: readonly number[] = [];

  guardSession(session.defaultSession, developing);
  const built = builtFiles(files.window);
  session.defaultSession.protocol.handle(SCHEME, ({ method, url }) => answerRequest(built, method, url));

  const emit = <E extends EventName>(event: E, data: Events[E]): void => {
    if (window === null || window.isDestroyed()) return;
    window.webContents.send(eventChannel(event), data);
    if (event === 'changed') showView();
  };

  const desk = openDesk({
    env,
    version: programVersion(),
    chooser: nativeChooser({ dialog, shell, window: () => window }),
    home: homedir(),
    file: named ?? null,
    emit,
    openLink: (address) => void shell.openExternal(address),
    editField: (how) => {
      if (window !== null && !window.isDestroyed()) window.webContents[how]();
    },
    stay: () => clearTimeout(lastWords),
    quit: () => void end(),
  });

  /** The window's title, and on a Mac the dot in it, are of the plan that it shows. */
  function showView(): void {
    if (window === null || window.isDestroyed()) return;
    const view = desk.shown();
    window.setTitle(windowTitle(view));
    window.setDocumentEdited(view?.unsaved ?? false);
  }

  /** Keeps everything, then goes. Where something cannot be kept, the window stays and says so. */
  async function end(): Promise<void> {
    clearTimeout(lastWords);
    if (ending) return;
    ending = true;
    if (window !== null) await rememberPlace(preferences, window);
    const kept = await desk.end();
    if (!kept && window !== null && !(await mayLose(window))) {
      ending = false;
      return;
    }
    window?.destroy();
    app.quit();
  }

  /** Every edit that reached the desk is in its journal: the page starts again with the same plan, but not for ever. */
  async function afterDeath(): Promise<void> {
    if (ending || window === null) return;
    early ??= [];
    const now = performance.now();
    reloads = [...reloads.filter((at) => now - at < RELOADS_WITHIN_MS), now];
    if (reloads.length > MOST_RELOADS) {
      reloads = [];
      await desk.flush();
      if (!(await mayTryAgain(window))) await end();
      // Where not all could be kept the user may have chosen to stay.
      if (ending) return;
    }
    window.webContents.reload();
  }

  /** The page listens before it asks, and shows what comes unasked after the answer. */
  function pageListens(): void {
    const named = early ?? [];
    early = null;
    tellOthers(others.splice(0));
    for (const plans of named) void openNamed(plans);
  }

  listen(ipcMain, {
    handle: async (name, sent) => {
      const answer = await desk.handle(name, sent);
      // An edit tells of itself by 'changed'.
      if (name !== 'edit') showView();
      if (name === 'start') pageListens();
      if (name === 'recent' || name === 'clearRecent' || name.startsWith('open') || name.startsWith('save'))
        void setMenu();
      return answer;
    },
    openDropped: async (path) => {
      const answer = await desk.openPath(path);
      showView();
      return answer;
    },
    contents: () => (window === null || window.isDestroyed() ? null : window.webContents),
    log,
  });

  async function setMenu(): Promise<void> {
    const recent = await recentFiles(env).list();
    const template = menuTemplate({
      platform: process.platform === 'darwin' ? 'mac' : process.platform === 'win32' ? 'windows' : 'linux',
      developing,
      recent,
      send: (id) => emit('command', { id }),
      openRecent: (id) => emit('command', { id: `recent:${id}` }),
    });
    Menu.setApplicationMenu(Menu.buildFromTemplate(template));
  }

  function bringForward(): void {
    if (window === null) return;
    if (window.isMinimized()) window.restore();
    window.show();
    window.focus();
  }

  function tellOthers(paths: readonly string[]): void {
    if (paths.length > 0) emit('opened', { outcome: 'refused', message: notOpened(paths), lastGood: null });
  }

  async function openNamed(plans: readonly string[]): Promise<void> {
    const [path, ...more] = plans;
    if (path !== undefined && early !== null) early.push(plans);
    else if (path !== undefined) {
      emit('opened', await desk.openPath(path));
      showView();
      tellOthers(more);
    }
    bringForward();
  }

  app.on('second-instance', (_event, argv, cwd) => {
    void openNamed(plansNamedIn(argv.slice(1), cwd, app.isPackaged));
  });
  app.on('open-file', (event, path) => {
    event.preventDefault();
    void openNamed([path]);
  });
  // A machine that goes to sleep may not wake up; one that is shut down asks no window for its last edits.
  powerMonitor.on('suspend', () => void desk.flush());
  powerMonitor.on('shutdown', () => void desk.flush());
  app.on('window-all-closed', () => app.quit());
  app.on('before-quit', (event) => {
    if (ending || window === null) return;
    event.preventDefault();
    window.close();
  });

  const { window: place } = await preferences.read();
  window = new BrowserWindow(windowOptions(files.preload, developing, place, screen.getAllDisplays()));
  if (place?.maximised) window.maximize();
  window.once('ready-to-show', () => window?.show());
  window.on('close', (event) => {
    if (ending) return;
    event.preventDefault();
    emit('closing', {});
    clearTimeout(lastWords);
    lastWords = setTimeout(() => void end(), LAST_WORDS_MS);
    lastWords.unref();
  });
  // The page has a title of its own, for a tab.
  window.on('page-title-updated', (event) => event.preventDefault());
  window.on('session-end', () => void desk.flush());
  window.webContents.on('render-process-gone', () => void afterDeath());
  await setMenu();
  await window.loadURL(START_ADDRESS).catch((error: unknown) => log(`the window was not loaded: ${error}`));
}

async function rememberPlace(preferences: SmallFile<Preferences>, window: BrowserWindow): Promise<void> {
  const place = placeOf(window);
  await preferences.change((kept) => ({ ...kept, window: place })).catch(() => undefined);
}

/** The window dies as soon as it is loaded: the user decides, and what is kept stays kept either way. */
async function mayTryAgain(window: BrowserWindow): Promise<boolean> {
  const { response } = await dialog.showMessageBox(window, {
    type: 'error',
    message: 'The window stopped four times within a minute and is not loaded again by itself.',
    detail: 'Edits are in the recovery journal. If you close now, they are offered at the next start.',
    buttons: ['Close', 'Try again'],
    defaultId: 0,
    cancelId: 0,
  });
  return response === 1;
}

/** Unsaved work could not be kept on disk: the user decides, and 'stay' is what a slip chooses. */
async function mayLose(window: BrowserWindow): Promise<boolean> {
  const { response } = await dialog.showMessageBox(window, {
    type: 'warning',
    message: 'The unsaved work cannot be kept on this disk.',
    detail: 'Stay, and save it somewhere else. If you close now, it is lost.',
    buttons: ['Stay', 'Close and lose it'],
    defaultId: 0,
    cancelId: 0,
  });
  return response === 1;
}
