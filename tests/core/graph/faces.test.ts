// Face loops of small drawn cases, each named by its rule. Expectations were reckoned by hand, in mm.

import { describe, expect, it } from 'vitest';
import type { FaceLoop } from '../../../core/graph/index.ts';
import { faceLoops, levelFaces } from '../../../core/graph/index.ts';
import type { Level } from '../../../core/plan/schema.ts';
import { DEFAULT_SETTINGS } from '../../../core/plan/settings.ts';
import { levelOf, mm, pointMm, rectangle, ring } from './plans.ts';

const loopsOf = (level: Level) => faceLoops(level, DEFAULT_SETTINGS);
const areaM2 = (loop: FaceLoop) => Math.round((loop.signedArea / 320_000 ** 2) * 1e9) / 1e9;
const cornersOf = (loop: FaceLoop) => Object.fromEntries(loop.corners.map((c) => [c.key, pointMm(c.at)]));
const keysOf = (loop: FaceLoop) => loop.segments.map(({ key }) => key);
const kinds = (level: Level) => loopsOf(level).map(({ kind }) => kind);

const box = rectangle('', 0, 0, 4000, 3000);
/** The box with a node m in the middle of its top wall. */
const topped = { ...box, m: [2000, 0] as const };

describe('square rooms', () => {
  it('[WK3] each face lies half a thickness in, also where the walls differ', () => {
    const level = levelOf(box, {
      w1: ['a', 'b', 100],
      w2: ['b', 'c', 200],
      w3: ['c', 'd', 60],
      w4: ['d', 'a', 140],
    });
    const [room, outside] = loopsOf(level);
    expect(room).toMatchObject({ kind: 'outer', tooNarrow: false });
    expect(cornersOf(room!)).toEqual({
      'b:w1>w2': [3900, 50],
      'c:w2>w3': [3900, 2970],
      'd:w3>w4': [70, 2970],
      'a:w4>w1': [70, 50],
    });
    expect(areaM2(room!)).toBe((3.83 * 2920) / 1000);
    expect(outside!.kind).toBe('outside');
    expect(areaM2(outside!)).toBe(-(4.17 * 3080) / 1000);
  });

  it('[WK9] the walk starts at the smallest corner, which is the first of the list', () => {
    const [room] = loopsOf(levelOf(box, ring(box)));
    expect(keysOf(room!)).toEqual(['w4:right', 'w1:right', 'w2:right', 'w3:right']);
    expect(room!.corners.map(({ key }) => key)).toEqual(['a:w4>w1', 'b:w1>w2', 'c:w2>w3', 'd:w3>w4']);
    expect(room!.segments[0]!.start).toEqual(room!.corners[3]!.at);
    expect(room!.segments[0]!.end).toEqual(room!.corners[0]!.at);
    expect(room!.segments[1]!.start).toEqual(room!.corners[0]!.at);
    expect(room!.segments[1]!.end).toEqual(room!.corners[1]!.at);
  });

  it('[WK9] of corners at one height the one further left is smaller, whatever the ids', () => {
    const nodes = { z: [0, 0], y: [1000, 0], x: [1000, 1000], w: [0, 1000] } as const;
    const [room] = loopsOf(
      levelOf(nodes, { q4: ['y', 'z'], q3: ['x', 'y'], q2: ['w', 'x'], q1: ['z', 'w'] }),
    );
    expect(room!.corners[0]!.node).toBe('z');
    expect(keysOf(room!)).toEqual(['q1:left', 'q4:left', 'q3:left', 'q2:left']);
  });
});

describe('walls in line', () => {
  it('[WK6] a T has no corner on its through side and two on the other; the through segment has two parts', () => {
    const level = levelOf(
      { ...topped, n: [2000, 3000] },
      {
        w1: ['a', 'm'],
        w2: ['m', 'b'],
        w3: ['b', 'c'],
        w4: ['c', 'n'],
        w5: ['n', 'd'],
        w6: ['d', 'a'],
        s: ['m', 'n'],
      },
    );
    const [left, right, outside] = loopsOf(level);
    expect(cornersOf(left!)).toMatchObject({ 'm:w1>s': [1950, 50] });
    expect(cornersOf(right!)).toMatchObject({ 'm:s>w2': [2050, 50] });
    expect(outside!.corners).toHaveLength(4);
    const through = outside!.segments.find(({ parts }) => parts.length === 2 && parts[0]!.wall === 'w2')!;
    expect(through.key).toBe('w2:left');
    expect(through.parts.map(({ wall, from, to }) => [wall, mm(from), mm(to)])).toEqual([
      ['w2', 0, 2050],
      ['w1', 2050, 4100],
    ]);
  });

  it('[WK6] a turn of 0.04° is no corner, one of 0.06° is', () => {
    const bent = (turnDeg: number) => {
      const y = -2000 * Math.tan((turnDeg / 2) * (Math.PI / 180));
      return loopsOf(
        levelOf(
          { ...topped, m: [2000, y] },
          { w1: ['a', 'm'], w5: ['m', 'b'], w2: ['b', 'c'], w3: ['c', 'd'], w4: ['d', 'a'] },
        ),
      )[0]!.corners.length;
    };
    expect(bent(0.04)).toBe(4);
    expect(bent(0.06)).toBe(5);
  });

  it('[WK6] a circle of 8,000 walls that turn 0.045° each keeps corners, none of its segments turns 0.05°', () => {
    const nodes: Record<string, readonly [number, number]> = {};
    for (let i = 0; i < 8000; i++) {
      const angle = (i / 8000) * 2 * Math.PI;
      nodes[`n${i}`] = [500_000 * Math.cos(angle), 500_000 * Math.sin(angle)];
    }
    const [room] = loopsOf(levelOf(nodes, ring(nodes)));
    expect(room!.kind).toBe('outer');
    expect(room!.tooNarrow).toBe(false);
    expect(room!.corners.length).toBeGreaterThan(3900);
    expect(room!.segments.every(({ parts }) => parts.length <= 2)).toBe(true);
    expect(areaM2(room!)).toBeCloseTo(Math.PI * 499.95 ** 2, -1);
  });

  it('[WK4] where thickness changes along a line there is a jog: an inside and an outside corner', () => {
    const level = levelOf(topped, {
      w1: ['a', 'm', 100],
      w5: ['m', 'b', 200],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'a'],
    });
    const [room] = loopsOf(level);
    expect(cornersOf(room!)).toMatchObject({ 'm:w1>w5#0': [2000, 50], 'm:w1>w5#1': [2000, 100] });
    const jog = room!.segments.find(({ key }) => key === 'm:w1>w5')!;
    expect(jog.parts).toEqual([]);
    expect(jog.link).not.toBeNull();
    expect(pointMm(jog.start)).toEqual([2000, 50]);
    expect(pointMm(jog.end)).toEqual([2000, 100]);
  });

  it('[WK4, WK7] a short jog that a thicker wall swallows leaves the step of its end, also a hair out of level', () => {
    // Centre lines 20 mm apart, walls 100 and 200 mm thick: faces at 50 and at −20 + 100 = 80.
    for (const out of [0, 0.5, 2, 4, -4]) {
      const nodes = { ...topped, n: [2000, -20] as const, b: [4000, -20 + out] as const };
      const level = levelOf(nodes, {
        w1: ['a', 'm', 100],
        w6: ['m', 'n', 100],
        w5: ['n', 'b', 200],
        w2: ['b', 'c'],
        w3: ['c', 'd'],
        w4: ['d', 'a'],
      });
      const [room] = loopsOf(level);
      expect(room!.tooNarrow, `${out} mm`).toBe(false);
      const step = room!.segments.find(({ key }) => key === 'm:w1>w5')!;
      expect(pointMm(step.start), `${out} mm`).toEqual([2000, 50]);
      expect(pointMm(step.end)[0], `${out} mm`).toBeCloseTo(2000, 0);
      expect(pointMm(step.end)[1], `${out} mm`).toBeCloseTo(80, 0);
      expect(
        room!.segments.map(({ key }) => key),
        `${out} mm`,
      ).toContain('w1:right');
      expect(
        room!.segments.map(({ key }) => key),
        `${out} mm`,
      ).toContain('w5:right');
    }
  });

  it('[WK4] nearly parallel walls of different thickness meet by a link, not in a far crossing', () => {
    const level = levelOf(
      { ...topped, m: [2000, -10] },
      { w1: ['a', 'm', 100], w5: ['m', 'b', 200], w2: ['b', 'c'], w3: ['c', 'd'], w4: ['d', 'a'] },
    );
    const at = cornersOf(loopsOf(level)[0]!);
    expect(at['m:w1>w5#0']![0]).toBeCloseTo(2000.25, 2);
    expect(at['m:w1>w5#0']![1]).toBeCloseTo(40, 2);
    expect(at['m:w1>w5#1']![0]).toBeCloseTo(1999.5, 2);
    expect(at['m:w1>w5#1']![1]).toBeCloseTo(90, 2);
  });

  it('[WK3] nearly parallel walls of one thickness meet where their faces cross', () => {
    const level = levelOf(
      { ...topped, m: [2000, -10] },
      { w1: ['a', 'm'], w5: ['m', 'b'], w2: ['b', 'c'], w3: ['c', 'd'], w4: ['d', 'a'] },
    );
    const at = cornersOf(loopsOf(level)[0]!);
    expect(at['m:w1>w5']![0]).toBeCloseTo(2000, 3);
    expect(at['m:w1>w5']![1]).toBeCloseTo(40, 2);
  });

  it('[WK7] a jog under 1 mm is dropped and the walls in line become one segment', () => {
    const level = levelOf(topped, {
      w1: ['a', 'm', 100],
      w5: ['m', 'b', 101],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'a'],
    });
    const [room] = loopsOf(level);
    expect(keysOf(room!)).toEqual(['w4:right', 'w1:right', 'w2:right', 'w3:right']);
    expect(room!.segments[1]!.parts.map(({ wall }) => wall)).toEqual(['w1', 'w5']);
  });
});

describe('free ends', () => {
  it('[WK5] a spur has two outside corners and a flat end', () => {
    const level = levelOf(
      { ...topped, n: [2000, 1500] },
      { w1: ['a', 'm'], w5: ['m', 'b'], w2: ['b', 'c'], w3: ['c', 'd'], w4: ['d', 'a'], s: ['n', 'm'] },
    );
    const [room, outside] = loopsOf(level);
    expect(keysOf(room!).slice(1, 6)).toEqual(['w1:right', 's:left', 'n:s>s', 's:right', 'w5:right']);
    expect(cornersOf(room!)).toMatchObject({
      'm:w1>s': [1950, 50],
      'n:s>s#0': [1950, 1500],
      'n:s>s#1': [2050, 1500],
      'm:s>w5': [2050, 50],
    });
    expect(outside!.corners).toHaveLength(4);
  });

  it('[WK5, WK10] a free-standing wall in a room is an island of four outside corners', () => {
    const level = levelOf({ ...box, m: [2000, 1000], n: [2000, 1500] }, { ...ring(box), s: ['m', 'n'] });
    const { loops, holders } = levelFaces(level, DEFAULT_SETTINGS);
    expect(loops.map(({ kind }) => kind)).toEqual(['outer', 'island', 'outside']);
    expect(holders).toEqual([null, 0, null]);
    expect(cornersOf(loops[1]!)).toEqual({
      'm:s>s#0': [2050, 1000],
      'm:s>s#1': [1950, 1000],
      'n:s>s#0': [1950, 1500],
      'n:s>s#1': [2050, 1500],
    });
    expect(areaM2(loops[1]!)).toBe(-0.05);
    expect(loops[1]!.corners[0]!.key).toBe('m:s>s#0');
  });

  it('[WK10] a free-standing wall outside is no island', () => {
    expect(kinds(levelOf({ a: [0, 0], b: [1000, 0] }, { w1: ['a', 'b'] }))).toEqual(['outside']);
  });

  it('[WK7] the end of a wall drawn 30 mm past another is hidden in it and leaves no trace', () => {
    const level = levelOf(
      { ...topped, over: [2000, 30], down: [2000, -2000] },
      {
        w1: ['a', 'm'],
        w5: ['m', 'b'],
        w2: ['b', 'c'],
        w3: ['c', 'd'],
        w4: ['d', 'a'],
        up: ['m', 'down'],
        stub: ['m', 'over'],
      },
    );
    const [room] = loopsOf(level);
    expect(room!.tooNarrow).toBe(false);
    expect(keysOf(room!)).toEqual(['w4:right', 'w1:right', 'w2:right', 'w3:right']);
  });

  it('[WK7] ends drawn past a corner are hidden in the other wall, one standing out 20 mm is not', () => {
    const over = (by: number) =>
      loopsOf(
        levelOf(
          { ...box, x: [4000 + by, 0], y: [4000, -by] },
          { ...ring(box), ex: ['b', 'x'], ey: ['b', 'y'] },
        ),
      )[1]!;
    expect(over(30)).toMatchObject({ kind: 'outside', tooNarrow: false });
    expect(over(30).corners).toHaveLength(4);
    expect(over(70)).toMatchObject({ kind: 'outside', tooNarrow: false });
    expect(over(70).corners).toHaveLength(10);
  });

  it('[WK4] a free wall under 1 mm long or thin still has a loop', () => {
    for (const [length, thickness] of [
      [0.5, 100],
      [1000, 0.5],
      [0.3, 0.2],
    ] as const) {
      const level = levelOf(
        { ...box, m: [2000, 1000], n: [2000, 1000 + length] },
        { ...ring(box), s: ['m', 'n', thickness] },
      );
      const island = loopsOf(level)[1]!;
      expect(island.kind).toBe('island');
      expect(island.signedArea).toBeLessThan(0);
    }
  });
});

describe('angles', () => {
  it('[WK3] an inside corner of 20° lies far along the walls, where the faces cross', () => {
    const far = Math.cos(Math.PI / 9) * 8000;
    const level = levelOf(
      { a: [0, 0], b: [8000, 0], c: [far, Math.sin(Math.PI / 9) * 8000] },
      { w1: ['a', 'b'], w2: ['b', 'c'], w3: ['c', 'a'] },
    );
    const at = cornersOf(loopsOf(level)[0]!)['a:w3>w1']!;
    expect(at[1]).toBeCloseTo(50, 2);
    expect(at[0]).toBeCloseTo(50 / Math.tan(Math.PI / 18), 1);
  });

  it('[WK4] the outside of a corner of 20° is cut square by a link: h / sin 10° is more than 4 h', () => {
    const far = Math.cos(Math.PI / 9) * 8000;
    const level = levelOf(
      { a: [0, 0], b: [8000, 0], c: [far, Math.sin(Math.PI / 9) * 8000] },
      { w1: ['a', 'b'], w2: ['b', 'c'], w3: ['c', 'a'] },
    );
    const outside = loopsOf(level)[1]!;
    expect(outside.corners.map(({ key }) => key)).toContain('a:w1>w3#0');
    expect(cornersOf(outside)['a:w1>w3#0']).toEqual([0, -50]);
    expect(outside.corners).toHaveLength(4);
  });

  it('[WK3] the outside of a corner of 30° is pointed: h / sin 15° is less than 4 h', () => {
    const level = levelOf(
      { a: [0, 0], b: [8000, 0], c: [Math.cos(Math.PI / 6) * 8000, 4000] },
      { w1: ['a', 'b'], w2: ['b', 'c'], w3: ['c', 'a'] },
    );
    const outside = loopsOf(level)[1]!;
    expect(outside.corners).toHaveLength(3);
    const at = cornersOf(outside)['a:w1>w3']!;
    expect(Math.hypot(...at)).toBeCloseTo(50 / Math.sin(Math.PI / 12), 2);
  });

  it('[WK3] a bay of 45°: its faces shorten by h·tan 22.5° at each corner', () => {
    const level = levelOf(
      { a: [0, 0], b: [4000, 0], c: [5000, 1000], d: [5000, 3000], e: [0, 3000] },
      ring({ a: [0, 0], b: [4000, 0], c: [5000, 1000], d: [5000, 3000], e: [0, 3000] }),
    );
    const [room] = loopsOf(level);
    const bay = room!.segments[2]!;
    expect(bay.key).toBe('w2:right');
    expect(mm(Math.hypot(bay.end[0] - bay.start[0], bay.end[1] - bay.start[1]))).toBeCloseTo(
      1000 * Math.SQRT2 - 2 * 50 * Math.tan(Math.PI / 8),
      2,
    );
  });

  it('[WK3] walls of three thicknesses at one node: each pair meets where its own faces cross', () => {
    const level = levelOf(
      { m: [0, 0], n: [0, -3000], e: [3000, 0], s: [0, 3000], w: [-3000, 0] },
      { wn: ['m', 'n', 60], we: ['m', 'e', 100], ws: ['m', 's', 140], ww: ['m', 'w', 100] },
    );
    const at = cornersOf(loopsOf(level)[0]!);
    expect(at['m:ww>ws']).toEqual([-70, 50]);
    expect(at['m:ws>we']).toEqual([70, 50]);
    expect(at['m:we>wn']).toEqual([30, -50]);
    expect(at['m:wn>ww']).toEqual([-30, -50]);
  });
});

describe('dropped segments', () => {
  it('[WK7] a chamfer of 20 mm between walls 100 mm thick is swallowed: the neighbours meet square', () => {
    const nodes = { a: [0, 0], b: [3980, 0], b2: [4000, 20], c: [4000, 3000], d: [0, 3000] } as const;
    const [room, outside] = loopsOf(levelOf(nodes, ring(nodes)));
    expect(keysOf(room!)).toEqual(['w5:right', 'w1:right', 'w3:right', 'w4:right']);
    expect(cornersOf(room!)).toMatchObject({ 'b:w1>w3': [3950, 50] });
    expect(areaM2(room!)).toBeCloseTo(3.9 * 2.9, 9);
    expect(outside!.corners).toHaveLength(5);
  });

  it('[WK7] a curve of small walls tighter than the half thickness collapses to the crossing of its neighbours', () => {
    const nodes: Record<string, readonly [number, number]> = { a: [0, 0] };
    for (let i = 0; i <= 6; i++) {
      const angle = (i / 6) * (Math.PI / 2);
      nodes[`b${i}`] = [3970 + 30 * Math.sin(angle), 30 - 30 * Math.cos(angle)];
    }
    nodes.c = [4000, 3000];
    nodes.d = [0, 3000];
    const [room] = loopsOf(levelOf(nodes, ring(nodes)));
    expect(room!.tooNarrow).toBe(false);
    expect(room!.corners).toHaveLength(4);
    expect(cornersOf(room!)['b0:w1>w8']).toEqual([3950, 50]);
  });

  it('[WK7] a wall of half a millimetre between walls in line leaves one segment with its first wall’s key', () => {
    const nodes = {
      a: [0, 0],
      m: [2000, 0],
      n: [2000, 0.5],
      b: [4000, 0.5],
      c: [4000, 3000],
      d: [0, 3000],
    } as const;
    const [room] = loopsOf(levelOf(nodes, ring(nodes)));
    expect(keysOf(room!)).toEqual(['w6:right', 'w1:right', 'w4:right', 'w5:right']);
    expect(room!.segments[1]!.parts.map(({ wall }) => wall)).toEqual(['w1', 'w3']);
  });

  it('[WK7] a jog hidden in the wall across goes with the wall piece behind it', () => {
    const nodes = { a: [0, 0], m: [3960, 0], b: [4000, 0], c: [4000, 3000], d: [0, 3000] } as const;
    const level = levelOf(nodes, {
      w1: ['a', 'm', 100],
      w2: ['m', 'b', 200],
      w3: ['b', 'c'],
      w4: ['c', 'd'],
      w5: ['d', 'a'],
    });
    const [room] = loopsOf(level);
    expect(room!.tooNarrow).toBe(false);
    expect(keysOf(room!)).toEqual(['w5:right', 'w1:right', 'w3:right', 'w4:right']);
    expect(cornersOf(room!)).toMatchObject({ 'm:w1>w3': [3950, 50] });
  });

  it('[WK7] a jog that ends just where the wall across begins goes too', () => {
    const nodes = { a: [0, 0], b: [4000, 0], c: [4000, 3000], d: [0, 3000], j: [0, 100] } as const;
    const level = levelOf(nodes, {
      w1: ['a', 'b', 200],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'j', 200],
      w5: ['j', 'a', 80],
    });
    const [room] = loopsOf(level);
    expect(room!.tooNarrow).toBe(false);
    expect(cornersOf(room!)).toMatchObject({ 'j:w4>w1': [100, 100] });
    expect(room!.corners).toHaveLength(4);
  });

  it('[WK7] a jog hidden behind a wall that leaves the corner aslant goes, though it is not reversed', () => {
    const nodes = {
      a: [0, 0],
      b: [4000, 0],
      c: [4000, 3000],
      d: [0, 3000],
      j: [0, 110],
      s: [620, 680],
    } as const;
    const level = levelOf(nodes, {
      w1: ['a', 'b', 80],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'j', 200],
      w5: ['j', 'a', 80],
      spur: ['a', 's', 80],
    });
    const [room] = loopsOf(level);
    expect(room!.tooNarrow).toBe(false);
    expect(keysOf(room!)).not.toContain('j:w4>w5');
    const [x, y] = cornersOf(room!)['j:w4>spur']!;
    // The spur's face is 40 off its centre line: (680 x − 620 y) / √(620² + 680²) = −40.
    expect(x).toBe(100);
    expect((680 * x - 620 * y) / Math.hypot(620, 680)).toBeCloseTo(-40, 3);
  });

  it('[WK7] a triangle whose third corner lies half a tick off the line does not fail', () => {
    const nodes = { a: [0, 0], m: [2000, 1 / 320], b: [4000, 0] } as const;
    expect(kinds(levelOf(nodes, ring(nodes)))).toEqual(['void', 'outside']);
  });
});

describe('rooms, voids and islands', () => {
  it('[WK12] a chimney of 500 mm is a void, one whose faces enclose just 0.25 m² is a room', () => {
    const flue = (size: number) => {
      const nodes = rectangle('', 0, 0, size, size);
      return kinds(levelOf(nodes, ring(nodes)));
    };
    expect(flue(500)).toEqual(['void', 'outside']);
    expect(flue(599.9)).toEqual(['void', 'outside']);
    expect(flue(600)).toEqual(['outer', 'outside']);
  });

  it('[WK12] a column of four short walls in a room: an island around a void', () => {
    const column = rectangle('k', 1500, 1000, 300, 300);
    const { loops, holders } = levelFaces(
      levelOf({ ...box, ...column }, { ...ring(box), ...ring(column, 'k') }),
      DEFAULT_SETTINGS,
    );
    expect(loops.map(({ kind }) => kind)).toEqual(['outer', 'island', 'void', 'outside']);
    expect(holders).toEqual([null, 0, null, null]);
    expect(areaM2(loops[1]!)).toBe(-0.16);
  });

  it('[WK12] walls so thick that every face has changed places enclose nothing, however large the figure', () => {
    const nodes = rectangle('', 0, 0, 1000, 1000);
    const loops = loopsOf(levelOf(nodes, ring(nodes, 'w', 3000)));
    expect(loops.map(({ kind }) => kind)).toEqual(['void', 'outside']);
    expect(loops[0]!.signedArea).toBeGreaterThan(0);
  });

  it('[WK12] a passage narrower than its walls is turned inside out and void', () => {
    const nodes = rectangle('', 0, 0, 6000, 300);
    expect(kinds(levelOf(nodes, ring(nodes, 'w', 400)))).toEqual(['void', 'outside']);
  });

  it('[WK10] an island in an island: the inner one belongs to the smaller room', () => {
    const middle = rectangle('m', 1000, 1000, 6000, 5000);
    const inner = rectangle('i', 3000, 3000, 1000, 1000);
    const outer = rectangle('o', 0, 0, 9000, 8000);
    const { loops, holders } = levelFaces(
      levelOf(
        { ...outer, ...middle, ...inner },
        { ...ring(outer, 'o'), ...ring(middle, 'm'), ...ring(inner, 'i') },
      ),
      DEFAULT_SETTINGS,
    );
    expect(loops.map(({ kind, segments }) => [kind, segments[1]!.parts[0]!.wall])).toEqual([
      ['outer', 'o1'],
      ['island', 'm4'],
      ['outer', 'm1'],
      ['island', 'i4'],
      ['outer', 'i1'],
      ['outside', 'o4'],
    ]);
    expect(holders).toEqual([null, 0, null, 2, null, null]);
  });

  it('[WK12] what stands in a void is void too, and a room in a void still is a room', () => {
    const flue = rectangle('f', 1000, 1000, 400, 400);
    const level = levelOf(
      { ...box, ...flue, p: [1180, 1200], q: [1220, 1200] },
      { ...ring(box), ...ring(flue, 'f'), s: ['p', 'q', 10] },
    );
    expect(kinds(level)).toEqual(['outer', 'island', 'void', 'void', 'outside']);
    const shell = rectangle('s', 0, 0, 3000, 3000);
    const cell = rectangle('c', 500, 500, 2000, 2000);
    const thick = levelOf({ ...shell, ...cell }, { ...ring(shell, 's', 3200), ...ring(cell, 'c') });
    expect(kinds(thick)).toEqual(['outer', 'void', 'void', 'outside']);
  });

  it('[WK10] two buildings on a level: rooms by their smallest corner, two outsides, no island', () => {
    const west = rectangle('w', 0, 500, 3000, 3000);
    const east = rectangle('e', 5000, 0, 3000, 3000);
    const loops = loopsOf(levelOf({ ...west, ...east }, { ...ring(west, 'w'), ...ring(east, 'e') }));
    expect(loops.map(({ kind, segments }) => [kind, segments[1]!.key])).toEqual([
      ['outer', 'e1:right'],
      ['outer', 'w1:right'],
      ['outside', 'e4:left'],
      ['outside', 'w4:left'],
    ]);
  });

  it('[WK10] two rooms that share only a node are two rooms with one outside', () => {
    const nodes = {
      a: [0, 0],
      b: [2000, 0],
      m: [2000, 2000],
      d: [0, 2000],
      e: [4000, 2000],
      f: [4000, 4000],
      g: [2000, 4000],
    } as const;
    const loops = loopsOf(
      levelOf(nodes, {
        w1: ['a', 'b'],
        w2: ['b', 'm'],
        w3: ['m', 'd'],
        w4: ['d', 'a'],
        w5: ['m', 'e'],
        w6: ['e', 'f'],
        w7: ['f', 'g'],
        w8: ['g', 'm'],
      }),
    );
    expect(loops.map(({ kind }) => kind)).toEqual(['outer', 'outer', 'outside']);
    expect(loops.every(({ tooNarrow }) => !tooNarrow)).toBe(true);
  });
});

describe('too narrow', () => {
  it('[WK11] an arm of a room narrower than its walls crosses itself', () => {
    const nodes = {
      a: [0, 0],
      b: [4000, 0],
      c: [4000, 1500],
      d: [6000, 1500],
      e: [6000, 1560],
      f: [4000, 1560],
      g: [4000, 3000],
      h: [0, 3000],
    } as const;
    const [room] = loopsOf(levelOf(nodes, ring(nodes)));
    expect(room).toMatchObject({ kind: 'outer', tooNarrow: true });
  });

  it('[WK11] a pinch between a spur and the wall across marks the room', () => {
    const nodes = { ...topped, n: [2000, 2930] } as const;
    const walls = {
      w1: ['a', 'm'],
      w5: ['m', 'b'],
      w2: ['b', 'c'],
      w3: ['c', 'd'],
      w4: ['d', 'a'],
      s: ['m', 'n'],
    } as const;
    expect(loopsOf(levelOf(nodes, walls))[0]!.tooNarrow).toBe(false);
    expect(loopsOf(levelOf({ ...nodes, n: [2000, 2960] }, walls))[0]!.tooNarrow).toBe(true);
    expect(loopsOf(levelOf({ ...nodes, n: [2000, 2950] }, walls))[0]!.tooNarrow, 'touching').toBe(true);
  });

  it('[WK11] an island that crosses the room’s faces marks both, one that crosses another island both of those', () => {
    const wall = (x: number) =>
      levelFaces(
        levelOf({ ...box, m: [x, 1000], n: [x, 2000] }, { ...ring(box), s: ['m', 'n'] }),
        DEFAULT_SETTINGS,
      );
    expect(wall(200).loops.map(({ tooNarrow }) => tooNarrow)).toEqual([false, false, false]);
    expect(wall(90).loops.map(({ tooNarrow }) => tooNarrow)).toEqual([true, true, false]);
    expect(wall(90).narrowAt[0]!.segments).toEqual(expect.arrayContaining(['w4:right']));
    const two = levelOf(
      { ...box, m: [1000, 1000], n: [1000, 2000], p: [1080, 1000], q: [1080, 2000] },
      { ...ring(box), s: ['m', 'n'], t: ['p', 'q'] },
    );
    expect(loopsOf(two).map(({ kind, tooNarrow }) => [kind, tooNarrow])).toEqual([
      ['outer', false],
      ['island', true],
      ['island', true],
      ['outside', false],
    ]);
  });

  it('[WK11] an island wholly within a thick wall crosses nothing and is found all the same', () => {
    const level = levelOf(
      { ...box, m: [100, 1000], n: [100, 1500] },
      { ...ring(box, 'w', 400), s: ['m', 'n', 40] },
    );
    expect(loopsOf(level).map(({ tooNarrow }) => tooNarrow)).toEqual([true, true, false]);
  });

  it('[WK11] a slot narrower than its walls cannot close: the room is too narrow, not lost', () => {
    const nodes = {
      a: [0, 0],
      b: [2000, 0],
      c: [2000, -1000],
      d: [2090, -1000],
      e: [2090, 0],
      f: [4000, 0],
      g: [4000, 3000],
      h: [0, 3000],
    } as const;
    const { loops, narrowAt } = levelFaces(levelOf(nodes, ring(nodes)), DEFAULT_SETTINGS);
    expect(loops[0]).toMatchObject({ kind: 'outer', tooNarrow: true });
    expect(narrowAt[0]!.segments.length).toBeGreaterThan(0);
  });
});
