// The loopback form against everyone who is not its window: requests made by hand, each wrong in one thing. What is right
// comes first, so that a refusal says something.

import { execFile } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, writeFile } from 'node:fs/promises';
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MAX_PAYLOAD_BYTES } from '../../../electron/contract.ts';
import { strangerAt } from '../../../electron/local/peer.ts';
import { type Local, startLocal } from '../../../electron/local/server.ts';
import { realEnv } from '../../../electron/services/env.ts';
import { CONTENT_SECURITY_POLICY } from '../../../electron/services/page-policy.ts';
import { freshFolder, remove, textOf } from '../services/helpers.ts';
import { type Asked, ask, enter, ownHeaders } from './client.ts';

const PAGE = '<!doctype html><title>page</title>';
const SCRIPT = 'export const here = 1;';

describe('the loopback form', () => {
  let folder: string;
  let local: Local;
  let cookie: string;
  let own: Record<string, string>;
  const log: string[] = [];

  beforeAll(async () => {
    folder = await freshFolder();
    const [windowFolder, home] = [join(folder, 'window'), join(folder, 'home')];
    await mkdir(join(windowFolder, 'assets'), { recursive: true });
    await mkdir(home);
    await writeFile(join(windowFolder, 'index.html'), PAGE);
    await writeFile(join(windowFolder, 'assets', 'index-abc.js'), SCRIPT);
    await writeFile(join(windowFolder, 'notes.txt'), 'not for the window');
    await writeFile(join(folder, 'secret.js'), 'secret');
    await writeFile(join(home, 'house.copewright.json'), textOf('t0'));
    local = await startLocal({
      env: realEnv(join(folder, 'user')),
      version: '0.0.0-test',
      windowFolder,
      home,
      file: join(home, 'house.copewright.json'),
      openLink: () => undefined,
      log: (line) => log.push(line),
    });
  });
  afterAll(async () => {
    await local.stop();
    await remove(folder);
  });

  const call = (more: Asked & { without?: string } = {}) => {
    const headers = { ...own, ...more.headers };
    if (more.without !== undefined) delete headers[more.without];
    return ask(local, { method: 'POST', path: '/call/recent', body: '{}', ...more, headers });
  };

  /** Whether anything answers at this address of this machine. */
  const answers = (host: string): Promise<boolean> =>
    new Promise((resolve) => {
      const socket = connect({ host, port: Number(new URL(local.origin).port), timeout: 2000 });
      const said = (open: boolean) => (): void => {
        socket.destroy();
        resolve(open);
      };
      socket.on('connect', said(true));
      socket.on('error', said(false));
      socket.on('timeout', said(false));
    });

  it('[SK17] listens on 127.0.0.1 only, at an address with 256 random bits', async () => {
    const { hostname, searchParams } = new URL(local.address);
    expect(hostname).toBe('127.0.0.1');
    expect(searchParams.get('key')).toMatch(/^[0-9a-f]{64}$/);
    expect(await answers('127.0.0.1')).toBe(true);
    const others = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
    const own = others.map(({ address }) => address).filter((address) => address !== '127.0.0.1');
    // All of 127 leads to this machine: a door on every address would answer there.
    for (const host of ['127.0.0.2', '::1', ...own]) expect(await answers(host), host).toBe(false);
  });

  it.skipIf(process.getuid?.() !== 0 || process.platform !== 'linux')(
    '[SK17] another account of this machine is not heard, whatever it knows',
    async () => {
      const script = `
        const { request } = require('node:http');
        for (const host of ['127.0.0.1', '::ffff:127.0.0.1']) {
          const sent = request({ host, port: ${new URL(local.origin).port}, path: '/', headers: { host: '${new URL(local.origin).host}' } }, (response) => console.log(response.statusCode));
          sent.on('error', ({ code }) => console.log(code));
          sent.end();
        }`;
      const said = async (uid: number) =>
        (await promisify(execFile)(process.execPath, ['-e', script], { uid, cwd: '/' })).stdout
          .trim()
          .split('\n');
      expect(await said(65534)).toEqual(['ECONNRESET', 'ECONNRESET']);
      expect(log.filter((line) => line.includes('another account')).length).toBe(2);
      expect(await said(0)).toEqual(['403', '403']);
    },
  );

  it.skipIf(process.platform !== 'linux')(
    '[SK17] a connection whose other end was given up is nobody’s, and is not taken for this account’s',
    async () => {
      const server = createServer();
      await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
      try {
        const connection = once(server, 'connection') as Promise<[Socket]>;
        const client = connect((server.address() as AddressInfo).port, '127.0.0.1');
        const [taken] = await connection;
        const { remotePort, localPort } = taken;
        expect(strangerAt(taken)).toBeNull();
        client.destroy();
        await once(client, 'close');
        expect(strangerAt({ remotePort, localPort } as Socket)).toBe('nobody');
        taken.destroy();
      } finally {
        server.close();
      }
    },
  );

  it('[SK17] nobody comes in before the key is used: no file, no call, no event', async () => {
    for (const path of ['/', '/index.html', '/assets/index-abc.js', '/events', '/call/start', '/nothing']) {
      expect((await ask(local, { path })).status, path).toBe(403);
    }
    for (const key of ['', '0', '0'.repeat(64), 'f'.repeat(64), 'x'.repeat(64), '0'.repeat(65)]) {
      expect((await ask(local, { path: `/enter?key=${key}` })).status, key).toBe(403);
    }
    expect((await ask(local, { path: '/enter' })).status).toBe(403);
  });

  it('[SK17] the key from another site, or by another host name, is not taken and not used up', async () => {
    const { pathname, search } = new URL(local.address);
    const path = pathname + search;
    const cross = await ask(local, { path, headers: { 'sec-fetch-site': 'cross-site' } });
    expect([cross.status, cross.headers['set-cookie']]).toEqual([403, undefined]);
    expect((await ask(local, { path, headers: { host: 'localhost' } })).status).toBe(421);
  });

  it('[SK17] the key gives a cookie that scripts and other sites cannot have, drops out of the address, and is good once', async () => {
    const { pathname, search, port } = new URL(local.address);
    const { status, headers } = await ask(local, { path: pathname + search });
    expect(status).toBe(303);
    expect(headers.location).toBe('/');
    expect(headers['set-cookie']).toEqual([
      expect.stringMatching(
        new RegExp(`^copewright-${port}=[0-9a-f]{64}; HttpOnly; SameSite=Strict; Path=/$`),
      ),
    ]);
    cookie = headers['set-cookie']![0]!.split(';')[0]!;
    own = ownHeaders(local, cookie);
    expect(cookie).not.toContain(new URL(local.address).searchParams.get('key'));
    expect((await ask(local, { path: pathname + search })).status).toBe(403);
    await expect(enter(local)).rejects.toThrow('403');
  });

  it('[SK17] with the cookie: the page, its files and the calls, all with the same strict headers', async () => {
    const headers = { cookie };
    const page = await ask(local, { headers });
    expect([page.status, page.text]).toEqual([200, PAGE]);
    expect((await ask(local, { path: '/index.html', headers })).text).toBe(PAGE);
    const script = await ask(local, { path: '/assets/index-abc.js', headers });
    expect([script.text, script.headers['content-type']]).toEqual([SCRIPT, 'text/javascript; charset=utf-8']);
    const called = await call();
    expect([called.status, called.text]).toEqual([200, '[]']);
    const refused = await ask(local, { path: '/nowhere', headers });
    const stranger = await ask(local, {});
    for (const { headers: got, status } of [page, script, called, refused, stranger]) {
      expect(got, String(status)).toMatchObject({
        'content-security-policy': CONTENT_SECURITY_POLICY,
        'x-content-type-options': 'nosniff',
        'cache-control': 'no-store',
        'referrer-policy': 'no-referrer',
        'x-frame-options': 'DENY',
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-resource-policy': 'same-origin',
      });
      expect(Object.keys(got).filter((name) => name.startsWith('access-control'))).toEqual([]);
    }
    expect(CONTENT_SECURITY_POLICY).toBe(
      "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; font-src 'self'; " +
        "connect-src 'self'; worker-src 'self'; img-src 'self' data: blob:; base-uri 'none'; " +
        "form-action 'none'; frame-ancestors 'none'; object-src 'none'",
    );
  });

  it('[SK17] any other host is refused before anything is looked at, files too', async () => {
    const { port } = new URL(local.origin);
    const hosts = [
      'localhost',
      `localhost:${port}`,
      '127.0.0.1',
      `127.0.0.1:${Number(port) + 1}`,
      `127.0.0.1.:${port}`,
      `127.1:${port}`,
      `[::1]:${port}`,
      `evil.example:${port}`,
      `127.0.0.1:${port}.evil.example`,
    ];
    for (const host of hosts) {
      for (const path of ['/', '/assets/index-abc.js', '/events', '/enter?key=0']) {
        expect((await ask(local, { path, headers: { cookie, host } })).status, `${host} ${path}`).toBe(421);
      }
      expect((await call({ headers: { host } })).status, host).toBe(421);
    }
  });

  it('[SK17] a call from another origin, or from none, is refused', async () => {
    const origins = [
      'http://evil.example',
      'null',
      '',
      local.origin.replace('127.0.0.1', 'localhost'),
      local.origin.replace('http:', 'https:'),
      `${local.origin}/`,
      local.origin.toUpperCase(),
      `http://127.0.0.1:${Number(new URL(local.origin).port) + 1}`,
    ];
    for (const origin of origins) expect((await call({ headers: { origin } })).status, origin).toBe(403);
    expect((await call({ without: 'origin' })).status).toBe(403);
    for (const site of ['cross-site', 'same-site', 'nonsense']) {
      expect((await call({ headers: { 'sec-fetch-site': site } })).status, site).toBe(403);
      const file = await ask(local, { path: '/index.html', headers: { cookie, 'sec-fetch-site': site } });
      expect(file.status, site).toBe(403);
    }
  });

  it('[SK17] events go to no other origin, and to nobody who does not say where they are from', async () => {
    const events = (headers: Record<string, string>) =>
      ask(local, { path: '/events', headers: { cookie, ...headers } });
    expect((await events({ origin: 'http://evil.example' })).status).toBe(403);
    expect((await events({ origin: 'null', 'sec-fetch-site': 'same-origin' })).status).toBe(403);
    expect((await events({})).status).toBe(403);
    expect((await events({ 'sec-fetch-site': 'none' })).status).toBe(403);
  });

  it('[SK17] a wrong cookie is no cookie', async () => {
    const [name, value] = cookie.split('=') as [string, string];
    const wrong = [
      '',
      `${name}=`,
      `${name}=${'0'.repeat(64)}`,
      `${name}=${value.slice(1)}`,
      `${name}=${value}0`,
      `${name}=${value.toUpperCase().replace(/\d/g, 'A')}`,
      `x${name}=${value}`,
      `copewright-1=${value}`,
      `${name}=${'0'.repeat(64)}; ${name}=${value}`,
      // Of two, one was put there by somebody else.
      `${name}=${value}; ${name}=${'0'.repeat(64)}`,
    ];
    for (const each of wrong) {
      expect((await call({ headers: { cookie: each } })).status, each).toBe(403);
      expect((await ask(local, { headers: { cookie: each } })).status, each).toBe(403);
    }
    expect((await call({ without: 'cookie' })).status).toBe(403);
    expect((await call({ headers: { cookie: `other=1; ${cookie}` } })).status).toBe(200);
  });

  it('[SK17] a call is a POST of JSON with the header of its own', async () => {
    for (const method of ['GET', 'PUT', 'DELETE', 'OPTIONS', 'PATCH', 'HEAD']) {
      expect((await call({ method })).status, method).toBe(405);
    }
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS', 'HEAD']) {
      expect((await ask(local, { method, path: '/', headers: { cookie } })).status, method).toBe(405);
    }
    const types = [
      'text/plain',
      'application/x-www-form-urlencoded',
      'multipart/form-data; boundary=x',
      'application/json; charset=utf-8',
      'text/plain; application/json',
    ];
    for (const type of types)
      expect((await call({ headers: { 'content-type': type } })).status, type).toBe(415);
    expect((await call({ without: 'content-type' })).status).toBe(415);
    expect((await call({ without: 'x-copewright' })).status).toBe(415);
    expect((await call({ headers: { 'x-copewright': '2' } })).status).toBe(415);
    for (const body of ['', '{', 'null', '[]', '"x"', '{"more":1}', '\ufeff{}', '{}{}', 'NaN']) {
      expect((await call({ body })).status, body).toBe(400);
    }
    expect((await call({ body: new Uint8Array([0x7b, 0xff, 0x7d]) })).status).toBe(400);
    for (const name of [
      'nothing',
      '',
      '../start',
      'constructor',
      '__proto__',
      'recent/',
      'recent%00',
      'Recent',
    ]) {
      expect((await call({ path: `/call/${name}` })).status, name).toBe(400);
    }
  });

  it('[SK17] no spelling of a path leads to anything but the listed files', async () => {
    const paths = [
      '/../secret.js',
      '/assets/../../secret.js',
      '/assets/../index.html',
      '/%2e%2e/secret.js',
      '/%2e%2e%2fsecret.js',
      '/..%2fsecret.js',
      '/..%5csecret.js',
      '/..\\secret.js',
      '/assets%2findex-abc.js',
      '/assets/%69ndex-abc.js',
      '/index.html%00',
      '/index.html%00.js',
      '/assets/index-abc.js/',
      '//index.html',
      '/./index.html',
      '/INDEX.HTML',
      '/notes.txt',
      '/index.html;x',
      '/.',
      '/..',
      '/etc/passwd',
      '//etc/passwd',
      `/${'a'.repeat(10_000)}`,
      'http://127.0.0.1/index.html',
      '*',
    ];
    for (const path of paths) {
      const { status, text } = await ask(local, { path, headers: { cookie } });
      expect(status, path).toBe(404);
      expect(text, path).toBe('There is no such file.\n');
    }
  });

  it('[SK17] a body that is larger than any plan is not read, whether it says so or not', async () => {
    const said = await new Promise<string>((resolve, reject) => {
      const socket = connect(Number(new URL(local.origin).port), '127.0.0.1', () => {
        const headers = { ...own, host: new URL(local.origin).host, 'content-length': MAX_PAYLOAD_BYTES + 1 };
        const lines = Object.entries(headers).map(([name, value]) => `${name}: ${value}`);
        socket.write(`POST /call/recent HTTP/1.1\r\n${lines.join('\r\n')}\r\n\r\n{`);
      });
      socket.setEncoding('utf8');
      socket.once('data', (text) => resolve(String(text)));
      socket.once('error', reject);
    });
    expect(said).toMatch(/^HTTP\/1\.1 413 /);
    // In pieces, without a length: the connection may break while the rest is still being sent.
    const whole = Buffer.alloc(MAX_PAYLOAD_BYTES + 1024 * 1024, 0x20);
    const outcome = await call({ headers: { 'transfer-encoding': 'chunked' }, body: whole }).then(
      ({ status }) => status,
      (error: NodeJS.ErrnoException) => error.code,
    );
    expect([413, 'EPIPE', 'ECONNRESET']).toContain(outcome);
    expect((await call()).status).toBe(200);
  });

  it('[SK17] what was refused is told to whoever started the program, without a key or a path of the disk', () => {
    expect(log.length).toBeGreaterThan(50);
    expect(log.join('\n')).not.toContain(folder);
    expect(log.join('\n')).not.toContain(new URL(local.address).searchParams.get('key'));
    expect(log.join('\n')).not.toContain(cookie.split('=')[1]);
  });

  /** What the program answers to these very bytes, until it or `ends` closes the connection. */
  function said(bytes: string, ends = false): Promise<string> {
    return new Promise((resolve) => {
      let text = '';
      const socket = connect(Number(new URL(local.origin).port), '127.0.0.1', () => {
        if (ends) socket.end(bytes);
        else socket.write(bytes);
      });
      socket.on('data', (part) => {
        text += String(part);
      });
      socket.on('error', () => resolve(text));
      socket.on('close', () => resolve(text));
    });
  }

  it('[SK17] a request with two hosts is refused, whichever comes first, and with the same one twice', async () => {
    const { host } = new URL(local.origin);
    const request = (path: string, hosts: readonly string[]): string =>
      [
        `GET ${path} HTTP/1.1`,
        ...hosts.map((each) => `Host: ${each}`),
        `Cookie: ${cookie}`,
        'Connection: close',
        '\r\n',
      ].join('\r\n');
    for (const path of ['/', '/assets/index-abc.js']) {
      expect(await said(request(path, [host])), path).toMatch(/^HTTP\/1\.1 200 /);
      for (const hosts of [
        [host, 'evil.example'],
        ['evil.example', host],
        [host, host],
        [host, ''],
      ])
        expect(await said(request(path, hosts)), `${path} ${hosts}`).toMatch(/^HTTP\/1\.1 421 /);
    }
  });

  it('[SK17] a connection on which something was refused is closed: what follows on it is not heard', async () => {
    const { host } = new URL(local.origin);
    const post = (headers: Record<string, string>, body: string): string => {
      const lines = Object.entries({ host, ...headers, 'content-length': String(body.length) });
      return `POST /call/recent HTTP/1.1\r\n${lines.map((each) => each.join(': ')).join('\r\n')}\r\n\r\n${body}`;
    };
    const statuses = (text: string): string[] => text.match(/HTTP\/1\.1 \d+/g) ?? [];
    const good = post(own, '{}');
    const last = post({ ...own, connection: 'close' }, '{}');
    expect(statuses(await said(good + last))).toEqual(['HTTP/1.1 200', 'HTTP/1.1 200']);
    const { cookie: _cookie, ...stranger } = own;
    for (const [refused, status] of [
      [post(stranger, '{}'), 403],
      [post({ ...own, 'content-type': 'text/plain' }, '{}'), 415],
      [post(own, '{'), 400],
    ] as const) {
      const answered = await said(refused + last);
      expect(statuses(answered), refused).toEqual([`HTTP/1.1 ${status}`]);
      expect(answered).toMatch(/^connection: close\r$/im);
    }
  });

  it('[SK17] there are no sockets and no tunnels: a wish for one is a request like any other, or gets nothing', async () => {
    const { host } = new URL(local.origin);
    const wish = (of: string, ...more: string[]): string =>
      [
        `GET /events HTTP/1.1`,
        `Host: ${of}`,
        'Upgrade: websocket',
        'Connection: Upgrade',
        'Sec-WebSocket-Version: 13',
        'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==',
        ...more,
        '\r\n',
      ].join('\r\n');
    expect(await said(wish('evil.example'))).toMatch(/^HTTP\/1\.1 421 /);
    expect(await said(wish(host))).toMatch(/^HTTP\/1\.1 403 /);
    const crossed = ['Origin: https://evil.example', `Cookie: ${cookie}`];
    expect(await said(wish(host, ...crossed))).toMatch(/^HTTP\/1\.1 403 /);
    expect(await said(`CONNECT ${host} HTTP/1.1\r\nHost: ${host}\r\nCookie: ${cookie}\r\n\r\n`, true)).toBe(
      '',
    );
    expect((await call()).status).toBe(200);
  });

  it('[SK17] what a connection says out of turn does not stop the program', async () => {
    const { host } = new URL(local.origin);
    const rubbish = [
      'GET / HTTP/1.1\r\n\r\n',
      `GET / HTTP/1.1\r\nhost:\r\ncookie: ${cookie}\r\n\r\n`,
      'GET / HTTP/9.9\r\n\r\n',
      `GET /\r\nhost: ${host}\r\n\r\n`,
      '\u0000\u0001\u0002'.repeat(1000),
      `POST /call/recent HTTP/1.1\r\nhost: ${host}\r\ncontent-length: 5\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n`,
    ];
    for (const each of rubbish) {
      const answered = await said(each, true);
      expect(answered, each.slice(0, 60)).not.toMatch(/^HTTP\/1\.1 200 /);
    }
    expect((await call()).status).toBe(200);
  });
});
