// Rooms, areas and corners of seeded random levels against two references that import nothing from core: floors left by a
// general polygon library's union of the walls, and faces walked by offset lines written apart.

import { polygonArea, polygonLength } from 'd3-polygon';
import { describe, expect, it } from 'vitest';
import { cases, random } from '../seeds.ts';
import { refLevel } from './lib/faces.ts';
import type { PlanJson, Vec } from './lib/file.ts';
import { type HouseTraits, randomHouse } from './lib/houses.ts';
import { bufferedWalls, cutWalls, type Floor, floors } from './lib/solids.ts';
import { type ReportRoom, reportOf } from './product.ts';

const FIRST_SEED = 1000;
const HOUSES = cases(400);

interface House {
  seed: number;
  plan: PlanJson;
  traits: HouseTraits;
  rooms: ReportRoom[];
}

const houses: House[] = Array.from({ length: HOUSES }, (_, i) => {
  const seed = FIRST_SEED + i;
  const { plan, traits } = randomHouse(random(seed));
  return { seed, plan, traits, rooms: reportOf(plan).rooms };
});

const ringsOf = (room: ReportRoom): Vec[][] =>
  room.loops.map((loop) => loop.corners.map((corner) => corner.at));
const byArea = <T extends { area: number }>(list: T[]): T[] => [...list].sort((p, q) => p.area - q.area);
const voids = (list: Floor[]): Floor[] => list.filter((floor) => floor.outerArea >= 250_000);

/** Walls in line are laid on whole ticks, so a face over several of them may bow by one: area by a tick along it all. */
const AREA_PER_MM = 1 / 320;

function compareFloors(house: House, found: Floor[]): void {
  const say = `seed ${house.seed}`;
  const ours = byArea(house.rooms.map((room) => ({ area: room.areaMm2, room })));
  const theirs = byArea(voids(found));
  expect(ours.length, say).toBe(theirs.length);
  ours.forEach(({ area, room }, i) => {
    const floor = theirs[i]!;
    expect(Math.abs(area - floor.area), say).toBeLessThan(floor.perimeter * AREA_PER_MM);
    expect(Math.abs(room.perimeterMm - floor.perimeter), say).toBeLessThan(0.02);
    expect(room.loops.length - 1, say).toBe(floor.islands);
  });
}

describe('rooms of random levels against a polygon library (jsts 2.12.1)', () => {
  it('[WK] walls of any thickness, cut along their corners and united: what is left are the rooms', () => {
    for (const house of houses) compareFloors(house, floors(cutWalls(house.plan.levels[0]!)));
    const sum = (key: keyof HouseTraits): number =>
      houses.reduce((n, house) => n + Number(house.traits[key]), 0);
    const rooms = houses.reduce((n, house) => n + house.rooms.length, 0);
    console.log(
      `rooms: seeds ${FIRST_SEED}–${FIRST_SEED + HOUSES - 1}, ${rooms} rooms, buildings ${sum('buildings')}, T-cuts ${sum('cuts')}, ` +
        `spurs ${sum('spurs')}, free walls ${sum('freeWalls')}, islands ${sum('islands')}, islands in islands ${sum('nested')}, ` +
        `one thickness ${sum('equal')} of ${HOUSES}`,
    );
    for (const key of ['cuts', 'spurs', 'freeWalls', 'islands', 'nested', 'equal'] as const) {
      expect(sum(key), key).toBeGreaterThan(0);
    }
  });

  it('[WK] walls of one thickness as flat-ended buffers with mitred joins: what is left are the rooms', () => {
    const equal = houses.filter((house) => house.traits.equal);
    for (const house of equal) compareFloors(house, floors(bufferedWalls(house.plan.levels[0]!)));
    console.log(`rooms by buffers: ${equal.length} levels of one thickness`);
    expect(equal.length).toBeGreaterThan(0);
  });
});

describe('faces of random levels against offset lines written apart', () => {
  it('[WK] every corner has the same key, place, kind and angle, every segment the same key and length, in the same order', () => {
    let corners = 0;
    let jogs = 0;
    let ends = 0;
    for (const house of houses) {
      const say = `seed ${house.seed}`;
      const theirs = byArea(refLevel(house.plan.levels[0]!).rooms);
      const ours = byArea(house.rooms.map((room) => ({ area: room.areaMm2, room })));
      expect(ours.length, say).toBe(theirs.length);
      ours.forEach(({ room }, i) => {
        const ref = theirs[i]!;
        expect(Math.abs(room.areaMm2 - ref.area), say).toBeLessThan(0.01 + ref.area * 1e-9);
        expect(Math.abs(room.perimeterMm - ref.perimeter), say).toBeLessThan(1e-3);
        expect(room.loops[0]!.corners.map((c) => c.key)).toEqual(ref.loops[0]!.corners.map((c) => c.key));
        const byKey = new Map(ref.loops.map((loop) => [loop.corners[0]!.key, loop]));
        for (const loop of room.loops) {
          const other = byKey.get(loop.corners[0]!.key);
          expect(other, `${say}: loop at ${loop.corners[0]!.key}`).toBeDefined();
          expect(loop.segments.map((s) => s.key)).toEqual(other!.segments.map((s) => s.key));
          expect(loop.corners.map((c) => c.key)).toEqual(other!.corners.map((c) => c.key));
          loop.corners.forEach((corner, k) => {
            const reference = other!.corners[k]!;
            const where = `${say}, corner ${corner.key}`;
            expect(
              Math.hypot(corner.at[0] - reference.at[0], corner.at[1] - reference.at[1]),
              where,
            ).toBeLessThan(1e-3);
            expect(corner.kind, where).toBe(reference.kind);
            expect(corner.roomAngleDeg, where).toBeCloseTo(reference.roomAngleDeg, 4);
            expect(corner.includedDeg.drawn, where).toBeCloseTo(reference.includedDeg, 4);
            expect(loop.segments[k]!.drawnMm, where).toBeCloseTo(other!.segments[k]!.length, 3);
          });
          corners += loop.corners.length;
          jogs += other!.links;
          ends += other!.ends;
        }
      });
    }
    console.log(`faces: ${corners} corners, ${jogs} links between feet, ${ends} wall ends`);
    expect(jogs).toBeGreaterThan(0);
    expect(ends).toBeGreaterThan(0);
  });

  it('[WK] exterior turns of an outer loop sum to 360°, of an island to −360°; areas as d3-polygon 3.0.2 has them', () => {
    for (const house of houses) {
      for (const room of house.rooms) {
        let area = 0;
        let perimeter = 0;
        for (const [i, ring] of ringsOf(room).entries()) {
          const loop = room.loops[i]!;
          const turns = loop.corners.reduce((sum, corner) => sum + 180 - corner.roomAngleDeg, 0);
          expect(turns, `seed ${house.seed}`).toBeCloseTo(loop.kind === 'outer' ? 360 : -360, 3);
          // The library calls a ring positive that runs anticlockwise with y up: clockwise as seen with y down is negative.
          area -= polygonArea(ring as [number, number][]);
          perimeter += polygonLength(ring as [number, number][]);
        }
        expect(Math.abs(room.areaMm2 - area), `seed ${house.seed}`).toBeLessThan(0.1 + area * 1e-8);
        expect(room.perimeterMm, `seed ${house.seed}`).toBeCloseTo(perimeter, 3);
      }
    }
  });

  it('[WK] by Euler, nodes − walls + faces = 1 + pieces of the plan, counting every loop around floor as a face', () => {
    for (const house of houses) {
      const level = house.plan.levels[0]!;
      const parent = new Map(Object.keys(level.nodes).map((id) => [id, id]));
      const root = (id: string): string => (parent.get(id) === id ? id : root(parent.get(id)!));
      for (const wall of Object.values(level.walls)) parent.set(root(wall.from), root(wall.to));
      const pieces = new Set(Object.keys(level.nodes).map(root)).size;
      const reference = refLevel(level);
      // Faces of the drawing: loops around floor, and the sheet outside. Small ones are voids and no rooms.
      const faces = reference.loops.filter((loop) => loop.area > 0).length + 1;
      const nodes = Object.keys(level.nodes).length;
      const walls = Object.keys(level.walls).length;
      expect(nodes - walls + faces, `seed ${house.seed}`).toBe(1 + pieces);
      const small = reference.loops.filter((loop) => loop.area > 0 && loop.area < 250_000).length;
      expect(house.rooms.length + small + 1, `seed ${house.seed}`).toBe(walls - nodes + 1 + pieces);
    }
  });
});
