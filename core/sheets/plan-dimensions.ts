// The clear length of a face, corner to corner, drawn in its room beside the boards. Points out, ticks in.
// Kept: the line between the arrows is as long on paper as the face is at the drawing's scale [SH10]. A line that its
// field cuts has no arrow there. Knows no placing order.

import type { Point } from '../graph/types.ts';
import type { Segment } from '../walk/types.ts';
import type { Box } from './boxes.ts';
import type { Item, Stroke, TextMeasure } from './items.ts';
import type { Candidate } from './plan-place.ts';
import type { PlanView } from './plan-view.ts';
import { arrowHead, rule } from './shapes.ts';
import { CAP_EM, text } from './texts.ts';

const SIZE = 8.5;
const LINE: Stroke = { ink: 'graphite', width: 0.35 };
/** How far in from the face the line may stand, points; the usual one first. */
const OFFSETS = [19, 24, 30, 14, 38, 48];
const ALONG = [0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78];

/** A figure for a face, and whether it was measured on site (then it is printed bold). */
export interface Figure {
  readonly words: string;
  readonly measured: boolean;
}

/** Places for one dimension. None where the field (points) leaves too little of the face. */
export function* dimensionCandidates(
  measure: TextMeasure,
  segment: Segment,
  figure: Figure,
  view: PlanView,
  field: Box,
  inRoom: (p: Point) => boolean,
): Generator<Candidate> {
  const font = figure.measured ? 'semibold' : 'regular';
  const width = measure.width(figure.words, font, SIZE);
  const { along, inward } = segment;
  for (const [index, offset] of OFFSETS.entries()) {
    const shift = (p: Point): Point => {
      const on = view.on(p);
      return [on[0] + inward[0] * offset, on[1] + inward[1] * offset];
    };
    const cut = clipped(shift(segment.start), shift(segment.end), field);
    if (cut === null) continue;
    const { from, to, cutFrom, cutTo } = cut;
    const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const turn = turnOf(along);
    // Level text on a slanting line covers more of it.
    const gap =
      Math.min(
        long,
        turn === null ? Math.min(width / Math.max(0.05, Math.abs(along[0])), width + 12) : width,
      ) /
        2 +
      2;
    const role = cutFrom || cutTo ? 'dimension-line-cut' : 'dimension-line';
    const tall = SIZE * CAP_EM;
    for (const t of ALONG) {
      const inside = Math.min(t, 1 - t) * long >= gap + 5;
      const middle: Point = [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
      // Where it does not fit between the arrows it stands further in, beside the line.
      const beside = inside
        ? 0
        : tall * 0.5 + 3 + (turn === null || turn === 0 ? Math.abs(inward[0]) * width * 0.5 : 0);
      if (!inside && t !== 0.5) continue;
      const centre: Point = [middle[0] + inward[0] * beside, middle[1] + inward[1] * beside];
      if (!inRoom(centre)) continue;
      const item = text(measure, {
        text: figure.words,
        at: turn === -90 ? [centre[0] + tall / 2, centre[1]] : [centre[0], centre[1] + tall / 2],
        size: SIZE,
        font,
        align: 'middle',
        turn: turn ?? 0,
        halo: true,
        role: figure.measured ? 'dimension-measured' : 'dimension',
      });
      const line = rule(from, to, LINE, role);
      const heads: Item[] = [];
      if (long > 10) {
        if (!cutFrom) heads.push(arrowHead(from, [-along[0], -along[1]], 'graphite'));
        if (!cutTo) heads.push(arrowHead(to, along, 'graphite'));
      }
      yield {
        boxes: [item.box],
        cost: index * 1.2 + Math.abs(t - 0.5) * 6 + (inside ? 0 : 4),
        lines: [[from, to]],
        items: () => [line, ...heads, item],
      };
    }
  }
}

/** Walls that are level or nearly so (15°) read level, plumb ones up the sheet; null: slanting, read level. */
function turnOf(along: Point): 0 | -90 | null {
  if (Math.abs(along[1]) < 0.26) return 0;
  if (Math.abs(along[0]) < 0.26) return -90;
  return null;
}

/** The part of a line within a box, and which of its ends were cut off. Null where nothing is left of it. */
function clipped(
  a: Point,
  b: Point,
  box: Box,
): { readonly from: Point; readonly to: Point; readonly cutFrom: boolean; readonly cutTo: boolean } | null {
  let t0 = 0;
  let t1 = 1;
  for (const axis of [0, 1] as const) {
    const d = b[axis] - a[axis];
    const [low, high] = [box[axis], box[axis + 2] as number];
    if (d === 0) {
      if (a[axis] < low || a[axis] > high) return null;
      continue;
    }
    const [u, v] = [(low - a[axis]) / d, (high - a[axis]) / d];
    t0 = Math.max(t0, Math.min(u, v));
    t1 = Math.min(t1, Math.max(u, v));
  }
  if (t1 <= t0) return null;
  const at = (t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
  return { from: t0 === 0 ? a : at(t0), to: t1 === 1 ? b : at(t1), cutFrom: t0 > 0, cutTo: t1 < 1 };
}
