// Words and figures as printed: worked by hand, 25.4 mm to the inch.

import { describe, expect, test } from 'vitest';
import {
  endWords,
  figuresOf,
  nameOr,
  type PlaceNames,
  primes,
  printable,
  type ReportEnd,
} from '../../../core/sheets/words.ts';
import { cottage } from '../../fixtures/cottage.ts';

const imperial = figuresOf(cottage());
const metric = figuresOf(cottage((file) => ({ ...file, units: 'metric' })));
const names: PlaceNames = { opening: (id) => `door ${id}`, builtIn: (id) => `hearth ${id}` };

describe('figures', () => {
  test('[SH24] a cut length is in inches throughout, a wall in feet and inches: 148 3/8 in is 3768.725 mm', () => {
    expect(imperial.cut(3768.725)).toBe('148 3⁄8″');
    expect(imperial.length(3768.725)).toBe('12′ 4 3⁄8″');
  });

  test('small lengths go to 1/64 in: 0.79375 mm is 1/32, 0.396875 mm is 1/64', () => {
    expect(imperial.fine(0.79375)).toBe('1⁄32″');
    expect(imperial.fine(0.396875)).toBe('1⁄64″');
  });

  test('metric lengths are millimetres, small ones to a tenth', () => {
    expect(metric.cut(3768.725)).toBe('3769 mm');
    expect(metric.length(3768.725)).toBe('3769 mm');
    expect(metric.fine(0.79375)).toBe('0.8 mm');
  });

  test('saw settings go to a quarter of a degree, corner angles to a tenth', () => {
    expect(imperial.saw(44.25)).toBe('44¼°');
    expect(imperial.angle(91.5)).toBe('91.5°');
  });
});

describe('ends in words', () => {
  const end = (more: Partial<ReportEnd>): ReportEnd => ({
    end: 'square',
    at: { corner: 7 },
    sawDeg: 0,
    longPoint: null,
    lap: null,
    ...more,
  });

  test('a square end needs no setting; every other says the setting and the long point', () => {
    expect(endWords(names, imperial, end({}))).toEqual({ what: 'square, to corner 7', saw: '', long: '' });
    expect(endWords(names, imperial, end({ end: 'cope', sawDeg: 44.25, longPoint: 'back' }))).toEqual({
      what: 'cope, corner 7',
      saw: 'saw 44¼°',
      long: 'long at back',
    });
    expect(endWords(names, imperial, end({ at: { opening: 'o1' } }))).toEqual({
      what: 'square, door o1',
      saw: '',
      long: '',
    });
    expect(endWords(names, imperial, end({ end: 'scribe', at: { builtIn: 'b2' } }))).toEqual({
      what: 'scribe, hearth b2',
      saw: '',
      long: '',
    });
  });

  test('a scarf says which piece laps', () => {
    const scarf = { end: 'scarf', at: { piece: '3B' }, sawDeg: 30 } as const;
    expect(endWords(names, imperial, end({ ...scarf, lap: 'under', longPoint: 'back' })).what).toBe(
      'scarf, lies under 3B',
    );
    expect(endWords(names, imperial, end({ ...scarf, lap: 'laps', longPoint: 'face' })).what).toBe(
      'scarf, laps over 3B',
    );
  });
});

describe('names', () => {
  test('[SH29] control characters, line breaks and direction marks become spaces; the rest stands as written', () => {
    expect(printable('Bath\u0000 \n(up)\u202e\t№ 2')).toBe('Bath (up) № 2');
    expect(nameOr('\u0007 ', 'Room 3')).toBe('Room 3');
    expect(nameOr('constructor', 'Room 3')).toBe('constructor');
  });

  test('feet and inch marks after figures become primes, apostrophes stay', () => {
    expect(primes(`Children's room: 5 1⁄2" and 12' 4"`)).toBe("Children's room: 5 1⁄2″ and 12′ 4″");
  });
});
