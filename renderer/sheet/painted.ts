// The labels that stand on the sheet now, so that a click on a label is a click on what it names. Kept by the derived level
// they were placed for: when that goes, so does this.

import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { Stage } from '../state/app-state.ts';
import type { Ref } from '../state/refs.ts';
import { flagUnder, labelUnder, type Pinned } from './pinned.ts';

interface Painted {
  readonly stage: Stage;
  labels(): readonly Pinned[];
}

const painted = new WeakMap<DerivedLevel, Painted>();

export function notePainted(level: DerivedLevel, stage: Stage, labels: () => readonly Pinned[]): void {
  painted.set(level, { stage, labels });
}

/** What the label at a place (ticks) names; null where there is none. */
export function namedAt(level: DerivedLevel, stage: Stage, at: Point, pixelsPerTick: number): Ref | null {
  const now = painted.get(level);
  return now?.stage === stage ? labelUnder(now.labels(), at, pixelsPerTick) : null;
}

/** The letter of the finding whose flag stands at a place (ticks); null where there is none. */
export function flagAt(level: DerivedLevel, stage: Stage, at: Point, pixelsPerTick: number): string | null {
  const now = painted.get(level);
  return now?.stage === stage ? flagUnder(now.labels(), at, pixelsPerTick) : null;
}
