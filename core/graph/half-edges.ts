// Walls to half-edges: every wall gives two, one a side, linked into closed walks. Positions in ticks, y down.
// A half-edge has its wall on the left hand and the floor on the right; `w:right` runs from the wall's first node to
// its second, `w:left` back (RULES: WK1). Around a node everything is exact. Knows nothing of thickness or rooms.

import { lookup, sortedEntries } from '../plan/maps.ts';
import type { Level, NodeId } from '../plan/schema.ts';
import { exactTurn } from './orientation.ts';
import type { HalfEdge, HalfEdgeIndex, HalfEdges, Point } from './types.ts';

/** A half-edge while it is being linked. */
type Open = { -readonly [K in keyof HalfEdge]: HalfEdge[K] };

/**
 * The half-edges of a level and the loops they form. Walls in code-unit order; wall k gives half-edge 2k (right) and
 * 2k + 1 (left). A loop starts at its lowest half-edge, loops stand in the order of those.
 * Requires a planar level, as mending leaves it. Throws on a wall whose node is missing, on a wall of no length and on
 * two walls that leave one node in the same direction. RULES: WK1, WK2.
 */
export function buildHalfEdges(level: Level): HalfEdges {
  const walls = sortedEntries(level.walls);
  const edges: Open[] = [];
  /** Where each half-edge starts. */
  const originAt: Point[] = [];
  const around = new Map<NodeId, HalfEdgeIndex[]>();
  const leave = (node: NodeId, edge: HalfEdgeIndex) => {
    const list = around.get(node);
    if (list === undefined) around.set(node, [edge]);
    else list.push(edge);
  };
  for (const [id, wall] of walls) {
    const fromAt = lookup(level.nodes, wall.from);
    const toAt = lookup(level.nodes, wall.to);
    if (fromAt === undefined) throw new Error(`wall ${id} starts at node ${wall.from}, which does not exist`);
    if (toAt === undefined) throw new Error(`wall ${id} ends at node ${wall.to}, which does not exist`);
    if (fromAt[0] === toAt[0] && fromAt[1] === toAt[1]) {
      throw new Error(`wall ${id} from ${wall.from} to ${wall.to} has no length`);
    }
    const right = edges.length;
    const open = { wall: id, next: -1, prev: -1, loop: -1 };
    leave(wall.from, right);
    edges.push({ index: right, side: 'right', origin: wall.from, target: wall.to, twin: right + 1, ...open });
    leave(wall.to, right + 1);
    edges.push({ index: right + 1, side: 'left', origin: wall.to, target: wall.from, twin: right, ...open });
    originAt.push(fromAt, toAt);
  }

  for (const leaving of around.values()) {
    sortAnticlockwise(leaving, edges, originAt);
    for (let i = 0; i < leaving.length; i++) {
      // Walked in on the wall of `leaving[i]`: out on the next wall anticlockwise.
      const arriving = leaving[i]! ^ 1;
      const out = leaving[(i + 1) % leaving.length]!;
      edges[arriving]!.next = out;
      edges[out]!.prev = arriving;
    }
  }

  const loops: HalfEdgeIndex[][] = [];
  for (const first of edges) {
    if (first.loop !== -1) continue;
    const loop: HalfEdgeIndex[] = [];
    for (let edge = first; edge.loop === -1; edge = edges[edge.next]!) {
      edge.loop = loops.length;
      loop.push(edge.index);
    }
    loops.push(loop);
  }
  return { edges, loops };
}

/** Sorts half-edges that leave one node anticlockwise as seen, from due right. Exact. */
function sortAnticlockwise(
  leaving: HalfEdgeIndex[],
  edges: readonly HalfEdge[],
  originAt: readonly Point[],
): void {
  if (leaving.length < 2) return;
  const centre = originAt[leaving[0]!]!;
  leaving.sort((a, b) => {
    if (a === b) return 0;
    const aAt = originAt[a ^ 1]!;
    const bAt = originAt[b ^ 1]!;
    const half = halfOf(centre, aAt) - halfOf(centre, bAt);
    if (half !== 0) return half;
    const turn = exactTurn(centre, aAt, bAt);
    if (turn === 0) {
      const [one, other] = [edges[a]!, edges[b]!];
      throw new Error(`walls ${one.wall} and ${other.wall} leave node ${one.origin} in the same direction`);
    }
    return turn;
  });
}

/** 0 from due right, up and round to short of due left; 1 for the other half. */
function halfOf(centre: Point, at: Point): 0 | 1 {
  const dy = at[1] - centre[1];
  return dy < 0 || (dy === 0 && at[0] > centre[0]) ? 0 : 1;
}
