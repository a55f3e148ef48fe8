// What deriving a plan gives: everything that needs no solver, in ticks, beside the printable report in mm.

import type { Finding, Scribe } from '../fit/types.ts';
import type { Plan, TrimLine } from '../plan/schema.ts';
import type { StockPlan } from '../stock/types.ts';
import type { CasingSet, RoomTrim, Splits } from '../trim/types.ts';
import type { LevelWalk } from '../walk/types.ts';
import type { Report } from './schema.ts';

/** What the report says of one level, in the report's order. */
export interface LevelReport {
  /** Parallel to `walk.rooms`. */
  readonly rooms: readonly {
    readonly room: Report['rooms'][number];
    readonly pieces: readonly Report['pieces'][number][];
    /** Of these, by line; lengths not rounded. */
    readonly totals: readonly {
      readonly line: TrimLine;
      readonly pieces: number;
      readonly lengthMm: number;
    }[];
  }[];
  /** Parallel to `casings`. */
  readonly casings: readonly Report['casings'][number][];
}

export interface DerivedLevel {
  readonly walk: LevelWalk;
  /** Parallel to `walk.rooms`. */
  readonly trims: readonly RoomTrim[];
  readonly casings: readonly CasingSet[];
  /** What was found in each room by itself, parallel to `walk.rooms`. */
  readonly roomFindings: readonly (readonly Finding[])[];
  /** All of the level, in reading order. */
  readonly findings: readonly Finding[];
  readonly report: LevelReport;
}

export interface Derived {
  /** Mended and numbered. */
  readonly plan: Plan;
  readonly levels: readonly DerivedLevel[];
  /** Scarf places that came from stock, an input of the derivation. */
  readonly splits: Splits;
  /** Before solving: `report.scribes`, `report.stock` and `report.purchase` are empty. */
  readonly findings: readonly Finding[];
  readonly report: Report;
}

/** What only a solver finds. */
export interface SolverFound {
  readonly scribes: readonly Scribe[];
  /** The boards of every profile with a stock list and pieces. */
  readonly stock: readonly StockPlan[];
  /** What is wrong with these, in no particular order. */
  readonly solverFindings: readonly Finding[];
}

/** The same, with the joints that it is for: what of a solved plan cannot be derived again. */
export interface SolvedParts extends SolverFound {
  readonly splits: Splits;
}

/** After the solver: the same with scribes and boards, and its report whole. */
export interface Solved extends Derived, SolverFound {}
