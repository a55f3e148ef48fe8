// Walls changed where they stand: thickness, height and faces of some of them; several nodes moved or turned together;
// and a clear distance between two faces made what was typed. Ticks, x right, y down. RULES: ED19, ED20.

import type { Point } from '../graph/index.ts';
import { cross, distance, dot, midpoint, minus, NO_CORNER_DEG, rightOf, unit } from '../graph/index.ts';
import type { FaceSurface, LevelId, NodeId, Side, Wall, WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { FARTHEST_TICKS } from './limits.ts';
import { failure, isFailure, noNode, noWall, wholePoint } from './refuse.ts';
import { turned } from './turns.ts';
import type { EditFailure } from './types.ts';
import { moveNodes, mustGet, type Working } from './working.ts';

/** Sets thickness (to an even number of ticks), height and faces of walls. `null`: to the ceiling; drywall. */
export interface ChangeWalls {
  readonly type: 'changeWalls';
  readonly level: LevelId;
  readonly walls: readonly WallId[];
  readonly set: {
    readonly thickness?: number;
    readonly height?: number | null;
    readonly faces?: { readonly left?: FaceSurface | null; readonly right?: FaceSurface | null };
  };
}

/** Moves nodes together: turned clockwise as seen about a point, then shifted. Walls come along. */
export interface MoveNodes {
  readonly type: 'moveNodes';
  readonly level: LevelId;
  readonly nodes: readonly NodeId[];
  readonly by: Point;
  readonly turnDeg?: number;
  readonly about?: Point;
}

interface Face {
  readonly wall: WallId;
  readonly side: Side;
}

/** Makes the clear distance between two parallel faces what was typed: `moves` goes, with all walls in line with it. */
export interface SetClearDistance {
  readonly type: 'setClearDistance';
  readonly level: LevelId;
  readonly stays: Face;
  readonly moves: Face;
  readonly distance: number;
}

export function changeWalls(working: Working, { walls, set }: ChangeWalls): EditFailure | null {
  if (walls.length === 0) return failure('no-walls', 'No wall is named.');
  const missing = walls.find((id) => !working.walls.has(id));
  if (missing !== undefined) return noWall(missing);
  const thickness = set.thickness === undefined ? undefined : 2 * roundHalfAway(set.thickness / 2);
  if (thickness !== undefined && !(thickness >= 2))
    return failure('bad-number', 'A wall needs a thickness of more than nothing.');
  if (set.height != null && !(roundHalfAway(set.height) >= 1))
    return failure('bad-number', 'A wall needs a height of more than nothing.');
  for (const id of walls) {
    const wall = mustGet(working.walls, id);
    const fields = new Map<string, unknown>(Object.entries(wall));
    if (thickness !== undefined) fields.set('thickness', thickness);
    if (set.height === null) fields.delete('height');
    else if (set.height !== undefined) fields.set('height', roundHalfAway(set.height));
    const faces = new Map<string, unknown>(Object.entries(wall.faces ?? {}));
    for (const side of ['left', 'right'] as const) {
      const surface = set.faces?.[side];
      if (surface === null) faces.delete(side);
      else if (surface !== undefined) faces.set(side, surface);
    }
    if (set.faces !== undefined) {
      if (faces.size === 0) fields.delete('faces');
      else fields.set('faces', Object.fromEntries(faces));
    }
    working.walls.set(id, Object.fromEntries(fields) as Wall);
  }
  return null;
}

export function moveSeveral(working: Working, edit: MoveNodes): EditFailure | null {
  const places = new Map<NodeId, Point>();
  const about = edit.about ?? [0, 0];
  const turnDeg = edit.turnDeg ?? 0;
  if (!Number.isFinite(turnDeg)) return failure('bad-number', `${turnDeg} is no angle to turn by.`);
  for (const node of edit.nodes) {
    const was = working.nodes.get(node);
    if (was === undefined) return noNode(node);
    const at = turned(was, about, turnDeg);
    const to = wholePoint([at[0] + edit.by[0], at[1] + edit.by[1]]);
    if (isFailure(to)) return to;
    places.set(node, to);
  }
  if (places.size === 0) return failure('no-node', 'No node is named.');
  moveNodes(working, places);
  return null;
}

const IN_LINE_TAN = Math.tan((NO_CORNER_DEG * Math.PI) / 180);

function parallel(a: Point, b: Point): boolean {
  return Math.abs(cross(a, b)) < IN_LINE_TAN * Math.abs(dot(a, b));
}

export function setClearDistance(working: Working, edit: SetClearDistance): EditFailure | null {
  const faces: { dir: Point; out: Point; at: Point }[] = [];
  for (const { wall: id, side } of [edit.stays, edit.moves]) {
    const wall = working.walls.get(id);
    if (wall === undefined) return noWall(id);
    const [from, to] = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)];
    const dir = unit(minus(to, from));
    const right = rightOf(dir);
    const out: Point = side === 'right' ? right : [0 - right[0], 0 - right[1]];
    const middle = midpoint(from, to);
    const half = wall.thickness / 2;
    faces.push({ dir, out, at: [middle[0] + out[0] * half, middle[1] + out[1] * half] });
  }
  const [stays, moves] = [faces[0]!, faces[1]!];
  const names = `${edit.stays.wall} and ${edit.moves.wall}`;
  if (!parallel(stays.dir, moves.dir))
    return failure(
      'not-parallel',
      `Walls ${names} do not run the same way: there is no one distance between them.`,
    );
  const gap = dot(minus(moves.at, stays.at), stays.out);
  if (dot(stays.out, moves.out) >= 0 || gap <= 0)
    return failure('not-facing', `These faces of walls ${names} do not look at each other.`);
  const wanted = roundHalfAway(edit.distance);
  if (!(wanted >= 1 && wanted <= FARTHEST_TICKS))
    return failure('bad-number', 'Between two walls there must be more than nothing, and less than 1 km.');
  const by: Point = [
    roundHalfAway(stays.out[0] * (wanted - gap)),
    roundHalfAway(stays.out[1] * (wanted - gap)),
  ];
  const places = new Map<NodeId, Point>();
  for (const node of inLineWith(working, edit.moves.wall)) {
    const was = mustGet(working.nodes, node);
    const at = wholePoint([was[0] + by[0], was[1] + by[1]]);
    if (isFailure(at)) return at;
    places.set(node, at);
  }
  const fixed = mustGet(working.walls, edit.stays.wall);
  if (places.has(fixed.from) || places.has(fixed.to))
    return failure('not-facing', `Walls ${names} hang together in line: one cannot move without the other.`);
  moveNodes(working, places);
  return null;
}

/** The nodes of a wall and of all walls that go straight on from it. */
function inLineWith(working: Working, id: WallId): ReadonlySet<NodeId> {
  const wall = mustGet(working.walls, id);
  const wayOf = ({ from, to }: Wall) => minus(mustGet(working.nodes, to), mustGet(working.nodes, from));
  const way = wayOf(wall);
  const at = new Map<NodeId, Wall[]>();
  for (const other of working.walls.values()) {
    if (distance(mustGet(working.nodes, other.from), mustGet(working.nodes, other.to)) === 0) continue;
    if (!parallel(way, wayOf(other))) continue;
    for (const node of [other.from, other.to]) at.set(node, [...(at.get(node) ?? []), other]);
  }
  const nodes = new Set<NodeId>([wall.from, wall.to]);
  for (const node of nodes) for (const other of at.get(node) ?? []) nodes.add(other.from).add(other.to);
  return nodes;
}
