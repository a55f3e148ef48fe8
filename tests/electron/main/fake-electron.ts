// The desktop runtime as main sees it, without the runtime: records what is set and lets a test play the system. Only what
// main uses is there; anything else is undefined and fails at once.

import { EventEmitter } from 'node:events';

export type Handler = (...args: never[]) => unknown;

export class FakeContents extends EventEmitter {
  readonly sent: { channel: string; data: unknown }[] = [];
  windowOpen: ((details: { url: string }) => { action: string }) | null = null;
  reloads = 0;
  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.windowOpen = handler;
  }
  /** A page that hears what is sent, where there is one. */
  hear: ((channel: string, data: unknown) => void) | null = null;
  send(channel: string, data: unknown): void {
    this.sent.push({ channel, data });
    this.hear?.(channel, data);
  }
  reload(): void {
    this.reloads += 1;
  }
  readonly edited: string[] = [];
  undo = (): void => void this.edited.push('undo');
  redo = (): void => void this.edited.push('redo');
  copy = (): void => void this.edited.push('copy');
  paste = (): void => void this.edited.push('paste');
  selectAll = (): void => void this.edited.push('selectAll');
}

export class FakeWindow extends EventEmitter {
  static made: FakeWindow[] = [];
  static displays = [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }];
  readonly webContents = new FakeContents();
  readonly options: Record<string, unknown>;
  loaded: string | null = null;
  title = '';
  edited = false;
  destroyed = false;
  shown = 0;
  constructor(options: Record<string, unknown>) {
    super();
    this.options = options;
    FakeWindow.made.push(this);
    state.app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(address: string): Promise<void> {
    this.loaded = address;
  }
  isDestroyed(): boolean {
    return this.destroyed;
  }
  destroy(): void {
    this.destroyed = true;
    this.emit('closed');
  }
  close(): void {
    let stopped = false;
    this.emit('close', {
      preventDefault: () => {
        stopped = true;
      },
    });
    if (!stopped) this.destroy();
  }
  setTitle(title: string): void {
    this.title = title;
  }
  setDocumentEdited(edited: boolean): void {
    this.edited = edited;
  }
  show(): void {
    this.shown += 1;
  }
  focus(): void {}
  restore(): void {}
  maximize(): void {}
  isMinimized(): boolean {
    return false;
  }
  isMaximized(): boolean {
    return false;
  }
  getNormalBounds() {
    return { x: 40, y: 50, width: 1300, height: 820 };
  }
}

class FakeApp extends EventEmitter {
  sandboxed = false;
  isPackaged = true;
  quits = 0;
  order: string[] = [];
  lock = true;
  ready: () => void = () => undefined;
  enableSandbox(): void {
    this.sandboxed = true;
    this.order.push('sandbox');
  }
  requestSingleInstanceLock(): boolean {
    return this.lock;
  }
  whenReady(): Promise<void> {
    return new Promise((resolve) => {
      this.ready = () => {
        this.order.push('ready');
        resolve();
      };
    });
  }
  quit(): void {
    this.quits += 1;
  }
}

class FakeSession extends EventEmitter {
  request: Handler | null = null;
  check: Handler | null = null;
  device: Handler | null = null;
  display: Handler | null = null;
  before: ((details: { url: string }, answer: (out: { cancel: boolean }) => void) => void) | null = null;
  schemes = new Map<string, (request: { method: string; url: string }) => Response>();
  readonly protocol = {
    handle: (scheme: string, handler: (request: { method: string; url: string }) => Response) => {
      this.schemes.set(scheme, handler);
    },
  };
  readonly webRequest = {
    onBeforeRequest: (handler: never) => {
      this.before = handler;
    },
  };
  setPermissionRequestHandler(handler: Handler): void {
    this.request = handler;
  }
  setPermissionCheckHandler(handler: Handler): void {
    this.check = handler;
  }
  setDevicePermissionHandler(handler: Handler): void {
    this.device = handler;
  }
  setDisplayMediaRequestHandler(handler: Handler): void {
    this.display = handler;
  }
}

export const state = {
  app: new FakeApp(),
  session: new FakeSession(),
  power: new EventEmitter(),
  handlers: new Map<string, (event: unknown, sent: unknown) => Promise<unknown>>(),
  privileged: [] as { scheme: string; privileges: Record<string, boolean> }[],
  menu: [] as unknown[],
  outside: [] as string[],
  shownInFolder: [] as string[],
  viewed: [] as string[],
  /** What the system says when a file is to be shown in its viewer; nothing where that went well. */
  viewerAnswer: '',
  /** What the dialogs were asked with. */
  asked: (_kind: 'open' | 'save', _options: { defaultPath: string; properties?: string[] }): void =>
    undefined,
  openAnswer: { canceled: true, filePaths: [] as string[] },
  saveAnswer: { canceled: true, filePath: '' },
  boxAnswer: 0,
  errorBoxes: [] as string[],
  /** Message boxes that were shown. */
  boxes: [] as { message: string; buttons: string[]; defaultId: number; cancelId: number }[],
};

export function fakeElectron() {
  return {
    app: state.app,
    BrowserWindow: FakeWindow,
    Menu: {
      buildFromTemplate: (template: unknown[]) => template,
      setApplicationMenu: (menu: unknown[]) => {
        state.menu = menu;
      },
    },
    dialog: {
      showOpenDialog: async (_owner: unknown, options: { defaultPath: string; properties: string[] }) => {
        state.asked('open', options);
        return state.openAnswer;
      },
      showSaveDialog: async (_owner: unknown, options: { defaultPath: string }) => {
        state.asked('save', options);
        return state.saveAnswer;
      },
      showErrorBox: (title: string, content: string) => {
        state.errorBoxes.push(`${title}: ${content}`);
      },
      showMessageBox: async (_owner: unknown, options: (typeof state.boxes)[number]) => {
        state.boxes.push(options);
        return { response: state.boxAnswer };
      },
    },
    ipcMain: {
      handle: (channel: string, handler: (event: unknown, sent: unknown) => Promise<unknown>) => {
        state.handlers.set(channel, handler);
      },
    },
    protocol: {
      registerSchemesAsPrivileged: (schemes: typeof state.privileged) => {
        state.privileged = schemes;
        state.app.order.push('schemes');
      },
    },
    powerMonitor: state.power,
    screen: { getAllDisplays: () => FakeWindow.displays },
    session: { defaultSession: state.session },
    shell: {
      openExternal: async (address: string) => {
        state.outside.push(address);
      },
      showItemInFolder: (path: string) => {
        state.shownInFolder.push(path);
      },
      openPath: async (path: string) => {
        state.viewed.push(path);
        return state.viewerAnswer;
      },
    },
  };
}
