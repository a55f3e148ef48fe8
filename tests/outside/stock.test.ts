// Boards against what is known outside the project: published instances with their optima, and an independent exact model
// (arc flow, solved to proof) on seeded random orders.

import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../core/fit/types.ts';
import { cutStock } from '../../core/stock/index.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import { cases, random } from '../seeds.ts';
import { leastCost } from './lib/stock-model.ts';
import { gridOrder, largeOrder, plainOrder } from './lib/stock-orders.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

/** Boards of one length for published pieces, each proved to be the fewest. */
function fewest(length: number, pieces: readonly (readonly [number, number])[]): number {
  const plan = cutStock(plainOrder(length, pieces), solver);
  expect(plan.unplaced).toEqual([]);
  expect(plan.proved).toBe(true);
  expect(plan.cost, 'at 1 a board').toBe(plan.boards.length);
  expect(plan.cost).toBe(plan.bound);
  expect(plan.boards.flatMap((board) => board.items).length).toBe(
    pieces.reduce((sum, [, count]) => sum + count, 0),
  );
  return plan.boards.length;
}

const ones = (...lengths: readonly number[]): [number, number][] => lengths.map((length) => [length, 1]);

describe('published instances, without kerf or trim', () => {
  it('[ST5] paper rolls of 5600: 73, waste 0.401 % (encyclopaedia article "Cutting stock problem")', () => {
    const wanted: [number, number][] = [
      [1380, 22],
      [1520, 25],
      [1560, 12],
      [1710, 14],
      [1820, 18],
      [1880, 18],
      [1930, 20],
      [2000, 10],
      [2050, 12],
      [2100, 14],
      [2140, 16],
      [2150, 18],
      [2200, 20],
    ];
    expect(fewest(5600, wanted)).toBe(73);
    const used = wanted.reduce((sum, [length, count]) => sum + length * count, 0);
    expect(100 * (1 - used / (73 * 5600))).toBeCloseTo(0.401, 3);
  });

  it('[ST5] width 100: 453 (model library, "cutstock"; optimum recomputed)', () => {
    const wanted: [number, number][] = [
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ];
    expect(fewest(100, wanted)).toBe(453);
  });

  it('[ST5] logs of 2000: 9 (2550 + 5250 + 7150 of pieces; recomputed from the stated data)', () => {
    expect(
      fewest(2000, [
        [255, 10],
        [750, 7],
        [550, 13],
      ]),
    ).toBe(9);
  });

  it('[ST5] bins p01 to p04 (J. Burkardt, bin packing data sets): 4, 7, 3, 7', () => {
    expect(fewest(100, ones(70, 60, 50, 33, 33, 33, 11, 7, 3))).toBe(4);
    expect(fewest(100, ones(99, 94, 79, 64, 50, 46, 43, 37, 32, 19, 18, 7, 6, 3))).toBe(7);
    expect(fewest(100, ones(49, 41, 34, 33, 29, 26, 26, 22, 20, 19))).toBe(3);
    const p04 = (with46: boolean): [number, number][] => [
      [442, 1],
      [252, 7],
      [127, 5],
      [106, 4],
      [85, 1],
      [84, 1],
      ...(with46 ? ([[46, 1]] as [number, number][]) : []),
      [37, 2],
      [12, 3],
      [10, 6],
      [9, 2],
    ];
    expect(fewest(524, p04(true))).toBe(7);
    expect(fewest(524, p04(false))).toBe(7);
  });
});

describe('an independent exact model', () => {
  it('[ST5] random orders of up to 60 pieces cost what arc flow, solved to proof, says', async () => {
    const count = cases(300);
    const covered = { money: 0, length: 0, limited: 0, onHand: 0, proved: 0, fewest: 0, pieces: 0 };
    for (let seed = 1; seed <= count; seed++) {
      const { order, grid } = gridOrder(seed, 60);
      const plan = cutStock(order, solver);
      const byMoney = plan.by === 'money';
      const ties = order.items.length + 1;
      const least = await leastCost(
        order.items.map((item) => ({ need: item.need / grid, kerf: item.kerf / grid })),
        order.lengths.map((each) => ({
          room: (each.length - order.endTrim) / grid,
          cost: (each.onHand ? 0 : byMoney ? each.price! : each.length / grid) * ties + 1,
          limit: each.limit,
        })),
      );
      const cost = byMoney ? plan.cost : plan.cost / grid;
      expect(cost, `seed ${seed}: cost`).toBe(Math.floor(least / ties));
      expect(plan.unplaced, `seed ${seed}: unplaced`).toEqual([]);
      if (plan.fewestProved) expect(plan.boards.length, `seed ${seed}: boards`).toBe(least % ties);
      expect(plan.bound, `seed ${seed}: bound`).toBeLessThanOrEqual(plan.cost);
      covered[plan.by] += 1;
      covered.pieces += order.items.length;
      if (order.lengths.some((each) => each.limit !== null && !each.onHand)) covered.limited += 1;
      if (order.lengths.some((each) => each.onHand)) covered.onHand += 1;
      if (plan.proved) covered.proved += 1;
      if (plan.fewestProved) covered.fewest += 1;
    }
    console.info(`seeds 1 to ${count}: ${JSON.stringify(covered)}`);
    expect(covered.money).toBeGreaterThan(count / 3);
    expect(covered.proved).toBeGreaterThanOrEqual(0.98 * count);
  });

  it('[ST7] on larger orders the gap to the bound is at most 0.5 %', () => {
    const count = cases(30);
    let widest = 0;
    let pieces = 0;
    for (let seed = 1; seed <= count; seed++) {
      const next = random(seed + 7000);
      const size = 80 + Math.floor(420 * next());
      const kinds = 20 + Math.floor(80 * next());
      const order = largeOrder(seed, size, Math.min(size, kinds), 1 + Math.floor(6 * next()));
      const plan = cutStock(order, solver);
      const gap = (plan.cost - plan.bound) / plan.cost;
      expect(plan.unplaced, `seed ${seed}: unplaced`).toEqual([]);
      expect(gap, `seed ${seed}: ${size} pieces, ${plan.cost} over ${plan.bound}`).toBeLessThanOrEqual(0.005);
      widest = Math.max(widest, gap);
      pieces += size;
    }
    console.info(`seeds 1 to ${count}: ${pieces} pieces, widest gap ${(100 * widest).toFixed(3)} %`);
  });
});
