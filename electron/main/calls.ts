// The one wrapper between the window's channels and the desk: who sends is read at once and must be the window's own main
// frame at the program's own origin; what is sent is measured here and checked against the contract by the desk. Refused
// loudly: the sender gets an error, the log a line.

import type { IpcMain, IpcMainInvokeEvent, WebContents } from 'electron';
import { CALL_NAMES, callChannel, DROP_CHANNEL } from '../channels.ts';
import { MAX_PAYLOAD_BYTES } from '../contract.ts';
import { CallRefused } from '../services/index.ts';
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

/** Length as JSON, characters: enough to tell a plan from an attack. What cannot be JSON at all is too large. */
function sizeOf(sent: unknown): number {
  try {
    return JSON.stringify(sent)?.length ?? 0;
  } catch {
    return Number.POSITIVE_INFINITY;
  }
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
      try {
        if (why !== null) throw new CallRefused(why);
        return await answer(sent);
      } catch (error) {
        throw toldOf(channel, error);
      }
    });
  };
  /** The log hears it all; the window what it did wrong, and of other failures only that there was one. */
  const toldOf = (channel: string, error: unknown): Error => {
    const refused = error instanceof CallRefused;
    const line = `${channel} ${refused ? 'refused' : 'failed'}: ${error instanceof Error ? error.message : error}`;
    targets.log(line.replace(/\s+/g, ' '));
    return new Error(refused ? line : 'The program could not do this.');
  };
  for (const name of CALL_NAMES) guarded(callChannel(name), (sent) => targets.handle(name, sent));
  guarded(DROP_CHANNEL, async (sent) => {
    if (typeof sent !== 'string' || sent === '' || sent.length > 4096)
      throw new CallRefused('it names no file');
    return targets.openDropped(sent);
  });
}
