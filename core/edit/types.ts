// What editing hands back: notes of what was mended, and why an edit was not done. Positions in ticks, x right, y down.

import type { Point } from '../graph/index.ts';
import type { LevelId, Plan } from '../plan/schema.ts';

/** One thing that mending or an edit changed beside what was asked. core/fit turns it into a finding `mended`. */
export interface MendNote {
  readonly level: LevelId;
  readonly at: Point | null;
  /** Ids of what it concerns: nodes, walls, openings, corner and segment keys. */
  readonly about: readonly string[];
  /** One plain sentence. */
  readonly message: string;
  /**
   * Something that the user typed, chose or placed is gone, stands elsewhere, or no longer means what it did. `new`: it came with
   * the edit itself, so that undoing does not bring it back.
   */
  readonly loses?: true | 'new';
}

export type MendResult =
  | { readonly ok: true; readonly plan: Plan; readonly notes: readonly MendNote[] }
  | {
      readonly ok: false;
      readonly message: string;
      readonly level: LevelId;
      /** The level's place in the plan, as `levels[0]`. */
      readonly path: string;
    };

export const EDIT_FAILURES = [
  'no-level',
  'no-node',
  'no-wall',
  'id-taken',
  'bad-id',
  'bad-number',
  'no-length',
  'off-wall',
  'not-two-walls',
  'not-in-line',
  'not-alike',
  'no-opening',
  'no-built-in',
  'no-mark',
  'no-room',
  'room-taken',
  'no-corner',
  'no-face',
  'no-profile',
  'in-use',
  'not-held',
  'last-level',
  'no-walls',
  'walls-shared',
  'not-parallel',
  'not-facing',
  'no-point',
  'bad-patch',
  'bad-plan',
  'not-planar',
] as const;
/** Why an edit was not done. */
export type EditFailureCode = (typeof EDIT_FAILURES)[number];

export interface EditFailure {
  readonly ok: false;
  readonly code: EditFailureCode;
  /** One plain sentence. */
  readonly message: string;
}

/** One change to a plan at a place: as immer makes them and JSON holds them. */
export interface PlanPatch {
  readonly op: 'add' | 'remove' | 'replace';
  readonly path: readonly (string | number)[];
  readonly value?: unknown;
}
