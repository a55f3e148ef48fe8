// Closed polygons to the question which of them hold a point. Any winding, any number, exact for the doubles given.
// A flat spatial index answers with the polygons whose boxes hold the point; each of those counts the edges that a ray to
// the right meets, a large one by an index of its own edges. Knows nothing of walls or rooms (RULES: WK10).

import Flatbush from 'flatbush';
import { once } from './once.ts';
import { exactTurn } from './orientation.ts';
import type { Box, LevelFaces, Point } from './types.ts';

/** A polygon of more edges than this has an index of its own. */
const MANY_EDGES = 32;

/** How a polygon holds a point: times walked round it (clockwise as seen positive); 0 on its very edge. */
export interface Held {
  readonly polygon: number;
  readonly winding: number;
  readonly onEdge: boolean;
}

export interface PolygonIndex {
  /** The polygons that hold `point` inside or on their edge, by position, ascending. */
  holding(point: Point): Held[];
}

/** So many polygon boxes are looked through, for one question after the other, before an index of them is made. */
const LOOKED_THROUGH = 20_000;

/** A polygon made ready. */
interface Ready {
  readonly position: number;
  readonly points: () => readonly Point[];
  readonly box: Box;
  /** Of its edges, edge i from point i, made when it is first asked for; null where there are few. */
  readonly edges: () => Flatbush | null;
}

/** An index over closed polygons (last point joins the first). A polygon without points holds nothing. */
export function polygonIndex(polygons: readonly (readonly Point[])[]): PolygonIndex {
  const ready: Ready[] = [];
  polygons.forEach((points, position) => {
    if (points.length === 0) return;
    const edges = points.length <= MANY_EDGES ? none : once(() => edgeTree(points));
    ready.push({ position, points: () => points, box: boxOf(points), edges });
  });
  return indexOf(ready);
}

/**
 * Tells the room whose clear floor holds a point, its faces included, as the position of its outer loop: of several the
 * smallest, null in a wall or outside. RULES: WK16.
 */
export function floorAt({ loops, holders }: LevelFaces): (at: Point) => number | null {
  const ready: Ready[] = [];
  loops.forEach(({ kind, corners, box }, position) => {
    if (kind !== 'outer' && kind !== 'island') return;
    const points = once(() => corners.map((corner) => corner.at));
    const edges = corners.length <= MANY_EDGES ? none : once(() => edgeTree(points()));
    ready.push({ position, points, box, edges });
  });
  const index = indexOf(ready);
  return (at) => {
    const held = index.holding(at);
    const within = held.filter(({ onEdge }) => !onEdge).map(({ polygon }) => holders[polygon]);
    const rooms = held
      .map(({ polygon }) => polygon)
      .filter((polygon) => loops[polygon]!.kind === 'outer' && !within.includes(polygon))
      .sort((a, b) => loops[a]!.signedArea - loops[b]!.signedArea || a - b);
    return rooms[0] ?? null;
  };
}

function indexOf(ready: readonly Ready[]): PolygonIndex {
  const boxes = once(() => boxTree(ready));
  let looked = 0;
  /** The polygons whose boxes hold a point. */
  const around = (x: number, y: number): Ready[] => {
    if (looked > LOOKED_THROUGH)
      return boxes()
        .search(x, y, x, y)
        .map((i) => ready[i]!);
    looked += ready.length;
    return ready.filter(({ box }) => x >= box[0] && x <= box[2] && y >= box[1] && y <= box[3]);
  };
  return {
    holding: (point) =>
      around(point[0], point[1])
        .map((polygon) => heldBy(polygon, point))
        .filter((held) => held.winding !== 0 || held.onEdge)
        .sort((a, b) => a.polygon - b.polygon),
  };
}

const none = (): null => null;

function boxTree(ready: readonly Ready[]): Flatbush {
  const boxes = new Flatbush(ready.length);
  for (const { box } of ready) boxes.add(...box);
  boxes.finish();
  return boxes;
}

function edgeTree(points: readonly Point[]): Flatbush {
  const tree = new Flatbush(points.length);
  for (let i = 0; i < points.length; i++) {
    const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
    tree.add(Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1]));
  }
  tree.finish();
  return tree;
}

function heldBy({ position, points: pointsOf, edges: treeOf }: Ready, point: Point): Held {
  const [x, y] = point;
  const points = pointsOf();
  const edges = treeOf();
  let winding = 0;
  let onEdge = false;
  const count = (i: number) => {
    const [a, b] = [points[i]!, points[i + 1 === points.length ? 0 : i + 1]!];
    if ((a[1] < y && b[1] < y) || (a[1] > y && b[1] > y)) return;
    const turn = exactTurn(a, b, point);
    if (turn === 0 && between(a, b, point)) onEdge = true;
    // Half open, so that a ray through a vertex counts once. An edge that runs down has the floor to its left on the
    // sheet where the polygon is walked clockwise.
    if (a[1] <= y && b[1] > y && turn > 0) winding += 1;
    else if (b[1] <= y && a[1] > y && turn < 0) winding -= 1;
  };
  if (edges === null) for (let i = 0; i < points.length; i++) count(i);
  else for (const i of edges.search(x, y, Infinity, y)) count(i);
  return { polygon: position, winding: onEdge ? 0 : winding, onEdge };
}

/** Smallest and largest x and y. */
export function boxOf(points: readonly Point[]): Box {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    box[0] = Math.min(box[0], x);
    box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x);
    box[3] = Math.max(box[3], y);
  }
  return box;
}

/** Of a point on the line through a and b: is it between them? */
function between(a: Point, b: Point, p: Point): boolean {
  const [x, y] = p;
  return (
    x >= Math.min(a[0], b[0]) &&
    x <= Math.max(a[0], b[0]) &&
    y >= Math.min(a[1], b[1]) &&
    y <= Math.max(a[1], b[1])
  );
}
