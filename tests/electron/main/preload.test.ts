// The preload as it is built, run where only what a sandboxed preload may require is there: it needs nothing more, shows
// named functions and no channel, and lets no event object through. Source: the runtime's documentation on sandboxed
// preloads and on the context bridge.

import { EventEmitter } from 'node:events';
import vm from 'node:vm';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  BRIDGE_GLOBAL,
  CALL_NAMES,
  callChannel,
  DROP_CHANNEL,
  eventChannel,
} from '../../../electron/channels.ts';
import type { Bridge } from '../../../electron/contract.ts';
import { builtPreload } from '../built-preload.ts';

const MAY_REQUIRE = new Set(['electron', 'events', 'timers', 'url']);

describe('the built preload', () => {
  let code: string;
  const required: string[] = [];
  const exposed: Record<string, unknown> = {};
  const invoked: { channel: string; sent: unknown }[] = [];
  const ipc = new EventEmitter();
  /** What the system knows to have been dropped, and where it lies. */
  const dropped = new WeakMap<object, string>();
  let bridge: Bridge & Record<string, unknown>;

  beforeAll(async () => {
    code = await builtPreload();
    const electron = {
      contextBridge: {
        exposeInMainWorld: (name: string, value: unknown) => {
          exposed[name] = value;
        },
      },
      ipcRenderer: Object.assign(ipc, {
        invoke: async (channel: string, sent: unknown) => {
          invoked.push({ channel, sent });
          return 'answer';
        },
      }),
      // A file that a script made has no path, whatever it says of itself.
      webUtils: { getPathForFile: (file: object) => dropped.get(file) ?? '' },
    };
    const sandbox = vm.createContext({
      module: { exports: {} },
      exports: {},
      process: { platform: 'darwin' },
      require: (name: string) => {
        required.push(name);
        if (!MAY_REQUIRE.has(name)) throw new Error(`a sandboxed preload may not require ${name}`);
        return electron;
      },
    });
    vm.runInContext(code, sandbox);
    bridge = exposed[BRIDGE_GLOBAL] as typeof bridge;
  });

  it('requires electron and nothing else, and holds neither schemas nor trade', () => {
    expect([...new Set(required)]).toEqual(['electron']);
    expect(code.length).toBeLessThan(20_000);
    expect(code).not.toMatch(/eval\(|new Function/);
  });

  it('shows one global with a function for each call, and neither ipcRenderer nor require', async () => {
    expect(Object.keys(exposed)).toEqual([BRIDGE_GLOBAL]);
    expect(Object.keys(bridge).sort()).toEqual([...CALL_NAMES, 'form', 'platform', 'openFile', 'on'].sort());
    expect(bridge.form).toBe('desktop');
    expect(bridge.platform).toBe('mac');
    for (const name of CALL_NAMES) {
      invoked.length = 0;
      await (bridge[name] as (sent: unknown) => Promise<unknown>)({ sent: name });
      expect(invoked).toEqual([{ channel: callChannel(name), sent: { sent: name } }]);
    }
  });

  it('sends a dropped file’s path on its own channel, and only that', async () => {
    invoked.length = 0;
    const real = { path: '/elsewhere' };
    dropped.set(real, '/plans/a.copewright.json');
    await bridge.openFile(real as unknown as File);
    await bridge.openFile({ path: '/etc/passwd', name: '/etc/passwd' } as unknown as File);
    expect(invoked).toEqual([
      { channel: DROP_CHANNEL, sent: '/plans/a.copewright.json' },
      { channel: DROP_CHANNEL, sent: '' },
    ]);
  });

  it('gives listeners the data without the event, ends with what it gives back, and knows no other event', () => {
    const heard: unknown[][] = [];
    const end = bridge.on('command', (...given: unknown[]) => heard.push(given));
    ipc.emit(eventChannel('command'), { sender: 'secret' }, { id: 'edit.undo' });
    expect(heard).toEqual([[{ id: 'edit.undo' }]]);
    end();
    ipc.emit(eventChannel('command'), {}, { id: 'edit.redo' });
    expect(heard).toHaveLength(1);
    for (const name of ['copewright:event:command', '__proto__', 'message'])
      expect(() => bridge.on(name as 'command', () => undefined), name).toThrow(/no event/);
  });
});
