// A room by two corners: click and click, press and drag, or typed width and depth. Its four walls are one edit. Ticks.

import type { AddChain } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import type { SnapAnswer } from '../../core/snap/index.ts';
import { lengthLabel, wallShapes } from './chain-picture.ts';
import { startPlace } from './cursor.ts';
import { newIds } from './new-ids.ts';
import { type Axis, type Side, sideOn } from './room-sides.ts';
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
import type { TapeFigures, Tool, ToolContext, ToolStep } from './types.ts';

export interface RoomState extends Catching {
  readonly from: Point | null;
  readonly exact: boolean;
  readonly typed: TapeFigures;
  readonly pressed: Point | null;
}

const EMPTY: RoomState = {
  from: null,
  caught: null,
  pointed: null,
  exact: false,
  typed: {},
  pressed: null,
  cycle: 0,
};

export const roomTool: Tool<RoomState> = {
  id: 'room',
  words: 'Draw a room by two corners',
  start: () => EMPTY,
  busy: ({ from }) => from !== null,

  pointer(state, input, context) {
    if (input.kind === 'leave') return { state: state.pressed === null ? { ...state, caught: null } : state };
    if (input.kind === 'double') return { state };
    const caught = caughtAt(state, input, context);
    const now: RoomState = { ...state, caught, pointed: input, exact: input.exact === true };
    if (input.kind === 'down') {
      if (now.from === null) return { state: { ...now, from: caught.at, pressed: input.at } };
      return given(now, now, context);
    }
    if (input.kind === 'up') {
      const dragged = now.pressed !== null && isDrag(now.pressed, input, context);
      const idle = { ...now, pressed: null };
      return dragged ? given(idle, idle, context) : { state: idle };
    }
    return { state: now };
  },

  key(state, { key, mod, alt }, context) {
    if (mod || alt) return null;
    const low = key.toLowerCase();
    const { along } = context.drawing;
    if (low === 'a')
      return {
        state,
        drawing: { along: along === 'inside' ? 'centre' : along === 'centre' ? 'outside' : 'inside' },
      };
    if (low === 'n') return { state: cycled(state, (now, at) => caughtAt(now, at, context)) };
    if (key === 'Enter' && state.from !== null) return given(state, state, context);
    if (key === 'Backspace' && state.from !== null) return { state: EMPTY };
    return null;
  },

  typing: (state, typed) => ({ ...state, typed }),

  typed(state, figures, context) {
    const from = state.from ?? typedStart(state, context);
    return given({ ...state, from, typed: figures }, state, context);
  },

  fields(state, context) {
    const room = drawnRoom(state, context);
    const live = (axis: Axis): string => (room === null ? '' : context.figures.length(room.size[axis]));
    return [
      { id: 'width', label: 'Width', takes: 'length', live: live(0) },
      { id: 'depth', label: 'Depth', takes: 'length', live: live(1) },
    ];
  },

  picture(now, context) {
    const waits = now.from === null && Object.keys(now.typed).length > 0;
    const state = waits ? { ...now, from: typedStart(now, context) } : now;
    const caught = caughtPicture(state.caught);
    const room = drawnRoom(state, context);
    if (room === null)
      return {
        ...NO_PICTURE,
        cursor: 'crosshair',
        lines: caught.lines,
        points: [
          ...caught.points,
          ...(state.from === null ? [] : [{ at: state.from, kind: 'start' as const }]),
        ],
      };
    const { corners } = room;
    const sides = corners.map((from, i) => [from, corners[(i + 1) % 4]!] as const);
    return {
      ...NO_PICTURE,
      cursor: 'crosshair',
      shapes: wallShapes(corners, true, context.drawing, 'right').map((points) => ({ points, kind: 'wall' })),
      lines: [...caught.lines, ...sides.map(([from, to]) => ({ from, to, kind: 'drawn' as const }))],
      points: [...caught.points, { at: state.from!, kind: 'start' }],
      labels: sides.slice(0, 2).map(([from, to]) => lengthLabel(from, to, context)),
    };
  },

  hint: (state) =>
    state.from === null
      ? `${caughtWords(state.caught)}Click one corner of the room, or type its width, Tab, its depth.`
      : `${caughtWords(state.caught)}Click the opposite corner, or type width, Tab, depth.`,
};

function caughtAt({ exact, caught, cycle }: RoomState, input: Pointed, context: ToolContext): SnapAnswer {
  return snapped(input, { last: exact ? null : caught, cycle, lines: 'both' }, context);
}

function typedStart({ exact, caught }: RoomState, context: ToolContext): Point {
  return exact && caught !== null ? caught.at : startPlace(context);
}

/** The room as it would be drawn: its corners clockwise from the top left, and its size between the faces. */
interface Drawn {
  readonly corners: readonly Point[];
  readonly size: readonly [width: number, depth: number];
  /** By axis: whether a tape laid between the faces reads what is drawn, so that a typed length may be kept as measured. */
  readonly asRead: readonly [boolean, boolean];
}

/**
 * By pointer and figures; a figure goes to the pointer's side, else right and down, from the face that stands there. Null
 * where the room has no floor.
 */
function drawnRoom({ from, caught, typed }: RoomState, { level, drawing }: ToolContext): Drawn | null {
  if (from === null) return null;
  const figures = [typed.width, typed.depth] as const;
  const put = ([0, 1] as const).map((axis) => {
    const pointed = caught === null ? 0 : caught.at[axis] - from[axis];
    const inward: 1 | -1 = pointed < 0 ? -1 : 1;
    const figure = figures[axis];
    return {
      inward,
      figure,
      far: figure === undefined ? from[axis] + pointed : from[axis] + inward * figure,
    };
  });
  const sides = ([0, 1] as const).map((axis) => {
    const { inward, figure, far } = put[axis]!;
    const other = axis === 0 ? 1 : 0;
    const reach = [from[other], put[other]!.far] as const;
    const near = sideOn({ axis, at: from[axis], inward, reach }, level, drawing);
    const end = near.face + inward * (figure ?? 0);
    const opposite: Side =
      figure === undefined
        ? sideOn({ axis, at: far, inward: inward === 1 ? -1 : 1, reach }, level, drawing)
        : { line: end, face: end };
    return { near, far: opposite, inward };
  });
  const [across, down] = [sides[0]!, sides[1]!];
  const hasFloor = sides.every(({ near, far, inward }) => inward * (far.line - near.line) > 0);
  if (!hasFloor) return null;
  const span = ({ near, far }: typeof across) =>
    [near.line, far.line].sort((a, b) => a - b) as [number, number];
  const [[left, right], [top, bottom]] = [span(across), span(down)];
  return {
    corners: [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ],
    size: [Math.abs(across.far.face - across.near.face), Math.abs(down.far.face - down.near.face)],
    asRead: [across, down].map(({ near, far }) => near.line === near.face && far.line === far.face) as [
      boolean,
      boolean,
    ],
  };
}

function given(state: RoomState, refused: RoomState, context: ToolContext): ToolStep<RoomState> {
  const room = drawnRoom(state, context);
  const { typed } = state;
  for (const side of ['width', 'depth'] as const)
    if (typed[side] !== undefined && !(typed[side] > 0))
      return { state: refused, say: `The room’s ${side} must be above zero.` };
  if (room === null) {
    if (typed.width !== undefined || typed.depth !== undefined)
      return {
        state: refused,
        say: `Type the room’s ${typed.width === undefined ? 'width' : 'depth'} as well.`,
      };
    return { state: refused };
  }
  const { corners, asRead } = room;
  const { along, thickness } = context.drawing;
  const least = along === 'inside' ? 0 : along === 'centre' ? thickness : 2 * thickness;
  const [width, depth] = [corners[1]![0] - corners[0]![0], corners[2]![1] - corners[1]![1]];
  if (width <= least || depth <= least)
    return { state: refused, say: 'There is no floor left between walls so close together.' };
  const kept = [asRead[0] ? typed.width : undefined, asRead[1] ? typed.depth : undefined];
  const lengths = [...kept, ...kept].map((each) => each ?? null);
  const measured = along === 'inside' && lengths.some((each) => each !== null);
  const edit: AddChain = {
    type: 'addChain',
    level: context.level.id,
    points: corners,
    closed: true,
    hand: 'right',
    ids: newIds(context.level, 4, 4),
    along,
    thickness,
    ...(measured ? { measured: lengths } : {}),
  };
  const [[left, top], , [right, bottom]] = corners as readonly [Point, Point, Point];
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  return { state: EMPTY, commit: { edit }, selectRoomAt: middle, refused: { ...refused, pressed: null } };
}
