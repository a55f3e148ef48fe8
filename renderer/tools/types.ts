// What a tool is: a plain state machine that turns pointer, keys and typed figures into one edit per gesture, and a picture
// of what it would do. Places in ticks, x right, y down; pixel sizes only through `pixelsPerTick`. No React, no canvas, no
// disk. A gesture keeps the plan it began with and is computed anew from the whole distance on every move; nothing is
// changed before it commits, and Escape commits nothing.

import type { Edit } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import type { Level, LevelId, NodeId, Plan, Settings } from '../../core/plan/index.ts';
import type { Derived } from '../../core/report/index.ts';
import type { SnapIndex, SnapKind } from '../../core/snap/index.ts';
import type { LevelWalk } from '../../core/walk/index.ts';
import type { Figures } from '../panels/kit/figures.ts';
import type { Ref } from '../state/refs.ts';
import type { Bounds } from '../state/viewport.ts';

export const TOOLS = ['select', 'wall', 'room', 'halfWall', 'opening', 'builtIn', 'mark', 'measure'] as const;
export type ToolId = (typeof TOOLS)[number];

/** What is set for drawing; kept between gestures and between tools. Lengths in ticks. */
export interface DrawingOptions {
  readonly along: 'inside' | 'centre' | 'outside';
  readonly thickness: number;
  readonly halfWallHeight: number;
  readonly openingKind: 'door' | 'cased' | 'window' | 'sliding' | 'pocket' | 'passage';
  readonly openingWidth: number;
  readonly openingHeight: number;
  readonly openingSill: number;
  readonly builtInKind: 'cabinet' | 'hearth' | 'tub' | 'stair' | 'radiator' | 'column';
  readonly builtInWidth: number;
  readonly builtInDepth: number;
  readonly builtInBottom: number;
  readonly builtInTop: number;
  readonly markKind: 'outlet' | 'register';
}

export interface SnappingOptions {
  readonly on: boolean;
  /** Ticks; null: no grid. */
  readonly grid: number | null;
  readonly angleStepDeg: number;
}

/** All a tool may look at. Built once per state of the program, not per event. */
export interface ToolContext {
  readonly plan: Plan;
  readonly level: Level;
  readonly derived: Derived;
  /** The level as it is walked: faces, corners, what stands on them. */
  readonly walk: LevelWalk;
  readonly settings: Settings;
  /** Reads and prints lengths as the plan does. */
  readonly figures: Figures;
  readonly snaps: SnapIndex;
  readonly pixelsPerTick: number;
  readonly view: Bounds;
  readonly drawing: DrawingOptions;
  readonly snapping: SnappingOptions;
  readonly selection: readonly Ref[];
  readonly stage: 'measure' | 'draw' | 'trim' | 'cut';
  /** Nodes touched lately, the latest last. */
  readonly recent: readonly NodeId[];
  /** What lies at a place within reach of the pointer, nearest and smallest first. */
  hit(at: Point): readonly Ref[];
  /** What lies wholly inside a box, or touches it. */
  within(box: Bounds, touching: boolean): readonly Ref[];
}

export interface PointerInput {
  readonly kind: 'down' | 'move' | 'up' | 'double' | 'leave';
  readonly at: Point;
  readonly touch: boolean;
  readonly shift: boolean;
  readonly alt: boolean;
  /** Ctrl, or Cmd on a Mac: inverts snapping while held. */
  readonly mod: boolean;
  /** The keyboard's cross: its place is meant as it is and never snaps. */
  readonly exact?: boolean;
}

export interface KeyInput {
  readonly key: string;
  readonly shift: boolean;
  readonly alt: boolean;
  readonly mod: boolean;
}

/** One field of the tape bar. */
export interface TapeField {
  readonly id: string;
  readonly label: string;
  /** The label in full, for the tooltip, where it is short. */
  readonly more?: string;
  readonly takes: 'length' | 'angle';
  /** What stands there as the pointer moves, as text; typing replaces it. */
  readonly live: string;
}

/** What the tape bar was given, by field: ticks or degrees. Fields left empty are absent. */
export type TapeFigures = Readonly<Record<string, number>>;

/** What one event did. */
export interface ToolStep<S> {
  readonly state: S;
  /** One edit, done as one step; `words` name it for undo where the edit's own words do not do. */
  readonly commit?: { readonly edit: Edit; readonly words?: string; readonly runs?: string };
  /** The state where the edit is refused, so that nothing drawn is lost; `state` where not given. */
  readonly refused?: S;
  /** Drawing options set by a key or a field. */
  readonly drawing?: Partial<DrawingOptions>;
  /** What is selected from now on. */
  readonly select?: readonly Ref[];
  /** Once the edit is done, the room here is selected: only then is it known by name. */
  readonly selectRoomAt?: Point;
  /** A sentence for the user: why nothing happened. */
  readonly say?: string;
  /** What was typed is used up by this step: the tape bar is emptied. A step that commits uses it up anyway. */
  readonly used?: boolean;
  /** Typed figures come next: the tape bar takes the focus. */
  readonly ask?: boolean;
  /** The tool is finished: go back to choosing. */
  readonly done?: boolean;
}

/** What a tool would do, to be drawn over the sheet. */
export interface ToolPicture {
  /** The level as it would be, at least its changed walls; these are drawn on top and hidden beneath. */
  readonly preview: { readonly level: Level; readonly changedWalls: ReadonlySet<string> } | null;
  readonly lines: readonly {
    readonly from: Point;
    readonly to: Point;
    readonly kind: 'ghost' | 'guide' | 'measure' | 'drawn';
  }[];
  /** Polygons drawn as a wash: walls to come, a built-in to come. */
  readonly shapes: readonly { readonly points: readonly Point[]; readonly kind: 'wall' | 'thing' | 'hole' }[];
  readonly points: readonly {
    readonly at: Point;
    readonly kind: SnapKind | 'handle' | 'start' | 'cursor';
    readonly words?: string;
  }[];
  /** Figures beside what they measure. */
  readonly labels: readonly { readonly at: Point; readonly words: string; readonly turnDeg?: number }[];
  readonly marquee: { readonly from: Point; readonly to: Point; readonly touching: boolean } | null;
  readonly cursor: 'default' | 'crosshair' | 'grab' | 'grabbing' | 'move' | 'not-allowed';
}

export interface Tool<S> {
  readonly id: ToolId;
  readonly words: string;
  start(context: ToolContext): S;
  pointer(state: S, input: PointerInput, context: ToolContext): ToolStep<S>;
  /** Keys the tool takes for itself; null where it does not want this one. */
  key(state: S, input: KeyInput, context: ToolContext): ToolStep<S> | null;
  /** Figures as they are being typed, understood so far: the picture holds them while the pointer moves. */
  typing(state: S, figures: TapeFigures, context: ToolContext): S;
  /** Exact figures from the tape bar: they never snap. */
  typed(state: S, figures: TapeFigures, context: ToolContext): ToolStep<S>;
  fields(state: S, context: ToolContext): readonly TapeField[];
  picture(state: S, context: ToolContext): ToolPicture;
  /** What the next click does: one short sentence. */
  hint(state: S, context: ToolContext): string;
  /** What may be done with the gesture now, beside the next click: buttons that press a key. */
  deeds?(state: S, context: ToolContext): readonly ToolDeed[];
  /** Whether a gesture is under way, which Escape gives up. */
  busy(state: S): boolean;
  /** Whether something is held and moved, which figures typed meanwhile are for. */
  drags?(state: S): boolean;
  /** Of a gesture of several steps: what it comes to if it ends here, its state one step back, and one taken back done again. */
  readonly steps?: {
    /** Null where nothing would come of it yet. */
    end(state: S, context: ToolContext): ToolStep<S> | null;
    back(state: S): S;
    /** Null where none was taken back. */
    forward(state: S): S | null;
  };
}

export interface ToolDeed {
  readonly words: string;
  /** What it does, where the words on its button are short. */
  readonly more: string;
  /** The key that does it, as `KeyInput` has it, and as it is written. */
  readonly key: string;
  readonly keyWords: string;
  /** It cannot be had now; its button stays, so that nothing moves. */
  readonly off: boolean;
  /** It ends the gesture: what is typed is given first. */
  readonly ends?: true;
}

/** A tool with its state hidden, as the sheet runs it. */
export interface RunningTool {
  readonly id: ToolId;
  /** Null before the tool has been started. */
  readonly state: unknown;
  /** What stands in the tape bar's fields, by field, as typed. */
  readonly texts?: Readonly<Record<string, string>>;
  /** Counts up when the tape bar should take the focus. */
  readonly ask?: number;
  /** The gesture of several steps that was given up last: undo takes it up again, until something else is drawn or done. */
  readonly givenUp?: { readonly id: ToolId; readonly state: unknown; readonly level: LevelId };
  /** The cross that arrow keys move; `moved` since it last clicked. */
  readonly cursor?: { readonly at: Point; readonly moved: boolean };
}
