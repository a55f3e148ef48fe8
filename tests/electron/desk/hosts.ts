// What carries the contract in the tests: the desk itself, with and without the system's dialogs, and the loopback form.
// A form of its own joins by giving an `OpenHost` to the suite (contract-suite.ts).

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Answer, CallName, EventName, Sent } from '../../../electron/contract.ts';
import { startLocal } from '../../../electron/local/server.ts';
import { openDesk } from '../../../electron/services/desk.ts';
import type { Chooser } from '../../../electron/services/desk-types.ts';
import { realEnv } from '../../../electron/services/env.ts';
import { ask, enter, listen, ownHeaders } from '../local/client.ts';

export interface Heard {
  readonly event: EventName;
  readonly data: unknown;
}

export interface HostStart {
  /** Has `home` (the user's files) and `user` (the program's own). */
  readonly folder: string;
  readonly file?: string | null;
}

export interface Host {
  /** Sends a call as the window does. Throws where it is refused. */
  call<C extends CallName>(name: C, sent: Sent<C>): Promise<Answer<C>>;
  /** The same for what is not in the contract. */
  callAnything(name: string, sent: unknown): Promise<unknown>;
  /** What it says its version is. */
  readonly version: string;
  /** All events so far. */
  readonly heard: readonly Heard[];
  /** What the system's dialogs answer next; null where this form has none. */
  readonly dialogs: { next: string | null; asked: string[] } | null;
  /** Ends as the program ends: unsaved work is kept. */
  end(): Promise<void>;
}

export type OpenHost = (start: HostStart) => Promise<Host>;

async function folders(folder: string): Promise<{ home: string; user: string }> {
  const [home, user] = [join(folder, 'home'), join(folder, 'user')];
  await mkdir(home, { recursive: true });
  return { home, user };
}

/** As over a wire: nothing but JSON. */
const overWire = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

function deskHost(withDialogs: boolean): OpenHost {
  return async ({ folder, file = null }) => {
    const { home, user } = await folders(folder);
    const heard: Heard[] = [];
    const dialogs = withDialogs ? { next: null as string | null, asked: [] as string[] } : null;
    const answer = async (asked: string): Promise<string | null> => {
      dialogs!.asked.push(asked);
      return dialogs!.next;
    };
    const chooser: Chooser | null = withDialogs
      ? {
          openFile: () => answer('open'),
          saveFile: (name) => answer(`save ${name}`),
          exportTo: (kind, name) => answer(kind === 'csv' ? 'export csv' : `export ${kind} ${name}`),
          showInFolder: (path) => dialogs!.asked.push(`show ${path}`),
          openInViewer: async (path) => {
            dialogs!.asked.push(`view ${path}`);
            return true;
          },
        }
      : null;
    const desk = openDesk({
      env: realEnv(user),
      version: '0.0.0-test',
      chooser,
      home,
      file,
      emit: (event, data) => heard.push({ event, data: overWire(data) }),
      openLink: (address) => dialogs?.asked.push(`link ${address}`),
      quit: () => undefined,
    });
    const callAnything = async (name: string, sent: unknown) =>
      overWire(await desk.handle(name, overWire(sent)));
    return {
      call: (name, sent) => callAnything(name, sent) as never,
      callAnything,
      heard,
      version: '0.0.0-test',
      dialogs,
      end: async () => {
        await desk.end();
      },
    };
  };
}

const loopbackHost: OpenHost = async ({ folder, file = null }) => {
  const { home, user } = await folders(folder);
  const local = await startLocal({
    env: realEnv(user),
    version: '0.0.0-test',
    // The suite reads no files of the window.
    windowFolder: home,
    home,
    file,
    openLink: () => undefined,
    log: () => undefined,
  });
  const cookie = await enter(local);
  const heard: Heard[] = [];
  const leave = await listen(local, cookie, (event, data) => heard.push({ event: event as EventName, data }));
  const callAnything = async (name: string, sent: unknown): Promise<unknown> => {
    const { status, text } = await ask(local, {
      method: 'POST',
      path: `/call/${name}`,
      headers: ownHeaders(local, cookie),
      body: JSON.stringify(sent),
    });
    if (status !== 200) throw new Error(`${name}: ${status} ${text}`);
    return JSON.parse(text);
  };
  return {
    call: (name, sent) => callAnything(name, sent) as never,
    callAnything,
    heard,
    version: '0.0.0-test',
    dialogs: null,
    end: async () => {
      leave();
      await local.stop();
    },
  };
};

export const HOSTS: readonly { readonly name: string; readonly open: OpenHost }[] = [
  { name: 'the desk', open: deskHost(false) },
  { name: "the desk with the system's dialogs", open: deskHost(true) },
  { name: 'loopback HTTP', open: loopbackHost },
];
