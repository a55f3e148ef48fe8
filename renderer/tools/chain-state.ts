// A chain of walls being drawn: its points so far, what the pointer and the typed figures say of the next one. Ticks; turns
// in degrees, to the right hand positive. Knows neither edits nor pictures.

import { type Hand, roomHand } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import { along, distance, dot, minus, unit } from '../../core/graph/index.ts';
import type { SnapAnswer } from '../../core/snap/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import { headingOf, wayOf } from './directions.ts';
import type { Pointed } from './snapping.ts';
import type { TapeFigures } from './types.ts';

export interface ChainState {
  readonly points: readonly Point[];
  /** The typed length of each wall; null where it was pointed at. */
  readonly lengths: readonly (number | null)[];
  /** Where the pointer is taken to be; null before it came, and after a typed wall until it moves again. */
  readonly caught: SnapAnswer | null;
  readonly pointed: Pointed | null;
  /** Whether that is the keyboard's cross. */
  readonly exact: boolean;
  readonly typed: TapeFigures;
  readonly hand: Hand | null;
  /** Where the button went down, while it is down. */
  readonly pressed: Point | null;
  readonly cycle: number;
  /** As it was before its last point was taken back; null once another is put down. */
  readonly takenBack: ChainState | null;
}

export const NO_CHAIN: ChainState = {
  points: [],
  lengths: [],
  caught: null,
  pointed: null,
  exact: false,
  typed: {},
  hand: null,
  pressed: null,
  cycle: 0,
  takenBack: null,
};

/** With one more point, and the length that was typed for the wall to it. */
export function withPoint(state: ChainState, at: Point, length: number | null): ChainState {
  const lengths = state.points.length === 0 ? [] : [...state.lengths, length];
  const caught = length === null ? state.caught : null;
  return { ...state, points: [...state.points, at], lengths, caught, takenBack: null };
}

export function withoutLast(state: ChainState): ChainState {
  const { points, lengths } = state;
  if (points.length <= 1) return { ...NO_CHAIN, takenBack: points.length === 0 ? state.takenBack : state };
  return {
    ...state,
    points: points.slice(0, -1),
    lengths: lengths.slice(0, -1),
    typed: {},
    takenBack: state,
  };
}

/** The point that was taken back last put down again; null where none was. */
export function withTakenBack({ takenBack, points, hand, caught, exact }: ChainState): ChainState | null {
  if (takenBack === null) return null;
  const side = points.length === 0 ? takenBack.hand : hand;
  return { ...takenBack, hand: side, caught, exact, typed: {}, pressed: null };
}

export function handOf({ hand, points }: ChainState): Hand {
  return hand ?? roomHand(points);
}

/** Where the next point would go, by the pointer and by what is typed; null where neither says. Whole ticks. */
export function placeOf(state: ChainState): Point | null {
  const { points, caught, typed } = state;
  const last = points.at(-1);
  if (last === undefined) return caught?.at ?? null;
  const pointed = caught !== null && distance(caught.at, last) > 0 ? caught.at : null;
  const { length, angle } = typed;
  if (length === undefined && angle === undefined) return pointed ?? null;
  const heading = angle === undefined ? null : headingBefore(points) + angle;
  const way =
    heading !== null
      ? wayOf(heading)
      : pointed !== null
        ? unit(minus(pointed, last))
        : wayOf(defaultHeading(points));
  const reach = length ?? (pointed === null ? null : dot(minus(pointed, last), way));
  if (reach === null || !(reach > 0)) return null;
  const at = along(last, way, reach);
  const whole: Point = [roundHalfAway(at[0]), roundHalfAway(at[1])];
  const first = points[0]!;
  const closes = points.length >= 3 && distance(whole, first) <= 1;
  return closes ? first : whole;
}

/** The way the last wall runs, degrees; 0 before there is one, so that the first turn is a heading. */
export function headingBefore(points: readonly Point[]): number {
  const [from, to] = points.slice(-2);
  if (from === undefined || to === undefined) return 0;
  const deg = headingOf(from, to);
  const quarter = Math.round(deg / 90) * 90;
  return Math.abs(deg - quarter) < 1e-9 ? quarter : deg;
}

/** Where nothing points: the first wall to the right, each next one a quarter turn to the right hand, as a room is walked. */
function defaultHeading(points: readonly Point[]): number {
  return points.length < 2 ? 0 : headingBefore(points) + 90;
}
