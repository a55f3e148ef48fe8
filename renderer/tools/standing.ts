// Places what stands on a wall: doors and other openings, built-ins, outlets and registers. Pointed at, or typed as the gap
// to either corner of the face. One thing is one edit. Ticks along the wall; left and right as seen facing it.

import type { Edit } from '../../core/edit/index.ts';
import { idGiver } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import type { BuiltInId, Level, MarkId, OpeningId, Side, WallId } from '../../core/plan/index.ts';
import { ticksFromMm } from '../../core/units/index.ts';
import type { Ref } from '../state/refs.ts';
import { alongFace, type Face, faceNear, faceOf, gapsOf, placeByGap } from './faces.ts';
import { THING_NAMES, type ThingKind, unfit } from './room-on-face.ts';
import { usualReveal } from './sizes.ts';
import { slide } from './slide.ts';
import { NO_PICTURE } from './snapping.ts';
import { chosenFace, rehomed, standingPicture } from './standing-places.ts';
import type { DrawingOptions, TapeFigures, Tool, ToolContext, ToolId, ToolStep } from './types.ts';

export interface StandingState {
  readonly on: { readonly wall: WallId; readonly side: Side; readonly at: number } | null;
  /** The face that the last thing went on: the next goes there too where nothing else is pointed at or chosen. */
  readonly last: { readonly wall: WallId; readonly side: Side } | null;
  readonly held: string | null;
  readonly words: string;
  readonly typed: TapeFigures;
}

interface Kind {
  readonly id: ToolId & ThingKind;
  readonly words: string;
  width(drawing: DrawingOptions): number;
  widthSet(width: number): Partial<DrawingOptions>;
  depth(drawing: DrawingOptions): number | null;
  make(
    place: { wall: WallId; side: Side; at: number; width: number },
    face: Face,
    context: ToolContext,
  ): { edit: Edit; ref: Ref };
}

/** Nearer to a wall than this a thing goes on it, pixels. */
const REACH_PX = 40;
const EMPTY: StandingState = { on: null, last: null, held: null, words: '', typed: {} };

export const openingTool = standingTool({
  id: 'opening',
  words: 'Place a door, window or opening',
  width: ({ openingWidth }) => openingWidth,
  widthSet: (openingWidth) => ({ openingWidth }),
  depth: () => null,
  make({ wall, at, width }, face, { level, drawing, plan }) {
    const id = idGiver<OpeningId>('o', Object.keys(level.openings))();
    const { openingKind: kind, openingHeight: height, openingSill } = drawing;
    const sill = kind === 'window' ? openingSill : 0;
    const pocket = kind === 'pocket' ? { pocket: pocketSide(face, at, width) } : {};
    const reveal = usualReveal(kind, plan.units);
    const record = {
      wall,
      at,
      width,
      height,
      sill,
      kind,
      ...(reveal === null ? {} : { reveal }),
      ...pocket,
    };
    return {
      edit: { type: 'addOpening', level: level.id, opening: id, record },
      ref: { kind: 'opening', level: level.id, id },
    };
  },
});

/** A pocket door slides to where the wall is longer. */
function pocketSide(face: Face, at: number, width: number): 'start' | 'end' {
  return at >= face.length - at - width ? 'start' : 'end';
}

export const builtInTool = standingTool({
  id: 'builtIn',
  words: 'Place a built-in',
  width: ({ builtInWidth }) => builtInWidth,
  widthSet: (builtInWidth) => ({ builtInWidth }),
  depth: ({ builtInDepth }) => builtInDepth,
  make({ wall, side, at, width }, _face, { level, drawing }) {
    const id = idGiver<BuiltInId>('b', Object.keys(level.builtIns))();
    const { builtInKind: kind, builtInBottom: bottom, builtInTop: top, builtInDepth: depth } = drawing;
    const record = { wall, side, at, width, bottom, top, depth, kind };
    return {
      edit: { type: 'addBuiltIn', level: level.id, builtIn: id, record },
      ref: { kind: 'builtIn', level: level.id, id },
    };
  },
});

/** Width, bottom and top, mm: a single-gang plate; a 4 × 12 in wall register with its frame. Common practice. */
const MARKS = {
  outlet: { width: 70, bottom: 300, top: 415 },
  register: { width: 340, bottom: 50, top: 190 },
} as const;

export const markTool = standingTool({
  id: 'mark',
  words: 'Place an outlet or register',
  width: ({ markKind }) => ticksFromMm(MARKS[markKind].width),
  widthSet: () => ({}),
  depth: () => null,
  make({ wall, side, at, width }, _face, { level, drawing }) {
    const id = idGiver<MarkId>('k', Object.keys(level.marks))();
    const { markKind: kind } = drawing;
    const [bottom, top] = [ticksFromMm(MARKS[kind].bottom), ticksFromMm(MARKS[kind].top)];
    const record: Level['marks'][MarkId] = { wall, side, at, kind, bottom, top, width };
    return {
      edit: { type: 'addMark', level: level.id, mark: id, record },
      ref: { kind: 'mark', level: level.id, id },
    };
  },
});

function standingTool(kind: Kind): Tool<StandingState> {
  const name = THING_NAMES[kind.id];
  const widthNow = (state: StandingState, { drawing }: ToolContext) =>
    state.typed.width ?? kind.width(drawing);

  /** Where it would stand; null where no wall is meant. */
  function placeOf(
    state: StandingState,
    context: ToolContext,
  ): { face: Face; at: number; width: number } | null {
    const { typed, on } = state;
    const face =
      on === null ? meantFace(state, context) : faceOf(context.level, context.walk, on.wall, on.side);
    if (face === null) return null;
    const { left, right } = typed;
    if (left !== undefined && right !== undefined) {
      const width = face.high - face.low - left - right;
      return rehomed(face, placeByGap(face, left, 'left', width), Math.round(width), context);
    }
    const width = widthNow(state, context);
    if (left !== undefined) return rehomed(face, placeByGap(face, left, 'left', width), width, context);
    if (right !== undefined) return rehomed(face, placeByGap(face, right, 'right', width), width, context);
    const at = on?.at ?? Math.round((face.low + face.high - width) / 2);
    return rehomed(face, at, width, context);
  }

  /** The chosen face; of the thing just placed, the side it was placed from. */
  function meantFace({ last }: StandingState, context: ToolContext): Face | null {
    const chosen = chosenFace(context);
    const same = last !== null && chosen?.wall === last.wall && context.selection[0]?.kind === kind.id;
    return same ? faceOf(context.level, context.walk, last.wall, last.side) : chosen;
  }

  function given(state: StandingState, context: ToolContext): ToolStep<StandingState> {
    const place = placeOf(state, context);
    if (place === null)
      return { state, say: `Point at a wall, or choose one in the walk first: the ${name} goes on it.` };
    const { face, at, width } = place;
    const wrong = unfit(kind.id, null, place, state.typed, context);
    if (wrong !== null) return { state, say: wrong };
    const { edit, ref } = kind.make({ wall: face.wall, side: face.side, at, width }, face, context);
    const drawing = state.typed.width === undefined ? {} : { drawing: kind.widthSet(state.typed.width) };
    return {
      state: { ...state, typed: {}, last: { wall: face.wall, side: face.side } },
      commit: { edit },
      select: [ref],
      refused: state,
      ...drawing,
    };
  }

  return {
    id: kind.id,
    words: kind.words,
    start: () => EMPTY,
    busy: ({ typed }) => Object.keys(typed).length > 0,

    pointer(state, input, context) {
      if (input.kind === 'leave') return { state: { ...state, on: null, held: null, words: '' } };
      const now = slid(state, input.at, context.snapping.on !== input.mod && input.exact !== true, context);
      if (input.kind !== 'down') return { state: now };
      // A press is meant for where it is: on open floor nothing goes on a wall that happens to be chosen.
      const nowhere = now.on === null && Object.keys(now.typed).length === 0;
      return nowhere ? { state: now, say: `Point at a wall for the ${name}.` } : given(now, context);
    },

    key(state, { key, mod, alt }, context) {
      return key === 'Enter' && !mod && !alt ? given(state, context) : null;
    },
    typing: (state, typed) => ({ ...state, typed }),
    typed: (state, typed, context) => given({ ...state, typed }, context),

    fields(state, context) {
      const place = placeOf(state, context);
      const gaps = place === null ? null : gapsOf(place.face, place.at, place.width);
      const live = (gap: number | undefined) => (gap === undefined ? '' : context.figures.length(gap));
      const fields = [
        {
          id: 'left',
          label: 'From left',
          more: 'From the left corner',
          takes: 'length',
          live: live(gaps?.left),
        },
        {
          id: 'right',
          label: 'From right',
          more: 'From the right corner',
          takes: 'length',
          live: live(gaps?.right),
        },
      ] as const;
      const width = context.figures.length(place?.width ?? widthNow(state, context));
      return kind.id === 'mark'
        ? fields
        : [...fields, { id: 'width', label: 'Width', takes: 'length', live: width }];
    },

    picture(state, context) {
      const place =
        state.on === null && Object.keys(state.typed).length === 0 ? null : placeOf(state, context);
      if (place === null) return { ...NO_PICTURE, cursor: 'crosshair' };
      return standingPicture(place, kind.depth(context.drawing), kind.id, state.words, context);
    },

    hint(state, context) {
      const place = placeOf(state, context);
      if (place === null) return `Point at a wall for the ${name}, or choose a wall and type a gap.`;
      const caught = state.words === '' ? '' : `Caught: ${state.words}. `;
      return `${caught}Click to place the ${name}, or type a gap.`;
    },
  };

  function slid(state: StandingState, at: Point, snaps: boolean, context: ToolContext): StandingState {
    const face = faceNear(context, at, REACH_PX / context.pixelsPerTick);
    if (face === null) return { ...state, on: null, held: null, words: '' };
    const width = widthNow(state, context);
    const same = state.on?.wall === face.wall && state.on.side === face.side;
    const wish = { kind: kind.id, width, was: null, but: null, held: same ? state.held : null, snaps };
    const { at: place, words, held } = slide(face, alongFace(face, at) - width / 2, wish, context);
    return { ...state, on: { wall: face.wall, side: face.side, at: place }, held, words };
  }
}
