// Tape walks: degenerate ones first, then closing, then as walls of a plan.

import { expect, test } from 'vitest';
import {
  compassRule,
  isSquare,
  misclosureOf,
  squareRule,
  tapeEdit,
  turnOf,
  walkTape,
} from '../../../core/survey/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { cases, random } from '../../seeds.ts';
import { checkEdit, level, MM, planOf, prepared } from '../edit/helpers.ts';

type Place = readonly [number, number];
const entries = (...figures: number[]) =>
  Array.from({ length: Math.ceil(figures.length / 2) }, (_, i) =>
    figures[2 * i + 1] === undefined
      ? { length: figures[2 * i]! }
      : { length: figures[2 * i]!, turnDeg: figures[2 * i + 1]! },
  );
const ring = (points: readonly Place[]) =>
  points.map((at, i) => [at, points[(i + 1) % points.length]!] as const);

test('[SV1] what is no length or no turn throws', () => {
  for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
    expect(() => walkTape(entries(bad, 90))).toThrow('length 0');
  expect(() => walkTape([{ length: 1 }, { length: 2 }])).toThrow('turn after length 0');
  expect(() => walkTape(entries(1, Number.NaN, 1))).toThrow('turn after length 0');
  expect(walkTape([])).toMatchObject({
    points: [[0, 0]],
    perimeter: 0,
    misclosure: { distance: 0, fraction: 0 },
    angleMissDeg: null,
  });
  expect(() => misclosureOf([])).toThrow();
  expect(() =>
    compassRule([
      [0, 0],
      [1, 0],
      [0, 0],
    ]),
  ).toThrow('2 lengths');
  expect(() =>
    squareRule([
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 0],
    ]),
  ).toThrow();
  expect(() =>
    squareRule([
      [0, 0],
      [1, 0],
      [1, 1],
      [2, 1],
      [2, 2],
    ]),
  ).toThrow('the same way');
});

test('[SV1] turns to the right are clockwise as seen, with a lopsided room', () => {
  // An L: inside corners turn right, the one outside corner left.
  const walk = walkTape(entries(500, 90, 200, 90, 300, -90, 100, 90, 200, 90, 300, 90));
  expect(walk.points).toEqual([
    [0, 0],
    [500, 0],
    [500, 200],
    [200, 200],
    [200, 300],
    [0, 300],
    [0, 0],
  ]);
  expect(walk).toMatchObject({ perimeter: 1600, angleMissDeg: 0, misclosure: { distance: 0, fraction: 0 } });
  expect(turnOf('inside', 90)).toBe(90);
  expect(turnOf('outside', 90)).toBe(-90);
  expect(turnOf('inside', 135)).toBe(45);
});

test('[SV2] the miss, as a way, a distance and a fraction of the perimeter; the turns’ sum apart', () => {
  const walk = walkTape(entries(400, 90, 300, 90, 397, 90, 304, 91));
  expect(walk.misclosure.by).toEqual([3, -4]);
  expect(walk.misclosure.distance).toBe(5);
  expect(walk.misclosure.fraction).toBe(5 / 1401);
  expect(walk.angleMissDeg).toBe(1);
  expect(walkTape(entries(400, 90, 300, 90, 397, 90, 304)).angleMissDeg).toBeNull();
});

test('[SV4] opposite walls share the miss by length, and right angles stay', () => {
  const { points } = walkTape(entries(400, 90, 300, 90, 397, 90, 304));
  const closed = squareRule(points);
  const sides = ring(closed).map(([a, b]) => Math.abs(b[0] - a[0]) + Math.abs(b[1] - a[1]));
  // 3 over 797: the 400 gives 3 × 400/797, the 397 takes 3 × 397/797. 4 over 604 likewise.
  expect(sides[0]).toBeCloseTo(400 - (3 * 400) / 797, 9);
  expect(sides[2]).toBeCloseTo(397 + (3 * 397) / 797, 9);
  expect(sides[1]).toBeCloseTo(300 + (4 * 300) / 604, 9);
  expect(sides[3]).toBeCloseTo(304 - (4 * 304) / 604, 9);
  expect(isSquare([...closed, closed[0]!])).toBe(true);
});

test('[SV3] random walks: the compass rule closes, by lengths, and leaves a closed walk as it is', () => {
  const runs = cases(500);
  for (let seed = 1; seed <= runs; seed++) {
    const next = random(seed);
    const side = () => 500 + Math.floor(next() * 5000);
    const [a, b, c, d, cut] = [side(), side(), side(), side(), 100];
    const off = () => Math.floor(next() * 40) - 20;
    const square = entries(
      a,
      90,
      b,
      90,
      a - cut + off(),
      90,
      b - c + off() + 6000,
      -90,
      cut,
      -90,
      d,
      90,
      50,
      90,
    );
    const { points } = walkTape(square);
    expect(isSquare(points), `seed ${seed}`).toBe(true);
    const compassed = compassRule(points);
    expect(compassed[0]).toEqual([0, 0]);
    expect(compassed).toHaveLength(points.length - 1);
    const closed = compassRule([...compassed, compassed[0]!]);
    for (const [i, at] of closed.entries()) {
      expect(Math.hypot(at[0] - compassed[i]![0], at[1] - compassed[i]![1])).toBeLessThan(1e-9);
    }
    // The first corner is moved by the first length's own share.
    const { by } = misclosureOf(points);
    const share = square[0]!.length / square.reduce((sum, { length }) => sum + length, 0);
    expect(compassed[1]![0]).toBeCloseTo(points[1]![0] - by[0] * share, 6);
    expect(compassed[1]![1]).toBeCloseTo(points[1]![1] - by[1] * share, 6);
  }
  console.log(`tape walks: seeds 1 to ${runs}`);
});

test('[SV5] a typed room is drawn from the inside, closed, its figures kept as measured', () => {
  const typed = entries(4000 * MM, 90, 3000 * MM, 90, 3996 * MM, 90, 3002 * MM);
  const where = {
    level: 'L1',
    at: [1000 * MM, 1000 * MM],
    thickness: 100 * MM,
    room: { id: 'r1', record: { name: 'Den' } },
  };
  const edit = tapeEdit(typed, where as never);
  checkEdit(prepared(planOf({}, {})), edit, (after, done) => {
    const [room] = walkLevel(after, level(after)).rooms;
    const segments = room!.loops[0]!.segments;
    expect(segments.map(({ record }) => record?.measured)).toEqual([
      3002 * MM,
      4000 * MM,
      3000 * MM,
      3996 * MM,
    ]);
    const drawn = segments.map((segment) => segment.drawn);
    expect(drawn[1]).toBe(drawn[3]);
    expect(drawn[0]).toBe(drawn[2]);
    expect(drawn[1]! / MM).toBeCloseTo(3998, 1);
    expect(room!.loops[0]!.corners.map(({ roomAngleDeg }) => roomAngleDeg)).toEqual([90, 90, 90, 90]);
    expect(room!.name).toBe('Den');
    expect(done.notes).toEqual([]);
  });
  // With a skew corner the compass rule closes it.
  const skew = tapeEdit(entries(4000 * MM, 45, 2000 * MM, 90, 3000 * MM, 100, 4000 * MM), where as never);
  checkEdit(prepared(planOf({}, {})), skew, (after) =>
    expect(walkLevel(after, level(after)).rooms).toHaveLength(1),
  );
});
