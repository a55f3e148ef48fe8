// Several walls taken away as one edit.

import { expect, test } from 'vitest';
import { apply, type Edit, describe as words } from '../../../core/edit/index.ts';
import { boxPlan, checkEdit, MM, prepared } from './helpers.ts';

const edit = (more: object) => ({ level: 'L1', type: 'deleteWall', ...more }) as Edit;

test('[ED9] walls are deleted together, with what stands on them and nodes that carry no other', () => {
  const opening = { wall: 'w2', at: 500 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' };
  const plan = prepared(boxPlan(4000, 3000, { openings: { o1: opening } }));
  checkEdit(plan, edit({ wall: 'w1', also: ['w2', 'w1'] }), (after) => {
    expect(Object.keys(after.levels[0]!.walls)).toEqual(['w3', 'w4']);
    expect(Object.keys(after.levels[0]!.nodes)).toEqual(['n1', 'n3', 'n4']);
    expect(after.levels[0]!.openings).toEqual({});
  });
  checkEdit(plan, edit({ wall: 'w1', also: ['w2', 'w3', 'w4'] }), (after) => {
    expect(after.levels[0]!.nodes).toEqual({});
  });
  expect(words(edit({ wall: 'w1', also: ['w2'] }), plan)).toBe('delete walls');
});

test('[ED9] where one of them is not there, none is deleted', () => {
  const done = apply(prepared(boxPlan()), edit({ wall: 'w1', also: ['w9'] }));
  expect(done).toMatchObject({ ok: false, code: 'no-wall' });
});
