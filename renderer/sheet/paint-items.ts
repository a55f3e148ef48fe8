// Drawing items (core/sheets/items.ts) onto a canvas: what is on the paper, on the screen. Items are in points, painted at
// the context's own scale, in order; the context is left as it was found. Decides nothing.

import type { Point } from '../../core/graph/index.ts';
import { type Box, boxOf } from '../../core/sheets/boxes.ts';
import type { Ink, Item, Stroke, TextItem } from '../../core/sheets/items.ts';
import { type Palette, type Paper, paletteOf } from './palette.ts';
import { fontOf } from './type.ts';

type Context = CanvasRenderingContext2D;
type Area = Extract<Item, { kind: 'area' }>;

/** How far the ground under a text reaches beyond it, points. */
const HALO = 0.8;

/** Paints items in the colours of `paper`: 'paper' for a preview of what is printed, 'light' or 'dark' for the sheet. */
export function paintItems(context: Context, items: readonly Item[], paper: Paper): void {
  paintWith(context, items, paletteOf(paper));
}

/** The same in the colours given. */
export function paintWith(context: Context, items: readonly Item[], palette: Palette): void {
  context.save();
  readyForItems(context);
  for (const item of items) paintItem(context, item, palette);
  context.restore();
}

/** Joins, caps and baseline as items want them. */
export function readyForItems(context: Context): void {
  context.lineJoin = 'miter';
  context.lineCap = 'butt';
  context.textBaseline = 'alphabetic';
}

/** One item, on a context made ready; colours, dashes and fonts are left as they fall. */
export function paintItem(context: Context, item: Item, palette: Palette): void {
  switch (item.kind) {
    case 'text':
      paintText(context, item, palette);
      return;
    case 'line':
      if (item.points.length === 0) return;
      context.beginPath();
      trace(context, item.points, item.closed ?? false);
      finish(context, item.stroke, item.fill, palette);
      return;
    case 'arc': {
      context.beginPath();
      const [x, y] = item.centre;
      const whole = Math.abs(item.toDeg - item.fromDeg) >= 360;
      const [from, to] = whole ? [0, 2 * Math.PI] : [radians(item.fromDeg), radians(item.toDeg)];
      context.arc(x, y, item.radius, from, to, !whole && item.toDeg < item.fromDeg);
      finish(context, item.stroke, item.fill, palette);
      return;
    }
    case 'area':
      paintArea(context, item, palette);
      return;
    case 'clip': {
      context.save();
      const [x0, y0, x1, y1] = item.box;
      context.beginPath();
      context.rect(x0, y0, x1 - x0, y1 - y0);
      context.clip();
      for (const inner of item.items) paintItem(context, inner, palette);
      context.restore();
    }
  }
}

function paintText(context: Context, item: TextItem, { inks, set }: Palette): void {
  if (item.text === '') return;
  if (item.halo) {
    const [x0, y0, x1, y1] = item.box;
    context.fillStyle = inks.paper;
    context.fillRect(x0 - HALO, y0 - HALO, x1 - x0 + 2 * HALO, y1 - y0 + 2 * HALO);
  }
  context.font = fontOf(item.font, item.size);
  context.textAlign = item.align === 'middle' ? 'center' : item.align;
  context.fillStyle = item.role.endsWith('-measured') ? set : inks[item.ink];
  const [x, y] = item.at;
  if (!item.turn) {
    context.fillText(item.text, x, y);
    return;
  }
  context.save();
  context.translate(x, y);
  context.rotate(radians(item.turn));
  context.fillText(item.text, 0, 0);
  context.restore();
}

function paintArea(context: Context, item: Area, palette: Palette): void {
  const rings = item.rings.filter((ring) => ring.length > 0);
  if (rings.length === 0) return;
  const path = (): void => {
    context.beginPath();
    for (const ring of rings) trace(context, ring, true);
  };
  path();
  context.fillStyle = palette.inks[item.fill];
  context.fill('evenodd');
  if (item.hatch) {
    context.save();
    context.clip('evenodd');
    hatch(context, boxOf(rings.flat()), item.hatch, palette);
    context.restore();
    path();
  }
  if (item.stroke) finish(context, item.stroke, undefined, palette);
}

/** Parallel lines over a box, all from one origin, so that the lines of neighbouring areas run on. */
function hatch(context: Context, box: Box, how: NonNullable<Area['hatch']>, palette: Palette): void {
  const angle = radians(how.angleDeg);
  const along: Point = [Math.cos(angle), Math.sin(angle)];
  const corners: Point[] = [
    [box[0], box[1]],
    [box[2], box[1]],
    [box[2], box[3]],
    [box[0], box[3]],
  ];
  const over = corners.map(([x, y]) => y * along[0] - x * along[1]);
  const long = corners.map(([x, y]) => x * along[0] + y * along[1]);
  const [from, to] = [Math.min(...long), Math.max(...long)];
  context.beginPath();
  for (let k = Math.ceil(Math.min(...over) / how.spacing); k * how.spacing <= Math.max(...over); k++) {
    const off = k * how.spacing;
    context.moveTo(along[0] * from - along[1] * off, along[1] * from + along[0] * off);
    context.lineTo(along[0] * to - along[1] * off, along[1] * to + along[0] * off);
  }
  finish(context, how.stroke, undefined, palette);
}

function trace(context: Context, points: readonly Point[], closed: boolean): void {
  const [x, y] = points[0]!;
  context.moveTo(x, y);
  for (let i = 1; i < points.length; i++) context.lineTo(points[i]![0], points[i]![1]);
  if (closed) context.closePath();
}

function finish(context: Context, stroke: Stroke, fill: Ink | undefined, { inks }: Palette): void {
  if (fill) {
    context.fillStyle = inks[fill];
    context.fill();
  }
  if (stroke.width === 0) return;
  context.lineWidth = stroke.width;
  context.setLineDash(stroke.dash ? [...stroke.dash] : []);
  context.strokeStyle = inks[stroke.ink];
  context.stroke();
}

function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}
