// Measures between two places of the plan, which it does not change. Ticks.

import type { Point } from '../../core/graph/index.ts';
import { distance } from '../../core/graph/index.ts';
import type { SnapAnswer } from '../../core/snap/index.ts';
import { lengthLabel } from './chain-picture.ts';
import { angleText, headingOf } from './directions.ts';
import {
  type Catching,
  caughtPicture,
  caughtWords,
  cycled,
  isDrag,
  NO_PICTURE,
  type Pointed,
  snapped,
} from './snapping.ts';
import type { Tool, ToolContext } from './types.ts';

export interface MeasureState extends Catching {
  readonly from: Point | null;
  readonly to: Point | null;
  readonly exact: boolean;
  readonly pressed: Point | null;
}

const EMPTY: MeasureState = {
  from: null,
  to: null,
  caught: null,
  pointed: null,
  exact: false,
  pressed: null,
  cycle: 0,
};

function caughtAt(state: MeasureState, input: Pointed, context: ToolContext): SnapAnswer {
  const start = state.from !== null && state.to === null ? { start: state.from } : {};
  return snapped(input, { last: state.exact ? null : state.caught, cycle: state.cycle, ...start }, context);
}

export const measureTool: Tool<MeasureState> = {
  id: 'measure',
  words: 'Measure between two points',
  start: () => EMPTY,
  busy: ({ from }) => from !== null,
  pointer(state, input, context) {
    if (input.kind === 'leave' || input.kind === 'double') return { state };
    const caught = caughtAt(state, input, context);
    const now: MeasureState = { ...state, caught, pointed: input, exact: input.exact === true };
    if (input.kind === 'down') {
      if (now.from === null || now.to !== null)
        return { state: { ...now, from: caught.at, to: null, pressed: input.at } };
      return { state: { ...now, to: caught.at, pressed: null } };
    }
    if (input.kind === 'up') {
      const dragged = now.pressed !== null && isDrag(now.pressed, input, context);
      return { state: { ...now, pressed: null, ...(dragged ? { to: caught.at } : {}) } };
    }
    return { state: now };
  },
  key(state, { key, mod, alt }, context) {
    if (mod || alt) return null;
    if (key.toLowerCase() === 'n') return { state: cycled(state, (now, at) => caughtAt(now, at, context)) };
    return key === 'Backspace' && state.from !== null ? { state: EMPTY } : null;
  },
  typing: (state) => state,
  typed: (state) => ({ state }),
  fields: () => [],
  picture(state, context) {
    const caught = caughtPicture(state.to === null ? state.caught : null);
    const to = state.to ?? state.caught?.at ?? null;
    if (state.from === null || to === null) return { ...NO_PICTURE, cursor: 'crosshair', ...caught };
    return {
      ...NO_PICTURE,
      cursor: 'crosshair',
      lines: [...caught.lines, { from: state.from, to, kind: 'measure' }],
      points: [...caught.points, { at: state.from, kind: 'start' }],
      labels: distance(state.from, to) === 0 ? [] : [lengthLabel(state.from, to, context)],
    };
  },
  hint(state, { figures }) {
    const to = state.to ?? state.caught?.at ?? null;
    if (state.from === null || to === null) return `${caughtWords(state.caught)}Click where to measure from.`;
    const [across, down] = [Math.abs(to[0] - state.from[0]), Math.abs(to[1] - state.from[1])];
    const heading = distance(state.from, to) === 0 ? '' : `, heading ${angleText(headingOf(state.from, to))}`;
    const figure = `${figures.length(distance(state.from, to))}: across ${figures.length(across)}, down ${figures.length(down)}${heading}.`;
    return state.to === null ? `${figure} Click where to measure to.` : `${figure} Click to measure again.`;
  },
};
