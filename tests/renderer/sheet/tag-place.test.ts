// Where the words beside a caught place stand: on no figure, and on the sheet.

import { describe, expect, test } from 'vitest';
import { tagBeside } from '../../../renderer/sheet/tag-place.ts';

const sheet = { width: 600, height: 400 };
const wide = 120;

describe('words beside a caught place', () => {
  test('stand right below it, and elsewhere where they would cover a figure', () => {
    expect(tagBeside([300, 200], wide, [], sheet)).toEqual([312, 218]);
    expect(tagBeside([300, 200], wide, [[310, 210, 360, 226]], sheet)).toEqual([312, 182]);
  });

  test('run out of the sheet at no edge', () => {
    for (const at of [
      [590, 200],
      [590, 395],
      [300, 395],
      [5, 5],
      [5, 395],
      [595, 5],
    ] as const) {
      const [left, middle] = tagBeside(at, wide, [], sheet);
      expect(left, `${at}`).toBeGreaterThanOrEqual(0);
      expect(left + wide, `${at}`).toBeLessThanOrEqual(sheet.width);
      expect(middle, `${at}`).toBeGreaterThan(9);
      expect(middle, `${at}`).toBeLessThan(sheet.height - 9);
    }
  });

  test('cover a figure rather than run out of the sheet', () => {
    const [left] = tagBeside([590, 200], wide, [[400, 0, 600, 400]], sheet);
    expect(left + wide).toBeLessThanOrEqual(sheet.width);
  });
});
