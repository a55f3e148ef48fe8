// A plan's pieces as cutting orders, and what the report, the tables and the command line say of the boards: the same
// numbers everywhere. The small demo house stands for plans.

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import { readPlan } from '../../../core/plan/index.ts';
import type { Plan, Profile, ProfileId } from '../../../core/plan/schema.ts';
import { cutsOf, cutsToText, derive, type Report, ReportSchema, solve } from '../../../core/report/index.ts';
import type { Solved } from '../../../core/report/types.ts';
import { csvFiles } from '../../../core/sheets/index.ts';
import { kerfCharge, needOf, orderOf } from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';

const text = readFileSync(
  new URL('../../../demo-data/thimble-cottage.copewright.json', import.meta.url),
  'utf8',
);

function cottage(): Plan {
  const read = readPlan(text);
  if (!read.ok) throw new Error(read.error.message);
  return read.plan;
}

/** The cottage with every profile changed. */
function changed(change: (profile: Profile) => Partial<Profile>): Plan {
  const plan = cottage();
  const profiles = Object.fromEntries(
    Object.entries(plan.profiles).map(([id, profile]) => [id, { ...profile, ...change(profile) }]),
  ) as Plan['profiles'];
  return { ...plan, profiles };
}

let solver: Solver;
let solved: Solved;
beforeAll(async () => {
  solver = await loadHighs();
  solved = solve(derive(cottage()), solver);
});

describe('needs and kerfs', () => {
  it('[ST1] a need is the nearest tick, halves longer, whatever the last digits are', () => {
    expect([needOf(100), needOf(100.49), needOf(100.5), needOf(100.4999999999), needOf(0.2)]).toEqual([
      100, 100, 101, 101, 0,
    ]);
  });

  it('[ST2] a cut at 60° takes twice the kerf, at 45° its root of two rounded up, at 90° what 89° takes', () => {
    expect(kerfCharge(1016, 0)).toBe(1016);
    expect(kerfCharge(1016, 60)).toBe(2032);
    expect(kerfCharge(1016, 45)).toBe(Math.ceil(1016 * Math.SQRT2));
    expect(kerfCharge(1016, 90)).toBe(kerfCharge(1016, 89));
    expect(kerfCharge(0, 45)).toBe(0);
  });
});

describe('orders of a plan', () => {
  it('[ST3] hold every board, return piece and part of a casing of a profile with a stock list, once', () => {
    const orders = orderOf(solved.plan, solved.levels);
    const wanted = [
      ...solved.report.pieces.map((piece) => ({ id: piece.id, profile: piece.profile })),
      ...solved.report.casings.flatMap((casing) =>
        casing.parts.map(({ part }) => ({ id: `${casing.id}.${part}`, profile: casing.profile })),
      ),
    ].filter(({ profile }) => solved.plan.profiles[profile as ProfileId]!.stock.length > 0);
    const got = orders.flatMap((order) =>
      order.items.map((item) => ({ id: item.id, profile: order.profileId })),
    );
    const key = ({ id, profile }: { id: string; profile: string }) => `${profile} ${id}`;
    expect(got.map(key).sort()).toEqual(wanted.map(key).sort());
    expect(got.some(({ id }) => id.endsWith('.head'))).toBe(true);
    expect(got.some(({ id }) => id.includes('r-'))).toBe(true);
  });

  it('[ST3] a head is charged its two mitres and a leg its one, at 45°', () => {
    const items = orderOf(solved.plan, solved.levels).flatMap((order) => order.items);
    const door = items.find((item) => item.id === 'o1.right.head')!;
    expect(door.sawDeg).toEqual([45, 45]);
    expect(items.find((item) => item.id === 'o1.right.legLeft')!.sawDeg).toEqual([45, 0]);
    expect(door.kerf).toBe(kerfCharge(1016, 45));
  });

  it('an empty stock list is not reckoned and gives no finding', () => {
    const plan = changed(() => ({ stock: [] }));
    const bare = solve(derive(plan), solver);
    expect(bare.report.stock).toEqual([]);
    expect(bare.report.purchase).toEqual([]);
    expect(bare.report.findings.filter((each) => each.code === 'stock-none')).toEqual([]);
    expect(bare.report.totals.money).toBeUndefined();
    expect(cutsToText(bare.plan, cutsOf(bare, solver))).toContain('No profile in use has a stock list.');
  });
});

describe('pieces without a board', () => {
  const told = (of: Solved): string[] =>
    of.report.findings.filter((each) => each.code === 'stock-none').flatMap((each) => each.about);

  it('[ST6] longer than every board and not to be scarfed: listed as unplaced, and said once', () => {
    const plan = changed((profile) => ({ scarf: false, stock: profile.stock.slice(0, 1) }));
    const short = solve(derive(plan), solver);
    const unplaced = short.report.stock.flatMap((each) => each.unplaced);
    expect(unplaced.length).toBeGreaterThan(0);
    for (const id of unplaced) expect(told(short).filter((each) => each === id)).toHaveLength(1);
  });

  it('[ST6] no boards left: listed, and said by the boards, for nothing else does', () => {
    const plan = changed((profile) => ({ stock: profile.stock.map((each) => ({ ...each, onHand: 1 })) }));
    const few = solve(derive(plan), solver);
    const unplaced = few.report.stock.flatMap((each) => each.unplaced);
    expect(unplaced.length).toBeGreaterThan(10);
    for (const id of unplaced) expect(told(few).filter((each) => each === id)).toHaveLength(1);
    const cut = few.report.stock.flatMap((each) => each.boards.flatMap((board) => board.pieces));
    expect(new Set([...cut, ...unplaced]).size).toBe(cut.length + unplaced.length);
  });
});

describe('one set of numbers', () => {
  const rows = (table: string): string[][] =>
    table
      .replace('\uFEFF', '')
      .trim()
      .split('\r\n')
      .slice(1)
      .map((line) => line.split(','));

  it('the report keeps to its schema, and its boards sum to the micrometre', () => {
    expect(ReportSchema.parse(solved.report)).toEqual(solved.report);
    const boards = solved.report.stock.flatMap((each) => each.boards);
    expect(boards.length).toBeGreaterThan(10);
    for (const board of boards) {
      const sum = board.piecesMm + board.kerfMm + board.trimMm + board.offcutMm;
      expect(sum).toBeCloseTo(board.lengthMm, 6);
    }
  });

  it('the order list, its totals and the boards agree, in the report, the tables and the lines of `cuts`', () => {
    const { report } = solved;
    const count = (of: Report): number => of.purchase.reduce((sum, line) => sum + line.count, 0);
    const boards = report.stock.flatMap((each) => each.boards.filter((board) => !board.onHand));
    expect(count(report)).toBe(boards.length);
    const sum = report.purchase.reduce((total, line) => total + (line.sum ?? 0), 0);
    expect(report.totals.money).toBeCloseTo(sum, 6);
    expect(report.stock.reduce((total, each) => total + each.cost, 0)).toBeCloseTo(sum, 6);

    const tables = csvFiles(report);
    expect(rows(tables['order.csv']!).map((row) => Number(row[4]))).toEqual(
      report.purchase.map((line) => line.sum),
    );
    expect(rows(tables['cuts.csv']!).map((row) => row[5])).toEqual(
      report.stock.flatMap((each) => [...each.boards.flatMap((board) => board.pieces), ...each.unplaced]),
    );

    const cuts = cutsOf(solved, solver);
    expect(cuts.stock).toEqual(report.stock);
    const lines = cutsToText(solved.plan, cuts);
    expect(lines).toContain(`All boards: ${sum.toFixed(2)};`);
    for (const stock of report.stock) {
      expect(lines).toContain(
        `least possible ${stock.bound.toFixed(2)}, this ${stock.cost.toFixed(2)}, proved`,
      );
    }
    for (const { rows: ways } of cuts.alternatives) {
      for (const way of ways.filter((each) => each.unplaced === 0 && each.moreScarfs === 0)) {
        expect(way.money!).toBeGreaterThanOrEqual(ways[0]!.money!);
      }
    }
  });
});
