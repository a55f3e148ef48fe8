// Findings and scribes, and the solver core asks for. Lengths in ticks inside core; figures carry their unit in the name.

import type { Point } from '../graph/types.ts';
import type { LevelId } from '../plan/schema.ts';

export const FINDING_CODES = [
  'base-proud',
  'base-flush',
  'base-short',
  'base-close',
  'height-change',
  'opening-clash',
  'built-in-clash',
  'casing-crowded',
  'sliver',
  'joint-in-sight',
  'angle-odd',
  'length-odd',
  'saw-limit',
  'order-circle',
  'too-narrow',
  'mended',
  'cope-short',
  'not-closed',
  'scribe-deep',
  'end-tilt',
  'pocket-nails',
  'outlet-hit',
  'sill-hit',
  'stock-none',
  'held-loose',
  'unmeasured',
  'old-paint',
  'old-floor',
  'record-unused',
  'room-twice',
] as const;
export type FindingCode = (typeof FINDING_CODES)[number];

/** Worst first. */
export const SEVERITIES = ['stop', 'fix', 'look'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** Something the user should know. `at` in ticks; `figures` in mm or degrees as their names say. */
export interface Finding {
  readonly code: FindingCode;
  readonly severity: Severity;
  readonly level: LevelId | null;
  readonly room: string | null;
  readonly at: Point | null;
  /** Ids of what it concerns: openings, profiles, pieces, corners as `corner 7`, walls. */
  readonly about: readonly string[];
  /** One or two plain sentences with figures in the plan's units. */
  readonly message: string;
  /** In order of preference. */
  readonly remedies: readonly string[];
  readonly figures: Readonly<Record<string, number>>;
}

/** A linear programme: minimise cost · x, rows lower ≤ A x ≤ upper, columns lower ≤ x ≤ upper. ±Infinity allowed in bounds. */
export interface LinearProgram {
  readonly columns: readonly {
    readonly cost: number;
    readonly lower: number;
    readonly upper: number;
    readonly integer?: boolean;
  }[];
  readonly rows: readonly {
    readonly lower: number;
    readonly upper: number;
    readonly terms: readonly (readonly [column: number, factor: number])[];
  }[];
}

export type SolverAnswer =
  | {
      readonly status: 'optimal';
      readonly objective: number;
      readonly x: readonly number[];
      readonly bound: number;
    }
  | { readonly status: 'infeasible' }
  | { readonly status: 'unbounded' }
  | {
      readonly status: 'limit';
      readonly objective: number | null;
      readonly x: readonly number[] | null;
      readonly bound: number | null;
    };

/** All that core knows of a solver. One thread, fixed seed, a work limit, never a clock: same programme, same answer. */
export interface Solver {
  /** `below`, for whole numbers: answers that cost as much or more are not looked for, and count as none. */
  solve(program: LinearProgram, workLimit?: number, below?: number): SolverAnswer;
}

/** One station of a scribed board; `at` from the board's left end in ticks, heights in ticks above the subfloor. */
export interface Station {
  readonly at: number;
  readonly floor: number;
  readonly bottom: number;
  readonly trim: number;
  readonly gap: number;
}

/** The scribe of one board (of the pieces of one stretch, scarfs make one bar). */
export interface Scribe {
  /** The piece's id. */
  readonly piece: string;
  readonly kind: 'hump' | 'dip' | 'slope' | 'level';
  readonly takeFrom: 'left' | 'right' | 'middle' | 'both' | 'none';
  readonly deepest: number;
  /** Square ticks. */
  readonly area: number;
  readonly shim: number;
  readonly coversOldLine: boolean;
  /** Trimmed area of the whole run, square ticks. */
  readonly runArea: number;
  readonly stations: readonly Station[];
  /** The gap kept under the base, part of every station's floor, and whether carpet goes there. */
  readonly underGap: number;
  readonly carpet: boolean;
  /** True where a corner height, the datum or the old line was assumed. */
  readonly assumed: readonly string[];
}
