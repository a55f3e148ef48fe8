// Edits: each through the one checker. Refusals and degenerate cases first, then numbers, faces, rooms and undo.

import { expect, test } from 'vitest';
import { apply, type Edit, sameButCounter } from '../../../core/edit/index.ts';
import { type Plan, readPlan, writePlan } from '../../../core/plan/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { boxPlan, checkEdit, level, MM, planOf, prepared } from './helpers.ts';

const box = (more = {}): Plan => prepared(boxPlan(4000, 3000, more));
const edit = (value: Record<string, unknown>) => ({ level: 'L1', ...value }) as unknown as Edit;
const addWall = (wall: string, from: unknown, to: unknown, thickness = 100 * MM) =>
  edit({ type: 'addWall', wall, from, to, thickness });
const node = (id: string, x: number, y: number) => ({ id, at: [x * MM, y * MM] });
const corners = (plan: Plan) =>
  Object.fromEntries(Object.entries(level(plan).corners).map(([key, { number }]) => [key, number]));
const faces = (plan: Plan) => level(plan).faces as unknown as Record<string, unknown>;
const code = (plan: Plan, value: Edit) => {
  const result = apply(plan, value);
  return result.ok ? 'done' : result.code;
};
const door = { width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' } as const;

test('[ED8] an edit that cannot be done says why and gives no plan', () => {
  const plan = box();
  expect(code(plan, { ...addWall('w9', 'n1', 'n3'), level: 'L7' } as unknown as Edit)).toBe('no-level');
  expect(code(plan, addWall('w1', 'n1', 'n3'))).toBe('id-taken');
  expect(code(plan, addWall('9w', 'n1', 'n3'))).toBe('bad-id');
  expect(code(plan, addWall('__proto__', 'n1', 'n3'))).toBe('bad-id');
  expect(code(plan, addWall('w9', 'n1', 'x'))).toBe('no-node');
  expect(code(plan, addWall('w9', 'n1', 'n1'))).toBe('no-length');
  expect(code(plan, addWall('w9', 'n1', { id: 'n9', at: [0.2, -0.3] }))).toBe('no-length');
  expect(code(plan, addWall('w9', node('a', 1, 1), node('a', 2, 2)))).toBe('no-length');
  expect(code(plan, addWall('w9', node('a', 1, 1), node('b', 1, 1)))).toBe('no-length');
  expect(code(plan, addWall('w9', node('n1', 1, 1), 'n3'))).toBe('id-taken');
  expect(code(plan, addWall('w9', node('a', 1_000_001, 0), 'n3'))).toBe('bad-number');
  expect(code(plan, addWall('w9', node('a', Number.NaN, 0), 'n3'))).toBe('bad-number');
  expect(code(plan, addWall('w9', 'n1', 'n3', 0))).toBe('bad-number');
  expect(code(plan, addWall('w9', 'n1', 'n3', 11_000 * MM))).toBe('bad-plan');
  expect(code(plan, edit({ type: 'moveNode', node: 'x', to: [0, 0] }))).toBe('no-node');
  expect(code(plan, edit({ type: 'moveNode', node: 'n1', to: [Number.POSITIVE_INFINITY, 0] }))).toBe(
    'bad-number',
  );
  expect(code(plan, edit({ type: 'moveWall', wall: 'x', by: [0, 0] }))).toBe('no-wall');
  expect(code(plan, edit({ type: 'deleteWall', wall: 'toString' }))).toBe('no-wall');
  for (const at of [0, -5, 4000 * MM, 0.2, Number.NaN]) {
    expect(code(plan, edit({ type: 'splitWall', wall: 'w1', at, node: 'a', newWall: 'b' }))).toBe('off-wall');
  }
  expect(code(plan, edit({ type: 'joinWalls', node: 'n1' }))).toBe('not-in-line');
  expect(code(plan, edit({ type: 'joinWalls', node: 'x' }))).toBe('no-node');
  expect(code(plan, { type: 'patch', patches: [{ op: 'remove', path: ['levels', 0, 'walls', 'x'] }] })).toBe(
    'bad-patch',
  );
  expect(code(plan, { type: 'patch', patches: [{ op: 'remove', path: ['levels', 0, 'nodes', 'n1'] }] })).toBe(
    'bad-plan',
  );
  expect(code(plan, { type: 'patch', patches: [{ op: 'replace', path: [], value: 7 }] })).toBe('bad-plan');
  expect(code(plan, { type: 'patch', patches: [{ op: 'add', path: ['__proto__', 'x'], value: 7 }] })).toBe(
    'bad-patch',
  );
  const wide = {
    type: 'patch',
    patches: [{ op: 'replace', path: ['levels', 0, 'walls', 'w1', 'thickness'], value: 1.5 }],
  };
  expect(code(plan, wide as Edit)).toBe('bad-plan');
});

test('[ED8] an edit that changes nothing gives the same plan object and empty patches', () => {
  const plan = box();
  const done = checkEdit(plan, edit({ type: 'moveNode', node: 'n1', to: [0, 0] }));
  expect(done.plan).toBe(plan);
  expect(done.inverse.patches).toEqual([]);
  expect(checkEdit(plan, { type: 'patch', patches: [] }).plan).toBe(plan);
});

test('[ED4] a wall across others splits them; old corners keep their numbers, new ones go on', () => {
  checkEdit(box(), addWall('w9', node('p', 2000, -500), node('q', 2000, 3500)), (after, done) => {
    expect(Object.keys(level(after).walls).sort()).toEqual([
      'w1',
      'w10',
      'w11',
      'w12',
      'w13',
      'w2',
      'w3',
      'w4',
      'w9',
    ]);
    expect(corners(after)).toMatchObject({ 'n1:w4>w1': 1, 'n3:w2>w3': 3 });
    expect(after.counters.corner).toBe(8);
    expect(done.touched).toContain('w9');
    expect(done.touched).toContain('n2:w10>w2');
    expect(corners(after)).toMatchObject({ 'n2:w10>w2': 2, 'n4:w11>w4': 4 });
  });
});

test('[ED8] a new node where one is already uses that one', () => {
  checkEdit(box(), addWall('w9', node('a', 0, 0), node('b', 4000, 3000)), (after) => {
    expect(Object.keys(level(after).nodes)).toEqual(['n1', 'n2', 'n3', 'n4']);
    expect(level(after).walls).toMatchObject({ w9: { from: 'n1', to: 'n3' } });
  });
});

test('[ED3] a wall drawn on a wall is merged into the lower id, and corners keep their numbers', () => {
  checkEdit(box(), addWall('v1', 'n2', 'n1', 200 * MM), (after, done) => {
    expect(Object.keys(level(after).walls).sort()).toEqual(['v1', 'w2', 'w3', 'w4']);
    expect(level(after).walls).toMatchObject({ v1: { thickness: 200 * MM } });
    expect(corners(after)).toEqual({ 'n1:w4>v1': 1, 'n2:v1>w2': 2, 'n3:w2>w3': 3, 'n4:w3>w4': 4 });
    expect(done.notes).toHaveLength(1);
  });
});

test('[ED2] a node moved onto another: the wall between them goes, and what stood on it', () => {
  const plan = box({
    openings: { o1: { wall: 'w2', at: 0, ...door } },
    rooms: { r1: { name: 'R', at: [MM, MM], entry: 'o1' } },
  });
  checkEdit(plan, edit({ type: 'moveNode', node: 'n3', to: [4000 * MM, 0] }), (after, done) => {
    expect(Object.keys(level(after).walls).sort()).toEqual(['w1', 'w3', 'w4']);
    expect(level(after).openings).toEqual({});
    expect(level(after).rooms).toMatchObject({ r1: { name: 'R' } });
    expect(Object.values(level(after).rooms)[0]).not.toHaveProperty('entry');
    expect(corners(after)).toMatchObject({ 'n1:w4>w1': 1, 'n4:w3>w4': 4, 'n2:w1>w3': 5 });
    expect(done.notes.map((note) => note.message)).toContain(
      'Wall w2 had no length and is dropped. With it went door o1.',
    );
  });
});

test('[ED8] what stands on a wall keeps its distance from the node that stays', () => {
  const things = {
    openings: { o1: { wall: 'w1', at: 1000 * MM, ...door } },
    marks: {
      k1: { wall: 'w1', side: 'right', at: 3000 * MM, width: 22400, bottom: 0, top: 9, kind: 'outlet' },
    },
  };
  const plan = box(things);
  checkEdit(plan, edit({ type: 'moveNode', node: 'n1', to: [-500 * MM, 0] }), (after) => {
    expect(level(after).openings).toMatchObject({ o1: { at: 1500 * MM } });
    expect(level(after).marks).toMatchObject({ k1: { at: 3500 * MM } });
  });
  checkEdit(plan, edit({ type: 'moveNode', node: 'n2', to: [4500 * MM, 0] }), (after) => {
    expect(level(after).openings).toMatchObject({ o1: { at: 1000 * MM } });
  });
  checkEdit(plan, edit({ type: 'moveNode', node: 'n2', to: [1600 * MM, 0] }), (after, done) => {
    expect(level(after).openings).toMatchObject({ o1: { at: 800 * MM, width: 800 * MM } });
    expect(done.notes.map((note) => note.about)).toEqual([
      ['k1', 'w1'],
      ['o1', 'w1'],
    ]);
  });
  checkEdit(plan, edit({ type: 'moveNode', node: 'n2', to: [500 * MM, 0] }), (after) => {
    expect(level(after).openings).toMatchObject({ o1: { at: 0, width: 500 * MM } });
  });
});

test('[ED8] a moved wall takes its nodes, its neighbours follow, and a wall it runs into is split', () => {
  const d = 3000 * MM;
  const two = prepared(
    planOf(
      { a: [0, 0], b: [d, 0], c: [2 * d, 0], d: [2 * d, d], e: [d, d], f: [0, d] },
      { w1: 'a-b', w2: 'b-c', w3: 'c-d', w4: 'd-e', w5: 'e-f', w6: 'f-a', w7: 'b-e' },
    ),
  );
  checkEdit(two, edit({ type: 'moveWall', wall: 'w7', by: [500 * MM, 0] }), (after) => {
    expect(level(after).nodes).toMatchObject({ b: [3500 * MM, 0], e: [3500 * MM, d] });
    expect(corners(after)).toEqual(corners(two));
    expect(after.counters.corner).toBe(8);
  });
});

test('[ED9] split and join are each other’s way back, with doors and readings in their places', () => {
  const plan = box({
    openings: { o1: { wall: 'w1', at: 2500 * MM, ...door } },
    faces: { 'w1:right': { measured: 3900 * MM, studs: [0, 400] } },
  });
  const done = checkEdit(
    plan,
    edit({ type: 'splitWall', wall: 'w1', at: 1000 * MM, node: 'm', newWall: 'v' }),
    (after) => {
      expect(level(after).openings).toMatchObject({ o1: { wall: 'v', at: 1500 * MM } });
      // In line and alike: still one face, still the face that was measured.
      expect(faces(after)).toEqual(faces(plan));
      expect(corners(after)).toMatchObject({ 'n1:w4>w1': 1, 'n2:v>w2': 2 });
    },
  );
  checkEdit(done.plan, edit({ type: 'joinWalls', node: 'm' }), (after) => {
    // The lower id is v, which now runs over the whole.
    expect(level(after).walls).toMatchObject({ v: { from: 'n1', to: 'n2' } });
    expect(level(after).openings).toMatchObject({ o1: { wall: 'v', at: 2500 * MM } });
    expect(faces(after)).toEqual({ 'v:right': { measured: 3900 * MM, studs: [0, 400] } });
    expect(corners(after)).toEqual({ 'n1:w4>v': 1, 'n2:v>w2': 2, 'n3:w2>w3': 3, 'n4:w3>w4': 4 });
  });
});

test('[ED9] joining turns a wall that runs the other way, with its opening’s sides', () => {
  const plan = prepared(
    planOf(
      { n1: [0, 0], m: [1000 * MM, 0], n2: [4000 * MM, 0], n3: [4000 * MM, 3000 * MM], n4: [0, 3000 * MM] },
      { a: 'n1-m', b: 'n2-m', w2: 'n2-n3', w3: 'n3-n4', w4: 'n4-n1' },
      {
        openings: { o1: { wall: 'b', at: 200 * MM, ...door, casing: { left: null } } },
        // The outside of the top, walked from n2: b first, on its right.
        faces: { 'b:right': { measured: 9, trim: { base: null } } },
      },
    ),
  );
  checkEdit(plan, edit({ type: 'joinWalls', node: 'm' }), (after) => {
    expect(level(after).walls).toMatchObject({ a: { from: 'n1', to: 'n2' } });
    expect(level(after).openings).toMatchObject({
      o1: { wall: 'a', at: 3000 * MM, casing: { right: null } },
    });
    expect(corners(after)).toMatchObject({ 'n1:w4>a': 1, 'n2:a>w2': 2 });
    expect(faces(after)).toEqual({ 'a:left': { measured: 9, trim: { base: null } } });
  });
  const thick = { op: 'replace', path: ['levels', 0, 'walls', 'b', 'thickness'], value: 200 * MM } as const;
  const uneven = checkEdit(plan, { type: 'patch', patches: [thick] }).plan;
  expect(code(uneven, edit({ type: 'joinWalls', node: 'm' }))).toBe('not-alike');
  const three = checkEdit(plan, addWall('x', 'm', node('q', 1000, 1000))).plan;
  expect(code(three, edit({ type: 'joinWalls', node: 'm' }))).toBe('not-two-walls');
});

test('[ED9] deleting a wall takes what stands on it and bare nodes; walls left in line stay two', () => {
  const plan = box({
    openings: { o1: { wall: 'w9', at: 0, ...door }, o2: { wall: 'w1', at: 0, ...door } },
    builtIns: { b1: { wall: 'w9', side: 'left', at: 0, width: 600 * MM, bottom: 0, top: 9, kind: 'tub' } },
    marks: { k1: { wall: 'w9', side: 'left', at: 0, width: 60, bottom: 0, top: 9, kind: 'outlet' } },
    nodes: {
      n1: [0, 0],
      n2: [4000 * MM, 0],
      n3: [4000 * MM, 3000 * MM],
      n4: [0, 3000 * MM],
      p: [2000 * MM, 0],
      q: [2000 * MM, 1500 * MM],
    },
    walls: Object.fromEntries(
      Object.entries({ w1: 'n1-p', w2: 'n2-n3', w3: 'n3-n4', w4: 'n4-n1', w5: 'p-n2', w9: 'p-q' }).map(
        ([id, ends]) => {
          const [from, to] = ends.split('-');
          return [id, { from, to, thickness: 100 * MM }];
        },
      ),
    ),
  });
  checkEdit(plan, edit({ type: 'deleteWall', wall: 'w9' }), (after) => {
    expect(Object.keys(level(after).walls).sort()).toEqual(['w1', 'w2', 'w3', 'w4', 'w5']);
    expect(Object.keys(level(after).nodes)).toEqual(['n1', 'n2', 'n3', 'n4', 'p']);
    expect(Object.keys(level(after).openings)).toEqual(['o2']);
    expect([level(after).builtIns, level(after).marks]).toEqual([{}, {}]);
    expect(Object.keys(corners(after))).toEqual(['n1:w4>w1', 'n2:w5>w2', 'n3:w2>w3', 'n4:w3>w4']);
  });
});

test('[ED10] numbers survive a split, a move and a room added before them; none comes back after deletion', () => {
  let plan = box();
  const step = (value: Edit) => {
    plan = checkEdit(plan, value).plan;
  };
  step(edit({ type: 'splitWall', wall: 'w1', at: 1000 * MM, node: 'm', newWall: 'v' }));
  step(edit({ type: 'moveWall', wall: 'w3', by: [0, 700 * MM] }));
  // A room to the left, first in canonical order.
  step(addWall('x1', 'n1', node('a', -2000, 0)));
  step(addWall('x2', node('a2', -2000, 0), node('b', -2000, 3700)));
  step(addWall('x3', 'b', 'n4'));
  expect(corners(plan)).toMatchObject({ 'n2:v>w2': 2, 'n3:w2>w3': 3 });
  // n1 was the corner between w4 and w1 and still is on the old room's side.
  expect(corners(plan)).toMatchObject({ 'n1:w4>w1': 1, 'n4:w3>w4': 4 });
  const before = Object.values(corners(plan));
  expect(before).toContain(8);
  step(edit({ type: 'deleteWall', wall: 'w2' }));
  step(addWall('w2', 'n2', 'n3'));
  const after = Object.values(corners(plan)).filter((number) => !before.includes(number));
  for (const number of after) expect(number).toBeGreaterThan(8);
});

test('[ED6] a corner becomes two where a thickness makes a jog, and one again: the first keeps number and record', () => {
  // Walls in line at m, both 100 thick: no corner there. Bent by 3° with a thick wall: two corners.
  const base = planOf(
    {
      n1: [0, 0],
      m: [2000 * MM, 0],
      n2: [4000 * MM, 100 * MM],
      n3: [4000 * MM, 3000 * MM],
      n4: [0, 3000 * MM],
    },
    { a: 'n1-m', b: 'm-n2', w2: 'n2-n3', w3: 'n3-n4', w4: 'n4-n1' },
    { corners: { 'm:a>b': { number: 6, measured: 177 } } },
  );
  const thick = (value: number): Edit => ({
    type: 'patch',
    patches: [{ op: 'replace', path: ['levels', 0, 'walls', 'b', 'thickness'], value }],
  });
  const first = checkEdit(prepared(base), thick(400 * MM), (after) => {
    expect(level(after).corners).toMatchObject({ 'm:a>b#0': { number: 6, measured: 177 } });
    expect(corners(after)['m:a>b#1']).toBe(11);
  });
  checkEdit(first.plan, thick(100 * MM), (after) => {
    expect(level(after).corners).toMatchObject({ 'm:a>b': { number: 6, measured: 177 } });
  });
});

test('[ED6] a corner whose own end of a wall became too short to show is found by the next part', () => {
  // The part m–k of the lower wall is two ticks long and hidden: the corner at m goes straight from w3 to v.
  const [w, d] = [4000 * MM, 3000 * MM];
  const plan = prepared(
    planOf(
      { n1: [0, 0], n2: [w, 0], n3: [w, d], n4: [0, d], m: [w / 2, d], k: [w / 2 - 2, d - 1] },
      { w1: 'n1-n2', w2: 'n2-n3', w3: 'n3-m', w4: 'n4-n1', w5: 'm-k', w6: 'k-n4', v: 'k-n2' },
    ),
  );
  const was = corners(plan)['m:w3>v'];
  expect(was).toBeGreaterThan(0);
  // Split v three ticks from its start: the part at k is too short to show as well.
  const split = edit({ type: 'splitWall', wall: 'v', at: 3, node: 's', newWall: 'u' });
  checkEdit(plan, split, (after) => {
    expect(corners(after)['m:w3>u']).toBe(was);
    expect(after.counters.corner).toBe(plan.counters.corner);
  });
});

const surveyed = {
  openings: { o1: { wall: 'w1', at: 600 * MM, ...door }, o2: { wall: 'w1', at: 2800 * MM, ...door } },
  faces: {
    'w1:right': {
      measured: 3900 * MM,
      stretches: { 'corner..o1': 540, 'o1..o2': 1390, 'o2..corner': 340, 'corner..corner': 9 },
      floor: [
        { at: 0, height: 1 },
        { at: 1900 * MM, height: 2 },
        { at: 3000 * MM, height: 3 },
      ],
      line: [{ at: 3900 * MM, height: 9 }],
      studs: [400 * MM, 3600 * MM],
      trim: { base: null },
    },
  },
};

test('[ED7] where a T divides a face its record is shared out by place, and what no longer fits goes with a note', () => {
  checkEdit(box(surveyed), addWall('w9', node('p', 2000, 0), node('q', 2000, 1500)), (after, done) => {
    // Left part: from 50 to 1950 mm along the top; right part from 2050 on.
    expect(faces(after)).toEqual({
      'w1:right': {
        stretches: { 'corner..o1': 540 },
        floor: [
          { at: 0, height: 1 },
          { at: 1900 * MM, height: 2 },
        ],
        studs: [400 * MM],
        trim: { base: null },
      },
      'w10:right': {
        stretches: { 'o2..corner': 340 },
        floor: [{ at: 1000 * MM, height: 3 }],
        line: [{ at: 1900 * MM, height: 9 }],
        studs: [1600 * MM],
        trim: { base: null },
      },
    });
    const notes = done.notes.filter((note) => note.about.includes('w1:right')).map((note) => note.message);
    expect(notes).toEqual([
      'The right face of wall w1 is no longer the face that was measured: its whole length is dropped.',
      'The right face of wall w1 was divided or joined: 2 measured stretches of it are no more and dropped.',
    ]);
  });
});

test('[ED7] the same when it is the file that has the T, and a T on the outer side leaves the record alone', () => {
  const nodes = { n1: [0, 0], n2: [4000 * MM, 0], n3: [4000 * MM, 3000 * MM], n4: [0, 3000 * MM] } as const;
  const walls = { w1: 'n1-n2', w2: 'n2-n3', w3: 'n3-n4', w4: 'n4-n1', w9: 'p-q' } as const;
  const inside = prepared(
    planOf({ ...nodes, p: [2000 * MM, 0], q: [2000 * MM, 1500 * MM] }, walls, surveyed),
  );
  expect(Object.keys(faces(inside))).toEqual(['w10:right', 'w1:right']);
  expect(faces(inside)['w10:right']).toMatchObject({ floor: [{ at: 1000 * MM, height: 3 }] });
  const outside = prepared(
    planOf({ ...nodes, p: [2000 * MM, 0], q: [2000 * MM, -1500 * MM] }, walls, surveyed),
  );
  expect(faces(outside)).toEqual(surveyed.faces);
});

test('[ED6] a wall that is no longer the first of its segment hands the record on', () => {
  // The outside of the top wall is walked from n2 to n1: its first wall is the part at n2.
  const plan = prepared(boxPlan(4000, 3000, { faces: { 'w1:left': { studs: [5] } } }));
  checkEdit(
    plan,
    edit({ type: 'splitWall', wall: 'w1', at: 1000 * MM, node: 'm', newWall: 'v' }),
    (after) => {
      expect(faces(after)).toEqual({ 'v:left': { studs: [5] } });
    },
  );
});

test('[ED7] taking a partition stub away joins two faces: readings of one room come together in their places', () => {
  const plan = checkEdit(box(surveyed), addWall('w9', node('p', 2000, 0), node('q', 2000, 1500))).plan;
  checkEdit(plan, edit({ type: 'deleteWall', wall: 'w9' }), (after) => {
    const { measured: _gone, stretches: _some, ...rest } = surveyed.faces['w1:right'];
    expect(faces(after)).toEqual({
      'w1:right': { ...rest, stretches: { 'corner..o1': 540, 'o2..corner': 340 } },
    });
  });
});

test('[ED7] two rooms made one: heights over different datums do not mix, the first wins with a note', () => {
  const d = 3000 * MM;
  const plan = prepared(
    planOf(
      { a: [0, 0], b: [d, 0], c: [2 * d, 0], d: [2 * d, d], e: [d, d], f: [0, d] },
      { w1: 'a-b', w2: 'b-c', w3: 'c-d', w4: 'd-e', w5: 'e-f', w6: 'f-a', w7: 'b-e' },
      {
        faces: {
          'w1:right': { floor: [{ at: 0, height: 1 }] },
          'w2:right': { floor: [{ at: 0, height: 70 }], studs: [64] },
        },
      },
    ),
  );
  checkEdit(plan, edit({ type: 'deleteWall', wall: 'w7' }), (after, done) => {
    // The second face began 50 mm past the middle, the joined one begins at 50 mm: 3000 mm between.
    expect(faces(after)).toEqual({ 'w1:right': { floor: [{ at: 0, height: 1 }], studs: [64 + d] } });
    expect(done.notes.map((note) => note.message)).toContain(
      'The right face of wall w2 is now part of the right face of wall w1, whose own record comes first: the rest is dropped.',
    );
  });
});

test('[ED7] a face whose length changes by a moved node keeps what was measured on it', () => {
  checkEdit(box(surveyed), edit({ type: 'moveNode', node: 'n2', to: [4200 * MM, 0] }), (after) => {
    expect(faces(after)).toEqual(surveyed.faces);
  });
});

test('[ED12] a room record stays where its point is, also when its room is divided', () => {
  const plan = box({ rooms: { r1: { name: 'Hall', at: [500 * MM, 500 * MM] } } });
  checkEdit(plan, addWall('w9', node('p', 1000, 0), node('q', 1000, 3000)), (after) => {
    expect(level(after).rooms).toEqual(level(plan).rooms);
  });
});

test('[ED12] a wall moved past a room’s point takes the point along onto the room’s floor', () => {
  const d = 3000 * MM;
  const plan = prepared(
    planOf(
      { a: [0, 0], b: [d, 0], c: [2 * d, 0], d: [2 * d, d], e: [d, d], f: [0, d] },
      { w1: 'a-b', w2: 'b-c', w3: 'c-d', w4: 'd-e', w5: 'e-f', w6: 'f-a', w7: 'b-e' },
      {
        rooms: {
          left: { name: 'Left', at: [2500 * MM, 500 * MM] },
          right: { name: 'Right', at: [5000 * MM, 500 * MM] },
        },
      },
    ),
  );
  checkEdit(plan, edit({ type: 'moveWall', wall: 'w7', by: [-1000 * MM, 0] }), (after) => {
    const rooms = walkLevel(after, level(after)).rooms;
    expect(rooms.map((room) => room.id)).toEqual(['left', 'right']);
    // Left is from 50 to 1950 by 50 to 2950: its middle.
    expect(level(after).rooms).toMatchObject({
      left: { at: [1000 * MM, 1500 * MM] },
      right: { at: [5000 * MM, 500 * MM] },
    });
  });
  // Onto the point itself: it would lie inside the wall.
  checkEdit(plan, edit({ type: 'moveWall', wall: 'w7', by: [-500 * MM, 0] }), (after) => {
    expect(walkLevel(after, level(after)).rooms.map((room) => room.id)).toEqual(['left', 'right']);
  });
});

test('[ED12] a closet built round a room’s point divides the room: the record stays with its point', () => {
  let plan = box({ rooms: { r1: { name: 'Hall', at: [2000 * MM, 1500 * MM] } } });
  const spots = [
    [1500, 1000],
    [2500, 1000],
    [2500, 2000],
    [1500, 2000],
  ] as const;
  for (let i = 0; i < 4; i++) {
    const [a, b] = [spots[i]!, spots[(i + 1) % 4]!];
    plan = checkEdit(plan, addWall(`c${i}`, node(`x${i}`, a[0], a[1]), node(`y${i}`, b[0], b[1]))).plan;
  }
  const rooms = walkLevel(plan, level(plan)).rooms;
  expect(rooms.map((room) => [room.record?.name, room.loops.length])).toEqual([
    [undefined, 2],
    ['Hall', 1],
  ]);
});

test('[ED11] ids that are also names of every object go through edit, undo and patch', () => {
  const plan = prepared(
    planOf(
      { constructor: [0, 0], toString: [4000 * MM, 0], valueOf: [4000 * MM, 3000 * MM] },
      {
        constructor: 'constructor-toString',
        toString: 'toString-valueOf',
        hasOwnProperty: 'valueOf-constructor',
      },
      { openings: { constructor: { wall: 'constructor', at: 0, ...door } } },
    ),
  );
  checkEdit(plan, edit({ type: 'moveNode', node: 'constructor', to: [-400 * MM, 0] }));
  checkEdit(plan, edit({ type: 'deleteWall', wall: 'constructor' }));
  const sill = { op: 'replace', path: ['levels', 0, 'openings', 'constructor', 'sill'], value: 320 } as const;
  checkEdit(plan, { type: 'patch', patches: [sill] }, (after) => {
    expect(Object.values(level(after).openings)[0]).toMatchObject({ sill: 320 });
  });
});

test('[ED11] a patch may change anything that a file can hold: settings, profiles, a whole level', () => {
  const plan = box();
  const upper = { ...level(boxPlan(3000, 3000)), id: 'L2', name: 'Upper' };
  checkEdit(plan, { type: 'patch', patches: [{ op: 'add', path: ['levels', 1], value: upper }] }, (after) => {
    expect(after.counters.corner).toBe(8);
  });
  checkEdit(plan, { type: 'patch', patches: [{ op: 'add', path: ['builtYear'], value: 1950 }] });
  checkEdit(
    plan,
    { type: 'patch', patches: [{ op: 'replace', path: ['title'], value: 'House' }] },
    (_, done) => {
      expect(done.touched).toEqual(['title']);
    },
  );
  const profile = {
    kind: 'base',
    name: 'B',
    height: 320,
    thickness: 320,
    form: 'flat',
    material: 'pine',
    stock: [],
  };
  checkEdit(
    plan,
    { type: 'patch', patches: [{ op: 'add', path: ['profiles', 'b'], value: profile }] },
    (_, done) => {
      expect(done.touched).toEqual(['b']);
    },
  );
  // A lower counter is not taken.
  const lower = apply(plan, {
    type: 'patch',
    patches: [{ op: 'replace', path: ['counters', 'corner'], value: 1 }],
  });
  expect(lower.ok && lower.plan.counters.corner).toBe(4);
});

test('[ED11] a chain of edits undone to the start gives the first file but for the counter, redone the last', () => {
  const first = box(surveyed);
  const edits = [
    addWall('w9', node('p', 2000, 0), node('q', 2000, 3000)),
    edit({ type: 'moveWall', wall: 'w9', by: [300 * MM, 0] }),
    edit({ type: 'deleteWall', wall: 'w9' }),
  ];
  let plan = first;
  const undo: Edit[] = [];
  for (const value of edits) {
    const done = checkEdit(plan, value);
    undo.push(done.inverse);
    plan = done.plan;
  }
  const last = plan;
  const redo: Edit[] = [];
  for (const value of undo.reverse()) {
    const done = apply(plan, value);
    if (!done.ok) throw new Error(done.message);
    redo.push(done.inverse);
    plan = done.plan;
  }
  expect(sameButCounter(plan, first)).toBe(true);
  for (const value of redo.reverse()) {
    const done = apply(plan, value);
    if (!done.ok) throw new Error(done.message);
    plan = done.plan;
  }
  expect(writePlan(plan)).toBe(writePlan(last));
  expect(readPlan(writePlan(plan)).ok).toBe(true);
});
