// What lies under the pointer and in a box, on a demo house.

import { describe, expect, test } from 'vitest';
import type { Point } from '../../../core/graph/index.ts';
import { mustLookup, sortedEntries } from '../../../core/plan/index.ts';
import { type HitIndex, hitIndex } from '../../../renderer/sheet/hit.ts';
import { pieceBand, piecesOf } from '../../../renderer/sheet/shapes.ts';
import { levelBounds, refBounds } from '../../../renderer/sheet/show.ts';
import { refKey } from '../../../renderer/state/refs.ts';
import type { Bounds } from '../../../renderer/state/viewport.ts';
import { cases, random } from '../../seeds.ts';
import { groundFloor } from './house.ts';

const level = groundFloor();
const { walk } = level;
const plan = walk.level;
/** About 1/4 in to the foot. */
const ZOOM = 96 / (8128 * 48);

const first = (index: HitIndex, at: Point, zoom = ZOOM): string => {
  const ref = index.hit(at, zoom)[0];
  return ref === undefined ? 'nothing' : refKey(ref);
};
const middle = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
];

describe('what lies under the pointer', () => {
  test('while drawing, every node is found at its own place, before its walls', () => {
    const index = hitIndex(level, 'draw');
    for (const [id, at] of sortedEntries(plan.nodes)) expect(first(index, at)).toBe(`node|L1|${id}`);
  });

  test('in the middle of a hole in a wall lies the opening, and its wall beneath', () => {
    const index = hitIndex(level, 'draw');
    for (const [id, { wall, at, width }] of sortedEntries(plan.openings)) {
      const { from, to } = mustLookup(plan.walls, wall);
      const [a, b] = [mustLookup(plan.nodes, from), mustLookup(plan.nodes, to)];
      const share = (at + width / 2) / Math.hypot(b[0] - a[0], b[1] - a[1]);
      const place: Point = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
      const found = index.hit(place, ZOOM).map(refKey);
      expect(found[0]).toBe(`opening|L1|${id}`);
      expect(found).toContain(`wall|L1|${wall}`);
    }
  });

  test('at the trim stage a corner comes first, at the drawing stage the node beside it', () => {
    const corner = walk.rooms[0]!.loops[0]!.corners[0]!;
    expect(first(hitIndex(level, 'trim'), corner.at)).toBe(`corner|L1|${corner.key}`);
    expect(first(hitIndex(level, 'draw'), corner.nodeAt)).toBe(`node|L1|${corner.node}`);
  });

  test('every whole board is found where it lies', () => {
    const index = hitIndex(level, 'trim');
    for (const piece of piecesOf(level).filter(({ returnOf, L }) => returnOf === null && L > 8128 * 12)) {
      const found = index.hit(middle(pieceBand(piece)), ZOOM * 8).map(refKey);
      expect(found).toContain(`piece|L1|${piece.id}`);
    }
  });

  test('on a bare floor lies the room alone, and beyond the house nothing', () => {
    const index = hitIndex(level, 'draw');
    const study = walk.rooms.find(({ name }) => name === 'Study')!;
    const at = middle(study.loops[0]!.corners.map((corner) => corner.at));
    expect(index.hit(at, ZOOM).map(refKey)).toEqual([`room|L1|${study.id}`]);
    const [left, top] = levelBounds(level)!;
    expect(index.hit([left - 80_000, top - 80_000], ZOOM)).toEqual([]);
  });

  test('a node is caught as far off in pixels at every zoom', () => {
    const index = hitIndex(level, 'draw');
    const [id, at] = sortedEntries(plan.nodes)[0]!;
    for (const zoom of [ZOOM, ZOOM * 4, ZOOM * 16]) {
      expect(first(index, [at[0] - 7 / zoom, at[1]], zoom)).toBe(`node|L1|${id}`);
      expect(first(index, [at[0] - 9 / zoom, at[1]], zoom)).not.toBe(`node|L1|${id}`);
    }
  });

  test('walls are found as reckoned one by one, wherever the pointer is', () => {
    const seed = 20_611;
    const roll = random(seed);
    const index = hitIndex(level, 'draw');
    const [left, top, right, bottom] = levelBounds(level)!;
    for (let k = 0; k < cases(2000, 200); k++) {
      const at: Point = [left + roll() * (right - left), top + roll() * (bottom - top)];
      const zoom = ZOOM * 2 ** (roll() * 6 - 2);
      const found = index
        .hit(at, zoom)
        .filter(({ kind }) => kind === 'wall')
        .map(({ id }) => String(id));
      const reckoned = sortedEntries(plan.walls)
        .filter(([, { from, to, thickness }]) => {
          const [a, b] = [mustLookup(plan.nodes, from), mustLookup(plan.nodes, to)];
          const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
          const [ux, uy] = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
          const [dx, dy] = [at[0] - a[0], at[1] - a[1]];
          const [x, y] = [dx * ux + dy * uy, Math.abs(dy * ux - dx * uy)];
          const over = [Math.max(0, -x, x - long), Math.max(0, y - thickness / 2)] as const;
          return Math.hypot(...over) <= 4 / zoom;
        })
        .map(([id]) => String(id));
      expect(found.toSorted(), `seed ${seed}, case ${k}`).toEqual(reckoned.toSorted());
    }
  });
});

describe('what lies in a box', () => {
  const index = hitIndex(level, 'draw');
  const all = levelBounds(level)!;

  test('a box round the house holds every wall, opening, built-in and mark once', () => {
    const held = index.within(all, false).map(refKey);
    expect(new Set(held).size).toBe(held.length);
    const kinds = (kind: string): number => held.filter((key) => key.startsWith(`${kind}|`)).length;
    expect(kinds('wall')).toBe(Object.keys(plan.walls).length);
    expect(kinds('opening')).toBe(Object.keys(plan.openings).length);
    expect(kinds('builtIn')).toBe(Object.keys(plan.builtIns).length);
    expect(kinds('room') + kinds('corner')).toBe(0);
  });

  test('a box over half a wall touches it and does not hold it', () => {
    for (const [id] of sortedEntries(plan.walls)) {
      const [left, top, right, bottom] = refBounds(level, { kind: 'wall', level: walk.levelId, id })!;
      const half: Bounds = [left - 10, top - 10, (left + right) / 2, (top + bottom) / 2];
      expect(index.within(half, true).map(refKey)).toContain(`wall|L1|${id}`);
      expect(index.within(half, false).map(refKey)).not.toContain(`wall|L1|${id}`);
    }
  });

  test('a box in the middle of a floor holds nothing and touches nothing', () => {
    const study = walk.rooms.find(({ name }) => name === 'Study')!;
    const [x, y] = middle(study.loops[0]!.corners.map((corner) => corner.at));
    const box: Bounds = [x - 8128, y - 8128, x + 8128, y + 8128];
    expect(index.within(box, true)).toEqual([]);
  });
});

describe('where a thing is', () => {
  test('a wall has the bounds of its body, and what is not there has none', () => {
    const [id, wall] = sortedEntries(plan.walls)[0]!;
    const bounds = refBounds(level, { kind: 'wall', level: walk.levelId, id })!;
    const short = Math.min(bounds[2] - bounds[0], bounds[3] - bounds[1]);
    expect(short).toBeCloseTo(wall.thickness, 0);
    expect(refBounds(level, { kind: 'piece', level: walk.levelId, id: 'no such board' })).toBeNull();
  });
});
