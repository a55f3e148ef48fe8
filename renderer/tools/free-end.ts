// A half wall's length, typed at its face: its free end moves, the other end stays, and there is room for it only up to
// the next wall. Ticks.

import type { Edit } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import { dot, minus } from '../../core/graph/index.ts';
import { mustLookup, type NodeId, type WallId } from '../../core/plan/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import type { Segment } from '../../core/walk/index.ts';
import { wallsAt } from './drag.ts';
import { segmentsOf } from './faces.ts';
import type { ToolContext } from './types.ts';

export interface FreeEnd {
  readonly node: NodeId;
  readonly wall: WallId;
  /** Unit vector in which the face gets longer there. */
  readonly outwards: Point;
}

/** Where a face ends with its wall, which no other wall meets there; of two such ends the right one. Null where none does. */
export function freeEndOf({ parts, along }: Segment, { level }: Pick<ToolContext, 'level'>): FreeEnd | null {
  const back: Point = [-along[0], -along[1]];
  for (const [part, outwards] of [
    [parts.at(-1), along],
    [parts[0], back],
  ] as const) {
    if (part === undefined) continue;
    const { from, to } = mustLookup(level.walls, part.wall);
    const way = minus(mustLookup(level.nodes, to), mustLookup(level.nodes, from));
    const node = dot(way, outwards) > 0 ? to : from;
    if (wallsAt(level, [node]).length === 1) return { node, wall: part.wall, outwards };
  }
  return null;
}

/** Two lengths between places that were rounded to whole ticks are the same within this. */
export const SAME_TICKS = 4;

/** How long a face can get by its free end until its wall, as thick as it is, meets another; infinite where none is there. */
export function longestBy(
  { wall, outwards }: FreeEnd,
  segment: Segment,
  { level, walk }: ToolContext,
): number {
  const { thickness } = mustLookup(level.walls, wall);
  const { start, end, along, inward, drawn } = segment;
  const fixed = dot(along, outwards) > 0 ? start : end;
  const seen = (at: Point) => {
    const way = minus(at, fixed);
    return { ahead: dot(way, outwards), depth: -dot(way, inward) };
  };
  // What only touches the wall's faces does not stand before it.
  const [least, most] = [SAME_TICKS, thickness - SAME_TICKS];
  const loops = walk.rooms.find(({ id }) => id === segment.room)?.loops ?? [];
  const before = loops.flatMap(({ segments }) =>
    segments.flatMap((each): readonly number[] => {
      const [a, b] = [seen(each.start), seen(each.end)];
      if (Math.max(a.depth, b.depth) < least || Math.min(a.depth, b.depth) > most) return [];
      const slope = a.depth === b.depth ? 0 : (b.ahead - a.ahead) / (b.depth - a.depth);
      const ahead = [a, b].map(
        (to) => to.ahead + (Math.max(least, Math.min(most, to.depth)) - to.depth) * slope,
      );
      // The end of a half wall is no wall's face: this one's own is where it is drawn to.
      const from = each.parts.length === 0 ? drawn + SAME_TICKS : drawn - thickness;
      return ahead.filter((far) => far > from);
    }),
  );
  return Math.min(...before);
}

/**
 * The edits that make a face as long as typed by its free end. A face of that wall that was measured as it is drawn goes on
 * being measured so.
 */
export function lengthenedBy(
  { node, wall, outwards }: FreeEnd,
  segment: Segment,
  length: number,
  { level, walk }: ToolContext,
  alike: (segment: Segment) => boolean,
): readonly Edit[] {
  const more = length - segment.drawn;
  const by: Point = [roundHalfAway(outwards[0] * more), roundHalfAway(outwards[1] * more)];
  const faces = segmentsOf(walk).filter(
    (each) => each.parts.some((part) => part.wall === wall) && alike(each),
  );
  return [
    { type: 'moveNodes', level: level.id, nodes: [node], by },
    ...faces.map(
      ({ key, drawn }): Edit => ({
        type: 'setFace',
        level: level.id,
        face: key,
        set: { measured: roundHalfAway(drawn + more) },
      }),
    ),
  ];
}
