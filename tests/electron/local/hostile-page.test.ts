// A page of somebody else's in another tab of the same browser, while the window is open: on another port of 127.0.0.1,
// where cookies are shared, and under another host name. Real Chromium. It may ask; it gets nothing and does nothing.

import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoFile, type OpenWindow, openWindow } from '../../renderer/window.ts';

/** Run in the hostile page: every way in that a page has. Gives what each way gave. */
async function attack(target: string): Promise<Record<string, string>> {
  const after = <T>(ms: number, value: T): Promise<T> =>
    new Promise((resolve) => setTimeout(() => resolve(value), ms));
  const asked = async (path: string, init?: RequestInit): Promise<string> => {
    try {
      const reply = await fetch(target + path, { credentials: 'include', ...init });
      return `${reply.type} ${(await reply.text()).length}`;
    } catch {
      return 'failed';
    }
  };
  const loaded = (tag: string, set: Record<string, string>): Promise<string> =>
    new Promise((resolve) => {
      const element = document.createElement(tag);
      element.onload = () => resolve('loaded');
      element.onerror = () => resolve('failed');
      for (const [name, value] of Object.entries(set)) element.setAttribute(name, value);
      document.body.append(element);
    });
  const posted = async (enctype: string): Promise<string> => {
    const frame = document.createElement('iframe');
    frame.name = `f${Math.random()}`;
    const form = document.createElement('form');
    Object.assign(form, {
      method: 'post',
      action: `${target}/call/clearRecent`,
      target: frame.name,
      enctype,
    });
    const field = document.createElement('input');
    field.name = '{"x":"';
    field.value = '"}';
    form.append(field);
    document.body.append(frame, form);
    form.submit();
    return after(300, 'sent');
  };
  const events = (): Promise<string> =>
    new Promise((resolve) => {
      const source = new EventSource(`${target}/events`, { withCredentials: true });
      source.onmessage = () => resolve('heard');
      source.onopen = () => resolve('opened');
      source.onerror = () => resolve('failed');
    });
  const socket = (): Promise<string> =>
    new Promise((resolve) => {
      const web = new WebSocket(target.replace('http', 'ws'));
      web.onopen = () => resolve('opened');
      web.onerror = () => resolve('failed');
    });
  const json = { 'content-type': 'application/json', 'x-copewright': '1' };
  return {
    'fetch the page': await asked('/'),
    'fetch the page, no cors': await asked('/', { mode: 'no-cors' }),
    'fetch events': await asked('/events'),
    'call by GET': await asked('/call/clearRecent'),
    'call as text': await asked('/call/clearRecent', { method: 'POST', mode: 'no-cors', body: '{}' }),
    'call as JSON': await asked('/call/clearRecent', { method: 'POST', body: '{}', headers: json }),
    'call with keepalive': await asked('/call/clearRecent', {
      method: 'POST',
      mode: 'no-cors',
      keepalive: true,
      body: '{}',
    }),
    beacon: String(navigator.sendBeacon(`${target}/call/clearRecent`, '{}')) && 'sent',
    'a form': await posted('application/x-www-form-urlencoded'),
    'a form of text': await posted('text/plain'),
    'a form of parts': await posted('multipart/form-data'),
    image: await loaded('img', { src: `${target}/assets/icon.svg` }),
    script: await loaded('script', { src: `${target}/index.html` }),
    style: await loaded('link', { rel: 'stylesheet', href: `${target}/index.html` }),
    events: await events(),
    socket: await socket(),
  };
}

describe('a hostile page in another tab', () => {
  let window: OpenWindow;
  let server: Server;
  let port: number;

  beforeAll(async () => {
    window = await openWindow({ file: demoFile('thimble-cottage') });
    server = createServer((_request, response) => {
      response.writeHead(200, { 'content-type': 'text/html' });
      response.end('<!doctype html><title>elsewhere</title><body></body>');
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    ({ port } = server.address() as AddressInfo);
  });
  afterAll(async () => {
    await window.close();
    server.closeAllConnections();
    server.close();
  });

  const recent = () => window.local.desk.handle('recent', {});

  it.each(['127.0.0.1', 'localhost'])('[SK17] at %s it reads nothing and does nothing', async (host) => {
    await expect.poll(recent).toMatchObject([{ name: 'thimble-cottage.copewright.json' }]);
    const before = window.log.length;
    const page = await window.context.newPage();
    await page.goto(`http://${host}:${port}/`);
    const got = await page.evaluate(attack, window.local.origin);
    for (const [way, outcome] of Object.entries(got)) {
      const harmless = /form|beacon/.test(way) ? 'sent' : 'failed';
      expect(outcome, way).toBe(harmless);
    }
    expect(window.log.length - before).toBeGreaterThan(8);
    expect(await recent()).toMatchObject([{ name: 'thimble-cottage.copewright.json' }]);
    await page.close();
  });

  it('[SK17] it cannot show the window in a frame, nor open it in a tab of its own', async () => {
    const page = await window.context.newPage();
    await page.goto(`http://127.0.0.1:${port}/`);
    await page.evaluate((target) => {
      const frame = document.createElement('iframe');
      frame.src = `${target}/`;
      document.body.append(frame);
    }, window.local.origin);
    await page.waitForTimeout(500);
    const inner = page.frames().find((frame) => frame !== page.mainFrame())!;
    expect(await inner.locator('#app').count()).toBe(0);
    const popup = page.waitForEvent('popup');
    await page.evaluate((target) => void open(`${target}/`), window.local.origin);
    const opened = await popup;
    await opened.waitForLoadState();
    expect(await opened.locator('#app').count()).toBe(0);
    expect(await page.evaluate(() => document.cookie)).toBe('');
    await page.close();
  });

  it('[SK17] meanwhile the window itself is well, and shows the same plan when it is loaded again', async () => {
    const { page, errors } = window;
    await page.reload();
    await expect.poll(() => page.locator('.frame').count()).toBe(1);
    const { opened } = (await window.local.desk.handle('start', {})) as {
      opened: { view: { name: string } };
    };
    expect(opened.view.name).toBe('thimble-cottage.copewright.json');
    expect(new URL(page.url()).href).toBe(`${window.local.origin}/`);
    expect(await page.evaluate(() => document.cookie)).toBe('');
    expect(errors).toEqual([]);
  });
});
