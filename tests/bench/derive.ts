// How a whole derivation grows with the house: `npx tsx tests/bench/derive.ts`. Prints ratios, which a slow machine keeps;
// the times beside them are this machine's.

import { readPlan } from '../../core/plan/index.ts';
import { derive } from '../../core/report/index.ts';

/** A square house of n × n rooms with a door in every second wall, as a plan file's text. */
function grid(n: number): string {
  const nodes: Record<string, [number, number]> = {};
  const walls: Record<string, unknown> = {};
  const openings: Record<string, unknown> = {};
  const rooms: Record<string, unknown> = {};
  const at = (x: number, y: number): string => `n${x}_${y}`;
  let count = 0;
  const wall = (a: string, b: string): void => {
    count += 1;
    walls[`w${count}`] = { from: a, to: b, thickness: 114.3 };
    if (count % 2 === 0) {
      openings[`o${count}`] = {
        wall: `w${count}`,
        at: 1200,
        width: 800,
        height: 2032,
        sill: 0,
        kind: 'door',
        reveal: 4.7625,
        casing: { left: 'case-a', right: 'case-a' },
      };
    }
  };
  for (let y = 0; y <= n; y += 1) for (let x = 0; x <= n; x += 1) nodes[at(x, y)] = [x * 3600, y * 3200];
  for (let y = 0; y <= n; y += 1) {
    for (let x = 0; x <= n; x += 1) {
      if (x < n) wall(at(x, y), at(x + 1, y));
      if (y < n) wall(at(x, y), at(x, y + 1));
      if (x < n && y < n) {
        rooms[`r${x}_${y}`] = {
          name: `Room ${x} ${y}`,
          at: [x * 3600 + 1800, y * 3200 + 1600],
          trim: { base: 'base-a' },
          old: { baseHeight: 88.9, floor: 19.05 },
          new: { floor: 12.7 },
        };
      }
    }
  }
  return JSON.stringify({
    format: 'copewright-plan',
    version: 1,
    title: 'Grid',
    units: 'imperial',
    builtYear: 1999,
    profiles: {
      'base-a': {
        kind: 'base',
        name: 'Base',
        height: 139.7,
        thickness: 12.7,
        form: 'shaped',
        material: 'pine',
        stock: [{ length: 3657.6 }],
      },
      'case-a': {
        kind: 'casing',
        name: 'Casing',
        width: 69.85,
        thickness: 17.4625,
        form: 'flat',
        material: 'pine',
        stock: [],
      },
    },
    levels: [{ id: 'L1', name: 'Ground', ceilingHeight: 2438.4, nodes, walls, openings, rooms }],
  });
}

function best(n: number, rounds: number): { walls: number; ms: number } {
  const read = readPlan(grid(n));
  if (!read.ok) throw new Error(read.error.message);
  const numbered = derive(read.plan).plan;
  let ms = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const start = performance.now();
    derive(numbered);
    ms = Math.min(ms, performance.now() - start);
  }
  return { walls: Object.keys(numbered.levels[0]!.walls).length, ms };
}

const small = best(15, 5);
const middle = best(31, 5);
const large = best(70, 3);
for (const { walls, ms } of [small, middle, large]) {
  console.log(`${walls} walls: ${ms.toFixed(1)} ms, ${((ms / walls) * 1000).toFixed(0)} µs a wall`);
}
const growth = large.ms / large.walls / (small.ms / small.walls);
console.log(`cost of a wall, ${large.walls} walls against ${small.walls}: ${growth.toFixed(2)} times`);
if (growth > 4) {
  console.log('grows faster than the house: look for a loop over all walls');
  process.exitCode = 1;
}
