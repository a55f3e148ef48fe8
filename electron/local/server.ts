// The loopback form: the window's files, one POST for each call, one stream of events, on 127.0.0.1 and a port of the
// system's choice, for one browser of this user. What the calls do is the desk's; who may come in is gate.ts. It stops
// when no page has listened or called for a while, after keeping what is unsaved; what cannot be kept holds it up. RULES: SK17.

import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { MAX_PAYLOAD_BYTES } from '../contract.ts';
import { openDesk } from '../services/desk.ts';
import { CallRefused, type Desk } from '../services/desk-types.ts';
import type { Env } from '../services/env.ts';
import { CONTENT_SECURITY_POLICY } from '../services/page-policy.ts';
import { builtFiles } from '../services/window-files.ts';
import { bodyOf } from './body.ts';
import { eventStreams } from './events.ts';
import { type Gate, openGate } from './gate.ts';
import { strangerAt } from './peer.ts';

export interface LocalOptions {
  readonly env: Env;
  readonly version: string;
  readonly windowFolder: string;
  readonly home: string;
  readonly file: string | null;
  openLink(address: string): void;
  /** One line for whoever started the program: what was refused, what failed. */
  log(line: string): void;
  /** From the last page going, or from its last call, to stopping. */
  readonly idleMs?: number;
  /** From the start to stopping where nobody ever comes. */
  readonly waitMs?: number;
}

export interface Local {
  /** The address with the one-time key. */
  readonly address: string;
  readonly origin: string;
  readonly desk: Desk;
  /**
   * Keeps what is unsaved and stops: true. Where something cannot be kept it says so and goes on, for the page may save it
   * elsewhere: false. Asked again before any page came back, it stops all the same, and that work is lost.
   */
  stop(): Promise<boolean>;
  /** When it has stopped, by itself or not. */
  readonly stopped: Promise<void>;
}

/** A browser keeps some ten connections open; who opens more takes the file handles that saving needs. */
const MOST_CONNECTIONS = 128;

const IDLE_MS = 60_000;
const WAIT_MS = 10 * 60_000;

const HEADERS = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'cache-control': 'no-store',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
} as const;

/** The header that a form, an image or a link on another page cannot send. */
const OWN_HEADER = 'x-copewright';

export async function startLocal(options: LocalOptions): Promise<Local> {
  const { log } = options;
  const files = builtFiles(options.windowFolder);
  const server = createServer();
  server.maxConnections = MOST_CONNECTIONS;
  server.on('connection', (socket) => {
    const stranger = strangerAt(socket);
    if (stranger === null) return;
    if (stranger === 'another account')
      log('refused a connection: it is from another account of this machine.');
    socket.destroy();
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  const gate = openGate(port);
  const origin = `http://127.0.0.1:${port}`;
  const idle = idleTimer(options, () => void stop(false));
  const streams = eventStreams(() => idle.listeners(streams.count()));
  const desk = openDesk({
    ...options,
    chooser: null,
    emit: (event, data) => streams.send(event, data),
    // The browser closes its own window; the program ends once no page listens.
    quit: () => undefined,
  });
  let ended = (): void => undefined;
  const stopped = new Promise<void>((resolve) => {
    ended = resolve;
  });
  let stopping: Promise<boolean> | null = null;

  async function end(lose: boolean): Promise<boolean> {
    const before = idle.came();
    const kept = await desk.end(lose).catch(() => false);
    if (!kept && !lose) {
      if (!idle.isStuck())
        log(
          `Some unsaved work could not be kept for the next start. The program goes on at ${origin}, in the browser that it was opened in: save the work somewhere else there. Ctrl+C now gives it up.`,
        );
      idle.stuck(before);
      stopping = null;
      return false;
    }
    idle.end();
    streams.end();
    server.close();
    server.closeAllConnections();
    ended();
    return true;
  }

  function stop(lose: boolean): Promise<boolean> {
    stopping ??= end(lose);
    return stopping;
  }

  // Such as too many files open when somebody knocks: the plans that are open matter more.
  server.on('error', (error) => log(`A connection could not be taken: ${error.message}`));
  server.on('request', (request: IncomingMessage, response: ServerResponse) => {
    answer({ gate, files, desk, streams, idle, log }, request, response).catch((error: unknown) => {
      log(`${request.method} failed: ${error instanceof Error ? error.message : String(error)}`);
      if (!response.headersSent) say(response, 500, 'The program could not do this.');
      else response.destroy();
    });
  });
  return { address: origin + gate.entry, origin, desk, stop: () => stop(idle.isStuck()), stopped };
}

interface Parts {
  readonly gate: Gate;
  readonly files: ReturnType<typeof builtFiles>;
  readonly desk: Desk;
  readonly streams: ReturnType<typeof eventStreams>;
  readonly idle: ReturnType<typeof idleTimer>;
  log(line: string): void;
}

function say(response: ServerResponse, status: number, words: string): void {
  response.writeHead(status, { ...HEADERS, 'content-type': 'text/plain; charset=utf-8' });
  response.end(`${words}\n`);
}

async function answer(parts: Parts, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { gate, files, desk, streams, idle, log } = parts;
  const { method, headers } = request;
  const url = request.url ?? '';
  for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
  const refuse = (status: number, words: string): void => {
    log(`refused ${method} ${url.replace(/\?.*/, '').slice(0, 80)}: ${words}`);
    // What was not read must not be taken for the next request.
    response.setHeader('connection', 'close');
    say(response, status, words);
  };

  // Node keeps the first of two hosts; a request with two is not from a browser.
  const hosts = request.headersDistinct.host?.length ?? 0;
  const refusal = gate.refusal(hosts === 1 ? headers : {});
  if (refusal !== null) return refuse(refusal.status, refusal.words);
  const [path = '', query = ''] = url.split('?', 2);
  if (path === '/enter' && method === 'GET') {
    const cookie = gate.enter(new URLSearchParams(query).get('key'));
    if (cookie === null)
      return refuse(403, 'This address was used, or is not right. Start the program again.');
    response.writeHead(303, { 'set-cookie': cookie, location: '/' });
    response.end();
    return;
  }
  if (!gate.hasKey(headers)) return refuse(403, 'Only the page that the program opened may come in.');
  if (path.startsWith('/call/')) {
    if (method !== 'POST') return refuse(405, 'Calls are sent by POST.');
    if (!gate.fromOwnPage(headers, true)) return refuse(403, 'The call is not from the window.');
    if (headers['content-type'] !== 'application/json' || headers[OWN_HEADER] !== '1')
      return refuse(415, 'A call is JSON with a header of its own.');
    idle.stays();
    return call(desk, path.slice('/call/'.length), request, response, refuse);
  }
  if (method !== 'GET') return refuse(405, 'Only calls are sent; the rest is read.');
  if (path === '/events') {
    if (!gate.fromOwnPage(headers, false)) return refuse(403, 'Events are for the window.');
    idle.stays();
    streams.add(response);
    desk.tellAgain();
    return;
  }
  const file = files.get(path === '/' ? '/index.html' : path);
  if (file === undefined) return refuse(404, 'There is no such file.');
  const bytes = await readFile(file.path);
  response.writeHead(200, { 'content-type': file.type, 'content-length': bytes.byteLength });
  response.end(bytes);
}

async function call(
  desk: Desk,
  name: string,
  request: IncomingMessage,
  response: ServerResponse,
  refuse: (status: number, words: string) => void,
): Promise<void> {
  const body = await bodyOf(request, MAX_PAYLOAD_BYTES);
  if (body === null) return refuse(413, 'This is larger than any plan.');
  let sent: unknown;
  try {
    sent = JSON.parse(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(body));
  } catch {
    return refuse(400, 'This is not JSON.');
  }
  try {
    const answered = Buffer.from(JSON.stringify(await desk.handle(name, sent)), 'utf8');
    response.writeHead(200, {
      'content-type': 'application/json; charset=utf-8',
      'content-length': answered.length,
    });
    response.end(answered);
  } catch (error) {
    if (!(error instanceof CallRefused)) throw error;
    refuse(400, error.message);
  }
}

/** Counts the time in which no page listens and none asks for anything: one that cannot listen may be at work all the same. */
function idleTimer({ env, idleMs = IDLE_MS, waitMs = WAIT_MS }: LocalOptions, stop: () => void) {
  let cancel = env.timers.after(waitMs, stop);
  let listening = 0;
  let stuck = false;
  let came = 0;
  let over = false;
  function anew(): void {
    cancel();
    if (listening === 0 && !over) cancel = env.timers.after(idleMs, stop);
  }
  return {
    listeners: (count: number): void => {
      listening = count;
      anew();
    },
    /** It goes on after all: it asks for something, or is there again. */
    stays: (): void => {
      stuck = false;
      came += 1;
      anew();
    },
    /** How often somebody came. */
    came: (): number => came,
    /** It could not stop, and nobody came while it tried, or somebody did; it tries again after a while without a page. */
    stuck: (before: number): void => {
      stuck = came === before;
      anew();
    },
    /** Whether it could not stop, and nobody has come since. */
    isStuck: (): boolean => stuck,
    end: (): void => {
      over = true;
      cancel();
    },
  };
}
