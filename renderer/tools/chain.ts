// Walls drawn one after the other: click by click, by pressing and dragging, by typed length and turn, or any of these in
// turn. The whole chain is one edit. Ticks; a turn is to the right hand positive, that of the first wall its heading.

import { type AddChain, centreLine, roomHand } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import { distance, minus, unit } from '../../core/graph/index.ts';
import type { Reference, SnapAnswer } from '../../core/snap/index.ts';
import { chainPicture } from './chain-picture.ts';
import {
  type ChainState,
  handOf,
  headingBefore,
  NO_CHAIN,
  placeOf,
  withoutLast,
  withPoint,
  withTakenBack,
} from './chain-state.ts';
import { startPlace } from './cursor.ts';
import { angleText, turnOfWays, wayOf } from './directions.ts';
import { leavingFace } from './leaving-face.ts';
import { newIds } from './new-ids.ts';
import { caughtWords, cycled, isDrag, type Pointed, snapped } from './snapping.ts';
import type { DrawingOptions, TapeField, Tool, ToolContext, ToolStep } from './types.ts';

export const wallTool = chainTool('wall', 'Draw walls', () => ({}));
export const halfWallTool = chainTool('halfWall', 'Draw a half wall', ({ halfWallHeight }) => ({
  height: halfWallHeight,
}));

function chainTool(
  id: 'wall' | 'halfWall',
  words: string,
  more: (drawing: DrawingOptions) => { readonly height?: number },
): Tool<ChainState> {
  const given = (state: ChainState, closed: boolean, context: ToolContext): ToolStep<ChainState> => {
    const least = closed ? 3 : 2;
    if (state.points.length < least)
      return state.points.length === 0
        ? { state: NO_CHAIN }
        : { state, say: closed ? 'Three walls at least go round a room.' : 'A wall needs a second point.' };
    const edit = { ...chainEdit(state, closed, context), ...more(context.drawing) };
    const name = id === 'halfWall' ? { words: 'draw half wall' } : {};
    return {
      state: NO_CHAIN,
      commit: { edit, ...name },
      refused: { ...state, pressed: null },
    };
  };
  return {
    id,
    words,
    start: () => NO_CHAIN,
    busy: ({ points }) => points.length > 0,
    steps: {
      end: (state, context) => (state.points.length < 2 ? null : given(state, false, context)),
      back: withoutLast,
      forward: withTakenBack,
    },

    pointer(state, input, context) {
      if (input.kind === 'leave')
        return { state: state.pressed === null ? { ...state, caught: null } : state };
      if (input.kind === 'double') return given(state, false, context);
      const now: ChainState = {
        ...state,
        caught: caughtAt(state, input, context),
        pointed: input,
        exact: input.exact === true,
      };
      if (input.kind === 'down') {
        if (now.points.length === 0)
          return { state: { ...withPoint(now, now.caught!.at, null), pressed: input.at } };
        const again = now.points.length > 1 && distance(now.caught!.at, now.points.at(-1)!) === 0;
        if (again && Object.keys(now.typed).length === 0) return given(now, false, context);
        return placed(now, { ...now, pressed: input.at }, context);
      }
      if (input.kind === 'up') {
        const dragged = now.pressed !== null && isDrag(now.pressed, input, context);
        const idle = { ...now, pressed: null };
        return dragged && now.points.length > 0 ? placed(idle, idle, context) : { state: idle };
      }
      return { state: now };
    },

    key(state, input, context) {
      const { key, mod, alt } = input;
      if (mod || alt) return null;
      const low = key.toLowerCase();
      if (low === 'a') return { state, drawing: { along: nextAlong(context.drawing.along) } };
      if (low === 'n') return { state: cycled(state, (now, at) => caughtAt(now, at, context)) };
      if (state.points.length === 0) return null;
      if (key === 'Enter') return given(state, false, context);
      if (low === 'k') return given(state, true, context);
      if (low === 'h') return { state: { ...state, hand: handOf(state) === 'left' ? 'right' : 'left' } };
      if (key === 'Backspace') return { state: withoutLast(state) };
      return null;
    },

    typing: (state, typed) => ({ ...state, typed }),

    typed(state, figures, context) {
      const begun = state.points.length > 0 ? state : withPoint(state, typedStart(state, context), null);
      const now = { ...begun, typed: figures };
      const place = placeOf(now);
      if (figures.length !== undefined && !(figures.length > 0))
        return { state, say: 'A wall needs a length above zero.' };
      if (place === null)
        return { state, say: 'Type a length as well, such as the distance to the next corner.' };
      if (!(distance(now.points.at(-1)!, place) > 0))
        return { state, say: 'A wall needs a length above zero.' };
      return placed(now, { ...now, typed: {} }, context, figures.length ?? null);
    },

    fields: (state, context) => chainFields(state, context),
    picture(state, context) {
      // What is typed before there is a start is shown from where it would start.
      const waits = state.points.length === 0 && Object.keys(state.typed).length > 0;
      const now = fromFace(waits ? withPoint(state, typedStart(state, context), null) : state, context);
      return chainPicture(now, placeOf(now), context);
    },
    hint: hintOf,
    deeds: ({ points }) => [
      {
        words: 'Close',
        more: 'Close the walls at their start',
        key: 'k',
        keyWords: 'K',
        off: points.length < 3,
        ends: true,
      },
      {
        words: 'End',
        more: 'End the walls here',
        key: 'Enter',
        keyWords: 'Enter',
        off: points.length < 2,
        ends: true,
      },
      {
        words: 'Flip',
        more: 'The room is on the other side of the line',
        key: 'h',
        keyWords: 'H',
        off: points.length < 2,
      },
      {
        words: 'Back',
        more: 'Take the last point back',
        key: 'Backspace',
        keyWords: 'Backspace',
        off: points.length < 1,
      },
    ],
  };

  /** Puts the next point down, or closes the chain where that is its start. */
  function placed(
    at: ChainState,
    following: ChainState,
    context: ToolContext,
    length: number | null = at.typed.length ?? null,
  ): ToolStep<ChainState> {
    const now = fromFace(at, context);
    const next = { ...following, points: now.points };
    const place = placeOf(now);
    const last = now.points.at(-1)!;
    if (place === null || distance(place, last) === 0) return { state: next };
    const first = now.points[0]!;
    if (now.points.length >= 3 && distance(place, first) <= 1)
      return given({ ...now, lengths: [...now.lengths, length] }, true, context);
    if (turnsBack([...now.points, place], context))
      return { state: { ...at, pressed: null }, say: TURNS_BACK };
    return { state: withPoint({ ...next, typed: {} }, place, length), used: true };
  }
}

const TURNS_BACK = 'This wall would turn back along the one just drawn: put its end elsewhere.';

/** Whether the last wall of a line turns back on the one before it, as no walls are drawn. */
function turnsBack(points: readonly Point[], { drawing: { along, thickness } }: ToolContext): boolean {
  const corner = points.slice(-3);
  return corner.length === 3 && centreLine(corner, false, thickness, along, roomHand(corner)) === null;
}

/** The chain as its first wall is drawn: one that begins in another wall begins at the face that it leaves by. */
function fromFace(state: ChainState, { level, drawing }: ToolContext): ChainState {
  const [start] = state.points;
  if (start === undefined || state.points.length > 1 || drawing.along === 'centre') return state;
  const place = placeOf(state);
  const face = place === null ? null : leavingFace(level, start, place);
  return face === null ? state : { ...state, points: [face] };
}

function typedStart({ caught, exact }: ChainState, context: ToolContext): Point {
  return exact && caught !== null ? caught.at : startPlace(context);
}

function chainEdit(state: ChainState, closed: boolean, { level, drawing }: ToolContext): AddChain {
  const { points, lengths, hand } = state;
  const { along: side, thickness } = drawing;
  const measured = side === 'inside' && lengths.some((each) => each !== null);
  return {
    type: 'addChain',
    level: level.id,
    points,
    closed,
    along: side,
    thickness,
    ids: newIds(level, points.length, closed ? points.length : points.length - 1),
    ...(hand === null ? {} : { hand }),
    ...(measured ? { measured: lengths } : {}),
  };
}

function nextAlong(now: DrawingOptions['along']): DrawingOptions['along'] {
  return now === 'inside' ? 'centre' : now === 'centre' ? 'outside' : 'inside';
}

/** The pointer caught by the sheet, or by what the chain has put down. */
function caughtAt(state: ChainState, input: Pointed, context: ToolContext): SnapAnswer {
  const { points, cycle } = state;
  const last = points.at(-1);
  const drawn = points.slice(0, -1).map((at, i) => ({
    at,
    words: i === 0 ? 'the start' : 'an earlier corner',
    closes: i === 0 && points.length >= 3,
  }));
  return snapped(
    input,
    {
      last: state.exact ? null : state.caught,
      cycle,
      references: references(points),
      drawn,
      faceCorners: context.drawing.along !== 'centre',
      ...(last === undefined ? {} : { start: last }),
    },
    context,
  );
}

function references(points: readonly Point[]): readonly Reference[] {
  const [from, to] = points.slice(-2);
  return from === undefined || to === undefined ? [] : [{ from, to, words: 'the wall before' }];
}

function chainFields(whole: ChainState, context: ToolContext): readonly TapeField[] {
  const state = fromFace(whole, context);
  const { points } = state;
  const last = points.at(-1);
  const place = last === undefined ? null : placeOf(state);
  const length = place === null || last === undefined ? '' : context.figures.length(distance(last, place));
  const before = wayOf(headingBefore(points));
  const turn =
    place === null || last === undefined || distance(last, place) === 0
      ? angleText(points.length < 2 ? 0 : 90)
      : angleText(turnOfWays(before, unit(minus(place, last))));
  return [
    { id: 'length', label: 'Length', takes: 'length', live: length },
    { id: 'angle', label: points.length < 2 ? 'Heading' : 'Turn', takes: 'angle', live: turn },
  ];
}

function hintOf(state: ChainState): string {
  const { points, caught } = state;
  const more = caughtWords(caught);
  if (points.length === 0) return `${more}Click where it starts, or type its length.`;
  const place = placeOf(state);
  if (place !== null && points.length >= 3 && distance(place, points[0]!) === 0)
    return 'Click to close the walls at their start.';
  if (points.length === 1) return `${more}Next corner, or type length and heading.`;
  const close = points.length >= 3 ? ' K closes them.' : '';
  return `${more}Next corner, or Enter to end the walls.${close}`;
}
