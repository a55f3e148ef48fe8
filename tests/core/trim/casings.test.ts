// Casing sets: heads, legs and sills, worked by hand. Lengths in mm. Common practice, no published source.

import { expect, test } from 'vitest';
import { casingsOf } from '../../../core/trim/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { door, type Fields, housePlan, RECTANGLE } from './houses.ts';

function sets(openings: Fields, room: Fields = {}) {
  const plan = housePlan(RECTANGLE, { openings, room });
  return casingsOf(plan, walkLevel(plan, plan.levels[0]!)).map((set) => ({
    ...set,
    parts: Object.fromEntries(set.parts.map(({ part, short, long }) => [part, [short / 320, long / 320]])),
  }));
}

test('[CS1, CS2] a door: head over two reveals, legs down to the new floor', () => {
  // Opening 800 × 2032, reveal 5, casing 69.85. Head 810, 810 + 139.7 = 949.7. New floor 12.7:
  // leg 2032 − 12.7 + 5 = 2024.3, + 69.85 = 2094.15. Outdoors the floor is not known: 2037, 2106.85, marked.
  const [left, right] = sets({ o1: door(1, 1000) }, { new: { floor: 12.7 } });
  expect(right).toMatchObject({
    id: 'o1.right',
    room: 'r1',
    profileId: 'case',
    assumedFloor: false,
    parts: { head: [810, 949.7], legLeft: [2024.3, 2094.15], legRight: [2024.3, 2094.15] },
  });
  expect(left).toMatchObject({
    id: 'o1.left',
    room: null,
    assumedFloor: true,
    parts: { legLeft: [2037, 2106.85] },
  });
});

test('[CS2] legs stand on plinths', () => {
  // 2032 − 12.7 − 180 + 5 = 1844.3.
  const plinth = { width: 90, thickness: 22, height: 180 };
  const [, right] = sets({ o1: door(1, 1000, { plinth }) }, { new: { floor: 12.7 } });
  expect(right!.parts.legLeft).toEqual([1844.3, 1914.15]);
});

test('[CS3] a window: four sides, and the floor does not matter', () => {
  // 1000 × 1200: head and sill 1010, 1149.7; legs 1210, 1349.7.
  const window = door(1, 1000, { kind: 'window', width: 1000, height: 1200, sill: 900 });
  const [, right] = sets({ o1: window });
  expect(right).toMatchObject({
    assumedFloor: false,
    parts: { head: [1010, 1149.7], legLeft: [1210, 1349.7], legRight: [1210, 1349.7], sill: [1010, 1149.7] },
  });
});

test('[CS4] no set where there is no casing, none is known, or nothing but a passage', () => {
  expect(sets({ o1: door(1, 1000, { casing: { left: null } }) })).toEqual([]);
  expect(sets({ o1: door(1, 1000, { casing: null }) })).toEqual([]);
  expect(sets({ o1: door(1, 1000, { kind: 'passage' }) })).toEqual([]);
  expect(sets({ o1: door(1, 1000, { casing: { right: 'case' } }) }).map((set) => set.id)).toEqual([
    'o1.right',
  ]);
});
