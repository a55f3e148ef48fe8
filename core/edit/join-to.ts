// A node onto a wall that it was put on: on a sloping wall no tick lies exactly on the centre line, so the wall is split
// at the node and bends by less than a tick. Ticks. RULES: ED24.

import { cross, distance, dot, lengthOf, minus, unit } from '../graph/index.ts';
import type { NodeId, WallId } from '../plan/schema.ts';
import { idGiver } from './ids.ts';
import { JOIN_OFF_TICKS } from './limits.ts';
import { failure, noWall } from './refuse.ts';
import type { EditFailure } from './types.ts';
import { mustGet, splitAt, type Working, wallLength } from './working.ts';

/** Splits `wall` at `node`, which lies on it within a tick. Nothing where the node is at one of its ends. */
export function joinTo(working: Working, node: NodeId, id: WallId): EditFailure | null {
  const fault = joinFault(working, node, id);
  if (fault !== null) return fault;
  const wall = mustGet(working.walls, id);
  const at = mustGet(working.nodes, node);
  const ends = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)] as const;
  if (ends.some((end) => distance(end, at) === 0)) return null;
  const giveWall = idGiver<WallId>('w', [...working.walls.keys(), ...Object.keys(working.before.walls)]);
  splitAt(working, id, [{ node, newWall: giveWall() }]);
  return null;
}

/** Why a node at its place is not on a wall, or null. Nothing is changed. */
export function joinFault(working: Working, node: NodeId, id: WallId): EditFailure | null {
  const wall = working.walls.get(id);
  if (wall === undefined) return noWall(id);
  if (wall.from === node || wall.to === node) {
    return failure('off-wall', `Node ${node} is an end of wall ${id} and cannot lie on it.`);
  }
  const at = mustGet(working.nodes, node);
  const from = mustGet(working.nodes, wall.from);
  const way = minus(at, from);
  const length = wallLength(working, id);
  if (length === 0) return failure('off-wall', `Wall ${id} would have no length.`);
  const dir = unit(minus(mustGet(working.nodes, wall.to), from));
  const ahead = dot(way, dir);
  const beyond = Math.max(0, -ahead, ahead - length);
  if (lengthOf([beyond, cross(dir, way)]) <= JOIN_OFF_TICKS) return null;
  return failure('off-wall', `Node ${node} does not lie on wall ${id}.`);
}
