// Scribes of seeded random runs against a second formulation that imports nothing from core and uses another solver
// (yalps 0.6.4; the product's is HiGHS), and single free boards against the hull of their floor profile.

import { describe, expect, it } from 'vitest';
import { cases, random } from '../seeds.ts';
import { refBoards, settingsOf } from './lib/boards.ts';
import { type RefRun, refRuns } from './lib/choice.ts';
import { type RefRoom, refLevel } from './lib/faces.ts';
import { emptyLevel, type PlanJson, planOf, tick } from './lib/file.ts';
import { between, chance, pick, type Rng } from './lib/houses.ts';
import { answer, hullAt, type RefScribe, refScribe } from './lib/scribe.ts';
import { randomRoom } from './lib/single-rooms.ts';
import { type Scribe, solve } from './product-solved.ts';

const FIRST_SEED = 60_000;
const RUNS = cases(200);
const MM2 = 320 * 320;

/** Floor readings on most faces: a slope, humps and dips of a few millimetres, at places of the reader's choosing. */
function read(rng: Rng, plan: PlanJson, room: RefRoom): void {
  const level = plan.levels[0]!;
  const record = level.rooms.r1!;
  const tilt = [between(rng, -0.003, 0.003), between(rng, -0.003, 0.003)] as const;
  const rough = between(rng, 0, 5);
  for (const loop of room.loops) {
    for (const segment of loop.segments) {
      if (chance(rng, 0.25)) continue;
      const count = 1 + Math.floor(rng() * 6);
      const places = Array.from({ length: count }, () => tick(between(rng, 0, segment.length)));
      if (chance(rng, 0.5)) places.push(0);
      const floor = [...new Set(places)].map((at) => {
        const x = segment.start[0] + segment.along[0] * at;
        const y = segment.start[1] + segment.along[1] * at;
        return { at, height: tick(tilt[0] * x + tilt[1] * y + between(rng, -rough, rough)) };
      });
      level.faces[segment.key] = { ...level.faces[segment.key], floor };
    }
  }
  const gap = chance(rng, 0.25) ? tick(between(rng, 2, 12)) : 0;
  const carpet = gap > 0;
  record.new = { floor: 12.7, gap, carpet };
  record.floorDatum = tick(between(rng, 0, 20));
  plan.settings.scribeTolerance = pick(rng, [0, 0.4, 0.79375, 2]);
  if (chance(rng, 0.4)) {
    // An old line that sometimes lies too high to be covered everywhere.
    const top = 12.7 + gap + 139.7;
    record.old = { baseHeight: 120, floor: tick(top - 120 - between(rng, -6, 25)), gap: 0 };
  }
}

interface Found {
  seed: number;
  scribe: RefScribe;
  run: RefRun;
  /** The product's, one list for each bar. */
  bars: Scribe[][];
}

const found: Found[] = [];
let unread = 0;
let silent = 0;
for (let seed = FIRST_SEED; found.length < RUNS; seed++) {
  const rng = random(seed);
  const plan = randomRoom(rng, { measured: false, buildUpDeg: 1.5 });
  const level = plan.levels[0]!;
  // Tops of unlike height are never level; they are another test's.
  if (Object.values(level.faces).some((face) => face.trim?.base === 'base-c')) continue;
  const ref = refLevel(level).rooms[0]!;
  read(rng, plan, ref);
  const record = level.rooms.r1!;
  const boards = refBoards(plan, level, record, ref);
  if (boards.open.length > 0) continue;
  const solved = await solve(plan);
  const { pieces } = solved.report;
  const idsOf = (key: string, stretch: string): string[] =>
    pieces
      .filter((p) => p.line === 'base' && p.returnOf === null && p.segment === key && p.stretch === stretch)
      .map((p) => p.id);
  const runs = refRuns(ref, boards, settingsOf(plan), null, (s) => {
    return Math.max(1, idsOf(ref.loops[s.loop]!.segments[s.segment]!.key, s.key).length);
  });
  for (const run of runs) {
    const scribe = refScribe(plan, level, record, ref, run);
    const idsOfRun = run.boards.flatMap(({ stretch }) =>
      idsOf(ref.loops[stretch.loop]!.segments[stretch.segment]!.key, stretch.key),
    );
    if (scribe === null) {
      expect(
        solved.scribes.filter((s) => idsOfRun.includes(s.piece)),
        `seed ${seed}: a run nobody read`,
      ).toEqual([]);
      unread++;
      continue;
    }
    if (scribe === 'silent') {
      silent++;
      continue;
    }
    if (scribe.bars.length > 8 || found.length === RUNS) continue;
    const bars = scribe.bars.map(({ stretch }) => {
      const ids = idsOf(ref.loops[stretch.loop]!.segments[stretch.segment]!.key, stretch.key);
      return solved.scribes.filter((s) => ids.includes(s.piece));
    });
    found.push({ seed, scribe, run, bars });
  }
}

const mm = (ticks: number): number => ticks / 320;
/** Stations of a bar, whether it is one board or several scarfed ones. */
const stationsOf = (scribes: readonly Scribe[]): Scribe['stations'][number][] =>
  scribes.flatMap((s) => [...s.stations]);

describe('scribes of random runs against a second formulation', () => {
  it('[SC] trimmed area and deepest cut are those of another solver', () => {
    const sizes = new Map<number, number>();
    let short = 0;
    let closed = 0;
    let scarfed = 0;
    for (const { seed, scribe, run, bars } of found) {
      const say = `seed ${seed}, run of ${scribe.bars.map((bar) => bar.stretch.key).join(' ')}`;
      const wanted = answer(scribe);
      for (const bar of bars) expect(bar.length, say).toBeGreaterThan(0);
      const area = bars[0]![0]!.runArea / MM2;
      expect(Math.abs(area - wanted.area), `${say}: area ${area} for ${wanted.area}`).toBeLessThan(
        0.01 + wanted.area * 1e-5,
      );
      const deepest = Math.max(...bars.flat().map((s) => mm(s.deepest)));
      expect(
        Math.abs(deepest - wanted.deepest),
        `${say}: deepest ${deepest} for ${wanted.deepest}`,
      ).toBeLessThan(1e-3);
      sizes.set(scribe.bars.length, (sizes.get(scribe.bars.length) ?? 0) + 1);
      if (wanted.shortfall > 1e-6) short++;
      if (run.closed) closed++;
      if (run.boards.some((board) => board.parts > 1)) scarfed++;
    }
    console.log(
      `scribes: ${found.length} runs from seed ${FIRST_SEED}, by boards ${JSON.stringify([...sizes].sort((a, b) => a[0] - b[0]))}, ` +
        `closed ${closed}, scarfed ${scarfed}, old line left bare ${short}, runs without readings ${unread}, where the page is silent ${silent}`,
    );
  });

  it('[SC] no reading is left over tolerance, trim is floor less bottom, and stations stand where floor was read', () => {
    for (const { seed, scribe, bars } of found) {
      bars.forEach((scribes, b) => {
        const bar = scribe.bars[b]!;
        const say = `seed ${seed}, ${bar.stretch.key}`;
        // Where boards of one bar are scarfed is no station of the bar.
        let start = bar.stretch.from;
        const got = scribes.flatMap((s) => {
          const list = s.stations.map((station) => ({ station, at: start + mm(station.at) }));
          start += mm(s.stations[s.stations.length - 1]!.at);
          return list;
        });
        if (scribes.length === 1) expect(got.length, say).toBe(bar.stations.length);
        bar.stations.forEach((reading, k) => {
          const here = got.find(
            ({ at, station }) =>
              Math.abs(at - reading.at) < 0.01 &&
              (reading.guessed || Math.abs(mm(station.floor) - reading.floor) < 1e-4),
          );
          expect(here, `${say}: station ${k} at ${reading.at}, floor ${reading.floor}`).toBeDefined();
          const gap = mm(here!.station.bottom - here!.station.floor);
          expect(gap, say).toBeLessThan(scribe.tolerance + 1e-5);
          expect(Math.abs(mm(here!.station.trim) - Math.max(0, -gap)), say).toBeLessThan(1e-5);
          expect(Math.abs(mm(here!.station.gap) - Math.max(0, gap)), say).toBeLessThan(1e-5);
        });
      });
    }
  });

  it('[SC] tops are level at every joined corner, and scarfed boards are one straight bar', () => {
    let corners = 0;
    for (const { seed, scribe, run, bars } of found) {
      const n = bars.length;
      for (let i = 0; i < (run.closed ? n : n - 1); i++) {
        const here = stationsOf(bars[i]!);
        const next = stationsOf(bars[(i + 1) % n]!);
        const say = `seed ${seed}, after ${scribe.bars[i]!.stretch.key}`;
        expect(mm(Math.abs(here[here.length - 1]!.bottom - next[0]!.bottom)), say).toBeLessThan(1e-5);
        corners++;
      }
      for (const scribes of bars) {
        let at = 0;
        const points = scribes.flatMap((s) => {
          const list = s.stations.map((station) => [at + station.at, station.bottom] as const);
          at += s.stations[s.stations.length - 1]!.at;
          return list;
        });
        const [x0, y0] = points[0]!;
        const [x1, y1] = points[points.length - 1]!;
        for (const [x, y] of points) {
          expect(mm(Math.abs(y - (y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)))), `seed ${seed}`).toBeLessThan(
            1e-3,
          );
        }
      }
    }
    expect(corners).toBeGreaterThan(0);
  });
});

describe('one free board at tolerance 0', () => {
  it('[SC] takes off what lies between the floor profile and its hull’s tangent under the board’s middle', async () => {
    const boards = cases(200);
    for (let i = 0; i < boards; i++) {
      const seed = 70_000 + i;
      const rng = random(seed);
      const length = tick(between(rng, 900, 5200));
      const level = emptyLevel();
      level.nodes = { a: [0, 0], b: [length + 100, 0], c: [length + 100, 3000], d: [0, 3000] };
      level.walls = {
        top: { from: 'a', to: 'b', thickness: 100 },
        right: { from: 'b', to: 'c', thickness: 100 },
        bottom: { from: 'c', to: 'd', thickness: 100 },
        left: { from: 'd', to: 'a', thickness: 100 },
      };
      level.rooms.r1 = { name: 'Room', at: [1000, 1500], trim: {}, new: { floor: 0, gap: 0 }, floorDatum: 0 };
      const places = [
        0,
        length,
        ...Array.from({ length: 1 + Math.floor(rng() * 7) }, () => tick(between(rng, 1, length - 1))),
      ];
      const floor = [...new Set(places)]
        .sort((p, q) => p - q)
        .map((at) => ({ at, height: tick(between(rng, -6, 6)) }));
      // Only this face carries base: both its ends are free.
      level.faces['top:right'] = { trim: { base: 'base-a' }, floor };
      const plan = planOf('one board', [level]);
      plan.settings.scribeTolerance = 0;
      plan.profiles['base-a'] = {
        kind: 'base',
        name: 'Base',
        height: 140,
        thickness: 15,
        form: 'shaped',
        material: 'pine',
        stock: [{ length: 14000 }],
      };
      const { scribes } = await solve(plan);
      expect(scribes.length, `seed ${seed}`).toBe(1);
      const scribe = scribes[0]!;
      const stations = floor.map(({ at, height }) => ({ at, floor: height }));
      let profile = 0;
      for (let k = 1; k < stations.length; k++) {
        profile +=
          ((stations[k]!.floor + stations[k - 1]!.floor) / 2) * (stations[k]!.at - stations[k - 1]!.at);
      }
      // A straight bottom's mean height is its height at the middle, so the best one touches the hull there.
      const least = profile - length * hullAt(stations, length / 2);
      expect(Math.abs(scribe.area / MM2 - least), `seed ${seed}`).toBeLessThan(1e-3 + least * 1e-6);
      for (const station of scribe.stations) expect(mm(station.gap), `seed ${seed}`).toBeLessThan(1e-5);
    }
    console.log(`hulls: ${boards} boards from seed 70000`);
  });
});
