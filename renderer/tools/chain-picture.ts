// Walls that are being drawn, as they would stand: a wash for each wall, the drawn line, lengths and the turn. Ticks.

import type { Hand } from '../../core/edit/index.ts';
import { centreLine } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import { along, distance, midpoint, minus, rightOf, unit } from '../../core/graph/index.ts';
import { type ChainState, handOf } from './chain-state.ts';
import { angleText, headingOf, turnOfWays } from './directions.ts';
import { caughtPicture, NO_PICTURE } from './snapping.ts';
import type { DrawingOptions, ToolContext, ToolPicture } from './types.ts';

export function chainPicture(state: ChainState, place: Point | null, context: ToolContext): ToolPicture {
  const { points } = state;
  const last = points.at(-1);
  const goesOn = last !== undefined && place !== null && distance(last, place) > 0;
  const closes = goesOn && points.length >= 3 && distance(place, points[0]!) === 0;
  const line = goesOn && !closes ? [...points, place] : points;
  const caught = caughtPicture(state.caught);
  const hand = state.hand ?? handOf({ ...state, points: line });
  const ends = line.slice(1).map((to, i) => [line[i]!, to] as const);
  const all = closes ? [...ends, [line.at(-1)!, line[0]!] as const] : ends;
  const angle =
    goesOn && points.length >= 2
      ? [
          {
            at: along(last, unit(minus(last, points.at(-2)!)), 18 / context.pixelsPerTick),
            words: angleText(turnOfWays(minus(last, points.at(-2)!), minus(place, last))),
          },
        ]
      : [];
  return {
    ...NO_PICTURE,
    cursor: 'crosshair',
    shapes: wallShapes(line, closes, context.drawing, hand).map((corners) => ({
      points: corners,
      kind: 'wall',
    })),
    lines: [...caught.lines, ...all.map(([from, to]) => ({ from, to, kind: 'drawn' as const }))],
    points: [...caught.points, ...(points.length > 0 ? [{ at: points[0]!, kind: 'start' as const }] : [])],
    labels: [...all.map(([from, to]) => lengthLabel(from, to, context)), ...angle],
  };
}

/** A length beside the line it measures, turned to be read from below. */
export function lengthLabel(
  from: Point,
  to: Point,
  { figures, pixelsPerTick }: ToolContext,
): ToolPicture['labels'][number] {
  const deg = headingOf(from, to);
  const turnDeg = deg >= 90 ? deg - 180 : deg < -90 ? deg + 180 : deg;
  const length = distance(from, to);
  const off = length === 0 ? [0, 0] : rightOf(unit(minus(to, from)));
  const at = along(midpoint(from, to), [off[0]!, off[1]!], 12 / pixelsPerTick);
  return { at, words: figures.length(length), turnDeg };
}

/** Each wall of a line as four corners; nothing where the line cannot be built so. */
export function wallShapes(
  points: readonly Point[],
  closed: boolean,
  { along: side, thickness }: Pick<DrawingOptions, 'along' | 'thickness'>,
  hand: Hand,
): readonly (readonly Point[])[] {
  if (points.length < 2) return [];
  const face = (width: number, of: 'inside' | 'outside') =>
    centreLine(points, closed, width, of, hand)?.points;
  const near = side === 'centre' ? face(thickness, 'inside') : points;
  const far = side === 'centre' ? face(thickness, 'outside') : face(2 * thickness, side);
  if (near === undefined || far === undefined) return [];
  const count = closed ? points.length : points.length - 1;
  return Array.from({ length: count }, (_, i) => {
    const j = (i + 1) % points.length;
    return [near[i]!, near[j]!, far[j]!, far[i]!];
  });
}
