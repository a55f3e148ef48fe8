// Boards that stay as the user holds them, and a search that is stopped at any moment.

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import { readPlan } from '../../../core/plan/index.ts';
import type { ProfileId } from '../../../core/plan/schema.ts';
import { derive, type Solved, solve } from '../../../core/report/index.ts';
import {
  cutStock,
  type LockedBoard,
  orderOf,
  purchaseOf,
  type StockOrder,
  type StockPlan,
} from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { gridOrder } from '../../outside/lib/stock-orders.ts';
import { cases, LONG, random } from '../../seeds.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

/** Every piece once, every board to the tick, no more boards than there are [ST4, ST6]. */
function mustConserve(order: StockOrder, plan: StockPlan, what: string): void {
  const cut = plan.boards.flatMap((board) => board.items.map((item) => item.id));
  expect([...cut, ...plan.unplaced].sort(), what).toEqual(order.items.map((item) => item.id).sort());
  for (const board of plan.boards) {
    expect(board.trim + board.used + board.kerfs + board.offcut, what).toBe(board.length);
    expect(board.used, what).toBe(board.items.reduce((sum, item) => sum + item.need, 0));
  }
  for (const each of order.lengths.filter((one) => one.limit !== null)) {
    const alike = order.lengths.filter(
      (one) => one.length === each.length && one.onHand === each.onHand && one.price === each.price,
    );
    const limit = alike.reduce((sum, one) => sum + (one.limit ?? Number.POSITIVE_INFINITY), 0);
    const used = plan.boards.filter(
      (board) => board.length === each.length && board.onHand === each.onHand && board.price === each.price,
    );
    expect(used.length, what).toBeLessThanOrEqual(limit);
  }
  expect(plan.bound, what).toBeLessThanOrEqual(plan.cost);
  const bought = purchaseOf(plan).reduce((sum, line) => sum + line.count * line.length, 0);
  expect(bought, what).toBe(plan.boards.reduce((sum, board) => sum + (board.onHand ? 0 : board.length), 0));
}

const lockOf = (order: StockOrder, board: StockPlan['boards'][number]): LockedBoard => ({
  profileId: order.profileId,
  length: board.length,
  onHand: board.onHand,
  pieces: board.items.map((item) => item.id),
});

describe('locked boards', () => {
  it('[ST13] stay as they are, the rest is laid around them, and nothing is lost', () => {
    const count = cases(80);
    for (let seed = 1; seed <= count; seed++) {
      const { order } = gridOrder(seed, 30);
      const next = random(seed);
      const free = cutStock(order, solver, { work: LITTLE });
      const locked = free.boards.filter(() => next() < 0.4).map((board) => lockOf(order, board));
      const again = cutStock(order, solver, { locked, work: LITTLE });
      mustConserve(order, again, `seed ${seed}`);
      expect(again.loosened, `seed ${seed}`).toEqual([]);
      expect(again.boards.filter((board) => board.locked).map((board) => lockOf(order, board))).toEqual(
        locked,
      );
      // What is locked came from a best answer, so the rest can be as good as before.
      if (free.proved && again.proved) expect(again.cost, `seed ${seed}`).toBe(free.cost);
    }
  });

  it('[ST13] a board held against what is best costs what it costs: the bound is around it', () => {
    const piece = (id: string, need: number) => ({ id, need, kerf: 0, sawDeg: [0, 0] as const });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: [piece('a', 500), piece('b', 500), piece('c', 500)],
      lengths: [{ length: 1000, price: 7, limit: null, onHand: false }],
      endTrim: 0,
      keepFrom: 300,
      sparePercent: 0,
    };
    expect(cutStock(order, solver)).toMatchObject({ cost: 14, boards: { length: 2 } });
    const lock = (...ids: string[]): LockedBoard => ({
      profileId: order.profileId,
      length: 1000,
      onHand: false,
      pieces: ids,
    });
    const held = cutStock(order, solver, { locked: [lock('a'), lock('b')] });
    expect(held).toMatchObject({ cost: 21, bound: 21, proved: true });
    expect(held.boards.map((board) => board.items.map((item) => item.id))).toEqual([['a'], ['b'], ['c']]);
    const all = cutStock(order, solver, { locked: [lock('a', 'b'), lock('c')] });
    expect(all).toMatchObject({ cost: 14, bound: 14, proved: true, unplaced: [] });
  });

  it('[ST13] what can no longer be had is handed back, and its pieces are laid like all others', () => {
    const { order } = gridOrder(3, 12);
    const [first] = order.items;
    const { profileId } = order;
    const length = order.lengths[0]!.length;
    const locked: LockedBoard[] = [
      { profileId, length, onHand: order.lengths[0]!.onHand, pieces: ['gone'] },
      { profileId, length: length + 1, onHand: false, pieces: [first!.id] },
      { profileId, length, onHand: order.lengths[0]!.onHand, pieces: order.items.map((item) => item.id) },
      { profileId, length, onHand: order.lengths[0]!.onHand, pieces: [] },
    ];
    const plan = cutStock(order, solver, { locked });
    expect(plan.loosened).toEqual(locked);
    mustConserve(order, plan, 'loosened');
    // Those of another profile are not this order's to hand back.
    const other = { ...locked[0]!, profileId: 'other' as ProfileId };
    expect(cutStock(order, solver, { locked: [other] }).loosened).toEqual([]);
  });
});

/** A part of the usual work: what is held and kept does not hang on how good the boards are. */
const LITTLE = 0.1;

/** A demo house with shorter stock, so that long walls are joined; casings are left out. */
function house() {
  const text = readFileSync(
    new URL('../../../demo-data/thimble-cottage.copewright.json', import.meta.url),
    'utf8',
  );
  const read = readPlan(text);
  if (!read.ok) throw new Error(read.error.message);
  const profiles = Object.fromEntries(
    Object.entries(read.plan.profiles).map(([id, profile]) => [
      id,
      {
        ...profile,
        stock:
          profile.kind === 'casing'
            ? []
            : [8, 10].map((feet) => ({ length: feet * 12 * 8128, price: feet * 2 })),
      },
    ]),
  );
  return derive({ ...read.plan, profiles } as typeof read.plan);
}

describe('a whole house', () => {
  it('[ST7, ST13] is told of every profile, and stopped at any step gives whole boards', () => {
    const derived = house();
    const steps: string[] = [];
    const full = solve(derived, solver, {
      work: LITTLE,
      tell: ({ profileId, step }) => {
        steps.push(`${profileId} ${step}`);
        return 'go';
      },
    });
    for (const { order } of full.stock) {
      expect(
        steps.some((each) => each.startsWith(`${order.profileId} `)),
        order.profileId,
      ).toBe(true);
      expect(steps).toContain(`${order.profileId} settle`);
    }
    expect(steps.some((each) => each.endsWith(' join'))).toBe(true);
    const check = (solved: Solved, what: string): void => {
      const orders = orderOf(solved.plan, solved.levels);
      expect(
        solved.stock.map((each) => each.order.profileId),
        what,
      ).toEqual(orders.map((order) => order.profileId));
      solved.stock.forEach((each, i) => {
        expect(each.order.items, what).toEqual(orders[i]!.items);
        mustConserve(orders[i]!, each, what);
      });
    };
    check(full, 'full');
    for (let stop = 1; stop <= steps.length; stop += LONG ? 1 : 4) {
      let told = 0;
      const solved = solve(derived, solver, {
        work: LITTLE,
        tell: () => {
          told += 1;
          return told === stop ? 'stop' : 'go';
        },
      });
      check(solved, `stopped at ${stop}`);
      expect(told, 'asked no more once it stopped').toBe(stop);
      solved.stock.forEach((each, i) => {
        const best = full.stock[i]!;
        if (each.proved && each.by === best.by) expect(each.cost).toBe(best.cost);
      });
    }
    console.info(`${steps.length} steps, ${Object.keys(full.splits).length} joined stretches`);
  });

  it('[ST13] locked boards hold their pieces and the joints these have', () => {
    const derived = house();
    const first = solve(derived, solver, { work: LITTLE });
    const joined = new Set(
      first.levels
        .flatMap((level) => level.trims)
        .flatMap((trim) => trim.lines.flatMap((line) => line.runs.flatMap((run) => run.pieces)))
        .filter((piece) => piece.parts > 1)
        .map((piece) => piece.id),
    );
    const locked = first.stock.flatMap(({ order, boards }) =>
      boards
        .filter((board) => board.items.some((item) => joined.has(item.id)))
        .map((board) => lockOf(order, board)),
    );
    expect(locked.length).toBeGreaterThan(0);
    const ready = derive(derived.plan, undefined, first.splits);
    const again = solve(ready, solver, { locked, work: LITTLE });
    expect(again.splits).toEqual(first.splits);
    for (const each of again.stock) {
      expect(each.loosened).toEqual([]);
      const held = each.boards.filter((board) => board.locked).map((board) => lockOf(each.order, board));
      expect(held).toEqual(locked.filter((board) => board.profileId === each.order.profileId));
    }
  });
});
