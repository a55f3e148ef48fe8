// Plans whose walls meet in more places than a house has: refused with a sentence before much work is done, while what an
// import may bring is mended. Work is counted by what is looked at and found, never by the clock.

import { describe, expect, it } from 'vitest';
import { prepare } from '../../../core/edit/index.ts';
import { mostEffort } from '../../../core/edit/limits.ts';
import { readPlan } from '../../../core/plan/index.ts';
import type { Plan } from '../../../core/plan/schema.ts';
import { crossing, levelOf, overlapping, planOf } from '../../fixtures/tangles.ts';

function read(text: string): Plan {
  const plan = readPlan(text);
  if (!plan.ok) throw new Error(plan.error.message);
  return plan.plan;
}

describe('a tangle of walls', () => {
  it.each([
    ['400 walls that all cross', planOf(crossing(400))],
    ['4,000 walls that all cross', planOf(crossing(4_000))],
    ['4,000 walls over each other that never meet', planOf(overlapping(4_000))],
    ['100 levels of 40 walls that all cross', planOf(...Array.from({ length: 100 }, () => crossing(40)))],
  ])('[ED1] %s: refused with a sentence and the place', (_, text) => {
    const prepared = prepare(read(text));
    expect(prepared).toMatchObject({
      ok: false,
      message: expect.stringMatching(/^Level L\d+ is too tangled to be mended: .*\.$/),
      path: expect.stringMatching(/^levels\[\d+\]$/),
    });
  });

  it('[ED1] long walls drawn through each other, as an import brings them, are mended', () => {
    // 60 by 60, turned so that their boxes lie over each other.
    const nodes: Record<string, [number, number]> = {};
    const walls: Record<string, object> = {};
    for (let i = 0; i < 60; i += 1) {
      const at = i * 1000;
      nodes[`a${i}`] = [at, -at];
      nodes[`b${i}`] = [at + 60_000, 60_000 - at];
      nodes[`c${i}`] = [at - 500, at + 500];
      nodes[`d${i}`] = [at + 59_500, at - 59_500];
      walls[`h${i}`] = { from: `a${i}`, to: `b${i}`, thickness: 100 };
      walls[`v${i}`] = { from: `c${i}`, to: `d${i}`, thickness: 100 };
    }
    const prepared = prepare(read(planOf(levelOf(nodes, walls))));
    expect(
      prepared.ok ? Object.keys(prepared.plan.levels[0]!.walls).length : prepared.message,
    ).toBeGreaterThan(3_000);
  });

  it('[ED1] no more is looked at than the limit says, whatever the walls', () => {
    expect(mostEffort(0)).toEqual({ meets: 5_000, pairs: 500_000 });
    expect(mostEffort(10_000)).toEqual({ meets: 25_000, pairs: 800_000 });
  });
});
