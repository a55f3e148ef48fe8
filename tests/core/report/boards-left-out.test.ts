// What is said where boards are few: boards on hand of a moulding that cannot be bought, pieces that no board is left for,
// joints that would be too short, and scarfs where the boards that would reach are used up. One room, as a plan file.

import { beforeAll, describe, expect, it } from 'vitest';
import type { Finding, Solver } from '../../../core/fit/types.ts';
import { readPlan } from '../../../core/plan/index.ts';
import { derive, type Solved, solve } from '../../../core/report/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';

const FOOT_MM = 304.8;

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

interface Stock {
  readonly feet: number;
  readonly price?: number;
  readonly onHand?: number;
}

/** One room of such inner size, with a flat base of this stock. */
function solved(
  [width, depth]: readonly [number, number],
  stock: readonly Stock[],
  more: object = {},
  profile: object = {},
): Solved {
  const wall = (from: string, to: string) => ({ from, to, thickness: 100 });
  const base = {
    kind: 'base',
    name: 'Tall base',
    height: 140,
    thickness: 12.7,
    form: 'flat',
    material: 'pine',
  };
  const read = readPlan(
    JSON.stringify({
      format: 'copewright-plan',
      version: 1,
      title: 'One room',
      units: 'imperial',
      profiles: {
        'base-tall': {
          ...base,
          stock: stock.map(({ feet, ...each }) => ({ ...each, length: feet * FOOT_MM })),
          ...profile,
        },
      },
      levels: [
        {
          id: 'L1',
          name: 'Ground floor',
          ceilingHeight: 2400,
          nodes: { n1: [0, 0], n2: [width + 100, 0], n3: [width + 100, depth + 100], n4: [0, depth + 100] },
          walls: { w1: wall('n1', 'n2'), w2: wall('n2', 'n3'), w3: wall('n3', 'n4'), w4: wall('n4', 'n1') },
          rooms: { r1: { name: 'Room', at: [width / 2, depth / 2], trim: { base: 'base-tall' } } },
        },
      ],
      ...more,
    }),
  );
  if (!read.ok) throw new Error(read.error.message);
  return solve(derive(read.plan), solver);
}

const said = ({ findings }: Solved, code: Finding['code']): readonly Finding[] =>
  findings.filter((each) => each.code === code);
const onHand = (feet: number, count: number) => ({
  stockOnHand: { 'base-tall': [{ length: feet * FOOT_MM, count }] },
});

describe('boards on hand of a moulding without stock lengths', () => {
  it('[ST6] are used, and what they do not hold is told once, with a remedy', () => {
    const own = solved([1100, 1000], [], onHand(8, 1));
    const [stock] = own.report.stock;
    expect(stock!.boards).toHaveLength(1);
    expect(stock!.boards[0]).toMatchObject({ onHand: true, lengthMm: 8 * FOOT_MM });
    expect(stock!.boards[0]!.pieces.length).toBeGreaterThan(1);
    expect(stock!.boards[0]!.pieces.length + stock!.unplaced.length).toBe(own.report.pieces.length);
    expect(own.report.purchase).toEqual([]);
    const found = said(own, 'stock-none');
    expect(found).toHaveLength(1);
    expect(found[0]!.message).toBe(
      `The boards on hand of "Tall base" do not hold ${stock!.unplaced.join(' and ')}, and no length of it is listed to be bought.`,
    );
    expect(found[0]!.about).toEqual([...stock!.unplaced, 'base-tall']);
    expect(found[0]!.remedies[0]).toBe('List the stock lengths that can be bought.');
  });

  it('[ST6] that hold all leave nothing to say', () => {
    const own = solved([1100, 1000], [], onHand(8, 2));
    expect(said(own, 'stock-none')).toEqual([]);
    expect(own.report.stock[0]).toMatchObject({ unplaced: [], cost: 0, proved: true });
  });

  it('[ST6, LN30] too short for every wall are told too; no wall is joined for them', () => {
    const own = solved([1100, 1000], [], onHand(2, 3));
    expect(own.report.pieces).toHaveLength(4);
    expect(said(own, 'stock-none').map(({ message }) => message)).toEqual([
      'The boards on hand of "Tall base" do not hold 1A, 2A, 3A and 4A, and no length of it is listed to be bought.',
    ]);
  });

  it('[ST6] none on hand and none listed is not reckoned, and nothing is said', () => {
    const own = solved([1100, 1000], [], onHand(8, 0));
    expect([own.report.stock, said(own, 'stock-none')]).toEqual([[], []]);
  });
});

describe('pieces that no board is left for', () => {
  it('[ST6] are told with the name of the moulding', () => {
    const own = solved([4600, 4400], [{ feet: 8 }, { feet: 16, onHand: 1 }], {}, { scarf: false });
    const found = said(own, 'stock-none');
    expect(found).toHaveLength(3);
    for (const { message } of found)
      expect(message).toMatch(/^No board of "Tall base" is left for \dA, which takes /);
  });

  it('[ST6, ST12] say that no joined part is so short, where that is why they are not joined', () => {
    const stock = [{ feet: 4 }, { feet: 8, onHand: 1 }];
    const found = said(solved([1500, 1400], stock), 'stock-none');
    expect(found.length).toBeGreaterThan(1);
    for (const { message, remedies } of found) {
      expect(message).toMatch(/it would have a part under 3' 0", the shortest part that is joined\.$/);
      expect(remedies).toContain('Set the shortest scarfed piece lower, in the settings.');
    }
    // Set lower, they are joined and all find a board.
    const lower = solved([1500, 1400], stock, { settings: { minScarfPiece: 500 } });
    expect(said(lower, 'stock-none')).toEqual([]);
    expect(lower.report.stock[0]!.unplaced).toEqual([]);
  });
});

describe('scarfs where long boards run out', () => {
  it('[FD8] do not say that a board would reach without saying that there are few', () => {
    const own = solved([4600, 4400], [{ feet: 8 }, { feet: 16, onHand: 1 }]);
    expect(own.report.stock[0]!.unplaced).toEqual([]);
    const found = said(own, 'joint-in-sight');
    expect(found.length).toBeGreaterThan(1);
    for (const { message, remedies } of found) {
      expect(message).toMatch(/one 16' 0" board would reach, but there is only 1 that long\.$/);
      expect(remedies).toEqual(['Get one such board more.']);
    }
  });
});
