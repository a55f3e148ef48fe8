// A pointer on the sheet to the place it means: core's snapping with the program's options, and what was caught as lines
// and points to draw. Places in ticks.

import type { Point } from '../../core/graph/index.ts';
import type { NodeId } from '../../core/plan/index.ts';
import {
  NO_SNAP,
  type Reference,
  type SnapAnswer,
  type SnapQuery,
  snapPoint,
} from '../../core/snap/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import type { PointerInput, ToolContext, ToolPicture } from './types.ts';

export interface SnapWish {
  readonly start?: Point;
  readonly without?: { readonly nodes: readonly NodeId[] };
  readonly references?: readonly Reference[];
  readonly drawn?: SnapQuery['drawn'];
  readonly lines?: SnapQuery['lines'];
  readonly faceCorners?: boolean;
  readonly cycle?: number;
  /** False: no steps of angle, where the way is fixed already. */
  readonly steps?: boolean;
  /** The answer before in the same gesture. */
  readonly last: SnapAnswer | null;
}

/** The pointer as it was heard last. */
export type Pointed = Pick<PointerInput, 'at' | 'mod' | 'exact'>;

/** A gesture that catches the pointer, and goes on to the next of what lies there when asked. */
export interface Catching {
  readonly caught: SnapAnswer | null;
  readonly pointed: Pointed | null;
  readonly cycle: number;
}

/** The next of what lies where the pointer is: caught at once, though it does not move. */
export function cycled<S extends Catching>(state: S, catchAt: (state: S, at: Pointed) => SnapAnswer): S {
  const next = { ...state, cycle: state.cycle + 1 };
  const { caught, pointed } = state;
  return caught === null || pointed === null ? next : { ...next, caught: catchAt(next, pointed) };
}

/** Where the pointer is taken to be. A place of the keyboard's cross is taken as it is. */
export function snapped(input: Pointed, wish: SnapWish, context: ToolContext): SnapAnswer {
  const { snaps, pixelsPerTick, view, snapping, recent } = context;
  const { last, start, without, references, drawn, lines, faceCorners, cycle } = wish;
  if (input.exact === true) return { ...plainAnswer(input.at), state: { ...NO_SNAP, cycle: cycle ?? 0 } };
  return snapPoint(
    {
      index: snaps,
      at: input.at,
      pixelsPerTick,
      view,
      recent,
      angleStepDeg: wish.steps === false ? 0 : snapping.angleStepDeg,
      snapping: snapping.on,
      inverted: input.mod,
      ...(snapping.grid === null ? {} : { grid: snapping.grid }),
      ...(start === undefined ? {} : { start }),
      ...(without === undefined ? {} : { without }),
      ...(references === undefined ? {} : { references }),
      ...(drawn === undefined ? {} : { drawn }),
      ...(lines === undefined ? {} : { lines }),
      ...(faceCorners === undefined ? {} : { faceCorners }),
      ...(cycle === undefined ? {} : { cycle }),
    },
    last?.state,
  );
}

/** A place as it is, with nothing caught. */
export function plainAnswer(at: Point): SnapAnswer {
  const whole: Point = [roundHalfAway(at[0]), roundHalfAway(at[1])];
  return {
    at: whole,
    what: [],
    words: '',
    lines: [],
    state: NO_SNAP,
    looked: 0,
  };
}

/** What was caught, for the picture: its guides, and a mark with its name. */
export function caughtPicture(answer: SnapAnswer | null): Pick<ToolPicture, 'lines' | 'points'> {
  if (answer === null) return { lines: [], points: [] };
  const kind = answer.what[0]?.kind;
  return {
    lines: answer.lines.map(([from, to]) => ({ from, to, kind: 'guide' as const })),
    points: kind === undefined ? [] : [{ at: answer.at, kind, words: answer.words }],
  };
}

/** `, caught: end of wall w3` for a hint; nothing where nothing was caught. */
export function caughtWords(answer: SnapAnswer | null): string {
  return answer === null || answer.words === '' ? '' : `Caught: ${answer.words}. `;
}

export const NO_PICTURE: ToolPicture = {
  preview: null,
  lines: [],
  shapes: [],
  points: [],
  labels: [],
  marquee: null,
  cursor: 'default',
};

/** A click is not a drag before the pointer has gone this far, pixels. */
const DRAG_PX = 4;
const TOUCH_DRAG_PX = 10;

export function isDrag(from: Point, input: PointerInput, { pixelsPerTick }: ToolContext): boolean {
  const gone = Math.hypot(input.at[0] - from[0], input.at[1] - from[1]) * pixelsPerTick;
  return gone > (input.touch ? TOUCH_DRAG_PX : DRAG_PX);
}
