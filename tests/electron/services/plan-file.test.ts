// The text of a plan that is larger than the program reads: there is none, and a save says so and leaves the file.

import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../core/plan/index.ts';
import { planText } from '../../../electron/services/plan-file.ts';
import { roomy } from './helpers.ts';

describe('[PL7] a plan that could not be read again', () => {
  it('has no text where one of its records is too long', () => {
    expect(planText(roomy(250_000))).toEqual({
      ok: false,
      why: expect.stringMatching(/levels\[0\]\.rooms: 25\d{4} entries in one record are more than 250000$/),
    });
  }, 180_000);

  it('has no text where that would be larger than any file that is read', () => {
    const plan = roomy(112_000);
    const [first, ...others] = plan.levels;
    // Three bytes each.
    const name = '\u7a97'.repeat(200);
    const rooms = Object.fromEntries(
      Object.entries(first!.rooms).map(([id, room]) => [id, { ...room, name }]),
    );
    expect(planText({ ...plan, levels: [{ ...first!, rooms }, ...others] } as Plan)).toEqual({
      ok: false,
      why: 'it takes more than 64 MiB, the most that is read',
    });
  }, 180_000);
});
