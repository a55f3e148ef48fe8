// What may be asked of a plan drawing, and what it hands back beside its items. Data only.

import type { Finding } from '../fit/types.ts';
import type { LevelId } from '../plan/schema.ts';
import type { TickBox } from './plan-view.ts';
import type { NamedScale, Units } from './scale.ts';

/** How lengths (ticks) and areas (square ticks) are printed. */
export interface PlanFormat {
  length(ticks: number): string;
  area(squareTicks: number): string;
}

/** What is drawn. All true by default; `bare` is what the site sheet wants. */
export interface PlanLayers {
  readonly corners: boolean;
  readonly joints: boolean;
  readonly boards: boolean;
  readonly ids: boolean;
  readonly dimensions: boolean;
  readonly names: boolean;
  readonly findings: boolean;
  readonly builtIns: boolean;
  /** Ids of openings: what casings, boards and findings call them by. */
  readonly openings: boolean;
}

/** Every layer. */
export const EVERY_LAYER: PlanLayers = {
  corners: true,
  joints: true,
  boards: true,
  ids: true,
  dimensions: true,
  names: true,
  findings: true,
  builtIns: true,
  openings: true,
};

/** Walls, openings with their ids, names and corner numbers only: to be filled in by hand. */
export const BARE: Partial<PlanLayers> = {
  joints: false,
  boards: false,
  ids: false,
  dimensions: false,
  findings: false,
};

/** A finding with the letter that stands for it on the plan and in the list. */
export interface FlaggedFinding {
  readonly letter: string;
  readonly finding: Finding;
}

export interface PlanOptions {
  readonly units: Units;
  readonly format: PlanFormat;
  readonly layers?: Partial<PlanLayers>;
  readonly findings?: readonly FlaggedFinding[];
  /** Id of the one room to draw, larger, cut off a little beyond its walls. */
  readonly room?: string;
  /** The part of the level to draw, ticks: a tile. Needs `scale`. */
  readonly shown?: TickBox;
  /** The part whose corners, boards and findings are named, ticks; what is shown beyond it is the neighbours'. */
  readonly field?: TickBox;
  /** Instead of the largest named scale that fits. */
  readonly scale?: NamedScale;
  /** How much larger than usual figures, marks and lines are drawn: for large sheets. 1 by default. */
  readonly labelScale?: number;
}

/** A label that had no free place. */
export interface Unplaced {
  readonly kind:
    | 'corner'
    | 'joint'
    | 'piece'
    | 'room-name'
    | 'dimension'
    | 'finding'
    | 'end-mark'
    | 'opening';
  /** Of a room's name: which room's. */
  readonly room?: string;
  /** Whole in itself: `corner 3 to 4: 2 3⁄8″`, `board 7A`, `corner 7: cope (C)`. */
  readonly words: string;
}

/** Letters for a level's findings that have a place, in the order given: A, B … Z, AA. */
export function flagFindings(findings: readonly Finding[], level: LevelId): FlaggedFinding[] {
  return findings
    .filter((finding) => finding.level === level && finding.at !== null)
    .map((finding, index) => ({ letter: letterOf(index), finding }));
}

function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}
