// Openings, built-ins and marks on segments: projected, clipped, sorted, and round corners. Expectations in mm, by hand.

import { describe, expect, it } from 'vitest';
import { type Segment, walkLevel } from '../../../core/walk/index.ts';
import { type Extra, mm, planOf, rectangle, ring, type WallRow } from '../graph/plans.ts';

const box = rectangle('', 0, 0, 4000, 3000);
const walls = ring(box);
const door = (wall: string, at: number, rest: Extra = {}) => ({
  wall,
  at,
  width: 800,
  height: 2000,
  sill: 0,
  kind: 'door',
  ...rest,
});
const cabinet = (wall: string, at: number, rest: Extra = {}) => ({
  wall,
  side: 'right',
  at,
  width: 600,
  bottom: 0,
  top: 900,
  depth: 580,
  kind: 'cabinet',
  ...rest,
});

type Nodes = Record<string, readonly [number, number]>;

function segmentsOf(
  extra: Extra,
  nodes: Nodes = box,
  rows: Record<string, WallRow> = walls,
  plan: Extra = {},
) {
  const made = planOf(nodes, rows, extra, plan);
  const { rooms } = walkLevel(made, made.levels[0]!);
  const all = rooms.flatMap((room) => room.loops.flatMap((loop) => loop.segments));
  return Object.fromEntries(all.map((segment) => [segment.key, segment])) as Record<string, Segment>;
}

const extents = (list: readonly { id: string; from: number; to: number }[]) =>
  list.map(({ id, from, to }) => [id, mm(from), mm(to)]);

describe('openings', () => {
  it('[WK14] count from the segment’s left corner: half a wall less than from the node', () => {
    const { 'w1:right': top } = segmentsOf({ openings: { o1: door('w1', 1000) } });
    expect(extents(top!.openings)).toEqual([['o1', 950, 1750]]);
    expect([mm(top!.openings[0]!.holeFrom), mm(top!.openings[0]!.holeTo)]).toEqual([950, 1750]);
    expect(top!.openings[0]).toMatchObject({
      side: 'right',
      reveal: 0,
      bottom: 0,
      top: 2000 * 320,
      pocket: null,
    });
  });

  it('[WK14] seen from the other room the same opening counts from the other end, on the left side', () => {
    const nodes = { ...box, e: [7000, 0], f: [7000, 3000] } as const;
    const segments = segmentsOf({ openings: { o1: door('w2', 200) } }, nodes, {
      ...walls,
      w5: ['b', 'e'],
      w6: ['e', 'f'],
      w7: ['f', 'c'],
    });
    expect(extents(segments['w2:right']!.openings)).toEqual([['o1', 150, 950]]);
    // That face is 2900 long and runs up: 2900 − 950 to 2900 − 150.
    expect(extents(segments['w2:left']!.openings)).toEqual([['o1', 1950, 2750]]);
    expect(segments['w2:left']!.openings[0]!.side).toBe('left');
  });

  it('[WK14] near a corner they are clipped to the segment and keep where the hole really is', () => {
    const { 'w1:right': top } = segmentsOf({ openings: { l: door('w1', 0), r: door('w1', 3200) } });
    expect(extents(top!.openings)).toEqual([
      ['l', 0, 750],
      ['r', 3150, 3900],
    ]);
    expect(top!.openings.map(({ holeFrom, holeTo }) => [mm(holeFrom), mm(holeTo)])).toEqual([
      [-50, 750],
      [3150, 3950],
    ]);
  });

  it('[WK14] one that lies wholly in the thickness of the next wall is not on the segment', () => {
    const rows = { ...walls, w2: ['b', 'c', 400] as const };
    const { 'w1:right': top } = segmentsOf({ openings: { o1: door('w1', 3850, { width: 150 }) } }, box, rows);
    expect(top!.openings).toEqual([]);
  });

  it('[WK14] on a wall whose face is dropped they are nowhere, and nothing fails', () => {
    const nodes = { a: [0, 0], b: [3980, 0], b2: [4000, 20], c: [4000, 3000], d: [0, 3000] } as const;
    const segments = segmentsOf({ openings: { o1: door('w2', 0, { width: 20 }) } }, nodes, ring(nodes));
    expect(Object.values(segments).flatMap(({ openings }) => openings)).toEqual([]);
  });

  it('[WK14] two walls in line share a segment: openings of both, sorted by place, then id', () => {
    const nodes = { ...box, m: [2000, 0] } as const;
    const rows: Record<string, WallRow> = {
      w1: ['m', 'a'],
      w5: ['m', 'b'],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'a'],
    };
    const { 'w1:left': top } = segmentsOf(
      {
        openings: {
          z: door('w1', 1100),
          y: door('w5', 300),
          a: door('w5', 300, { sill: 2100, height: 200 }),
        },
      },
      nodes,
      rows,
    );
    // w1 is drawn towards the left corner: 1100 from m is 900 from a, and its far edge 100 from a.
    expect(extents(top!.openings)).toEqual([
      ['z', 50, 850],
      ['a', 2250, 3050],
      ['y', 2250, 3050],
    ]);
    expect(top!.openings[1]).toMatchObject({ bottom: 2100 * 320, top: 2300 * 320 });
  });

  it('[WK14] on a slanting wall they project square onto the face', () => {
    const nodes = { a: [0, 0], b: [4000, 0], c: [4000, 4000] } as const;
    const { 'w3:right': slope } = segmentsOf({ openings: { o1: door('w3', 1000) } }, nodes, ring(nodes));
    // The face starts where it meets w2's: 50 / tan 22.5° along the wall from c.
    const start = 50 / Math.tan(Math.PI / 8);
    expect(mm(slope!.openings[0]!.from)).toBeCloseTo(1000 - start, 3);
    expect(mm(slope!.openings[0]!.to)).toBeCloseTo(1800 - start, 3);
  });

  it('casing: unknown where absent, none where null, the profile where named, none in a passage', () => {
    const profiles = {
      c1: {
        kind: 'casing',
        name: 'C',
        width: 70,
        thickness: 17,
        form: 'flat',
        material: 'poplar',
        stock: [],
      },
    };
    const { 'w1:right': top } = segmentsOf(
      {
        openings: {
          o1: door('w1', 100, { width: 500 }),
          o2: door('w1', 700, { width: 500, casing: { right: null } }),
          o3: door('w1', 1300, { width: 500, casing: { right: 'c1', left: null }, reveal: 5 }),
          o4: door('w1', 1900, { width: 500, casing: { left: 'c1' } }),
          o5: door('w1', 2500, { width: 500, kind: 'passage' }),
        },
      },
      box,
      walls,
      { profiles },
    );
    expect(top!.openings.map(({ casing }) => (casing === null ? null : casing?.id))).toEqual([
      undefined,
      null,
      'c1',
      undefined,
      null,
    ]);
    expect(top!.openings[2]).toMatchObject({ reveal: 5 * 320, casing: { profile: { name: 'C' } } });
  });

  it('[WK14] a pocket runs on as far as the opening is wide, towards the wall’s first node or its second, clipped', () => {
    const pocketOf = (pocket: string, at: number) => {
      const { 'w1:right': top } = segmentsOf({
        openings: { o1: door('w1', at, { kind: 'pocket', pocket }) },
      });
      const found = top!.openings[0]!.pocket;
      return found && [mm(found.from), mm(found.to)];
    };
    expect(pocketOf('start', 1500)).toEqual([650, 1450]);
    expect(pocketOf('end', 1500)).toEqual([2250, 3050]);
    expect(pocketOf('end', 2800)).toEqual([3550, 3900]);
    expect(pocketOf('start', 0)).toBeNull();
  });

  it('ids like constructor do no harm', () => {
    const { 'w1:right': top } = segmentsOf({ openings: { constructor: door('w1', 1000) } });
    expect(top!.openings.map(({ id }) => id)).toEqual(['constructor']);
  });
});

describe('built-ins and marks', () => {
  it('[WK14] stand on one side only', () => {
    const nodes = { ...box, e: [7000, 0], f: [7000, 3000] } as const;
    const rows: Record<string, WallRow> = { ...walls, w5: ['b', 'e'], w6: ['e', 'f'], w7: ['f', 'c'] };
    const mark = { wall: 'w2', side: 'left', at: 500, kind: 'outlet', bottom: 300, top: 415, width: 70 };
    const segments = segmentsOf({ builtIns: { b1: cabinet('w2', 1000) }, marks: { k1: mark } }, nodes, rows);
    expect(extents(segments['w2:right']!.builtIns)).toEqual([['b1', 950, 1550]]);
    expect(segments['w2:left']!.builtIns).toEqual([]);
    expect(segments['w2:right']!.marks).toEqual([]);
    expect(extents(segments['w2:left']!.marks)).toEqual([['k1', 2900 - 520, 2900 - 450]]);
  });

  it('[WK14] may reach past the wall’s end and are clipped; ends default to square', () => {
    const { 'w1:right': top } = segmentsOf({
      builtIns: { b1: cabinet('w1', -300), b2: cabinet('w1', 3900) },
    });
    expect(extents(top!.builtIns)).toEqual([
      ['b1', 0, 250],
      ['b2', 3850, 3900],
    ]);
    expect(top!.builtIns[0]!.ends).toBe('square');
  });

  it('[WK15] in a square corner also cover the next wall over their depth, from that corner', () => {
    const segments = segmentsOf({ builtIns: { l: cabinet('w1', 50), r: cabinet('w1', 3350) } });
    expect(extents(segments['w1:right']!.builtIns)).toEqual([
      ['l', 0, 600],
      ['r', 3300, 3900],
    ]);
    expect(extents(segments['w2:right']!.builtIns)).toEqual([['r', 0, 580]]);
    expect(extents(segments['w4:right']!.builtIns)).toEqual([['l', 2900 - 580, 2900]]);
    expect(segments['w2:right']!.builtIns[0]).toMatchObject({ roundCorner: true, top: 900 * 320 });
    expect(segments['w1:right']!.builtIns[0]!.roundCorner).toBe(false);
  });

  it('[WK15] do so within 1 mm of the corner and not beyond, and not without depth', () => {
    const next = (at: number, rest = {}) =>
      segmentsOf({ builtIns: { l: cabinet('w1', at, rest) } })['w4:right']!.builtIns.length;
    expect(next(51)).toBe(1);
    expect(next(51.1)).toBe(0);
    expect(next(50, { depth: 0 })).toBe(0);
    expect(next(50, { depth: null })).toBe(0);
  });

  it('[WK15] cover depth / sin of the angle at a slanting corner of 45° to 135°, clipped, and nothing beyond', () => {
    const bay = { a: [0, 0], b: [3000, 0], c: [4000, 1000], d: [4000, 3000], e: [0, 3000] } as const;
    const at135 = segmentsOf({ builtIns: { r: cabinet('w1', 2500) } }, bay, ring(bay));
    expect(mm(at135['w2:right']!.builtIns[0]!.to)).toBeCloseTo(580 * Math.SQRT2, 3);
    const blunt = { a: [0, 0], b: [3000, 0], c: [4000, 900], d: [4000, 3000], e: [0, 3000] } as const;
    const beyond = segmentsOf({ builtIns: { r: cabinet('w1', 2500) } }, blunt, ring(blunt));
    expect(beyond['w2:right']!.builtIns).toEqual([]);
    const deep = segmentsOf({ builtIns: { r: cabinet('w1', 3400, { depth: 9000 }) } });
    expect(extents(deep['w2:right']!.builtIns)).toEqual([['r', 0, 2900]]);
    expect(deep['w3:right']!.builtIns).toEqual([]);
  });

  it('[WK15] do not reach round an outside corner', () => {
    const nodes = { ...box, m: [2000, 0], n: [2000, 1500] } as const;
    const rows: Record<string, WallRow> = {
      w1: ['a', 'm'],
      w5: ['m', 'b'],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'a'],
      s: ['m', 'n'],
    };
    const segments = segmentsOf({ builtIns: { b1: cabinet('s', 900) } }, nodes, rows);
    expect(extents(segments['s:right']!.builtIns)).toEqual([['b1', 850, 1450]]);
    expect(segments['n:s>s']!.builtIns).toEqual([]);
  });
});
