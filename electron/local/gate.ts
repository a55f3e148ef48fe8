// Who may come in. Every request passes here before anything else is looked at: exact host, no page of another site, no
// key no entry. The key comes once, in the address, and is then a cookie that scripts cannot read. Nothing here touches a
// disk. RULES: SK17.

import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

export interface Refusal {
  readonly status: number;
  readonly words: string;
}

export interface Gate {
  /** Path and query of the one address that lets a browser in; good once. */
  readonly entry: string;
  /** Whether the request may be looked at; null: it may. */
  refusal(headers: IncomingHttpHeaders): Refusal | null;
  /** Takes the one-time key; the cookie to set, or null where it is not the key or was used. */
  enter(key: string | null): string | null;
  hasKey(headers: IncomingHttpHeaders): boolean;
  /** For what changes something, and for events: whether the page that asks is our own. */
  fromOwnPage(headers: IncomingHttpHeaders, always: boolean): boolean;
}

const KEY_BYTES = 32;

/** Compares in the same time whatever differs. */
function same(given: string, secret: Buffer): boolean {
  const bytes = /^[0-9a-f]{64}$/.test(given) ? Buffer.from(given, 'hex') : randomBytes(KEY_BYTES);
  return timingSafeEqual(bytes, secret);
}

export function openGate(port: number): Gate {
  const host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  const cookie = `copewright-${port}`;
  const once = randomBytes(KEY_BYTES);
  const session = randomBytes(KEY_BYTES);
  let used = false;

  return {
    entry: `/enter?key=${once.toString('hex')}`,
    refusal: (headers) => {
      if (headers.host !== host) return { status: 421, words: 'This is not the host of this program.' };
      const site = headers['sec-fetch-site'];
      if (site !== undefined && site !== 'same-origin' && site !== 'none')
        return { status: 403, words: 'Pages of other sites have no business here.' };
      return null;
    },
    enter: (key) => {
      if (key === null || !same(key, once) || used) return null;
      used = true;
      return `${cookie}=${session.toString('hex')}; HttpOnly; SameSite=Strict; Path=/`;
    },
    hasKey: ({ cookie: sent }) => {
      const values = (sent ?? '')
        .split(';')
        .map((each) => each.trim())
        .filter((each) => each.startsWith(`${cookie}=`))
        .map((each) => each.slice(cookie.length + 1));
      return values.length === 1 && same(values[0]!, session);
    },
    fromOwnPage: (headers, always) => {
      if (headers.origin !== undefined) return headers.origin === origin;
      // Browsers send no origin with a reading request to the page's own; which site asks they always say.
      return !always && headers['sec-fetch-site'] === 'same-origin';
    },
  };
}
