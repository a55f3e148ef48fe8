// Two hundred broken plan files, seeded: each is refused with one sentence that holds a place.

import { describe, expect, it } from 'vitest';
import { readPlanBytes } from '../../../core/plan/index.ts';
import { random } from '../../seeds.ts';
import { BROKEN_KINDS, utf8 } from './broken-plans.ts';
import { exampleText } from './example.ts';

describe('broken plan files', () => {
  it('[PL1–PL6] two hundred seeded ones are each refused with one sentence and a place; none throws', () => {
    const seed = 4_217;
    const next = random(seed);
    const names = Object.keys(BROKEN_KINDS);
    const counts: Record<string, number> = {};
    const total = 200;
    for (let k = 0; k < total; k++) {
      const kind = names[k % names.length]!;
      const bytes = BROKEN_KINDS[kind]!(next);
      const answer = readPlanBytes(bytes);
      const label = `${kind}, case ${k}`;
      expect(answer.ok, label).toBe(false);
      if (answer.ok) continue;
      const { message, path, line, column } = answer.error;
      counts[kind] = (counts[kind] ?? 0) + 1;
      expect(message, label).toMatch(/^[^\n\r\u2028\u2029]+[^.]\.$/u);
      expect(message.length, label).toBeLessThan(400);
      expect(message, label).not.toMatch(/undefined|\[object|Error|Invalid input|Expected/);
      expect(message, label).toContain(`${line}:${column}`);
      if (path !== null) expect(message.startsWith(path), label).toBe(true);
    }
    console.log(`broken plans: seed ${seed}, ${total} files of ${names.length} kinds`, counts);
    expect(Object.keys(counts)).toHaveLength(names.length);
  });

  it('[PL2] the example cut at every single byte is refused, except where only its last line end is missing', () => {
    const bytes = utf8(`${exampleText()}\n`);
    for (let length = 0; length < bytes.length; length++) {
      expect(readPlanBytes(bytes.subarray(0, length)).ok, `${length} of ${bytes.length}`).toBe(
        length >= bytes.length - 1,
      );
    }
  });
});
