// The real main process against a recorded runtime: every item of the desktop runtime's published security list that
// applies, asserted on what main really sets and answers. Source: the runtime's documentation, 'Security', checklist of
// recommendations, with its pages on sandboxing, protocol and session.

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { CALL_NAMES, callChannel, DROP_CHANNEL, eventChannel } from '../../../electron/channels.ts';
import {
  FIELD_EDITS,
  type OpenAnswer,
  type RecentPlan,
  type StartAnswer,
} from '../../../electron/contract.ts';
import { listen } from '../../../electron/main/calls.ts';
import { menuTemplate } from '../../../electron/main/menu-template.ts';
import { runProgram } from '../../../electron/main/program.ts';
import { ORIGIN, SCHEME, START_ADDRESS } from '../../../electron/main/scheme.ts';
import { COMMAND_IDS } from '../../../electron/menu.ts';
import { programVersion } from '../../../electron/services/index.ts';
import { FakeWindow, state } from './fake-electron.ts';

vi.mock('electron', async () => (await import('./fake-electron.ts')).fakeElectron());

const demo = join(import.meta.dirname, '..', '..', '..', 'demo-data', 'thimble-cottage.copewright.json');
let folder: string;
let userData: string;
let win: FakeWindow;

const settle = async (until: () => boolean, what: string): Promise<void> => {
  for (let i = 0; i < 400; i += 1) {
    if (until()) return;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error(`never came: ${what}`);
};

/** A call as the window's own main frame sends it, unless said otherwise. */
function send(channel: string, sent: unknown, event: Record<string, unknown> = {}): Promise<unknown> {
  const handler = state.handlers.get(channel);
  if (handler === undefined) throw new Error(`nothing listens on ${channel}`);
  return handler({ sender: win.webContents, senderFrame: { origin: ORIGIN, parent: null }, ...event }, sent);
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'copewright-main-'));
  userData = join(folder, 'user-data');
  mkdirSync(userData);
  vi.stubEnv('COPEWRIGHT_USER_DATA', userData);
  const window = join(folder, 'window');
  mkdirSync(join(window, 'assets'), { recursive: true });
  writeFileSync(join(window, 'index.html'), '<!doctype html><title>x</title>');
  writeFileSync(join(window, 'assets', 'a.js'), 'export {};');
  writeFileSync(join(window, 'assets', 'notes.txt'), 'not for the window');
  writeFileSync(join(folder, 'secret.js'), 'secret');
  runProgram({ window, preload: join(folder, 'preload.cjs') });
  state.app.ready();
  await settle(() => FakeWindow.made[0]?.loaded !== null && FakeWindow.made.length > 0, 'the window');
  win = FakeWindow.made[0]!;
});
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

describe('before there is a window', () => {
  it('the sandbox is on for every process and the scheme is registered, both before the runtime is ready', () => {
    expect(state.app.sandboxed).toBe(true);
    expect(state.app.order).toEqual(['sandbox', 'schemes', 'ready']);
    expect(state.privileged).toEqual([
      { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
  });
});

describe('the window', () => {
  it('has no Node, is isolated and sandboxed, and has no tools in a packaged build', () => {
    expect(win.options.webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      devTools: false,
    });
    expect(win.options.webPreferences).not.toHaveProperty('enableBlinkFeatures');
  });

  it('loads the custom scheme and no file address', () => {
    expect(win.loaded).toBe(START_ADDRESS);
    expect(START_ADDRESS.startsWith(`${SCHEME}://`)).toBe(true);
  });

  it('goes nowhere: navigation, redirects, frames, web views and new windows are all refused', () => {
    for (const name of ['will-navigate', 'will-redirect', 'will-frame-navigate', 'will-attach-webview']) {
      let stopped = false;
      win.webContents.emit(name, {
        preventDefault: () => {
          stopped = true;
        },
        url: `${ORIGIN}/other.html`,
      });
      expect(stopped, name).toBe(true);
    }
    expect(win.webContents.windowOpen?.({ url: 'https://elsewhere.test/' })).toEqual({ action: 'deny' });
  });
});

describe('the session', () => {
  it('denies every permission, on request and on check, devices and screens too', () => {
    for (const permission of [
      'media',
      'geolocation',
      'notifications',
      'clipboard-read',
      'openExternal',
      'fullscreen',
    ]) {
      const answers: boolean[] = [];
      state.session.request?.(...([{}, permission, (given: boolean) => answers.push(given)] as never[]));
      expect(answers, permission).toEqual([false]);
      expect(state.session.check?.(...([{}, permission] as never[]))).toBe(false);
    }
    expect(state.session.device?.()).toBe(false);
    const given: unknown[] = [];
    state.session.display?.(...([{}, (answer: unknown) => given.push(answer)] as never[]));
    expect(given).toEqual([{}]);
  });

  it('lets nothing be fetched but its own scheme', () => {
    const cancelled = (url: string): boolean => {
      let out = false;
      state.session.before?.({ url }, ({ cancel }) => {
        out = cancel;
      });
      return out;
    };
    for (const url of [
      'https://elsewhere.test/x.js',
      'http://127.0.0.1:8080/',
      'ws://elsewhere.test/',
      'file:///etc/passwd',
      'ftp://elsewhere.test/',
      `${SCHEME}://other/index.html`,
      'blob:https://elsewhere.test/1',
      'devtools://devtools/bundled/x.html',
      'javascript:alert(1)',
      'not an address',
    ])
      expect(cancelled(url), url).toBe(true);
    for (const url of [
      START_ADDRESS,
      `${ORIGIN}/assets/a.js`,
      `blob:${ORIGIN}/1`,
      'data:image/png;base64,AA==',
    ])
      expect(cancelled(url), url).toBe(false);
  });

  it('stops downloads', () => {
    let stopped = false;
    state.session.emit('will-download', {
      preventDefault: () => {
        stopped = true;
      },
    });
    expect(stopped).toBe(true);
  });
});

describe('the scheme', () => {
  const get = (url: string, method = 'GET'): Response => state.session.schemes.get(SCHEME)!({ method, url });

  it('serves the built files with the policy and no guessing of types', async () => {
    const page = get(START_ADDRESS);
    expect(page.status).toBe(200);
    expect(page.headers.get('content-type')).toContain('text/html');
    expect(page.headers.get('x-content-type-options')).toBe('nosniff');
    const policy = page.headers.get('content-security-policy')!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
    expect(await get(`${ORIGIN}/assets/a.js`).text()).toBe('export {};');
  });

  it.each([
    '/../secret.js',
    '/assets/../../secret.js',
    '/%2e%2e/secret.js',
    '/assets/%2e%2e%2f%2e%2e%2fsecret.js',
    '/..%5csecret.js',
    '/assets/a.js%00',
    '/assets/a.js%00.html',
    '/assets',
    '/assets/',
    '/assets/notes.txt',
    '//etc/passwd',
    '/C:/Windows/win.ini',
    '/',
  ])('refuses %s', (path) => {
    expect(get(`${ORIGIN}${path}`).status).toBe(404);
  });

  it('refuses other hosts, other schemes, credentials and other methods', () => {
    expect(get(`${SCHEME}://elsewhere/index.html`).status).toBe(403);
    expect(get('file:///etc/passwd').status).toBe(403);
    expect(get(`${SCHEME}://a:b@window/index.html`).status).toBe(403);
    expect(get('nonsense').status).toBe(400);
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS'])
      expect(get(START_ADDRESS, method).status).toBe(405);
  });
});

describe('the calls', () => {
  it('listens on the contract’s channels, the drop channel, and nothing else', () => {
    expect([...state.handlers.keys()].sort()).toEqual([...CALL_NAMES.map(callChannel), DROP_CHANNEL].sort());
  });

  it('refuses every call whose frame is gone, not the main frame, of another window, or of another origin', async () => {
    const wrong: [string, Record<string, unknown>][] = [
      ['gone', { senderFrame: null }],
      ['inner frame', { senderFrame: { origin: ORIGIN, parent: {} } }],
      ['other origin', { senderFrame: { origin: 'https://elsewhere.test', parent: null } }],
      ['null origin', { senderFrame: { origin: 'null', parent: null } }],
      ['near miss', { senderFrame: { origin: `${SCHEME}://window.elsewhere`, parent: null } }],
      ['other contents', { sender: {} }],
    ];
    for (const channel of state.handlers.keys())
      for (const [what, event] of wrong)
        await expect(send(channel, {}, event), `${channel}, ${what}`).rejects.toThrow(/refused/);
  });

  it('refuses what the contract does not know', async () => {
    await expect(send(callChannel('newPlan'), { units: 'cubits' })).rejects.toThrow(/units/);
    await expect(send(callChannel('newPlan'), { units: 'metric', more: 1 })).rejects.toThrow();
    await expect(send(callChannel('start'), null)).rejects.toThrow();
    await expect(send(callChannel('save'), { handle: '../../etc/passwd' })).rejects.toThrow(/handle/);
    await expect(
      send(callChannel('openText'), { name: 'x', text: 'x'.repeat(65 * 1024 * 1024) }),
    ).rejects.toThrow(/too large/);
    for (const sent of ['', 'x'.repeat(5000), null, { path: demo }, ['/etc/passwd']])
      await expect(send(DROP_CHANNEL, sent)).rejects.toThrow(/refused/);
  });

  it('refuses what is no JSON, tells the log of every refusal, and keeps a failure’s words from the window', async () => {
    const round: Record<string, unknown> = {};
    round.self = round;
    const lines: string[] = [];
    const written = vi.spyOn(process.stderr, 'write').mockImplementation((line) => {
      lines.push(String(line));
      return true;
    });
    try {
      for (const [channel, sent] of [
        [callChannel('edit'), round],
        [callChannel('edit'), { edit: 10n }],
        [callChannel('save'), { handle: '../../etc/passwd' }],
        [DROP_CHANNEL, ''],
      ] as const) {
        lines.length = 0;
        await expect(send(channel, sent)).rejects.toThrow(`${channel} refused: `);
        expect(lines.join(''), channel).toMatch(new RegExp(`^${channel} refused: [^\n]+\n$`));
      }
      const handlers = new Map<string, (event: unknown, sent: unknown) => Promise<unknown>>();
      const said: string[] = [];
      listen({ handle: (name: string, handler: never) => handlers.set(name, handler) } as never, {
        handle: async () => {
          throw new Error("ENOENT: no such file, open '/home/somebody/secret'");
        },
        openDropped: async () => null,
        contents: () => win.webContents as never,
        log: (line) => said.push(line),
      });
      const event = { sender: win.webContents, senderFrame: { origin: ORIGIN, parent: null } };
      const failure = await handlers.get(callChannel('start'))!(event, {}).catch(String);
      expect(failure).toBe('Error: The program could not do this.');
      expect(said).toEqual([expect.stringContaining('secret')]);
    } finally {
      written.mockRestore();
    }
  });

  it('opens outside links by their id only', async () => {
    await expect(send(callChannel('openLink'), { id: 'https://elsewhere.test/' })).rejects.toThrow();
    await expect(send(callChannel('openLink'), { id: 'constructor' })).rejects.toThrow();
    expect(state.outside).toEqual([]);
    await send(callChannel('openLink'), { id: 'licence' });
    expect(state.outside).toHaveLength(1);
    expect(state.outside[0]).toMatch(/^https:\/\//);
  });
});

describe('the program', () => {
  it('says nothing of paths to the window, opens a dropped plan and shows the file, the dot and the title', async () => {
    const start = (await send(callChannel('start'), {})) as StartAnswer;
    expect(start.version).toBe(programVersion());
    const own = join(folder, 'house.copewright.json');
    writeFileSync(own, readFileSync(demo));
    const answer = (await send(DROP_CHANNEL, own)) as OpenAnswer;
    expect(answer.outcome).toBe('opened');
    expect(JSON.stringify(answer)).not.toContain(folder);
    if (answer.outcome !== 'opened') return;
    const { handle, revision } = answer.view;
    const edit = { type: 'setPlan', set: { title: 'Renamed' } };
    const done = await send(callChannel('edit'), { handle, revision, edit });
    expect(done).toMatchObject({ ok: true, unsaved: true });
    await settle(() => win.title.startsWith('•'), 'the dot');
    expect(win.title).toBe('• Renamed – house.copewright.json – Copewright');
    expect(win.edited).toBe(true);
    expect(await send(callChannel('save'), { handle })).toMatchObject({ outcome: 'saved' });
    await settle(() => !win.edited, 'no dot');
    expect(readFileSync(own, 'utf8')).toContain('Renamed');
  });

  it('saves by the system’s own dialog, and not where it is cancelled', async () => {
    const made = (await send(callChannel('newPlan'), { units: 'metric' })) as OpenAnswer;
    if (made.outcome !== 'opened') throw new Error(made.outcome);
    const { handle } = made.view;
    expect(await send(callChannel('saveAs'), { handle })).toEqual({ outcome: 'cancelled' });
    state.saveAnswer = { canceled: false, filePath: join(folder, 'new.copewright.json') };
    expect(await send(callChannel('saveAs'), { handle })).toMatchObject({ outcome: 'saved' });
    expect(readFileSync(join(folder, 'new.copewright.json'), 'utf8')).toContain('copewright-plan');
  });

  it('hands a second start’s file to the window that is there', async () => {
    const other = join(folder, 'other.copewright.json');
    writeFileSync(other, readFileSync(demo));
    state.app.emit('second-instance', {}, ['copewright', 'other.copewright.json'], folder);
    const channel = eventChannel('opened');
    await settle(() => win.webContents.sent.some((each) => each.channel === channel), 'the opened event');
    const { data } = win.webContents.sent.findLast((each) => each.channel === channel)!;
    expect(data).toMatchObject({ outcome: 'opened', view: { name: 'other.copewright.json' } });
    expect(FakeWindow.made).toHaveLength(1);
  });

  it('has every command in the native menus, each sending its id to the window', () => {
    type Item = { id?: string; click?: () => void; submenu?: Item[] };
    const flat = (items: Item[]): Item[] => items.flatMap((item) => [item, ...flat(item.submenu ?? [])]);
    const items = flat(state.menu as Item[]);
    for (const id of COMMAND_IDS) {
      const item = items.find((each) => each.id === id);
      expect(item, id).toBeDefined();
      win.webContents.sent.length = 0;
      item?.click?.();
      expect(win.webContents.sent).toEqual([{ channel: eventChannel('command'), data: { id } }]);
    }
  });

  it('hands editing back to the focused field, by a fixed list, and has cut for a Mac', async () => {
    for (const how of FIELD_EDITS) await send(callChannel('editField'), { how });
    await expect(send(callChannel('editField'), { how: 'reload' })).rejects.toThrow(/how/);
    expect(win.webContents.edited).toEqual([...FIELD_EDITS]);
    const wish = { developing: false, recent: [], send: () => undefined, openRecent: () => undefined };
    const text = (platform: 'mac' | 'linux'): string => JSON.stringify(menuTemplate({ ...wish, platform }));
    expect(text('mac')).toContain('"role":"cut"');
    expect(text('linux')).not.toContain('"role":"cut"');
  });

  it('a recent plan of the native menu sends its id, by which the window opens it', async () => {
    type Item = { label?: string; click?: () => void; submenu?: Item[] };
    const flat = (items: Item[]): Item[] => items.flatMap((item) => [item, ...flat(item.submenu ?? [])]);
    const [newest] = (await send(callChannel('recent'), {})) as RecentPlan[];
    const label = `${newest!.name} – ${newest!.folder}`;
    const item = (): Item | undefined => flat(state.menu as Item[]).find((each) => each.label === label);
    await settle(() => item() !== undefined, 'the recent plan in the menu');
    win.webContents.sent.length = 0;
    item()!.click!();
    const [sent] = win.webContents.sent;
    expect(sent).toEqual({ channel: eventChannel('command'), data: { id: `recent:${newest!.id}` } });
    const opened = (await send(callChannel('openRecent'), { id: newest!.id })) as OpenAnswer;
    expect(['opened', 'shown']).toContain(opened.outcome);
  });

  it('a file’s name is shown in the menu as it is, with no letter of it underlined', () => {
    const recent = [{ id: 'r1', name: 'Oak & Elm.copewright.json', folder: 'a & b' }];
    const wish = { developing: false, send: () => undefined, openRecent: () => undefined };
    const shown = JSON.stringify(menuTemplate({ ...wish, recent, platform: 'windows' }));
    expect(shown).toContain('"label":"Oak && Elm.copewright.json – a && b"');
  });

  it('a window that asks its user first is not closed meanwhile', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    try {
      win.close();
      await send(callChannel('stay'), {});
      vi.advanceTimersByTime(60_000);
    } finally {
      vi.useRealTimers();
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(win.destroyed).toBe(false);
    expect(state.app.quits).toBe(0);
  });

  it('closing asks the window for its last edits, keeps what is unsaved, remembers its place, and only then goes', async () => {
    const made = (await send(callChannel('newPlan'), { units: 'metric' })) as OpenAnswer;
    if (made.outcome !== 'opened') throw new Error(made.outcome);
    win.webContents.sent.length = 0;
    win.close();
    expect(win.destroyed).toBe(false);
    expect(win.webContents.sent.map((each) => each.channel)).toContain(eventChannel('closing'));
    const { handle, revision } = made.view;
    const edit = { type: 'setPlan', set: { title: 'Kept for later' } };
    expect(await send(callChannel('edit'), { handle, revision, edit })).toMatchObject({ ok: true });
    await send(callChannel('quit'), {});
    await settle(() => win.destroyed, 'the end');
    expect(state.app.quits).toBeGreaterThan(0);
    const preferences = JSON.parse(readFileSync(join(userData, 'preferences.json'), 'utf8'));
    expect(preferences.window).toEqual({ x: 40, y: 50, width: 1300, height: 820, maximised: false });
    const journals = join(userData, 'journals');
    const kept = (await import('node:fs')).readdirSync(journals, { recursive: true, encoding: 'utf8' });
    expect(kept.length).toBeGreaterThan(0);
  });
});
