// What the writer counts is what the reader refuses: at each limit, and one past it.

import { describe, expect, it } from 'vitest';
import { MAX_WALLS } from '../../../core/plan/index.ts';
import { beyondReading } from '../../../core/plan/limits.ts';
import { MAX_ENTRIES, MAX_VALUES, scanJson } from '../../../core/plan/scan.ts';

const list = (length: number): unknown[] => Array.from({ length }, () => 0);
const record = (length: number, value: unknown): Record<string, unknown> =>
  Object.fromEntries(Array.from({ length }, (_, k) => [`k${k}`, value]));
/** Lists in a record, so many values with all. */
function valued(count: number): Record<string, unknown> {
  const lists = Math.floor((count - 1) / 1000);
  const rest = record(count - 1 - lists * 1000, 0);
  return { ...Object.fromEntries(Array.from({ length: lists }, (_, k) => [`l${k}`, list(999)])), ...rest };
}

describe('[PL7] what is written can be read again', () => {
  it.each([
    ['a list', (n: number) => ({ in: [list(n)] }), MAX_ENTRIES.list, 'in[0]: 10001 entries in one list'],
    [
      'a record',
      (n: number) => ({ in: record(n, 0) }),
      MAX_ENTRIES.record,
      'in: 250001 entries in one record',
    ],
    ['the whole file', valued, MAX_VALUES, 'more than 2000000 values'],
  ])('%s may have as much as the reader takes, and no more', (_what, make, most, words) => {
    for (const [count, fits] of [
      [most, true],
      [most + 1, false],
    ] as const) {
      const document = make(count);
      expect(scanJson(JSON.stringify(document)) === null).toBe(fits);
      const beyond = beyondReading(document);
      if (fits) expect(beyond).toBeNull();
      else expect(beyond).toContain(words);
    }
  });

  it('a level may have so many walls; what is left out of a file does not count', () => {
    const plan = (walls: object) => ({ levels: [{ walls: {} }, { walls }] });
    expect(beyondReading(plan({ ...record(MAX_WALLS, 1), absent: undefined }))).toBeNull();
    expect(beyondReading(plan(record(MAX_WALLS + 1, 1)))).toBe(
      'levels[1].walls: 100001 walls on one level are more than 100000',
    );
  });
});
