// Scribing whole plans and single runs. Facts of the trade here: common practice, no published source. A second,
// independently written formulation is held against this one in tests/outside.

import { beforeAll, describe, expect, it } from 'vitest';
import { heightAt } from '../../../core/fit/floor.ts';
import { scribeFindings, scribeRuns, scribeWords, solveScribe } from '../../../core/fit/index.ts';
import type { RunStation, ScribeBar, ScribeRun } from '../../../core/fit/scribe-run.ts';
import type { Scribe, Solver } from '../../../core/fit/types.ts';
import type { LevelId, SegmentKey } from '../../../core/plan/schema.ts';
import { trimRoom } from '../../../core/trim/index.ts';
import { splitKey } from '../../../core/trim/types.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { cases, random } from '../../seeds.ts';
import { bundleOf, type Change, DOOR, inch, planOf, profiles } from './house.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

const MM = 320;
/** 0.001 mm. */
const NEAR = 0.32;

function runsOf(change: Change): ScribeRun[] {
  const plan = planOf(change);
  const { walk, trims } = bundleOf(plan);
  return scribeRuns(plan, walk, trims);
}

const scribed = (change: Change): Scribe[] => runsOf(change).flatMap((run) => solveScribe(run, solver));
const byId = (scribes: readonly Scribe[], id: string): Scribe => {
  const scribe = scribes.find((each) => each.piece === id);
  if (!scribe) throw new Error(`no scribe ${id}, but ${scribes.map((each) => each.piece)}`);
  return scribe;
};
const trims = (scribe: Scribe): number[] =>
  scribe.stations.map((station) => Number((station.trim / MM).toFixed(2)) + 0);
const bottoms = (scribe: Scribe): number[] =>
  scribe.stations.map((station) => Number((station.bottom / MM).toFixed(2)) + 0);

/** Readings of a face: pairs of distance and height, mm. */
const floor = (...pairs: [number, number][]) => ({ floor: pairs.map(([at, height]) => ({ at, height })) });
const none = { trim: { base: null } };
const SIXTEENTH = inch(1 / 16);
/** Base on w1 and w2 only; datum given, so that readings are heights. */
const twoWalls = (w1: object, w2: object, change: Change = {}): Change => ({
  faces: { 'w1:right': w1, 'w2:right': w2, 'w3:right': none, 'w4:right': none },
  room: { floorDatum: 0, old: null, new: { floor: 0 }, ...change.room },
  ...(change.plan ? { plan: change.plan } : {}),
});

describe('facts of the trade', () => {
  it('[SC6] over a dip the board is taken down from the middle to the dead end only, keeps its full height in the corner, and spares its neighbour (common practice, no published source)', () => {
    const scribes = scribed(twoWalls(floor([0, 0], [4000, 0]), floor([0, 0], [1500, -SIXTEENTH], [3000, 0])));
    const board = byId(scribes, '1A');
    expect(trims(board)).toEqual([0, 0, 1.59]);
    expect(board).toMatchObject({ kind: 'dip', takeFrom: 'right' });
    expect(board.deepest / MM).toBeCloseTo(SIXTEENTH, 3);
    expect(board.shim / MM).toBeCloseTo(SIXTEENTH, 9);
    expect(bottoms(board)[0]).toBe(0);
    const neighbour = byId(scribes, '4A');
    expect(trims(neighbour)).toEqual([0, 0]);
    expect(neighbour).toMatchObject({ kind: 'level', takeFrom: 'none', shim: 0 });
    expect(bottoms(neighbour)).toEqual([0, 0]);
    expect(board.runArea).toBeCloseTo(((SIXTEENTH * MM) / 2) * 1500 * MM, -3);
  });

  it('[SC6] the same the other way round: the corner on the right, the dead end on the left', () => {
    const scribes = scribed(twoWalls(floor([0, 0], [2000, -SIXTEENTH], [4000, 0]), floor([0, 0], [3000, 0])));
    expect(trims(byId(scribes, '4A'))).toEqual([1.59, 0, 0]);
    expect(byId(scribes, '4A').takeFrom).toBe('left');
    expect(byId(scribes, '1A').takeFrom).toBe('none');
  });

  it('[SC6] over a hump in its middle, both ends free, the board lies level and only the middle is trimmed, by the hump less the tolerance (common practice, no published source)', () => {
    const hump = inch(1 / 4);
    const [board, ...rest] = scribed({
      faces: {
        'w1:right': floor([0, 0], [2000, hump], [4000, 0]),
        'w2:right': none,
        'w3:right': none,
        'w4:right': none,
      },
      room: { floorDatum: 0, old: null, new: { floor: 0 } },
    });
    expect(rest).toEqual([]);
    const tolerance = inch(1 / 32);
    expect(bottoms(board!)).toEqual([0.79, 0.79, 0.79]);
    expect(board!.stations[1]!.trim / MM).toBeCloseTo(hump - tolerance, 3);
    expect(board!.stations[0]!.trim).toBe(0);
    expect(board!.stations[2]!.trim).toBe(0);
    expect(board).toMatchObject({ kind: 'hump', takeFrom: 'middle' });
    // 7/32 in is no whole number of sixteenths: shims come in 1/4 in then.
    expect(board!.shim / MM).toBeCloseTo(hump, 9);
  });
});

describe('floor heights', () => {
  it('[SC1] readings are joined straight and level beyond the outermost', () => {
    const readings = [
      { at: 10, height: 1 },
      { at: 20, height: 3 },
    ];
    expect([0, 10, 15, 20, 99].map((at) => heightAt(readings, at))).toEqual([1, 1, 2, 3, 3]);
  });

  it('[SC3] a corner has one height, the mean of what its two faces say', () => {
    const [run] = runsOf(twoWalls(floor([0, 0], [4000, 4]), floor([0, 2], [3000, 0])));
    expect(run!.bars[0]!.stations.at(-1)!.floor).toBe(3 * MM);
    expect(run!.bars[1]!.stations[0]!.floor).toBe(3 * MM);
    expect(run!.bars[0]!.assumed).toEqual([]);
  });

  it('[SC3] in a closed run an unknown corner lies between the known ones by length, and is marked assumed', () => {
    // Only w1 is read: corner 4 is at 0, corner 1 at 10. Round by w2 (3 m), w3 (4 m), w4 (3 m): 10 → 7 → 3 → 0.
    const [run, ...rest] = runsOf({
      faces: { 'w1:right': floor([0, 0], [4000, 10]) },
      room: { floorDatum: 0, old: null },
    });
    expect(rest).toEqual([]);
    expect(run!.closed).toBe(true);
    expect(run!.heights).toBe(4);
    const ends = run!.bars.map((bar) => bar.stations.map((station) => station.floor / MM));
    expect(run!.bars.map((bar) => bar.pieces[0]!.id)).toEqual(['4A', '1A', '2A', '3A']);
    expect(ends).toEqual([
      [0, 10],
      [10, 7],
      [7, 3],
      [3, 0],
    ]);
    expect(run!.bars[0]!.assumed).toEqual([]);
    expect(run!.bars[2]!.assumed).toEqual(['the floor height in corner 2', 'the floor height in corner 3']);
  });

  it('[SC3] in an open run an unknown corner beyond the known ones is level with the nearest', () => {
    const [run] = runsOf(twoWalls(floor([0, 0], [4000, 10]), {}));
    expect(run!.closed).toBe(false);
    expect(run!.bars[1]!.stations.map((station) => station.floor / MM)).toEqual([10, 10]);
    expect(run!.bars[1]!.assumed).toEqual(['the floor height in corner 2']);
  });

  it('[SC2] without a datum the length-weighted mean of the readings is the new floor, marked assumed', () => {
    const change = (floorDatum: number | null): Change => ({
      faces: { 'w1:right': floor([0, 0], [4000, 10]), 'w2:right': floor([0, 10], [3000, 10]) },
      room: { floorDatum, old: null, new: { floor: 20, gap: 2 } },
    });
    // (4000 · 5 + 3000 · 10) / 7000 = 7.142857: shifted by 20 − 7.142857, and the gap of 2 on top.
    const start = (run: ScribeRun | undefined) => run!.bars.find((bar) => bar.pieces[0]!.id === '4A')!;
    const [assumed] = runsOf(change(null));
    expect(start(assumed).stations[0]!.floor / MM).toBeCloseTo(0 + 20 - 50 / 7 + 2, 9);
    expect(start(assumed).assumed).toContain('the floor datum');
    const [given] = runsOf(change(15));
    expect(start(given).stations[0]!.floor / MM).toBeCloseTo(17, 9);
    expect(start(given).assumed).toEqual([]);
  });

  it('[SC4] a run without a reading on its own faces has no scribe; one behind a block is another run', () => {
    expect(runsOf({ room: { floorDatum: 0 } })).toEqual([]);
    const blocked = runsOf({
      faces: { 'w1:right': floor([0, 0], [4000, 10]) },
      corners: {
        'n2:w1>w2': { number: 1, lines: { base: { joint: 'block' } } },
        'n3:w2>w3': { number: 2 },
        'n4:w3>w4': { number: 3 },
        'n1:w4>w1': { number: 4, lines: { base: { joint: 'block' } } },
      },
    });
    expect(blocked.map((run) => run.bars.map((bar) => bar.pieces.map((piece) => piece.id)))).toEqual([
      [['4A']],
    ]);
  });

  it('[SC3] a ring opened by one block still has one height in that corner', () => {
    const [run] = runsOf({
      faces: { 'w2:right': floor([0, 0], [3000, 6]) },
      corners: {
        'n2:w1>w2': { number: 1 },
        'n3:w2>w3': { number: 2 },
        'n4:w3>w4': { number: 3 },
        'n1:w4>w1': { number: 4, lines: { base: { joint: 'block' } } },
      },
      room: { floorDatum: 0 },
    });
    expect(run!.closed).toBe(false);
    expect(run!.bars.map((bar) => bar.pieces[0]!.id)).toEqual(['4A', '1A', '2A', '3A']);
    const first = run!.bars[0]!.stations[0]!.floor;
    expect(run!.bars.at(-1)!.stations.at(-1)!.floor).toBe(first);
    // From corner 2 (6) round by w3 (4 m), w4 (3 m), w1 (4 m) to corner 1 (0): 7 of 11 m on.
    expect(first / MM).toBeCloseTo(6 * (1 - 7 / 11), 9);
  });
});

describe('stations, tolerance, bars', () => {
  it('[SC5] the tolerance is 1/32 in, under carpet 1/8 in, under shoe its height less 1/4 in', () => {
    const tolerance = (room: Change['room'], plan?: Change['plan']): number =>
      runsOf(twoWalls(floor([0, 0]), {}, { ...(room ? { room } : {}), ...(plan ? { plan } : {}) }))[0]!
        .bars[0]!.stations[0]!.tolerance / MM;
    expect(tolerance({})).toBe(inch(1 / 32));
    expect(tolerance({ new: { floor: 0, carpet: true } })).toBe(inch(1 / 8));
    expect(tolerance({ trim: { base: 'base', shoe: 'shoe' } })).toBe(inch(1 / 2));
    const low = profiles({ shoe: { height: inch(0.25) } });
    expect(tolerance({ trim: { base: 'base', shoe: 'shoe' } }, low)).toBe(inch(1 / 32));
  });

  it('[SC4] readings beyond a board are not its stations, but they say how high its end stands', () => {
    const runs = runsOf({
      openings: { o1: DOOR },
      faces: {
        'w1:right': floor([0, 0], [1000, 0], [2000, 10], [3000, 0]),
        'w2:right': none,
        'w3:right': none,
        'w4:right': none,
      },
      room: { floorDatum: 0 },
    });
    expect(runs).toHaveLength(2);
    const [left, right] = runs.map((run) => run.bars[0]!);
    expect(left!.stations.map((station) => station.at / MM)).toEqual([0, 1000, left!.to / MM]);
    expect(left!.stations.at(-1)!.floor / MM).toBeCloseTo((10 * (left!.to / MM - 1000)) / 1000, 6);
    expect(right!.stations[0]!.floor / MM).toBeCloseTo((10 * (3000 - right!.from / MM)) / 1000, 6);
    expect(right!.stations.at(-1)!.floor).toBe(0);
  });

  it('[SC4] scarfed boards are one bar; each is told apart, and at the scarf there is trim or gap, not both', () => {
    const plan = planOf(twoWalls(floor([0, 0], [1000, 8], [2500, 1], [4000, 6]), floor([0, 6], [3000, 0])));
    const { walk } = bundleOf(plan);
    const trimmed = walk.rooms.map((room) =>
      trimRoom(plan, room, {
        [splitKey('L1' as LevelId, 'w1:right' as SegmentKey, 'base', 'corner..corner')]: [1500 * MM],
      }),
    );
    const [run] = scribeRuns(plan, walk, trimmed);
    expect(run!.bars[0]!.pieces).toHaveLength(2);
    const scribes = solveScribe(run!, solver);
    const [whole] = scribeRuns(plan, walk, bundleOf(plan).trims);
    const uncut = solveScribe(whole!, solver);
    // At 2500 the bar lies open by the tolerance, 254 ticks. The programme takes trim as straight from 1000 to there; cut
    // at 1500, a third of the way, the boards have 254 / 3 less at the scarf: 254 / 3 × 1500 mm / 2 less in area.
    const together = scribes[0]!.area + scribes[1]!.area;
    expect(together).toBeCloseTo(uncut[0]!.area - 254 * 250 * MM, 0);
    for (const { floor: f, bottom, trim, gap } of scribes.flatMap((each) => each.stations)) {
      expect(trim).toBeCloseTo(Math.max(0, f - bottom), 1);
      expect(Math.min(trim, gap)).toBe(0);
    }
    expect(scribes[0]!.runArea).toBeCloseTo(uncut[0]!.runArea, 3);
    const [a, b] = scribes;
    expect(a!.stations.map((station) => station.at / MM)).toEqual([0, 1000, 1500]);
    expect(b!.stations.map((station) => station.at / MM)).toEqual([0, 1000, 2500]);
    expect(a!.stations.at(-1)!.bottom).toBeCloseTo(b!.stations[0]!.bottom, 6);
    expect(a!.stations.at(-1)!.trim).toBeCloseTo(b!.stations[0]!.trim, 6);
  });

  it('[SC4] two readings at one place count as their mean, and order does not matter', () => {
    const mixed = runsOf(twoWalls(floor([2000, 4], [0, 0], [2000, 8], [4000, 0]), {}))[0]!;
    expect(mixed.bars[0]!.stations.map((station) => station.floor / MM)).toEqual([0, 6, 0]);
  });
});

describe('the old line', () => {
  const room = (old: number | null): Change['room'] => ({
    floorDatum: 0,
    new: { floor: 0 },
    old: old === null ? null : { baseHeight: old, floor: 0, gap: 0 },
  });

  it('[SC7] lifts the board where trimming less would bare it', () => {
    const dip: Change = twoWalls(floor([0, 0], [2000, -6], [4000, 0]), floor([0, 0], [3000, 0]));
    const free = scribed({ ...dip, room: room(null)! });
    const held = scribed({ ...dip, room: room(inch(5.5) - 5.5)! });
    expect(Math.min(...bottoms(free[0]!))).toBeLessThan(-8);
    for (const scribe of held) {
      expect(scribe.coversOldLine).toBe(true);
      for (const station of scribe.stations) expect(station.bottom / MM).toBeGreaterThan(-5.5 - 0.001);
    }
  });

  it('[SC7] where nothing covers it, the worst shortfall is made least, and scribe-deep says by how much', () => {
    // The floor drops 6 mm in the middle: the bottom may stand 1/32 in over it, so the top is 6 − 0.79 mm too low at a
    // line of the board's own height.
    const change: Change = {
      faces: {
        'w1:right': floor([0, 0], [2000, -6], [4000, 0]),
        'w2:right': none,
        'w3:right': none,
        'w4:right': none,
      },
      room: room(inch(5.5))!,
    };
    const plan = planOf(change);
    const bundle = bundleOf(plan);
    const scribes = scribeRuns(plan, bundle.walk, bundle.trims).flatMap((run) => solveScribe(run, solver));
    expect(scribes[0]!.coversOldLine).toBe(false);
    expect(scribes[0]!.assumed).toContain('the old line (taken as level)');
    expect(bottoms(scribes[0]!)[1]).toBe(-5.21);
    // Least worst: level, not tilted.
    expect(bottoms(scribes[0]!)[0]).toBe(-5.21);
    const [finding, ...rest] = scribeFindings(plan, bundle, scribes);
    expect(rest).toEqual([]);
    expect(finding).toMatchObject({ code: 'scribe-deep', severity: 'stop', about: ['4A'] });
    expect(finding!.figures.shortMm).toBeCloseTo(6 - inch(1 / 32), 3);
  });

  it('[SC7] a line of the face’s own is held between stations too', () => {
    const line = [0, 2000, 4000].map((at) => ({ at, height: at === 2000 ? inch(5.5) + 3 : 0 }));
    const [scribe] = scribed({
      faces: {
        'w1:right': { ...floor([0, 0], [4000, 0]), line },
        'w2:right': none,
        'w3:right': none,
        'w4:right': none,
      },
      room: room(null)!,
    });
    expect(scribe!.coversOldLine).toBe(false);
    expect(scribe!.assumed).toEqual([]);
    expect(bottoms(scribe!)).toEqual([0.79, 0.79]);
    const high = line.map(({ at, height }) => ({ at, height: height - 2.5 }));
    const [covered] = scribed({
      faces: {
        'w1:right': { ...floor([0, 0], [4000, 0]), line: high },
        'w2:right': none,
        'w3:right': none,
        'w4:right': none,
      },
      room: room(null)!,
    });
    expect(covered!.coversOldLine).toBe(true);
    // The middle must stand 0.5 mm up: level at 0.5 has the same gap as a tilt, and less slope.
    expect(bottoms(covered!)).toEqual([0.5, 0.5]);
  });

  it('[SC2] is not held where neither datum nor new floor is known', () => {
    const change: Change = {
      faces: { 'w1:right': floor([0, 0], [4000, 3]) },
      room: { floorDatum: null, new: null, old: { baseHeight: 500, floor: 0 } },
    };
    const [run] = runsOf(change);
    expect(run!.bars.flatMap((bar) => bar.stations).every((station) => station.line === null)).toBe(true);
    // The ring starts with the board on w1, the only face that was read: both its corners are known.
    expect(run!.bars[0]!.pieces[0]!.id).toBe('4A');
    expect(run!.bars[0]!.assumed).toEqual(['the floor datum', 'the new floor height']);
  });
});

describe('findings and words', () => {
  const findings = (change: Change) => {
    const plan = planOf(change);
    const bundle = bundleOf(plan);
    const scribes = scribeRuns(plan, bundle.walk, bundle.trims).flatMap((run) => solveScribe(run, solver));
    return { plan, scribes, findings: scribeFindings(plan, bundle, scribes) };
  };
  const single = (face: object, change: Change = {}): Change => ({
    faces: { 'w1:right': face, 'w2:right': none, 'w3:right': none, 'w4:right': none },
    ...change,
    room: { floorDatum: 0, old: null, new: { floor: 0 }, ...change.room },
  });

  it('[SC9] scribe-deep: more than 3/8 in off a board, not at 3/8 in', () => {
    const hump = (height: number) => findings(single(floor([0, 0], [2000, height], [4000, 0]))).findings;
    const limit = inch(3 / 8 + 1 / 32);
    expect(hump(limit)).toEqual([]);
    const [finding] = hump(limit + 0.01);
    expect(finding).toMatchObject({ code: 'scribe-deep', severity: 'stop' });
    expect(finding!.figures.deepestMm).toBeCloseTo(inch(3 / 8) + 0.01, 2);
    expect(finding!.figures.limitMm).toBe(inch(3 / 8));
  });

  it('[SC9] end-tilt: slope times height over 1/32 in at a casing, not at a dead end', () => {
    // A wall of 1.5 m to the door, base 5 1/2 in: 1/32 in over the height is a slope of 1 in 176.
    const length = 1600 - inch(3 / 16 + 2.75);
    const rise = (slope: number) =>
      findings(
        single(floor([0, 0], [length, slope * length]), {
          openings: { o1: { ...DOOR, width: 2390 } },
        }),
      ).findings.filter((each) => each.code === 'end-tilt');
    const limit = inch(1 / 32) / inch(5.5);
    expect(rise(limit * 0.99)).toEqual([]);
    const [finding, ...rest] = rise(limit * 1.01);
    expect(rest).toEqual([]);
    expect(finding).toMatchObject({ severity: 'fix', about: ['4A'] });
    expect(finding!.figures.endDeg).toBeCloseTo((Math.atan(limit * 1.01) * 180) / Math.PI, 3);
    expect(finding!.remedies[0]).toContain('right end 0.33° off square');
    const dead = findings(single(floor([0, 0], [4000, limit * 2 * 4000])));
    expect(dead.findings).toEqual([]);
  });

  it('[SC9] end-tilt in a mitred corner', () => {
    const corner = (joint: 'mitre' | 'cope') =>
      findings({
        ...twoWalls(floor([0, 0], [4000, 40]), floor([0, 40], [3000, 40])),
        corners: { 'n2:w1>w2': { number: 1, lines: { base: { joint } } }, 'n1:w4>w1': { number: 4 } },
      }).findings.filter((each) => each.code === 'end-tilt');
    expect(corner('mitre').map((each) => each.about)).toEqual([['4A']]);
    expect(corner('cope')).toEqual([]);
  });

  it('[SC8] says how to set the board up: R rounded up to the shims, blocks under both ends', () => {
    const { plan, scribes } = findings(single(floor([0, 0], [2000, inch(1 / 4)], [4000, 0])));
    const words = scribeWords(scribes[0]!, plan);
    // y = 1/32 over f = 0 at both ends, R = 1/4: block 9/32 in.
    expect(words).toEqual([
      'The floor under board 4A has a hump.',
      'Block the left end 9⁄32" and the right end 9⁄32" off the floor.',
      'Set the scriber at 1⁄4", draw along the floor and cut to the line: it comes off in its middle, 7⁄32" at the deepest.',
    ]);
    const level = findings(single(floor([0, 0], [4000, 0])));
    expect(scribeWords(level.scribes[0]!, level.plan)).toEqual([
      'The floor under board 4A is level.',
      'It stands as it is: nothing to scribe.',
    ]);
  });

  it('[SC8] less than 1/64 in of trim counts as untouched', () => {
    const hump = (over: number) =>
      findings(single(floor([0, 0], [2000, inch(1 / 32) + over], [4000, 0]))).scribes[0]!;
    expect(hump(inch(1 / 64) - 0.01)).toMatchObject({ takeFrom: 'none', shim: 0 });
    expect(hump(inch(1 / 64) + 0.01)).toMatchObject({ takeFrom: 'middle', shim: inch(1 / 16) * MM });
  });

  it('[SC8] hump, dip, slope and level are told apart', () => {
    const kind = (...pairs: [number, number][]) => findings(single(floor(...pairs))).scribes[0]!.kind;
    expect(kind([0, 0], [2000, 1], [4000, 0])).toBe('hump');
    expect(kind([0, 0], [2000, -1], [4000, 0])).toBe('dip');
    expect(kind([0, 0], [2000, 2], [4000, 4])).toBe('slope');
    expect(kind([0, 0], [2000, 0.3], [4000, 0.3])).toBe('level');
  });
});

/** A run of its own: bars joined end to end, mm. */
function handMade(
  bars: { length: number; floor: [number, number][] }[],
  closed: boolean,
  line: number | null,
): ScribeRun {
  return {
    level: 'L1' as LevelId,
    room: 'r1',
    closed,
    heights: closed ? bars.length : bars.length + 1,
    shimStep: 508,
    gap: 0,
    carpet: false,
    bars: bars.map(
      ({ length, floor: pairs }, b): ScribeBar => ({
        segment: `w${b}:right` as SegmentKey,
        pieces: [{ id: `${b}A`, from: 0, to: length * MM }],
        from: 0,
        to: length * MM,
        height: 140 * MM,
        left: b,
        right: closed && b === bars.length - 1 ? 0 : b + 1,
        stations: pairs.map(
          ([at, height]): RunStation => ({
            at: at * MM,
            floor: height * MM,
            tolerance: 254,
            line: line === null ? null : line * MM,
          }),
        ),
        lineOnly: [],
        assumed: [],
      }),
    ),
  };
}

/** A random run: 1 to 6 bars, floors of a few millimetres, readings at uneven places. */
function randomRun(next: () => number): ScribeRun {
  const count = 1 + Math.floor(next() * 6);
  const closed = count > 2 && next() < 0.4;
  const corners = Array.from({ length: count + 1 }, () => Math.round((next() - 0.5) * 160) / 16);
  if (closed) corners[count] = corners[0]!;
  const bars = Array.from({ length: count }, (_, b) => {
    const length = 200 + Math.floor(next() * 5000);
    const inner = Array.from({ length: Math.floor(next() * 6) }, (): [number, number] => [
      1 + Math.floor(next() * (length - 2)),
      Math.round((next() - 0.5) * 160) / 16,
    ]).sort((a, b) => a[0] - b[0]);
    const apart = inner.filter(([at], i) => i === 0 || at !== inner[i - 1]![0]);
    return { length, floor: [[0, corners[b]!], ...apart, [length, corners[b + 1]!]] as [number, number][] };
  });
  return handMade(bars, closed, next() < 0.4 ? 130 + next() * 14 : null);
}

/** Aims of a choice of heights, in the order they are made least, mm; null where a board stands too far off the floor. */
function aimsOf(run: ScribeRun, heights: readonly number[]): number[] | null {
  let [shortfall, area, deepest, gap, slopes, total] = [0, 0, 0, 0, 0, 0];
  for (const bar of run.bars) {
    const [l, r] = [heights[bar.left]!, heights[bar.right]!];
    slopes += (Math.abs(r - l) / (bar.to - bar.from)) * 1000;
    const y = (at: number): number => l + ((r - l) * at) / bar.to;
    total += bar.to;
    bar.stations.forEach((station, k) => {
      const weight = ((bar.stations[k + 1]?.at ?? station.at) - (bar.stations[k - 1]?.at ?? station.at)) / 2;
      const over = y(station.at) - station.floor;
      if (over > station.tolerance + 1e-4) area = Number.NaN;
      area += weight * Math.max(0, -over);
      gap += weight * Math.max(0, over);
      deepest = Math.max(deepest, -over);
      if (station.line !== null)
        shortfall = Math.max(shortfall, station.line - y(station.at) - (bar.height ?? 0));
    });
  }
  if (Number.isNaN(area)) return null;
  return [shortfall / MM, area / total / MM, deepest / MM, gap / total / MM, slopes];
}

/** The heights of a solved run. */
function heightsFrom(run: ScribeRun, scribes: readonly Scribe[]): number[] {
  const heights: number[] = [];
  run.bars.forEach((bar, b) => {
    heights[bar.left] = scribes[b]!.stations[0]!.bottom;
    heights[bar.right] = scribes[b]!.stations.at(-1)!.bottom;
  });
  return heights;
}

describe('one aim after the other, worked by hand', () => {
  const TOL = 254 / MM;
  const bar = (...heights: [number, number, number]) => ({
    length: 2000,
    floor: heights.map((height, i): [number, number] => [1000 * i, height]),
  });
  const heights = (...bars: ReturnType<typeof bar>[]): number[] => {
    const run = handMade(bars, false, null);
    return heightsFrom(run, solveScribe(run, solver)).map((height) => height / MM);
  };
  const expectNear = (found: number[], ...wanted: number[]): void => {
    expect(found).toHaveLength(wanted.length);
    found.forEach((height, h) => {
      expect(height).toBeCloseTo(wanted[h]!, 3);
    });
  };

  it('[SC6] of answers of one area the deepest cut is least, though the board then tilts', () => {
    // Ends 3 and 2 over a middle of 0: the ends' sum is held at twice the tolerance, so every tilt trims the same area.
    expectNear(heights(bar(3, 0, 2)), TOL + 0.5, TOL - 0.5);
  });

  it('[SC6] of those the gap is least, though the board then tilts', () => {
    expectNear(heights(bar(0, 0.25, 0.5)), 0, 0.5);
  });

  it('[SC6] of those the slopes are least', () => {
    // A hump of 0.5 in the middle, under the tolerance: any tilt about it has the same gap.
    expectNear(heights(bar(0, 0.5, 0)), 0.5, 0.5);
  });

  it('[SC6] of those the lowest from left to right', () => {
    // Ends a, b, c: a + b = 1 and b + c = 1.2 by the humps; the gap is the same for all b, the slopes for b from 0.5 to 0.6.
    expectNear(heights(bar(0, 0.5, 0), bar(0, 0.6, 0)), 0.4, 0.6, 0.6);
    expectNear(heights(bar(0, 0.6, 0), bar(0, 0.5, 0)), 0.6, 0.6, 0.4);
  });
});

describe('the programmes', () => {
  const SEED = 41;
  const COUNT = cases(400);

  it(`[SC6] no small move of any heights is better, taking the aims in order (seed ${SEED}, ${COUNT} runs)`, () => {
    const next = random(SEED);
    let closed = 0;
    let short = 0;
    for (let i = 0; i < COUNT; i += 1) {
      const run = randomRun(next);
      if (run.closed) closed += 1;
      const scribes = solveScribe(run, solver);
      if (scribes.some((scribe) => !scribe.coversOldLine)) short += 1;
      const heights = heightsFrom(run, scribes);
      const best = aimsOf(run, heights);
      expect(best, `seed ${SEED}, run ${i}: too far off the floor`).not.toBeNull();
      for (let move = 0; move < 60; move += 1) {
        const size = 10 ** (-2 + 3 * next()) * MM;
        const moved = heights.map((height) => height + (next() < 0.5 ? 0 : (next() - 0.5) * size));
        const aims = aimsOf(run, moved);
        if (!aims) continue;
        // Better is: no earlier aim worse by more than the slack, and this one less by something to speak of.
        aims.forEach((aim, a) => {
          const held = aims.slice(0, a).every((earlier, k) => earlier <= best![k]! + 2e-9);
          if (held) expect(aim, `seed ${SEED}, run ${i}, aim ${a}`).toBeGreaterThan(best![a]! - 1e-4);
        });
      }
    }
    expect(closed).toBeGreaterThan(0);
    expect(short).toBeGreaterThan(0);
    console.log(`scribe moves: ${COUNT} runs, ${closed} closed, ${short} that cannot cover the line`);
  });

  it(`[SC6] the slack between aims moves no height by 0.001 mm (seed ${SEED + 1}, ${COUNT} runs)`, () => {
    const next = random(SEED + 1);
    let worst = 0;
    for (let i = 0; i < COUNT; i += 1) {
      const run = randomRun(next);
      const usual = heightsFrom(run, solveScribe(run, solver));
      for (const slack of [1e-10, 1e-8]) {
        const other = heightsFrom(run, solveScribe(run, solver, slack));
        const off = Math.max(...usual.map((height, h) => Math.abs(height - other[h]!)));
        worst = Math.max(worst, off);
        expect(off / MM, `seed ${SEED + 1}, run ${i}, slack ${slack}`).toBeLessThan(0.001);
      }
    }
    console.log(`scribe slack: ${COUNT} runs, worst ${(worst / MM).toExponential(2)} mm`);
  });

  it(`[SC6] raising the whole house moves every board with it (seed ${SEED + 2})`, () => {
    const next = random(SEED + 2);
    for (let i = 0; i < cases(60); i += 1) {
      const run = randomRun(next);
      const lift = 1000 * MM;
      const lifted: ScribeRun = {
        ...run,
        bars: run.bars.map((bar) => ({
          ...bar,
          stations: bar.stations.map((station) => ({
            ...station,
            floor: station.floor + lift,
            line: station.line === null ? null : station.line + lift,
          })),
        })),
      };
      const low = heightsFrom(run, solveScribe(run, solver));
      const high = heightsFrom(lifted, solveScribe(lifted, solver));
      low.forEach((height, h) => {
        expect(Math.abs(high[h]! - lift - height), `seed ${SEED + 2}, run ${i}`).toBeLessThan(NEAR);
      });
    }
  });
});
