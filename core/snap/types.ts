// What a pointer asks and what it is told. Positions in ticks, x right, y down; tolerances are pixels on the screen, so
// that they feel the same at every zoom. RULES: SN1 to SN13.

import type { Point } from '../graph/index.ts';
import type { NodeId, WallId } from '../plan/schema.ts';
import type { Reference, SnapIndex } from './snap-index.ts';

/** In order of priority. RULES: SN2. */
export const SNAP_KINDS = ['end', 'crossing', 'middle', 'perpendicular', 'on', 'guide', 'grid'] as const;
export type SnapKind = (typeof SNAP_KINDS)[number];

export interface SnapQuery {
  readonly index: SnapIndex;
  /** The pointer. */
  readonly at: Point;
  readonly pixelsPerTick: number;
  /** What the screen shows: left, top, right, bottom. All where not given. */
  readonly view?: readonly [number, number, number, number];
  /** What is being moved: it and all walls that move with it are no targets. */
  readonly without?: { readonly nodes?: readonly NodeId[]; readonly walls?: readonly WallId[] };
  /** Where the gesture started: angle steps, square feet and equal lengths count from it. */
  readonly start?: Point;
  /** Angle steps from the start, degrees; 15 where not given, 0 for none. */
  readonly angleStepDeg?: number;
  readonly references?: readonly Reference[];
  /** What the gesture has put down so far, apart from where it stands now. RULES: SN13. */
  readonly drawn?: readonly DrawnPoint[];
  /** Nodes touched lately, the latest last: guides run from these only. */
  readonly recent?: readonly NodeId[];
  /** Which lines of the walls are targets; both where not given. */
  readonly lines?: 'centre' | 'faces' | 'both';
  /** False: corners of faces are no end points, as where middles of walls are drawn. */
  readonly faceCorners?: boolean;
  /** Grid spacing in ticks; no grid where not given. */
  readonly grid?: number;
  /** Whether snapping is on (it is where not given), and whether the key that inverts it is held. */
  readonly snapping?: boolean;
  readonly inverted?: boolean;
  /** How often the user asked for the next candidate in this gesture. */
  readonly cycle?: number;
}

/** A point of the gesture itself, not of the plan yet. */
export interface DrawnPoint {
  readonly at: Point;
  readonly words: string;
  /** It may be caught as an end point: a chain closes there. */
  readonly closes: boolean;
}

export interface SnapTarget {
  readonly kind: SnapKind;
  /** Tells this target from all others of the level. */
  readonly key: string;
  /** What was caught, in words: `end of wall w3`. */
  readonly words: string;
  readonly node: NodeId | null;
  /** The wall whose centre line the place lies on, to be split there; null for a face. */
  readonly wall: WallId | null;
}

/** What the next call needs to hold on to what was caught. Plain data. */
export interface SnapState {
  readonly held: readonly string[];
  readonly cycle: number;
  /** Chosen by the user out of several: kept until let go. */
  readonly pinned: boolean;
  /** Nodes that the pointer rested on, the latest last: guides run from them too. */
  readonly touched: readonly NodeId[];
}

export interface SnapAnswer {
  /** Whole ticks. */
  readonly at: Point;
  /** What was caught: nothing, one target, or two guides that cross. */
  readonly what: readonly SnapTarget[];
  /** The same in words, for the hint line; empty when nothing was caught. */
  readonly words: string;
  /** Guide lines to draw. */
  readonly lines: readonly (readonly [Point, Point])[];
  readonly state: SnapState;
  /** How many candidates were looked at. */
  readonly looked: number;
}
