// Lines, areas and arcs drawn with PDFKit. Points, y down. Text is the writer's.

import type { Point } from '../../graph/types.ts';
import { type Box, boxOf } from '../boxes.ts';
import { INKS } from '../inks.ts';
import type { Ink, Item, Stroke } from '../items.ts';

/** Two calls as PDFKit has them; its types lack the first and the list of the second. */
type Doc = PDFKit.PDFDocument & {
  arc(x: number, y: number, radius: number, from: number, to: number, anticlockwise: boolean): void;
  dash(lengths: readonly number[]): PDFKit.PDFDocument;
};
type Shape = Exclude<Item, { kind: 'text' | 'clip' }>;
type Area = Extract<Item, { kind: 'area' }>;

/** Draws one shape; nothing where it has no points. `seen` is what a clip leaves of the sheet: hatch is not drawn beyond it. */
export function drawShape(document: PDFKit.PDFDocument, item: Shape, seen: Box): void {
  const doc = document as Doc;
  switch (item.kind) {
    case 'line':
      if (item.points.length === 0) return;
      pen(doc, item.stroke);
      path(doc, item.points, item.closed ?? false);
      finish(doc, item.stroke, item.fill);
      return;
    case 'area':
      if (item.rings.every((ring) => ring.length === 0)) return;
      rings(doc, item.rings);
      doc.fill(INKS[item.fill], 'even-odd');
      if (item.hatch) hatch(doc, item, item.hatch, seen);
      if (item.stroke) {
        pen(doc, item.stroke);
        rings(doc, item.rings);
        doc.stroke(INKS[item.stroke.ink]);
      }
      return;
    case 'arc': {
      pen(doc, item.stroke);
      const [x, y] = item.centre;
      if (Math.abs(item.toDeg - item.fromDeg) >= 360) doc.circle(x, y, item.radius);
      else doc.arc(x, y, item.radius, radians(item.fromDeg), radians(item.toDeg), item.toDeg < item.fromDeg);
      finish(doc, item.stroke, item.fill);
    }
  }
}

function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}

function pen(doc: Doc, stroke: Stroke): void {
  doc.lineWidth(stroke.width).lineJoin('miter').lineCap('butt');
  if (stroke.dash && stroke.dash.length > 0) doc.dash(stroke.dash);
  else doc.undash();
}

function finish(doc: Doc, stroke: Stroke, fill: Ink | undefined): void {
  if (stroke.width === 0) {
    if (fill) doc.fill(INKS[fill]);
  } else if (fill) doc.fillAndStroke(INKS[fill], INKS[stroke.ink]);
  else doc.stroke(INKS[stroke.ink]);
}

function path(doc: Doc, points: readonly Point[], closed: boolean): void {
  points.forEach(([x, y], index) => {
    if (index === 0) doc.moveTo(x, y);
    else doc.lineTo(x, y);
  });
  if (closed) doc.closePath();
}

function rings(doc: Doc, of: readonly (readonly Point[])[]): void {
  for (const ring of of) path(doc, ring, true);
}

/** Parallel lines within the area, all from one origin so that neighbouring areas' lines run on. */
function hatch(doc: Doc, area: Area, how: NonNullable<Area['hatch']>, seen: Box): void {
  const whole = boxOf(area.rings.flat());
  const [x0, y0] = [Math.max(whole[0], seen[0]), Math.max(whole[1], seen[1])];
  const [x1, y1] = [Math.min(whole[2], seen[2]), Math.min(whole[3], seen[3])];
  if (x0 >= x1 || y0 >= y1) return;
  const along: Point = [Math.cos(radians(how.angleDeg)), Math.sin(radians(how.angleDeg))];
  const across: Point = [-along[1], along[0]];
  const corners: Point[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const dot = (p: Point, q: Point) => p[0] * q[0] + p[1] * q[1];
  const over = corners.map((corner) => dot(corner, across));
  const length = corners.map((corner) => dot(corner, along));
  const [from, to] = [Math.min(...length), Math.max(...length)];
  doc.save();
  rings(doc, area.rings);
  doc.clip('even-odd');
  pen(doc, how.stroke);
  for (let k = Math.ceil(Math.min(...over) / how.spacing); k * how.spacing <= Math.max(...over); k++) {
    const offset = k * how.spacing;
    doc.moveTo(along[0] * from + across[0] * offset, along[1] * from + across[1] * offset);
    doc.lineTo(along[0] * to + across[0] * offset, along[1] * to + across[1] * offset);
  }
  doc.stroke(INKS[how.stroke.ink]);
  doc.restore();
}
