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
import { casingsOf, trimRoom } from '../trim/index.ts';
import type { Splits } from '../trim/types.ts';
import { walkLevel } from '../walk/index.ts';
import { buildReport } from './build.ts';
import type { Derived, DerivedLevel, Solved } from './types.ts';

const NO_SPLITS: Splits = {};

/** What a level's derivation depends on beside the level itself. */
function sameSurroundings(a: Plan, b: Plan): boolean {
  return (
    a.profiles === b.profiles &&
    a.settings === b.settings &&
    a.units === b.units &&
    a.studs === b.studs &&
    a.builtYear === b.builtYear
  );
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
  return { plan: ready, levels, splits, findings, report: buildReport(ready, levels, findings, []) };
}

/** Adds what the solver decides: the scribes of every run with floor readings, and their findings. */
export function solve(derived: Derived, solver: Solver): Solved {
  const { plan, levels } = derived;
  const byLevel = levels.map((level) => {
    const scribes = scribeRuns(plan, level.walk, level.trims).flatMap((run) => solveScribe(run, solver));
    return { scribes, findings: scribeFindings(plan, level, scribes) };
  });
  const scribes = byLevel.flatMap((level) => level.scribes);
  const findings = sortFindings([...derived.findings, ...byLevel.flatMap((level) => level.findings)], plan);
  return { ...derived, findings, scribes, report: buildReport(plan, levels, findings, scribes) };
}
