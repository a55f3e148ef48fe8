// Handedness and axes, pinned by lopsided figures that a flipped sign would not survive.

import { describe, expect, it } from 'vitest';
import {
  cross,
  exactAreaSign,
  exactTurn,
  type Point,
  rightOf,
  roomAngleDeg,
  signedArea,
  turnDeg,
} from '../../../core/graph/index.ts';

// An L on its side, walked clockwise as seen on the sheet: along the top to the right, then down, and back in two steps.
const lopsided: Point[] = [
  [0, 0],
  [10, 0],
  [10, 2],
  [4, 2],
  [4, 7],
  [0, 7],
];

describe('orientation', () => {
  it('[WK1] the right hand of one who walks to the right on the sheet points down, to larger y', () => {
    expect(rightOf([1, 0])).toEqual([0, 1]);
    expect(rightOf([3, 2])).toEqual([-2, 3]);
  });

  it('[WK1] a turn from right to down is clockwise as seen and positive', () => {
    expect(exactTurn([0, 0], [1, 0], [1, 1])).toBe(1);
    expect(exactTurn([0, 0], [1, 0], [1, -1])).toBe(-1);
    expect(exactTurn([0, 0], [1, 0], [2, 0])).toBe(0);
    expect(cross([1, 0], [0, 1])).toBeGreaterThan(0);
    expect(turnDeg([1, 0], [0, 1])).toBe(90);
    expect(turnDeg([1, 0], [-1, -1])).toBeCloseTo(-135, 12);
  });

  it('[WK1] a lopsided L walked clockwise as seen has its area, positive; backwards negative', () => {
    expect(signedArea(lopsided)).toBe(40);
    expect(exactAreaSign(lopsided)).toBe(1);
    expect(signedArea([...lopsided].reverse())).toBe(-40);
    expect(exactAreaSign([...lopsided].reverse())).toBe(-1);
  });

  it('[CN1] walking right then down is a room corner of 90°, right then up one of 270°', () => {
    expect(roomAngleDeg([1, 0], [0, 1])).toBe(90);
    expect(roomAngleDeg([1, 0], [0, -1])).toBe(270);
    expect(roomAngleDeg([1, 0], [1, 1])).toBeCloseTo(135, 12);
  });

  it('[WK2] a turn at the edge of 1 km is told where plain doubles say straight on', () => {
    const far = 320_000_000;
    const a: Point = [-far, -far];
    const b: Point = [far - 1, far - 2];
    const c: Point = [far, far - 1];
    // By whole numbers: (bx − ax)(cy − ay) − (by − ay)(cx − ax) = (2f−1)(2f−1) − (2f−2)(2f) = 1.
    expect(exactTurn(a, b, c)).toBe(1);
    expect(exactTurn(a, c, b)).toBe(-1);
  });

  it('[WK2] the area of a sliver one square tick in size at the edge of 1 km has the right sign', () => {
    const f = 320_000_000;
    const sliver: Point[] = [
      [-f, -f],
      [f - 1, f - 2],
      [f, f - 1],
    ];
    expect(exactAreaSign(sliver)).toBe(1);
    expect(exactAreaSign([...sliver].reverse())).toBe(-1);
    expect(exactAreaSign([sliver[0]!, sliver[1]!, sliver[0]!])).toBe(0);
    expect(exactAreaSign([])).toBe(0);
  });
});
