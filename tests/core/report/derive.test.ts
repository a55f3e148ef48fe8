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
import { cases, random } from '../../seeds.ts';

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

  it('the text names every room, board, finding, casing and scribe, and prints a spring as it is set', () => {
    const solved = solve(derive(plan), solver);
    const { report } = solved;
    const text = reportToText(solved);
    for (const room of report.rooms) expect(text).toContain(room.name);
    for (const piece of report.pieces) expect(text).toContain(`  ${piece.id} `);
    for (const finding of report.findings) expect(text).toContain(finding.message);
    const scribing = text.split('\n').filter((line) => /^ {2}(scribing|nothing to scribe): /.test(line));
    for (const scribe of report.scribes) {
      expect(
        scribing.some((line) => new RegExp(`[ ,]${scribe.piece}[ ,.]`).test(line)),
        scribe.piece,
      ).toBe(true);
    }
    const inRooms = report.casings.filter((casing) => casing.room !== null);
    expect(text.split('  casing at ').length - 1).toBe(inRooms.length);
    expect(text).toContain('+ 1\u204432" spring');
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

describe('a plan that changes beside its levels', () => {
  // Every kind of change that a level's boards or findings may hang on, one after the other and at random.
  const changes: Record<string, (plan: Plan, next: () => number) => Plan> = {
    settings: (plan, next) => ({
      ...plan,
      settings: { ...plan.settings, sliverUnder: Math.round(next() * 320 * 300), buildUpDeg: next() * 3 },
    }),
    profiles: (plan, next) => ({
      ...plan,
      profiles: Object.fromEntries(
        Object.entries(plan.profiles).map(([id, profile]) => [
          id,
          {
            ...profile,
            thickness: profile.thickness + 32 * Math.round(next() * 20),
            name: `${profile.name}'`,
          },
        ]),
      ) as Plan['profiles'],
    }),
    stockOnHand: (plan, next) => ({
      ...plan,
      stockOnHand: Object.fromEntries(
        Object.keys(plan.profiles).map((id) => [
          id,
          [{ length: Math.round((1000 + next() * 6000) * 320), count: Math.floor(next() * 3) }],
        ]),
      ) as Plan['stockOnHand'],
    }),
    studs: (plan, next) => ({ ...plan, studs: { spacing: Math.round((300 + next() * 300) * 320) } }),
    builtYear: (plan, next) => ({ ...plan, builtYear: 1900 + Math.floor(next() * 120) }),
    units: (plan) => ({ ...plan, units: plan.units === 'metric' ? 'imperial' : 'metric' }),
    title: (plan, next) => ({ ...plan, title: `Title ${Math.floor(next() * 1e6)}` }),
  };

  it('[RP3] gives the same bytes with an earlier derivation as without, whatever changed', () => {
    const seed = 4711;
    const next = random(seed);
    const done: Record<string, number> = {};
    const changed = new Set<string>();
    for (const name of houses) {
      let plan = planOf(name);
      let before = derive(plan);
      for (let round = 0; round < cases(60, 14); round++) {
        const kinds = Object.keys(changes);
        const kind = round < kinds.length ? kinds[round]! : kinds[Math.floor(next() * kinds.length)]!;
        plan = changes[kind]!(before.plan, next);
        const lent = derive(plan, before);
        const whole = derive(plan);
        expect(reportToJson(lent.report), `seed ${seed}, ${name}, round ${round}: ${kind}`).toBe(
          reportToJson(whole.report),
        );
        if (reportToJson(whole.report) !== reportToJson(before.report)) changed.add(kind);
        done[kind] = (done[kind] ?? 0) + 1;
        before = lent;
      }
    }
    console.log(`lent derivations: seed ${seed}`, done);
    // Studs change no report yet: stock alone reads them.
    for (const kind of Object.keys(changes)) if (kind !== 'studs') expect(changed, kind).toContain(kind);
  });
});
