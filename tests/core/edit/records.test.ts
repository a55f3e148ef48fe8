// Edits of records, walls' sizes, chains and copies, each through the one checker. Refusals first.

import { describe, expect, test } from 'vitest';
import {
  apply,
  centreLine,
  copiedPart,
  type Edit,
  preview,
  roomHand,
  type WallEdit,
  describe as wordsOf,
} from '../../../core/edit/index.ts';
import type { Plan, WallId } from '../../../core/plan/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { boxPlan, checkEdit, level, MM, planOf, prepared } from './helpers.ts';

const edit = (value: object): Edit => ({ level: 'L1', ...value }) as unknown as Edit;
const code = (plan: Plan, value: object) => {
  const result = apply(plan, edit(value));
  return result.ok ? 'done' : result.code;
};
const door = { wall: 'w1', at: 1000 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' };
const tub = { wall: 'w2', side: 'right', at: 0, width: 600 * MM, bottom: 0, top: 500 * MM, kind: 'tub' };
const outlet = { wall: 'w3', side: 'right', at: 0, width: 70 * MM, bottom: 0, top: 90 * MM, kind: 'outlet' };
const base = {
  kind: 'base',
  name: 'Base',
  height: 100 * MM,
  thickness: 12 * MM,
  form: 'shaped',
  material: 'pine',
  stock: [],
};
const casing = { ...base, kind: 'casing', name: 'Casing', width: 70 * MM };

/** The box with a door, a tub, an outlet, a named room and two profiles of base and one of casing. */
function house(more: object = {}): Plan {
  const plan = boxPlan(4000, 3000, {
    openings: { o1: { ...door, casing: { left: 'c1', right: 'c1' } } },
    builtIns: { b1: tub },
    marks: { k1: outlet },
    rooms: { r1: { name: 'Hall', at: [2000 * MM, 1500 * MM], entry: 'o1', trim: { base: 'p1' } } },
    faces: {
      'w1:right': { stretches: { 'corner..o1': 900 * MM, 'o1..corner': 2100 * MM }, trim: { base: 'p2' } },
    },
    ...more,
  });
  const profiles = { p1: base, p2: { ...base, name: 'Other' }, c1: casing };
  return prepared({
    ...plan,
    profiles,
    stockOnHand: { p1: [{ length: 900 * MM, count: 1 }] },
  } as unknown as Plan);
}
const of = (plan: Plan) => level(plan) as unknown as Record<string, Record<string, Record<string, unknown>>>;

describe('openings, built-ins and marks', () => {
  test('[ED14] what does not fit its wall is refused with what would be right', () => {
    const plan = house();
    const result = apply(plan, edit({ type: 'changeOpening', opening: 'o1', set: { at: 3300 * MM } }));
    expect(result).toMatchObject({ ok: false, code: 'off-wall' });
    if (!result.ok)
      expect(result.message).toBe(
        'Opening o1 would reach past the end of wall w1: it must lie between the wall’s ends.',
      );
    expect(code(plan, { type: 'changeOpening', opening: 'o1', set: { at: -1 } })).toBe('off-wall');
    expect(code(plan, { type: 'changeOpening', opening: 'o1', set: { at: Number.NaN } })).toBe('off-wall');
    expect(code(plan, { type: 'changeOpening', opening: 'o1', set: { width: 0 } })).toBe('bad-number');
    expect(code(plan, { type: 'changeOpening', opening: 'o1', set: { wall: 'w9' } })).toBe('no-wall');
    expect(code(plan, { type: 'changeOpening', opening: 'toString', set: { at: 0 } })).toBe('no-opening');
    expect(code(plan, { type: 'changeOpening', opening: 'o1', set: { height: null } })).toBe('bad-plan');
    expect(code(plan, { type: 'changeOpening', opening: 'o1', set: { colour: 7 } })).toBe('bad-plan');
    expect(code(plan, { type: 'addOpening', opening: 'o1', record: door })).toBe('id-taken');
    expect(code(plan, { type: 'addOpening', opening: '1o', record: door })).toBe('bad-id');
    expect(code(plan, { type: 'deleteOpening', opening: 'o2' })).toBe('no-opening');
    expect(code(plan, { type: 'changeBuiltIn', builtIn: 'b2', set: {} })).toBe('no-built-in');
    expect(code(plan, { type: 'changeBuiltIn', builtIn: 'b1', set: { at: 3000 * MM } })).toBe('off-wall');
    expect(code(plan, { type: 'changeBuiltIn', builtIn: 'b1', set: { top: -1 } })).toBe('bad-plan');
    expect(code(plan, { type: 'deleteMark', mark: 'k2' })).toBe('no-mark');
    expect(code({ ...plan, levels: plan.levels }, { type: 'deleteMark', mark: 'k1', level: 'L9' })).toBe(
      'no-level',
    );
  });

  test('[ED13] null takes a field out, a value sets it in whole ticks, the rest stays', () => {
    const set = { at: 1500.4 * MM, casing: null, reveal: 5 * MM, pocket: 'end' };
    checkEdit(house(), edit({ type: 'changeOpening', opening: 'o1', set }), (after) => {
      const { casing: _casing, ...rest } = {
        ...door,
        at: 480128,
        reveal: 5 * MM,
        pocket: 'end',
        casing: null,
      };
      expect(of(after).openings!.o1).toEqual(rest);
    });
  });

  test('[ED13] a change that says what is so already gives the same plan', () => {
    const plan = house();
    const same = { type: 'changeOpening', opening: 'o1', set: { at: 1000 * MM, pocket: null } };
    expect(checkEdit(plan, edit(same)).plan).toBe(plan);
    expect(checkEdit(plan, edit({ type: 'setPlan', set: { title: plan.title } })).plan).toBe(plan);
    expect(
      checkEdit(plan, edit({ type: 'setTrim', of: { room: 'r1' }, lines: { base: { profile: 'p1' } } })).plan,
    ).toBe(plan);
  });

  test('[ED14] an opening moved along its wall keeps the measured stretches, moved to another wall loses them', () => {
    const plan = house();
    checkEdit(plan, edit({ type: 'changeOpening', opening: 'o1', set: { at: 200 * MM } }), (after, done) => {
      expect(of(after).faces).toEqual(of(plan).faces);
      expect(done.notes).toEqual([]);
    });
    checkEdit(
      plan,
      edit({ type: 'changeOpening', opening: 'o1', set: { at: 200 * MM, wall: 'w3' } }),
      (after, done) => {
        expect(of(after).faces).toEqual({ 'w1:right': { trim: { base: 'p2' } } });
        expect(done.notes).toHaveLength(1);
        expect(of(after).rooms!.r1).toMatchObject({ entry: 'o1' });
      },
    );
  });

  test('[ED14] a deleted opening takes its entry and its stretches along, and undo brings all back', () => {
    checkEdit(house(), edit({ type: 'deleteOpening', opening: 'o1' }), (after) => {
      expect(of(after).openings).toEqual({});
      expect(of(after).rooms!.r1).not.toHaveProperty('entry');
      expect(of(after).faces).toEqual({ 'w1:right': { trim: { base: 'p2' } } });
    });
  });

  test('[ED13] built-ins and marks are added, changed and taken away', () => {
    const plan = house();
    checkEdit(
      plan,
      edit({ type: 'addBuiltIn', builtIn: 'b2', record: { ...tub, wall: 'w4', at: -100 } }),
      (after) => expect(of(after).builtIns!.b2).toMatchObject({ wall: 'w4', at: -100 }),
    );
    checkEdit(plan, edit({ type: 'changeBuiltIn', builtIn: 'b1', set: { side: 'left', depth: 5 } }));
    checkEdit(plan, edit({ type: 'addMark', mark: 'k2', record: outlet }));
    checkEdit(plan, edit({ type: 'changeMark', mark: 'k1', set: { wall: 'w1', kind: 'register' } }));
    checkEdit(plan, edit({ type: 'deleteMark', mark: 'k1' }), (after) => expect(of(after).marks).toEqual({}));
    checkEdit(plan, edit({ type: 'deleteBuiltIn', builtIn: 'b1' }), (after) =>
      expect(of(after).builtIns).toEqual({}),
    );
  });
});

describe('rooms, corners and faces', () => {
  test('[ED15] a room record needs a room of its own', () => {
    const plan = house();
    const at = (x: number, y: number) => ({ name: 'Other', at: [x * MM, y * MM] });
    expect(code(plan, { type: 'addRoom', room: 'r2', record: at(1000, 1000) })).toBe('room-taken');
    expect(code(plan, { type: 'addRoom', room: 'r2', record: at(9000, 1000) })).toBe('no-room');
    expect(code(plan, { type: 'changeRoom', room: 'r1', set: { at: [9000 * MM, 0] } })).toBe('no-room');
    expect(code(plan, { type: 'changeRoom', room: 'r1', set: { at: [Number.NaN, 0] } })).toBe('bad-number');
    expect(code(plan, { type: 'changeRoom', room: 'r1', set: { entry: 'o9' } })).toBe('no-opening');
    expect(code(plan, { type: 'changeRoom', room: 'r1', set: { name: 'a\nb' } })).toBe('bad-plan');
    expect(code(plan, { type: 'deleteRoom', room: 'r9' })).toBe('no-room');
    const bare = house({ rooms: {} });
    checkEdit(bare, edit({ type: 'addRoom', room: 'r2', record: at(1000, 1000) }), (after) =>
      expect(of(after).rooms!.r2).toMatchObject({ name: 'Other' }),
    );
    checkEdit(
      plan,
      edit({ type: 'changeRoom', room: 'r1', set: { name: 'Den', entry: null, new: { floor: 12.4 } } }),
      (after) =>
        expect(of(after).rooms!.r1).toEqual({
          name: 'Den',
          at: [2000 * MM, 1500 * MM],
          trim: { base: 'p1' },
          new: { floor: 12 },
        }),
    );
  });

  test('[ED15] trim: a profile, none, and back to the rule are three things', () => {
    const plan = house();
    const trim = (target: object, lines: object) => edit({ type: 'setTrim', of: target, lines });
    checkEdit(plan, trim({ room: 'r1' }, { base: { profile: null }, shoe: null }), (after) =>
      expect(of(after).rooms!.r1!.trim).toEqual({ base: null }),
    );
    checkEdit(plan, trim({ room: 'r1' }, { base: null }), (after) =>
      expect(of(after).rooms!.r1).not.toHaveProperty('trim'),
    );
    checkEdit(plan, trim({ face: 'w1:right' }, { base: null }), (after) =>
      expect(of(after).faces!['w1:right']).not.toHaveProperty('trim'),
    );
    checkEdit(plan, trim({ face: 'w3:right' }, { base: { profile: null } }), (after) =>
      expect(of(after).faces!['w3:right']).toEqual({ trim: { base: null } }),
    );
    expect(code(plan, trim({ face: 'w3:left' }, { base: { profile: null } }))).toBe('no-face');
    expect(code(plan, trim({ room: 'r1' }, { base: { profile: 'c1' } }))).toBe('no-profile');
    expect(code(plan, trim({ room: 'r1' }, { base: { profile: 'constructor' } }))).toBe('no-profile');
  });

  test('[ED15] corner choices and measured angles, and back to the rule; the number stays', () => {
    const plan = house();
    const key = 'n2:w1>w2';
    const set = (value: object) => edit({ type: 'setCorner', corner: key, set: value });
    const done = checkEdit(
      plan,
      set({ measured: 91.5, lines: { base: { joint: 'cope', coped: 'after' } } }),
      (after) =>
        expect(of(after).corners![key]).toEqual({
          number: 2,
          measured: 91.5,
          lines: { base: { joint: 'cope', coped: 'after' } },
        }),
    );
    checkEdit(done.plan, set({ lines: { base: { coped: null } } }), (after) =>
      expect(of(after).corners![key]).toMatchObject({ number: 2, lines: { base: { joint: 'cope' } } }),
    );
    checkEdit(done.plan, set({ measured: null, lines: { base: null } }), (after) =>
      expect(of(after).corners![key]).toEqual({ number: 2 }),
    );
    expect(code(plan, set({ measured: 0 }))).toBe('bad-number');
    expect(code(plan, set({ measured: 181 }))).toBe('bad-number');
    expect(code(plan, { type: 'setCorner', corner: 'n9:w1>w2', set: { measured: 90 } })).toBe('no-corner');
    // The outside of the house is no room's corner.
    expect(code(plan, { type: 'setCorner', corner: 'n2:w2>w1', set: { measured: 90 } })).toBe('no-corner');
    const stale = house({ corners: { 'n9:w8>w9': { measured: 88 } } });
    checkEdit(stale, edit({ type: 'setCorner', corner: 'n9:w8>w9', set: { measured: null } }), (after) =>
      expect(of(after).corners).not.toHaveProperty('n9:w8>w9'),
    );
  });

  test('[ED15] what was measured on a face, list by list and stretch by stretch', () => {
    const plan = house();
    const set = (value: object) => edit({ type: 'setFace', face: 'w1:right', set: value });
    checkEdit(
      plan,
      set({ measured: 3890 * MM, floor: [{ at: 0, height: -3.4 }], studs: [400 * MM] }),
      (after) =>
        expect(of(after).faces!['w1:right']).toMatchObject({
          measured: 3890 * MM,
          floor: [{ at: 0, height: -3 }],
        }),
    );
    checkEdit(plan, set({ stretches: { 'corner..o1': null, 'o1..corner': 7 } }), (after) =>
      expect(of(after).faces!['w1:right']!.stretches).toEqual({ 'o1..corner': 7 }),
    );
    expect(code(plan, set({ stretches: { nonsense: 4 } }))).toBe('bad-plan');
    expect(code(plan, { type: 'setFace', face: 'w9:right', set: { measured: 5 } })).toBe('no-face');
  });
});

describe('profiles, levels and the plan', () => {
  test('[ED16] a profile in use is not deleted, but where something takes its place', () => {
    const plan = house();
    const result = apply(plan, { type: 'deleteProfile', profile: 'p1' } as unknown as Edit);
    expect(result).toMatchObject({
      ok: false,
      code: 'in-use',
      message: 'Profile p1 is used by room "Hall": say what takes its place.',
    });
    expect(code(plan, { type: 'deleteProfile', profile: 'p1', instead: 'c1' })).toBe('in-use');
    expect(code(plan, { type: 'deleteProfile', profile: 'p1', instead: 'p1' })).toBe('no-profile');
    expect(code(plan, { type: 'changeProfile', profile: 'p1', set: { kind: 'shoe' } })).toBe('in-use');
    expect(code(plan, { type: 'changeProfile', profile: 'p1', set: { height: null } })).toBe('bad-plan');
    checkEdit(plan, edit({ type: 'deleteProfile', profile: 'p1', instead: 'p2' }), (after) => {
      expect(of(after).rooms!.r1!.trim).toEqual({ base: 'p2' });
      expect(after.stockOnHand).toEqual({});
    });
    checkEdit(plan, edit({ type: 'deleteProfile', profile: 'c1', instead: null }), (after) =>
      expect(of(after).openings!.o1!.casing).toEqual({ left: null, right: null }),
    );
  });

  test('[ED16] a renamed profile is renamed wherever it is named', () => {
    checkEdit(house(), edit({ type: 'renameProfile', profile: 'p1', to: 'constructor' }), (after) => {
      expect(of(after).rooms!.r1!.trim).toEqual({ base: 'constructor' });
      expect(Object.keys(after.profiles).sort()).toEqual(['c1', 'constructor', 'p2']);
      expect(Object.keys(after.stockOnHand)).toEqual(['constructor']);
    });
    expect(code(house(), { type: 'renameProfile', profile: 'p1', to: 'p2' })).toBe('id-taken');
  });

  test('[ED16] prices, counts and spring angles are not rounded to ticks', () => {
    const set = { stock: [{ length: 10.4, price: 21.4, onHand: 3 }], springAngle: 38.5 };
    checkEdit(house(), edit({ type: 'changeProfile', profile: 'p2', set }), (after) =>
      expect(after.profiles).toMatchObject({
        p2: { stock: [{ length: 10, price: 21.4, onHand: 3 }], springAngle: 38.5 },
      }),
    );
  });

  test('[ED17] levels are added, moved, changed and deleted; the last one stays', () => {
    const plan = house();
    const add = edit({
      type: 'addLevel',
      level: 'L2',
      record: { name: 'Upper', ceilingHeight: 2400 * MM },
      position: 0,
    });
    const two = checkEdit(plan, add, (after) =>
      expect(after.levels.map(({ id }) => id)).toEqual(['L2', 'L1']),
    ).plan;
    checkEdit(two, edit({ type: 'moveLevel', position: 0 }), (after) =>
      expect(after.levels.map(({ id }) => id)).toEqual(['L1', 'L2']),
    );
    checkEdit(two, edit({ type: 'deleteLevel' }), (after) =>
      expect(after.levels.map(({ id }) => id)).toEqual(['L2']),
    );
    checkEdit(
      two,
      edit({ type: 'changeLevel', set: { name: 'Ground', ceilingHeight: 2500 * MM, walls: {} } }),
      (after) =>
        expect(after.levels[1]).toMatchObject({
          name: 'Ground',
          ceilingHeight: 2500 * MM,
          walls: { w1: {} },
        }),
    );
    expect(code(plan, { type: 'deleteLevel' })).toBe('last-level');
    expect(code(two, { type: 'moveLevel', position: 2 })).toBe('bad-number');
    expect(code(two, { type: 'addLevel', level: 'L1', record: { name: 'x', ceilingHeight: 5 } })).toBe(
      'id-taken',
    );
    expect(code(two, { type: 'changeLevel', set: { ceilingHeight: 0 } })).toBe('bad-plan');
  });

  test('[ED17] a number given on a deleted level never comes back', () => {
    const add = edit({ type: 'addLevel', level: 'L2', record: { name: 'Upper', ceilingHeight: 2400 * MM } });
    const two = checkEdit(house(), add).plan;
    const gone = checkEdit(two, edit({ type: 'deleteLevel' })).plan;
    const room = {
      type: 'addRoomByCorners',
      level: 'L2',
      from: [0, 0],
      to: [3000 * MM, 3000 * MM],
      along: 'inside',
      thickness: 100 * MM,
    };
    checkEdit(gone, edit(room), (after) =>
      expect(Object.values(after.levels[0]!.corners).map((corner) => corner.number)).toEqual([5, 6, 7, 8]),
    );
  });

  test('[ED17] settings, title, units, year, studs and boards on hand', () => {
    const plan = house();
    checkEdit(plan, edit({ type: 'setSettings', set: { voidAreaM2: 50, kerf: 3.6, roundIn: 8 } }), (after) =>
      expect(after.settings).toEqual({ voidAreaM2: 50, kerf: 4, roundIn: 8 }),
    );
    const set = checkEdit(plan, edit({ type: 'setSettings', set: { kerf: 900 } })).plan;
    checkEdit(set, edit({ type: 'setSettings', set: { kerf: null } }), (after) =>
      expect(after.settings).toEqual({}),
    );
    expect(code(plan, { type: 'setSettings', set: { roundIn: 5 } })).toBe('bad-plan');
    checkEdit(
      plan,
      edit({
        type: 'setPlan',
        set: { title: 'T', units: 'imperial', builtYear: 1950, studs: { spacing: 130048.2 } },
      }),
      (after) =>
        expect(after).toMatchObject({
          title: 'T',
          units: 'imperial',
          builtYear: 1950,
          studs: { spacing: 130048 },
        }),
    );
    checkEdit(plan, edit({ type: 'setStockOnHand', profile: 'p1', boards: [] }), (after) =>
      expect(after.stockOnHand).toEqual({}),
    );
    expect(code(plan, { type: 'setStockOnHand', profile: 'p9', boards: [] })).toBe('no-profile');
  });
});

describe('walls', () => {
  test('[ED19] thickness, height and faces of several walls', () => {
    const set = { thickness: 150 * MM + 1, height: 900 * MM, faces: { left: 'masonry' } };
    const done = checkEdit(house(), edit({ type: 'changeWalls', walls: ['w1', 'w3'], set }), (after) => {
      expect(of(after).walls!.w3).toEqual({
        from: 'n3',
        to: 'n4',
        thickness: 150 * MM + 2,
        height: 900 * MM,
        faces: { left: 'masonry' },
      });
      expect(after.counters.corner).toBe(4);
    });
    checkEdit(
      done.plan,
      edit({ type: 'changeWalls', walls: ['w1'], set: { height: null, faces: { left: null } } }),
      (after) => expect(of(after).walls!.w1).toEqual({ from: 'n1', to: 'n2', thickness: 150 * MM + 2 }),
    );
    expect(code(house(), { type: 'changeWalls', walls: [], set })).toBe('no-walls');
    expect(code(house(), { type: 'changeWalls', walls: ['w9'], set })).toBe('no-wall');
    expect(code(house(), { type: 'changeWalls', walls: ['w1'], set: { thickness: 0 } })).toBe('bad-number');
    expect(code(house(), { type: 'changeWalls', walls: ['w1'], set: { height: 0 } })).toBe('bad-number');
  });

  test('[ED20] a typed clear distance moves the far wall with what is in line with it', () => {
    const d = 3000 * MM;
    const two = prepared(
      planOf(
        { a: [0, 0], b: [d, 0], c: [2 * d, 0], d: [2 * d, d], e: [d, d], f: [0, d] },
        { w1: 'a-b', w2: 'b-c', w3: 'c-d', w4: 'd-e', w5: 'e-f', w6: 'f-a', w7: 'b-e' },
      ),
    );
    const set = (stays: string, moves: string, distance: number) => {
      const [one, other] = [stays.split(':'), moves.split(':')];
      return edit({
        type: 'setClearDistance',
        stays: { wall: one[0], side: one[1] },
        moves: { wall: other[0], side: other[1] },
        distance,
      });
    };
    // w5 and w4 run west along the bottom: the room is on their right.
    checkEdit(two, set('w1:right', 'w5:right', 2500 * MM), (after) => {
      expect(level(after).nodes).toMatchObject({
        d: [2 * d, 2600 * MM],
        e: [d, 2600 * MM],
        f: [0, 2600 * MM],
        a: [0, 0],
      });
      const [room] = walkLevel(after, level(after)).rooms;
      expect(room!.loops[0]!.segments.map(({ drawn }) => drawn / MM).sort((a, b) => a - b)).toEqual([
        2500, 2500, 2900, 2900,
      ]);
    });
    expect(code(two, set('w1:right', 'w7:left', 5))).toBe('not-parallel');
    expect(code(two, set('w1:right', 'w5:left', 5))).toBe('not-facing');
    expect(code(two, set('w1:right', 'w2:right', 5))).toBe('not-facing');
    expect(code(two, set('w1:right', 'w5:right', 0))).toBe('bad-number');
    expect(code(two, set('w1:right', 'w9:right', 5))).toBe('no-wall');
    expect(checkEdit(two, set('w1:right', 'w5:right', 2900 * MM)).plan).toBe(two);
  });

  test('[ED19] nodes moved and turned together: a quarter turn is exact', () => {
    const nodes = ['n1', 'n2', 'n3', 'n4'];
    checkEdit(
      house(),
      edit({ type: 'moveNodes', nodes, by: [10 * MM, 0], turnDeg: 90, about: [0, 0] }),
      (after) => {
        expect(level(after).nodes).toMatchObject({
          n1: [10 * MM, 0],
          n2: [10 * MM, 4000 * MM],
          n3: [-2990 * MM, 4000 * MM],
        });
        expect(after.counters.corner).toBe(4);
        expect(of(after).openings!.o1).toMatchObject({ at: 1000 * MM });
      },
    );
    expect(code(house(), { type: 'moveNodes', nodes: [], by: [0, 0] })).toBe('no-node');
    expect(code(house(), { type: 'moveNodes', nodes: ['n1'], by: [0, 0], turnDeg: Number.NaN })).toBe(
      'bad-number',
    );
  });

  test('[ED24] an end put on a sloping wall splits it, though no tick lies exactly on it', () => {
    const plan = prepared(planOf({ a: [0, 0], b: [3001, 1007] }, { w1: ['a-b', 20] }));
    const from = { id: 'p', at: [1000, 336], on: 'w1' };
    checkEdit(
      plan,
      edit({ type: 'addWall', wall: 'w2', from, to: { id: 'q', at: [0, 2000] }, thickness: 20 }),
      (after) => {
        expect(level(after).walls).toMatchObject({
          w1: { from: 'a', to: 'p' },
          w3: { from: 'p', to: 'b' },
          w2: { from: 'p' },
        });
      },
    );
    const off = { id: 'p', at: [1000, 340], on: 'w1' };
    expect(
      code(plan, { type: 'addWall', wall: 'w2', from: off, to: { id: 'q', at: [0, 2000] }, thickness: 20 }),
    ).toBe('off-wall');
  });
});

describe('chains and rooms by corners', () => {
  const points = [
    [0, 0],
    [4000 * MM, 0],
    [4000 * MM, 3000 * MM],
    [0, 3000 * MM],
  ];
  const chain = (value: object) =>
    edit({ type: 'addChain', points, closed: true, along: 'inside', thickness: 100 * MM, ...value });
  const empty = () => prepared(planOf({}, {}));
  const sizes = (plan: Plan) =>
    walkLevel(plan, level(plan)).rooms.map(({ loops }) => loops[0]!.segments.map(({ drawn }) => drawn / MM));

  test('[ED18] the hand that the room is on, with a lopsided line', () => {
    expect(
      roomHand([
        [0, 0],
        [9, 0],
        [9, 5],
        [0, 2],
      ]),
    ).toBe('right');
    expect(
      roomHand([
        [0, 2],
        [9, 5],
        [9, 0],
        [0, 0],
      ]),
    ).toBe('left');
    expect(
      roomHand([
        [0, 0],
        [9, 0],
      ]),
    ).toBe('right');
    expect(
      centreLine(
        [
          [0, 0],
          [100, 0],
          [0, 0],
        ],
        false,
        10,
        'inside',
        'right',
      ),
    ).toBeNull();
    expect(
      centreLine(
        [
          [0, 0],
          [100, 0],
          [0, 4],
        ],
        false,
        10,
        'inside',
        'right',
      ),
    ).toBeNull();
    expect(
      centreLine(
        [
          [0, 0],
          [0, 0],
        ],
        false,
        10,
        'inside',
        'right',
      ),
    ).toBeNull();
    // Walking east with the room on the right (below): the wall lies above the drawn line.
    expect(
      centreLine(
        [
          [0, 0],
          [100, 0],
        ],
        false,
        10,
        'inside',
        'right',
      )?.points,
    ).toEqual([
      [0, -5],
      [100, -5],
    ]);
    expect(
      centreLine(
        [
          [0, 0],
          [100, 0],
        ],
        false,
        10,
        'outside',
        'right',
      )?.points,
    ).toEqual([
      [0, 5],
      [100, 5],
    ]);
  });

  test('[ED18] typed sizes are what the tape says between faces, whichever way round the line is drawn', () => {
    for (const drawn of [points, [...points].reverse()]) {
      checkEdit(empty(), chain({ points: drawn }), (after) => {
        expect(sizes(after)).toEqual([[3000, 4000, 3000, 4000]]);
        expect(after.counters.corner).toBe(4);
      });
    }
    checkEdit(empty(), chain({ along: 'outside' }), (after) =>
      expect(sizes(after)).toEqual([[2800, 3800, 2800, 3800]]),
    );
    checkEdit(empty(), chain({ along: 'centre' }), (after) =>
      expect(sizes(after)).toEqual([[2900, 3900, 2900, 3900]]),
    );
  });

  test('[ED18] typed lengths are kept as measured, and the room gets its record', () => {
    const measured = [4003 * MM, null, 3997 * MM, 2999 * MM];
    const room = { id: 'r1', record: { name: 'Den' } };
    checkEdit(empty(), chain({ measured, room, ids: { walls: ['a'], nodes: ['p', 'q'] } }), (after, done) => {
      expect(of(after).faces).toEqual({
        'a:right': { measured: 4003 * MM },
        'w2:right': { measured: 3997 * MM },
        'w3:right': { measured: 2999 * MM },
      });
      expect(of(after).rooms).toEqual({ r1: { name: 'Den', at: [2000 * MM, 1500 * MM] } });
      expect(Object.keys(level(after).nodes)).toEqual(['n1', 'n2', 'p', 'q']);
      expect(done.notes).toEqual([]);
    });
  });

  test('[ED18] a length typed along a wall that stands already is kept for the face on this side of it', () => {
    const { plan: first } = checkEdit(
      empty(),
      chain({ measured: [4000 * MM, 3000 * MM, 4000 * MM, 3000 * MM] }),
    );
    for (const points of [
      // To the right: its left side is the first room's right wall. Below: its top is that room's bottom wall.
      [
        [4100, 0],
        [6100, 0],
        [6100, 3000],
        [4100, 3000],
      ],
      [
        [0, 3100],
        [4000, 3100],
        [4000, 5100],
        [0, 5100],
      ],
    ]) {
      const next = chain({
        points: points.map((at) => at.map((each) => each * MM)),
        hand: 'right',
        measured: points.map(
          (at, i) => Math.hypot(...at.map((each, axis) => points[(i + 1) % 4]![axis]! - each)) * MM,
        ),
      });
      checkEdit(first, next, (after, done) => {
        expect(Object.keys(level(after).walls)).toHaveLength(7);
        expect(done.notes.filter(({ loses }) => loses)).toEqual([]);
        const [, room] = walkLevel(after, level(after)).rooms;
        for (const { key, drawn } of room!.loops[0]!.segments)
          expect(of(after).faces![key]?.measured, key).toBeCloseTo(drawn, 0);
      });
    }
  });

  test('[ED18] lengths typed in line along one face are kept as their sum; where one is missing none is', () => {
    const line = [[0, 0], [1500 * MM, 0], ...points.slice(1)];
    checkEdit(
      empty(),
      chain({ points: line, measured: [1501 * MM, 2502 * MM, 3003 * MM] }),
      (after, done) => {
        expect(of(after).faces).toEqual({
          'w1:right': { measured: 4003 * MM },
          'w3:right': { measured: 3003 * MM },
        });
        expect(done.notes).toEqual([]);
      },
    );
    checkEdit(empty(), chain({ points: line, measured: [1501 * MM, null] }), (after, done) => {
      expect(of(after).faces).toEqual({});
      expect(done.notes).toHaveLength(1);
    });
  });

  test('[ED18] a hooked room gets its record too, though its middle lies outside; an open line gets none', () => {
    const room = { id: 'r1', record: { name: 'Hook' } };
    const hook = [
      [0, 0],
      [4000, 0],
      [4000, 500],
      [500, 500],
      [500, 4000],
      [0, 4000],
    ].map((at) => at.map((each) => each * MM));
    checkEdit(empty(), chain({ points: hook, room }), (after, done) => {
      expect(walkLevel(after, level(after)).rooms.map(({ id }) => id)).toEqual(['r1']);
      expect(done.notes).toEqual([]);
    });
    checkEdit(
      empty(),
      chain({ points: hook.slice(0, 3), closed: false, room, measured: [MM] }),
      (after, done) => {
        expect(level(after)).toMatchObject({ rooms: {}, faces: {} });
        expect(done.notes.map(({ message }) => message)).toEqual([
          'Room "Hook" is not kept: its walls do not go round that place.',
          'Wall w1 is as long as you typed, but that is not kept as measured: no room has just that face.',
        ]);
      },
    );
    // Drawn over a room that has a name: that one stays.
    checkEdit(
      house(),
      chain({ room: { id: 'r2', record: { name: 'Twice' } }, along: 'centre' }),
      (after, done) => {
        expect(Object.keys(level(after).rooms)).toEqual(['r1']);
        expect(done.notes.at(-1)!.message).toBe('Room "Twice" is not kept: that room has a name already.');
      },
    );
  });

  test('[ED13] a field named __proto__ is refused like any other that no record has', () => {
    const set = JSON.parse('{"__proto__": 5}');
    expect(code(house(), { type: 'changeOpening', opening: 'o1', set })).toBe('bad-plan');
    expect(code(house(), { type: 'setSettings', set })).toBe('bad-plan');
  });

  test('[ED18] an open end in a wall is carried on to its middle, also at both ends of one sloping wall', () => {
    // A partition from face to face, typed from the inside: 50 mm of wall on either side.
    const line = [
      [1000 * MM, 50 * MM],
      [1000 * MM, 2950 * MM],
    ];
    checkEdit(house(), chain({ points: line, closed: false, along: 'centre' }), (after) => {
      expect(level(after).nodes).toMatchObject({ n5: [1000 * MM, 0], n6: [1000 * MM, 3000 * MM] });
      expect(walkLevel(after, level(after)).rooms).toHaveLength(2);
    });
    const sloping = prepared(planOf({ a: [0, 0], b: [9001, 3007] }, { w1: ['a-b', 40] }));
    const round = [
      [2000, 668],
      [2000, 3000],
      [7000, 3000],
      [7000, 2339],
    ];
    checkEdit(sloping, chain({ points: round, closed: false, along: 'centre', thickness: 40 }), (after) => {
      expect(Object.keys(level(after).walls)).toHaveLength(6);
    });
  });

  test('[ED18] a room that is a little deeper than the one it is drawn against closes, with what was typed', () => {
    // The box's right wall ends at 4000, 3000; its faces lie 50 mm about. The line comes back past that end, by the millimetre.
    const lines = { inside: [4050, 50, 2950], centre: [4000, 0, 3000], outside: [3950, -50, 3050] } as const;
    for (const [along, [x, top, bottom]] of Object.entries(lines))
      for (const deeper of [-99, -1, 0, 0.4, 1, 50, 51, 99]) {
        const line = [
          [x, top],
          [6000, top],
          [6000, bottom + deeper],
          [x, bottom + deeper],
        ].map((point) => point.map((each) => Math.round(each * MM)));
        const typed = along === 'inside' ? [1950 * MM, (2900 + deeper) * MM, 1950 * MM] : undefined;
        const drawn = chain({ points: line, closed: false, along, hand: 'right', measured: typed });
        checkEdit(house(), drawn, (after, { notes }) => {
          const { rooms } = walkLevel(after, level(after));
          expect(rooms, `${along} ${deeper}`).toHaveLength(2);
          expect(notes, `${along} ${deeper}`).toEqual([]);
          if (along === 'inside')
            expect(sizes(after).find((each) => each.includes(1950))).toEqual([
              2900 + deeper,
              1950,
              2900 + deeper,
              1950,
            ]);
        });
      }
    // Past the end by more than both bodies it meets nothing.
    const off = [
      [4050 * MM, 50 * MM],
      [6000 * MM, 50 * MM],
      [6000 * MM, 3060 * MM],
      [4050 * MM, 3060 * MM],
    ];
    checkEdit(house(), chain({ points: off, closed: false, hand: 'right' }), (after) =>
      expect(walkLevel(after, level(after)).rooms).toHaveLength(1),
    );
  });

  test('[ED18] a half wall is carried on as high as it is, at either end', () => {
    const plan = planOf({ a: [0, 0], b: [0, 3000 * MM] }, { w1: ['a-b', 100 * MM] });
    const [bare] = plan.levels;
    const walls = Object.fromEntries(
      Object.entries(bare!.walls).map(([id, wall]) => [id, { ...wall, height: 1000 * MM }]),
    );
    const half = prepared({ ...plan, levels: [{ ...bare!, walls }] } as Plan);
    const line = [
      [0, -30 * MM],
      [2000 * MM, -30 * MM],
      [2000 * MM, 3030 * MM],
      [0, 3030 * MM],
    ];
    checkEdit(half, chain({ points: line, closed: false, along: 'centre', hand: 'right' }), (after) => {
      const { walls: now, nodes } = level(after);
      const low = Object.values(now).filter(({ height }) => height === 1000 * MM);
      expect(low.map(({ from, to }) => [nodes[from]![1], nodes[to]![1]].map((y) => y / MM)).sort()).toEqual([
        [0, -30],
        [0, 3000],
        [3000, 3030],
      ]);
      expect(walkLevel(after, level(after)).rooms).toHaveLength(1);
    });
  });

  test('[ED18] past a wall’s end it is joined to a thinner wall that goes on from there, which stays as it is', () => {
    const step = prepared(
      planOf(
        { a: [0, 0], b: [3000 * MM, 0], c: [6000 * MM, 0] },
        { w1: ['a-b', 200 * MM], w2: ['b-c', 100 * MM] },
      ),
    );
    for (const [along, x] of [
      ['inside', 3000],
      ['centre', 3050],
      ['outside', 3100],
    ] as const) {
      const line = [
        [x * MM, 2000 * MM],
        [x * MM, 100 * MM],
      ];
      const drawn = chain({ points: line, closed: false, along, hand: 'left', thickness: 100 * MM });
      checkEdit(step, drawn, (after, { notes }) => {
        const { walls, nodes } = level(after);
        const thick = Object.values(walls).filter(({ thickness }) => thickness === 200 * MM);
        expect(thick.map(({ from, to }) => [nodes[from], nodes[to]])).toEqual([
          [
            [0, 0],
            [3000 * MM, 0],
          ],
        ]);
        expect(Object.keys(walls), along).toHaveLength(4);
        expect(notes).toEqual([]);
      });
    }
  });

  test('[ED18] what rounding leaves past a wall’s end is taken as that end', () => {
    const line = [
      [4000 * MM, 0],
      [6000 * MM, 0],
      [6000 * MM, 3000 * MM + 2],
      [4000 * MM, 3000 * MM + 2],
    ];
    checkEdit(house(), chain({ points: line, closed: false, along: 'centre', hand: 'right' }), (after) => {
      expect(Object.keys(level(after).walls)).toHaveLength(7);
      expect(walkLevel(after, level(after)).rooms).toHaveLength(2);
    });
  });

  test('[ED18] a rectangle by any two corners; one without floor is refused', () => {
    const by = (from: number[], to: number[], along = 'inside') =>
      edit({
        type: 'addRoomByCorners',
        from,
        to,
        along,
        thickness: 100 * MM,
        room: { id: 'r1', record: { name: 'Den' } },
      });
    for (const [from, to] of [
      [points[0]!, points[2]!],
      [points[2]!, points[0]!],
      [points[1]!, points[3]!],
    ] as const) {
      checkEdit(empty(), by(from, to), (after) => expect(sizes(after)).toEqual([[3000, 4000, 3000, 4000]]));
    }
    expect(code(empty(), by([0, 0], [0, 500 * MM]))).toBe('no-length');
    expect(code(empty(), by([0, 0], [200 * MM, 500 * MM], 'outside'))).toBe('no-length');
    expect(code(empty(), by([0, 0], [100 * MM, 500 * MM], 'centre'))).toBe('no-length');
    expect(code(empty(), by([0, 0], [Number.NaN, 500 * MM]))).toBe('bad-number');
    expect(code(house(), by(points[0]!, points[2]!))).toBe('id-taken');
  });

  test('[ED18] a room drawn against another shares its wall', () => {
    const next = {
      type: 'addRoomByCorners',
      from: [4050 * MM, 50 * MM],
      to: [6000 * MM, 2950 * MM],
      along: 'inside',
      thickness: 100 * MM,
    };
    checkEdit(house(), edit(next), (after) => {
      expect(Object.keys(level(after).walls)).toHaveLength(7);
      expect(sizes(after)).toEqual([
        [2900, 3900, 2900, 3900],
        [2900, 1950, 2900, 1950],
      ]);
    });
    expect(code(empty(), chain({ points: [[0, 0]], closed: false }))).toBe('no-point');
    expect(code(empty(), chain({ thickness: 0 }))).toBe('bad-number');
    expect(code(empty(), chain({ ids: { walls: ['a', 'a'] } }))).toBe('id-taken');
  });
});

describe('copies', () => {
  const walls = ['w1', 'w2', 'w3', 'w4'];
  const part = (ids: readonly string[] = walls, plan = house()) =>
    copiedPart(level(plan), ids as WallId[], plan);
  const paste = (place: object, more: object = {}) =>
    edit({ type: 'pasteWalls', source: part(), place: { by: [0, 0], ...place }, ...more });

  test('[ED21] a room beside itself: what stands on its walls and its record come along, measures do not', () => {
    checkEdit(house(), paste({ by: [6000 * MM, 0] }), (after) => {
      expect(of(after).openings!.o2).toEqual({ ...of(after).openings!.o1, wall: 'w5' });
      expect(of(after).builtIns!.b2).toEqual({ ...tub, wall: 'w6' });
      expect(of(after).marks!.k2).toEqual({ ...outlet, wall: 'w7' });
      expect(of(after).rooms!.r2).toEqual({
        name: 'Hall',
        at: [8000 * MM, 1500 * MM],
        entry: 'o2',
        trim: { base: 'p1' },
      });
      expect(of(after).faces).toEqual(of(house()).faces);
      expect(after.counters.corner).toBe(8);
    });
  });

  test('[ED21] mirrored and turned: left is right, and quarter turns are exact', () => {
    checkEdit(house(), paste({ mirror: true, about: [-1000 * MM, 0] }), (after) => {
      expect(level(after).nodes).toMatchObject({ n5: [-2000 * MM, 0], n6: [-6000 * MM, 0] });
      expect(of(after).builtIns!.b2).toMatchObject({ side: 'left', at: 0 });
      const room = walkLevel(after, level(after)).rooms.find(({ id }) => id === 'r2')!;
      const of1 = room.loops[0]!.segments.flatMap(({ openings, builtIns, marks }) => [
        ...openings,
        ...builtIns,
        ...marks,
      ]);
      expect(of1.map(({ id }) => id).sort()).toEqual(['b2', 'k2', 'o2']);
    });
    checkEdit(house(), paste({ turnDeg: 270, about: [-1000 * MM, 0], by: [-9000 * MM, 0] }), (after) =>
      expect(level(after).nodes).toMatchObject({
        n5: [-10000 * MM, -1000 * MM],
        n6: [-10000 * MM, -5000 * MM],
      }),
    );
  });

  test('[ED21] names given in the edit are used; wrong ones, no walls and no level are refused', () => {
    const ids = { walls: { w1: 'x1' }, openings: { o1: 'x2' }, rooms: { r1: 'constructor' } };
    checkEdit(house(), paste({ by: [6000 * MM, 0] }, { ids }), (after) => {
      expect(of(after).openings!.x2).toMatchObject({ wall: 'x1' });
      expect(Object.hasOwn(level(after).rooms, 'constructor')).toBe(true);
    });
    expect(code(house(), paste({}, { ids: { walls: { w1: 'w2' } } }))).toBe('id-taken');
    expect(code(house(), paste({}, { ids: { walls: { w1: 'x', w2: 'x' } } }))).toBe('id-taken');
    expect(code(house(), paste({}, { source: part([]) }))).toBe('no-walls');
    expect(code(house(), paste({}, { source: { ...part(), nodes: {} } }))).toBe('no-node');
    const noDoorWall = { ...part(['w2']), openings: level(house()).openings };
    expect(code(house(), paste({}, { source: noDoorWall }))).toBe('no-wall');
    expect(code(house(), paste({}, { level: 'L9' }))).toBe('no-level');
    expect(code(house(), paste({ turnDeg: Number.POSITIVE_INFINITY }))).toBe('bad-number');
  });

  test('[ED21] on itself a copy changes no wall; a copy to another level keeps the place', () => {
    checkEdit(house(), paste({}), (after) => expect(Object.keys(level(after).walls)).toEqual(walls));
    const add = edit({ type: 'addLevel', level: 'L2', record: { name: 'Upper', ceilingHeight: 2400 * MM } });
    const two = checkEdit(house(), add).plan;
    checkEdit(two, { ...paste({}), level: 'L2' } as Edit, (after) => {
      expect(after.levels[1]!.walls).toMatchObject({ w1: { thickness: 100 * MM } });
      expect(Object.values(after.levels[1]!.corners).map(({ number }) => number)).toEqual([5, 6, 7, 8]);
      expect(after.levels[1]!.rooms).toMatchObject({ r1: { name: 'Hall', entry: 'o1' } });
    });
  });

  test('[ED21] what was copied is put down as it was, whatever became of it', () => {
    const copied = paste({});
    const changes = [
      edit({ type: 'deleteWall', wall: 'w1', also: ['w2', 'w3', 'w4'] }),
      edit({ type: 'moveWall', wall: 'w2', by: [700 * MM, 0] }),
      edit({ type: 'deleteOpening', opening: 'o1' }),
    ];
    for (const change of changes) {
      const changed = checkEdit(house(), change).plan;
      const away = { ...copied, place: { by: [9000 * MM, 0] } } as Edit;
      checkEdit(changed, away, (after) => {
        const fresh = walkLevel(after, level(after)).rooms.at(-1)!;
        expect(fresh.name).toBe('Hall');
        expect(fresh.loops[0]!.segments.map(({ drawn }) => drawn / MM)).toEqual([2900, 3900, 2900, 3900]);
        expect(fresh.loops[0]!.segments.flatMap(({ openings }) => openings)).toHaveLength(1);
        expect(after.counters.corner).toBe(changed.counters.corner + 4);
      });
    }
  });

  test('[ED21] a profile that is gone since is left out, with a note', () => {
    const source = part();
    const bare = checkEdit(house(), edit({ type: 'deleteProfile', profile: 'p1', instead: 'p2' })).plan;
    const done = checkEdit(bare, paste({ by: [6000 * MM, 0] }, { source }), (after) =>
      expect(of(after).rooms!.r2).toMatchObject({ name: 'Hall', trim: { base: null } }),
    );
    expect(done.notes).toMatchObject([
      { message: 'Profile p1 is no more: what is pasted goes without it.', loses: 'new' },
    ]);
  });

  test('[ED21] of a part only the rooms that the copied walls go round whole are copied', () => {
    expect(Object.keys(part().rooms)).toEqual(['r1']);
    expect(part(['w1', 'w2'])).toMatchObject({ rooms: {}, faces: {}, corners: {} });
  });
});

test('[ED22] several edits are one step: all or none', () => {
  const plan = house();
  const edits = [
    edit({ type: 'deleteWall', wall: 'w4' }),
    edit({ type: 'changeOpening', opening: 'o1', set: { at: 5 } }),
    edit({ type: 'setPlan', set: { title: 'T' } }),
  ];
  checkEdit(plan, { type: 'several', edits }, (after) => {
    expect(after.title).toBe('T');
    expect(Object.keys(level(after).walls)).toEqual(['w1', 'w2', 'w3']);
  });
  const bad = edit({ type: 'deleteWall', wall: 'w9' });
  expect(code(plan, { type: 'several', edits: [...edits, bad] })).toBe('no-wall');
  expect(checkEdit(plan, { type: 'several', edits: [] }).plan).toBe(plan);
});

test('[ED23] edits are named in plain words', () => {
  const plan = house();
  const words = (value: object) => wordsOf(edit(value), plan);
  expect(words({ type: 'moveWall', wall: 'w1', by: [0, 0] })).toBe('move wall');
  expect(
    words({ type: 'setCorner', corner: 'n2:w1>w2', set: { lines: { base: { coped: 'before' } } } }),
  ).toBe('cope corner 2 the other way');
  expect(words({ type: 'setCorner', corner: 'n2:w1>w2', set: { lines: { base: { joint: 'mitre' } } } })).toBe(
    'mitre corner 2',
  );
  expect(words({ type: 'setCorner', corner: 'n2:w1>w2', set: { lines: { base: null } } })).toBe(
    'corner 2 back to the rule',
  );
  const lines = (base: object | null, shoe: object | null) =>
    words({ type: 'setCorner', corner: 'n2:w1>w2', set: { lines: { base, shoe } } });
  expect(lines(null, null)).toBe('corner 2 back to the rule');
  expect(lines({ coped: 'before' }, { coped: 'after' })).toBe('cope corner 2 the other way');
  expect(lines({ joint: 'mitre' }, null)).toBe('change corner 2');
  expect(words({ type: 'setCorner', corner: 'n2:w1>w2', set: { measured: 91 } })).toBe(
    'measured angle of corner 2',
  );
  expect(words({ type: 'changeOpening', opening: 'o1', set: { at: 4 } })).toBe('move door');
  expect(words({ type: 'changeOpening', opening: 'o1', set: { wall: 'w2', at: 4 } })).toBe(
    'move door to another wall',
  );
  expect(words({ type: 'changeOpening', opening: 'gone', set: { width: 4 } })).toBe('change opening');
  expect(words({ type: 'setTrim', of: { room: 'r1' }, lines: { base: { profile: 'p2' } } })).toBe(
    'Other in Hall',
  );
  expect(words({ type: 'changeRoom', room: 'r1', set: { name: 'Den' } })).toBe('rename room Hall to Den');
  expect(words({ type: 'several', edits: [{ type: 'moveWall' }] })).toBe('move wall');
});

test('[ED25] what a gesture shows is what the edit leaves where nothing is mended; else walls may cross', () => {
  const plan = house();
  const show = (value: object) => preview(plan, edit(value) as WallEdit);
  for (const value of [
    { type: 'moveNode', node: 'n1', to: [-500 * MM, 0] },
    { type: 'moveNode', node: 'n2', to: [1500 * MM, 0] },
    { type: 'moveWall', wall: 'w2', by: [300 * MM, 0] },
    { type: 'changeWalls', walls: ['w1'], set: { thickness: 200 * MM } },
  ]) {
    const [shown, done] = [show(value), apply(plan, edit(value))];
    if (!shown.ok || !done.ok) throw new Error('refused');
    for (const map of ['nodes', 'walls', 'openings', 'builtIns', 'marks'] as const) {
      expect(shown.level[map]).toEqual(level(done.plan)[map]);
    }
  }
  const across = {
    type: 'addWall',
    wall: 'w9',
    from: { id: 'p', at: [MM, -MM] },
    to: { id: 'q', at: [MM, 9000 * MM] },
    thickness: 20,
  };
  const shown = show(across);
  expect(shown.ok && Object.keys(shown.level.walls)).toEqual(['w1', 'w2', 'w3', 'w4', 'w9']);
  expect(show({ ...across, level: 'L9' })).toMatchObject({ ok: false, code: 'no-level' });
  expect(show({ type: 'moveNode', node: 'x', to: [0, 0] })).toMatchObject({ ok: false, code: 'no-node' });
});
