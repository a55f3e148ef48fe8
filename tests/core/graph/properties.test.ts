// What must hold of every level, on seeded random planar ones. References: Euler's formula for plane graphs; the sum of
// exterior angles of a simple polygon (Euclid I.32, corollary); wall footprint reckoned from lengths alone; distance of
// random points from every wall, one by one.

import { describe, expect, it } from 'vitest';
import {
  buildHalfEdges,
  type FaceLoop,
  levelFaces,
  minus,
  type Point,
  polygonIndex,
  turnDeg,
} from '../../../core/graph/index.ts';
import type { Level } from '../../../core/plan/schema.ts';
import { DEFAULT_SETTINGS } from '../../../core/plan/settings.ts';
import { cases, random } from '../../seeds.ts';
import { type RandomOptions, randomLevel, randomTangle } from './random-levels.ts';

const SEED = 7319;
const ORDINARY = [60, 80, 100, 120, 150, 200];

function optionsOf(next: () => number, changes: Partial<RandomOptions> = {}): RandomOptions {
  return {
    thicknesses: ORDINARY,
    jitter: next() < 0.5 ? 0 : 30,
    turnDeg: next() < 0.3 ? 0 : next() * 360,
    shift: next() < 0.5 ? [0, 0] : [next() * 900_000 - 450_000, next() * 900_000 - 450_000],
    furnished: 0.4,
    ...changes,
  };
}

function eachLevel(
  count: number,
  changes: Partial<RandomOptions>,
  check: (made: ReturnType<typeof randomLevel>, label: string, next: () => number) => void,
): void {
  for (let i = 0; i < cases(count); i++) {
    const next = random(SEED + i);
    check(randomLevel(next, optionsOf(next, changes)), `seed ${SEED + i}`, next);
  }
}

const facesOf = (level: Level) => levelFaces(level, DEFAULT_SETTINGS);
const alongOf = ({ start, end }: { start: Point; end: Point }) => minus(end, start);

function turningDeg(loop: FaceLoop): number {
  const ways = loop.segments.map(alongOf);
  return ways.reduce((sum, way, i) => sum + turnDeg(way, ways[(i + 1) % ways.length]!), 0);
}

/** A level with every node moved. */
function moved(level: Level, move: (at: Point) => Point): Level {
  const nodes = Object.fromEntries(Object.entries(level.nodes).map(([id, at]) => [id, move(at)]));
  return { ...level, nodes: nodes as Level['nodes'] };
}

describe('half-edges of random levels', () => {
  it('[WK1, WK2] next and prev undo each other, twins too, walks hang together, each half-edge is in one loop', () => {
    let edges = 0;
    eachLevel(400, {}, ({ level }, label) => {
      const graph = buildHalfEdges(level);
      const seen = new Set<number>();
      for (const edge of graph.edges) {
        expect(graph.edges[edge.next]!.prev, label).toBe(edge.index);
        expect(graph.edges[edge.prev]!.next, label).toBe(edge.index);
        expect(edge.twin, label).not.toBe(edge.index);
        const twin = graph.edges[edge.twin]!;
        expect([twin.twin, twin.origin, twin.target], label).toEqual([edge.index, edge.target, edge.origin]);
        expect(graph.edges[edge.next]!.origin, label).toBe(edge.target);
        edges += 1;
      }
      graph.loops.forEach((loop, position) => {
        loop.forEach((index, i) => {
          expect(seen.has(index), label).toBe(false);
          seen.add(index);
          expect(graph.edges[index]!.loop, label).toBe(position);
          expect(graph.edges[index]!.next, label).toBe(loop[(i + 1) % loop.length]);
        });
      });
      expect(seen.size, label).toBe(graph.edges.length);
    });
    expect(edges).toBeGreaterThan(1000);
  });

  it('[WK10] Euler: V − E + F = 1 + C, with as many rooms, islands and voids as were drawn', () => {
    const total = { rooms: 0, islands: 0, voids: 0 };
    eachLevel(400, {}, ({ level, rooms, islands, voids, components }, label) => {
      const graph = buildHalfEdges(level);
      const { loops, components: found } = facesOf(level);
      const used = new Set(graph.edges.map(({ origin }) => origin)).size;
      // Every component has one boundary; they all bound the same faces, so loops are F + C − 1.
      const faces = graph.loops.length - components + 1;
      expect(found, label).toHaveLength(components);
      expect(used - graph.edges.length / 2 + faces, label).toBe(1 + components);
      const count = (kind: FaceLoop['kind']) => loops.filter((loop) => loop.kind === kind).length;
      expect([count('outer'), count('island'), count('void'), count('outside')], label).toEqual([
        rooms,
        islands,
        voids,
        1,
      ]);
      total.rooms += rooms;
      total.islands += islands;
      total.voids += voids;
    });
    expect(total.rooms).toBeGreaterThan(100);
    expect(total.islands).toBeGreaterThan(20);
    expect(total.voids).toBeGreaterThan(5);
  });
});

describe('face loops of random levels', () => {
  it('[CN1] a walk round a room turns 360°, round an island −360°; segments join and their parts tile them', () => {
    let loopsSeen = 0;
    eachLevel(400, {}, ({ level }, label) => {
      for (const loop of facesOf(level).loops) {
        expect(loop.tooNarrow && loop.kind !== 'void', label).toBe(false);
        if (loop.kind === 'void') continue;
        expect(turningDeg(loop), label).toBeCloseTo(loop.kind === 'outer' ? 360 : -360, 6);
        expect(Math.sign(loop.signedArea), label).toBe(loop.kind === 'outer' ? 1 : -1);
        loop.segments.forEach((segment, i) => {
          expect(segment.end, label).toEqual(loop.corners[i]!.at);
          expect(segment.start, label).toEqual(loop.corners.at(i - 1)!.at);
          const length = Math.hypot(...alongOf(segment));
          let from = 0;
          for (const part of segment.parts) {
            expect(part.from, label).toBe(from);
            expect(part.to, label).toBeGreaterThanOrEqual(from);
            from = part.to;
          }
          if (segment.link === null) expect(Math.abs(from - length), label).toBeLessThan(1e-6);
          expect(length, label).toBeGreaterThanOrEqual(320);
        });
        loopsSeen += 1;
      }
    });
    expect(loopsSeen).toBeGreaterThan(200);
  });

  it('[WK8, WK9] keys are unique and every loop starts at its smallest corner', () => {
    eachLevel(200, {}, ({ level }, label) => {
      const loops = facesOf(level).loops;
      const corners = loops.flatMap((loop) => loop.corners.map(({ key }) => key));
      const segments = loops.flatMap((loop) => loop.segments.map(({ key }) => key));
      expect(new Set(corners).size, label).toBe(corners.length);
      expect(new Set(segments).size, label).toBe(segments.length);
      for (const { corners: list } of loops) {
        const first = list[0]!;
        for (const { nodeAt, key } of list) {
          const order =
            first.nodeAt[1] - nodeAt[1] || first.nodeAt[0] - nodeAt[0] || (first.key <= key ? -1 : 1);
          expect(order, label).toBeLessThanOrEqual(0);
        }
      }
    });
  });

  it('[WK3] rooms, voids and the walls’ footprint, reckoned from lengths alone, fill what the outside bounds', () => {
    // One thickness t, right angles: a wall covers t times its length, less t²/2 where a wall meets a through wall.
    const t = 100 * 320;
    let junctions = 0;
    eachLevel(300, { thicknesses: [100], jitter: 0, turnDeg: 0, furnished: 0 }, ({ level }, label) => {
      const degree = new Map<string, number>();
      let footprint = 0;
      for (const { from, to } of Object.values(level.walls)) {
        const [a, b] = [level.nodes[from]!, level.nodes[to]!];
        footprint += t * Math.hypot(a[0] - b[0], a[1] - b[1]);
        for (const node of [from, to]) degree.set(node, (degree.get(node) ?? 0) + 1);
      }
      for (const walls of degree.values()) {
        footprint -= (Math.max(0, walls - 2) * t * t) / 2;
        junctions += Math.max(0, walls - 2);
      }
      const loops = facesOf(level).loops;
      const sum = loops.reduce((area, loop) => area + loop.signedArea, 0);
      // Rooms count positive, the outside negative: together they leave the walls.
      expect(Math.abs(-sum - footprint) / footprint, label).toBeLessThan(1e-9);
    });
    expect(junctions).toBeGreaterThan(50);
  });

  it('[WK3 to WK5] a point on the floor is in no wall, a point outside every wall and joint is on some floor', () => {
    const counted = { floor: 0, wall: 0, clear: 0 };
    eachLevel(100, {}, ({ level }, label, next) => {
      const { loops } = facesOf(level);
      const index = polygonIndex(loops.map(({ corners }) => corners.map(({ at }) => at)));
      const xs = Object.values(level.nodes);
      const [minX, maxX] = [Math.min(...xs.map((p) => p[0])), Math.max(...xs.map((p) => p[0]))];
      const [minY, maxY] = [Math.min(...xs.map((p) => p[1])), Math.max(...xs.map((p) => p[1]))];
      for (let i = 0; i < 400; i++) {
        const at: Point = [minX + next() * (maxX - minX), minY + next() * (maxY - minY)];
        const held = index.holding(at);
        const outsides = loops.filter(({ kind }) => kind === 'outside').length;
        const inOutside = held.filter(({ polygon }) => loops[polygon]!.kind === 'outside').length;
        const depth = held.filter(({ polygon }) => loops[polygon]!.kind !== 'outside').length;
        // Within the outside's outline: on a room's floor, less islands, plus what islands hold.
        const floor = outsides > inOutside || depth % 2 === 1;
        const where = `${label}, point ${at}`;
        const bodies = Object.values(level.walls).map((wall) => bodyDistance(level, wall, at));
        const inWall = bodies.some(({ inside }) => inside);
        if (floor) {
          counted.floor += 1;
          expect(inWall, where).toBe(false);
        }
        if (inWall) counted.wall += 1;
        if (bodies.every(({ outside, fromNode, half }) => outside && fromNode > 4 * half + 1)) {
          counted.clear += 1;
          expect(floor, where).toBe(true);
        }
      }
    });
    expect(counted.floor).toBeGreaterThan(1000);
    expect(counted.wall).toBeGreaterThan(100);
    expect(counted.clear).toBeGreaterThan(1000);
  });

  it('[WK3] shifting a level changes no key, no angle, no area', () => {
    eachLevel(200, { shift: [0, 0] }, ({ level }, label, next) => {
      const by: Point = [Math.round(next() * 2e8), -Math.round(next() * 2e8)];
      const before = facesOf(level).loops;
      const after = facesOf(moved(level, ([x, y]) => [x + by[0], y + by[1]])).loops;
      expect(after.length, label).toBe(before.length);
      before.forEach((loop, i) => {
        expect(after[i]!.kind, label).toBe(loop.kind);
        expect(
          after[i]!.segments.map(({ key }) => key),
          label,
        ).toEqual(loop.segments.map(({ key }) => key));
        expect(Math.abs(after[i]!.signedArea / loop.signedArea - 1), label).toBeLessThan(1e-9);
        compareTurns(after[i]!, loop, label);
      });
    });
  });

  it('[WK3] a quarter turn of the sheet changes no area and no angle', () => {
    eachLevel(200, {}, ({ level }, label) => {
      const before = byKeys(facesOf(level).loops);
      const after = byKeys(facesOf(moved(level, ([x, y]) => [-y, x])).loops);
      expect([...after.keys()], label).toEqual([...before.keys()]);
      for (const [key, loop] of before) {
        expect(after.get(key)!.kind, label).toBe(loop.kind);
        expect(Math.abs(after.get(key)!.signedArea / loop.signedArea - 1), label).toBeLessThan(1e-9);
      }
    });
  });

  it('[WK1] drawing a wall the other way round changes its side’s name and nothing else', () => {
    eachLevel(200, {}, ({ level }, label, next) => {
      const walls = Object.fromEntries(
        Object.entries(level.walls).map(([id, wall]) => [
          id,
          next() < 0.5 ? { ...wall, from: wall.to, to: wall.from } : wall,
        ]),
      ) as Level['walls'];
      const before = facesOf(level).loops;
      const after = facesOf({ ...level, walls }).loops;
      const plain = (loops: readonly FaceLoop[]) =>
        loops.map(({ kind, corners }) => ({
          kind,
          corners: corners.map(({ key, at }) => ({ key, at: at.map((v) => Math.round(v * 1e3) / 1e3) })),
        }));
      expect(plain(after), label).toEqual(plain(before));
    });
  });

  it('[WK7, WK11, WK12] walls far too thick for their rooms never fail: loops stay closed and finite', () => {
    const counted = { narrow: 0, voids: 0, rooms: 0 };
    eachLevel(400, { thicknesses: [100, 400, 900, 1600, 2500], jitter: 45 }, ({ level }, label) => {
      for (const loop of facesOf(level).loops) {
        expect(loop.corners.length, label).toBe(loop.segments.length);
        expect(loop.corners.length, label).toBeGreaterThanOrEqual(2);
        for (const { at } of loop.corners) expect(at.every(Number.isFinite), label).toBe(true);
        expect(Number.isFinite(loop.signedArea), label).toBe(true);
        if (loop.tooNarrow) counted.narrow += 1;
        if (loop.kind === 'void') counted.voids += 1;
        if (loop.kind === 'outer') counted.rooms += 1;
        if (loop.kind === 'outer' && !loop.tooNarrow) expect(turningDeg(loop), label).toBeCloseTo(360, 6);
      }
    });
    expect(Math.min(counted.narrow, counted.voids, counted.rooms)).toBeGreaterThan(10);
  });
});

describe('tangles of walls', () => {
  it('[WK2 to WK12] Euler holds, every loop that is not too narrow turns once, whatever the angles and thicknesses', () => {
    const seed = 90210;
    const counted = { outer: 0, island: 0, void: 0, outside: 0, narrow: 0, sharp: 0 };
    for (let i = 0; i < cases(1000); i++) {
      const label = `seed ${seed + i}`;
      const next = random(seed + i);
      const thick = [[20, 40, 60], ORDINARY, [100, 400, 900]][Math.floor(next() * 3)]!;
      const level = randomTangle(next, 4 + Math.floor(next() * 40), thick);
      const graph = buildHalfEdges(level);
      const { loops, components } = facesOf(level);
      const used = new Set(graph.edges.map(({ origin }) => origin)).size;
      const faces = graph.loops.length - components.length + 1;
      expect(used - graph.edges.length / 2 + (components.length === 0 ? 1 : faces), label).toBe(
        1 + components.length,
      );
      for (const loop of loops) {
        counted[loop.kind] += 1;
        expect(loop.segments.length, label).toBe(loop.corners.length);
        loop.segments.forEach((segment, k) => {
          expect(segment.end, label).toEqual(loop.corners[k]!.at);
          expect(segment.start, label).toEqual(loop.corners.at(k - 1)!.at);
        });
        if (loop.tooNarrow) counted.narrow += 1;
        if (loop.tooNarrow || loop.kind === 'void') continue;
        const turning = turningDeg(loop);
        expect(turning, label).toBeCloseTo(loop.kind === 'outer' ? 360 : -360, 6);
        if (loop.corners.some(({ key }) => key.includes('#'))) counted.sharp += 1;
      }
    }
    expect(Math.min(counted.outer, counted.void, counted.outside, counted.sharp)).toBeGreaterThan(50);
    expect(counted.narrow).toBeGreaterThan(3);
  });
});

function byKeys(loops: readonly FaceLoop[]): Map<string, FaceLoop> {
  const entries = loops.map(
    (loop) =>
      [
        loop.segments
          .map(({ key }) => key)
          .sort()
          .join(),
        loop,
      ] as const,
  );
  return new Map(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
}

function compareTurns(a: FaceLoop, b: FaceLoop, label: string): void {
  const [before, after] = [b.segments.map(alongOf), a.segments.map(alongOf)];
  before.forEach((way, i) => {
    const next = (i + 1) % before.length;
    expect(turnDeg(after[i]!, after[next]!), label).toBeCloseTo(turnDeg(way, before[next]!), 6);
  });
}

/** A wall as a rectangle with square ends: is the point well inside, and how far is it from the wall's nodes? */
function bodyDistance(level: Level, wall: Level['walls'][keyof Level['walls']], at: Point) {
  const [a, b] = [level.nodes[wall.from]!, level.nodes[wall.to]!];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const s = ((at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1])) / length;
  const d = ((b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])) / length;
  const half = wall.thickness / 2;
  return {
    // Walls in line become one straight face, which may lie up to a fraction of a millimetre off each wall's own.
    inside: s > 0 && s < length && Math.abs(d) < half - 320,
    outside: s < 0 || s > length || Math.abs(d) > half + 320,
    fromNode: Math.min(Math.hypot(at[0] - a[0], at[1] - a[1]), Math.hypot(at[0] - b[0], at[1] - b[1])),
    half,
  };
}
