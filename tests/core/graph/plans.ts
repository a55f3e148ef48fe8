// Short ways to write levels for the tests of graph and walk, in millimetres; and seeded random planar levels.

import { type Level, type Plan, PlanSchema } from '../../../core/plan/schema.ts';
import { TICKS_PER_MM } from '../../../core/units/ticks.ts';

/** A wall as `[from, to]` or `[from, to, thicknessMm]`; 100 mm thick unless it says otherwise. */
export type WallRow = readonly [from: string, to: string, thicknessMm?: number];

export interface Extra {
  readonly [field: string]: unknown;
}

/** A plan of one level. Nodes and walls in mm; `extra` goes into the level as the file has it. */
export function planOf(
  nodes: Record<string, readonly [number, number]>,
  walls: Record<string, WallRow>,
  extra: Extra = {},
  plan: Extra = {},
): Plan {
  return PlanSchema.parse({
    format: 'copewright-plan',
    version: 1,
    title: 'Test',
    units: 'metric',
    levels: [
      {
        id: 'L1',
        name: 'Ground floor',
        ceilingHeight: 2400,
        nodes,
        walls: Object.fromEntries(
          Object.entries(walls).map(([id, [from, to, thickness = 100]]) => [id, { from, to, thickness }]),
        ),
        ...extra,
      },
    ],
    ...plan,
  });
}

export function levelOf(
  nodes: Record<string, readonly [number, number]>,
  walls: Record<string, WallRow>,
  extra: Extra = {},
): Level {
  return planOf(nodes, walls, extra).levels[0]!;
}

/** Ticks to mm, rounded to 1e-6, for reading expectations. */
export function mm(ticks: number): number {
  return Math.round((ticks / TICKS_PER_MM) * 1e6) / 1e6 + 0;
}

export function pointMm(at: readonly [number, number]): [number, number] {
  return [mm(at[0]), mm(at[1])];
}

/** Walls of a closed polygon through named points, in order: w1 from the first to the second and so on. */
export function ring(
  points: Record<string, readonly [number, number]>,
  prefix = 'w',
  thicknessMm?: number,
): Record<string, WallRow> {
  const names = Object.keys(points);
  return Object.fromEntries(
    names.map((name, i) => {
      const to = names[(i + 1) % names.length]!;
      return [`${prefix}${i + 1}`, thicknessMm === undefined ? [name, to] : [name, to, thicknessMm]];
    }),
  );
}

/** A rectangle of nodes, clockwise as seen from its top left: a, b, c, d after the prefix. */
export function rectangle(
  prefix: string,
  x: number,
  y: number,
  width: number,
  height: number,
): Record<string, readonly [number, number]> {
  return {
    [`${prefix}a`]: [x, y],
    [`${prefix}b`]: [x + width, y],
    [`${prefix}c`]: [x + width, y + height],
    [`${prefix}d`]: [x, y + height],
  };
}
