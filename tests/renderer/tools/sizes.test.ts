// What an opening starts with.

import { expect, test } from 'vitest';
import { usualReveal } from '../../../renderer/tools/sizes.ts';

test('a casing is set back 3/16 in from the jamb (NAVEDTRA 14044, fig. 6-26), 5 mm in metric; a passage has none', () => {
  expect(usualReveal('door', 'imperial')).toBe((8128 * 3) / 16);
  expect(usualReveal('window', 'metric')).toBe(5 * 320);
  expect(usualReveal('passage', 'imperial')).toBeNull();
});
