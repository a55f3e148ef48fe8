// Boards worked out by hand, in millimetres, the working beside each. Source of the formulas: plane geometry of boards of
// thickness t on walls that meet at α; that joints are made so is common practice, no published source.
// Rectangle: wall 1 is 4000 (board 1A), wall 2 3000, wall 3 4000, wall 4 3000; corner k is at wall k's left end.
// t = 12.7 unless another profile is named. sin 80° = sin 100° = 0.9848078, cot 80° = 0.1763270 = −cot 100°.

import { describe, expect, test } from 'vitest';
import { splitKey } from '../../../core/trim/types.ts';
import {
  door,
  type HouseOptions,
  joint,
  L_SHAPE,
  lineOf,
  piece,
  piecesOf,
  RECTANGLE,
  shape,
  trimOf,
} from './houses.ts';

const base = (more: Record<string, unknown>) => ({ lines: { base: more } });
/** Boards 1A, 2A … each run through at their right end and are worked at their left, save 1A, through at both. */
const ROUND = {
  1: base({ coped: 'before' }),
  2: base({ coped: 'after' }),
  3: base({ coped: 'after' }),
  4: base({ coped: 'after' }),
};

describe('copes', () => {
  test('[LN3] a board coped at both ends: its back is the wall, its face a board less at each end', () => {
    // No choices. One board of a ring must be worked at both ends. The longest boards run through: a short one (2A or 4A)
    // is worked at both ends, a long one (1A or 3A) at none. Of those ways the first in walking order, from corner 1 on,
    // works 1A, 2A and 4A at their left and 2A at its right as well.
    // 2A: back 3000; face 3000 − 12.7 − 12.7 = 2974.6; overall 3000 + max(0, −12.7) twice = 3000. Setting (180 − 90)/2.
    const trim = trimOf(RECTANGLE);
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 3000,
      face: 2974.6,
      overall: 3000,
      left: 'cope 45 back',
      right: 'cope 45 back',
    });
    // 3A runs through at both ends: 4000 whichever way it is measured.
    expect(shape(piece(trim, '3A'))).toEqual({
      back: 4000,
      face: 4000,
      overall: 4000,
      left: 'square 0 -',
      right: 'square 0 -',
    });
  });

  test('[LN3] a cope in a corner measured at 91.5°', () => {
    // m = (180 − 91.5)/2 = 44.25; t·tan 44.25° = 12.7 × 0.9741569 = 12.37179.
    // 2A: back 3000; face 3000 − 12.37179 = 2987.62821; overall 3000. Its right end runs through at 90°: no change.
    const trim = trimOf(RECTANGLE, { corners: { ...ROUND, 2: { ...ROUND[2], measured: 91.5 } } });
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 3000,
      face: 2987.62821,
      overall: 3000,
      left: 'cope 44.25 back',
      right: 'square 0 -',
    });
    expect(joint(trim, 2)).toMatchObject({ joint: 'cope', coped: 'after', sawDeg: 44.25 });
  });

  test('[LN1, LN3] an acute corner: the board that runs through stops short so that its face clears the wall', () => {
    // α = 84 measured: cot 84° = 0.1051042, sin 84° = 0.9945219.
    // 1A, through at its right: −12.7 × 0.1051042 = −1.33482 back and face: 3998.66518.
    // 2A, coped: −(12.7/0.9945219 + 12.7 × 0.1051042) = −(12.76995 + 1.33482) = −14.10478: face 2985.89522.
    const trim = trimOf(RECTANGLE, { corners: { ...ROUND, 2: { ...ROUND[2], measured: 84 } } });
    expect(shape(piece(trim, '1A'))).toEqual({
      back: 3998.66518,
      face: 3998.66518,
      overall: 3998.66518,
      left: 'square 0 -',
      right: 'square 0 -',
    });
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 3000,
      face: 2985.89522,
      overall: 3000,
      left: 'cope 48 back',
      right: 'square 0 -',
    });
  });
});

describe('butts of flat stock', () => {
  const flat = (corners: HouseOptions['corners']) =>
    trimOf(RECTANGLE, { trim: { base: 'flat' }, corners: corners! });

  test('[LN6] square: the thickness of the other board comes off back and face', () => {
    // 2A: −12.7/sin 90° = −12.7 back; face the same, cot 90° = 0: 2987.3 all round.
    expect(shape(piece(flat(ROUND), '2A'))).toEqual({
      back: 2987.3,
      face: 2987.3,
      overall: 2987.3,
      left: 'butt 0 -',
      right: 'square 0 -',
    });
  });

  test('[LN6, LN1, LN2] butted at 80° on its left, running through at 100° on its right', () => {
    // Left, 80°: back −12.7/0.9848078 = −12.89592; face −12.89592 − 12.7 × 0.1763270 = −15.13527; setting 10, back long.
    // Right, 100°, flat and over 95°: back 0, face −12.7 × (−0.1763270) = +2.23935; setting 10, face long.
    // Back 3000 − 12.89592 = 2987.10408. Face 3000 − 15.13527 + 2.23935 = 2987.10408 (80 and 100 make 180: parallel ends).
    // Overall 3000 − 12.89592 + 2.23935 = 2989.34343.
    const trim = flat({ ...ROUND, 2: { ...ROUND[2], measured: 80 }, 3: { ...ROUND[3], measured: 100 } });
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 2987.10408,
      face: 2987.10408,
      overall: 2989.34343,
      left: 'butt 10 back',
      right: 'square 10 face',
    });
    // 1A runs through at 80° on its right: −12.7 × 0.1763270 = −2.23935, square.
    expect(shape(piece(trim, '1A'))).toMatchObject({
      back: 3997.76065,
      face: 3997.76065,
      right: 'square 0 -',
    });
  });

  test('[LN6] butted at 100°: the face is the longer', () => {
    // 3A, left: back −12.89592; face −12.89592 + 2.23935 = −10.65657; setting 10, face long. Right: through at 90°, flat.
    // Back 4000 − 12.89592 = 3987.10408; face and overall 4000 − 10.65657 = 3989.34343.
    const trim = flat({ ...ROUND, 3: { ...ROUND[3], measured: 100 } });
    expect(shape(piece(trim, '3A'))).toEqual({
      back: 3987.10408,
      face: 3989.34343,
      overall: 3989.34343,
      left: 'butt 10 face',
      right: 'square 0 -',
    });
  });
});

describe('mitres', () => {
  test.each([
    // α, setting, t·tan m
    // 90: 12.7 × 1 = 12.7. 135: 12.7 × 0.4142136 = 5.26051. 113.5: (180 − 113.5)/2 = 33.25, 12.7 × 0.6556287 = 8.32648.
    [90, 45, 2987.3],
    [135, 22.5, 2994.73949],
    [113.5, 33.25, 2991.67352],
  ])('[LN4] inside at %d°: back 3000, face shorter by t·tan m', (measured, saw, face) => {
    const corner = { measured, ...(measured === 90 ? base({ joint: 'mitre' }) : {}) };
    const trim = trimOf(RECTANGLE, { corners: { ...ROUND, 2: corner } });
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 3000,
      face,
      overall: 3000,
      left: `mitre ${saw} back`,
      right: 'square 0 -',
    });
  });

  test.each([
    // 3A of the L is 1500 long, its right end the outside corner. 91.5: 12.7 × 0.9741569 = 12.37179.
    [90, 45, 1512.7],
    [135, 22.5, 1505.26051],
    [91.5, 44.25, 1512.37179],
  ])('[LN4] outside at %d°: back 1500, face and overall longer by t·tan m', (measured, saw, face) => {
    const trim = trimOf(L_SHAPE, { corners: { 3: base({ coped: 'before' }), 4: { measured } } });
    // 2A is coped into it at its left, where it runs through at 90°: no change there.
    expect(shape(piece(trim, '3A'))).toEqual({
      back: 1500,
      face,
      overall: face,
      left: 'square 0 -',
      right: `mitre ${saw} face`,
    });
  });

  test('[LN4, LN12] inside at one end, outside at the other: face as long as back, the blank longer than both', () => {
    // 3A of the L: left −12.7, right +12.7. Back 1500, face 1500 − 12.7 + 12.7 = 1500, overall 1500 + 0 + 12.7 = 1512.7.
    const trim = trimOf(L_SHAPE, { corners: { 3: base({ joint: 'mitre' }) } });
    expect(shape(piece(trim, '3A'))).toEqual({
      back: 1500,
      face: 1500,
      overall: 1512.7,
      left: 'mitre 45 back',
      right: 'mitre 45 face',
    });
  });

  test('[LN5, LN10] a forced mitre of a 19.05 board and a 12.7 one, and a block at the other end', () => {
    // 90°: tan m = t2/t. 1A: 19.05/12.7 = 1.5, m = 56.3099, face −12.7 × 1.5 = −19.05: back 4000, face 3980.95.
    // 2A: 12.7/19.05, m = 33.6901, face −19.05 × 0.66667 = −12.7; block at its right: −25.4 both.
    // 2A: back 3000 − 25.4 = 2974.6; face 2974.6 − 12.7 = 2961.9; overall 3000 − 25.4 = 2974.6.
    const trim = trimOf(RECTANGLE, {
      corners: { 1: base({ coped: 'before' }), 2: base({ joint: 'mitre' }), 4: base({ coped: 'after' }) },
      faces: { 2: { trim: { base: 'thick' } } },
    });
    expect(shape(piece(trim, '1A'))).toEqual({
      back: 4000,
      face: 3980.95,
      overall: 4000,
      left: 'square 0 -',
      right: 'mitre 56.3099 back',
    });
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 2974.6,
      face: 2961.9,
      overall: 2974.6,
      left: 'mitre 33.6901 back',
      right: 'block 0 -',
    });
    // Of a mitre of unequal thickness the corner gives the board on the wall walked in on.
    expect(joint(trim, 2)!.sawDeg).toBeCloseTo(56.3099, 4);
    expect(joint(trim, 2)).toMatchObject({ joint: 'mitre', chosenBy: 'user', differs: true });
    expect(joint(trim, 3)).toMatchObject({ joint: 'block', chosenBy: 'rule', differs: true, sawDeg: 0 });
    // 3A: block at its left, through at its right: 4000 − 25.4.
    expect(shape(piece(trim, '3A'))).toMatchObject({ back: 3974.6, face: 3974.6, left: 'block 0 -' });
  });

  test('[LN5] two 90°s apart: at 100° each board of a forced unequal mitre has its own setting', () => {
    // cos 100° = −0.1736482. 1A: (1.5 − 0.1736482)/0.9848078 = 1.346813, m = 53.4063; face −12.7 × 1.346813 = −17.10452.
    // 2A: (0.6666667 − 0.1736482)/0.9848078 = 0.500624, m = 26.5937; face −19.05 × 0.500624 = −9.53689.
    const trim = trimOf(RECTANGLE, {
      corners: { 1: base({ coped: 'before' }), 2: { measured: 100, ...base({ joint: 'mitre' }) } },
      faces: { 2: { trim: { base: 'thick' } } },
    });
    expect(shape(piece(trim, '1A'))).toMatchObject({
      back: 4000,
      face: 3982.89548,
      right: 'mitre 53.4063 back',
    });
    expect(shape(piece(trim, '2A'))).toMatchObject({
      back: 2974.6,
      face: 2965.06311,
      left: 'mitre 26.5937 back',
    });
  });
});

describe('at casings, cabinets and open ends', () => {
  test('[LN7, LN15] a board ends square at a casing: hole, reveal and casing width off the wall', () => {
    // Hole from 1000 to 1800; reveal 5, casing 69.85. 1A: 1000 − 74.85 = 925.15, coped at its left: face 925.15 − 12.7.
    // 1B: 4000 − 1800 − 74.85 = 2125.15, through at its right.
    const trim = trimOf(RECTANGLE, {
      corners: { ...ROUND, 1: base({ coped: 'after' }) },
      openings: { o1: door(1, 1000) },
    });
    expect(shape(piece(trim, '1A'))).toEqual({
      back: 925.15,
      face: 912.45,
      overall: 925.15,
      left: 'cope 45 back',
      right: 'square 0 -',
    });
    expect(piece(trim, '1A').right.at).toEqual({ opening: 'o1' });
    expect(piece(trim, '1A').stretch.key).toBe('corner..o1');
    expect(shape(piece(trim, '1B'))).toMatchObject({ back: 2125.15, face: 2125.15, overall: 2125.15 });
  });

  test('[LN15] a plinth block: the board ends at its edge', () => {
    // Plinth 90 wide: 1000 − 5 − 90 = 905.
    const openings = { o1: door(1, 1000, { plinth: { width: 90, thickness: 22, height: 180 } }) };
    const trim = trimOf(RECTANGLE, { openings });
    expect(piece(trim, '1A').right.at).toEqual({ opening: 'o1' });
    expect(shape(piece(trim, '1A'))).toMatchObject({ back: 905 });
    expect(piece(trim, '1A').stretch.right).toMatchObject({ against: 'plinth', thickness: 22 * 320 });
  });

  test('[LN8] an uncased passage: the end is returned, with a return piece', () => {
    // 1A: L 1000; its right end back −12.7, face 0; its left runs through. Back 987.3, face 1000, overall 1000.
    // The return: outer face 12.7, back 0, mitred at its left toward 1A, square at the wall.
    const options: HouseOptions = {
      corners: ROUND,
      openings: { o1: door(1, 1000, { kind: 'passage', casing: null, reveal: null }) },
    };
    const trim = trimOf(RECTANGLE, options);
    expect(shape(piece(trim, '1A'))).toEqual({
      back: 987.3,
      face: 1000,
      overall: 1000,
      left: 'square 0 -',
      right: 'return 45 face',
    });
    const little = piece(trim, '1Ar-right');
    expect(shape(little)).toEqual({
      back: 0,
      face: 12.7,
      overall: 12.7,
      left: 'return 45 face',
      right: 'square 0 -',
    });
    expect(little).toMatchObject({ L: 0, returnOf: '1A', left: { at: { piece: '1A' } } });
    expect(piece(trim, '1Br-left')).toMatchObject({ right: { end: 'return' }, returnOf: '1B' });
    // Held back 3.175 from the edge: back 1000 − 12.7 − 3.175 = 984.125, face and overall 996.825.
    expect(
      shape(piece(trimOf(RECTANGLE, { ...options, settings: { returnHold: 3.175 } }), '1A')),
    ).toMatchObject({
      back: 984.125,
      face: 996.825,
      overall: 996.825,
    });
  });

  test('[JT12, LN9] a hearth that is scribed to: half an inch is left on', () => {
    // Hearth from 1000 to 2200 on wall 1: 1A is 1000 + 12.7 at its right.
    const hearth = { wall: 'w1', side: 'right', at: 1050, width: 1200, bottom: 0, top: 500, kind: 'hearth' };
    const trim = trimOf(RECTANGLE, { corners: ROUND, builtIns: { b1: { ...hearth, ends: 'scribe' } } });
    expect(shape(piece(trim, '1A'))).toMatchObject({ back: 1012.7, face: 1012.7, overall: 1012.7 });
    expect(piece(trim, '1A').right).toMatchObject({ end: 'scribe', at: { builtIn: 'b1' } });
  });

  test('[JT14, JT15] the next face carries no base: inside it runs through, to masonry it is scribed', () => {
    const bare = { faces: { 2: { trim: { base: null } } } };
    expect(shape(piece(trimOf(RECTANGLE, bare), '1A'))).toMatchObject({ back: 4000, right: 'square 0 -' });
    // Masonry: 12.7 is left on, 4012.7.
    const stone = trimOf(RECTANGLE, { ...bare, surfaces: { 2: 'masonry' } });
    expect(shape(piece(stone, '1A'))).toMatchObject({ back: 4012.7, overall: 4012.7, right: 'scribe 0 -' });
    // Outside: returned at the corner. 3A of the L: back 1500 − 12.7, face 1500.
    const outside = trimOf(L_SHAPE, {
      corners: { 3: base({ coped: 'before' }) },
      faces: { 4: { trim: { base: null } } },
    });
    expect(shape(piece(outside, '3A'))).toMatchObject({ back: 1487.3, right: 'return 45 face' });
    expect(joint(outside, 4)).toBeNull();
  });
});

describe('stubs beside a casing', () => {
  // A door on wall 1 whose casing ends g short of corner 2: hole edge at 4000 − g − 74.85.
  const stub = (g: number, corners: HouseOptions['corners'] = {}, more: HouseOptions = {}) =>
    trimOf(RECTANGLE, {
      corners: { 3: base({ coped: 'after' }), ...corners },
      openings: { o1: door(1, 4000 - g - 74.85 - 800) },
      ...more,
    });

  test('[JT21] too little room (10 < r = 12.7): no stub, the other board ends against the casing', () => {
    // 2A: −(17.4625/sin 90° + 0) = −17.4625: 2982.5375.
    const trim = stub(10);
    expect(piecesOf(trim).map((each) => each.id)).not.toContain('1B');
    expect(shape(piece(trim, '2A'))).toEqual({
      back: 2982.5375,
      face: 2982.5375,
      overall: 2982.5375,
      left: 'square 0 -',
      right: 'square 0 -',
    });
    expect(piece(trim, '2A').left.at).toEqual({ opening: 'o1' });
    expect(joint(trim, 2)).toBeNull();
  });

  test('[JT21] in a corner of 80°, 15 < r = 15.975', () => {
    // r = 12.7/0.9848078 + max(12.7, 17.4625) × 0.1763270 = 12.89592 + 3.07911 = 15.97503.
    // 2A: −(17.4625/0.9848078 + 12.7 × 0.1763270) = −(17.73189 + 2.23935) = −19.97124: 2980.02876.
    const trim = stub(15, { 2: { measured: 80 } });
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 2980.02876, face: 2980.02876 });
    // 16 is room enough: a stub, and 2A is coped.
    expect(shape(piece(stub(16, { 2: { measured: 80 } }), '2A')).left).toBe('cope 50 back');
  });

  test('[JT22] exactly enough (12.7): no stub, the other board runs through beside the casing', () => {
    const trim = stub(12.7);
    expect(piecesOf(trim).map((each) => each.id)).not.toContain('1B');
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 3000, face: 3000, left: 'square 0 -' });
    expect(piece(trim, '2A').left.at).toHaveProperty('corner');
  });

  test('[JT23] room for one (50): the stub runs through square, the other board is coped into it', () => {
    // 1B: 50 all round. 2A: back 3000, face 2987.3.
    const trim = stub(50);
    expect(shape(piece(trim, '1B'))).toEqual({
      back: 50,
      face: 50,
      overall: 50,
      left: 'square 0 -',
      right: 'square 0 -',
    });
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 3000, face: 2987.3, left: 'cope 45 back' });
    expect(joint(trim, 2)!.why).toContain(
      'board 1B runs through because it is a stub beside the casing of o1',
    );
  });

  test('[JT23] flat stock is butted into the stub, never the stub into it', () => {
    const trim = stub(50, {}, { trim: { base: 'flat' } });
    expect(piece(trim, '1B').right).toMatchObject({ end: 'square', through: true });
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 2987.3, left: 'butt 0 -' });
  });

  test('[JT21] a casing that fills the corner leaves no stub either', () => {
    // Hole edge 30 from the corner: the casing would reach 44.85 past it.
    const trim = stub(-44.85);
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 2982.5375 });
    expect(piece(trim, '2A').left.at).toEqual({ opening: 'o1' });
  });

  test('[JT24] other corners mitre whatever the gap is', () => {
    // At 101° the mitre takes 12.7 × tan 39.5° = 10.469 off the stub's face: 12 leaves 1.531, a board.
    const trim = stub(12, { 2: { measured: 101 } });
    expect(piece(trim, '1B').right.end).toBe('mitre');
    expect(shape(piece(trim, '1B')).face).toBeCloseTo(1.531, 3);
  });
});

describe('scarfs', () => {
  // Stock 2500 less 12.7 to trim its ends: 2487.3 at most. t·tan 30° = 12.7 × 0.5773503 = 7.33235.
  const options: HouseOptions = { trim: { base: 'stocked' }, corners: ROUND };

  test('[LN11, LN30, LN32] two equal parts; without an entry the right one laps', () => {
    // 3A, 2000: coped at its left (face −12.7), under at its right (back +7.33235).
    //   back 2007.33235, face 1987.3, overall 2000 + 0 + 7.33235 = 2007.33235.
    // 3B, 2000: laps at its left (back −7.33235), through at its right: back 1992.66765, face 2000, overall 2000.
    const trim = trimOf(RECTANGLE, options);
    expect(shape(piece(trim, '3A'))).toEqual({
      back: 2007.33235,
      face: 1987.3,
      overall: 2007.33235,
      left: 'cope 45 back',
      right: 'scarf 30 back',
    });
    expect(shape(piece(trim, '3B'))).toEqual({
      back: 1992.66765,
      face: 2000,
      overall: 2000,
      left: 'scarf 30 face',
      right: 'square 0 -',
    });
    expect(piece(trim, '3A').right).toMatchObject({ lap: 'under', at: { piece: '3B' } });
    // The piece that lies under goes up first.
    expect(piece(trim, '3A').order).toBeLessThan(piece(trim, '3B').order);
  });

  test('[LN32] the piece nearer the entry laps', () => {
    // A door at 200 on wall 1: in the plan above 3B, whose middle is at x = 1000, nearer than that of 3A at 3000 …
    const nearRight = trimOf(RECTANGLE, {
      ...options,
      openings: { o1: door(1, 200) },
      room: { entry: 'o1' },
    });
    expect(piece(nearRight, '3B').left.lap).toBe('laps');
    // … and at 3000 above 3A.
    const nearLeft = trimOf(RECTANGLE, {
      ...options,
      openings: { o1: door(1, 3000) },
      room: { entry: 'o1' },
    });
    expect(piece(nearLeft, '3A').right.lap).toBe('laps');
    expect(piece(nearLeft, '3B').left.lap).toBe('under');
  });

  test('[LN33] joints that stock asks for stand instead of equal parts', () => {
    const key = splitKey('L1' as never, 'w3:right' as never, 'base', 'corner..corner');
    const trim = trimOf(RECTANGLE, options, { [key]: [1500 * 320] });
    expect(piece(trim, '3A').L).toBe(1500 * 320);
    expect(piece(trim, '3B').L).toBe(2500 * 320);
    expect(piece(trimOf(RECTANGLE, options, { [key]: [] }), '3A')).toMatchObject({ parts: 1, L: 4000 * 320 });
  });

  test('[LN31] no scarf where the profile allows none or has no stock', () => {
    const profiles = {
      stocked: {
        kind: 'base',
        name: 'x',
        height: 100,
        thickness: 12,
        form: 'shaped',
        material: 'pine',
        stock: [{ length: 2500 }],
        scarf: false,
      },
    };
    expect(piece(trimOf(RECTANGLE, { ...options, profiles }), '3A').parts).toBe(1);
    expect(piece(trimOf(RECTANGLE), '3A').parts).toBe(1);
  });

  test('[LN30] the overlap counts: 4988 would be two of 2494, but no part may be over 2487.3', () => {
    // 4960 in two: the one under measures 2480 + 7.33235 = 2487.33235 > 2487.3. In three it fits.
    const room = RECTANGLE.map(([x, y]) => [x === 0 ? 0 : 4960, y] as const);
    expect(piece(trimOf(room, options), '3A').parts).toBe(3);
    // 4959.9: 2479.95 + 7.33235 = 2487.28 fits.
    const less = RECTANGLE.map(([x, y]) => [x === 0 ? 0 : 4959.9, y] as const);
    expect(piece(trimOf(less, options), '3A').parts).toBe(2);
  });
});

describe('shoe', () => {
  const shoe = (more: Record<string, unknown>) => ({ lines: { base: more, shoe: more } });
  const both = { base: 'shaped', shoe: 'shoe' };

  test('[LN20] in front of base, at a corner of 80° and one of 90°', () => {
    // t_b = 12.7, t = 11.1125. At 80°: 12.7/0.9848078 + 12.7 × 0.1763270 = 15.13527 less; at 90°: 12.7 less.
    // L = 3000 − 15.13527 − 12.7 = 2972.16473 = back = overall.
    // Coped at its left: −(11.1125/0.9848078 + 11.1125 × 0.1763270) = −(11.28393 + 1.95943) = −13.24336: face 2958.92137.
    const trim = trimOf(RECTANGLE, {
      trim: both,
      corners: { 2: { measured: 80, ...shoe({ coped: 'after' }) }, 3: shoe({ coped: 'after' }) },
    });
    expect(shape(piece(trim, 'shoe-2A'))).toEqual({
      back: 2972.16473,
      face: 2958.92137,
      overall: 2972.16473,
      left: 'cope 50 back',
      right: 'square 0 -',
    });
  });

  test('[LN20] it grows at an outside corner and shrinks at an inside one', () => {
    // 3A of the L: 1500 − 12.7 + 12.7 = 1500; outside mitre +11.1125 on the face.
    const trim = trimOf(L_SHAPE, { trim: both, corners: { 3: shoe({ coped: 'after' }) } });
    expect(shape(piece(trim, 'shoe-3A'))).toMatchObject({ back: 1500, right: 'mitre 45 face' });
    expect(shape(piece(trim, 'shoe-3A')).overall).toBe(1511.1125);
  });

  test('[JT13] past a casing it is returned, behind one it is cut square', () => {
    // 12.7 + 11.1125 = 23.8125 stands past 17.4625. L = 925.15 − 12.7 = 912.45; back 912.45 − 11.1125 = 901.3375.
    const corners = { ...ROUND, 1: shoe({ coped: 'before' }) };
    const trim = trimOf(RECTANGLE, { trim: both, corners, openings: { o1: door(1, 1000) } });
    expect(shape(piece(trim, 'shoe-1A'))).toMatchObject({
      back: 901.3375,
      face: 912.45,
      overall: 912.45,
      right: 'return 45 face',
    });
    expect(shape(piece(trim, 'shoe-1Ar-right'))).toMatchObject({ back: 0, face: 11.1125, overall: 11.1125 });
    // 12.7 + 3.175 = 15.875 does not reach 17.4625; a casing nobody described: square too.
    const thin = trimOf(RECTANGLE, {
      trim: { base: 'shaped', shoe: 'thin' },
      corners,
      openings: { o1: door(1, 1000) },
    });
    expect(piece(thin, 'shoe-1A').right.end).toBe('square');
    const unknown = trimOf(RECTANGLE, {
      trim: both,
      corners,
      openings: { o1: door(1, 1000, { casing: null }) },
    });
    expect(piece(unknown, 'shoe-1A').right).toMatchObject({ end: 'square', at: { opening: 'o1' } });
    // A casing that is not described takes edge and reveal only: 1000 − 5 = 995.
    expect(shape(piece(unknown, '1A')).back).toBe(995);
  });

  test('[JT21, LN21] beside a casing the shoe ends where the base does: at the casing face', () => {
    // Gap 10: base 2A is 3000 − 17.4625. Shoe: L = 3000 − 12.7 − 12.7 = 2974.6 and c′ = 17.4625 − 12.7 = 4.7625 less:
    // 2969.8375, which starts 17.4625 from the wall, as the base does.
    const trim = trimOf(RECTANGLE, {
      trim: both,
      corners: { 3: shoe({ coped: 'after' }) },
      openings: { o1: door(1, 4000 - 10 - 74.85 - 800) },
    });
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 2982.5375 });
    expect(shape(piece(trim, 'shoe-2A'))).toMatchObject({ back: 2969.8375, left: 'square 0 -' });
    // Gap 30: g′ = 30 − 12.7 = 17.3 is over r′ = 11.1125: a shoe stub of 17.3, returned past the casing.
    const roomier = trimOf(RECTANGLE, {
      trim: both,
      corners: { 3: shoe({ coped: 'after' }) },
      openings: { o1: door(1, 4000 - 30 - 74.85 - 800) },
    });
    expect(shape(piece(roomier, 'shoe-1B'))).toMatchObject({ face: 17.3, back: 6.1875, right: 'square 0 -' });
    expect(shape(piece(roomier, 'shoe-2A'))).toMatchObject({ left: 'cope 45 back' });
  });
});

describe('measured lengths and spring', () => {
  test('[LN19] a measured stretch replaces the drawn length', () => {
    // 2A measured 3012: back 3012, face 3012 − 12.7 = 2999.3.
    const trim = trimOf(RECTANGLE, {
      corners: ROUND,
      faces: { 2: { stretches: { 'corner..corner': 3012 } }, 3: { measured: 4005 } },
    });
    expect(shape(piece(trim, '2A'))).toMatchObject({ back: 3012, face: 2999.3, overall: 3012 });
    expect(piece(trim, '2A')).toMatchObject({ lengthFrom: 'measured' });
    expect(piece(trim, '2A').stretch).toMatchObject({ drawn: 3000 * 320, measured: 3012 * 320 });
    // A whole face measured, and it is one stretch from corner to corner.
    expect(piece(trim, '3A')).toMatchObject({ lengthFrom: 'measured', back: 4005 * 320 });
    expect(piece(trim, '1A')).toMatchObject({ lengthFrom: 'drawn' });
  });

  test('[LN19] a face measured whole says nothing of a stretch that a door cuts off', () => {
    // The door's casing fills corner 2: wall 1 has one stretch, but the measurement is of the wall.
    const trim = trimOf(RECTANGLE, {
      openings: { o1: door(1, 3180) },
      faces: { 1: { measured: 4010 } },
    });
    expect(lineOf(trim).stretches.filter((each) => each.segment.key === 'w1:right')).toHaveLength(1);
    expect(piece(trim, '1A')).toMatchObject({ lengthFrom: 'drawn' });
    expect(shape(piece(trim, '1A')).overall).toBe(3105.15);
  });

  test('[LN18] a coped board over 4 ft is cut 1/32 in long, a shorter or a mitred one is not', () => {
    const trim = trimOf(RECTANGLE, {
      corners: ROUND,
      openings: { o1: door(3, 1000, { kind: 'passage', casing: null }) },
    });
    expect(piece(trim, '2A').spring).toBe(254); // 0.79375 mm
    expect(piece(trim, '1A').spring).toBe(0); // through at both ends
    expect(piece(trim, '3A').spring).toBe(0); // 1000 long, and returned
    const mitred = trimOf(RECTANGLE, { corners: { ...ROUND, 3: base({ joint: 'mitre' }) } });
    expect(piece(mitred, '2A').spring).toBe(0);
  });
});

describe('build-up', () => {
  test('common practice, no published source: a square drywall corner is set at 45.75 outside, 44.25 inside, flat is butted', () => {
    const trim = trimOf(L_SHAPE, { surface: 'drywall', corners: { 3: base({ joint: 'mitre' }) } });
    expect(joint(trim, 4)).toMatchObject({ joint: 'mitre', sawDeg: 45.75 });
    expect(joint(trim, 3)).toMatchObject({ joint: 'mitre', sawDeg: 44.25 });
    // 3A: −12.7 × 0.9741569 + 12.7 × 1.0265287 = −12.37179 + 13.03691 on the face: 1500.66512.
    expect(shape(piece(trim, '3A'))).toMatchObject({ back: 1500, face: 1500.66512, overall: 1513.03691 });
    const flat = trimOf(L_SHAPE, { surface: 'drywall', trim: { base: 'flat' } });
    expect(joint(flat, 3)).toMatchObject({ joint: 'butt', sawDeg: 0 });
    expect(joint(flat, 4)).toMatchObject({ joint: 'mitre', sawDeg: 45.75 });
  });
});
