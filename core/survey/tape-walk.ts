// A room as the tape gives it, length, turn, length, turn … back to the start, to points on the sheet and to how far the
// last point misses the first. Lengths in any one unit (ticks in a plan), x right, y down; turns in degrees, to the right
// hand (clockwise as seen) positive. Changes no figure that was typed. RULES: SV1, SV2.

import type { Point } from '../graph/index.ts';

/** One length along a face and the turn at its end. */
export interface TapeEntry {
  readonly length: number;
  /** To the right positive: 90 at a square inside corner, −90 at an outside one. Of the last entry it may be left out. */
  readonly turnDeg?: number;
}

export interface TapeWalk {
  /** Where each length starts, then where the last one ends: one more than there are lengths. Not rounded. */
  readonly points: readonly Point[];
  readonly perimeter: number;
  readonly misclosure: Misclosure;
  /** The turns' sum less a full turn; null where the last turn was not given. */
  readonly angleMissDeg: number | null;
}

/** How far the last point misses the first. */
export interface Misclosure {
  /** From the first point to the last. */
  readonly by: Point;
  readonly distance: number;
  /** Of the perimeter. */
  readonly fraction: number;
}

/** The turn at a corner whose walls include `includedDeg`: to the right at an inside corner, to the left outside. */
export function turnOf(kind: 'inside' | 'outside', includedDeg: number): number {
  return kind === 'inside' ? 180 - includedDeg : includedDeg - 180;
}

/**
 * Walks the entries from `[0, 0]`, the first length in `headingDeg` (0 is to the right, 90 down the sheet). Quarter
 * turns are exact. Throws on a length that is not above 0, on a turn that is not finite and on a turn left out before
 * the last entry. RULES: SV1.
 */
export function walkTape(entries: readonly TapeEntry[], headingDeg = 0): TapeWalk {
  const points: Point[] = [[0, 0]];
  let [heading, turned, perimeter] = [headingDeg, 0, 0];
  for (const [i, { length, turnDeg }] of entries.entries()) {
    if (!(length > 0) || !Number.isFinite(length)) throw new RangeError(`walkTape: length ${i} is ${length}`);
    const [x, y] = points[i]!;
    const [dx, dy] = directionOf(heading);
    points.push([x + dx * length, y + dy * length]);
    perimeter += length;
    if (turnDeg === undefined && i === entries.length - 1) break;
    if (turnDeg === undefined || !Number.isFinite(turnDeg))
      throw new RangeError(`walkTape: the turn after length ${i} is ${turnDeg}`);
    heading += turnDeg;
    turned += turnDeg;
  }
  const complete = entries.length > 0 && entries.at(-1)!.turnDeg !== undefined;
  return {
    points,
    perimeter,
    misclosure: misclosureOf(points, perimeter),
    angleMissDeg: complete ? turned - 360 : null,
  };
}

/** How far the last of a row of points misses the first. The perimeter is the row's own length where not given. */
export function misclosureOf(points: readonly Point[], perimeter = lengthAlong(points)): Misclosure {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) throw new RangeError('misclosureOf: there are no points');
  const by: Point = [last[0] - first[0], last[1] - first[1]];
  const distance = Math.hypot(by[0], by[1]);
  return { by, distance, fraction: perimeter === 0 ? 0 : distance / perimeter };
}

function lengthAlong(points: readonly Point[]): number {
  let sum = 0;
  for (let i = 1; i < points.length; i++) {
    sum += Math.hypot(points[i]![0] - points[i - 1]![0], points[i]![1] - points[i - 1]![1]);
  }
  return sum;
}

const QUARTERS: readonly Point[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

function directionOf(deg: number): Point {
  if (deg % 90 === 0) return QUARTERS[(((deg / 90) % 4) + 4) % 4]!;
  const radians = (deg * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}
