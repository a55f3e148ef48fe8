// A half wall's length, typed at its face: its free end moves, the other end stays. Ticks.

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
