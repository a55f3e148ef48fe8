import { describe, expect, it } from 'vitest';
import { decodeUtf8, firstInvalidByte } from '../../../core/plan/utf8.ts';
import { cases, random } from '../../seeds.ts';

describe('bytes to text', () => {
  it('[PL1] UTF-8 with and without a byte order mark', () => {
    const bytes = new TextEncoder().encode('{"a":"½ ′ \u{1f600}"}');
    expect(decodeUtf8(bytes)).toEqual({ ok: true, text: '{"a":"½ ′ \u{1f600}"}' });
    expect(decodeUtf8(new Uint8Array([0xef, 0xbb, 0xbf, 0x7b, 0x7d]))).toEqual({ ok: true, text: '{}' });
    expect(decodeUtf8(new Uint8Array())).toEqual({ ok: true, text: '' });
  });

  it.each([
    ['utf16le', Buffer.from('{"a":1}', 'utf16le')],
    ['utf16le marked', Buffer.from('\ufeff{"a":1}', 'utf16le')],
    ['utf16be', Buffer.from('{"a":1}', 'utf16le').swap16()],
    ['utf16be marked', Buffer.from('\ufeff{"a":1}', 'utf16le').swap16()],
    ['utf32be', Buffer.from([0, 0, 0, 0x7b, 0, 0, 0, 0x7d])],
    ['utf32le', Buffer.from([0x7b, 0, 0, 0, 0x7d, 0, 0, 0])],
  ])('[PL1] %s is told apart', (_name, bytes) => {
    expect(decodeUtf8(bytes)).toEqual({ ok: false, why: 'utf-16' });
  });

  it('[PL1] a file of zeros, as a crash leaves it, is text that is no plan rather than UTF-16', () => {
    expect(decodeUtf8(new Uint8Array(10)).ok).toBe(true);
  });

  it.each([
    [[0x61, 0x80], 1],
    [[0xc0, 0x80], 0],
    [[0xc1, 0xbf], 0],
    [[0xe0, 0x9f, 0xbf], 0],
    [[0xed, 0xa0, 0x80], 0],
    [[0xf0, 0x8f, 0xbf, 0xbf], 0],
    [[0xf4, 0x90, 0x80, 0x80], 0],
    [[0xf5, 0x80, 0x80, 0x80], 0],
    [[0x61, 0x62, 0xe2, 0x82], 2],
    [[0xff, 0x61], 0],
  ])('[PL1] %j is ill-formed at byte %i (The Unicode Standard, table 3-7)', (bytes, at) => {
    expect(firstInvalidByte(new Uint8Array(bytes))).toBe(at);
  });

  it('[PL1] seeded: ill-formed exactly when the strict decoder of the platform says so', () => {
    const seed = 8;
    const next = random(seed);
    const strict = new TextDecoder('utf-8', { fatal: true });
    const edges = [
      0x00, 0x7f, 0x80, 0x8f, 0x90, 0x9f, 0xa0, 0xbf, 0xc1, 0xc2, 0xdf, 0xe0, 0xed, 0xef, 0xf0, 0xf4, 0xf5,
      0xff,
    ];
    const counts = { well: 0, ill: 0 };
    const total = cases(50_000);
    for (let k = 0; k < total; k++) {
      const bytes = new Uint8Array(1 + Math.floor(next() * 5));
      for (let n = 0; n < bytes.length; n++) bytes[n] = edges[Math.floor(next() * edges.length)]!;
      let well = true;
      try {
        strict.decode(bytes);
      } catch {
        well = false;
      }
      counts[well ? 'well' : 'ill']++;
      expect(firstInvalidByte(bytes) === null, Array.from(bytes).join()).toBe(well);
    }
    console.log(`UTF-8: seed ${seed}`, counts);
    expect(counts.well).toBeGreaterThan(100);
  });
});
