// Closed polygons to the question which of them hold a point. Any winding, any number, exact for the doubles given.
// A flat spatial index answers with the polygons whose boxes hold the point; each of those counts the edges that a ray to
// the right meets, a large one by an index of its own edges. Knows nothing of walls or rooms (RULES: WK10).

import Flatbush from 'flatbush';
import { exactTurn } from './orientation.ts';
import type { Point } from './types.ts';

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

/** A polygon made ready. */
interface Ready {
  readonly position: number;
  readonly points: readonly Point[];
  /** Of its edges, edge i from point i; null where there are few. */
  readonly edges: Flatbush | null;
}

/** An index over closed polygons (last point joins the first). A polygon without points holds nothing. */
export function polygonIndex(polygons: readonly (readonly Point[])[]): PolygonIndex {
  const ready = polygons
    .map((points, position): Ready => ({ position, points, edges: edgeTree(points) }))
    .filter(({ points }) => points.length > 0);
  if (ready.length === 0) return { holding: () => [] };
  const boxes = new Flatbush(ready.length);
  for (const { points } of ready) boxes.add(...boxOf(points));
  boxes.finish();
  return {
    holding: (point) =>
      boxes
        .search(point[0], point[1], point[0], point[1])
        .map((i) => heldBy(ready[i]!, point))
        .filter((held) => held.winding !== 0 || held.onEdge)
        .sort((a, b) => a.polygon - b.polygon),
  };
}

function edgeTree(points: readonly Point[]): Flatbush | null {
  if (points.length <= MANY_EDGES) return null;
  const tree = new Flatbush(points.length);
  for (let i = 0; i < points.length; i++) {
    const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
    tree.add(Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1]));
  }
  tree.finish();
  return tree;
}

function heldBy({ position, points, edges }: Ready, point: Point): Held {
  const [x, y] = point;
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
function boxOf(points: readonly Point[]): [minX: number, minY: number, maxX: number, maxY: number] {
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
