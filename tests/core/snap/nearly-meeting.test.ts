// Walls that nearly meet: each offer is taken, and then the gap is gone.

import { expect, test } from 'vitest';
import { apply } from '../../../core/edit/index.ts';
import { type Plan, settingsOf } from '../../../core/plan/index.ts';
import { nearlyMeeting } from '../../../core/snap/index.ts';
import { cases, random } from '../../seeds.ts';
import { checkEdit, level, MM, planOf, prepared } from '../edit/helpers.ts';

const offers = (plan: Plan) => nearlyMeeting(level(plan), settingsOf(plan));
const mm = (nodes: Record<string, [number, number]>, walls: Record<string, string>) =>
  prepared(
    planOf(Object.fromEntries(Object.entries(nodes).map(([id, [x, y]]) => [id, [x * MM, y * MM]])), walls),
  );

test('[SN12] nothing is offered where nothing nearly meets', () => {
  expect(offers(mm({}, {}))).toEqual([]);
  expect(
    offers(mm({ a: [0, 0], b: [1000, 0], c: [1700, 0], d: [3000, 0] }, { w1: 'a-b', w2: 'c-d' })),
  ).toEqual([]);
});

test('[SN12] an end before a wall is carried on to it', () => {
  const plan = mm({ a: [0, 0], b: [3000, 0], c: [1000, 200], d: [1100, 3000] }, { w1: 'a-b', w2: 'c-d' });
  const [offer, ...more] = offers(plan);
  expect(more).toEqual([]);
  expect(offer).toMatchObject({ walls: ['w2', 'w1'], gap: 150 * MM, words: 'carry wall w2 on to wall w1' });
  checkEdit(plan, offer!.edit, (after) => {
    expect(Object.keys(level(after).walls)).toHaveLength(3);
    expect(level(after).nodes).toMatchObject({ c: [317714, 0] });
    expect(offers(after)).toEqual([]);
  });
});

test('[SN12] two ends beside a corner are carried on to it', () => {
  const plan = mm({ a: [0, 0], b: [2900, 0], c: [3000, 150], d: [3000, 3000] }, { w1: 'a-b', w2: 'c-d' });
  const [offer] = offers(plan);
  expect(offer!.words).toBe('carry walls w1 and w2 on to their corner');
  checkEdit(plan, offer!.edit, (after) => {
    expect(Object.values(level(after).nodes)).toContainEqual([3000 * MM, 0]);
    expect(Object.keys(level(after).nodes)).toHaveLength(3);
    expect(offers(after)).toEqual([]);
  });
});

test('[SN12] a gap in a straight wall is closed by a piece of wall', () => {
  const plan = mm({ a: [0, 0], b: [1000, 0], c: [1200, 0], d: [3000, 0] }, { w1: 'a-b', w2: 'c-d' });
  const [offer] = offers(plan);
  expect(offer!.words).toBe('close the gap between walls w1 and w2');
  checkEdit(plan, offer!.edit, (after) => {
    expect(level(after).walls).toMatchObject({ w3: { from: 'b', to: 'c' } });
    expect(offers(after)).toEqual([]);
  });
});

test('[SN12] on random pairs of walls every offer can be taken and closes its gap', () => {
  const runs = cases(3000);
  const kinds: Record<string, number> = {};
  for (let seed = 1; seed <= runs; seed++) {
    const next = random(seed);
    const at = (): [number, number] => [Math.floor(next() * 2500), Math.floor(next() * 1500)];
    const plan = mm({ a: at(), b: at(), c: at(), d: at() }, { w1: 'a-b', w2: 'c-d' });
    for (const offer of offers(plan)) {
      const done = apply(plan, offer.edit);
      if (!done.ok) throw new Error(`seed ${seed}: ${done.message}`);
      const kind = offer.words.replace(/ w\d/g, '');
      kinds[kind] = (kinds[kind] ?? 0) + 1;
      const same = offers(done.plan).filter(({ at: place }) => place.join() === offer.at.join());
      expect(same, `seed ${seed}: ${offer.words}`).toEqual([]);
    }
  }
  console.log(`nearly meeting: seeds 1 to ${runs}`, kinds);
  expect(Object.keys(kinds)).toHaveLength(3);
});
