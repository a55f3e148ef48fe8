// What cannot be kept, in words: the thing and its field by name, what would be right in the plan's units, no word of files.

import { describe, expect, test } from 'vitest';
import { apply, type Edit } from '../../../core/edit/index.ts';
import type { Plan } from '../../../core/plan/index.ts';
import { boxPlan, MM, prepared } from './helpers.ts';

const edit = (value: object): Edit => ({ level: 'L1', ...value }) as unknown as Edit;

const profile = { name: 'P', thickness: 12 * MM, form: 'shaped', material: '', stock: [] };
const CROWN = { ...profile, kind: 'crown', projection: 60 * MM, drop: 60 * MM };

function house(units: Plan['units']): Plan {
  const door = { wall: 'w1', at: 1000 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' };
  const tub = { wall: 'w2', side: 'right', at: 0, width: 600 * MM, bottom: 127 * MM, top: 508 * MM };
  const plan = boxPlan(4000, 3000, {
    openings: { o1: door },
    builtIns: { b1: { ...tub, kind: 'tub' } },
    marks: { k1: { ...tub, kind: 'outlet' } },
    rooms: { r1: { name: 'Hall', at: [2000 * MM, 1500 * MM] } },
  });
  const profiles = {
    p1: { ...profile, kind: 'base', height: 100 * MM },
    c1: { ...profile, kind: 'casing', width: 70 * MM },
    r1: CROWN,
  };
  return prepared({ ...plan, units, profiles } as unknown as Plan);
}

const said = (plan: Plan, value: object): string => {
  const done = apply(plan, edit(value));
  return done.ok ? 'done' : done.message;
};

const CASES: readonly (readonly [object, string, string?])[] = [
  [{ type: 'setSettings', set: { copeMin: -MM } }, 'Setting cope min: it must be at least 0.'],
  [{ type: 'setSettings', set: { shimStep: 0 } }, 'Setting shim step: it must be more than 0.'],
  [{ type: 'setSettings', set: { sawBevelDeg: 181 } }, 'Setting saw bevel deg: it must be at most 180.'],
  [{ type: 'changeLevel', set: { ceilingHeight: 0 } }, 'Level L1, ceiling height: it must be more than 0.'],
  [{ type: 'setPlan', set: { studs: { spacing: 0 } } }, 'Studs, spacing: it must be more than 0.'],
  [{ type: 'changeOpening', opening: 'o1', set: { sill: -1 } }, 'Opening o1, sill: it must be at least 0.'],
  [
    { type: 'changeWalls', walls: ['w1'], set: { thickness: 10_002 * MM } },
    'Wall w1, thickness: it must be at most 32\' 9 45⁄64".',
    'Wall w1, thickness: it must be at most 10000 mm.',
  ],
  [
    { type: 'changeBuiltIn', builtIn: 'b1', set: { top: 25.4 * MM } },
    'Built-in b1, top: the top, 1", lies below the bottom, 5".',
    'Built-in b1, top: the top, 25.4 mm, lies below the bottom, 127 mm.',
  ],
  [
    { type: 'changeRoom', room: 'r1', set: { old: { gap: -1 } } },
    'Room r1, old, gap: it must be at least 0.',
  ],
  [
    { type: 'changeProfile', profile: 'p1', set: { height: null } },
    'Profile p1: this kind of moulding needs its height.',
  ],
  [{ type: 'changeProfile', profile: 'c1', set: { width: null } }, 'Profile c1: a casing needs its width.'],
  [
    { type: 'changeProfile', profile: 'r1', set: { drop: null } },
    'Profile r1: a crown needs projection and drop, or spring angle and one of height, projection, drop.',
  ],
  [
    { type: 'changeProfile', profile: 'r1', set: { springAngle: 90 } },
    'Profile r1, spring angle: it must be less than 90.',
  ],
  [
    { type: 'setStockOnHand', profile: 'p1', boards: [{ length: 0, count: 1 }] },
    'Boards on hand of p1, 1, length: it must be more than 0.',
  ],
];

describe('[ED11] what no file can hold is refused with the thing, its field and what would be right', () => {
  test.each(
    CASES.map(([value, imperial, metric = imperial]) => ({
      name: JSON.stringify(value),
      value,
      imperial,
      metric,
    })),
  )('$name', ({ value, imperial, metric }) => {
    expect(said(house('imperial'), value)).toBe(`This cannot be kept. ${imperial}`);
    expect(said(house('metric'), value)).toBe(`This cannot be kept. ${metric}`);
  });

  test('a place off the sheet is said without ticks', () => {
    const far = { type: 'moveNode', node: 'n1', to: [1_000_001 * MM, 0] };
    expect(said(house('imperial'), far)).toBe(
      'That place lies off the sheet, which reaches 1 km (3,280 ft) from its origin.',
    );
  });

  test('what stands beyond its wall is said with a capital', () => {
    const beyond = { at: 9000 * MM };
    expect(said(house('metric'), { type: 'changeBuiltIn', builtIn: 'b1', set: beyond })).toMatch(
      /^Built-in b1 would stand beyond wall w2/,
    );
    expect(said(house('metric'), { type: 'changeMark', mark: 'k1', set: beyond })).toMatch(
      /^Mark k1 would stand beyond wall w2/,
    );
  });

  test('a room drawn smaller than the smallest that is reckoned is told so, once', () => {
    const plan = prepared({
      ...house('imperial'),
      levels: [{ ...boxPlan(4000, 3000).levels[0]!, nodes: {}, walls: {} }],
    });
    const side = 304.8 * MM;
    const result = apply(
      plan,
      edit({
        type: 'addChain',
        points: [
          [0, 0],
          [side, 0],
          [side, side],
          [0, side],
        ],
        closed: true,
        along: 'inside',
        measured: [side, side, side, side],
        thickness: 114 * MM,
      }),
    );
    expect(result.ok && result.notes.map(({ message }) => message)).toEqual([
      'The walls are as long as you typed, but their floor is less than the smallest room (a job setting): no room is made there, and no length is kept as measured.',
    ]);
  });
});
