// Long stretches joined where the boards gain most. Hand-worked cases first (millimetres, flat stock of 10 mm that butts,
// no kerf, no trim, square scarfs, so that lengths add up plainly), then what must hold of every house.

import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import type { Plan, ProfileId } from '../../../core/plan/schema.ts';
import { derive, type Solved, solve } from '../../../core/report/index.ts';
import { cutStock, orderOf } from '../../../core/stock/index.ts';
import { type Splits, splitKey } from '../../../core/trim/index.ts';
import { mmFromTicks } from '../../../core/units/ticks.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { cases, random } from '../../seeds.ts';
import { type Fields, housePlan, rectangle } from '../trim/houses.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

const SQUARE = { kerf: 0, endTrim: 0, scarfDeg: 0, springBy: 0 };

/** A room `wide` by `deep` between faces, of flat base cut from `stock`. */
function roomPlan(
  wide: number,
  deep: number,
  stock: readonly Fields[],
  more: Fields = {},
  faces: Fields = {},
): Plan {
  const base = {
    kind: 'base',
    name: 'Flat base',
    height: 100,
    thickness: 10,
    form: 'flat',
    material: 'pine',
    stock,
  };
  const outline = rectangle(wide, deep);
  const plan = housePlan(outline, {
    profiles: { base },
    trim: { base: 'base' },
    settings: { ...SQUARE, ...more },
    faces: faces as Record<number, Fields>,
  });
  return plan;
}

/** What the same plan costs joined in equal parts. */
function inEqualParts(plan: Plan) {
  const derived = derive(plan);
  return orderOf(derived.plan, derived.levels).map((order) => cutStock(order, solver));
}

/** The joints of every stretch that has some: from its left end, mm. */
function jointsMm(solved: Solved): Record<string, number[]> {
  const found: Record<string, number[]> = {};
  for (const trim of solved.levels.flatMap((level) => level.trims)) {
    for (const piece of trim.lines.flatMap((line) => line.runs.flatMap((run) => run.pieces))) {
      if (piece.parts < 2) continue;
      const key = splitKey(trim.room.level, piece.segment.key, piece.line, piece.stretch.key);
      const own = found[key] ?? [];
      if (piece.part < piece.parts - 1) own.push((own.at(-1) ?? 0) + mmFromTicks(piece.L));
      found[key] = own;
    }
  }
  return found;
}

/** Every joint keeps the rules [ST12], whoever put it there. */
function mustKeepRules(solved: Solved, what: string, leastMm = 914.4, clearMm = 609.6): void {
  const chosen = new Set(Object.keys(solved.splits));
  for (const trim of solved.levels.flatMap((level) => level.trims)) {
    for (const piece of trim.lines.flatMap((line) => line.runs.flatMap((run) => run.pieces))) {
      const key = splitKey(trim.room.level, piece.segment.key, piece.line, piece.stretch.key);
      if (!chosen.has(key)) continue;
      expect(mmFromTicks(Math.min(piece.back, piece.face)), `${what}: ${piece.id}`).toBeGreaterThanOrEqual(
        leastMm - 1e-6,
      );
    }
  }
  for (const [key, joints] of Object.entries(jointsMm(solved))) {
    if (!chosen.has(key)) continue;
    const stretch = solved.levels
      .flatMap((level) => level.trims)
      .flatMap((trim) => trim.lines.flatMap((line) => line.stretches.map((each) => ({ trim, line, each }))))
      .find(
        ({ trim, line, each }) => splitKey(trim.room.level, each.segment.key, line.line, each.key) === key,
      )!.each;
    const length = mmFromTicks(stretch.L);
    const studs = stretch.segment.record?.studs?.map(mmFromTicks);
    const spacing = solved.plan.studs ? mmFromTicks(solved.plan.studs.spacing) : null;
    for (const at of joints) {
      expect(Math.min(at, length - at), `${what}: ${key} at ${at}`).toBeGreaterThanOrEqual(clearMm - 1e-6);
      const along = at + mmFromTicks(stretch.from + stretch.inset);
      const near = studs
        ? Math.min(...studs.map((stud) => Math.abs(stud - along)))
        : spacing === null
          ? 0
          : Math.abs(along - Math.round(along / spacing) * spacing);
      // Half a tick of rounding.
      expect(near, `${what}: ${key} at ${at}, off its stud`).toBeLessThanOrEqual(0.002);
    }
  }
}

describe('hand-worked', () => {
  it('[ST12] two walls of 5 m and two of 1 m from boards of 4 m: equal parts take four, joints at 3 m and 2 m take three', () => {
    // Equal: 2500 and 1000 twice, 2500 alone twice. Elsewhere: 3000 + 1000 twice, 2000 + 2000. The pieces are 12 m less
    // four butts of 10 mm, so two boards are never enough.
    const plan = roomPlan(5000, 1000, [{ length: 4000, price: 10 }]);
    expect(inEqualParts(plan)[0]).toMatchObject({ cost: 4000, boards: { length: 4 } });
    const solved = solve(derive(plan), solver);
    expect(solved.stock[0]).toMatchObject({ cost: 3000, bound: 3000, proved: true, boards: { length: 3 } });
    expect(Object.keys(solved.splits)).toHaveLength(2);
    mustKeepRules(solved, 'hand-worked');
  });

  it('[ST12] where joints must lie on studs 600 apart the same is had at 3 m; at studs 700 apart it is not', () => {
    // 700 apart: 1400, 2100, 2800, 3500 may be joints. 12 m less 40 mm in three boards of 4 m leaves 40 mm over: every
    // board would have to hold 3960 or more, and no two or three of 1000, 1400, 1500, 2100, 2200, 2800, 2900, 3500,
    // 3600 come to that but 1000 + 2900 (3900: too little), 1400 + 1500 + 1000 (3900: too little), so four.
    const stock = [{ length: 4000, price: 10 }];
    const at600 = solve(derive({ ...roomPlan(5000, 1000, stock), studs: { spacing: 600 * 320 } }), solver);
    expect(at600.stock[0]).toMatchObject({ cost: 3000, proved: true });
    mustKeepRules(at600, 'studs 600');
    const at700 = solve(derive({ ...roomPlan(5000, 1000, stock), studs: { spacing: 700 * 320 } }), solver);
    expect(at700.stock[0]).toMatchObject({ cost: 4000, proved: true });
    mustKeepRules(at700, 'studs 700');
    expect(Object.keys(at700.splits)).toHaveLength(2);
  });

  it('[ST12] studs of a face count from its left corner and come before the spacing', () => {
    const faces = { 1: { studs: [2950, 3050] }, 3: { studs: [1950, 2050] } };
    const plan = {
      ...roomPlan(5000, 1000, [{ length: 4100, price: 10 }], {}, faces),
      studs: { spacing: 700 * 320 },
    };
    const solved = solve(derive(plan), solver);
    mustKeepRules(solved, 'own studs');
    // 2950 + 1000 and 3050 + 1000 (or 3050 + 1000 twice), then the two shorter parts.
    expect(solved.stock[0]).toMatchObject({ cost: 3000, proved: true });
  });

  it('[ST12] equal parts stay where nothing is gained, and no split is made', () => {
    const plan = roomPlan(5000, 1000, [
      { length: 5000, price: 10 },
      { length: 2600, price: 1 },
    ]);
    const derived = derive(plan);
    const solved = solve(derived, solver);
    expect(solved.splits).toBe(derived.splits);
    const short = roomPlan(5000, 1000, [{ length: 2500, price: 10 }]);
    const only = solve(derive(short), solver);
    // 2500 and 2500 is the only way.
    expect(only.splits).toEqual({});
  });

  it('[ST12] where no joint is allowed equal parts stand, short as they are', () => {
    const plan = roomPlan(1500, 1000, [{ length: 1200, price: 10 }]);
    const solved = solve(derive(plan), solver);
    expect(solved.splits).toEqual({});
    expect(solved.report.pieces.filter((piece) => piece.segment === 'w1:right')).toHaveLength(2);
  });

  it('[ST12] splits that are given stay as they are', () => {
    const plan = roomPlan(5000, 1000, [{ length: 4000, price: 10 }]);
    const given: Splits = { 'L1|w1:right|base|corner..corner': [2500 * 320] };
    const solved = solve(derive(plan, undefined, given), solver);
    expect(jointsMm(solved)['L1|w1:right|base|corner..corner']).toEqual([2500]);
  });
});

/** Rooms, stocks and studs of all sorts; metric and imperial, with kerfs, trims and real scarfs. */
function anyPlan(seed: number): Plan {
  const next = random(seed);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const feet = [8, 10, 12, 14, 16].filter(() => next() < 0.4);
  const stock = (feet.length > 0 ? feet : [8]).map((each) => ({
    length: each * 304.8,
    price: next() < 0.8 ? Math.round(each * (150 + 60 * next())) / 100 : null,
    onHand: next() < 0.1 ? int(0, 3) : null,
  }));
  const faces =
    next() < 0.3 ? { 1: { studs: Array.from({ length: 30 }, (_, i) => 90 + i * int(380, 420)) } } : {};
  const plan = roomPlan(
    int(1500, 11000),
    int(1200, 6000),
    stock,
    next() < 0.3 ? {} : { kerf: 3.175, endTrim: 12.7, scarfDeg: 30, springBy: 0.79375 },
    faces,
  );
  return {
    ...plan,
    units: next() < 0.5 ? 'imperial' : 'metric',
    ...(next() < 0.3 ? { studs: { spacing: 406.4 * 320 } } : {}),
    ...(next() < 0.2
      ? { stockOnHand: { ['base' as ProfileId]: [{ length: int(900, 2400) * 320, count: 2 }] } }
      : {}),
  } as Plan;
}

describe('every house', () => {
  it('[ST12] joints keep the rules, cost no more than equal parts where those keep them, and are derived again alike', () => {
    const count = cases(200);
    const covered = { joined: 0, cheaper: 0, proved: 0, studs: 0, three: 0 };
    for (let seed = 1; seed <= count; seed++) {
      const plan = anyPlan(seed);
      const equal = inEqualParts(plan);
      const solved = solve(derive(plan), solver);
      mustKeepRules(solved, `seed ${seed}`);
      const again = derive(plan, undefined, solved.splits);
      expect(again.report.pieces, `seed ${seed}`).toEqual(solved.report.pieces);
      expect(
        orderOf(again.plan, again.levels).map((order) => order.items),
        `seed ${seed}`,
      ).toEqual(solved.stock.map((each) => each.order.items));
      const onStuds = plan.studs !== undefined || Object.keys(plan.levels[0]!.faces).length > 0;
      solved.stock.forEach((each, i) => {
        expect(each.bound, `seed ${seed}`).toBeLessThanOrEqual(each.cost);
        if (each.proved) covered.proved += 1;
        if (onStuds) return;
        const than = equal[i]!;
        expect(each.unplaced.length, `seed ${seed}`).toBeLessThanOrEqual(than.unplaced.length);
        if (each.unplaced.length < than.unplaced.length) return;
        expect(each.cost, `seed ${seed}`).toBeLessThanOrEqual(than.cost);
        if (each.cost < than.cost) covered.cheaper += 1;
      });
      const joints = Object.values(jointsMm(solved));
      if (joints.length > 0) covered.joined += 1;
      if (onStuds && joints.length > 0) covered.studs += 1;
      if (joints.some((each) => each.length > 1)) covered.three += 1;
    }
    console.info(`seeds 1 to ${count}: ${JSON.stringify(covered)}`);
    expect(covered.joined).toBeGreaterThan(count / 3);
    expect(covered.cheaper).toBeGreaterThan(0);
    expect(covered.studs).toBeGreaterThan(0);
  });
});
