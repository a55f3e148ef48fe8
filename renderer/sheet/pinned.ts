// Labels pinned to the plan: drawing items in points about an anchor in ticks, so that they keep their size while the plan
// grows; lines that tie a label to its place have one end at each. Painted at any zoom, and found again under the pointer.

import type { Point } from '../../core/graph/index.ts';
import { type Box, boxOf, itemBox, moved } from '../../core/sheets/boxes.ts';
import type { Item, Stroke } from '../../core/sheets/items.ts';
import type { PlanView } from '../../core/sheets/plan-view.ts';
import type { Ref } from '../state/refs.ts';
import type { Viewport } from '../state/viewport.ts';
import { paintItem, readyForItems } from './paint-items.ts';
import type { Palette } from './palette.ts';
import { POINT_PX } from './steps.ts';

export type Pinned =
  | {
      readonly kind: 'label';
      /** Ticks. */
      readonly anchor: Point;
      /** Points from the anchor. */
      readonly items: readonly Item[];
      readonly box: Box;
      readonly ref: Ref | null;
      /** The letter of the finding it stands for. */
      readonly flag?: string;
    }
  /** From a place on the plan to another, or to so many points from a label's anchor. Ticks; `off` in points. */
  | {
      readonly kind: 'tie';
      readonly from: Point;
      readonly to: Point;
      readonly off: Point;
      readonly stroke: Stroke;
    };

/** A placed label's items (points of `view`) on the plan. Lines of dimensions go with the plan, leaders tie the two. */
export function pinned(items: readonly Item[], view: PlanView, ref: Ref | null, flag?: string): Pinned[] {
  const found: Pinned[] = [];
  const own: Item[] = [];
  const leaders: Extract<Item, { kind: 'line' }>[] = [];
  for (const item of items) {
    if (item.kind === 'line' && item.role?.endsWith('leader')) leaders.push(item);
    else if (item.kind === 'line' && item.role?.startsWith('dimension-line')) {
      const [from, to] = item.points as readonly [Point, Point];
      found.push({ kind: 'tie', from: view.off(from), to: view.off(to), off: [0, 0], stroke: item.stroke });
    } else if (item.kind === 'line' && item.points.length === 3 && item.fill === item.stroke.ink)
      found.push(label([item], item.points[0]!, view, null)); // An arrow head, at its tip.
    else if (item.kind === 'arc' && item.role === 'finding-place')
      found.push(label([item], item.centre, view, null, items.length === 1 ? flag : undefined));
    else own.push(item);
  }
  if (own.length === 0) return found;
  const box = boxOf(own.flatMap((item) => cornersOf(itemBox(item))));
  const middle: Point = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  for (const { points, stroke } of leaders) {
    const [foot, edge] = points as readonly [Point, Point];
    const off: Point = [edge[0] - middle[0], edge[1] - middle[1]];
    found.push({ kind: 'tie', from: view.off(foot), to: view.off(middle), off, stroke });
  }
  found.push(label(own, middle, view, ref, flag));
  return found;
}

function label(items: readonly Item[], at: Point, view: PlanView, ref: Ref | null, flag?: string): Pinned {
  const about = moved(items, [-at[0], -at[1]]);
  const box = boxOf(about.flatMap((item) => cornersOf(itemBox(item))));
  return {
    kind: 'label',
    anchor: view.off(at),
    items: about,
    box,
    ref,
    ...(flag === undefined ? {} : { flag }),
  };
}

function cornersOf([x0, y0, x1, y1]: Box): Point[] {
  return [
    [x0, y0],
    [x1, y1],
  ];
}

/**
 * Paints labels on a context whose unit is the CSS pixel; `ratio` is that of its own pixels to those. `part`: of the canvas,
 * CSS pixels; what lies outside is left out.
 */
export function paintPinned(
  context: CanvasRenderingContext2D,
  labels: readonly Pinned[],
  { centre, pixelsPerTick: by, width, height }: Viewport,
  palette: Palette,
  ratio: number,
  part: Box = [0, 0, width, height],
): void {
  const scale = POINT_PX * ratio;
  context.save();
  readyForItems(context);
  for (const each of labels) {
    if (each.kind === 'tie') {
      const { from, to, off, stroke } = each;
      const x0 = width / 2 + (from[0] - centre[0]) * by;
      const y0 = height / 2 + (from[1] - centre[1]) * by;
      const x1 = width / 2 + (to[0] - centre[0]) * by + off[0] * POINT_PX;
      const y1 = height / 2 + (to[1] - centre[1]) * by + off[1] * POINT_PX;
      if (Math.max(x0, x1) < part[0] - EDGE || Math.min(x0, x1) > part[2] + EDGE) continue;
      if (Math.max(y0, y1) < part[1] - EDGE || Math.min(y0, y1) > part[3] + EDGE) continue;
      context.beginPath();
      context.moveTo(x0, y0);
      context.lineTo(x1, y1);
      context.setLineDash(WHOLE);
      context.lineWidth = stroke.width * POINT_PX;
      context.strokeStyle = palette.inks[stroke.ink];
      context.stroke();
      continue;
    }
    const x = width / 2 + (each.anchor[0] - centre[0]) * by;
    const y = height / 2 + (each.anchor[1] - centre[1]) * by;
    const [left, top, right, bottom] = each.box;
    if (x + right * POINT_PX < part[0] - EDGE || x + left * POINT_PX > part[2] + EDGE) continue;
    if (y + bottom * POINT_PX < part[1] - EDGE || y + top * POINT_PX > part[3] + EDGE) continue;
    context.setTransform(scale, 0, 0, scale, x * ratio, y * ratio);
    for (const item of each.items) paintItem(context, item, palette);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
  }
  context.restore();
}

/** No dashes. */
const WHOLE: number[] = [];
/** How far strokes and grounds reach beyond what they are measured by, pixels. */
const EDGE = 3;

/** What the label under a place (ticks) names, the last painted first; null where there is none that names a thing. */
export function labelUnder(labels: readonly Pinned[], at: Point, pixelsPerTick: number): Ref | null {
  return under(labels, at, pixelsPerTick, 0, ({ ref }) => ref !== null)?.ref ?? null;
}

/** The letter of the flag under a place (ticks); null where there is none. */
export function flagUnder(labels: readonly Pinned[], at: Point, pixelsPerTick: number): string | null {
  return under(labels, at, pixelsPerTick, AROUND_FLAG, ({ flag }) => flag !== undefined)?.flag ?? null;
}

/** How far beside a flag a press still is one on it, points. */
const AROUND_FLAG = 3;

type Label = Extract<Pinned, { kind: 'label' }>;

function under(
  labels: readonly Pinned[],
  at: Point,
  pixelsPerTick: number,
  around: number,
  wanted: (label: Label) => boolean,
): Label | null {
  const by = pixelsPerTick / POINT_PX;
  for (let i = labels.length - 1; i >= 0; i--) {
    const each = labels[i]!;
    if (each.kind !== 'label' || !wanted(each)) continue;
    const x = (at[0] - each.anchor[0]) * by;
    const y = (at[1] - each.anchor[1]) * by;
    const [x0, y0, x1, y1] = each.box;
    if (x >= x0 - around && x <= x1 + around && y >= y0 - around && y <= y1 + around) return each;
  }
  return null;
}
