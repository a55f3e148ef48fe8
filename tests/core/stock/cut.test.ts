// Boards cut from stock: degenerate orders first, then small ones whose answer is worked out in the comment, then what
// must hold of every order. Lengths in ticks.

import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import type { ProfileId } from '../../../core/plan/schema.ts';
import {
  alternatives,
  cutStock,
  keptOffcuts,
  moneyOf,
  purchaseOf,
  type StockItem,
  type StockLength,
  type StockOrder,
  type StockPlan,
} from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { gridOrder, largeOrder } from '../../outside/lib/stock-orders.ts';
import { cases } from '../../seeds.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

const piece = (id: string, need: number, kerf = 0): StockItem => ({
  id,
  need,
  kerf,
  sawDeg: [kerf > 10 ? 45 : 0, 0],
});
const board = (length: number, price: number | null, limit: number | null = null): StockLength => ({
  length,
  price,
  limit,
  onHand: false,
});
const hand = (length: number, count: number): StockLength => ({
  length,
  price: 0,
  limit: count,
  onHand: true,
});
const orderOf = (items: readonly StockItem[], lengths: readonly StockLength[], endTrim = 0): StockOrder => ({
  profileId: 'b' as ProfileId,
  kind: 'base',
  items,
  lengths,
  endTrim,
  keepFrom: 300,
  sparePercent: 10,
});

/** What must hold of every plan [ST4, ST6, ST8]. */
function mustBeWhole(order: StockOrder, plan: StockPlan, what: string): void {
  const cut = plan.boards.flatMap((each) => each.items.map((item) => item.id));
  expect([...cut, ...plan.unplaced].sort(), what).toEqual(order.items.map((item) => item.id).sort());
  const used = new Map<string, number>();
  for (const each of plan.boards) {
    const need = each.items.reduce((sum, item) => sum + item.need, 0);
    const kerfs = each.items.reduce((sum, item) => sum + item.kerf, 0);
    const widest = Math.max(...each.items.map((item) => item.kerf));
    expect(each.items.length, what).toBeGreaterThan(0);
    expect(each.used, what).toBe(need);
    expect(each.trim + each.used + each.kerfs + each.offcut, what).toBe(each.length);
    expect(each.offcut, what).toBeGreaterThanOrEqual(0);
    // Every kerf lies on the board, but for the last and widest, which may fall off the end.
    expect(each.kerfs, what).toBeLessThanOrEqual(kerfs);
    expect(each.kerfs, what).toBeGreaterThanOrEqual(kerfs - widest);
    if (each.offcut > 0) expect(each.kerfs, what).toBe(kerfs);
    expect(each.items.at(-1)!.kerf, what).toBe(widest);
    const settings = each.items.map((item) => item.sawDeg[0]);
    expect(settings, what).toEqual(settings.slice().sort((a, b) => a - b));
    const key = `${each.length} ${each.price} ${each.onHand}`;
    used.set(key, (used.get(key) ?? 0) + 1);
  }
  for (const each of order.lengths) {
    const alike = order.lengths.filter(
      (other) => other.length === each.length && other.price === each.price && other.onHand === each.onHand,
    );
    const limit = alike.reduce((sum, other) => sum + (other.limit ?? Number.POSITIVE_INFINITY), 0);
    expect(used.get(`${each.length} ${each.price} ${each.onHand}`) ?? 0, what).toBeLessThanOrEqual(limit);
  }
  const lines = purchaseOf(plan);
  const bought = plan.boards.filter((each) => !each.onHand);
  expect(
    lines.reduce((sum, line) => sum + line.count, 0),
    what,
  ).toBe(bought.length);
  expect(
    lines.reduce((sum, line) => sum + line.count * line.length, 0),
    what,
  ).toBe(bought.reduce((sum, each) => sum + each.length, 0));
  if (plan.by === 'money') expect(moneyOf(lines).money, what).toBe(plan.cost);
  expect(plan.bound, what).toBeLessThanOrEqual(plan.cost);
}

describe('degenerate orders', () => {
  it('[ST6] nothing to cut buys nothing', () => {
    const plan = cutStock(orderOf([], [board(1000, 5)]), solver);
    expect(plan).toMatchObject({ cost: 0, bound: 0, proved: true, boards: [], unplaced: [] });
  });

  it('[ST6] no board at all, or none left, leaves every piece unplaced', () => {
    for (const lengths of [[], [board(1000, 5, 0)], [hand(1000, 0)]]) {
      const plan = cutStock(orderOf([piece('a', 10)], lengths), solver);
      expect(plan).toMatchObject({ cost: 0, boards: [], unplaced: ['a'] });
    }
  });

  it('[ST4] a piece as long as the board less its trim fits, its cut falling off the end; a tick more does not', () => {
    const fits = cutStock(orderOf([piece('a', 990, 14)], [board(1000, 5)], 10), solver);
    expect(fits.boards).toMatchObject([{ trim: 10, used: 990, kerfs: 0, offcut: 0 }]);
    const over = cutStock(orderOf([piece('a', 991, 14), piece('b', 5)], [board(1000, 5)], 10), solver);
    expect(over.unplaced).toEqual(['a']);
    expect(over.boards).toHaveLength(1);
  });

  it('[ST4] a cut that lies partly on the board is charged as far as it lies', () => {
    const plan = cutStock(orderOf([piece('a', 985, 14)], [board(1000, 5)], 10), solver);
    expect(plan.boards).toMatchObject([{ kerfs: 5, offcut: 0 }]);
  });

  it('[ST6] where limited boards run out, as few pieces as can be are left', () => {
    // 600 + 400 fill one board; of 600, 400, 400, 400 two boards hold all but none more: 600+400 and 400+400.
    const items = [piece('a', 600), piece('b', 400), piece('c', 400), piece('d', 400), piece('e', 300)];
    const plan = cutStock(orderOf(items, [board(1000, 5, 2)]), solver);
    expect(plan.unplaced).toHaveLength(1);
    expect(plan.boards).toHaveLength(2);
    mustBeWhole(orderOf(items, [board(1000, 5, 2)]), plan, 'limited');
  });

  it('lengths and prices that are not whole are refused', () => {
    expect(() => cutStock(orderOf([piece('a', 1.5)], [board(1000, 5)]), solver)).toThrow(/1\.5/);
    expect(() => cutStock(orderOf([piece('a', 1)], [board(1000, 0.5)]), solver)).toThrow(/0\.5/);
  });
});

describe('what is made least', () => {
  it('[ST5] money where every length bought has a price', () => {
    // Two of 500: one 1000 at 30 or two 500 at 10 each.
    const items = [piece('a', 500), piece('b', 500)];
    const plan = cutStock(orderOf(items, [board(1000, 30), board(500, 10)]), solver);
    expect(plan).toMatchObject({ by: 'money', cost: 20, bound: 20, proved: true });
    expect(plan.boards.map((each) => each.length)).toEqual([500, 500]);
  });

  it('[ST5] length where one price is missing', () => {
    const items = [piece('a', 500), piece('b', 300)];
    const plan = cutStock(orderOf(items, [board(1000, null), board(500, 10)]), solver);
    // 800 of pieces: one 1000 or two 500, the same length; fewer boards wins.
    expect(plan).toMatchObject({ by: 'length', cost: 1000, proved: true, fewestProved: true });
    expect(plan.boards.map((each) => each.length)).toEqual([1000]);
    expect(purchaseOf(plan)).toMatchObject([{ price: null, sum: null, count: 1 }]);
  });

  it('[ST5] boards on hand cost nothing, need no price and count as boards in a tie', () => {
    const items = [piece('a', 400), piece('b', 400)];
    const plan = cutStock(orderOf(items, [board(1000, 30), hand(450, 2)]), solver);
    expect(plan).toMatchObject({ by: 'money', cost: 0 });
    expect(purchaseOf(plan)).toEqual([]);
    const one = cutStock(orderOf(items, [board(1000, 30), hand(450, 2), hand(900, 1)]), solver);
    expect(one.boards.map((each) => each.length)).toEqual([900]);
    // A board that must be bought anyway holds both: the one on hand is left alone.
    const both = [piece('a', 400), piece('b', 600)];
    const bought = cutStock(orderOf(both, [board(1000, 30), hand(450, 1)]), solver);
    expect(bought.boards.map((each) => each.length)).toEqual([1000]);
  });

  it('[ST8] of plans alike in money and boards, one long off-cut rather than two', () => {
    // Two boards of 1000 for 500, 300, 300, 200: 500+300+200 and 300 leaves 0 and 700; 500+300 and 300+200 200 and 500.
    const items = [piece('a', 500), piece('b', 300), piece('c', 300), piece('d', 200)];
    const plan = cutStock(orderOf(items, [board(1000, 5)]), solver);
    expect(plan.boards.map((each) => each.offcut).sort((x, y) => x - y)).toEqual([0, 700]);
    expect(keptOffcuts(plan)).toEqual([{ length: 700, count: 1 }]);
  });

  it('[ST9] the spare is apart, in whole boards of the longest bought', () => {
    const items = Array.from({ length: 30 }, (_, i) => piece(`p${i}`, 1000));
    const plan = cutStock(orderOf(items, [board(1000, 7)]), solver);
    expect(purchaseOf(plan)).toMatchObject([{ count: 30, sum: 210, spare: 3, spareSum: 21 }]);
    expect(moneyOf(purchaseOf(plan))).toEqual({ money: 210, spare: 21, unpriced: 0 });
  });

  it('[ST9] no spare is taken of a length that is used up, where another can be had', () => {
    const items = [
      piece('a', 1900),
      piece('b', 1900),
      ...Array.from({ length: 6 }, (_, i) => piece(`p${i}`, 950)),
    ];
    const lengths = [{ ...board(2000, 7), limit: 2 }, board(1000, 5)];
    const lines = purchaseOf(cutStock(orderOf(items, lengths), solver));
    expect(lines).toMatchObject([
      { length: 2000, count: 2, spare: 0 },
      { length: 1000, count: 6, spare: 1, spareSum: 5 },
    ]);
  });

  it('[ST11] alternatives: as asked, and each length alone', () => {
    const items = [piece('a', 500), piece('b', 450), piece('c', 800)];
    const asked = cutStock(orderOf(items, [board(1000, 30), board(500, 10)]), solver);
    const rows = alternatives(asked, solver);
    expect(
      rows.map(({ kind, only, money, boards, unplaced }) => ({ kind, only, money, boards, unplaced })),
    ).toEqual([
      { kind: 'asked', only: null, money: 50, boards: 3, unplaced: 0 },
      { kind: 'only', only: 500, money: 20, boards: 2, unplaced: 1 },
      { kind: 'only', only: 1000, money: 60, boards: 2, unplaced: 0 },
    ]);
  });

  it('a budget told to stop keeps the best so far, whole; without a stop the same order gives the same boards', () => {
    const order = largeOrder(3, 60, 40, 4);
    const steps: string[] = [];
    const stopped = cutStock(order, solver, {
      tell: ({ step }) => {
        steps.push(step);
        return 'stop';
      },
    });
    expect(steps[0]).toBe('start');
    mustBeWhole(order, stopped, 'stopped');
    expect(stopped.proved).toBe(false);
    const full = cutStock(order, solver);
    expect(full.cost).toBeLessThanOrEqual(stopped.cost);
    expect(cutStock(order, solver)).toEqual(full);
    expect(cutStock(order, solver, { work: 0 }).cost).toBe(stopped.cost);
  });
});

describe('conservation', () => {
  it('[ST4, ST6] every piece on one board, every board to the tick, the order equal to the boards', () => {
    const count = cases(120);
    let boards = 0;
    for (let seed = 1001; seed <= 1000 + count; seed++) {
      const { order } = gridOrder(seed, 30);
      const few = { ...order, lengths: order.lengths.map((each) => ({ ...each, limit: 2 })) };
      for (const each of [order, few]) {
        const plan = cutStock(each, solver);
        mustBeWhole(each, plan, `seed ${seed}`);
        boards += plan.boards.length;
      }
    }
    for (let seed = 1; seed <= cases(20); seed++) {
      const order = largeOrder(seed, 150, 70, 5);
      const plan = cutStock(order, solver, { work: 0.1 });
      mustBeWhole(order, plan, `large, seed ${seed}`);
      boards += plan.boards.length;
    }
    console.info(`seeds 1001 to ${1000 + count}: ${boards} boards`);
    expect(boards).toBeGreaterThan(count);
  });
});
