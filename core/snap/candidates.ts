// The targets near a pointer: ends, middles, square feet and places on walls and faces. Each has its exact place in whole
// ticks and its distance from the pointer in pixels. What is moved and what is off screen is left out. RULES: SN2, SN5.

import type { Point } from '../graph/index.ts';
import { along, distance, dot, midpoint, minus, unit } from '../graph/index.ts';
import { lookup } from '../plan/maps.ts';
import type { NodeId, WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { LET_GO_PX } from './limits.ts';
import type { LineItem, PointItem, SnapItem } from './snap-index.ts';
import type { SnapKind, SnapQuery, SnapTarget } from './types.ts';

/** A place that may be caught. `offPx`: from the pointer. */
export interface Candidate extends SnapTarget {
  readonly at: Point;
  readonly offPx: number;
  /** False where it may be held but not newly caught. */
  readonly catchable: boolean;
  readonly lines: readonly (readonly [Point, Point])[];
}

export interface Near {
  readonly candidates: Candidate[];
  /** Straight lines within reach, with where on them the pointer's foot is. */
  readonly lines: readonly LineItem[];
  readonly looked: number;
}

export function whole(at: Point): Point {
  return [roundHalfAway(at[0]), roundHalfAway(at[1])];
}

export function isShown(at: Point, view: SnapQuery['view']): boolean {
  return view === undefined || (at[0] >= view[0] && at[1] >= view[1] && at[0] <= view[2] && at[1] <= view[3]);
}

/** All targets within the distance at which they are let go. */
export function nearTargets(query: SnapQuery): Near {
  const { index, at, pixelsPerTick, start } = query;
  const reach = LET_GO_PX / pixelsPerTick;
  const found = index.tree?.search(at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach) ?? [];
  const isMoved = movedItems(query);
  const wanted = query.lines ?? 'both';
  const items = found
    .sort((a, b) => a - b)
    .map((i) => index.items[i]!)
    .filter((item) => wanted === 'both' || item.of === (wanted === 'faces' ? 'face' : 'centre'))
    .filter((item) => query.faceCorners !== false || item.shape !== 'point' || item.of === 'centre')
    .filter((item) => !isMoved(item));
  const candidates: Candidate[] = [];
  const offer = (kind: SnapKind, item: SnapItem | null, key: string, words: string, place: Point) => {
    const offPx = distance(at, place) * pixelsPerTick;
    if (offPx > LET_GO_PX || !isShown(place, query.view)) return;
    const node = item?.shape === 'point' ? item.node : null;
    const wall = item?.shape === 'line' ? item.wall : null;
    candidates.push({ kind, key, words, node, wall, at: whole(place), offPx, catchable: true, lines: [] });
  };
  const lines: LineItem[] = [];
  for (const item of items) {
    if (item.shape === 'point') {
      offer('end', item, item.key, item.words, item.at);
      continue;
    }
    lines.push(item);
    offer('middle', item, `middle:${item.key}`, `middle of ${item.words}`, midpoint(item.from, item.to));
    const foot = start === undefined ? null : footOn(item, start);
    if (foot !== null && start !== undefined && distance(foot, start) > 0)
      offer('perpendicular', item, `square:${item.key}`, `square to ${item.words}`, foot);
    // Beyond an end it is that end: so the line does not vanish under a pointer beside its end.
    offer('on', item, item.key, `on ${item.words}`, nearestOn(item, at));
  }
  for (const [i, { at: place, words, closes }] of (query.drawn ?? []).entries())
    if (closes) offer('end', null, `drawn:${i}`, words, place);
  return { candidates, lines, looked: found.length };
}

/** The foot of a point on a line between its ends; null where it lies beyond them. */
function footOn({ from, to }: LineItem, at: Point): Point | null {
  const length = distance(from, to);
  if (length === 0) return null;
  const way = unit(minus(to, from));
  const ahead = dot(minus(at, from), way);
  return ahead < 0 || ahead > length ? null : along(from, way, ahead);
}

/** The place on a line nearest to a point, its ends included. */
function nearestOn(line: LineItem, at: Point): Point {
  const foot = footOn(line, at);
  if (foot !== null) return foot;
  return distance(at, line.from) <= distance(at, line.to) ? line.from : line.to;
}

/** Whether an item moves with what is being moved: its nodes, and all walls that end at them. RULES: SN5. */
function movedItems({ index, without }: SnapQuery): (item: SnapItem) => boolean {
  const nodes = new Set<NodeId>(without?.nodes ?? []);
  const walls = new Set<WallId>(without?.walls ?? []);
  for (const id of without?.walls ?? []) {
    const wall = lookup(index.level.walls, id);
    if (wall !== undefined) nodes.add(wall.from).add(wall.to);
  }
  for (const node of nodes) for (const wall of index.wallsAt.get(node) ?? []) walls.add(wall);
  if (nodes.size === 0 && walls.size === 0) return () => false;
  return (item) => {
    if (item.shape === 'point' && item.of === 'centre') return nodes.has((item as PointItem).node!);
    return item.walls.some((wall) => walls.has(wall));
  };
}
