// File names made from titles.

import { describe, expect, test } from 'vitest';
import { ENDING, stemFor } from '../../../renderer/panels/files/names.ts';

describe('a name for a file', () => {
  test.each([
    ['Larkspur House', 'Larkspur House'],
    ['  Two   blanks ', 'Two blanks'],
    ['a/b\\c:d*e?f"g<h>i|j', 'a b c d e f g h i j'],
    ['../../outside', 'outside'],
    ['...', 'plan'],
    ['', 'plan'],
    ['line\nbreak\u0000', 'line break'],
    ['turned \u202egnp', 'turned gnp'],
    ['x'.repeat(300), 'x'.repeat(80)],
  ])('%j becomes %j', (title, stem) => {
    expect(stemFor(title)).toBe(stem);
  });

  test('cut short it does not end with a blank or a dot, which some systems drop', () => {
    expect(stemFor(`${'x'.repeat(79)}. more`)).toBe('x'.repeat(79));
  });

  test('the ending is that of a plan', () => {
    expect(ENDING).toBe('.copewright.json');
  });
});
