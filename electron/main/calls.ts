// The one wrapper between the window's channels and the desk: who sends is read at once and must be the window's own main
// frame at the program's own origin; what is sent is measured here and checked against the contract by the desk. Refused
// loudly: the sender gets an error, the log a line.

import type { IpcMain, IpcMainInvokeEvent, WebContents } from 'electron';
import { CALL_NAMES, callChannel, DROP_CHANNEL } from '../channels.ts';
import { MAX_PAYLOAD_BYTES } from '../contract.ts';
import { ORIGIN } from './scheme.ts';

export interface CallTargets {
  /** The desk's `handle`. */
  handle(name: string, sent: unknown): Promise<unknown>;
  /** A file the system says was dropped on the window. */
  openDropped(path: string): Promise<unknown>;
  /** The window's contents, while there is a window. */
  contents(): WebContents | null;
  log(line: string): void;
}

/** Length as JSON, characters: enough to tell a plan from an attack. Not JSON at all: refused. */
function sizeOf(sent: unknown): number {
  return JSON.stringify(sent)?.length ?? 0;
}

/** Why a call is refused; null where it may go on. */
export function refusalOf(event: IpcMainInvokeEvent, own: WebContents | null): string | null {
  const frame = event.senderFrame;
  if (frame === null) return 'its frame is gone';
  if (own === null || event.sender !== own) return 'it is not from the window';
  if (frame.parent !== null) return 'it is from an inner frame';
  if (frame.origin !== ORIGIN) return `it is from ${frame.origin}`;
  return null;
}

export function listen(ipc: IpcMain, targets: CallTargets): void {
  const guarded = (channel: string, answer: (sent: unknown) => Promise<unknown>): void => {
    ipc.handle(channel, async (event, sent: unknown) => {
      const why =
        refusalOf(event, targets.contents()) ?? (sizeOf(sent) > MAX_PAYLOAD_BYTES ? 'it is too large' : null);
      if (why !== null) {
        targets.log(`${channel} refused: ${why}`);
        throw new Error(`${channel} refused: ${why}`);
      }
      return answer(sent);
    });
  };
  for (const name of CALL_NAMES) guarded(callChannel(name), (sent) => targets.handle(name, sent));
  guarded(DROP_CHANNEL, async (sent) => {
    if (typeof sent !== 'string' || sent === '' || sent.length > 4096)
      throw new Error(`${DROP_CHANNEL} refused: it names no file`);
    return targets.openDropped(sent);
  });
}
