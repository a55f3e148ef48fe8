// Loops whose faces cross themselves or one another, or lie within a wall: too narrow for boards (RULES: WK11). A room is
// looked at with its islands, any other loop alone; what is found hangs on those loops and on nothing else, so that a
// group which an edit did not touch keeps its answer. Ticks, y down.

import { crossingPairs, type LoopSide } from './crossing.ts';
import { cross, midpoint, minus } from './orientation.ts';
import { polygonIndex } from './polygon-index.ts';
import type { Outline } from './segments.ts';
import type { NarrowPlace, Point } from './types.ts';

/** One loop of a group. */
export interface Member {
  readonly outline: Outline;
  /** Stands in the room that the group is about. */
  readonly island: boolean;
}

/** Where each loop of a group is too narrow, null where it is not. `holder` is the room's outer loop by position. */
export function narrowPlaces(group: readonly Member[], holder: number): (NarrowPlace | null)[] {
  const found = group.map((): NarrowPlace | null => null);
  const mark = (loop: number, at: Point, segments: readonly (readonly [number, number])[]): void => {
    found[loop] ??= { at, segments: segments.map(([of, i]) => group[of]!.outline.segments[i]!.key) };
  };
  const sides: LoopSide[] = [];
  const place: (readonly [loop: number, segment: number])[] = [];
  group.forEach(({ outline }, loop) => {
    outline.segments.forEach(({ start, end }, segment) => {
      sides.push({ loop, start, end });
      place.push([loop, segment]);
      if (outline.reversed[segment]) mark(loop, midpoint(start, end), [[loop, segment]]);
    });
  });
  for (const [i, j] of crossingPairs(sides)) {
    const both = [place[i]!, place[j]!];
    const at = crossingPoint(sides[i]!, sides[j]!);
    for (const [loop] of both) mark(loop, at, both);
  }
  markSwallowed(group, holder, found, mark);
  return found;
}

/** Where two crossing sides cross; the middle between their middles where they lie along one another. */
function crossingPoint(a: LoopSide, b: LoopSide): Point {
  const along = minus(a.end, a.start);
  const turn = cross(along, minus(b.end, b.start));
  const t = cross(minus(b.start, a.start), minus(b.end, b.start)) / turn;
  if (!(t >= 0 && t <= 1)) return midpoint(midpoint(a.start, a.end), midpoint(b.start, b.end));
  return [a.start[0] + along[0] * t, a.start[1] + along[1] * t];
}

/** An island that crosses nothing may still lie wholly within a wall or within another island. */
function markSwallowed(
  group: readonly Member[],
  holder: number,
  found: readonly (NarrowPlace | null)[],
  mark: (loop: number, at: Point, segments: readonly (readonly [number, number])[]) => void,
): void {
  const islands = [...group.keys()].filter((i) => group[i]!.island && found[i] === null);
  if (islands.length === 0) return;
  const index = polygonIndex(group.map(({ outline }) => outline.corners.map((corner) => corner.at)));
  for (const island of islands) {
    const { at } = group[island]!.outline.corners[0]!;
    const held = index.holding(at).filter(({ winding }) => winding !== 0);
    const inRoom = held.some(({ polygon }) => polygon === holder);
    const sibling = held.find(({ polygon }) => polygon !== island && group[polygon]!.island);
    if (inRoom && sibling === undefined) continue;
    mark(island, at, [[island, 0]]);
    mark(sibling?.polygon ?? holder, at, [[island, 0]]);
  }
}
