// A plan to everything that needs no solver (`derive`), and that to everything (`solve`). Pure and deterministic: the same
// plan gives the same bytes in Node and in a browser. Core knows the solver as an interface only (RULES: RP3).

import { type MendNote, prepare } from '../edit/index.ts';
import {
  findingsOf,
  mendedFinding,
  planFindings,
  scribeFindings,
  scribeRuns,
  solveScribe,
  sortFindings,
} from '../fit/index.ts';
import type { Finding, Solver } from '../fit/types.ts';
import type { Level, Plan } from '../plan/schema.ts';
import { cutStock, orderOf, type StockBudget, stockPlanFindings } from '../stock/index.ts';
import { casingsOf, trimRoom } from '../trim/index.ts';
import type { Splits } from '../trim/types.ts';
import { walkLevel } from '../walk/index.ts';
import { buildReport } from './build.ts';
import type { Derived, DerivedLevel, Solved } from './types.ts';

const NO_SPLITS: Splits = {};

/** What no level's derivation reads: all else may be read, so that a new field of the plan is safe (RULES: RP3). */
const NOT_READ: ReadonlySet<string> = new Set<keyof Plan>(['title', 'levels', 'counters']);

/** Whether all that a level's derivation may read beside the level itself is the same. */
function sameSurroundings(a: Plan, b: Plan): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)] as (keyof Plan)[]);
  return [...keys].every((key) => NOT_READ.has(key) || a[key] === b[key]);
}

function deriveLevel(plan: Plan, level: Level, splits: Splits): DerivedLevel {
  const walk = walkLevel(plan, level);
  const trims = walk.rooms.map((room) => trimRoom(plan, room, splits));
  const casings = casingsOf(plan, walk);
  const bare = { walk, trims, casings };
  return { ...bare, findings: findingsOf(plan, bare) };
}

function mendedFindings(notes: readonly MendNote[]): Finding[] {
  return notes.map(mendedFinding);
}

/**
 * Derives a plan: mends and numbers it in memory, walks it, sets the boards, checks them.
 * `previous` may lend the levels an edit did not touch; the result equals a derivation without it.
 * Throws when the plan cannot be made planar: call `prepare` first to have that as a sentence.
 */
export function derive(plan: Plan, previous?: Derived, splits: Splits = NO_SPLITS): Derived {
  const prepared = prepare(plan);
  if (!prepared.ok) throw new Error(`derive: ${prepared.message}`);
  const ready = prepared.plan;
  const lent =
    previous && previous.splits === splits && sameSurroundings(previous.plan, ready) ? previous : undefined;
  const levels = ready.levels.map((level) => {
    const kept = lent?.levels.find((each) => each.walk.level === level);
    return kept ?? deriveLevel(ready, level, splits);
  });
  const findings = sortFindings(
    [...planFindings(ready), ...mendedFindings(prepared.notes), ...levels.flatMap((level) => level.findings)],
    ready,
  );
  return { plan: ready, levels, splits, findings, report: buildReport(ready, levels, findings, [], []) };
}

/**
 * Adds what the solver decides: the scribes of every run with floor readings, the boards of every profile that has a
 * stock list, and their findings. `budget` limits the work on boards and is told how it goes.
 */
export function solve(derived: Derived, solver: Solver, budget: StockBudget = {}): Solved {
  const { plan, levels } = derived;
  const byLevel = levels.map((level) => {
    const scribes = scribeRuns(plan, level.walk, level.trims).flatMap((run) => solveScribe(run, solver));
    return { scribes, findings: scribeFindings(plan, level, scribes) };
  });
  const scribes = byLevel.flatMap((level) => level.scribes);
  const stock = orderOf(plan, levels).map((order) => cutStock(order, solver, budget));
  const said = [...derived.findings, ...byLevel.flatMap((level) => level.findings)];
  const findings = sortFindings([...said, ...stockPlanFindings(plan, levels, stock, said)], plan);
  return {
    ...derived,
    findings,
    scribes,
    stock,
    report: buildReport(plan, levels, findings, scribes, stock),
  };
}
