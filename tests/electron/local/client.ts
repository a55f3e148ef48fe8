// A client of the loopback form that can say anything: requests made by hand, and one that says what the window says.

import { type IncomingHttpHeaders, type OutgoingHttpHeaders, request } from 'node:http';
import type { Local } from '../../../electron/local/server.ts';

export interface Reply {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

export interface Asked {
  readonly method?: string;
  /** Sent as it is: nothing is tidied. */
  readonly path?: string;
  readonly headers?: OutgoingHttpHeaders;
  readonly body?: string | Uint8Array;
}

export function ask(local: Local, { method = 'GET', path = '/', headers = {}, body }: Asked): Promise<Reply> {
  const { hostname, port } = new URL(local.origin);
  return new Promise((resolve, reject) => {
    const sent = request({ hostname, port, method, path, headers, agent: false }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('error', reject);
      response.on('end', () =>
        resolve({
          status: response.statusCode!,
          headers: response.headers,
          text: Buffer.concat(parts).toString('utf8'),
        }),
      );
    });
    sent.on('error', reject);
    sent.end(body);
  });
}

/** Goes in by the one-time address; gives the cookie. */
export async function enter(local: Local): Promise<string> {
  const { pathname, search } = new URL(local.address);
  const { status, headers } = await ask(local, { path: pathname + search });
  const cookie = headers['set-cookie']?.[0]?.split(';')[0];
  if (status !== 303 || cookie === undefined) throw new Error(`no way in: ${status}`);
  return cookie;
}

/** The headers that the window's own calls have. */
export function ownHeaders(local: Local, cookie: string): Record<string, string> {
  return {
    cookie,
    origin: local.origin,
    'content-type': 'application/json',
    'x-copewright': '1',
    'sec-fetch-site': 'same-origin',
  };
}

/** Listens to the stream of events; `hear` gets each. Gives what ends it. */
export function listen(
  local: Local,
  cookie: string,
  hear: (event: string, data: unknown) => void,
): Promise<() => void> {
  const { hostname, port } = new URL(local.origin);
  const headers = { cookie, 'sec-fetch-site': 'same-origin' };
  return new Promise((resolve, reject) => {
    const sent = request({ hostname, port, path: '/events', headers, agent: false }, (response) => {
      let waiting = '';
      response.setEncoding('utf8');
      response.on('error', () => undefined);
      response.on('data', (part: string) => {
        waiting += part;
        for (let end = waiting.indexOf('\n\n'); end >= 0; end = waiting.indexOf('\n\n')) {
          const [, event, data] = /^event: (\w+)\ndata: (.*)$/.exec(waiting.slice(0, end)) ?? [];
          waiting = waiting.slice(end + 2);
          if (event !== undefined) hear(event, JSON.parse(data!));
        }
      });
      resolve(() => sent.destroy());
    });
    sent.on('error', reject);
    sent.end();
  });
}
