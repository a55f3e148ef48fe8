// Boards that run out, and boards of one length alone: stretches that a longer board would hold in one piece are joined, so
// that nothing is left out that could be cut. Millimetres, flat stock of 10 mm that butts, no kerf, no trim, square scarfs.

import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import type { Plan, ProfileId } from '../../../core/plan/schema.ts';
import { cutsOf, cutsToText, derive, plainCutsOf, type Solved, solve } from '../../../core/report/index.ts';
import { cutStock, type StockOrder } from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { type Fields, housePlan, rectangle } from '../trim/houses.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

const MM = 320;
const SQUARE = { kerf: 0, endTrim: 0, scarfDeg: 0, springBy: 0 };
const BASE = { kind: 'base', name: 'Flat base', height: 100, thickness: 10, form: 'flat', material: 'pine' };

/** A room of four walls of 4500 mm. */
function square(stock: readonly Fields[], more: Fields = {}): Plan {
  const outline = rectangle(4500, 4500);
  return housePlan(outline, {
    profiles: { base: { ...BASE, stock, ...more } },
    trim: { base: 'base' },
    settings: SQUARE,
  });
}

const withOnHand = (plan: Plan, lengthMm: number, count: number): Plan =>
  ({ ...plan, stockOnHand: { base: [{ length: lengthMm * MM, count }] } }) as Plan;

const scarfed = ({ report }: Solved): number =>
  report.pieces.filter(({ left, right }) => [left, right].some(({ end }) => end === 'scarf')).length / 2;

/** Every piece on one board, boards to the tick. */
function mustConserve({ stock: [stock] }: Solved): void {
  const on = stock!.boards.flatMap(({ items }) => items.map(({ id }) => id));
  expect([...on, ...stock!.unplaced].toSorted()).toEqual(stock!.order.items.map(({ id }) => id).toSorted());
  for (const { trim, used, kerfs, offcut, length } of stock!.boards)
    expect(trim + used + kerfs + offcut).toBe(length);
}

describe('where long boards run out', () => {
  it('[ST12] one board of 5 m on hand, 4 m to buy: the three other walls of 4.5 m are joined', () => {
    // 3 × 4.5 m less butts is more than three boards of 4 m; joined at 3.1 m, the three short parts go on a fourth.
    const solved = solve(derive(withOnHand(square([{ length: 4000, price: 10 }]), 5000, 1)), solver);
    expect(solved.stock[0]).toMatchObject({ unplaced: [], cost: 4000, boards: { length: 5 } });
    expect(scarfed(solved)).toBe(3);
    expect(solved.findings.filter(({ code }) => code === 'stock-none')).toEqual([]);
    // However many are joined and where: 18 m less four butts and the one of 5 m is more than three boards of 4 m.
    expect(solved.stock[0]).toMatchObject({ bound: 4000, proved: true });
    expect(cutsToText(solved.plan, plainCutsOf(solved))).toContain(
      'least possible 40.00, this 40.00, proved',
    );
    mustConserve(solved);
  });

  it('[ST12] the same where the long length is bought and limited; enough of it needs no joint', () => {
    const stock = (count: number) => [
      { length: 5000, price: 12, onHand: count },
      { length: 4000, price: 10 },
    ];
    const two = solve(derive(square(stock(2))), solver);
    expect(two.stock[0]).toMatchObject({ unplaced: [], cost: 5400 });
    expect(scarfed(two)).toBe(2);
    mustConserve(two);
    const four = solve(derive(square(stock(4))), solver);
    expect(four.stock[0]).toMatchObject({ unplaced: [], cost: 4800, proved: true });
    expect(scarfed(four)).toBe(0);
  });

  it('[ST12] joints of it lie on studs and leave no short part', () => {
    const plan = {
      ...withOnHand(square([{ length: 4000, price: 10 }]), 5000, 1),
      studs: { spacing: 700 * MM },
    };
    const solved = solve(derive(plan), solver);
    expect(solved.stock[0]!.unplaced).toEqual([]);
    expect(scarfed(solved)).toBe(3);
    for (const trim of solved.levels.flatMap((level) => level.trims)) {
      for (const piece of trim.lines.flatMap((line) => line.runs.flatMap((run) => run.pieces))) {
        if (piece.parts < 2) continue;
        expect(Math.min(piece.back, piece.face)).toBeGreaterThanOrEqual(914.4 * MM);
        if (piece.part === 0) expect(piece.L % (700 * MM)).toBeLessThanOrEqual(1);
      }
    }
  });

  it('[ST6] without scarfs, or with no length that does not run out, pieces are left and said', () => {
    const refused = solve(
      derive(withOnHand(square([{ length: 4000, price: 10 }], { scarf: false }), 5000, 1)),
      solver,
    );
    expect(refused.stock[0]!.unplaced).toHaveLength(3);
    const out = solve(derive(withOnHand(square([{ length: 4000, price: 10, onHand: 1 }]), 5000, 1)), solver);
    expect(out.stock[0]!.unplaced.length).toBeGreaterThan(0);
    for (const solved of [refused, out]) {
      const said = solved.findings.filter(({ code }) => code === 'stock-none');
      expect(said.map(({ about, severity }) => [about[0], severity]).toSorted()).toEqual(
        solved.stock[0]!.unplaced.map((id) => [id, 'stop']).toSorted(),
      );
      mustConserve(solved);
    }
  });
});

describe('bought in one length alone', () => {
  it('[ST11] walls longer than it are joined for it, and the row says so', () => {
    // As asked each wall takes a board of 5 m: 60. Of 4 m: four parts of 3.5 m, the four of 1 m on a fifth board: 50.
    const plan = square([
      { length: 4000, price: 10 },
      { length: 5000, price: 15 },
    ]);
    const solved = solve(derive(plan), solver);
    const [table] = cutsOf(solved, solver).alternatives;
    expect(
      table!.rows.map(({ onlyMm, money, boards, unplaced, moreScarfs }) => ({
        onlyMm,
        money,
        boards,
        unplaced,
        moreScarfs,
      })),
    ).toEqual([
      { onlyMm: null, money: 60, boards: 4, unplaced: 0, moreScarfs: 0 },
      { onlyMm: 4000, money: 50, boards: 5, unplaced: 0, moreScarfs: 4 },
      { onlyMm: 5000, money: 60, boards: 4, unplaced: 0, moreScarfs: 0 },
    ]);
  });

  it('[ST11, ST13] a board held stays in it, of whatever length', () => {
    const plan = square([
      { length: 4000, price: 10 },
      { length: 5000, price: 15 },
    ]);
    const held = {
      base: [{ length: 5000 * MM, onHand: false, pieces: ['1A'] }],
    } as unknown as Plan['heldBoards'];
    const solved = solve(derive({ ...plan, heldBoards: held }), solver);
    const [table] = cutsOf(solved, solver).alternatives;
    // 15 for the one held; the other three in four boards of 4 m.
    expect(table!.rows[1]).toMatchObject({ onlyMm: 4000, money: 55, boards: 5, unplaced: 0, moreScarfs: 3 });
    // The same length dearer elsewhere on the list is not what it costs.
    const dear = { length: 5000 * MM, price: 40 };
    const { base } = plan.profiles as Record<string, Plan['profiles'][ProfileId]>;
    const listed = { base: { ...base!, stock: [dear, ...base!.stock] } } as Plan['profiles'];
    const twice = solve(derive({ ...plan, profiles: listed, heldBoards: held }), solver);
    expect(cutsOf(twice, solver).alternatives[0]!.rows[1]).toMatchObject({ onlyMm: 4000, money: 55 });
  });
});

describe('where boards of one length alone are cheaper than those of several', () => {
  it('[ST7, ST12] boards of all lengths are laid for the joints of that one as well', () => {
    // 5.3 m alone: five boards, 26.5 m. At the same joints one board of 5 m in place of one of them: 26.2 m.
    const outline = rectangle(7019, 5900);
    const stock = [{ length: 2700 }, { length: 5000, onHand: 3 }, { length: 5300 }];
    const plan = housePlan(outline, { profiles: { base: { ...BASE, stock } }, trim: { base: 'base' } });
    const solved = solve(derive(plan), solver);
    mustConserve(solved);
    expect(solved.stock[0]).toMatchObject({ by: 'length', unplaced: [] });
    expect(solved.stock[0]!.cost).toBeLessThanOrEqual(26_200 * MM);
  });
});

describe('boards held that take the last of a length', () => {
  it('[ST5, ST13] whose price is not known leave length to be made least, as without them', () => {
    const piece = (id: string) => ({ id, need: 900, kerf: 0, sawDeg: [0, 0] as const });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: ['a', 'b'].map(piece),
      lengths: [
        { length: 1000, price: null, limit: 1, onHand: false },
        { length: 1200, price: 500, limit: null, onHand: false },
      ],
      endTrim: 0,
      keepFrom: 300,
      sparePercent: 0,
    };
    const held = [{ length: 1000, onHand: false, pieces: ['a'] }];
    expect(cutStock(order, solver)).toMatchObject({ by: 'length', cost: 2200 });
    // Not 500 of money, as if the other board were free.
    expect(cutStock({ ...order, held }, solver)).toMatchObject({ by: 'length', cost: 2200, bound: 2200 });
  });

  it('[ST7, ST13] a first layout has no bound, with boards held as without', () => {
    const piece = (id: string) => ({ id, need: 900, kerf: 0, sawDeg: [0, 0] as const });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: ['a', 'b', 'c'].map(piece),
      lengths: [{ length: 1000, price: 500, limit: null, onHand: false }],
      endTrim: 0,
      keepFrom: 300,
      sparePercent: 0,
    };
    const held = [{ length: 1000, onHand: false, pieces: ['a'] }];
    for (const each of [order, { ...order, held }])
      expect(cutStock(each, solver, { work: 0 })).toMatchObject({ cost: 1500, bound: 0, proved: false });
    const all = [...held, ...['b', 'c'].map((id) => ({ length: 1000, onHand: false, pieces: [id] }))];
    expect(cutStock({ ...order, held: all }, solver, { work: 0 })).toMatchObject({
      bound: 1500,
      proved: true,
    });
  });
});
