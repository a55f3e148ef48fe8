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
import {
  heldFindings,
  type PlannedBoards,
  planBoards,
  type StockBudget,
  stockPlanFindings,
} from '../stock/index.ts';
import { casingsOf, trimRoom } from '../trim/index.ts';
import type { Splits } from '../trim/types.ts';
import { walkLevel } from '../walk/index.ts';
import { buildReport, levelReport } from './build.ts';
import { rejoined } from './rejoin.ts';
import { sameSurroundings } from './surroundings.ts';
import type { Derived, DerivedLevel, Solved, SolvedParts, SolverFound } from './types.ts';

const NO_SPLITS: Splits = {};

/** One level. `since`: the same level as derived before, with the same surroundings; rooms not touched are lent. */
function deriveLevel(plan: Plan, level: Level, splits: Splits, since?: DerivedLevel): DerivedLevel {
  const walk = walkLevel(plan, level, since?.walk);
  const known = new Map(since?.walk.rooms.map((room, i) => [room, since.trims[i]!]));
  const trims = walk.rooms.map((room) => known.get(room) ?? trimRoom(plan, room, splits));
  const casings = casingsOf(plan, walk, since);
  const bare = { walk, trims, casings };
  const lenders = since === undefined ? [] : [since];
  return { ...bare, ...levelFindings(plan, bare, lenders), report: levelReport(bare, lenders) };
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
 * Adds what the solver decides: where long stretches are joined, the boards of every profile that has a stock list, the
 * scribes of every run with floor readings, and their findings. Levels and `splits` of the result are as the boards want
 * them; splits that `derived` has already stand. `budget` limits the work on boards and is told how it goes; `soFar` is
 * told what there is each time boards got better, whole enough to be shown and printed.
 */
export function solve(
  derived: Derived,
  solver: Solver,
  budget: StockBudget = {},
  soFar?: (found: SolvedParts) => void,
): Solved {
  let scribed: Scribed | null = null;
  const found = ({ splits, stock, loosened }: PlannedBoards): { ready: Derived; parts: SolvedParts } => {
    if (scribed?.ready.splits !== splits) scribed = scribedAt(derived, splits, solver);
    const { ready, scribes, findings } = scribed;
    const { plan, levels } = ready;
    const solverFindings = [
      ...findings,
      ...stockPlanFindings(plan, levels, stock, [...ready.findings, ...findings]),
      ...heldFindings(plan, levels, loosened),
    ];
    return { ready, parts: { scribes, stock, solverFindings, splits } };
  };
  const { plan, levels, splits } = derived;
  const planned = planBoards(
    plan,
    levels,
    splits,
    solver,
    budget,
    soFar && ((boards) => soFar(found(boards).parts)),
  );
  const { ready, parts } = found(planned);
  const { splits: _, ...solverFound } = parts;
  return solvedOn(ready, solverFound, derived);
}

/** A plan joined as its boards want it, with the scribes of its runs and what is wrong with these. */
interface Scribed extends Pick<SolverFound, 'scribes'> {
  readonly ready: Derived;
  readonly findings: readonly Finding[];
}

function scribedAt(derived: Derived, splits: Splits, solver: Solver): Scribed {
  const ready = rejoined(derived, splits);
  const { plan } = ready;
  const byLevel = ready.levels.map((level) => {
    const scribes = scribeRuns(plan, level.walk, level.trims).flatMap((run) => solveScribe(run, solver));
    return { scribes, findings: scribeFindings(plan, level, scribes) };
  });
  return {
    ready,
    scribes: byLevel.flatMap((level) => level.scribes),
    findings: byLevel.flatMap((level) => level.findings),
  };
}

/** What a solver found, put on the plan joined as it wants it. `derived`: the same as it was before. */
export function solvedOn(ready: Derived, found: SolverFound, derived: Derived): Solved {
  const { plan, levels } = ready;
  const findings = sortFindings([...ready.findings, ...found.solverFindings], plan);
  const { scribes, stock } = found;
  const report = buildReport(plan, levels, findings, scribes, stock, derived);
  return { ...ready, ...found, findings, report };
}
