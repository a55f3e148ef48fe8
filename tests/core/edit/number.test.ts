// Numbering: order, what stays, what is never given again.

import { expect, test } from 'vitest';
import { number, prepare, sameButCounter } from '../../../core/edit/index.ts';
import type { Plan } from '../../../core/plan/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { boxPlan, level, MM, planOf, prepared } from './helpers.ts';

function numbers(plan: Plan): Record<string, number | undefined> {
  return Object.fromEntries(Object.entries(level(plan).corners).map(([key, record]) => [key, record.number]));
}

test('[ED10] a plan without rooms or without walls comes back as the same object', () => {
  const empty = planOf({}, {});
  expect(number(empty)).toBe(empty);
  const one = planOf({ a: [0, 0], b: [5000, 0] }, { w1: 'a-b' });
  expect(number(one)).toBe(one);
});

test('[ED10] corners are numbered from the smallest, clockwise, once', () => {
  const plan = number(boxPlan());
  expect(numbers(plan)).toEqual({ 'n1:w4>w1': 1, 'n2:w1>w2': 2, 'n3:w2>w3': 3, 'n4:w3>w4': 4 });
  expect(plan.counters.corner).toBe(4);
  expect(number(plan)).toBe(plan);
});

test('[ED10] what has a number keeps it, with all that its record holds; the counter goes on', () => {
  const plan = boxPlan(4000, 3000, {
    corners: { 'n3:w2>w3': { number: 7, measured: 91.5 }, 'n1:w4>w1': { measured: 89 } },
  });
  const after = number(plan);
  expect(level(after).corners).toEqual({
    'n1:w4>w1': { measured: 89, number: 8 },
    'n2:w1>w2': { number: 9 },
    'n3:w2>w3': { number: 7, measured: 91.5 },
    'n4:w3>w4': { number: 10 },
  });
});

test('[ED10] a counter that is too low is raised, one that is high is kept', () => {
  const corners = { 'n1:w4>w1': { number: 1 }, 'n2:w1>w2': { number: 2 }, 'n3:w2>w3': { number: 3 } };
  const all = boxPlan(4000, 3000, { corners: { ...corners, 'n4:w3>w4': { number: 40 } } });
  expect(number(all).counters.corner).toBe(40);
  const high = { ...boxPlan(4000, 3000, { corners }), counters: { corner: 100 } };
  expect(numbers(number(high))['n4:w3>w4']).toBe(101);
});

test('[ED10] neither a void nor the outside is numbered; an island is, after its outer loop', () => {
  // A room of 6 by 6 m with a closed shaft of 0.4 m inside.
  const [r, a, b] = [6000 * MM, 2000 * MM, 2400 * MM];
  const plan = number(
    planOf(
      { n1: [0, 0], n2: [r, 0], n3: [r, r], n4: [0, r], m1: [a, a], m2: [b, a], m3: [b, b], m4: [a, b] },
      {
        w1: 'n1-n2',
        w2: 'n2-n3',
        w3: 'n3-n4',
        w4: 'n4-n1',
        v1: 'm1-m2',
        v2: 'm2-m3',
        v3: 'm3-m4',
        v4: 'm4-m1',
      },
    ),
  );
  expect(numbers(plan)).toEqual({
    'n1:w4>w1': 1,
    'n2:w1>w2': 2,
    'n3:w2>w3': 3,
    'n4:w3>w4': 4,
    'm1:v1>v4': 5,
    'm4:v4>v3': 6,
    'm3:v3>v2': 7,
    'm2:v2>v1': 8,
  });
});

test('[ED10] two rooms, then a second level: canonical order, and the walk shows the same numbers', () => {
  const d = 3000 * MM;
  const two = planOf(
    { a: [0, 0], b: [d, 0], c: [2 * d, 0], d: [2 * d, d], e: [d, d], f: [0, d] },
    { w1: 'a-b', w2: 'b-c', w3: 'c-d', w4: 'd-e', w5: 'e-f', w6: 'f-a', w7: 'b-e' },
  );
  const upper = { ...level(boxPlan()), id: 'L2' as never };
  const plan = number({ ...two, levels: [...two.levels, upper] });
  const seen = plan.levels.map((of) =>
    walkLevel(plan, of).rooms.map((room) =>
      room.loops.map((loop) => loop.corners.map((corner) => corner.number)),
    ),
  );
  expect(seen).toEqual([[[[1, 2, 3, 4]], [[5, 6, 7, 8]]], [[[9, 10, 11, 12]]]]);
});

test('[ED10] prepare mends, then numbers', () => {
  const plan = planOf(
    {
      n1: [0, 0],
      n2: [4000 * MM, 0],
      n3: [4000 * MM, 3000 * MM],
      n4: [0, 3000 * MM],
      p: [2000 * MM, 0],
      q: [2000 * MM, 3000 * MM],
    },
    { w1: 'n1-n2', w2: 'n2-n3', w3: 'n3-n4', w4: 'n4-n1', w5: 'p-q' },
  );
  const result = prepare(plan);
  expect(result.ok && result.notes.length).toBe(2);
  const after = prepared(plan);
  expect(after.counters.corner).toBe(8);
  expect(prepared(after)).toBe(after);
});

test('[ED11] sameButCounter looks past the counter, the order of keys and undefined fields, and at nothing else', () => {
  const plan = number(boxPlan());
  expect(sameButCounter(plan, { ...plan, counters: { corner: 99 } })).toBe(true);
  const turned = {
    ...plan,
    levels: [
      { ...level(plan), walls: Object.fromEntries(Object.entries(level(plan).walls).reverse()) as never },
    ],
  };
  expect(sameButCounter(plan, turned)).toBe(true);
  expect(sameButCounter(plan, { ...plan, title: 'Other' })).toBe(false);
  expect(sameButCounter(plan, { ...plan, builtYear: 1962 })).toBe(false);
  expect(sameButCounter({ ...plan, builtYear: 1962 }, plan)).toBe(false);
});
