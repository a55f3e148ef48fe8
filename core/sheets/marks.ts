// The marks: how the boards meet, drawn small, as they really meet there. Points (1/72 in), y down.
// Shape first, letter second, colour last [SH9]: the board that is worked is grey, the one that runs through is white,
// and both also differ in outline. Knows no plan and no placing: it is told directions and draws.

import type { Point } from '../graph/types.ts';
import type { EndKind } from '../trim/types.ts';
import type { Box } from './boxes.ts';
import type { Item, Stroke, TextMeasure } from './items.ts';
import { SMALLEST_TEXT } from './items.ts';
import { middleBaseline, text } from './texts.ts';

/** What a mark can show. At a corner: cope, butt, mitre, block. At an end or along a wall: the others. */
export type MarkKind = 'cope' | 'butt' | 'mitre' | 'block' | 'scarf' | 'return' | 'scribe' | 'square';

/** One or two letters for each kind, the same in every mark, table and legend [SH9]. */
export const MARK_LETTERS: Readonly<Record<MarkKind, string>> = {
  cope: 'C',
  butt: 'B',
  mitre: 'M',
  block: 'Bk',
  scarf: 'S',
  return: 'R',
  scribe: 'Sb',
  square: 'Sq',
};

/** Side of a mark's square, points. */
export const MARK_SIZE = 18;

const OUTLINE: Stroke = { ink: 'ink', width: 0.55 };
const JOINT: Stroke = { ink: 'ink', width: 1 };
const WALL: Stroke = { ink: 'ink', width: 1.3 };

/** A corner as a mark needs it. All vectors are unit vectors on the sheet. */
export interface MarkCorner {
  /** From the corner back along the wall walked in on, and on along the wall walked out on. */
  readonly before: Point;
  readonly after: Point;
  /** From each of the two faces into the room. */
  readonly inwardBefore: Point;
  readonly inwardAfter: Point;
  readonly kind: 'inside' | 'outside';
  /** The board that is coped or butted; null at mitres and blocks. */
  readonly worked: 'before' | 'after' | null;
}

/**
 * The mark of a joint at a corner: both walls in their own directions, both boards, and the line where they meet. A cope
 * has a curved end, a butt a straight one against the board that runs through, a mitre the slant to the corner, a block a
 * black square. Fills the square of side `size` about `centre`; the letter stands where the boards leave room.
 */
export function cornerMark(
  measure: TextMeasure,
  joint: 'cope' | 'butt' | 'mitre' | 'block',
  corner: MarkCorner,
  centre: Point,
  size: number = MARK_SIZE,
): Item[] {
  const { before: u, after: v, inwardBefore: n1, inwardAfter: n2 } = corner;
  const b = size * 0.17;
  const cos = dot(u, v);
  const angle = Math.acos(Math.max(-1, Math.min(1, cos)));
  const m = middle(u, v, corner);
  const { c, letterAt } = arrange(angle, m, corner.kind, centre, size);
  const reach = size * 1.5;
  const p = facesMeet(c, n1, n2, b);
  const shapes: Item[] = [];
  const strip = (dir: Point, inward: Point, end: readonly Point[], fill: 'paper' | 'faint') =>
    shapes.push(polygon([...end, add(add(c, dir, reach), inward, b), add(c, dir, reach)], OUTLINE, fill));
  if (joint === 'mitre') {
    strip(u, n1, [c, p], 'faint');
    strip(v, n2, [c, p], 'faint');
    shapes.push(line([c, p], JOINT));
  } else if (joint === 'block') {
    const k = b * 1.9;
    strip(u, n1, [add(c, u, k), add(add(c, u, k), n1, b)], 'paper');
    strip(v, n2, [add(c, v, k), add(add(c, v, k), n2, b)], 'paper');
    const deep = b * 1.7;
    shapes.push(
      polygon(
        [
          c,
          add(c, u, k),
          add(add(c, u, k), n1, deep),
          facesMeet(c, n1, n2, deep),
          add(add(c, v, k), n2, deep),
          add(c, v, k),
        ],
        OUTLINE,
        'ink',
      ),
    );
  } else {
    const workedAfter = corner.worked === 'after';
    const [w, nw, t, nt] = workedAfter ? [v, n2, u, n1] : [u, n1, v, n2];
    // The through board ends at the face of the other wall, b / sin(angle) along it: a quarter turn at most is drawn so.
    const x = add(c, w, Math.min(b * 2.5, b / Math.max(0.2, Math.sin(angle))));
    strip(t, nt, [c, x], 'paper');
    const cut = joint === 'cope' ? curve(x, p, w, b * 0.55) : [x, p];
    const far = add(c, w, reach);
    shapes.push(polygon([...cut, add(far, nw, b), far], OUTLINE, 'faint'));
    shapes.push(line(cut, JOINT));
  }
  shapes.push(line([add(c, u, reach), c, add(c, v, reach)], WALL));
  return [clipped(centre, size, shapes), letter(measure, joint, letterAt)];
}

/**
 * The mark of what is done along a wall or at an open end, `scarf`, `return`, `scribe` or `square`: a strip of board
 * against its wall. `along` points out of the board's end (at a scarf: from the lapped board to the lapping one),
 * `inward` from the face into the room; both unit vectors.
 */
export function endMark(
  measure: TextMeasure,
  kind: 'scarf' | 'return' | 'scribe' | 'square',
  along: Point,
  inward: Point,
  centre: Point,
  size: number = MARK_SIZE,
): Item[] {
  const b = size * 0.24;
  const c = add(centre, inward, -size * 0.42);
  const reach = size;
  const at = (x: number, y: number): Point => add(add(c, along, x * size), inward, y);
  const shapes: Item[] = [];
  if (kind === 'scarf') {
    const [from, to] = [at(-0.16, 0), at(0.16, b)];
    shapes.push(polygon([from, to, at(-1, b), at(-1, 0)], OUTLINE, 'paper'));
    shapes.push(polygon([from, to, at(1, b), at(1, 0)], OUTLINE, 'faint'));
    shapes.push(line([from, to], JOINT));
  } else if (kind === 'return') {
    const tip = at(0.22, b);
    const inner = add(at(0.22, 0), along, -b);
    shapes.push(polygon([at(-1, 0), inner, tip, at(-1, b)], OUTLINE, 'faint'));
    shapes.push(polygon([inner, tip, at(0.22, 0)], OUTLINE, 'paper'));
    shapes.push(line([inner, tip], JOINT));
  } else {
    const cut =
      kind === 'scribe' ? wave(at(0.08, 0), at(0.08, b), along, size * 0.07) : [at(0.08, 0), at(0.08, b)];
    shapes.push(polygon([at(-1, 0), ...cut, at(-1, b)], OUTLINE, 'faint'));
    const solid = [...cut, at(0.08, b * 1.5), at(0.4, b * 1.5), at(0.4, 0)];
    shapes.push(
      kind === 'scribe'
        ? {
            kind: 'area',
            rings: [solid],
            fill: 'paper',
            stroke: OUTLINE,
            hatch: { spacing: 1.8, angleDeg: 45, stroke: { ink: 'ink', width: 0.4 } },
          }
        : polygon(solid, OUTLINE, 'paper'),
    );
    shapes.push(line(cut, JOINT));
  }
  shapes.push(line([add(c, along, -reach), add(c, along, reach)], WALL));
  return [clipped(centre, size, shapes), letter(measure, kind, add(centre, inward, size * 0.28))];
}

/** A piece's end as a table shows it: what the report and the trim both say of an end. */
export interface PicturedEnd {
  readonly end: EndKind;
  readonly sawDeg: number;
  readonly longPoint: 'back' | 'face' | null;
}

/**
 * A piece's left or right end in plan, its back against the wall at the top, filling `box`. The angle leans as it is cut
 * and is true while the box is wide enough for it (it then draws a thinner board, not another angle); a dot marks the
 * long point. A cope shows the slant it is sawn at, dashed, and the coped end. No text.
 */
export function endPicture(end: PicturedEnd, side: 'left' | 'right', box: Box): Item[] {
  const [x0, y0, x1, y1] = box;
  const width = x1 - x0;
  const wallDeep = (y1 - y0) * 0.2;
  const top = y0 + wallDeep;
  const tan = Math.tan((Math.min(89, Math.max(0, end.sawDeg)) * Math.PI) / 180);
  const tip = width * 0.12;
  const thickness = Math.min((y1 - top) * 0.78, tan > 0 ? (width * 0.72) / tan : Number.POSITIVE_INFINITY);
  const slant = end.longPoint === null ? 0 : thickness * tan;
  // Drawn for a right end, pointing right, then mirrored: x grows towards the end's tip.
  const place = (x: number, y: number): Point => [side === 'right' ? x0 + x : x1 - x, top + y];
  const last = width - tip;
  const back = end.longPoint === 'face' ? last - slant : last;
  const face = end.longPoint === 'back' ? last - slant : last;
  const saw: Point[] = [place(back, 0), place(face, thickness)];
  const out: Point = side === 'right' ? [1, 0] : [-1, 0];
  const cut =
    end.end === 'cope'
      ? curve(saw[0]!, saw[1]!, out, Math.min(thickness * 0.4, 2.6))
      : end.end === 'scribe'
        ? wave(saw[0]!, saw[1]!, out, Math.min(1.3, thickness * 0.2))
        : saw;
  const items: Item[] = [
    {
      kind: 'area',
      rings: [[place(0, -wallDeep), place(width, -wallDeep), place(width, 0), place(0, 0)]],
      fill: 'wash',
      hatch: { spacing: 2.4, angleDeg: 45, stroke: { ink: 'graphite', width: 0.3 } },
    },
    line([place(0, 0), place(width, 0)], { ink: 'ink', width: 0.9 }),
    polygon([place(0, 0), ...cut, place(0, thickness)], { ink: 'paper', width: 0 }, 'wash'),
    line([place(0, 0), ...cut, place(0, thickness)], { ink: 'ink', width: 0.8 }),
  ];
  if (end.end === 'cope') items.push(line(saw, { ink: 'graphite', width: 0.5, dash: [1.6, 1.4] }));
  if (end.end === 'return' && slant > 0)
    items.push(polygon([saw[0]!, saw[1]!, place(last, 0)], { ink: 'ink', width: 0.6 }, 'paper'));
  if (end.end === 'block') {
    const wide = Math.min(tip - 0.5, thickness);
    items.push(
      polygon(
        [
          place(last, 0),
          place(last + wide, 0),
          place(last + wide, thickness * 1.2),
          place(last, thickness * 1.2),
        ],
        { ink: 'ink', width: 0.6 },
        'ink',
      ),
    );
  }
  if (end.end === 'scarf') {
    // The neighbour, on the other side of the slant.
    const beyond: Point[] = [place(width, 0), saw[0]!, saw[1]!, place(width, thickness)];
    items.push(line(beyond, { ink: 'graphite', width: 0.5, dash: [1.6, 1.4] }));
  }
  if (end.longPoint !== null && slant > 0) {
    const long = end.longPoint === 'back' ? saw[0]! : saw[1]!;
    items.push({
      kind: 'arc',
      centre: long,
      radius: 1.5,
      fromDeg: 0,
      toDeg: 360,
      stroke: { ink: 'ink', width: 0.3 },
      fill: 'ink',
      role: 'long-point',
    });
  }
  return items;
}

/** Where the corner and the letter stand in the square, so that neither boards nor letter are cut off or meet. */
function arrange(
  angle: number,
  m: Point,
  kind: MarkCorner['kind'],
  centre: Point,
  size: number,
): { readonly c: Point; readonly letterAt: Point } {
  const narrow = angle < (kind === 'inside' ? 1.2 : 0.8);
  if (!narrow) {
    const shift = kind === 'inside' ? 0.46 : 0.3;
    return {
      c: add(centre, m, -size * shift),
      letterAt: add(centre, m, size * (kind === 'inside' ? 0.24 : 0.28)),
    };
  }
  // Between narrow arms there is no room for a letter. Inside, the wall behind the corner is free; outside, the boards
  // wrap round it and the letter stands beside them.
  if (kind === 'inside') return { c: add(centre, m, -size * 0.1), letterAt: add(centre, m, -size * 0.34) };
  const across: Point = [-m[1], m[0]];
  return {
    c: add(add(centre, m, -size * 0.36), across, size * 0.14),
    letterAt: add(add(centre, m, size * 0.05), across, -size * 0.36),
  };
}

/** The way from the corner into the angle between its two arms; for arms in line, into the room or the wall. */
function middle(u: Point, v: Point, corner: MarkCorner): Point {
  const sum: Point = [u[0] + v[0], u[1] + v[1]];
  const length = Math.hypot(sum[0], sum[1]);
  if (length > 0.02) return [sum[0] / length, sum[1] / length];
  const n = corner.inwardBefore;
  return corner.kind === 'inside' ? n : [-n[0], -n[1]];
}

/** Where the fronts of two boards of thickness b meet, at most three thicknesses from the corner. */
function facesMeet(c: Point, n1: Point, n2: Point, b: number): Point {
  const sum: Point = [n1[0] + n2[0], n1[1] + n2[1]];
  const by = 1 + dot(n1, n2);
  const length = Math.hypot(sum[0], sum[1]);
  if (length < 1e-9) return add(c, n1, b);
  const far = Math.min(3 * b, (b * length) / Math.max(by, 1e-9));
  return add(c, [sum[0] / length, sum[1] / length], far);
}

function letter(measure: TextMeasure, kind: MarkKind, at: Point): Item {
  return text(measure, {
    text: MARK_LETTERS[kind],
    at: [at[0], middleBaseline(at[1], SMALLEST_TEXT)],
    size: SMALLEST_TEXT,
    font: 'bold',
    align: 'middle',
    role: 'joint-letter',
  });
}

/** An ogee from a to b, hollow first and then full, `deep` points to either side along `out`. */
function curve(a: Point, b: Point, out: Point, deep: number): Point[] {
  return sampled(a, b, out, (t) => deep * Math.sin(2 * Math.PI * t));
}

/** A rough edge from a to b: what is scribed to stone. */
function wave(a: Point, b: Point, out: Point, deep: number): Point[] {
  return sampled(a, b, out, (t) => deep * Math.sin(3 * Math.PI * t));
}

function sampled(a: Point, b: Point, out: Point, by: (t: number) => number): Point[] {
  const points: Point[] = [];
  for (let k = 0; k <= 12; k++) {
    const t = k / 12;
    points.push(add([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t], out, by(t)));
  }
  return points;
}

function polygon(points: readonly Point[], stroke: Stroke, fill: 'paper' | 'faint' | 'wash' | 'ink'): Item {
  return { kind: 'line', points, stroke, closed: true, fill };
}

function line(points: readonly Point[], stroke: Stroke): Item {
  return { kind: 'line', points, stroke };
}

function clipped(centre: Point, size: number, items: readonly Item[]): Item {
  const half = size / 2;
  return {
    kind: 'clip',
    box: [centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half],
    items,
  };
}

function add(p: Point, direction: Point, by: number): Point {
  return [p[0] + direction[0] * by, p[1] + direction[1] * by];
}

function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1];
}
