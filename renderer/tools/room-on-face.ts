// Whether there is room for a thing where it is to stand on a face. An inside corner is as far as anything goes; past an
// outside corner or a free end a built-in or a mark may reach, an opening lies inside its wall. What stands past an inside
// corner already may stay so far past it. Ticks along the wall.

import type { Side, WallId } from '../../core/plan/index.ts';
import { type Face, gapsOf } from './faces.ts';
import type { Place } from './standing-places.ts';
import type { TapeFigures, ToolContext } from './types.ts';

/** A thing along its wall. */
export interface Span {
  readonly at: number;
  readonly width: number;
}

export type ThingKind = 'opening' | 'builtIn' | 'mark';
export const THING_NAMES = { opening: 'opening', builtIn: 'built-in', mark: 'mark' } as const;

/** What is to be put on a face. */
export interface Wanted {
  readonly kind: ThingKind;
  readonly width: number;
  /** Where it stands on that face already; null where it does not. */
  readonly was: Span | null;
}

/** Where a thing that stands somewhere stands on a face; null where it is not on that. */
export function wasOn(
  { wall, side }: Pick<Face, 'wall' | 'side'>,
  thing: Span & { readonly wall: WallId; readonly side?: Side },
): Span | null {
  return thing.wall === wall && (thing.side ?? side) === side ? thing : null;
}

/** The least and the greatest place of its nearer edge; the least is above the greatest where there is no room for it. */
export function placesOn(face: Face, { kind, width, was }: Wanted): readonly [least: number, most: number] {
  const [low, high] = endsFor(face, was);
  return kind === 'opening'
    ? [Math.ceil(Math.max(0, low)), Math.floor(Math.min(face.length + 0.5, high) - width)]
    : [Math.ceil(Math.max(1 - width, low)), Math.floor(Math.min(Math.ceil(face.length) - 1, high - width))];
}

/** Between which ends of its face a thing must lie: infinite where no inside corner is. */
function endsFor({ low, high, shut }: Face, was: Span | null): readonly [low: number, high: number] {
  return [
    shut.low ? Math.min(low, was?.at ?? low) : -Infinity,
    shut.high ? Math.max(high, was === null ? high : was.at + was.width) : Infinity,
  ];
}

/** A sentence where what was typed for a thing is too much, or it would not fit where that puts it; else null. */
export function unfit(
  kind: ThingKind,
  was: Span | null,
  { face, at, width }: Place,
  typed: TapeFigures,
  context: Pick<ToolContext, 'figures'>,
): string | null {
  const name = THING_NAMES[kind];
  if (typed.width !== undefined && !(typed.width > 0)) return 'Type a width above zero.';
  const tooMuch = overdone(face, typed, context);
  if (tooMuch !== null) return tooMuch;
  if (!(width >= 1)) return `There is no room left between those gaps for the ${name}.`;
  const [low, high] = endsFor(face, was);
  const onFloor = at > low - 1 && at + width < high + 1;
  const onWall =
    kind === 'opening' ? at >= 0 && at + width <= face.length + 0.5 : at < face.length && at + width > 0;
  if (onFloor && onWall) return null;
  if (at >= face.low && at + width <= face.high)
    return `The ${name} would lie over the joint of two walls: join them into one first.`;
  const { left, right } = gapsOf(face, at, width);
  const { length } = context.figures;
  return `The ${name} does not fit there: it would leave ${length(left)} on its left and ${length(right)} on its right.`;
}

/** A sentence where both gaps and a width were typed and do not fill the face together; else null. */
function overdone(
  { low, high }: Face,
  { left, right, width }: TapeFigures,
  { figures }: Pick<ToolContext, 'figures'>,
): string | null {
  if (left === undefined || right === undefined || width === undefined) return null;
  const all = left + right + width;
  if (Math.abs(high - low - all) <= 1) return null;
  return (
    `The two gaps and the width make ${figures.length(all)} together, and there is ${figures.length(high - low)} ` +
    'between the corners. Leave one of the three empty.'
  );
}
