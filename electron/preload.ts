// The bridge in the desktop form: one named function per call, events without their event objects, and the path of a dropped
// file straight to the main process. Runs sandboxed: it may require electron and nothing of Node.

import { contextBridge, ipcRenderer, webUtils } from 'electron';
import {
  BRIDGE_GLOBAL,
  CALL_NAMES,
  callChannel,
  DROP_CHANNEL,
  EVENT_NAMES,
  eventChannel,
} from './channels.ts';

const PLATFORMS: Readonly<Record<string, 'mac' | 'windows'>> = { darwin: 'mac', win32: 'windows' };

const calls = Object.fromEntries(
  CALL_NAMES.map((name) => [name, (sent: unknown) => ipcRenderer.invoke(callChannel(name), sent)]),
);

contextBridge.exposeInMainWorld(BRIDGE_GLOBAL, {
  ...calls,
  form: 'desktop',
  platform: PLATFORMS[process.platform] ?? 'linux',
  openFile: (file: File) => ipcRenderer.invoke(DROP_CHANNEL, webUtils.getPathForFile(file)),
  on: (event: string, listener: (data: unknown) => void) => {
    const name = EVENT_NAMES.find((each) => each === event);
    if (name === undefined || typeof listener !== 'function')
      throw new TypeError(`no event is called ${String(event)}`);
    const hear = (_: unknown, data: unknown): void => listener(data);
    ipcRenderer.on(eventChannel(name), hear);
    return () => {
      ipcRenderer.removeListener(eventChannel(name), hear);
    };
  },
});
