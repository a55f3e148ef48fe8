// The solver service on programmes whose answers are known by hand.

import { beforeAll, describe, expect, it } from 'vitest';
import type { LinearProgram, Solver } from '../../../core/fit/types.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { random } from '../../seeds.ts';

const INF = Number.POSITIVE_INFINITY;
let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

const optimal = (program: LinearProgram) => {
  const answer = solver.solve(program);
  if (answer.status !== 'optimal') throw new Error(`ended ${answer.status}`);
  return answer;
};

describe('the solver service', () => {
  it('finds the corner of a small linear programme', () => {
    // Maximise 3x + 5y with x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18: 36 at (2, 6). Worked by hand.
    const answer = optimal({
      columns: [
        { cost: -3, lower: 0, upper: 4 },
        { cost: -5, lower: 0, upper: INF },
      ],
      rows: [
        { lower: -INF, upper: 12, terms: [[1, 2]] },
        {
          lower: -INF,
          upper: 18,
          terms: [
            [0, 3],
            [1, 2],
          ],
        },
      ],
    });
    expect(answer.objective).toBeCloseTo(-36, 9);
    expect(answer.bound).toBeCloseTo(-36, 9);
    expect(answer.x[0]).toBeCloseTo(2, 9);
    expect(answer.x[1]).toBeCloseTo(6, 9);
  });

  it('finds whole numbers where they are asked for, and they are whole', () => {
    // Knapsack 10: values 60 100 120, weights 2 4 6 → 100 + 120 = 220.
    const answer = optimal({
      columns: [60, 100, 120].map((value) => ({ cost: -value, lower: 0, upper: 1, integer: true })),
      rows: [
        {
          lower: -INF,
          upper: 10,
          terms: [
            [0, 2],
            [1, 4],
            [2, 6],
          ],
        },
      ],
    });
    expect(answer.objective).toBeCloseTo(-220, 9);
    expect(answer.x).toEqual([0, 1, 1]);
    expect(answer.bound).toBeCloseTo(-220, 6);
  });

  it('takes free columns below zero and ranges on rows', () => {
    const answer = optimal({
      columns: [
        { cost: 1, lower: -INF, upper: INF },
        { cost: 1, lower: -INF, upper: INF },
      ],
      rows: [
        {
          lower: -7.25,
          upper: 3,
          terms: [
            [0, 1],
            [1, 1],
          ],
        },
        { lower: 2, upper: 2, terms: [[0, 1]] },
      ],
    });
    expect(answer.objective).toBeCloseTo(-7.25, 9);
    expect(answer.x[1]).toBeCloseTo(-9.25, 9);
  });

  it('says infeasible: of rows, of crossed bounds, of whole numbers', () => {
    const column = { cost: 1, lower: 0, upper: 1 };
    expect(
      solver.solve({ columns: [column], rows: [{ lower: 2, upper: INF, terms: [[0, 1]] }] }).status,
    ).toBe('infeasible');
    expect(solver.solve({ columns: [{ cost: 0, lower: 2, upper: 1 }], rows: [] }).status).toBe('infeasible');
    expect(
      solver.solve({
        columns: [{ cost: 0, lower: 0, upper: 10, integer: true }],
        rows: [{ lower: 1, upper: 1, terms: [[0, 2]] }],
      }).status,
    ).toBe('infeasible');
  });

  it('says unbounded, and does not take it for infeasible', () => {
    const free = { cost: -1, lower: 0, upper: INF };
    expect(solver.solve({ columns: [free], rows: [] }).status).toBe('unbounded');
    const two: LinearProgram = {
      columns: [free, { cost: 1, lower: 0, upper: INF }],
      rows: [
        {
          lower: -INF,
          upper: 1,
          terms: [
            [0, 1],
            [1, -1],
          ],
        },
      ],
    };
    // x − y ≤ 1 with −x + y: bounded at −1. Without the cost of y it runs away.
    expect(solver.solve(two).status).toBe('optimal');
    const away = { ...two, columns: [free, { cost: 0, lower: 0, upper: INF }] };
    expect(solver.solve(away).status).toBe('unbounded');
    expect(
      solver.solve({ ...away, columns: away.columns.map((column) => ({ ...column, integer: true })) }).status,
    ).toBe('unbounded');
  });

  it('takes programmes without rows, without columns, and rows without terms', () => {
    expect(optimal({ columns: [], rows: [] }).x).toEqual([]);
    expect(solver.solve({ columns: [], rows: [{ lower: 1, upper: 2, terms: [] }] }).status).toBe(
      'infeasible',
    );
    expect(optimal({ columns: [{ cost: 2, lower: 3, upper: 9 }], rows: [] }).objective).toBe(6);
    expect(
      optimal({ columns: [{ cost: 2, lower: 3, upper: 9 }], rows: [{ lower: 0, upper: 0, terms: [] }] }).x,
    ).toEqual([3]);
  });

  it('adds up a column named twice in a row', () => {
    const answer = optimal({
      columns: [{ cost: 1, lower: 0, upper: INF }],
      rows: [
        {
          lower: 9,
          upper: INF,
          terms: [
            [0, 1],
            [0, 2],
          ],
        },
      ],
    });
    expect(answer.x[0]).toBeCloseTo(3, 12);
  });

  it('keeps all digits of a factor: numbers go over as doubles', () => {
    const third = 1 / 3;
    const answer = optimal({
      columns: [{ cost: 1, lower: 0, upper: INF }],
      rows: [{ lower: 1, upper: INF, terms: [[0, third]] }],
    });
    expect(answer.x[0]).toBe(1 / third);
  });

  it('stops at a work limit and says what it holds', () => {
    // Market split: whole numbers that must meet several sums exactly; hard for branch and bound by construction.
    const next = random(77);
    const count = 30;
    const rows = [0, 1, 2, 3].map(() => {
      const factors = Array.from({ length: count }, () => Math.floor(next() * 100));
      const half = Math.floor(factors.reduce((sum, factor) => sum + factor, 0) / 2);
      return { lower: half, upper: half, factors };
    });
    const columns = Array.from({ length: count }, () => ({ cost: 0, lower: 0, upper: 1, integer: true }));
    const slacks = rows.flatMap(() => [1, 1].map((cost) => ({ cost, lower: 0, upper: INF })));
    const program: LinearProgram = {
      columns: [...columns, ...slacks],
      rows: rows.map(({ lower, upper, factors }, r) => ({
        lower,
        upper,
        terms: [
          ...factors.map((factor, c) => [c, factor] as const),
          [count + 2 * r, 1] as const,
          [count + 2 * r + 1, -1] as const,
        ],
      })),
    };
    const answer = solver.solve(program, 20);
    expect(answer.status).toBe('limit');
    if (answer.status !== 'limit') return;
    expect(answer.x).toHaveLength(count + 8);
    expect(answer.bound).not.toBeNull();
    expect(answer.bound!).toBeLessThan(answer.objective!);
    expect(solver.solve(program, 20)).toEqual(answer);
  });

  it('looks only below a cost where one is given: nothing at it, the least just under a higher one', () => {
    // x + y over 2.5 in whole numbers: 3 at least, with a seeded crowd of dearer columns around.
    const next = random(9);
    const columns = [1, 1, ...Array.from({ length: 30 }, () => 2 + Math.floor(5 * next()))].map((cost) => ({
      cost,
      lower: 0,
      upper: 4,
      integer: true,
    }));
    const program: LinearProgram = {
      columns,
      rows: [
        { lower: 2.5, upper: INF, terms: columns.map((_, c) => [c, 1] as const) },
        { lower: 0, upper: 2, terms: [[0, 1] as const] },
      ],
    };
    expect(solver.solve(program, 1000)).toMatchObject({ status: 'optimal', objective: 3 });
    expect(solver.solve(program, 1000, 3.5)).toMatchObject({ status: 'optimal', objective: 3 });
    expect(solver.solve(program, 1000, 2.5)).toEqual({ status: 'infeasible' });
  });

  it('gives the same answer to the same programme, and a second service the same again', async () => {
    const next = random(5);
    const program: LinearProgram = {
      columns: Array.from({ length: 12 }, () => ({ cost: next(), lower: 0, upper: 10, integer: true })),
      rows: Array.from({ length: 8 }, () => ({
        lower: 5,
        upper: INF,
        terms: Array.from({ length: 12 }, (_, c) => [c, next()] as const),
      })),
    };
    const first = solver.solve(program);
    const other = await loadHighs();
    expect(solver.solve(program)).toEqual(first);
    expect(other.solve(program)).toEqual(first);
  });

  it('refuses what is no programme: NaN, a column that is not there, a factor that would be dropped', () => {
    const column = { cost: 1, lower: 0, upper: 1 };
    const row = (terms: [number, number][], lower = 0) => ({
      columns: [column],
      rows: [{ lower, upper: 1, terms }],
    });
    expect(() => solver.solve(row([[1, 1]]))).toThrow('names column 1');
    expect(() => solver.solve(row([[0, Number.NaN]]))).toThrow('factor NaN');
    expect(() => solver.solve(row([[0, 1e-13]]))).toThrow('factor 1e-13');
    expect(() => solver.solve(row([[0, 1]], Number.NaN))).toThrow('bound NaN');
    expect(() => solver.solve({ columns: [{ ...column, cost: INF }], rows: [] })).toThrow('costs Infinity');
  });

  it('solves a thousand times without using up memory', () => {
    for (let i = 1; i <= 1000; i += 1) {
      expect(optimal({ columns: [{ cost: 1, lower: i, upper: INF }], rows: [] }).objective).toBe(i);
    }
  });
});
