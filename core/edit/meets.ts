// Where the walls of a level meet other than at their shared nodes. Positions are whole ticks, x right, y down.
// Candidates come from a spatial index over the walls' boxes, answers from exact predicates: nothing is missed and
// nothing is found that is not there. Changes nothing. RULES: ED1.

import Flatbush from 'flatbush';
import type { Point } from '../graph/index.ts';
import type { NodeId, Wall, WallId } from '../plan/schema.ts';
import { crossInside, crossingTick, liesInside, passesTick } from './exact.ts';

/** A wall with the whole positions of its two different ends. */
export interface PlacedWall {
  readonly id: WallId;
  readonly wall: Wall;
  readonly from: Point;
  readonly to: Point;
}

/** A node strictly inside a wall. `by` is a wall that ends there; null where the node carries no wall. */
export interface Touch {
  readonly wall: WallId;
  readonly node: NodeId;
  readonly by: WallId | null;
}

/** Two walls that cross strictly inside both; `at` is the nearest tick. */
export interface Crossing {
  readonly walls: readonly [WallId, WallId];
  readonly at: Point;
}

export interface Meets {
  readonly touches: readonly Touch[];
  readonly crossings: readonly Crossing[];
}

/** What differs from a state in which nothing met: what else there is meets nothing of its own kind. */
export interface Stirred {
  readonly nodes: ReadonlySet<NodeId>;
  readonly walls: ReadonlySet<WallId>;
}

/** What may still be looked at and found; spent as it goes. */
export interface Effort {
  pairs: number;
  meets: number;
}

/** A level that takes more effort than was given. */
export class Tangled extends Error {
  override readonly name = 'Tangled';
}

/** So many walls are looked through one by one before an index of them is worth its making. */
const FEW = 24;

/** The walls, by position, ascending, whose boxes meet a box. */
type Near = (left: number, top: number, right: number, bottom: number) => number[];

function nearWalls(walls: readonly PlacedWall[], questions: number): Near {
  if (questions <= FEW) {
    return (left, top, right, bottom) => {
      const near: number[] = [];
      walls.forEach(({ from, to }, i) => {
        if ((from[0] < left && to[0] < left) || (from[0] > right && to[0] > right)) return;
        if ((from[1] < top && to[1] < top) || (from[1] > bottom && to[1] > bottom)) return;
        near.push(i);
      });
      return near;
    };
  }
  const index = new Flatbush(walls.length);
  for (const wall of walls) index.add(...boxOf(wall));
  index.finish();
  return (left, top, right, bottom) => index.search(left, top, right, bottom).sort((a, b) => a - b);
}

function boxOf({ from, to }: PlacedWall): [left: number, top: number, right: number, bottom: number] {
  return [
    Math.min(from[0], to[0]),
    Math.min(from[1], to[1]),
    Math.max(from[0], to[0]),
    Math.max(from[1], to[1]),
  ];
}

/** Pairs of walls whose boxes meet, lower position first, in order; with `stirred` only those of which one is. */
function* pairsOf(
  walls: readonly PlacedWall[],
  near: Near,
  stirred: Stirred | null,
): Generator<[number, number]> {
  if (stirred === null) {
    for (const [i, wall] of walls.entries()) for (const j of near(...boxOf(wall))) if (j > i) yield [i, j];
    return;
  }
  const pairs: [number, number][] = [];
  for (const [i, wall] of walls.entries()) {
    if (!stirred.walls.has(wall.id)) continue;
    for (const j of near(...boxOf(wall))) {
      // Of two that are stirred the first finds the pair.
      if (j > i) pairs.push([i, j]);
      else if (j < i && !stirred.walls.has(walls[j]!.id)) pairs.push([j, i]);
    }
  }
  yield* pairs.sort(([a, b], [c, d]) => a - c || b - d);
}

/**
 * All touches and crossings of the walls, and touches of `loose` nodes (those without a wall) with walls. In the order
 * of the walls given. Two walls that lie on each other show as touches, unless they share both nodes.
 * Requires whole coordinates and walls with a length. Output-sensitive: no pair is tried whose boxes do not meet; with
 * `stirred` none of which neither is. What is found is the same, if what is not stirred meets nothing. Throws `Tangled`
 * where that takes more than `effort`.
 */
export function findMeets(
  walls: readonly PlacedWall[],
  loose: ReadonlyMap<NodeId, Point>,
  stirred: Stirred | null = null,
  effort: Effort = boundless(),
): Meets {
  const touches: Touch[] = [];
  const crossings: Crossing[] = [];
  const spend = (): boolean => {
    effort.meets -= 1;
    if (effort.meets < 0) throw new Tangled('too many walls meet');
    return false;
  };
  visitMeets(walls, loose, stirred, effort, {
    touch: (wall, node, by) => {
      touches.push({ wall, node, by });
      return spend();
    },
    crossing: (a, b) => {
      crossings.push({ walls: [a.id, b.id], at: crossingTick(a.from, a.to, b.from, b.to) });
      return spend();
    },
  });
  return { touches, crossings };
}

/** Whether `findMeets` would find anything; no further than the first. */
export function meetAnywhere(
  walls: readonly PlacedWall[],
  loose: ReadonlyMap<NodeId, Point>,
  stirred: Stirred | null = null,
  effort: Effort = boundless(),
): boolean {
  return visitMeets(walls, loose, stirred, effort, { touch: () => true, crossing: () => true });
}

const boundless = (): Effort => ({ pairs: Number.POSITIVE_INFINITY, meets: Number.POSITIVE_INFINITY });

/** Both say whether that is enough. */
interface Visitor {
  touch(wall: WallId, node: NodeId, by: WallId | null): boolean;
  crossing(a: PlacedWall, b: PlacedWall): boolean;
}

/** True where the visitor had enough. */
function visitMeets(
  walls: readonly PlacedWall[],
  loose: ReadonlyMap<NodeId, Point>,
  stirred: Stirred | null,
  effort: Effort,
  visitor: Visitor,
): boolean {
  if (walls.length === 0) return false;
  const questions = stirred === null ? walls.length + loose.size : stirred.walls.size + loose.size;
  const near = nearWalls(walls, questions);
  let touched = false;
  let enough = false;
  const touch = (on: PlacedWall, by: PlacedWall, node: NodeId, at: Point): void => {
    if (enough || node === on.wall.from || node === on.wall.to || !liesInside(on.from, on.to, at)) return;
    touched = true;
    enough = visitor.touch(on.id, node, by.id);
  };
  for (const [i, j] of pairsOf(walls, near, stirred)) {
    effort.pairs -= 1;
    if (effort.pairs < 0) throw new Tangled('too many walls lie over each other');
    const [a, b] = [walls[i]!, walls[j]!];
    touched = false;
    touch(a, b, b.wall.from, b.from);
    touch(a, b, b.wall.to, b.to);
    touch(b, a, a.wall.from, a.from);
    touch(b, a, a.wall.to, a.to);
    if (!touched && crossInside(a.from, a.to, b.from, b.to)) enough = visitor.crossing(a, b);
    if (enough) return true;
  }
  for (const [node, at] of loose) {
    const stays = stirred !== null && !stirred.nodes.has(node);
    if (stays && stirred.walls.size === 0) continue;
    for (const i of near(at[0], at[1], at[0], at[1])) {
      const on = walls[i]!;
      if (stays && !stirred.walls.has(on.id)) continue;
      if (liesInside(on.from, on.to, at) && visitor.touch(on.id, node, null)) return true;
    }
  }
  return false;
}

/**
 * Nodes within whose tick a wall passes (the square of one tick round the node, its edge included), ends aside. A wall
 * cut at all of these bends into pieces that no longer cross any other such wall: snap rounding, after Hobby 1999 and
 * Guibas and Marimont 1998 (from memory). In the order of the walls given, then of the nodes.
 */
export function nearTouches(
  walls: readonly PlacedWall[],
  nodes: ReadonlyMap<NodeId, Point>,
): readonly { readonly wall: WallId; readonly node: NodeId }[] {
  if (nodes.size === 0) return [];
  const list = [...nodes];
  const index = new Flatbush(list.length);
  for (const [, [x, y]] of list) index.add(x, y, x, y);
  index.finish();
  return walls.flatMap(({ id, wall, from, to }) =>
    index
      .search(
        Math.min(from[0], to[0]) - 0.5,
        Math.min(from[1], to[1]) - 0.5,
        Math.max(from[0], to[0]) + 0.5,
        Math.max(from[1], to[1]) + 0.5,
      )
      .sort((one, other) => one - other)
      .map((i) => list[i]!)
      .filter(([node, at]) => node !== wall.from && node !== wall.to && passesTick(from, to, at))
      .map(([node]) => ({ wall: id, node })),
  );
}
