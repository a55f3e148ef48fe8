// Faces that look at each other across a room [WK20]. An L-shaped room, by hand, in millimetres; walls 100 thick.

import { describe, expect, it } from 'vitest';
import { PlanSchema } from '../../../core/plan/schema.ts';
import { facingSegments, walkLevel } from '../../../core/walk/index.ts';
import { cases, random } from '../../seeds.ts';
import { randomLevel } from '../graph/random-levels.ts';

const MM = 320;
const L_ROOM = {
  n1: [0, 0],
  n2: [6000, 0],
  n3: [6000, 2000],
  n4: [3000, 2000],
  n5: [3000, 5000],
  n6: [0, 5000],
};

function room() {
  const ids = Object.keys(L_ROOM);
  const walls = Object.fromEntries(
    ids.map((from, i) => [`w${i + 1}`, { from, to: ids[(i + 1) % ids.length]!, thickness: 100 }]),
  );
  const plan = PlanSchema.parse({
    format: 'copewright-plan',
    version: 1,
    title: 'L',
    units: 'metric',
    levels: [{ id: 'L1', name: 'One', ceilingHeight: 2400, nodes: L_ROOM, walls }],
  });
  return walkLevel(plan, plan.levels[0]!).rooms[0]!;
}

const told = (of: string): string[] => {
  const it = room();
  const segment = it.loops[0]!.segments.find(({ parts }) => parts[0]?.wall === of)!;
  return facingSegments(it, segment).map(
    ({ segment: other, distance }) => `${other.parts[0]!.wall} ${distance / MM}`,
  );
};

describe('[WK20] faces that look at each other', () => {
  it('looks at both arms of an L, the nearer first, face to face', () => {
    expect(told('w1')).toEqual(['w3 1900', 'w5 4900']);
    expect(told('w6')).toEqual(['w4 2900', 'w2 5900']);
  });

  it('does not look at a wall that stands beside, or that looks the same way', () => {
    expect(told('w3')).toEqual(['w1 1900']);
    expect(told('w2')).toEqual(['w6 5900']);
  });

  it('is mutual, at the same distance', () => {
    const seed = 2020;
    const next = random(seed);
    for (let i = 0; i < cases(40); i += 1) {
      const { level } = randomLevel(next, {
        thicknesses: [100, 150],
        jitter: 0,
        turnDeg: next() * 360,
        shift: [0, 0],
        furnished: 0.2,
      });
      const plan = PlanSchema.parse({
        format: 'copewright-plan',
        version: 1,
        title: 'T',
        units: 'metric',
        levels: [],
      });
      for (const each of walkLevel(plan, level).rooms)
        for (const segment of each.loops.flatMap((loop) => loop.segments))
          for (const { segment: other, distance } of facingSegments(each, segment)) {
            const back = facingSegments(each, other).find((found) => found.segment === segment);
            expect(back, `seed ${seed} case ${i} ${segment.key} ${other.key}`).toBeDefined();
            expect(Math.abs(back!.distance - distance)).toBeLessThan(distance * 2e-3 + 4);
          }
    }
  });
});
