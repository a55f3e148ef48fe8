// The formulas of ends and settings, held against a published table and against plane geometry written apart.

import { describe, expect, test } from 'vitest';
import {
  buttCut,
  copeCut,
  mitreCut,
  mitreSetting,
  shoeTake,
  stubRoom,
  throughCut,
  unequalMitreSetting,
} from '../../../core/trim/index.ts';
import { cases, random } from '../../seeds.ts';

test('[LN4] settings of regular polygons: a published table of flat mitres', () => {
  // Source: operator's manual of a 10-inch mitre saw (model 315.21212), p. 24, compound-angle table, pitch 0.
  const table: readonly [sides: number, setting: number][] = [
    [4, 45],
    [5, 36],
    [6, 30],
    [7, 25.71],
    [8, 22.5],
    [9, 20],
    [10, 18],
  ];
  for (const [sides, setting] of table) {
    expect(mitreSetting(180 - 360 / sides), `${sides} sides`).toBeCloseTo(setting, 2);
  }
});

test('[LN4] limits: 180° is no mitre at all', () => {
  expect(mitreCut('inside', 4000, 4000, 180)).toEqual({
    backOffset: 0,
    faceOffset: 0,
    sawDeg: 0,
    longPoint: null,
  });
  expect(copeCut(4000, 4000, 180)).toEqual({ backOffset: 0, faceOffset: 0, sawDeg: 0, longPoint: null });
});

test('[LN5] boards of one thickness mitre alike; two of unequal thickness share the included angle', () => {
  for (const alpha of [60, 80, 90, 101.5, 135, 170]) {
    expect(unequalMitreSetting(5, 5, alpha)).toBeCloseTo(mitreSetting(alpha), 9);
    const [one, other] = [unequalMitreSetting(4, 6, alpha), unequalMitreSetting(6, 4, alpha)];
    expect(one + other).toBeCloseTo(180 - alpha, 9);
  }
});

test('[LN5] a board far the thicker at a wide corner has its long point on the other side', () => {
  // 150°, t2/t = 0.5: (0.5 − 0.8660)/0.5 = −0.7321, m = −36.2: the face reaches past the back inside.
  const cut = mitreCut('inside', 2000, 1000, 150);
  expect(cut.sawDeg).toBeCloseTo(36.206, 3);
  expect(cut.longPoint).toBe('face');
  expect(cut.faceOffset).toBeCloseTo(1464.1, 1);
});

test('[LN1, LN2] flat stock is bevelled over 95° only', () => {
  expect(throughCut(1000, 95, 'flat').sawDeg).toBe(0);
  expect(throughCut(1000, 95.0000005, 'flat').sawDeg).toBe(0);
  expect(throughCut(1000, 95.1, 'flat')).toMatchObject({ backOffset: 0, longPoint: 'face' });
  expect(throughCut(1000, 100, 'shaped')).toEqual({
    backOffset: 0,
    faceOffset: 0,
    sawDeg: 0,
    longPoint: null,
  });
  // Measured as straight: nothing to bevel to.
  expect(throughCut(1000, 180, 'flat')).toEqual({ backOffset: 0, faceOffset: 0, sawDeg: 0, longPoint: null });
  expect(Object.is(throughCut(1000, 90, 'flat').backOffset, 0)).toBe(true);
});

describe('against plane geometry', () => {
  // The corner is the origin; the board's own wall runs along +x from it, floor on the +y side, so the other wall leaves at
  // α. A line is given by a point and a direction; where two meet is found by Cramer's rule.
  const meet = (p: number[], u: number[], q: number[], v: number[]): number[] => {
    const det = u[0]! * -v[1]! + v[0]! * u[1]!;
    const s = ((q[0]! - p[0]!) * -v[1]! + v[0]! * (q[1]! - p[1]!)) / det;
    return [p[0]! + s * u[0]!, p[1]! + s * u[1]!];
  };
  const other = (alpha: number) => {
    const a = (alpha * Math.PI) / 180;
    return { along: [Math.cos(a), Math.sin(a)], inward: [Math.sin(a), -Math.cos(a)] };
  };

  test('[LN3–LN6, JT20, LN20] inside: faces and backs meet where the lengths say', () => {
    const next = random(5);
    for (let i = 0; i < cases(2000, 200); i++) {
      const alpha = 20 + next() * 150;
      const [t, t2] = [1 + next() * 9, 1 + next() * 9];
      const { along, inward } = other(alpha);
      const told = `α ${alpha} t ${t} t2 ${t2}`;
      // The other board's face, and this one's.
      const theirFace = [inward[0]! * t2, inward[1]! * t2];
      const face = meet([0, t], [1, 0], theirFace, along)[0]!;
      const back = meet([0, 0], [1, 0], theirFace, along)[0]!;
      expect(-copeCut(t, t2, alpha).faceOffset, told).toBeCloseTo(face, 6);
      expect(-mitreCut('inside', t, t2, alpha).faceOffset, told).toBeCloseTo(face, 6);
      expect(-mitreCut('inside', t, t, alpha).faceOffset, told).toBeCloseTo(
        meet([0, t], [1, 0], [inward[0]! * t, inward[1]! * t], along)[0]!,
        6,
      );
      expect(-buttCut(t, t2, alpha).faceOffset, told).toBeCloseTo(face, 6);
      expect(-buttCut(t, t2, alpha).backOffset, told).toBeCloseTo(back, 6);
      // A base of t2 on the other wall and t on this one: where their faces cross is where the shoe's walls cross.
      expect(shoeTake(t, t2, alpha), told).toBeCloseTo(face, 6);
      // Through: the nearest of back and face to the corner lies on the other wall.
      const wallAtFace = meet([0, t], [1, 0], [0, 0], along)[0]!;
      expect(-throughCut(t, alpha, 'shaped').faceOffset, told).toBeCloseTo(Math.max(0, wallAtFace), 6);
      // A stub needs room for the other board's face, measured at the wall or at the stub's or casing's face.
      const c = next() * 12;
      const deep = meet([0, Math.max(t, c)], [1, 0], theirFace, along)[0]!;
      expect(stubRoom(t, t2, c, alpha), told).toBeCloseTo(Math.max(back, deep), 6);
    }
  });

  test('[LN4] outside: the faces meet beyond the corner', () => {
    const next = random(6);
    for (let i = 0; i < cases(1000, 100); i++) {
      const alpha = 20 + next() * 155;
      const [t, t2] = [1 + next() * 9, 1 + next() * 9];
      // The solid lies between the walls: both floors are on the far sides.
      const { along, inward } = other(alpha);
      const theirFace = [-inward[0]! * t2, -inward[1]! * t2];
      const face = -meet([0, -t], [1, 0], theirFace, along)[0]!;
      expect(mitreCut('outside', t, t2, alpha).faceOffset).toBeCloseTo(face, 6);
    }
  });
});

test('[LN20] a shoe in front of bases of unequal thickness where the walls lie on one line loses nothing', () => {
  expect(shoeTake(4000, 6000, 180)).toBe(0);
  expect(shoeTake(4000, 4000, 175)).toBeCloseTo(4000 * Math.tan((2.5 * Math.PI) / 180), 9);
});
