// Chooses and moves: click, shift-click, a box from left to right (what lies inside) or right to left (what it touches),
// drags, nudges, typed distances. One drag is one edit. Ticks.

import type { Point } from '../../core/graph/index.ts';
import { minus } from '../../core/graph/index.ts';
import { type Level, lookup, mustLookup } from '../../core/plan/index.ts';
import { type Ref, refKey, sameRef } from '../state/refs.ts';
import type { Bounds } from '../state/viewport.ts';
import { arrowOf, nudgeStep } from './cursor.ts';
import {
  dragEdit,
  dragPreview,
  isStanding,
  type Moved,
  type Moving,
  movedTo,
  movingOf,
  NOT_MOVED,
  nodesOf,
  thingOf,
  thingsBy,
} from './drag.ts';
import { dragLabels } from './drag-labels.ts';
import { faceNear } from './faces.ts';
import { giveSelected, selectedFields, selectedHint } from './selected.ts';
import { caughtPicture, isDrag, NO_PICTURE } from './snapping.ts';
import type { KeyInput, PointerInput, RunningTool, Tool, ToolContext, ToolStep } from './types.ts';

export type SelectState =
  | { readonly mode: 'idle'; readonly under: Under | null }
  | {
      readonly mode: 'pressed';
      /** As it was when the button went down: what is pressed or dragged is of it, and of no later one. */
      readonly level: Level;
      readonly from: Point;
      readonly refs: readonly Ref[];
      readonly under: Under | null;
    }
  | {
      readonly mode: 'box';
      readonly from: Point;
      readonly to: Point;
      readonly touching: boolean;
      readonly under: Under | null;
    }
  | {
      readonly mode: 'move';
      readonly level: Level;
      /** What was taken in hand, and what is chosen with it. */
      readonly refs: readonly Ref[];
      readonly from: Point;
      readonly moving: Moving;
      readonly moved: Moved;
      readonly cycle: number;
      readonly last: PointerInput;
      readonly under: Under | null;
    };

/** The last click: what lay there, and which of it was taken. */
interface Under {
  readonly at: Point;
  readonly refs: readonly Ref[];
  readonly index: number;
}

const IDLE: SelectState = { mode: 'idle', under: null };

export const selectTool: Tool<SelectState> = {
  id: 'select',
  words: 'Choose and move',
  start: () => IDLE,
  busy: ({ mode }) => mode !== 'idle',
  drags: ({ mode }) => mode === 'move',

  pointer(was, input, context) {
    const state = still(was, context);
    switch (input.kind) {
      case 'down': {
        const refs = context.hit(input.at);
        return {
          state: { mode: 'pressed', level: context.level, from: input.at, refs, under: state.under },
        };
      }
      case 'move': {
        const next = moveOn(state, input, context);
        const begun = next.mode === 'move' && state.mode === 'pressed';
        // What is taken in hand is what is chosen from now on.
        return begun ? { state: next, select: next.refs } : { state: next };
      }
      case 'up':
        return letGo(moveOn(state, input, context), input, context);
      case 'double':
        return doubleClick(state, input, context);
      case 'leave':
        return { state };
    }
  },

  key(was, input, context) {
    const state = still(was, context);
    const { key, mod } = input;
    if (mod) return null;
    if (state.mode === 'move' && key.toLowerCase() === 'n') {
      const cycle = state.cycle + 1;
      const moved = movedTo(state.moving, state.from, state.last, state.moved, cycle, context);
      return { state: { ...state, cycle, moved } };
    }
    if (state.mode === 'idle' && key.toLowerCase() === 'n' && !input.alt) return nextUnder(state, context);
    const way = arrowOf(key);
    if (way === null || input.alt || state.mode !== 'idle' || context.selection.length === 0) return null;
    return nudge(state, way, input, context);
  },

  typing: (state) => state,
  typed(was, figures, context) {
    const state = still(was, context);
    if (state.mode !== 'move') return giveSelected(state, figures, context);
    // What is typed in a drag is where it ends.
    const idle: SelectState = { mode: 'idle', under: state.under };
    const step = giveSelected(idle, figures, inHand(state, context), state.moved);
    return step.commit === undefined ? { ...step, state } : step;
  },
  fields(was, context) {
    const state = still(was, context);
    return state.mode === 'move'
      ? selectedFields(inHand(state, context), state.moved)
      : selectedFields(context);
  },

  picture(was, context) {
    const state = still(was, context);
    if (state.mode === 'box') {
      const { from, to, touching } = state;
      return { ...NO_PICTURE, marquee: { from, to, touching }, cursor: 'crosshair' };
    }
    if (state.mode !== 'move') return NO_PICTURE;
    const edit = dragEdit(state.moving, state.moved, context);
    const preview = edit === null ? null : dragPreview(state.moving, edit, context);
    return {
      ...NO_PICTURE,
      ...dragLabels(state.moving, state.moved, preview, context, caughtPicture(state.moved.caught)),
      preview,
      cursor: 'grabbing',
    };
  },

  hint(was, context) {
    const state = still(was, context);
    if (state.mode === 'box')
      return state.touching
        ? 'Let go to choose all that the box touches.'
        : 'Let go to choose what lies inside the box.';
    if (state.mode !== 'move') return selectedHint(context);
    const caught = state.moved.words === '' ? '' : `Caught: ${state.moved.words}. `;
    return `${caught}Let go to put it down, Escape to leave it where it was.`;
  },
};

/** A gesture whose level has changed under it, by undo or a command, has come to nothing. */
function still(state: SelectState, { level }: ToolContext): SelectState {
  return 'level' in state && state.level !== level ? { mode: 'idle', under: state.under } : state;
}

/** The context of a drag: things that are dragged without being chosen are what is told and typed of. */
function inHand({ moving }: SelectState & { mode: 'move' }, context: ToolContext): ToolContext {
  return moving.kind === 'things' ? { ...context, selection: moving.refs } : context;
}

function moveOn(state: SelectState, input: PointerInput, context: ToolContext): SelectState {
  if (state.mode === 'box') return { ...state, to: input.at, touching: touches(state.from, input) };
  if (state.mode === 'move') {
    const moved = movedTo(state.moving, state.from, input, state.moved, state.cycle, context);
    return { ...state, moved, last: input };
  }
  if (state.mode !== 'pressed' || !isDrag(state.from, input, context)) return state;
  const { from, refs, under } = state;
  const [top] = refs;
  // A room is dragged by its floor: what lies on its edge is taken hold of by itself.
  const chosen = context.selection.find(
    (ref) => refs.some((each) => sameRef(each, ref)) && (ref.kind !== 'room' || top?.kind === 'room'),
  );
  // While trim is looked at, a slip of the hand moves nothing: only what was chosen first is dragged.
  const free = context.stage === 'draw' || context.stage === 'measure';
  const caught = chosen ?? (free && top !== undefined && DRAGGED.has(top.kind) ? top : undefined);
  // A face named by its dimension is not taken hold of there, only at its wall.
  const far = caught?.kind === 'segment' && faceNear(context, state.from, 8 / context.pixelsPerTick) === null;
  const held = far ? undefined : caught;
  if (held !== undefined && (DRAGGED.has(held.kind) || held.kind === 'room')) {
    const all =
      chosen === undefined ? [held] : [held, ...context.selection.filter((ref) => !sameRef(ref, held))];
    const moving = movingOf(all, from, input.alt, context);
    if (moving !== null) {
      const moved = movedTo(moving, from, input, NOT_MOVED, 0, context);
      const { level } = context;
      return { mode: 'move', level, refs: all, from, moving, moved, cycle: 0, last: input, under };
    }
  }
  const onFloor = top === undefined || top.kind === 'room' || far || input.shift;
  return onFloor ? { mode: 'box', from, to: input.at, touching: touches(from, input), under } : state;
}

const DRAGGED: ReadonlySet<Ref['kind']> = new Set(['node', 'wall', 'segment', 'opening', 'builtIn', 'mark']);

/** A box drawn from right to left, or with Alt held, takes all that it touches. */
function touches(from: Point, input: PointerInput): boolean {
  return input.alt || input.at[0] < from[0];
}

function letGo(state: SelectState, input: PointerInput, context: ToolContext): ToolStep<SelectState> {
  switch (state.mode) {
    case 'idle':
      return { state };
    case 'pressed':
      return click(state, input, context);
    case 'box': {
      const [a, b] = [state.from, state.to];
      const box: Bounds = [
        Math.min(a[0], b[0]),
        Math.min(a[1], b[1]),
        Math.max(a[0], b[0]),
        Math.max(a[1], b[1]),
      ];
      const found = context.within(box, state.touching);
      const known = new Set(found.map(refKey));
      const kept = input.shift ? context.selection.filter((ref) => !known.has(refKey(ref))) : [];
      return { state: IDLE, select: [...kept, ...found] };
    }
    case 'move': {
      const edit = dragEdit(state.moving, state.moved, context);
      const idle: SelectState = { mode: 'idle', under: state.under };
      return edit === null ? { state: idle } : { state: idle, commit: { edit }, select: state.refs };
    }
  }
}

function click(
  { from, refs, under }: SelectState & { mode: 'pressed' },
  input: PointerInput,
  { selection, pixelsPerTick }: ToolContext,
): ToolStep<SelectState> {
  const again =
    under !== null && Math.hypot(under.at[0] - from[0], under.at[1] - from[1]) * pixelsPerTick <= 6;
  const index = input.alt && again && refs.length > 0 ? (under.index + 1) % refs.length : 0;
  const ref = refs[index];
  const idle: SelectState = { mode: 'idle', under: { at: from, refs, index } };
  if (ref === undefined) return input.shift ? { state: idle } : { state: idle, select: [] };
  if (!input.shift) return { state: idle, select: [ref] };
  const without = selection.filter((each) => !sameRef(each, ref));
  return { state: idle, select: without.length < selection.length ? without : [...selection, ref] };
}

/** What lies under the last click now, the next of it. */
function nextUnder(state: SelectState & { mode: 'idle' }, { hit }: ToolContext): ToolStep<SelectState> {
  const { under } = state;
  const refs = under === null ? [] : hit(under.at);
  if (under === null || refs.length === 0)
    return { state, say: 'Click a place first: then N goes through what lies there.' };
  const taken = under.refs[under.index];
  const index = (refs.findIndex((ref) => sameRef(ref, taken ?? null)) + 1) % refs.length;
  return { state: { mode: 'idle', under: { ...under, refs, index } }, select: [refs[index]!] };
}

/** A wall, a face or a thing clicked twice: its distances are typed in the tape bar. */
function doubleClick(state: SelectState, input: PointerInput, context: ToolContext): ToolStep<SelectState> {
  const ref = context.hit(input.at).find(({ kind }) => ASKED.has(kind));
  return ref === undefined ? { state } : { state, select: [ref], ask: true };
}

const ASKED: ReadonlySet<Ref['kind']> = new Set(['wall', 'segment', 'opening', 'builtIn', 'mark', 'node']);

const NO_FARTHER = 'It goes no farther that way: there is a corner, or its wall ends.';

/** Arrow keys move what is chosen; presses that follow each other are one step. */
function nudge(
  state: SelectState,
  way: Point,
  input: KeyInput,
  context: ToolContext,
): ToolStep<SelectState> | null {
  const { selection, level } = context;
  const step = nudgeStep(context, input.shift);
  const runs = `nudge ${selection.map(refKey).join(' ')}`;
  const things = selection.filter(isStanding);
  if (things.length > 0 && things.length === selection.length) {
    const edit = thingsBy(things, alongOf(things, way, context) * step, context);
    return edit === null ? { state, say: NO_FARTHER } : { state, commit: { edit, runs } };
  }
  const nodes = nodesOf(selection, context);
  if (nodes.length === 0) return null;
  const by: Point = [way[0] * step, way[1] * step];
  return { state, commit: { edit: { type: 'moveNodes', level: level.id, nodes, by }, runs } };
}

/** Whether an arrow moves the first thing on along its wall or back. */
function alongOf(things: readonly Ref[], arrow: Point, context: ToolContext): 1 | -1 {
  const way = wallWay(things[0]!, context);
  const level = Math.abs(way[0]) >= Math.abs(way[1]);
  const sideways = level ? arrow[0] * way[0] : arrow[1] * way[1];
  if (sideways !== 0) return sideways > 0 ? 1 : -1;
  return arrow[0] + arrow[1] > 0 ? 1 : -1;
}

function wallWay(ref: Ref, { level }: ToolContext): Point {
  const thing = isStanding(ref) ? thingOf(level, ref) : undefined;
  const wall = thing === undefined ? undefined : lookup(level.walls, thing.wall);
  if (wall === undefined) return [1, 0];
  return minus(mustLookup(level.nodes, wall.to), mustLookup(level.nodes, wall.from));
}

/** Where the last click with the choosing tool was; null where another tool is in hand. */
export function lastClickOf(tool: RunningTool): Point | null {
  return tool.id === 'select' ? ((tool.state as SelectState | null)?.under?.at ?? null) : null;
}
