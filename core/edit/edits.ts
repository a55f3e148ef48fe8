// Edits as data, and what each does to an opened level before mending. New ids come with the edit; only what mending
// adds by itself is named here (ids.ts). Lengths in ticks, x right, y down. RULES: ED8, ED9.

import type { Point } from '../graph/index.ts';
import { distance, dot, exactTurn, minus } from '../graph/index.ts';
import type { Level, LevelId, NodeId, Plan, Wall, WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { type AddChain, type AddRoomByCorners, addChain, addRoomByCorners } from './chain.ts';
import { joinTo } from './join-to.ts';
import { JOIN_OFF_TICKS } from './limits.ts';
import { type PasteWalls, pasteWalls } from './paste.ts';
import { type PlaceWalls, placeWalls } from './place.ts';
import { dropBare } from './planar.ts';
import type { LevelRecordEdit, PlanRecordEdit } from './record-edits.ts';
import { failure, idFault, isFailure, noNode, noWall, wholePoint } from './refuse.ts';
import { sameValue } from './same.ts';
import type { EditFailure, PlanPatch } from './types.ts';
import {
  type ChangeWalls,
  changeWalls,
  type MoveNodes,
  moveSeveral,
  type SetClearDistance,
  setClearDistance,
} from './wall-sizes.ts';
import {
  dropWall,
  joinAt,
  moveNodes,
  mustGet,
  openLevel,
  splitAt,
  turnedFaces,
  type Working,
  wallLength,
} from './working.ts';

/**
 * A node that is there, or a new one with its place. Where a node is there already at that place, that one is used.
 * `on`: a wall within a tick of the place, which is split there.
 */
export type NodeChoice = NodeId | { readonly id: NodeId; readonly at: Point; readonly on?: WallId };

/** Draws a wall. Walls it crosses or touches are split. Thickness goes to an even number of ticks. */
export interface AddWall {
  readonly type: 'addWall';
  readonly level: LevelId;
  readonly wall: WallId;
  readonly from: NodeChoice;
  readonly to: NodeChoice;
  readonly thickness: number;
  readonly height?: number;
  readonly faces?: NonNullable<Wall['faces']>;
}

/** Moves one node to a place; walls come along. `on`: a wall within a tick of the place, which is split there. */
export interface MoveNode {
  readonly type: 'moveNode';
  readonly level: LevelId;
  readonly node: NodeId;
  readonly to: Point;
  readonly on?: WallId;
}

/** Moves both nodes of a wall by the same way; walls that end there come along. */
export interface MoveWall {
  readonly type: 'moveWall';
  readonly level: LevelId;
  readonly wall: WallId;
  readonly by: Point;
}

/** Splits a wall `at` ticks from its first node, strictly inside it. */
export interface SplitWall {
  readonly type: 'splitWall';
  readonly level: LevelId;
  readonly wall: WallId;
  readonly at: number;
  readonly node: NodeId;
  readonly newWall: WallId;
}

/** Makes one wall of two that go straight on at a node where no third ends and are alike. The lower id stays. */
export interface JoinWalls {
  readonly type: 'joinWalls';
  readonly level: LevelId;
  readonly node: NodeId;
}

/**
 * Takes away a wall, what stands on it, and its nodes where they carry no other wall; `also`: more walls with it. `joins`:
 * walls that only go straight on where one of them ended become one again, as `joinWalls` makes them.
 */
export interface DeleteWall {
  readonly type: 'deleteWall';
  readonly level: LevelId;
  readonly wall: WallId;
  readonly also?: readonly WallId[];
  readonly joins?: boolean;
}

/** Anything, as patches. Records are not carried: the patches say themselves what becomes of them. */
export interface PatchEdit {
  readonly type: 'patch';
  readonly patches: readonly PlanPatch[];
}

/** Edits one after the other as one step: all are done or none. `words` tell them together. */
export interface SeveralEdits {
  readonly type: 'several';
  readonly edits: readonly Edit[];
  readonly words?: string;
}

export type WallEdit =
  | AddWall
  | MoveNode
  | MoveWall
  | SplitWall
  | JoinWalls
  | DeleteWall
  | ChangeWalls
  | MoveNodes
  | SetClearDistance
  | PasteWalls
  | PlaceWalls
  | AddChain
  | AddRoomByCorners;
export type Edit = WallEdit | LevelRecordEdit | PlanRecordEdit | SeveralEdits | PatchEdit;

/** A level of `plan`, opened, with a wall edit done on it; or why that cannot be done. Not mended. */
export function openEdited(level: Level, edit: WallEdit, plan: Plan): Working | EditFailure {
  if (edit.type === 'placeWalls') return placeWalls(level, edit, plan);
  const working = openLevel(level);
  return editWorking(working, edit, plan) ?? working;
}

/** Null when done; else the opened level is to be thrown away. */
function editWorking(working: Working, edit: Exclude<WallEdit, PlaceWalls>, plan: Plan): EditFailure | null {
  switch (edit.type) {
    case 'addWall':
      return addWall(working, edit);
    case 'moveNode':
      return moveNode(working, edit);
    case 'moveWall':
      return moveWall(working, edit);
    case 'splitWall':
      return splitWall(working, edit);
    case 'joinWalls':
      return joinWalls(working, edit.node);
    case 'deleteWall':
      return deleteWall(working, edit);
    case 'changeWalls':
      return changeWalls(working, edit);
    case 'moveNodes':
      return moveSeveral(working, edit);
    case 'setClearDistance':
      return setClearDistance(working, edit);
    case 'pasteWalls':
      return pasteWalls(working, edit, plan);
    case 'addChain':
      return addChain(working, edit);
    case 'addRoomByCorners':
      return addRoomByCorners(working, edit);
  }
}

function addWall(working: Working, edit: AddWall): EditFailure | null {
  const { wall: id, thickness, height, faces } = edit;
  const taken = idFault(id, working.walls);
  if (taken !== null) return taken;
  const even = 2 * roundHalfAway(thickness / 2);
  if (!(even >= 2)) return failure('bad-number', 'A wall needs a thickness of more than nothing.');
  const ends: { node: NodeId; fresh: Point | null }[] = [];
  for (const choice of [edit.from, edit.to]) {
    const end = nodeFor(working, choice);
    if (isFailure(end)) return end;
    ends.push(end);
  }
  const [from, to] = [ends[0]!, ends[1]!];
  if (from.node === to.node) return failure('no-length', `Wall ${id} would start and end at one node.`);
  const places = [from, to].map((end) => end.fresh ?? mustGet(working.nodes, end.node));
  if (distance(places[0]!, places[1]!) === 0) return failure('no-length', `Wall ${id} would have no length.`);
  for (const end of [from, to]) if (end.fresh !== null) working.nodes.set(end.node, end.fresh);
  working.walls.set(id, {
    from: from.node,
    to: to.node,
    thickness: even,
    ...(height === undefined ? {} : { height: roundHalfAway(height) }),
    ...(faces === undefined ? {} : { faces }),
  });
  for (const [i, choice] of [edit.from, edit.to].entries()) {
    const on = typeof choice === 'string' ? undefined : choice.on;
    const failed = on === undefined ? null : joinOnto(working, ends[i]!.node, on);
    if (failed !== null) return failed;
  }
  return null;
}

/** Splits a wall at a node put on it; where the node is an end of it there is nothing to do. */
function joinOnto(working: Working, node: NodeId, on: WallId): EditFailure | null {
  const wall = working.walls.get(on);
  return wall !== undefined && (wall.from === node || wall.to === node) ? null : joinTo(working, node, on);
}

function nodeFor(working: Working, choice: NodeChoice): { node: NodeId; fresh: Point | null } | EditFailure {
  if (typeof choice === 'string') {
    return working.nodes.has(choice) ? { node: choice, fresh: null } : noNode(choice);
  }
  const taken = idFault(choice.id, working.nodes);
  if (taken !== null) return taken;
  const at = wholePoint(choice.at);
  if (isFailure(at)) return at;
  for (const [node, place] of working.nodes) {
    if (place[0] === at[0] && place[1] === at[1]) return { node, fresh: null };
  }
  return { node: choice.id, fresh: at };
}

function moveNode(working: Working, { node, to, on }: MoveNode): EditFailure | null {
  if (!working.nodes.has(node)) return noNode(node);
  const at = wholePoint(to);
  if (isFailure(at)) return at;
  moveNodes(working, new Map([[node, at]]));
  return on === undefined ? null : joinTo(working, node, on);
}

function moveWall(working: Working, { wall: id, by }: MoveWall): EditFailure | null {
  const wall = working.walls.get(id);
  if (wall === undefined) return noWall(id);
  const moved = new Map<NodeId, Point>();
  const way: Point = [roundHalfAway(by[0]), roundHalfAway(by[1])];
  for (const node of [wall.from, wall.to]) {
    const was = mustGet(working.nodes, node);
    const at = wholePoint([was[0] + way[0], was[1] + way[1]]);
    if (isFailure(at)) return at;
    moved.set(node, at);
  }
  moveNodes(working, moved);
  return null;
}

function splitWall(working: Working, { wall: id, at, node, newWall }: SplitWall): EditFailure | null {
  const wall = working.walls.get(id);
  if (wall === undefined) return noWall(id);
  const taken = idFault(node, working.nodes) ?? idFault(newWall, working.walls);
  if (taken !== null) return taken;
  const length = wallLength(working, id);
  const [from, to] = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)];
  const place: Point = [
    roundHalfAway(from[0] + ((to[0] - from[0]) * at) / length),
    roundHalfAway(from[1] + ((to[1] - from[1]) * at) / length),
  ];
  const inside = at > 0 && at < length && distance(place, from) > 0 && distance(place, to) > 0;
  if (!inside)
    return failure(
      'off-wall',
      `That place is not inside wall ${id}: it must lie between the wall’s two ends.`,
    );
  const there = [...working.nodes].find(([, other]) => other[0] === place[0] && other[1] === place[1]);
  if (there !== undefined)
    return failure('off-wall', `Wall ${id} cannot be split there: node ${there[0]} is in the way.`);
  working.nodes.set(node, place);
  splitAt(working, id, [{ node, newWall }]);
  return null;
}

function joinWalls(working: Working, node: NodeId): EditFailure | null {
  const at = working.nodes.get(node);
  if (at === undefined) return noNode(node);
  const here = [...working.walls].filter(([, wall]) => wall.from === node || wall.to === node);
  const [kept, other] = here.sort(([a], [b]) => (a < b ? -1 : 1));
  if (kept === undefined || other === undefined || here.length > 2) {
    return failure('not-two-walls', `At node ${node} ${here.length} walls end; only two can be joined.`);
  }
  const farOf = (wall: Wall) => mustGet(working.nodes, wall.from === node ? wall.to : wall.from);
  if (!inLine(farOf(kept[1]), at, farOf(other[1]))) {
    return failure('not-in-line', `Walls ${kept[0]} and ${other[0]} do not go straight on at node ${node}.`);
  }
  const turned = (kept[1].to === node) === (other[1].to === node);
  const faces = turned ? turnedFaces(other[1].faces) : other[1].faces;
  const alike =
    kept[1].thickness === other[1].thickness &&
    kept[1].height === other[1].height &&
    sameValue(kept[1].faces ?? {}, faces ?? {});
  if (!alike) {
    const message = `Walls ${kept[0]} and ${other[0]} differ in thickness, height or faces.`;
    return failure('not-alike', message);
  }
  joinAt(working, node, kept[0], other[0]);
  return null;
}

/** Whether b lies between a and c, within a tick of the line between them. */
function inLine(a: Point, b: Point, c: Point): boolean {
  const [one, other] = [minus(b, a), minus(c, b)];
  if (dot(one, other) <= 0) return false;
  if (exactTurn(a, b, c) === 0) return true;
  const way = minus(c, a);
  const off = Math.abs(one[0] * way[1] - one[1] * way[0]) / distance(a, c);
  return off <= JOIN_OFF_TICKS;
}

function deleteWall(working: Working, { wall, also = [], joins = false }: DeleteWall): EditFailure | null {
  const ends = new Set<NodeId>();
  for (const id of new Set([wall, ...also])) {
    const record = working.walls.get(id);
    if (record === undefined) return noWall(id);
    dropWall(working, id);
    dropBare(working, [record.from, record.to]);
    ends.add(record.from).add(record.to);
  }
  // Where that cannot be, the two stay as they are.
  if (joins) for (const node of ends) joinWalls(working, node);
  return null;
}
