// Where a chain of walls that begins in another wall's body comes out of it: sizes run between faces, so that is where the
// chain's first length is counted from. Ticks.

import type { Point } from '../../core/graph/index.ts';
import { along, cross, distance, dot, minus, unit } from '../../core/graph/index.ts';
import { type Level, mustLookup, type WallId } from '../../core/plan/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';

/** Sine of the smallest angle at which a wall is left and not followed: 15°. */
const LEAST_SINE = Math.sin(Math.PI / 12);

/**
 * The place on a face at which a line from `start` towards `to` leaves the wall that `start` lies in; null where it lies in
 * none, on that face already, at a wall's end, or where the line ends before it is out.
 */
export function leavingFace({ nodes, walls }: Level, start: Point, to: Point): Point | null {
  const gone = distance(start, to);
  const isNode = Object.values<Point>(nodes).some((at) => at[0] === start[0] && at[1] === start[1]);
  if (gone === 0 || isNode) return null;
  const way = unit(minus(to, start));
  for (const id of Object.keys(walls) as WallId[]) {
    const wall = mustLookup(walls, id);
    const [from, end] = [mustLookup(nodes, wall.from), mustLookup(nodes, wall.to)];
    const length = distance(from, end);
    if (length === 0) continue;
    const axis = unit(minus(end, from));
    const [at, off] = [dot(minus(start, from), axis), cross(axis, minus(start, from))];
    const half = wall.thickness / 2;
    if (at < 0 || at > length || Math.abs(off) > half + 1) continue;
    const sine = cross(axis, way);
    const out = sine > 0 ? half - off : half + off;
    if (Math.abs(sine) < LEAST_SINE || out <= 1) continue;
    const far = out / Math.abs(sine);
    if (far >= gone) continue;
    const [x, y] = along(start, way, far);
    return [roundHalfAway(x), roundHalfAway(y)];
  }
  return null;
}
