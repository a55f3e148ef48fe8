// Guides chosen one for each freedom of the pointer, and the place they give: x and y lock independently, a sloping line
// takes one of them along, a length is laid off from the start, the grid takes what is left. Whole ticks out.
// RULES: SN6, SN7, SN9.

import type { Point } from '../graph/index.ts';
import { along, cross, distance, dot, minus, unit } from '../graph/index.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { whole } from './candidates.ts';
import { choose, type Rated } from './choose.ts';
import type { Guide } from './guides.ts';
import { CAUGHT_PX, LET_GO_PX } from './limits.ts';
import type { SnapKind, SnapQuery, SnapTarget } from './types.ts';

export interface Lock {
  readonly at: Point;
  readonly what: readonly SnapTarget[];
  readonly lines: readonly (readonly [Point, Point])[];
}

interface Length extends Rated {
  readonly length: number;
  readonly words: string;
}

/** Where guides put the pointer; null where none is caught. */
export function lockOf(query: SnapQuery, guides: readonly Guide[], held: readonly string[]): Lock | null {
  const pick = (family: Guide['family']) =>
    choose(
      guides.filter((each) => each.family === family),
      held,
    );
  const [x, y, slope] = [pick('x'), pick('y'), pick('slope')];
  const length = choose(lengthsOf(query), held);
  if (slope !== null) return slopeLock(query, slope, [x, y], length, held);
  if (x !== null && y !== null) {
    const at: Point = [x.through[0], y.through[1]];
    return { at: whole(at), what: [target(x), target(y)], lines: [drawn(x, at), drawn(y, at)] };
  }
  const one = x ?? y;
  if (one !== null) {
    const laid = length === null ? null : laidOff(query, one, length);
    return laid ?? axisLock(query, one, held);
  }
  if (length !== null && query.start !== undefined) {
    const at = whole(along(query.start, unit(minus(query.at, query.start)), length.length));
    return { at, what: [target(length)], lines: [[query.start, at]] };
  }
  return gridLock(query, held);
}

function target({ kind, key, words }: { kind: SnapKind; key: string; words: string }): SnapTarget {
  return { kind, key, words, node: null, wall: null };
}

function drawn({ through }: Guide, at: Point): readonly [Point, Point] {
  return [through, at];
}

/** Lengths of the references, as far as the pointer is from the start. RULES: SN7. */
function lengthsOf({ start, at, references = [], pixelsPerTick }: SnapQuery): Length[] {
  if (start === undefined || distance(start, at) === 0) return [];
  return references.map(({ from, to, words }, i) => {
    const length = distance(from, to);
    const offPx =
      length === 0 ? Number.POSITIVE_INFINITY : Math.abs(distance(start, at) - length) * pixelsPerTick;
    return {
      kind: 'guide',
      key: `length:${i}:${words}`,
      offPx,
      catchable: true,
      length,
      words: `as long as ${words}`,
    };
  });
}

/** A length laid off from the start along a guide that runs through it; null where the guide does not. */
function laidOff(query: SnapQuery, guide: Guide, length: Length): Lock | null {
  const { start } = query;
  if (start === undefined || guide.through[0] !== start[0] || guide.through[1] !== start[1]) return null;
  const sign = dot(minus(query.at, start), guide.way) < 0 ? -1 : 1;
  const at = whole(along(start, guide.way, sign * length.length));
  return { at, what: [target(guide), target(length)], lines: [[start, at]] };
}

/** On a sloping guide: with an upright or level one that crosses it nearby, else with a length, else where the pointer is. */
function slopeLock(
  query: SnapQuery,
  slope: Guide,
  axes: readonly (Guide | null)[],
  length: Length | null,
  held: readonly string[],
): Lock {
  const crossings = axes.flatMap((axis) => {
    if (axis === null) return [];
    const at = crossingOf(slope, axis);
    const offPx = distance(at, query.at) * query.pixelsPerTick;
    const kept = held.includes(slope.key) && held.includes(axis.key);
    return offPx <= (kept ? LET_GO_PX : CAUGHT_PX) ? [{ axis, at, offPx, kept }] : [];
  });
  const [best] = crossings.sort((a, b) => Number(b.kept) - Number(a.kept) || a.offPx - b.offPx);
  if (best !== undefined) {
    const { axis, at } = best;
    return { at: whole(at), what: [target(slope), target(axis)], lines: [drawn(slope, at), drawn(axis, at)] };
  }
  const laid = length === null ? null : laidOff(query, slope, length);
  if (laid !== null) return laid;
  const at = whole(along(slope.through, slope.way, dot(minus(query.at, slope.through), slope.way)));
  return { at, what: [target(slope)], lines: [drawn(slope, at)] };
}

/** Where two guides cross; what an upright or level one fixes is exact. Requires guides of two families. */
function crossingOf(a: Guide, b: Guide): Point {
  const way = minus(b.through, a.through);
  const at = along(a.through, a.way, cross(way, b.way) / cross(a.way, b.way));
  const fix = (family: 'x' | 'y', axis: 0 | 1) =>
    a.family === family ? a.through[axis] : b.family === family ? b.through[axis] : at[axis];
  return [fix('x', 0), fix('y', 1)];
}

/** One coordinate from an upright or level guide, the other from the grid or the pointer. */
function axisLock(query: SnapQuery, guide: Guide, held: readonly string[]): Lock {
  const free = guide.family === 'x' ? 1 : 0;
  const grid = gridLine(query, free, held);
  const other = grid?.at ?? roundHalfAway(query.at[free]);
  const at: Point =
    free === 1 ? [roundHalfAway(guide.through[0]), other] : [other, roundHalfAway(guide.through[1])];
  const what = grid === null ? [target(guide)] : [target(guide), target(grid)];
  return { at, what, lines: [drawn(guide, at)] };
}

interface GridLine extends Rated {
  readonly at: number;
  readonly words: string;
}

/** The grid line nearest to the pointer in one coordinate. RULES: SN9. */
function gridLine(
  { at, grid, pixelsPerTick }: SnapQuery,
  axis: 0 | 1,
  held: readonly string[],
): GridLine | null {
  if (grid === undefined || !(grid > 0)) return null;
  const nearest = Math.round(at[axis] / grid);
  const lines = [nearest - 1, nearest, nearest + 1].map((count): GridLine => {
    const place = roundHalfAway(count * grid);
    const offPx = Math.abs(at[axis] - place) * pixelsPerTick;
    return {
      kind: 'grid',
      key: `grid:${axis}:${count}`,
      offPx,
      catchable: true,
      at: place,
      words: 'the grid',
    };
  });
  return choose(lines, held);
}

function gridLock(query: SnapQuery, held: readonly string[]): Lock | null {
  const [x, y] = [gridLine(query, 0, held), gridLine(query, 1, held)];
  if (x === null && y === null) return null;
  const at: Point = [x?.at ?? roundHalfAway(query.at[0]), y?.at ?? roundHalfAway(query.at[1])];
  return { at, what: [x, y].flatMap((line) => (line === null ? [] : [target(line)])), lines: [] };
}
