// The small drawn things that every sheet is made of: rules, boxes, hatch, circles, arrow heads, dimension lines, ringed
// numbers and flagged letters. Points (1/72 in), origin top left, y down. Knows no plan, no trim and no writer.

import type { Point } from '../graph/types.ts';
import { type Box, corners } from './boxes.ts';
import { type Ink, type Item, SMALLEST_TEXT, type Stroke, type TextMeasure } from './items.ts';
import { CAP_EM, middleBaseline, text } from './texts.ts';

/** Line widths in points, thin to heavy: three are enough to read on a photocopy. */
export const THIN = 0.4;
export const MEDIUM = 0.75;
export const HEAVY = 1.3;

/** A straight line. */
export function rule(from: Point, to: Point, stroke: Stroke, role?: string): Item {
  return { kind: 'line', points: [from, to], stroke, ...(role ? { role } : {}) };
}

/** A rectangle, with its fill where one is given. */
export function rectangle(box: Box, stroke: Stroke, fill?: Ink, role?: string): Item {
  return {
    kind: 'line',
    points: corners(box),
    stroke,
    closed: true,
    ...(fill ? { fill } : {}),
    ...(role ? { role } : {}),
  };
}

/** A filled rectangle without an outline; with hatch where given. */
export function patch(
  box: Box,
  fill: Ink,
  hatch?: { readonly spacing: number; readonly angleDeg: number; readonly stroke: Stroke },
): Item {
  return { kind: 'area', rings: [corners(box)], fill, ...(hatch ? { hatch } : {}) };
}

/** A whole circle. */
export function circle(centre: Point, radius: number, stroke: Stroke, fill?: Ink, role?: string): Item {
  return {
    kind: 'arc',
    centre,
    radius,
    fromDeg: 0,
    toDeg: 360,
    stroke,
    ...(fill ? { fill } : {}),
    ...(role ? { role } : {}),
  };
}

/** A slim filled arrow head with its point at `tip`, pointing along the unit vector `along`. */
export function arrowHead(tip: Point, along: Point, ink: Ink, length = 4.2): Item {
  const half = length * 0.19;
  const [ax, ay] = along;
  const base: Point = [tip[0] - ax * length, tip[1] - ay * length];
  return {
    kind: 'line',
    points: [tip, [base[0] - ay * half, base[1] + ax * half], [base[0] + ay * half, base[1] - ax * half]],
    stroke: { ink, width: 0.2 },
    closed: true,
    fill: ink,
  };
}

/**
 * A dimension between two points that lie level or plumb with each other: a line with an arrow at each end and the figure
 * in a gap in its middle, upright or reading up the sheet. Where the figure does not fit between the arrows it stands
 * beside the line, on the side of `beside` (a unit vector). Points.
 */
export function dimensionLine(
  measure: TextMeasure,
  spec: {
    readonly from: Point;
    readonly to: Point;
    readonly figure: string;
    readonly size?: number;
    readonly ink?: Ink;
    readonly beside?: Point;
    readonly role?: string;
  },
): Item[] {
  const { from, to } = spec;
  const size = spec.size ?? SMALLEST_TEXT;
  const ink = spec.ink ?? 'ink';
  const role = spec.role ?? 'dimension';
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return [];
  const along: Point = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const upright = Math.abs(along[0]) >= Math.abs(along[1]);
  const turn = upright ? 0 : -90;
  const width = measure.width(spec.figure, 'regular', size);
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const drop = (CAP_EM * size) / 2;
  const stroke: Stroke = { ink, width: THIN };
  const heads = [arrowHead(from, [-along[0], -along[1]], ink), arrowHead(to, along, ink)];
  const inside = width + 16 <= length;
  const away = inside ? [0, 0] : (spec.beside ?? [0, 0]);
  const shift = inside ? 0 : size * 0.75 + 1.5;
  const at: Point = upright
    ? [middle[0] + away[0]! * shift, middle[1] + away[1]! * shift + drop]
    : [middle[0] + away[0]! * shift + drop, middle[1] + away[1]! * shift];
  const label = text(measure, { text: spec.figure, at, size, ink, align: 'middle', turn, role });
  if (!inside) return [rule(from, to, stroke), ...(length > 9 ? heads : []), label];
  const gap = width / 2 + 2.5;
  return [
    rule(from, [middle[0] - along[0] * gap, middle[1] - along[1] * gap], stroke),
    rule([middle[0] + along[0] * gap, middle[1] + along[1] * gap], to, stroke),
    ...heads,
    label,
  ];
}

/** Radius of the ring round a number, points: one size for one and two figures, wider for more. */
export function ringRadius(measure: TextMeasure, number: string, size: number): number {
  return Math.max(size * 0.92, measure.width(number, 'semibold', size) / 2 + size * 0.32);
}

/** A number in a ring, centred: how corners are numbered everywhere. */
export function ringedNumber(
  measure: TextMeasure,
  centre: Point,
  number: string,
  size: number,
  role = 'corner-number',
): Item[] {
  return [
    circle(centre, ringRadius(measure, number, size), { ink: 'ink', width: MEDIUM }, 'paper', `${role}-ring`),
    text(measure, {
      text: number,
      at: [centre[0], middleBaseline(centre[1], size)],
      size,
      font: 'semibold',
      align: 'middle',
      role,
    }),
  ];
}

/** A triangle's height as a share of half its width; clear space under the letter in it and beside it, in em. */
const FLAG_HIGH = 1.75;
const FLAG_CLEAR_EM = 0.16;
const FLAG_SIDE_EM = 0.1;

/**
 * Half the width of the triangle round a finding's letter, points: as wide as the letter needs at its top, where the
 * triangle is narrow. W and AA need more than A.
 */
export function flagHalf(measure: TextMeasure, letter: string, size: number): number {
  const wide = measure.width(letter, 'bold', size) / 2 + FLAG_SIDE_EM * size;
  // Where it is widest: A, J and L at the foot, all others may be at the top. At a height h above its base a triangle of
  // half width b and height FLAG_HIGH × b is b − h / FLAG_HIGH wide.
  const widest = /^[AJL]+$/.test(letter) ? 0.35 : 1;
  return Math.max(size * 0.95, wide + ((CAP_EM + FLAG_CLEAR_EM) * size * widest) / FLAG_HIGH);
}

/** A finding's letter in a triangle of red pencil that stands on its base: how findings are marked. Centred on `centre`. */
export function flaggedLetter(
  measure: TextMeasure,
  centre: Point,
  letter: string,
  size: number,
  role = 'finding',
): Item[] {
  const half = flagHalf(measure, letter, size);
  const height = half * FLAG_HIGH;
  const top = centre[1] - height / 2;
  return [
    {
      kind: 'line',
      points: [
        [centre[0], top],
        [centre[0] + half, top + height],
        [centre[0] - half, top + height],
      ],
      stroke: { ink: 'pencil', width: 1 },
      closed: true,
      fill: 'paper',
      role: `${role}-triangle`,
    },
    text(measure, {
      text: letter,
      at: [centre[0], top + height - size * FLAG_CLEAR_EM],
      size,
      font: 'bold',
      ink: 'pencil',
      align: 'middle',
      role,
    }),
  ];
}
