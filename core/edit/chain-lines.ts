// The line a person draws along, which may be a face of the walls, to the walls' centre line. Ticks, x right, y down.
// The drawn line keeps its place: what was typed between corners is what a tape says there. Knows no level. RULES: ED18.

import type { Point } from '../graph/index.ts';
import {
  along as alongLine,
  distance,
  dot,
  exactTurn,
  lengthOf,
  minus,
  rightOf,
  signedArea,
  unit,
} from '../graph/index.ts';
import { FURTHEST_CORNER } from './limits.ts';

/** What the drawn line is to the walls: the face towards the room, their middle, or the face away from the room. */
export type DrawnAlong = 'inside' | 'centre' | 'outside';
export type Hand = 'left' | 'right';

/**
 * Which hand the room is on when walking the points: the side they turn to, by the area that they and the way back from
 * the last to the first enclose. Right where they enclose none: the wall is then on the left hand. RULES: ED18, WK1.
 */
export function roomHand(points: readonly Point[]): Hand {
  return signedArea(points) < 0 ? 'left' : 'right';
}

export interface CentreLine {
  /** One for each drawn point; not rounded. */
  readonly points: readonly Point[];
  /** Unit vectors, one for each wall. */
  readonly ways: readonly Point[];
}

/**
 * The centre line of walls of `thickness` along a drawn line. Null where a point repeats the one before it, or where the
 * line turns back so sharply that the walls' corner would lie farther than ten thicknesses away.
 */
export function centreLine(
  points: readonly Point[],
  closed: boolean,
  thickness: number,
  along: DrawnAlong,
  hand: Hand,
): CentreLine | null {
  const count = closed ? points.length : points.length - 1;
  const ways: Point[] = [];
  for (let i = 0; i < count; i++) {
    const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
    if (distance(a, b) === 0) return null;
    ways.push(unit(minus(b, a)));
  }
  const away = hand === 'right' ? -1 : 1;
  const shift = along === 'centre' ? 0 : (along === 'inside' ? away : -away) * (thickness / 2);
  const shifted: Point[] = [];
  for (const [i, at] of points.entries()) {
    const into = closed ? ways.at(i - 1) : ways[i - 1];
    const out = ways[i];
    if (into === undefined || out === undefined) {
      shifted.push(alongLine(at, rightOf((into ?? out)!), shift));
      continue;
    }
    const [before, after] = [points.at(i - 1)!, points[(i + 1) % points.length]!];
    const straight = exactTurn(before, at, after) === 0;
    if (straight && dot(into, out) < 0) return null;
    const reach = straight ? rightOf(into) : cornerReach(into, out);
    if (lengthOf(reach) > FURTHEST_CORNER) return null;
    shifted.push(alongLine(at, reach, shift));
  }
  return { points: shifted, ways };
}

/** From a corner of a line to where its copy one to the right has it. */
function cornerReach(into: Point, out: Point): Point {
  const [a, b] = [rightOf(into), rightOf(out)];
  const over = 1 + dot(into, out);
  return [(a[0] + b[0]) / over, (a[1] + b[1]) / over];
}
