// What must hold of every walked level, on seeded random houses with random openings, built-ins and records.
// Reference for where a record lies: counting crossings of a ray, edge by edge.

import { describe, expect, it } from 'vitest';
import type { Point } from '../../../core/graph/index.ts';
import { type Level, type Plan, PlanSchema } from '../../../core/plan/schema.ts';
import { type Loop, type Room, walkLevel } from '../../../core/walk/index.ts';
import { cases, random } from '../../seeds.ts';
import { randomLevel } from '../graph/random-levels.ts';

const SEED = 5150;
const PLAN = PlanSchema.parse({
  format: 'copewright-plan',
  version: 1,
  title: 'Test',
  units: 'metric',
  levels: [],
});

/** A random house with things on its walls. */
function furnishedLevel(next: () => number): Level {
  const { level } = randomLevel(next, {
    thicknesses: [60, 100, 150, 200],
    jitter: next() < 0.5 ? 0 : 30,
    turnDeg: next() < 0.3 ? 0 : next() * 360,
    shift: [0, 0],
    furnished: 0.3,
  });
  const walls = Object.entries(level.walls);
  const openings: Record<string, unknown> = {};
  const builtIns: Record<string, unknown> = {};
  const rooms: Record<string, unknown> = {};
  walls.forEach(([wall, { from, to }], i) => {
    const [a, b] = [level.nodes[from]!, level.nodes[to]!];
    const length = Math.floor(Math.hypot(b[0] - a[0], b[1] - a[1]));
    if (next() < 0.6) {
      const width = 1 + Math.floor(next() * (length - 1));
      const at = Math.floor(next() * (length - width));
      openings[`o${i}`] = { wall, at, width, height: 640_000, sill: 0, kind: 'door' };
    }
    if (next() < 0.4) {
      const side = next() < 0.5 ? 'left' : 'right';
      const at = Math.floor(next() * length) - 32_000;
      const item = { wall, side, at, width: 160_000, bottom: 0, top: 1, depth: 160_000, kind: 'cabinet' };
      builtIns[`b${i}`] = item;
    }
    const spread = 300_000;
    const at = [Math.round(a[0] + (next() - 0.5) * spread), Math.round(a[1] + (next() - 0.5) * spread)];
    rooms[`r${i}`] = { name: 'R', at };
  });
  return { ...level, openings, builtIns, rooms } as unknown as Level;
}

const eachLevel = (count: number, check: (level: Level, label: string) => void) => {
  for (let i = 0; i < cases(count); i++) check(furnishedLevel(random(SEED + i)), `seed ${SEED + i}`);
};
const plan: Plan = PLAN;
const loopsOf = (rooms: readonly Room[]) => rooms.flatMap((room) => room.loops);

function insideBy(loop: Loop, [x, y]: Point): boolean {
  let inside = false;
  loop.corners.forEach(({ at: a }, i) => {
    const b = loop.corners[(i + 1) % loop.corners.length]!.at;
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  });
  return inside;
}

describe('random walked houses', () => {
  it('[WK14] what stands on a segment lies within it, is sorted, and has its true place along the wall', () => {
    let seen = 0;
    eachLevel(300, (level, label) => {
      const sides = new Set<string>();
      for (const { segments } of loopsOf(walkLevel(plan, level).rooms)) {
        for (const segment of segments) {
          for (const list of [segment.openings, segment.builtIns, segment.marks]) {
            list.forEach(({ from, to, id }, i) => {
              expect(from, label).toBeGreaterThanOrEqual(0);
              expect(to, label).toBeGreaterThan(from);
              expect(to, label).toBeLessThanOrEqual(segment.drawn);
              const before = list[i - 1];
              if (before)
                expect(before.from < from || (before.from === from && before.id <= id), label).toBe(true);
            });
          }
          for (const { id, side, opening, holeFrom, holeTo } of segment.openings) {
            expect(sides.has(`${id} ${side}`), label).toBe(false);
            sides.add(`${id} ${side}`);
            expect(
              segment.parts.some((part) => part.wall === opening.wall && part.side === side),
              label,
            ).toBe(true);
            // Back from the face to the centre line: the hole's edges stand at `at` and `at + width`.
            const wall = level.walls[opening.wall]!;
            const [a, b] = [level.nodes[wall.from]!, level.nodes[wall.to]!];
            const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
            const back = (s: number) => {
              const [x, y] = [
                segment.start[0] + segment.along[0] * s,
                segment.start[1] + segment.along[1] * s,
              ];
              return ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / length;
            };
            const edges = [back(holeFrom), back(holeTo)].sort((p, q) => p - q);
            // Walls in line share a face that may be askew by under 0.05°.
            expect(Math.abs(edges[0]! - opening.at), label).toBeLessThan(wall.thickness * 0.001 + 1);
            expect(Math.abs(edges[1]! - opening.at - opening.width), label).toBeLessThan(
              wall.thickness * 0.001 + 1,
            );
            seen += 1;
          }
        }
      }
    });
    expect(seen).toBeGreaterThan(200);
  });

  it('[WK16] a record gets the room whose floor holds it, by counting crossings; else it is noted', () => {
    const counted = { named: 0, unused: 0, twice: 0 };
    eachLevel(200, (level, label) => {
      const { rooms, notes } = walkLevel(plan, level);
      const unused = new Set(notes.flatMap((note) => (note.kind === 'record-unused' ? [note.id] : [])));
      for (const [id, { at }] of Object.entries(level.rooms)) {
        const holding = rooms.filter(
          ({ loops: [outer, ...islands] }) =>
            insideBy(outer!, at) && !islands.some((island) => insideBy(island, at)),
        );
        expect(unused.has(id), `${label} ${id}`).toBe(holding.length === 0);
        if (holding.length === 0) counted.unused += 1;
        else {
          expect(holding[0]!.id <= id, `${label} ${id}`).toBe(true);
          counted[holding[0]!.id === id ? 'named' : 'twice'] += 1;
        }
      }
    });
    expect(Math.min(counted.named, counted.unused, counted.twice)).toBeGreaterThan(30);
  });

  it('the order in which ids stand in the maps changes nothing', () => {
    eachLevel(100, (level, label) => {
      const back = <T extends object>(map: T): T => Object.fromEntries(Object.entries(map).reverse()) as T;
      const turned: Level = {
        ...level,
        nodes: back(level.nodes),
        walls: back(level.walls),
        openings: back(level.openings),
        builtIns: back(level.builtIns),
        rooms: back(level.rooms),
      };
      const { level: _, ...before } = walkLevel(plan, level);
      const { level: __, ...after } = walkLevel(plan, turned);
      expect(JSON.stringify(after), label).toBe(JSON.stringify(before));
    });
  });
});
