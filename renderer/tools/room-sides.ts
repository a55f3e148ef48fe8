// The sides of a rectangle that is drawn against walls that stand there already: a side that lies in such a wall, or goes
// straight on from it, is that wall's, and not a second wall a few inches beside it. Ticks; axis 0 is x, 1 is y.

import type { Point } from '../../core/graph/index.ts';
import { type Level, mustLookup, type Wall } from '../../core/plan/index.ts';
import type { DrawingOptions } from './types.ts';

export type Axis = 0 | 1;

export interface Side {
  /** Where the line is to be drawn, so that the new wall comes to stand in the old one. */
  readonly line: number;
  /** Where the clear width of the room begins. */
  readonly face: number;
}

interface Wanted {
  readonly axis: Axis;
  /** Where the side was put. */
  readonly at: number;
  /** 1 where the room lies towards greater coordinates, else −1. */
  readonly inward: 1 | -1;
  /** How far the side reaches along the other axis. */
  readonly reach: readonly [number, number];
}

/** A wall counts as level or upright where its ends are no further apart across: what rounding can have moved them, ticks. */
const SQUARE_TICKS = 2;

/** The side as it was put, or on the wall there that reaches farthest along it. */
export function sideOn(wanted: Wanted, level: Level, drawing: DrawingOptions): Side {
  const { at, inward } = wanted;
  const { along, thickness } = drawing;
  const wall = wallAt(wanted, level);
  if (wall === null) return { line: at, face: at };
  if (along === 'centre') return { line: wall.middle, face: wall.middle };
  const half = thickness / 2;
  if (along === 'outside') return { line: wall.middle - inward * half, face: wall.middle - inward * half };
  return { line: wall.middle + inward * half, face: wall.middle + inward * Math.max(half, wall.half) };
}

function wallAt(wanted: Wanted, level: Level): { middle: number; half: number } | null {
  let best: { middle: number; half: number; shared: number } | null = null;
  for (const wall of Object.values<Wall>(level.walls)) {
    const found = standing(wanted, wall, level);
    if (found !== null && (best === null || found.shared > best.shared)) best = found;
  }
  return best;
}

/** The wall where the side lies between its faces and beside it or at its end; `shared`: how far they go together. */
function standing(
  { axis, at, reach }: Wanted,
  wall: Wall,
  level: Level,
): { middle: number; half: number; shared: number } | null {
  const [from, to]: readonly Point[] = [mustLookup(level.nodes, wall.from), mustLookup(level.nodes, wall.to)];
  if (Math.abs(from![axis] - to![axis]) > SQUARE_TICKS) return null;
  const middle = (from![axis] + to![axis]) / 2;
  const half = wall.thickness / 2;
  if (Math.abs(at - middle) > half) return null;
  const other = axis === 0 ? 1 : 0;
  const [low, high] = [Math.min(from![other], to![other]), Math.max(from![other], to![other])];
  const shared = Math.min(high, Math.max(...reach)) - Math.max(low, Math.min(...reach));
  return shared < -wall.thickness ? null : { middle, half, shared };
}
