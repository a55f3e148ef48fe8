// What can be seen from the entry: is the straight line from its middle to a corner on the floor all the way?
// Ticks, x right and y down. The floor is the room's faces, islands taken off, edges included. RULES: WB4.
// Even and odd crossings decide inside, so the loops' directions do not matter here.

import type { Point } from '../graph/types.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import type { Room } from '../walk/types.ts';

/** A corner this much farther into the room than the entry's middle can be in sight, ticks (1 mm). */
const AHEAD = TICKS_PER_MM;
/** A line may stray this far off the floor, ticks (0.01 mm) … */
const STRAY = TICKS_PER_MM / 100;
/** … or farther, over no more than this length, ticks (0.001 mm). */
const STRAY_LENGTH = TICKS_PER_MM / 1000;

interface Edge {
  readonly a: Point;
  readonly b: Point;
}

/** Tells, for one room, whether a point of its floor's edge is in sight from the entry; null without an entry. */
export function sightOf(room: Room): ((at: Point) => boolean) | null {
  const entry = room.entry;
  if (entry === null) return null;
  const edges: Edge[] = room.loops.flatMap((loop) =>
    loop.corners.map((corner, i) => ({
      a: loop.corners[(i + loop.corners.length - 1) % loop.corners.length]!.at,
      b: corner.at,
    })),
  );
  const { middle, inward } = entry;
  return (at) => {
    const ahead = inward[0] * (at[0] - middle[0]) + inward[1] * (at[1] - middle[1]);
    return ahead > AHEAD && staysOnFloor(middle, at, edges);
  };
}

function staysOnFloor(from: Point, to: Point, edges: readonly Edge[]): boolean {
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return true;
  const way: Point = [dx / length, dy / length];
  // Where the line is within STRAY of an edge it cannot be deeper than that off the floor. What is left between those
  // parts crosses no edge, so one point tells for the whole of it.
  const near: [number, number][] = [];
  for (const edge of edges) {
    const part = nearEdge(from, way, edge);
    if (part !== null && part[1] > 0 && part[0] < length) near.push(part);
  }
  near.sort((a, b) => a[0] - b[0]);
  let done = 0;
  for (const [start, end] of [...near, [length, length]]) {
    const stop = Math.min(start!, length);
    if (stop - done > STRAY_LENGTH) {
      const half = (done + stop) / 2;
      if (!onFloor([from[0] + way[0] * half, from[1] + way[1] * half], edges)) return false;
    }
    done = Math.max(done, end!);
  }
  return true;
}

/** The part of the line, as distances along it, that lies within STRAY of an edge; null where none does. */
function nearEdge(from: Point, way: Point, { a, b }: Edge): [number, number] | null {
  const offA = (a[0] - from[0]) * way[1] - (a[1] - from[1]) * way[0];
  const offB = (b[0] - from[0]) * way[1] - (b[1] - from[1]) * way[0];
  if ((offA > STRAY && offB > STRAY) || (offA < -STRAY && offB < -STRAY)) return null;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const take = (part: [number, number] | null): void => {
    if (part === null) return;
    low = Math.min(low, part[0]);
    high = Math.max(high, part[1]);
  };
  // A strip with a disc at either end; the whole is convex, so its parts on the line join up.
  take(nearPoint(from, way, a));
  take(nearPoint(from, way, b));
  const ex = b[0] - a[0];
  const ey = b[1] - a[1];
  const length = Math.sqrt(ex * ex + ey * ey);
  if (length > 0) {
    const ux = ex / length;
    const uy = ey / length;
    const px = from[0] - a[0];
    const py = from[1] - a[1];
    const lengthwise = within(ux * px + uy * py, ux * way[0] + uy * way[1], 0, length);
    const across = within(ux * py - uy * px, ux * way[1] - uy * way[0], -STRAY, STRAY);
    if (lengthwise !== null && across !== null) {
      const start = Math.max(lengthwise[0], across[0]);
      const end = Math.min(lengthwise[1], across[1]);
      if (start <= end) take([start, end]);
    }
  }
  return low <= high ? [low, high] : null;
}

/** For which s is least ≤ value + s·slope ≤ most. */
function within(value: number, slope: number, least: number, most: number): [number, number] | null {
  if (slope === 0) {
    return value >= least && value <= most ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : null;
  }
  const one = (least - value) / slope;
  const other = (most - value) / slope;
  return one < other ? [one, other] : [other, one];
}

function nearPoint(from: Point, way: Point, at: Point): [number, number] | null {
  const px = at[0] - from[0];
  const py = at[1] - from[1];
  const along = px * way[0] + py * way[1];
  const off = px * way[1] - py * way[0];
  if (Math.abs(off) > STRAY) return null;
  const half = Math.sqrt(STRAY * STRAY - off * off);
  return [along - half, along + half];
}

function onFloor([x, y]: Point, edges: readonly Edge[]): boolean {
  let inside = false;
  for (const { a, b } of edges) {
    if (a[1] > y === b[1] > y) continue;
    if (x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
}
