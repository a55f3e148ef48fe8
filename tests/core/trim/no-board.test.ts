// Boards that cannot be made, and what the others do then: stubs beside a casing, blocks, nibs; scarfs by the ends a
// stretch can really have; choices of the user that nothing can come of. Hand-worked figures, mm.

import { describe, expect, test } from 'vitest';
import { derive } from '../../../core/report/index.ts';
import {
  door,
  type HouseOptions,
  housePlan,
  joint,
  lineOf,
  piece,
  piecesOf,
  RECTANGLE,
  shape,
  trimOf,
} from './houses.ts';

const base = (more: Record<string, unknown>) => ({ lines: { base: more } });
const OTHER = {
  other: {
    kind: 'base',
    name: 'Other base',
    height: 139.7,
    thickness: 12.7,
    form: 'shaped',
    material: 'pine',
    stock: [],
  },
};
/** A door on wall 1 whose casing begins g from corner 1: hole edge at g + 5 + 69.85. */
const beside = (g: number, more: HouseOptions = {}) =>
  trimOf(RECTANGLE, { ...more, openings: { o1: door(1, g + 74.85) } });
const ids = (trim: ReturnType<typeof trimOf>) => piecesOf(trim).map((each) => each.id);
const why = (trim: ReturnType<typeof trimOf>, line: 'base' | 'shoe' = 'base') =>
  lineOf(trim, line).unmade.map((each) => `${each.corner.number}: ${each.why}`);

describe('a stub that cannot be made', () => {
  test('[JT20, JT21] a mitre, cope or butt chosen where the stub has no room: the other board stops at the casing', () => {
    // g = 5.15 < r = 12.7. 4A: 3000 − 17.4625 = 2982.5375, as beside any stub without room.
    for (const choice of [
      { joint: 'mitre' },
      { joint: 'cope', coped: 'before' },
      { joint: 'cope', coped: 'after' },
      { joint: 'butt' },
    ]) {
      const trim = beside(5.15, { corners: { 1: base(choice), 4: base({ coped: 'before' }) } });
      expect(ids(trim)).toHaveLength(4);
      expect(shape(piece(trim, '4A'))).toMatchObject({ back: 2982.5375, right: 'square 0 -' });
      expect(piece(trim, '4A').right.at).toEqual({ opening: 'o1' });
      expect(joint(trim, 1)).toBeNull();
      expect(why(trim)).toEqual([
        `1: The ${choice.joint} you chose for base cannot be made there: the casing of o1 leaves no room for a board beside it; board 4A ends square against it.`,
      ]);
    }
  });

  test('[JT22, LN17] with room for the other board but not for itself: the other runs through beside the casing', () => {
    // g = 13: a mitred stub has a face of 13 − 12.7 = 0.3 and is not made; 4A clears the casing by 0.3.
    const trim = beside(13, { corners: { 1: base({ joint: 'mitre' }), 4: base({ coped: 'before' }) } });
    expect(lineOf(trim).gone.map((each) => each.key)).toEqual(['corner..o1']);
    expect(shape(piece(trim, '4A'))).toMatchObject({ back: 3000, right: 'square 0 -' });
    expect(piece(trim, '4A').right.at).toHaveProperty('corner');
    expect(why(trim)).toHaveLength(1);
  });

  test('[JT21] at an obtuse corner whose mitred stub cannot be made the other board clears the casing', () => {
    // 101°, g = 10: 12.7 × tan 39.5° = 10.469 > 10. The end's front edge stands 12.7 × sin 101° = 12.46666 along wall 1;
    // cut back d it stands 12.46666 − d × 0.190809: 10 at d = 12.92737, less than 17.4625/sin 101° = 17.78936.
    const trim = beside(10, { corners: { 1: { measured: 101 }, 4: base({ coped: 'before' }) } });
    expect(ids(trim)).toHaveLength(4);
    expect(shape(piece(trim, '4A')).back).toBeCloseTo(3000 - 12.92737, 4);
    expect(piece(trim, '4A').right.at).toEqual({ opening: 'o1' });
  });

  test('[JT21] a casing that fills a corner of 60° stops the other board too', () => {
    // 17.4625/sin 60° + 12.7 × cot 60° = 20.16396 + 7.33235 = 27.49631.
    const trim = beside(0, { corners: { 1: { measured: 60 }, 4: base({ coped: 'before' }) } });
    expect(shape(piece(trim, '4A')).back).toBeCloseTo(3000 - 27.49631, 4);
  });

  test('[JT5, JT20] a block stays where one wall is too short for a board, chosen or by rule, and its finding with it', () => {
    // By rule at g = 20: 20 − 25.4 < 1, no stub; 4A: 3000 − 25.4 at both its blocks = 2949.2.
    const rule = { profiles: OTHER, faces: { 4: { trim: { base: 'other' } } } };
    const trim = beside(20, rule);
    expect(ids(trim)).toHaveLength(4);
    expect(shape(piece(trim, '4A'))).toMatchObject({ back: 2949.2, right: 'block 0 -' });
    expect(joint(trim, 1)).toMatchObject({ joint: 'block', differs: true });
    expect(joint(trim, 1)!.why).toContain('the wall beside it is too short for a board');
    const plan = housePlan(RECTANGLE, { ...rule, openings: { o1: door(1, 94.85) } });
    const told = derive(plan).findings.filter((each) => each.code === 'height-change');
    expect(told.map((each) => each.about[0]).sort()).toEqual(['corner 1', 'corner 4']);
    expect(told[0]!.message).toMatch(/"(Other base|shaped base 12.7)" \(139.7 mm\) meets "/);
    // Chosen at g = 10 < r: 4A 3000 − 25.4, clear of the casing's 17.4625.
    const chosen = beside(10, { corners: { 1: base({ joint: 'block' }), 4: base({ coped: 'before' }) } });
    expect(joint(chosen, 1)).toMatchObject({ joint: 'block', chosenBy: 'user' });
    expect(shape(piece(chosen, '4A'))).toMatchObject({ back: 2974.6, right: 'block 0 -' });
  });

  test('[JT5] a nib between two blocks: no board on it, blocks at both its corners', () => {
    const nib = [
      [0, 0],
      [4000, 0],
      [4000, 3000],
      [2000, 3000],
      [2000, 2980],
      [0, 2980],
    ] as const;
    const trim = trimOf(nib, { profiles: OTHER, faces: { 4: { trim: { base: 'other' } } } });
    expect(ids(trim)).not.toContain('4A');
    expect([joint(trim, 4)?.joint, joint(trim, 5)?.joint]).toEqual(['block', 'block']);
    expect(piece(trim, '3A').right.end).toBe('block');
    expect(piece(trim, '5A').left.end).toBe('block');
  });

  test('[LN17] a return without a back is not made: a shoe stub of 11.3 would have 0.1875', () => {
    // g = 24: g′ = 24 − 12.7 = 11.3 > r′ = 11.1125; returned it has 11.3 − 11.1125 of back. The other shoe runs through.
    const trim = beside(24, { trim: { base: 'shaped', shoe: 'shoe' } });
    expect(ids(trim).filter((id) => id.startsWith('shoe-1'))).toEqual(['shoe-1A', 'shoe-1Ar-left']);
    expect(piece(trim, 'shoe-1A').left.at).toEqual({ opening: 'o1' });
    expect(shape(piece(trim, 'shoe-4A'))).toMatchObject({ back: 2974.6, right: 'square 0 -' });
    for (const each of piecesOf(trim).filter((one) => one.returnOf === null)) {
      expect(Math.min(each.back, each.face, each.overall)).toBeGreaterThanOrEqual(320);
    }
  });

  test('[LN17] of two boards that meet and cannot be made the shorter goes first', () => {
    // Casings 13 and 13.5 from a mitred corner: faces of 0.3 and 0.8. Without the first the second runs through, 13.5 long.
    const trim = trimOf(RECTANGLE, {
      corners: { 1: base({ joint: 'mitre' }) },
      openings: { o1: door(1, 13 + 74.85), o4: door(4, 3000 - 13.5 - 74.85 - 800) },
    });
    expect(lineOf(trim).gone.map((each) => each.segment.key)).toEqual(['w1:right']);
    expect(shape(piece(trim, '4B'))).toMatchObject({ back: 13.5, face: 13.5, right: 'square 0 -' });
  });

  test('[LN33] a given joint that leaves a part without a back parts nothing: the stretch stays one board', () => {
    // The part to the right laps: back 2 − 7.33 < 0.
    const splits = { 'L1|w3:right|base|corner..corner': [3998 * 320] };
    const trim = trimOf(RECTANGLE, {}, splits);
    expect(piece(trim, '3A')).toMatchObject({ parts: 1 });
    expect(ids(trim)).toHaveLength(4);
  });
});

describe('the casing a stub stands beside', () => {
  test('[JT20, JT21] counts with its whole thickness, not its outer edge; a plinth with its own', () => {
    const profiles = {
      case: {
        kind: 'casing',
        name: 'Thin edge',
        width: 69.85,
        thickness: 17.4625,
        edgeThickness: 10,
        form: 'shaped',
        material: 'pine',
        stock: [],
      },
    };
    const corners = { 4: base({ coped: 'before' as const }) };
    expect(shape(piece(beside(5, { profiles, corners }), '4A'))).toMatchObject({ back: 3000 - 17.4625 });
    // A plinth 25 thick and 80 wide, 5 from the corner: hole edge at 5 + 5 + 80.
    const plinth = { width: 80, thickness: 25, height: 200 };
    const trim = trimOf(RECTANGLE, { corners, profiles, openings: { o1: door(1, 90, { plinth }) } });
    expect(shape(piece(trim, '4A'))).toMatchObject({ back: 2975 });
  });

  test('[FD2, JT13] base-proud and the return of a shoe still take the outer edge', () => {
    const profiles = {
      case: {
        kind: 'casing',
        name: 'Thin edge',
        width: 69.85,
        thickness: 30,
        edgeThickness: 12,
        form: 'shaped',
        material: 'pine',
        stock: [],
      },
    };
    const plan = housePlan(RECTANGLE, {
      profiles,
      trim: { base: 'shaped', shoe: 'shoe' },
      openings: { o1: door(1, 1000) },
    });
    expect(derive(plan).findings.find((each) => each.code === 'base-proud')!.figures.stepMm).toBeCloseTo(
      -0.7,
      9,
    );
    // 12.7 + 11.1125 = 23.8125 is past 12, not past 30.
    const trim = trimOf(RECTANGLE, {
      profiles,
      trim: { base: 'shaped', shoe: 'shoe' },
      openings: { o1: door(1, 1000) },
    });
    expect(piece(trim, 'shoe-1A').right.end).toBe('return');
  });
});

describe('scarfs by the ends a stretch can have', () => {
  const sized = (w: number) => RECTANGLE.map(([x, y]) => [x === 0 ? 0 : w, y === 0 ? 0 : 2000] as const);

  test('[LN30] blocks at both ends: 2520 takes 2520 − 50.8 = 2469.2, which a board of 2487.3 holds', () => {
    const faces = { 2: { trim: { base: 'other' } }, 4: { trim: { base: 'other' } } };
    const trim = trimOf(sized(2520), { trim: { base: 'stocked' }, profiles: OTHER, faces });
    expect(piece(trim, '1A')).toMatchObject({ parts: 1 });
    // 2538.2 takes 2487.4: two.
    const over = trimOf(sized(2538.2), { trim: { base: 'stocked' }, profiles: OTHER, faces });
    expect(piece(over, '1A')).toMatchObject({ parts: 2 });
  });

  test('[LN30] a casing filled corner: 3000 − 17.4625 at one end counts', () => {
    // 2500 on wall 4, a casing in corner 1: the worst is 2500 − 17.4625 + 0.79375 = 2483.33 ≤ 2487.3.
    const room = RECTANGLE.map(([x, y]) => [x, y === 0 ? 0 : 2500] as const);
    const trim = trimOf(room, { trim: { base: 'stocked' }, openings: { o1: door(1, 70) } });
    expect(piece(trim, '4A').parts).toBe(1);
    expect(piece(trim, '2A').parts).toBe(2);
  });

  test('[LN30, FD8] a board that might run through is scarfed, and nobody is told that one board would reach', () => {
    const profiles = { flat2: { ...OTHER.other, form: 'flat', stock: [{ length: 2500 }] } };
    const options = { trim: { base: 'flat2' }, profiles };
    // Butted at both ends 1A is 2495 − 25.4, but running through it is 2495 > 2487.3.
    expect(piece(trimOf(sized(2495), options), '1A').parts).toBe(2);
    expect(
      derive(housePlan(sized(2495), options)).findings.filter((each) => each.code === 'joint-in-sight'),
    ).toEqual([]);
  });

  test('[LN30] boards on hand count: one of 4000 spares the scarf in 3000', () => {
    const plan = housePlan(sized(3000), { trim: { base: 'stocked' } });
    const parts = (stockOnHand: object) =>
      derive({ ...plan, stockOnHand } as typeof plan).levels[0]!.trims[0]!.lines[0]!.runs[0]!.pieces.find(
        (each) => each.id === '1A',
      )!.parts;
    expect(parts({})).toBe(2);
    expect(parts({ stocked: [{ length: 4000 * 320, count: 1 }] })).toBe(1);
    expect(parts({ stocked: [{ length: 4000 * 320, count: 0 }] })).toBe(2);
  });
});

describe('choices that nothing can come of', () => {
  test('[JT3] which board is worked, where none is: outside, in a mitre, at a block', () => {
    const L = [
      [0, 0],
      [4000, 0],
      [4000, 2000],
      [2500, 2000],
      [2500, 3500],
      [0, 3500],
    ] as const;
    const trim = trimOf(L, {
      corners: {
        1: { measured: 120, ...base({ coped: 'after' }) },
        2: base({ joint: 'mitre', coped: 'after' }),
        3: base({ joint: 'block', coped: 'after' }),
        4: base({ coped: 'before' }),
      },
    });
    expect(joint(trim, 1)!.why).toContain(
      'you chose which board is worked, but at this angle both are mitred',
    );
    expect(joint(trim, 2)!.why).toContain(
      'you chose which board is worked as well, but in a mitre neither is',
    );
    expect(joint(trim, 3)!.why).toContain('both stop square at the block and neither is');
    expect(joint(trim, 4)!.why).toContain('at an outside corner both are mitred');
  });

  test('[JT3] at a stub without room, in a corner that a casing fills, beside a wall without base', () => {
    expect(why(beside(5.15, { corners: { 1: base({ coped: 'before' }) } }))[0]).toContain(
      'Your choice of the worked base board cannot be followed there: the casing of o1 leaves no room',
    );
    expect(why(beside(-5, { corners: { 1: base({ joint: 'mitre' }) } }))).toEqual([
      '1: The mitre you chose for base cannot be made there: the casing of o1 fills the corner; board 4A ends square against it.',
    ]);
    const bare = trimOf(RECTANGLE, {
      faces: { 1: { trim: { base: null } } },
      corners: { 2: base({ joint: 'mitre' }) },
    });
    expect(why(bare)).toEqual([
      '2: The mitre you chose for base cannot be made there: one of its walls carries no base; board 2A runs through to the wall, square.',
    ]);
    const plan = housePlan(RECTANGLE, {
      openings: { o1: door(1, 70) },
      corners: { 1: base({ joint: 'mitre' }) },
    });
    const told = derive(plan).findings.filter((each) => each.code === 'record-unused');
    expect(told.map((each) => each.about)).toEqual([['corner 1', 'base']]);
    expect(told[0]!.message).toContain('Corner 1: the mitre you chose for base cannot be made there');
  });
});
