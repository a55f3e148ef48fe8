// Which joint a corner gets and which board is worked, on walked rooms. Source of the table: square base butts inside and
// mitres outside, moulded base and shoe cope inside and mitre outside (US Navy training manual NAVEDTRA 14044); the
// limits of 80° and 100° and the least length of a cope are ours.

import { describe, expect, test } from 'vitest';
import { letters } from '../../../core/trim/boards.ts';
import { casingsOf, trimRoom } from '../../../core/trim/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { door, housePlan, joint, L_SHAPE, lineOf, piece, piecesOf, RECTANGLE, trimOf } from './houses.ts';

const base = (more: Record<string, unknown>) => ({ lines: { base: more } });

describe('the table', () => {
  test.each([
    [79.9, 'mitre'],
    [80, 'cope'],
    [100, 'cope'],
    [100.1, 'mitre'],
  ])('[JT2] shaped stock inside at %d° is a %s', (measured, how) => {
    expect(joint(trimOf(RECTANGLE, { corners: { 2: { measured } } }), 2)!.joint).toBe(how);
  });

  test('[JT2] the limits take the plain angle, not the one with build-up', () => {
    // Drawn 98, drywall, build-up 10: used 108, still a cope, set at (180 − 108)/2 = 36.
    // tan 8° × 3000 = 421.622.
    const lean = [
      [0, 0],
      [4000, 0],
      [4421.622, 3000],
      [0, 3000],
    ] as const;
    const trim = trimOf(lean, { surface: 'drywall', settings: { buildUpDeg: 10 } });
    expect(joint(trim, 2)!.joint).toBe('cope');
    expect(joint(trim, 2)!.sawDeg).toBeCloseTo(36, 3);
    expect(trim.angles[0]![1]!.plain).toBeCloseTo(98, 3);
    expect(trim.angles[0]![1]!.used).toBeCloseTo(108, 3);
  });

  test('[CN11, CN12] no allowance with one face of plaster, nor on a measured corner', () => {
    const trim = trimOf(RECTANGLE, {
      surface: 'drywall',
      surfaces: { 1: 'plaster' },
      corners: { 3: { measured: 91 } },
    });
    const at = (number: number) =>
      trim.angles[0]![trim.room.loops[0]!.corners.findIndex((corner) => corner.number === number)]!;
    expect(at(1).allowance).toBe(0);
    expect(at(2).allowance).toBe(0);
    expect(at(3)).toMatchObject({ measured: 91, allowance: 0, used: 91, plain: 91 });
    expect(at(4)).toMatchObject({ allowance: 1.5, used: 91.5, plain: 90 });
  });

  test('[CN13] outside the allowance is taken off; the angle used is at most 180', () => {
    const trim = trimOf(L_SHAPE, { surface: 'drywall' });
    const four = trim.room.loops[0]!.corners.findIndex((corner) => corner.number === 4);
    expect(trim.angles[0]![four]).toMatchObject({ drawn: 90, allowance: -1.5, used: 88.5 });
    const bay = trimOf(
      [
        [0, 0],
        [2000, -10],
        [4000, 0],
        [4000, 3000],
        [0, 3000],
      ],
      { surface: 'drywall' },
    );
    const flat = bay.room.loops[0]!.corners.findIndex((corner) => corner.number === 2);
    expect(bay.angles[0]![flat]!.drawn).toBeCloseTo(179.427, 3);
    expect(bay.angles[0]![flat]!.used).toBe(180);
    expect(joint(bay, 2)).toMatchObject({ joint: 'mitre', sawDeg: 0 });
  });

  test('[JT4] what the user chose comes first, and is given as theirs', () => {
    const trim = trimOf(RECTANGLE, {
      corners: {
        1: base({ coped: 'before' }),
        2: base({ joint: 'butt', coped: 'before' }),
        3: base({ joint: 'block' }),
      },
    });
    expect(joint(trim, 1)).toMatchObject({ joint: 'cope', coped: 'before', chosenBy: 'user' });
    expect(joint(trim, 2)).toMatchObject({ joint: 'butt', coped: 'before', chosenBy: 'user' });
    expect(joint(trim, 3)).toMatchObject({ joint: 'block', chosenBy: 'user' });
    expect(joint(trim, 4)).toMatchObject({ chosenBy: 'rule' });
    expect(lineOf(trim).runs).toHaveLength(1);
    expect(lineOf(trim).runs[0]).toMatchObject({ closed: false });
    expect(lineOf(trim).runs[0]!.pieces.map((each) => each.id)).toEqual(['3A', '4A', '1A', '2A']);
  });

  test('[JT3] a cope at an outside corner cannot be made: the rule stands and says so', () => {
    const trim = trimOf(L_SHAPE, { corners: { 4: base({ joint: 'cope' }) } });
    expect(joint(trim, 4)).toMatchObject({ joint: 'mitre', chosenBy: 'rule' });
    expect(joint(trim, 4)!.why).toContain('the cope you chose cannot be made at an outside corner');
  });

  test('[JT5, JT6] two profiles: a block; coped by choice, the taller runs through unless the user says', () => {
    const faces = { 2: { trim: { base: 'thick' } } };
    expect(joint(trimOf(RECTANGLE, { faces }), 2)).toMatchObject({ joint: 'block', differs: true });
    const cope = trimOf(RECTANGLE, { faces, corners: { 2: base({ joint: 'cope' }) } });
    expect(joint(cope, 2)).toMatchObject({ joint: 'cope', coped: 'before', differs: true });
    expect(joint(cope, 2)!.why).toContain('because it is the taller');
    const told = trimOf(RECTANGLE, { faces, corners: { 2: base({ joint: 'cope', coped: 'after' }) } });
    expect(joint(told, 2)).toMatchObject({ coped: 'after' });
  });
});

describe('length of a cope', () => {
  /** A recess 140 deep between corners 3 and 4: the two short boards are under 152.4. */
  const recess = [
    [0, 0],
    [4000, 0],
    [4000, 1000],
    [4140, 1000],
    [4140, 2000],
    [4000, 2000],
    [4000, 3000],
    [0, 3000],
  ] as const;

  test('[JT2] never on a board whose back is under 6 in: the other board is coped', () => {
    const trim = trimOf(recess);
    // 3A and 5A are 140 long; each meets 4A inside.
    expect(joint(trim, 4)).toMatchObject({ joint: 'cope', coped: 'after' });
    expect(joint(trim, 5)).toMatchObject({ joint: 'cope', coped: 'before' });
    expect(joint(trim, 4)!.why).toContain('too short to cope');
    expect(piece(trim, '3A').right).toMatchObject({ end: 'square', through: true });
  });

  test('[JT2] both short: a mitre, and it is told', () => {
    // The recess narrowed to 120 between its sides: all three boards are short.
    const narrow = recess.map(([x, y]) => [x, y === 2000 ? 1120 : y] as const);
    const trim = trimOf(narrow, { units: 'imperial' });
    for (const number of [4, 5]) {
      expect(joint(trim, number)).toMatchObject({
        joint: 'mitre',
        copeShort: true,
        chosenBy: 'rule',
        coped: null,
      });
    }
    expect(joint(trim, 4)!.why).toBe(
      'mitre: inside 90° drawn, but boards 3A and 4A are both under 6", too short to cope',
    );
    // A cope the user chose is made all the same.
    const told = trimOf(narrow, { corners: { 4: base({ joint: 'cope' }) } });
    expect(joint(told, 4)).toMatchObject({ joint: 'cope', copeShort: false });
  });
});

describe('which board is worked', () => {
  test('[WB4] boards that face the entry run through', () => {
    // The door is in wall 3 below; wall 1 faces it. Square 3000 × 3000: all lengths alike.
    const square = RECTANGLE.map(([x, y]) => [x === 0 ? 0 : 3000, y] as const);
    const trim = trimOf(square, { openings: { o1: door(3, 1100) }, room: { entry: 'o1' } });
    expect(joint(trim, 1)).toMatchObject({ coped: 'before' });
    expect(joint(trim, 2)).toMatchObject({ coped: 'after' });
    expect(joint(trim, 2)!.why).toContain('board 1A runs through because it faces the entry');
  });

  test('[WB2] user choices that make a circle are told, and an order is given', () => {
    const all = base({ coped: 'after' });
    const trim = trimOf(RECTANGLE, { corners: { 1: all, 2: all, 3: all, 4: all } });
    expect(lineOf(trim).runs[0]).toMatchObject({ closed: true, circle: true });
    const three = trimOf(RECTANGLE, { corners: { 2: all, 3: all, 4: all } });
    expect(lineOf(three).runs[0]).toMatchObject({ circle: false });
    expect(joint(three, 1)).toMatchObject({ coped: 'before', chosenBy: 'rule' });
    expect(joint(three, 1)!.why).toContain('could not be put up in any order otherwise');
  });

  test('[WB8] a closed run starts at its loop’s first corner', () => {
    const trim = trimOf(RECTANGLE);
    const run = lineOf(trim).runs[0]!;
    expect(run.pieces[0]!.left.at).toEqual({ corner: trim.room.loops[0]!.corners[0] });
    expect(run.pieces.map(({ id }) => id)).toEqual(['1A', '2A', '3A', '4A']);
  });
});

describe('rooms that are not simple', () => {
  test('an island: a free column in the middle is mitred all round', () => {
    const plan = housePlan(RECTANGLE);
    const level = plan.levels[0]!;
    // A free wall 600 long and 100 thick: two ends, four outside corners.
    const nodes = { ...level.nodes, c1: [320 * 500, 320 * 1000], c2: [320 * 1100, 320 * 1000] };
    const walls = { ...level.walls, c: { from: 'c1', to: 'c2', thickness: 32000 } };
    const changed = { ...plan, levels: [{ ...level, nodes, walls }] } as unknown as typeof plan;
    const walk = walkLevel(changed, changed.levels[0]!);
    const trim = trimRoom(changed, walk.rooms[0]!, {});
    const ring = lineOf(trim).runs.find((run) => run.pieces[0]!.segment.loop === 1)!;
    expect(ring).toMatchObject({ closed: true, circle: false });
    expect(ring.pieces.map((each) => each.left.end)).toEqual(['mitre', 'mitre', 'mitre', 'mitre']);
    // Plain sides 600 and 100, faces longer by 12.7·tan 45.75° at each end (drywall, built up).
    const sides = ring.pieces.map((each) => Math.round(each.back / 320)).sort((a, b) => a - b);
    expect(sides).toEqual([100, 100, 600, 600]);
    expect(ring.pieces[0]!.face - ring.pieces[0]!.back).toBeCloseTo(2 * 4064 * 1.0265287, 2);
    // Numberless corners are named by their key.
    expect(ring.pieces.every((each) => each.id.startsWith('?c'))).toBe(true);
    expect(casingsOf(changed, walk)).toEqual([]);
  });

  test('[LN17] a slot too narrow for its boards has none there, and the rest is reckoned again', () => {
    // A slot 10 mm wide: base butts of 12.7 leave nothing of its end.
    const slot = [
      [0, 0],
      [4000, 0],
      [4000, 1000],
      [4500, 1000],
      [4500, 1010],
      [4000, 1010],
      [4000, 3000],
      [0, 3000],
    ] as const;
    const trim = trimOf(slot, {
      thickness: 4,
      trim: { base: 'flat' },
      corners: { 4: base({ joint: 'butt', coped: 'after' }) },
    });
    expect(piecesOf(trim).map((each) => each.id)).not.toContain('4A');
    expect(piecesOf(trim).every((each) => each.overall >= 320)).toBe(true);
    expect(joint(trim, 4)).toBeNull();
    expect(piece(trim, '3A').right).toMatchObject({ end: 'square', through: false });
  });

  test('[LN14] a half wall lower than the base carries none', () => {
    const trim = trimOf(RECTANGLE, { heights: { 2: 100 } });
    expect(piecesOf(trim).map((each) => each.id)).toEqual(['3A', '4A', '1A']);
    expect(piecesOf(trimOf(RECTANGLE, { heights: { 2: 139.7 } }))).toHaveLength(4);
  });
});

test('[LN40] letters go on after Z', () => {
  expect([0, 1, 25, 26, 27, 51, 52, 701, 702].map(letters)).toEqual([
    'A',
    'B',
    'Z',
    'AA',
    'AB',
    'AZ',
    'BA',
    'ZZ',
    'AAA',
  ]);
});
