// A file dropped on the window in the browser form: its text goes to the host as it stands, or one sentence comes back.

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { loopbackBridge } from '../../../renderer/app/loopback.ts';

describe('a file dropped on the window in the browser form', () => {
  let sent: { path: string; init: RequestInit }[];
  beforeEach(() => {
    sent = [];
    vi.stubGlobal('navigator', { userAgent: 'Linux' });
    vi.stubGlobal('EventSource', class {});
    vi.stubGlobal('fetch', async (path: string, init: RequestInit) => {
      sent.push({ path, init });
      return new Response('{"outcome":"cancelled"}');
    });
  });
  afterEach(() => vi.unstubAllGlobals());

  const drop = (name: string, parts: BlobPart[]) => loopbackBridge().openFile(new File(parts, name));

  it('goes over with its name, and nothing in it is mended', async () => {
    expect(await drop('a.copewright.json', ['\ufeff{"title": "⅜ 木"}\r\n'])).toEqual({
      outcome: 'cancelled',
    });
    expect(sent[0]!.path).toBe('./call/openText');
    expect(JSON.parse(String(sent[0]!.init.body))).toEqual({
      name: 'a.copewright.json',
      text: '\ufeff{"title": "⅜ 木"}\r\n',
    });
    expect(sent[0]!.init).toMatchObject({
      method: 'POST',
      headers: { 'content-type': 'application/json', 'x-copewright': '1' },
    });
  });

  it('in another encoding, or too large, is refused in one sentence and not sent', async () => {
    const latin = await drop('latin.copewright.json', [new Uint8Array([0x22, 0xe9, 0x22])]);
    expect(latin).toMatchObject({ outcome: 'refused', message: expect.stringMatching(/UTF-8/) });
    const large = await drop('large.copewright.json', [new Uint8Array(33 * 1024 * 1024)]);
    expect(large).toMatchObject({ outcome: 'refused', message: expect.stringMatching(/too large/) });
    expect(sent).toEqual([]);
  });

  it('what the host refuses is an error with its words', async () => {
    vi.stubGlobal('fetch', async () => new Response('start: no', { status: 400 }));
    await expect(loopbackBridge().start({})).rejects.toThrow('start: 400 start: no');
  });
});
