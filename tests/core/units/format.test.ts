import { describe, expect, it } from 'vitest';
import {
  formatAngle,
  formatArea,
  formatLength,
  formatSaw,
  type LengthStyle,
  parseAngle,
  parseLength,
} from '../../../core/units/index.ts';
import { cases, random } from '../../seeds.ts';

const inch = (inches: number) => inches * 8128;
const feet: LengthStyle = { units: 'imperial' };
const inches: LengthStyle = { units: 'imperial', style: 'inches' };

describe('lengths as printed', () => {
  it.each([
    [0, `0"`, `0"`],
    [3 / 8, `3⁄8"`, `3⁄8"`],
    [4, `4"`, `4"`],
    [4.375, `4 3⁄8"`, `4 3⁄8"`],
    [12, `1' 0"`, `12"`],
    [12.5, `1' 0 1⁄2"`, `12 1⁄2"`],
    [148.375, `12' 4 3⁄8"`, `148 3⁄8"`],
    [-148.375, `−12' 4 3⁄8"`, `−148 3⁄8"`],
    [11.99, `1' 0"`, `12"`],
    [1 / 32, `1⁄16"`, `1⁄16"`],
    [-1 / 32, `−1⁄16"`, `−1⁄16"`],
    [1 / 64, `0"`, `0"`],
    [-1 / 64, `0"`, `0"`],
    [3 / 32, `1⁄8"`, `1⁄8"`],
  ])('[UN9] %s in is %s, in inches %s', (value, inFeet, inInches) => {
    expect(formatLength(inch(value), feet)).toBe(inFeet);
    expect(formatLength(inch(value), inches)).toBe(inInches);
  });

  it('[UN9] ties go to the longer also where a derived length carries the noise of doubles', () => {
    expect(formatLength(inch(1 / 32) - 1e-9, feet)).toBe(`1⁄16"`);
    expect(formatLength(inch(1 / 32) - 1, feet)).toBe('0"');
    expect(formatLength(0.1 * 3 * 1600, { units: 'metric', roundMm: 0.1 })).toBe('1.5 mm');
  });

  it('[UN9] other roundings', () => {
    expect(formatLength(inch(4 + 21 / 64), { units: 'imperial', roundIn: 64 })).toBe(`4 21⁄64"`);
    expect(formatLength(inch(4 + 21 / 64), { units: 'imperial', roundIn: 8 })).toBe(`4 3⁄8"`);
    expect(formatLength(3760 * 320, { units: 'metric' })).toBe('3760 mm');
    expect(formatLength(3760.5 * 320, { units: 'metric' })).toBe('3761 mm');
    expect(formatLength(-3760.5 * 320, { units: 'metric' })).toBe('−3761 mm');
    expect(formatLength(3760.5 * 320, { units: 'metric', roundMm: 0.5 })).toBe('3760.5 mm');
    expect(formatLength(3760.25 * 320, { units: 'metric', roundMm: 0.1 })).toBe('3760.3 mm');
    expect(formatLength(0.2 * 320, { units: 'metric' })).toBe('0 mm');
    expect(formatLength(-0.2 * 320, { units: 'metric' })).toBe('0 mm');
  });

  it('throws on what is no length or no rounding', () => {
    expect(() => formatLength(Number.NaN, feet)).toThrow(/NaN/);
    expect(() => formatLength(Number.POSITIVE_INFINITY, feet)).toThrow(/Infinity/);
    expect(() => formatLength(1, { units: 'imperial', roundIn: 0 })).toThrow(/roundIn 0/);
    expect(() => formatLength(1, { units: 'metric', roundMm: 0 })).toThrow(/roundMm 0/);
  });

  it('[UN9] seeded: what is printed reads back as the nearest step, and never shorter on a tie', () => {
    const seed = 1959;
    const next = random(seed);
    const total = cases(50_000);
    let ties = 0;
    for (let k = 0; k < total; k++) {
      const roundIn = [8, 16, 32, 64][k % 4]!;
      const roundMm = [0.1, 0.5, 1][k % 3]!;
      const step = 8128 / roundIn;
      let ticks = Math.round((next() - 0.5) * 10 ** (2 + next() * 6.5));
      if (k % 5 === 0) ticks = Math.round(ticks / step) * step + step / 2;
      for (const [opts, unit] of [
        [{ units: 'imperial', roundIn, style: 'feet' }, step],
        [{ units: 'imperial', roundIn, style: 'inches' }, step],
        [{ units: 'metric', roundMm }, roundMm * 320],
      ] as const) {
        const text = formatLength(ticks, opts);
        const read = parseLength(text, opts.units);
        if (!read.ok) throw new Error(`${text}: ${read.message}`);
        const off = Math.abs(read.ticks - ticks);
        if (off === unit / 2) {
          ties++;
          expect(Math.abs(read.ticks), `${ticks} as ${text}`).toBeGreaterThan(Math.abs(ticks));
        }
        expect(off, `${ticks} as ${text}`).toBeLessThanOrEqual(unit / 2);
        // Printed without marks of the other system, and read the same in either plan.
        expect(parseLength(text, opts.units === 'metric' ? 'imperial' : 'metric')).toEqual(read);
      }
    }
    console.log(`formatLength round trip: seed ${seed}, ${total} lengths, ${ties} ties`);
    expect(ties).toBeGreaterThan(total / 10);
  });
});

describe('angles and areas as printed', () => {
  it.each([
    [0, '0°'],
    [45, '45°'],
    [44.25, '44¼°'],
    [45.75, '45¾°'],
    [22.5, '22½°'],
    [0.75, '¾°'],
    [0.1, '0°'],
    [-0.1, '0°'],
    [44.125, '44¼°'],
    [44.124, '44°'],
    [-44.5, '−44½°'],
    [25.714285714285715, '25¾°'],
  ])('[UN10] the saw set to %s prints %s', (deg, text) => {
    expect(formatSaw(deg)).toBe(text);
    expect(parseAngle(text).ok).toBe(true);
  });

  it.each([
    [90, '90°'],
    [91.5, '91.5°'],
    [91.45, '91.5°'],
    [91.44, '91.4°'],
    [0.04, '0°'],
    [-1.25, '−1.3°'],
    [128.571, '128.6°'],
  ])('[UN10] the angle %s prints %s', (deg, text) => {
    expect(formatAngle(deg)).toBe(text);
  });

  it('[UN11] areas: 1 ft is 0.3048 m exactly (NIST Handbook 44, appendix C), so 100 sq ft is 9.29 m²', () => {
    const hundred = 100 * (12 * 8128) ** 2;
    expect(formatArea(hundred, 'imperial')).toBe('100.0 sq ft');
    expect(formatArea(hundred, 'metric')).toBe('9.29 m²');
    expect(formatArea(12.345 * 320_000 ** 2, 'metric')).toBe('12.35 m²');
    expect(formatArea(-0.0001, 'metric')).toBe('0.00 m²');
    expect(() => formatArea(Number.NaN, 'metric')).toThrow(/NaN/);
    expect(() => formatSaw(Number.NaN)).toThrow(/NaN/);
    expect(() => formatAngle(Number.NaN)).toThrow(/NaN/);
  });
});
