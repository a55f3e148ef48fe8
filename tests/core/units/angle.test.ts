import { describe, expect, it } from 'vitest';
import { parseAngle } from '../../../core/units/index.ts';
import { cases, random } from '../../seeds.ts';

describe('angles', () => {
  it.each([
    ['91.5', 91.5],
    ['91 1/2', 91.5],
    ['91-1/2', 91.5],
    ['91½°', 91.5],
    ['91½', 91.5],
    ['91 ½ °', 91.5],
    ["91°30'", 91.5],
    ['91° 30′', 91.5],
    ['91° 30 min', 91.5],
    ['91°29\'60"', null],
    ['91° 29′ 30″', 91 + 29.5 / 60],
    ['91° 30″', 91 + 30 / 3600],
    ['91 deg', 91],
    ['91 degrees', 91],
    ['0', 0],
    ['360', 360],
    ['-45', -45],
    ['−22.5°', -22.5],
  ] as const)('[UN8] %s is %s degrees', (text, deg) => {
    const read = parseAngle(text);
    if (deg === null) expect(read.ok).toBe(false);
    else expect(read).toEqual({ ok: true, deg });
  });

  it.each([
    ['', 0, /nothing was typed/i],
    ['abc', 0, /“a”/],
    ['91.5x', 4, /“x”/],
    ['91,5', 2, /comma/],
    ['91 30', 3, /“3”/],
    ['91°30', 3, /without the mark/],
    ["91.5° 30'", 6, /broken number/],
    ["91° 60'", 4, /60 or more/],
    ['361', 0, /full turn/],
    ['-', 1, /ends where/],
    ['12 1/0', 5, /over 0/],
    ['85 53\n/1d', 3, /fraction 53\/1, which/], // from the seeded run below
  ] as const)('[UN4] %j is refused at character %i', (text, at, message) => {
    expect(parseAngle(text)).toMatchObject({ ok: false, at, message: expect.stringMatching(message) });
  });

  it('[UN4] seeded: never throws, never NaN', () => {
    const alphabet = [...'0123456789°\'"′″ ./½-+,degmin\n'];
    const seed = 4;
    const next = random(seed);
    const total = cases(100_000);
    let readable = 0;
    for (let k = 0; k < total; k++) {
      let text = '';
      for (let n = Math.floor(next() * 9); n >= 0; n--)
        text += alphabet[Math.floor(next() * alphabet.length)];
      const read = parseAngle(text);
      if (read.ok) {
        readable++;
        expect(Number.isFinite(read.deg), text).toBe(true);
      } else {
        expect(read.at >= 0 && read.at <= text.length, text).toBe(true);
        expect(read.message, text).toMatch(/^[^\n]+\.$/);
      }
    }
    console.log(`parseAngle fuzz: seed ${seed}, ${total} texts, ${readable} read`);
    expect(readable).toBeGreaterThan(total / 100);
  });
});
