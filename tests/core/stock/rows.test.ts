// What is said of boards beside their figures: the least they can cost, what is left out, and the rows of boards bought
// otherwise. The demo houses, and seeded rooms of flat base in millimetres.

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import { readPlanBytes } from '../../../core/plan/index.ts';
import type { Plan } from '../../../core/plan/schema.ts';
import { cutsOf, cutsToText, derive, plainCutsOf, type Solved, solve } from '../../../core/report/index.ts';
import { alternatives, cutStock } from '../../../core/stock/index.ts';
import { oneLengthTried } from '../../../core/stock/one-length.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { orderWith } from '../../outside/lib/stock-orders.ts';
import { cases, random } from '../../seeds.ts';
import { type Fields, housePlan, rectangle } from '../trim/houses.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

const FOOT = 12 * 8128;

function demo(name: string): Plan {
  const read = readPlanBytes(readFileSync(`demo-data/${name}.copewright.json`));
  if (!read.ok) throw new Error(`${name} was not read`);
  return read.plan;
}

/** A demo house with boards of the tall base as given: feet, how many; null: no limit. */
function withTall(
  house: string,
  bought: readonly (readonly [feet: number, count: number | null])[],
  onHand: readonly (readonly [feet: number, count: number])[] = [],
): Plan {
  const plan = demo(house);
  const profiles = Object.fromEntries(
    Object.entries(plan.profiles).map(([id, profile]) => {
      const stock = bought.map(([feet, count]) => ({
        length: feet * FOOT,
        price: feet * 1.8,
        ...(count === null ? {} : { onHand: count }),
      }));
      return [id, id === 'base-tall' ? { ...profile, stock } : profile];
    }),
  );
  const stockOnHand = { 'base-tall': onHand.map(([feet, count]) => ({ length: feet * FOOT, count })) };
  return { ...plan, profiles, stockOnHand } as unknown as Plan;
}

/** The lines of one profile. */
const linesOf = (text: string, id: string): string =>
  text.split('\n\n').find((part) => part.includes(`(${id}):`))!;

const tallOf = ({ stock }: Solved) => stock.find(({ order }) => order.profileId === 'base-tall')!;

describe('boards that are limited in every length', () => {
  it('[ST12] one of 16 ft and twenty of 8 ft hold all of the tall base once its walls are joined', () => {
    const solved = solve(
      derive(
        withTall('thimble-cottage', [
          [8, 20],
          [16, 1],
        ]),
      ),
      solver,
    );
    // All pieces together are longer than one of 16 ft and twelve of 8 ft.
    expect(tallOf(solved)).toMatchObject({ unplaced: [], cost: 21_600, bound: 21_600, proved: true });
    expect(solved.findings.filter(({ code }) => code === 'stock-none')).toEqual([]);
  });

  it('[ST12] so do two of 16 ft and twenty of 8 ft on hand, whether a list says that no more can be bought or there is none', () => {
    for (const bought of [[], [[8, 0]] as const]) {
      const solved = solve(
        derive(
          withTall('thimble-cottage', bought, [
            [16, 2],
            [8, 20],
          ]),
        ),
        solver,
      );
      expect(tallOf(solved)).toMatchObject({ unplaced: [], cost: 0 });
    }
  });

  it('[ST6] where joints do not help either, nothing is called proved, and what to do is said of each piece', () => {
    const solved = solve(
      derive(
        withTall('thimble-cottage', [
          [8, 2],
          [16, 1],
        ]),
      ),
      solver,
    );
    const { unplaced } = tallOf(solved);
    expect(unplaced.length).toBeGreaterThan(0);
    const text = linesOf(cutsToText(solved.plan, plainCutsOf(solved)), 'base-tall');
    expect(text).toMatch(
      /this [\d.]+, without \d+ pieces that no board holds; whether fewer could be left out is not known/,
    );
    expect(text).not.toMatch(/proved|least possible/);
    const said = solved.findings.filter(
      ({ code, about }) => code === 'stock-none' && about.includes('base-tall'),
    );
    expect(
      said
        .flatMap(({ about }) => about)
        .filter((id) => unplaced.includes(id))
        .toSorted(),
    ).toEqual(unplaced.toSorted());
    expect(said.every(({ severity }) => severity === 'stop')).toBe(true);
    expect(said.some(({ message }) => message.includes('No way of joining walls was found'))).toBe(true);
  });

  it('[ST6] where scarfs are refused they are named as a way out, and that fewer cannot be left out is proved', () => {
    const plan = withTall('thimble-cottage', [
      [8, 20],
      [16, 1],
    ]);
    const profiles = Object.fromEntries(
      Object.entries(plan.profiles).map(([id, profile]) => [id, { ...profile, scarf: false }]),
    );
    const solved = solve(derive({ ...plan, profiles } as Plan), solver);
    const said = solved.findings.filter(
      ({ code, about }) => code === 'stock-none' && about.includes('base-tall'),
    );
    expect(said.length).toBeGreaterThan(0);
    for (const { message, remedies } of said) {
      expect(message).toContain('Scarfs are not allowed for it.');
      expect(remedies.join(' ')).toContain('Allow a scarf for this profile');
    }
    const text = linesOf(cutsToText(solved.plan, plainCutsOf(solved)), 'base-tall');
    expect(text).toContain('; fewer cannot be left out');
  });
});

describe('the rows of boards bought otherwise', () => {
  it('[ST11] of the demo houses are near the least that is known', () => {
    const wanted: readonly (readonly [house: string, profile: string, feet: number, most: number])[] = [
      ['thimble-cottage', 'base-tall', 8, 219],
      ['larkspur-house', 'base-tall', 8, 958],
      ['larkspur-house', 'shoe-a', 8, 136.4],
    ];
    for (const house of new Set(wanted.map(([name]) => name))) {
      const solved = solve(derive(demo(house)), solver);
      const { alternatives } = cutsOf(solved, solver);
      for (const [, profile, feet, most] of wanted.filter(([name]) => name === house)) {
        const { rows } = alternatives.find((each) => each.profile === profile)!;
        const own = rows.find(({ onlyMm }) => onlyMm !== null && Math.abs(onlyMm - feet * 304.8) < 1)!;
        expect(own, `${house}: ${profile}`).toMatchObject({ unplaced: 0 });
        expect(own.money, `${house}: ${profile}`).toBeLessThanOrEqual(most);
      }
      if (house === 'larkspur-house') {
        expect(tallOf(solved)).toMatchObject({ cost: 90_040, bound: 90_040, proved: true });
        const text = linesOf(cutsToText(solved.plan, { ...plainCutsOf(solved), alternatives }), 'base-tall');
        expect(text).toMatch(/only 96": .* scarfs more, not proved least/);
        expect(text).toMatch(/only 144": 898\.80, .* 1 scarf more\n/);
        expect(text).toContain(
          'A wall that the longest stock holds in one piece is not joined to save money',
        );
      }
    }
  });

  it('[ST11] that buys more boards of its length than can be had says how many, and no other row does', () => {
    const base = {
      kind: 'base',
      name: 'Base',
      height: 100,
      thickness: 12,
      form: 'flat',
      material: 'pine',
      stock: [
        { length: 3600, price: 10, onHand: 1 },
        { length: 4400, price: 30 },
      ],
    };
    const plan = housePlan(rectangle(3400, 3300), { profiles: { base }, trim: { base: 'base' } });
    const solved = solve(derive(plan), solver);
    const cuts = cutsOf(solved, solver);
    // Four walls, each a board of its own: the cheapest is one short board and three long ones.
    expect(cuts.alternatives[0]!.rows).toMatchObject([
      { kind: 'asked', money: 100, tooFew: null },
      { onlyMm: 3600, money: 40, tooFew: { bought: 4, toBeHad: 1 } },
      { onlyMm: 4400, money: 120, tooFew: null },
    ]);
    const text = cutsToText(solved.plan, cuts);
    expect(text).toMatch(/only 3600 mm: 40\.00, .*, buys 4 boards, and 1 can be had\n/);
    expect(text.match(/can be had/g)).toHaveLength(1);
  });

  it('[ST11] of the one length that an order buys is the order itself, boards and waste too', () => {
    // Two boards of 32 hold all but one piece of 6; with the boards on hand, cost alone leaves more than one way.
    const items = [14, 15, 6, 10, 6, 12, 6].map((need, i) => ({
      id: `${i}`,
      need,
      kerf: 0,
      sawDeg: [0, 0] as const,
    }));
    const bought = [24, 32].map((length) => ({ length, price: length * 5, limit: null, onHand: false }));
    const onHand = { length: 7, price: 0, limit: 2, onHand: true };
    const asked = cutStock(orderWith(items, [...bought, onHand], 0), solver);
    const rows = alternatives(asked, solver, [], { costAlone: true });
    const figures = ({ money, boards, waste }: (typeof rows)[number]) => ({ money, boards, waste });
    expect(figures(rows[0]!)).toEqual({ money: 320, boards: 3, waste: 2 });
    expect(figures(rows.find(({ only }) => only === 32)!)).toEqual(figures(rows[0]!));
  });

  it('[ST11] of a length that is limited now has fewer scarfs, and says so', () => {
    const solved = solve(
      derive(
        withTall('thimble-cottage', [
          [8, null],
          [16, 2],
        ]),
      ),
      solver,
    );
    const cuts = cutsOf(solved, solver);
    const { rows } = cuts.alternatives.find(({ profile }) => profile === 'base-tall')!;
    const long = rows.find(({ onlyMm }) => onlyMm !== null && onlyMm > 4000)!;
    expect(long.unplaced).toBe(0);
    expect(long.moreScarfs).toBeLessThan(0);
    expect(linesOf(cutsToText(solved.plan, cuts), 'base-tall')).toMatch(/only 192": .*, \d+ scarfs fewer/);
  });

  it('[ST11] none with as many scarfs is cheaper than the boards as asked, where lengths have no limit', () => {
    const count = cases(80);
    const covered = { rows: 0, withScarfs: 0, cheaperWithMore: 0 };
    for (let seed = 1; seed <= count; seed++) {
      const next = random(seed + 9_000);
      const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
      const lengths = [int(20, 27), int(28, 40), int(41, 52)].map((each) => each * 100);
      const stock: Fields[] = lengths.map((length) => ({ length, price: (length * int(28, 36)) / 10_000 }));
      const [wide, deep, in1, in2] = [int(30, 110), int(25, 80), int(8, 20), int(8, 20)].map(
        (each) => each * 100 + int(0, 99),
      );
      const outline = [
        [0, 0],
        [wide!, 0],
        [wide!, deep! - in2!],
        [wide! - in1!, deep! - in2!],
        [wide! - in1!, deep!],
        [0, deep!],
      ] as const;
      const base = {
        kind: 'base',
        name: 'Base',
        height: 100,
        thickness: 14,
        form: next() < 0.5 ? 'flat' : 'shaped',
        material: 'pine',
        stock,
      };
      const plan = housePlan(outline, { profiles: { base }, trim: { base: 'base' } });
      const solved = solve(derive(plan), solver);
      const cuts = cutsOf(solved, solver);
      const [asked, ...rows] = cuts.alternatives[0]!.rows;
      if (asked!.unplaced > 0) continue;
      for (const row of rows.filter(({ unplaced }) => unplaced === 0)) {
        covered.rows += 1;
        if (row.moreScarfs > 0) covered.withScarfs += 1;
        if (row.moreScarfs <= 0)
          expect(row.money, `seed ${seed}: ${row.name} ${row.onlyMm}`).toBeGreaterThanOrEqual(asked!.money!);
        else if (row.money! < asked!.money!) {
          covered.cheaperWithMore += 1;
          expect(cutsToText(solved.plan, cuts), `seed ${seed}`).toContain('is not joined to save money');
        }
      }
    }
    console.info(`seeds 1 to ${count}: ${JSON.stringify(covered)}`);
    expect(covered.rows).toBeGreaterThan(0);
  });

  it('[ST7] boards of one length alone are laid on orders of any size where they could cost less', () => {
    const items = [700, 450, 310].flatMap((need) =>
      Array.from({ length: 210 }, (_, i) => ({ id: `${need}-${i}`, need, kerf: 0, sawDeg: [0, 0] as const })),
    );
    const lengths = [
      { length: 1400, price: 19, limit: null, onHand: false },
      { length: 1460, price: 20, limit: null, onHand: false },
    ];
    const order = orderWith(items, lengths, 0);
    const plan = housePlan(rectangle(4000, 3000), {});
    const layout = { plan, levels: [], longs: [], given: {}, held: new Map() };
    const first = { stock: cutStock(order, solver, { work: 0 }), splits: {} };
    // One piece of each fills the longer board: 210 of them, and no rest.
    expect(first.stock.cost).toBeGreaterThan(4200);
    const { stock } = oneLengthTried(layout, first, [], { splits: {}, order }, solver, {});
    expect([stock.cost, stock.boards.length]).toEqual([4200, 210]);
  });

  it('[ST11] a length that no piece fits has no figures', () => {
    const stock = [
      { length: 600, price: 2 },
      { length: 5000, price: 20 },
    ];
    const base = {
      kind: 'base',
      name: 'Base',
      height: 100,
      thickness: 12,
      form: 'flat',
      material: 'pine',
      stock,
      scarf: false,
    };
    const plan = housePlan(rectangle(4000, 3000), { profiles: { base }, trim: { base: 'base' } });
    const solved = solve(derive(plan), solver);
    const cuts = cutsOf(solved, solver);
    const [, short] = cuts.alternatives[0]!.rows;
    expect(short).toMatchObject({ onlyMm: 600, money: null, boards: 0, unplaced: 4 });
    expect(cutsToText(solved.plan, cuts)).toContain('  only 600 mm: no piece fits\n');
  });

  it('[ST11] a length at two prices is bought at the dearer one beyond the count of the cheaper, and held boards use no row up', () => {
    const base = (stock: object[]) => ({
      kind: 'base',
      name: 'Base',
      height: 100,
      thickness: 12,
      form: 'flat',
      material: 'pine',
      stock,
      scarf: false,
    });
    const only = (plan: Plan, mm: number) =>
      cutsOf(solve(derive(plan), solver), solver).alternatives[0]!.rows.find(({ onlyMm }) => onlyMm === mm)!;
    const room = (stock: object[], more: object = {}) =>
      ({
        ...housePlan(rectangle(3000, 2000), { profiles: { base: base(stock) }, trim: { base: 'base' } }),
        ...more,
      }) as Plan;
    const twice = [
      { length: 3200, price: 10, onHand: 1 },
      { length: 3200, price: 15 },
      { length: 4000, price: 30 },
    ];
    expect(only(room(twice), 3200)).toMatchObject({ money: 55, boards: 4, tooFew: null });
    const one = [
      { length: 3200, price: 10, onHand: 1 },
      { length: 4000, price: 30 },
    ];
    const held = { base: [{ length: 3200 * 320, onHand: false, pieces: ['1A'] }] };
    expect(only(room(one, { heldBoards: held }), 3200)).toMatchObject({ money: 40, boards: 4, unplaced: 0 });
  });

  it('[ST5] a price on one of two lengths changes nothing: the boards are by length, as without prices', () => {
    const count = cases(60);
    for (let seed = 1; seed <= count; seed++) {
      const next = random(seed + 12_000);
      const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
      const [wide, deep] = [int(50, 130) * 100, int(40, 80) * 100];
      const [short, long] = [int(26, 34) * 100, int(35, 44) * 100];
      const outline = rectangle(wide, deep);
      const bought = (priced: 'none' | 'short' | 'long') => {
        const stock = [
          { length: short, ...(priced === 'short' ? { price: 10 } : {}) },
          { length: long, ...(priced === 'long' ? { price: 10 } : {}) },
        ];
        const base = {
          kind: 'base',
          name: 'Base',
          height: 100,
          thickness: 12,
          form: 'flat',
          material: 'pine',
          stock,
        };
        return solve(derive(housePlan(outline, { profiles: { base }, trim: { base: 'base' } })), solver)
          .stock[0]!;
      };
      const plain = bought('none');
      for (const priced of ['short', 'long'] as const) {
        const own = bought(priced);
        expect([own.by, own.cost, own.bound, own.proved], `seed ${seed}, ${priced} priced`).toEqual([
          'length',
          plain.cost,
          plain.bound,
          plain.proved,
        ]);
      }
    }
  });
});
