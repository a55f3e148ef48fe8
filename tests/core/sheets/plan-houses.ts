// Levels for the drawing tests: random houses of rectangular rooms with now and then a slanting wall, made from a seed,
// derived by the real walk and trim.

import { type PlanFile, PlanSchema } from '../../../core/plan/schema.ts';
import { derive } from '../../../core/report/index.ts';
import type { Derived } from '../../../core/report/types.ts';

/** A grid of rooms with uneven spacing; walls between rooms are left out at random, openings put in others. Millimetres. */
export function randomHouse(next: () => number, columns: number, rows: number): PlanFile {
  const spacing = (count: number) => {
    const at = [0];
    for (let k = 0; k < count; k++) at.push(at[k]! + 900 + Math.round(next() * 4200));
    return at;
  };
  const [xs, ys] = [spacing(columns), spacing(rows)];
  const jitter = next() < 0.5 ? 220 : 0;
  const nodes: NonNullable<PlanFile['levels'][number]['nodes']> = {};
  const walls: NonNullable<PlanFile['levels'][number]['walls']> = {};
  const openings: NonNullable<PlanFile['levels'][number]['openings']> = {};
  const id = (i: number, j: number) => `n${i}x${j}`;
  for (let i = 0; i <= columns; i++)
    for (let j = 0; j <= rows; j++)
      nodes[id(i, j)] = [
        xs[i]! + Math.round((next() - 0.5) * jitter),
        ys[j]! + Math.round((next() - 0.5) * jitter),
      ];
  const wall = (a: string, b: string, outside: boolean) => {
    if (!outside && next() < 0.18) return;
    const name = `w${Object.keys(walls).length}`;
    walls[name] = { from: a, to: b, thickness: outside ? 165 : 90 + 30 * Math.floor(next() * 3) };
    const [p, q] = [nodes[a]!, nodes[b]!];
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (long < 1500 || next() < 0.45) return;
    const width = 700 + Math.round(next() * 300);
    const kinds = ['door', 'cased', 'window', 'sliding', 'pocket', 'passage'] as const;
    const kind = kinds[Math.floor(next() * kinds.length)]!;
    openings[`o${Object.keys(openings).length}`] = {
      wall: name,
      at: Math.round(200 + next() * (long - width - 400)),
      width,
      height: 2032,
      sill: kind === 'window' ? 900 : 0,
      kind,
      reveal: 4.7625,
      ...(kind === 'passage' ? {} : { casing: { left: 'case', right: 'case' } }),
      ...(kind === 'pocket' ? { pocket: next() < 0.5 ? ('start' as const) : ('end' as const) } : {}),
    };
  };
  for (let i = 0; i <= columns; i++)
    for (let j = 0; j <= rows; j++) {
      if (i < columns) wall(id(i, j), id(i + 1, j), j === 0 || j === rows);
      if (j < rows) wall(id(i, j), id(i, j + 1), i === 0 || i === columns);
    }
  const rooms: NonNullable<PlanFile['levels'][number]['rooms']> = {};
  const used = new Set(Object.values(walls).flatMap((each) => [each.from, each.to]));
  for (let i = 0; i < columns; i++)
    for (let j = 0; j < rows; j++)
      if (next() < 0.8)
        rooms[`r${i}x${j}`] = {
          name: ['Hall', 'Box room', 'Kitchen', 'North bedroom', 'Wc'][Math.floor(next() * 5)]!,
          at: [(xs[i]! + xs[i + 1]!) / 2, (ys[j]! + ys[j + 1]!) / 2],
          trim: { base: next() < 0.9 ? 'base' : 'flat' },
        };
  return {
    format: 'copewright-plan',
    version: 1,
    title: 'Random house',
    units: next() < 0.5 ? 'imperial' : 'metric',
    profiles: {
      base: {
        kind: 'base',
        name: 'Base',
        height: 130,
        thickness: 14,
        form: 'shaped',
        material: 'pine',
        stock: [{ length: 3600 }],
      },
      flat: {
        kind: 'base',
        name: 'Flat base',
        height: 90,
        thickness: 19,
        form: 'flat',
        material: 'pine',
        stock: [{ length: 3600 }],
      },
      case: {
        kind: 'casing',
        name: 'Casing',
        width: 70,
        thickness: 18,
        form: 'flat',
        material: 'poplar',
        stock: [],
      },
    },
    levels: [
      {
        id: 'L1',
        name: 'Ground floor',
        ceilingHeight: 2400,
        nodes: Object.fromEntries(Object.entries(nodes).filter(([key]) => used.has(key))),
        walls,
        openings,
        rooms,
      },
    ],
  };
}

/** A plan file derived. */
export function derived(file: PlanFile): Derived {
  return derive(PlanSchema.parse(file));
}
