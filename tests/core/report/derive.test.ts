// The report of the demo houses, from the plan file to the JSON: it keeps to its schema, says everything once, and lending
// from an earlier derivation changes nothing.

import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { apply } from '../../../core/edit/index.ts';
import type { Solver } from '../../../core/fit/types.ts';
import { readPlan } from '../../../core/plan/index.ts';
import type { Plan } from '../../../core/plan/schema.ts';
import { derive, ReportSchema, reportToJson, reportToText, solve } from '../../../core/report/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';

const FOLDER = new URL('../../../demo-data/', import.meta.url);

function planOf(name: string): Plan {
  const read = readPlan(readFileSync(new URL(name, FOLDER), 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  return read.plan;
}

const houses = readdirSync(FOLDER).filter((name) => name.endsWith('.copewright.json'));

/** Every number in a value. */
function numbers(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(numbers);
}

describe.each(houses)('the report of %s', (name) => {
  const plan = planOf(name);
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadHighs();
  });

  it('[RP1] keeps to its schema and holds no −0 and no more than 6 decimals', () => {
    const { report } = solve(derive(plan), solver);
    expect(ReportSchema.parse(JSON.parse(reportToJson(report)))).toEqual(report);
    const all = numbers(report);
    expect(all.length).toBeGreaterThan(500);
    expect(all.filter((each) => Object.is(each, -0))).toEqual([]);
    expect(all.filter((each) => Math.abs(each) < 1e9 && each !== Number(each.toFixed(6)))).toEqual([]);
  });

  it('[RP2] lists every board once, in the run of its room, with returns after their board', () => {
    const { report } = derive(plan);
    const ids = report.pieces.map((piece) => piece.id);
    expect(new Set(ids).size).toBe(ids.length);
    const inRuns = report.rooms.flatMap((room) => room.runs.flatMap((run) => run.pieces));
    expect([...inRuns].sort()).toEqual(
      report.pieces
        .filter((piece) => piece.returnOf === null)
        .map((piece) => piece.id)
        .sort(),
    );
    for (const [at, piece] of report.pieces.entries()) {
      if (piece.returnOf === null) continue;
      const before = report.pieces
        .slice(0, at)
        .filter((each) => each.returnOf === null)
        .at(-1);
      expect(before?.id).toBe(piece.returnOf);
    }
    for (const room of report.rooms) {
      for (const run of room.runs) {
        const orders = report.pieces
          .filter((piece) => run.pieces.includes(piece.id))
          .map((piece) => piece.order);
        expect(orders.sort((a, b) => a - b)).toEqual(orders.map((_, i) => i + 1));
      }
    }
  });

  it('[RP2] corners carry the numbers of the plan, each once, and segment i ends in corner i', () => {
    const { report } = derive(plan);
    const loops = report.rooms.flatMap((room) => room.loops);
    const given = loops.flatMap((loop) => loop.corners.map((corner) => corner.number));
    expect(new Set(given).size).toBe(given.length);
    expect(Math.max(...given)).toBeLessThanOrEqual(plan.counters.corner);
    for (const loop of loops) expect(loop.segments.length).toBe(loop.corners.length);
  });

  it('[RP3] an earlier derivation may lend what an edit did not touch: the same bytes as without it', () => {
    const before = derive(plan);
    const level = before.plan.levels.at(-1)!;
    const [node, at] = Object.entries(level.nodes).find(([, [x, y]]) => x > 0 && y > 0)!;
    const moved = apply(before.plan, {
      type: 'moveNode',
      level: level.id,
      node: node as keyof typeof level.nodes,
      to: [at[0] + 6400, at[1] + 3200],
    });
    if (!moved.ok) throw new Error(moved.message);
    const lent = derive(moved.plan, before);
    const whole = derive(moved.plan);
    expect(reportToJson(lent.report)).toBe(reportToJson(whole.report));
    expect(reportToJson(lent.report)).not.toBe(reportToJson(before.report));
    const untouched = before.levels.filter((each) => lent.levels.includes(each));
    expect(untouched.length).toBe(before.levels.length - 1);
  });

  it('the text names every room, board and finding', () => {
    const derived = derive(plan);
    const text = reportToText(derived.plan, derived.report);
    for (const room of derived.report.rooms) expect(text).toContain(room.name);
    for (const piece of derived.report.pieces) expect(text).toContain(`  ${piece.id} `);
    for (const finding of derived.report.findings) expect(text).toContain(finding.message);
    expect(text).not.toMatch(/undefined|NaN|null/);
  });
});

describe('a plan with nothing in it', () => {
  it('gives an empty report', () => {
    const read = readPlan('{"format":"copewright-plan","version":1,"title":"","units":"metric","levels":[]}');
    if (!read.ok) throw new Error(read.error.message);
    const { report } = derive(read.plan);
    expect([report.rooms, report.pieces, report.casings]).toEqual([[], [], []]);
  });
});
