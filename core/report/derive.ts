// A plan to everything that needs no solver (`derive`), and that to everything (`solve`). Pure and deterministic: the same
// plan gives the same bytes in Node and in a browser. Core knows the solver as an interface only (RULES: RP3).

import { type MendNote, prepare } from '../edit/index.ts';
import {
  levelFindings,
  mendedFinding,
  planFindings,
  scribeFindings,
  scribeRuns,
  solveScribe,
  sortFindings,
} from '../fit/index.ts';
import type { Finding, Solver } from '../fit/types.ts';
import type { Level, Plan } from '../plan/schema.ts';
import { planBoards, type StockBudget, stockPlanFindings } from '../stock/index.ts';
import { casingsOf, trimRoom } from '../trim/index.ts';
import type { Splits } from '../trim/types.ts';
import { walkLevel } from '../walk/index.ts';
import { buildReport, levelReport } from './build.ts';
import type { Derived, DerivedLevel, Solved } from './types.ts';

const NO_SPLITS: Splits = {};

/** What no level's derivation reads: all else may be read, so that a new field of the plan is safe (RULES: RP3). */
const NOT_READ: ReadonlySet<string> = new Set<keyof Plan>(['title', 'levels', 'counters']);

/** Whether all that a level's derivation may read beside the level itself is the same. */
function sameSurroundings(a: Plan, b: Plan): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)] as (keyof Plan)[]);
  return [...keys].every((key) => NOT_READ.has(key) || a[key] === b[key]);
}

/** One level. `since`: the same level as derived before, with the same surroundings; rooms not touched are lent. */
function deriveLevel(plan: Plan, level: Level, splits: Splits, since?: DerivedLevel): DerivedLevel {
  const walk = walkLevel(plan, level, since?.walk);
  const known = new Map(since?.walk.rooms.map((room, i) => [room, since.trims[i]!]));
  const trims = walk.rooms.map((room) => known.get(room) ?? trimRoom(plan, room, splits));
  const casings = casingsOf(plan, walk, since);
  const bare = { walk, trims, casings };
  return { ...bare, ...levelFindings(plan, bare, since), report: levelReport(bare, since) };
}

function mendedFindings(notes: readonly MendNote[]): Finding[] {
  return notes.map(mendedFinding);
}

/**
 * Derives a plan: mends and numbers it in memory, walks it, sets the boards, checks them.
 * `previous` may lend the rooms an edit did not touch; the result equals a derivation without it (RULES: RP3).
 * Throws when the plan cannot be made planar: call `prepare` first to have that as a sentence.
 */
export function derive(plan: Plan, previous?: Derived, splits: Splits = NO_SPLITS): Derived {
  const prepared = prepare(plan, previous?.plan);
  if (!prepared.ok) throw new Error(`derive: ${prepared.message}`);
  const ready = prepared.plan;
  const lent =
    previous && previous.splits === splits && sameSurroundings(previous.plan, ready) ? previous : undefined;
  const levels = ready.levels.map((level) => {
    const since = lent?.levels.find((each) => each.walk.levelId === level.id);
    return since?.walk.level === level ? since : deriveLevel(ready, level, splits, since);
  });
  const findings = sortFindings(
    [...planFindings(ready), ...mendedFindings(prepared.notes), ...levels.flatMap((level) => level.findings)],
    ready,
  );
  const report = buildReport(ready, levels, findings, [], [], previous);
  return { plan: ready, levels, splits, findings, report };
}

/**
 * A derived plan with its stretches joined as `splits` says, as `solve` chooses them. Levels that `splits` does not name stay
 * as they are. Its `report` is not made anew: that is the solved one's.
 */
export function rejoined(derived: Derived, splits: Splits): Derived {
  if (splits === derived.splits) return derived;
  const { plan } = derived;
  const named = Object.keys(splits).filter((key) => splits[key] !== derived.splits[key]);
  const ofLevels = new Set(derived.levels.flatMap((level) => level.findings));
  const levels = derived.levels.map((level) =>
    named.some((key) => key.startsWith(`${level.walk.levelId}|`))
      ? deriveLevel(plan, level.walk.level, splits)
      : level,
  );
  const findings = sortFindings(
    [...derived.findings.filter((each) => !ofLevels.has(each)), ...levels.flatMap((level) => level.findings)],
    plan,
  );
  return { ...derived, levels, splits, findings };
}

/**
 * Adds what the solver decides: where long stretches are joined, the boards of every profile that has a stock list, the
 * scribes of every run with floor readings, and their findings. Levels and `splits` of the result are as the boards want
 * them; splits that `derived` has already stand. `budget` limits the work on boards and is told how it goes.
 */
export function solve(derived: Derived, solver: Solver, budget: StockBudget = {}): Solved {
  const { splits, stock } = planBoards(derived.plan, derived.levels, derived.splits, solver, budget);
  const ready = rejoined(derived, splits);
  const { plan, levels } = ready;
  const byLevel = levels.map((level) => {
    const scribes = scribeRuns(plan, level.walk, level.trims).flatMap((run) => solveScribe(run, solver));
    return { scribes, findings: scribeFindings(plan, level, scribes) };
  });
  const scribes = byLevel.flatMap((level) => level.scribes);
  const said = [...ready.findings, ...byLevel.flatMap((level) => level.findings)];
  const findings = sortFindings([...said, ...stockPlanFindings(plan, levels, stock, said)], plan);
  return {
    ...ready,
    findings,
    scribes,
    stock,
    report: buildReport(plan, levels, findings, scribes, stock, derived),
  };
}
