// Boxes on a sheet: round points and items, grown, side by side; and items moved or made larger. Points (1/72 in), origin top
// left, y down. Knows no text and no plan.

import type { Point } from '../graph/types.ts';
import { type Item, SMALLEST_TEXT, type Stroke } from './items.ts';

/** [x0, y0, x1, y1] in points, x0 ≤ x1 and y0 ≤ y1. */
export type Box = readonly [x0: number, y0: number, x1: number, y1: number];

/** Corners of a box, clockwise from the top left. */
export function corners(box: Box): Point[] {
  return [
    [box[0], box[1]],
    [box[2], box[1]],
    [box[2], box[3]],
    [box[0], box[3]],
  ];
}

/** A box grown by `by` points on each side. */
export function grown(box: Box, by: number): Box {
  return [box[0] - by, box[1] - by, box[2] + by, box[3] + by];
}

/** True where two boxes share more than an edge (0.01 pt). */
export function boxesOverlap(a: Box, b: Box): boolean {
  const touch = 0.01;
  return a[0] < b[2] - touch && b[0] < a[2] - touch && a[1] < b[3] - touch && b[1] < a[3] - touch;
}

/** The box that an item covers, line width included, points. */
export function itemBox(item: Item): Box {
  switch (item.kind) {
    case 'text':
    case 'clip':
      return item.box;
    case 'line':
      return grown(boxOf(item.points), item.stroke.width / 2);
    case 'area':
      return grown(boxOf(item.rings.flat()), (item.stroke?.width ?? 0) / 2);
    case 'arc': {
      const reach = item.radius + item.stroke.width / 2;
      const [x, y] = item.centre;
      return [x - reach, y - reach, x + reach, y + reach];
    }
  }
}

/** The box that a items of a drawing cover, points. Throws on a drawing without items. */
export function drawnBox(items: readonly Item[]): Box {
  const boxes = items.map(itemBox);
  return boxOf(
    boxes.flatMap(([x0, y0, x1, y1]): Point[] => [
      [x0, y0],
      [x1, y1],
    ]),
  );
}

/** The box round points. Throws when there are none. */
export function boxOf(points: readonly Point[]): Box {
  if (points.length === 0) throw new Error('boxOf: no points');
  let [x0, y0, x1, y1] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return [x0, y0, x1, y1];
}

/** The same items moved by [dx, dy] points. */
export function moved(items: readonly Item[], by: Point): Item[] {
  return items.map((item) => movedItem(item, by));
}

function movedItem(item: Item, by: Point): Item {
  const move = (p: Point): Point => [p[0] + by[0], p[1] + by[1]];
  const moveBox = (b: Box): Box => [b[0] + by[0], b[1] + by[1], b[2] + by[0], b[3] + by[1]];
  switch (item.kind) {
    case 'text':
      return { ...item, at: move(item.at), box: moveBox(item.box) };
    case 'line':
      return { ...item, points: item.points.map(move) };
    case 'area':
      return { ...item, rings: item.rings.map((ring) => ring.map(move)) };
    case 'arc':
      return { ...item, centre: move(item.centre) };
    case 'clip':
      return { ...item, box: moveBox(item.box), items: moved(item.items, by) };
  }
}

/** The same items `by` times as large, about [0, 0]: lines, dashes, hatch and type grow alike. Throws where type would be too small. */
export function scaled(items: readonly Item[], by: number): Item[] {
  return by === 1 ? [...items] : items.map((item) => scaledItem(item, by));
}

function scaledItem(item: Item, by: number): Item {
  const at = (p: Point): Point => [p[0] * by, p[1] * by];
  const box = (b: Box): Box => [b[0] * by, b[1] * by, b[2] * by, b[3] * by];
  const pen = (stroke: Stroke): Stroke => ({
    ...stroke,
    width: stroke.width * by,
    ...(stroke.dash ? { dash: stroke.dash.map((part) => part * by) } : {}),
  });
  switch (item.kind) {
    case 'text':
      if (item.size * by < SMALLEST_TEXT) throw new RangeError(`text of ${item.size * by} pt: ${item.text}`);
      return { ...item, at: at(item.at), size: item.size * by, box: box(item.box) };
    case 'line':
      return { ...item, points: item.points.map(at), stroke: pen(item.stroke) };
    case 'area':
      return {
        ...item,
        rings: item.rings.map((ring) => ring.map(at)),
        ...(item.stroke ? { stroke: pen(item.stroke) } : {}),
        ...(item.hatch
          ? { hatch: { ...item.hatch, spacing: item.hatch.spacing * by, stroke: pen(item.hatch.stroke) } }
          : {}),
      };
    case 'arc':
      return { ...item, centre: at(item.centre), radius: item.radius * by, stroke: pen(item.stroke) };
    case 'clip':
      return { ...item, box: box(item.box), items: scaled(item.items, by) };
  }
}
