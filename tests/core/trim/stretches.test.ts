// Where a line is stopped on a segment, and what is seen from an entry. Lengths in mm.

import { describe, expect, test } from 'vitest';
import { sightOf } from '../../../core/trim/sight.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { door, type Fields, housePlan, L_SHAPE, lineOf, piece, RECTANGLE, trimOf } from './houses.ts';

const onWall1 = (options: Parameters<typeof trimOf>[1]): [string, number, number][] =>
  lineOf(trimOf(RECTANGLE, options))
    .stretches.filter((stretch) => stretch.segment.key === 'w1:right')
    .map((stretch) => [stretch.key, stretch.from / 320, stretch.to / 320]);

const cabinet = (at: number, width: number, more: Fields = {}): Fields => ({
  wall: 'w1',
  side: 'right',
  at: at + 50,
  width,
  bottom: 0,
  top: 900,
  kind: 'cabinet',
  ...more,
});

describe('stretches', () => {
  test('[LN14] a line breaks where its band meets the hole, and not where it only touches it', () => {
    const window = (sill: number) => ({ o1: door(1, 1000, { kind: 'window', height: 1200, sill }) });
    // Base top 139.7 over the subfloor.
    expect(onWall1({ openings: window(139.7) })).toEqual([['corner..corner', 0, 4000]]);
    expect(onWall1({ openings: window(139.6) })).toHaveLength(2);
    // A new floor of 12.7 lifts the band.
    expect(onWall1({ openings: window(139.7), room: { new: { floor: 12.7 } } })).toHaveLength(2);
  });

  test('[LN16] stops that overlap are one, keyed by what stands at either end', () => {
    // Casing from 925.15 to 1874.85; a cabinet from 1800 to 2400 over it.
    const options = { openings: { o1: door(1, 1000) }, builtIns: { b1: cabinet(1800, 600) } };
    expect(onWall1(options)).toEqual([
      ['corner..o1', 0, 925.15],
      ['b1..corner', 2400, 4000],
    ]);
    // One that lies wholly behind the casing changes nothing.
    expect(onWall1({ ...options, builtIns: { b1: cabinet(1200, 100) } })).toEqual([
      ['corner..o1', 0, 925.15],
      ['o1..corner', 1874.85, 4000],
    ]);
  });

  test('[LN14] a wall cabinet over the base does not stop it; a shoe runs under what is higher than it', () => {
    expect(onWall1({ builtIns: { b1: cabinet(1000, 600, { bottom: 1400, top: 2200 }) } })).toHaveLength(1);
    const trim = trimOf(RECTANGLE, {
      trim: { base: 'shaped', shoe: 'shoe' },
      builtIns: { b1: cabinet(1000, 600, { bottom: 50 }) },
    });
    expect(lineOf(trim).stretches.filter((each) => each.segment.key === 'w1:right')).toHaveLength(2);
    expect(lineOf(trim, 'shoe').stretches.filter((each) => each.segment.key === 'w1:right')).toHaveLength(1);
  });

  test('[LN17] less than 1 mm between two stops is no stretch', () => {
    const two = (gap: number) => ({ b1: cabinet(1000, 600), b2: cabinet(1600 + gap, 600) });
    expect(onWall1({ builtIns: two(0.9) })).toHaveLength(2);
    expect(onWall1({ builtIns: two(1) })).toHaveLength(3);
  });

  test('a cabinet in the corner stops the board on the next wall by its depth', () => {
    const trim = trimOf(RECTANGLE, { builtIns: { b1: cabinet(3400, 600, { depth: 580 }) } });
    expect(piece(trim, '2A').stretch).toMatchObject({ key: 'b1..corner', drawn: 2420 * 320 });
    expect(piece(trim, '2A').left).toMatchObject({ end: 'square', at: { builtIn: 'b1' } });
    // With no depth given it does not reach round, and 2A runs to the wall.
    const flat = trimOf(RECTANGLE, { builtIns: { b1: cabinet(3400, 600) } });
    expect(piece(flat, '2A').left).toMatchObject({ end: 'square', through: false });
    expect(piece(flat, '2A').overall).toBe(3000 * 320);
  });

  test('[LN13] a face may have its own base, or none, whatever the room has', () => {
    const trim = trimOf(RECTANGLE, { faces: { 2: { trim: { base: null } }, 3: { trim: { shoe: null } } } });
    expect(lineOf(trim).stretches.map((each) => each.segment.key)).toEqual([
      'w4:right',
      'w1:right',
      'w3:right',
    ]);
    expect(trimOf(RECTANGLE, { trim: {} }).lines.every((line) => line.runs.length === 0)).toBe(true);
  });
});

describe('sight', () => {
  const seen = (points: Parameters<typeof housePlan>[0], openings: Fields, more: Fields = {}): number[] => {
    const plan = housePlan(points, { openings, room: { entry: 'o1', ...more } });
    const room = walkLevel(plan, plan.levels[0]!).rooms[0]!;
    const sight = sightOf(room)!;
    return room.loops
      .flatMap((loop) => loop.corners)
      .filter((corner) => sight(corner.at))
      .map((corner) => corner.number!)
      .sort((a, b) => a - b);
  };

  test('[WB4] in a rectangle the two far corners; the entry’s own are beside it, not ahead', () => {
    expect(seen(RECTANGLE, { o1: door(3, 1000) })).toEqual([1, 2]);
    expect(seen(RECTANGLE, { o1: door(1, 3100) })).toEqual([3, 4]);
  });

  test('[WB4] a corner round the bend is not in sight', () => {
    // L: entry low in wall 5's leg, at the bottom; corner 3 is behind the outside corner 4 [2500, 2000].
    // Door in wall 5, from [2500, 3500] to [0, 3500]: middle at x = 2500 − 1300 = 1200. Line to corner 3 [4000, 2000]
    // passes over x = 2500 at y = 2804, below the leg's end: off the floor. Corners 1, 2, 4 are seen: to corner 2
    // [4000, 0] at x = 2500 y = 1875, just clear of corner 4.
    expect(seen(L_SHAPE, { o1: door(5, 900) })).toEqual([1, 2, 4]);
    // Middle at x = 400: over x = 2500 the line to corner 2 is at y = 1458.
    expect(seen(L_SHAPE, { o1: door(5, 1700) })).toEqual([1, 2, 4]);
    // Middle at x = 2000: at x = 2500 it is at y = 2625: corner 2 is hidden.
    expect(seen(L_SHAPE, { o1: door(5, 100) })).toEqual([1, 4]);
  });

  test('[WB4] a line that just touches a corner stays on the floor', () => {
    // Corner 4 lies exactly on the line from [1000, 3500] to corner 2 [4000, 500]: at x = 2500 y = 2000.
    const points = L_SHAPE.map(([x, y]) => [x, y === 0 ? 500 : y] as const);
    expect(seen(points, { o1: door(5, 1100) })).toEqual([1, 2, 4]);
    // 1 mm farther round it is not in sight.
    expect(seen(points, { o1: door(5, 1099) })).toEqual([1, 4]);
  });
});
