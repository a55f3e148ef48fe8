// All that the window knows: the open plan, its history, what is derived from it, what is chosen, what is shown. One value.
// The plan comes from the host and from edits; everything under `derived` and `solution` follows from it.

import type { PatchEdit } from '../../core/edit/index.ts';
import type { LevelId, NodeId, Plan } from '../../core/plan/index.ts';
import type { Cuts, Derived, Solved } from '../../core/report/index.ts';
import type { SheetSize } from '../../core/sheets/index.ts';
import type { DocumentView, ExportKind, StartAnswer } from '../../electron/contract.ts';
import type { DrawingOptions, RunningTool, SnappingOptions } from '../tools/types.ts';
import type { WorkStage } from '../work/protocol.ts';
import type { Ref } from './refs.ts';
import type { Viewport } from './viewport.ts';

export const STAGES = ['measure', 'draw', 'trim', 'cut'] as const;
export type Stage = (typeof STAGES)[number];

/** One thing that was done, to be taken back or done again. */
export interface Step {
  /** In a few words: 'move wall'. */
  readonly words: string;
  /** Applied now, it takes the step back (in `done`) or does it again (in `undone`). */
  readonly back: PatchEdit;
  /** Where it happened, to be shown when it is taken back. */
  readonly level: LevelId | null;
  readonly selection: readonly Ref[];
  /** Steps with the same key that follow each other at once run together. */
  readonly runs: string | null;
}

export type Solution =
  | { readonly state: 'none' }
  /** Being worked out; `last` is a first result for this plan, or belongs to an earlier plan and must be shown as such. */
  | {
      readonly state: 'pending';
      readonly last: SolvedPlan | null;
      readonly progress: {
        readonly words: string;
        readonly cost: number;
        readonly bound: number | null;
      } | null;
    }
  | { readonly state: 'done'; readonly last: SolvedPlan }
  /** By the user. `last` is the best that was found of this plan till then, else of an earlier one. */
  | { readonly state: 'stopped'; readonly last: SolvedPlan | null }
  | { readonly state: 'failed'; readonly last: SolvedPlan | null; readonly message: string };

export interface SolvedPlan {
  readonly solved: Solved;
  /** Without alternatives until the last stage. */
  readonly cuts: Cuts;
  /** How far it was worked out: `first` quickly by simple rules, `better` where it was stopped, `boards` all but the alternatives, `whole` all. */
  readonly stage: WorkStage;
  /** The plan it is for: stale where this is not the plan shown. */
  readonly plan: Plan;
}

export interface Notice {
  readonly id: number;
  /** A loss stays until it is dismissed or another takes its place; a problem until it is dismissed; all else goes. */
  readonly tone: 'plain' | 'loss' | 'problem';
  readonly words: string;
}

/** What is to be handed over. */
export interface ExportWish {
  readonly kind: ExportKind;
}

/** On what it is to be handed over, where the user chose; null: the usual sheet, each floor plan as large as fits. */
export interface SheetWish {
  readonly sheet: SheetSize | null;
  readonly scale: string | null;
}

/** The one dialog that is open; `of` is what it is about, by its own panel. */
export type Dialog = PlainDialog | { readonly id: 'export'; readonly of: ExportWish };

interface PlainDialog {
  readonly id:
    | 'profiles'
    | 'rooms'
    | 'settings'
    | 'stock'
    | 'tapeWalk'
    | 'levels'
    | 'finder'
    | 'keys'
    | 'preferences'
    | 'versions'
    | 'recent'
    | 'demo'
    | 'recovery'
    | 'places'
    | 'conflict'
    | 'licences'
    | 'about'
    | 'picker'
    | 'ask';
  readonly of?: unknown;
}

export interface OpenPlan {
  readonly view: DocumentView;
  readonly plan: Plan;
  readonly derived: Derived;
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}

export type PanelWish = 'auto' | 'open' | 'closed';

export interface AppState {
  readonly start: StartAnswer | null;
  readonly open: OpenPlan | null;
  readonly solution: Solution;
  readonly stage: Stage;
  readonly level: LevelId | null;
  readonly selection: readonly Ref[];
  /** Under the pointer, or where the walk's focus is. */
  readonly hover: Ref | null;
  readonly viewport: Viewport;
  /** CSS pixels to a pixel of the sheet: 2 where the window's text is twice its usual size. */
  readonly textScale: number;
  /** How far side panels lie over the sheet's edges, CSS pixels; 0 where they stand beside it. */
  readonly covered: { readonly left: number; readonly right: number };
  /** Handle of the plan that was last shown whole on being opened; null: none yet. */
  readonly shownWhole: string | null;
  readonly tool: RunningTool;
  readonly drawing: DrawingOptions;
  readonly snapping: SnappingOptions;
  /** Nodes touched lately, the latest last; at most a handful. */
  readonly recent: readonly NodeId[];
  readonly strip: boolean;
  /** The finding that the red pencil has open, by its key (panels/pencil/findings.ts). */
  readonly finding: string | null;
  /** Side panels: `auto` is open where there is room for them. */
  readonly panels: { readonly walk: PanelWish; readonly side: PanelWish };
  readonly theme: 'system' | 'light' | 'dark';
  readonly dialog: Dialog | null;
  readonly sheets: SheetWish;
  /** The host is opening a plan: commands wait for it. */
  readonly opening: boolean;
  readonly notices: readonly Notice[];
  /** What the live region reads out beside the notices, without showing it: it stands where the trouble is. */
  readonly spoken: string;
  /** Walls and what stands on them, as copied. */
  readonly clipboard: unknown;
}
