import { describe, expect, it } from 'vitest';
import { parseLength, TICKS_PER_FOOT, TICKS_PER_INCH, type UnitSystem } from '../../../core/units/index.ts';
import { cases, random } from '../../seeds.ts';

const inch = (inches: number) => inches * TICKS_PER_INCH;

function ticks(text: string, units: UnitSystem = 'imperial'): number {
  const read = parseLength(text, units);
  if (!read.ok) throw new Error(`${JSON.stringify(text)}: ${read.message}`);
  return read.ticks;
}

function refusal(text: string, units: UnitSystem = 'imperial'): { at: number; message: string } {
  const read = parseLength(text, units);
  if (read.ok) throw new Error(`${JSON.stringify(text)} was read as ${read.ticks} ticks`);
  return read;
}

describe('lengths that are read', () => {
  it('[UN1] an inch is 25.4 mm exactly, 1/64 in is 127 ticks and 0.1 mm is 32 (NIST Handbook 44, appendix C, for the inch)', () => {
    expect(ticks('1 in')).toBe(ticks('25.4 mm'));
    expect(ticks('1 ft')).toBe(ticks('304.8mm'));
    expect(ticks('1/64"')).toBe(127);
    expect(ticks('0.1mm')).toBe(32);
  });

  it.each([
    `12' 4 3/8"`,
    `12'4 3/8"`,
    `12' 4 3/8`,
    `12'4-3/8"`,
    `12'-4-3/8"`,
    `12'-4 3/8"`,
    '12-4-3/8',
    '12-4-3/8"',
    '12-4 3/8',
    '12–4–3/8',
    '12-4.375',
    `12' 4.375`,
    `12' 4.375"`,
    '12′ 4⅜″',
    '12’ 4 ⅜”',
    "12' 4 3/8''",
    '12 ft 4 3⁄8 in',
    '12ft4⅜in',
    '12 feet 4 3/8 inches',
    '12 FT. 4 3/8 IN.',
    '12\u00a0ft 4\u20093/8',
    '148 3/8',
    '148-3/8',
    '148⅜',
    '148.375"',
    '148.375',
    '1187/8',
    '  148 3 / 8  ',
    "+12' 4 3/8",
    "12' 4 + 3/8",
    "12' + 4 + 3/8",
    "12' 8 3/8 - 4",
    "13' − 8 + 3/8",
    '12\'4"+3/8"',
    '3768.725mm',
    '376.8725 cm',
    '3.768725 m',
    '3.7 m + 68.725mm',
    '3.7m + 2 - 1" + 43.325mm',
  ])('[UN3, UN5, UN6] %s in an imperial plan is 12 ft 4 3/8 in', (text) => {
    expect(ticks(text)).toBe(inch(148.375));
  });

  it.each([
    '3.76m',
    '376cm',
    '3760',
    '3760mm',
    '3.76 M',
    '3.76 metres',
    '376 centimeters',
    '4 m - 24 cm',
    '4m-240',
    '3760.0',
    '3 m + 760',
  ])('[UN3, UN5] %s in a metric plan is 3760 mm', (text) => {
    expect(ticks(text, 'metric')).toBe(3760 * 320);
  });

  it.each([
    [`5'`, 60],
    [`5½'`, 66],
    [`5.5'`, 66],
    [`5-1/2'`, 66],
    [`5' ⅜`, 60.375],
    [`5'-3/8`, 60.375],
    [`5'-6`, 66],
    [`5' - 6`, 54],
    [`5' − 6`, 54],
    [`5' −6`, 54],
    ['12-4', 148],
    ['12 - 4', 8],
    ['6-8', 80],
    ['-4', -4],
    ['−4', -4],
    ["- 12' 4", -148],
    ['.5', 0.5],
    ['0', 0],
    ['3 - 3', 0],
    ['9/8', 1.125],
    ['1"-1/2"+1/2"', null],
    ['1" - 1/2"', 0.5],
    ['1"-2"', -1],
  ] as const)('[UN5, UN6] %s is %s inches', (text, inches) => {
    if (inches === null) expect(parseLength(text, 'imperial').ok).toBe(false);
    else expect(ticks(text)).toBe(inch(inches));
  });

  it('[UN5] feet and inches are read in a metric plan where they are marked', () => {
    expect(ticks(`12' 4 3/8`, 'metric')).toBe(inch(148.375));
    expect(ticks('12-4-3/8"', 'metric')).toBe(inch(148.375));
    expect(ticks('4-3/8 in', 'metric')).toBe(inch(4.375));
    expect(ticks('3/8', 'metric')).toBe(120);
  });

  it('[UN2] goes to the nearest tick, halves away from zero, and is rounded once', () => {
    expect(ticks('0.0015625', 'metric')).toBe(1);
    expect(ticks('-0.0015625', 'metric')).toBe(-1);
    expect(ticks('0.00156249999999999999999999', 'metric')).toBe(0);
    expect(ticks('0.0015625 + 0.0015625', 'metric')).toBe(1);
    expect(ticks('0.0046875', 'metric')).toBe(2);
    expect(ticks('1/3')).toBe(2709); // 8128 / 3 = 2709.33
    expect(ticks('1/3 + 1/3 + 1/3')).toBe(8128);
    expect(Object.is(ticks('-0'), 0)).toBe(true);
  });
});

describe('lengths that are refused', () => {
  it.each([
    ['', 0, /nothing was typed/i],
    ['   ', 3, /nothing was typed/i],
    ['abc', 0, /^Found “a”/],
    ["12' 4 x", 6, /^Understood “12' 4”, then found “x”/],
    ['12\' 4 3/8" wide', 11, /“w”, which is no part/],
    ["12' 4 +", 7, /^Understood “12' 4 \+”, then the text ends/],
    ['12 4', 3, /another number/],
    ['12 4 3/8', 3, /another number/],
    ['3,76m', 1, /comma.*point/],
    ['1,200', 1, /comma/],
    [',5', 0, /comma/],
    ['4 3/0', 4, /over 0/],
    ['4 3/', 4, /lower number .* missing/],
    ['3/8/2', 3, /straight after a fraction/],
    ['3/8.5', 3, /straight after a fraction/],
    ['½½', 1, /another number/],
    ['½3', 1, /straight after a fraction/],
    ['4 9/8', 2, /not below one/],
    ['4.5 3/8', 4, /after a decimal/],
    ['4.', 2, /decimals after the point are missing/],
    ['1.2.3', 3, /second point/],
    ['--5', 1, /“-”/],
    ['5 + - 3', 4, /“-”/],
    ['5 -3', 2, /one side only/],
    ['5- 3', 1, /one side only/],
    ["12' -4", 4, /one side only/],
    ['12.5-4', 4, /two ways/],
    ['12−4', 2, /two ways/],
    ['5-', 2, /then the text ends/],
    ['5 -', 3, /then the text ends/],
    ['148-13', 4, /12 or more inches/],
    ['12-4-3', 4, /further dash/],
    ['12-4mm', 2, /joins feet and inches only/],
    ['12\'4"-3/8', 5, /joined on by a dash/],
    ["12.5' 3", 6, /broken number of feet/],
    ["12' 6mm", 5, /another unit/],
    ["12' 6'", 5, /another unit/],
    ['5 furlongs', 2, /“furlongs”/],
    ['5e3', 1, /“e”/],
    ['Infinity', 0, /“I”/],
    ['NaN', 0, /“N”/],
    ['0x10', 1, /“x”/],
    ['１２', 0, /“１”/],
    ['5 \u0000', 2, /U\+0000/],
    ['5 \u{1f600}', 2, /“\u{1f600}”/u],
    ['5\n4 x', 2, /another number/],
  ] as const)('[UN4] %j is refused at character %i', (text, at, message) => {
    const refused = refusal(text);
    expect(refused.message).toMatch(message);
    expect(refused.at).toBe(at);
    expect(refused.message).not.toMatch(/\n/);
  });

  it('[UN6] a dash between bare millimetres is refused, for it could be a joint or a minus', () => {
    expect(refusal('12-4', 'metric')).toMatchObject({
      at: 2,
      message: expect.stringMatching(/between millimetres/),
    });
  });

  it('[UN7] refuses more than 1 km, and takes exactly 1 km', () => {
    expect(ticks('1000m')).toBe(320_000_000);
    expect(ticks('-1000m')).toBe(-320_000_000);
    expect(refusal('1000m + 0.004mm').message).toMatch(/1 km/);
    expect(refusal('9'.repeat(150)).message).toMatch(/1 km/);
    expect(refusal('9'.repeat(201))).toMatchObject({ at: 200, message: expect.stringMatching(/too long/) });
  });
});

describe('anything at all', () => {
  it('[UN4] seeded: never throws, never NaN, every refusal has a place inside the text and a sentence', () => {
    const alphabet = [...'0123456789\' "-−–+./⁄½⅜,ftinmcm′″x\t\u00a0\u{1f600}', '3/8', 'mm', 'ft'];
    const seed = 20_261;
    const next = random(seed);
    const counts = { read: 0, refused: 0 };
    const total = cases(200_000);
    for (let k = 0; k < total; k++) {
      let text = '';
      for (let n = Math.floor(next() * 12); n >= 0; n--)
        text += alphabet[Math.floor(next() * alphabet.length)];
      for (const units of ['imperial', 'metric'] as const) {
        const read = parseLength(text, units);
        if (read.ok) {
          counts.read++;
          expect(Number.isInteger(read.ticks), text).toBe(true);
          expect(/\d|[½⅜]/.test(text), text).toBe(true);
        } else {
          counts.refused++;
          expect(read.at >= 0 && read.at <= text.length, text).toBe(true);
          expect(read.message, text).toMatch(/^[^\n]+\.$/);
        }
      }
    }
    console.log(
      `parseLength fuzz: seed ${seed}, ${total} texts, ${counts.read} read, ${counts.refused} refused`,
    );
    expect(counts.read).toBeGreaterThan(total / 100);
  });

  it('[UN2, UN6] seeded: sums of fractions and decimals equal sums in whole 1/64 in and 0.1 mm', () => {
    const seed = 77;
    const next = random(seed);
    const total = cases(20_000);
    for (let k = 0; k < total; k++) {
      let text = '0';
      let expected = 0;
      for (let n = 1 + Math.floor(next() * 5); n > 0; n--) {
        const take = next() < 0.5;
        const whole = Math.floor(next() * 300);
        if (next() < 0.5) {
          const parts = Math.floor(next() * 64);
          text += `${take ? ' - ' : ' + '}${whole} ${parts}/64 in`;
          expected += (take ? -1 : 1) * (whole * 8128 + parts * 127);
        } else {
          const tenths = Math.floor(next() * 10);
          text += `${take ? ' − ' : '+'}${whole}.${tenths}mm`;
          expected += (take ? -1 : 1) * (whole * 320 + tenths * 32);
        }
      }
      expect(ticks(text), text).toBe(expected);
    }
    console.log(`parseLength sums: seed ${seed}, ${total} sums`);
    expect(TICKS_PER_FOOT).toBe(12 * 8128);
  });
});
