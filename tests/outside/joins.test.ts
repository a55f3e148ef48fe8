// Joints of long stretches against every choice of studs: each is laid out, and its boards are the least that an
// independent exact model (arc flow, solved to proof) gives. The best of all is what the product must find.

import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../core/fit/types.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { derive, solve } from '../../core/report/index.ts';
import { orderOf } from '../../core/stock/index.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import { housePlan, rectangle } from '../core/trim/houses.ts';
import { cases, random } from '../seeds.ts';
import { leastCost } from './lib/stock-model.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

/** Everything in whole grid steps of 10 mm: faces, thickness, stock, studs; square cuts, no kerf, no trim. */
const GRID = 10;
const TICKS = 320 * GRID;
const LEAST = 91.44;
const CLEAR = 60.96;

interface Case {
  readonly plan: Plan;
  readonly stock: readonly { readonly length: number; readonly price: number }[];
  readonly wide: number;
  readonly spacing: number;
}

/** A room with two long walls; lengths in grid steps. */
function caseOf(seed: number): Case {
  const next = random(seed + 400);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const longest = int(28, 40) * 10;
  const stock = [longest, ...[240, 300].filter((each) => each < longest && next() < 0.5)].map((length) => ({
    length,
    price: Math.round(length * (3 + 2 * next())),
  }));
  const wide = int(longest + 10, Math.min(2 * longest - 30, longest + 260));
  const deep = int(100, longest - 10);
  const spacing = int(38, 64);
  const outline = rectangle(wide * GRID, deep * GRID);
  const plan = housePlan(outline, {
    profiles: {
      base: {
        kind: 'base',
        name: 'Flat base',
        height: 100,
        thickness: GRID,
        form: 'flat',
        material: 'pine',
        stock: stock.map(({ length, price }) => ({ length: length * GRID, price: price / 100 })),
      },
    },
    trim: { base: 'base' },
    settings: { kerf: 0, endTrim: 0, scarfDeg: 0, springBy: 0 },
  });
  return { plan: { ...plan, studs: { spacing: spacing * TICKS } }, stock, wide, spacing };
}

describe('every choice of studs', () => {
  it('[ST12] the product finds the cheapest, and its bound is never above it', async () => {
    const count = cases(60);
    const covered = { choices: 0, cheaper: 0, proved: 0, walls: 0 };
    for (let seed = 1; seed <= count; seed++) {
      const { plan, stock, wide, spacing } = caseOf(seed);
      const places = Array.from({ length: Math.floor(wide / spacing) }, (_, i) => (i + 1) * spacing).filter(
        (at) => Math.min(at, wide - at) >= CLEAR,
      );
      let best = Number.POSITIVE_INFINITY;
      let worst = 0;
      for (const first of places) {
        for (const second of places) {
          const laid = derive(plan, undefined, {
            'L1|w1:right|base|corner..corner': [first * TICKS],
            'L1|w3:right|base|corner..corner': [second * TICKS],
          });
          const parts = laid.report.pieces.filter(
            (piece) => piece.segment === 'w1:right' || piece.segment === 'w3:right',
          );
          if (parts.length !== 4 || parts.some((piece) => piece.overallMm / GRID < LEAST)) continue;
          const items = orderOf(laid.plan, laid.levels)[0]!.items;
          const pieces = items.map((item) => ({ need: item.need / TICKS, kerf: item.kerf / TICKS }));
          if (pieces.some((piece) => piece.need > stock[0]!.length)) continue;
          const boards = stock.map(({ length, price }) => ({ room: length, cost: price, limit: null }));
          const cost = await leastCost(pieces, boards);
          covered.choices += 1;
          best = Math.min(best, cost);
          worst = Math.max(worst, cost);
        }
      }
      if (!Number.isFinite(best)) continue;
      covered.walls += 1;
      const [own] = solve(derive(plan), solver).stock;
      expect(own!.cost, `seed ${seed}`).toBe(best);
      expect(own!.bound, `seed ${seed}: bound`).toBeLessThanOrEqual(best);
      if (best < worst) covered.cheaper += 1;
      if (own!.proved) covered.proved += 1;
    }
    console.info(`seeds 1 to ${count}: ${JSON.stringify(covered)}`);
    expect(covered.walls).toBeGreaterThan(count / 2);
    expect(covered.cheaper).toBeGreaterThan(0);
  });
});
