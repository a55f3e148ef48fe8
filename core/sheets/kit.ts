// The small things that every sheet is made of: text with its measured box, wrapped text, rules, boxes, hatch, dimension
// lines, ringed numbers, and the two checks that every sheet must pass. Points (1/72 in), origin top left, y down.
// Kept: every text item carries the box it covers; nothing smaller than SMALLEST_TEXT is made [SH2].
// Knows no plan, no trim and no writer.

import type { Point } from '../graph/types.ts';
import type { FontName, Ink, Item, Sheet, Stroke, TextItem, TextMeasure } from './items.ts';
import { SMALLEST_TEXT } from './items.ts';

/** [x0, y0, x1, y1] in points, x0 ≤ x1 and y0 ≤ y1. */
export type Box = readonly [x0: number, y0: number, x1: number, y1: number];

/** Height of a capital or a figure, in em: Inter's own metrics, 1490/2048. Only used to set text in the middle of things. */
export const CAP_EM = 1490 / 2048;
/** Reach of plain letters, figures and primes (no accents, no brackets, which stand higher) and of what has no tail, in em. */
const PLAIN_ASCENT_EM = 0.775;
const PLAIN_DESCENT_EM = 0.02;
const LINE_EM = 1.3;

/** Line widths in points, thin to heavy: three are enough to read on a photocopy. */
export const THIN = 0.4;
export const MEDIUM = 0.75;
export const HEAVY = 1.3;

export interface TextSpec {
  readonly text: string;
  /** Left, middle or right of the baseline, by `align`. */
  readonly at: Point;
  /** Points; at least SMALLEST_TEXT. */
  readonly size: number;
  readonly role: string;
  readonly font?: FontName;
  readonly ink?: Ink;
  readonly align?: 'left' | 'middle' | 'right';
  readonly turn?: 0 | 90 | -90;
  readonly halo?: boolean;
}

/** Distance between baselines, points. */
export function lineHeight(size: number): number {
  return size * LINE_EM;
}

/**
 * One line of text with its measured box [SH2]. Regular, ink and left unless said otherwise. Throws below SMALLEST_TEXT
 * and on a line break: wrap first.
 */
export function text(measure: TextMeasure, spec: TextSpec): TextItem {
  const { at, size } = spec;
  if (!(size >= SMALLEST_TEXT))
    throw new RangeError(`text of ${size} pt is under ${SMALLEST_TEXT} pt: ${spec.text}`);
  if (spec.text.includes('\n')) throw new Error(`text with a line break: ${JSON.stringify(spec.text)}`);
  const font = spec.font ?? 'regular';
  const align = spec.align ?? 'left';
  const turn = spec.turn ?? 0;
  const words = measure.printed?.(spec.text, font) ?? spec.text;
  return {
    kind: 'text',
    text: words,
    ...(words === spec.text ? {} : { meant: spec.text }),
    at,
    size,
    font,
    ink: spec.ink ?? 'ink',
    align,
    ...(turn === 0 ? {} : { turn }),
    ...(spec.halo ? { halo: true } : {}),
    box: textBox(measure, words, at, size, font, align, turn),
    role: spec.role,
  };
}

/** The box that a line of text covers, points, after turning about `at`. */
export function textBox(
  measure: TextMeasure,
  words: string,
  at: Point,
  size: number,
  font: FontName,
  align: TextItem['align'],
  turn: 0 | 90 | -90,
): Box {
  const width = measure.width(words, font, size);
  const left = align === 'left' ? 0 : align === 'middle' ? -width / 2 : -width;
  const up = /[^A-Za-z0-9 .,:;°·–—′″⁄×=+‐-]/.test(words)
    ? measure.ascent(font, size)
    : Math.min(measure.ascent(font, size), PLAIN_ASCENT_EM * size);
  const down = /[^A-PR-Z0-9 .°′″⁄·–—+×=-]/.test(words)
    ? measure.descent(font, size)
    : Math.min(measure.descent(font, size), PLAIN_DESCENT_EM * size);
  const [x, y] = at;
  if (turn === 0) return [x + left, y - up, x + left + width, y + down];
  // Clockwise as seen with y down: the text's own right goes down the sheet at 90, up it at −90.
  if (turn === 90) return [x - down, y + left, x + up, y + left + width];
  return [x - up, y - left - width, x + down, y - left];
}

/** Baseline that sets capitals and figures of a size in the middle of a height, points. */
export function middleBaseline(y: number, size: number): number {
  return y + (CAP_EM * size) / 2;
}

/**
 * Breaks text into lines no wider than `width` points. Breaks at spaces (never at a no-break space) and at line breaks in
 * the text; a word wider than the line is broken between characters. Always at least one line.
 */
export function wrapText(
  measure: TextMeasure,
  words: string,
  font: FontName,
  size: number,
  width: number,
): string[] {
  const fits = (line: string) => measure.width(line, font, size) <= width;
  const lines: string[] = [];
  for (const paragraph of words.split('\n')) {
    let line = '';
    let rest = paragraph.split(' ');
    while (rest.length > 0) {
      const joined = (count: number) => {
        const more = rest.slice(0, count).join(' ');
        return line === '' ? more : `${line} ${more}`;
      };
      const count = mostThatFit(rest.length, (each) => fits(joined(each)));
      if (count > 0) {
        line = joined(count);
        rest = rest.slice(count);
        continue;
      }
      if (line !== '') lines.push(line);
      const broken = breakWord(rest[0]!, fits);
      lines.push(...broken.slice(0, -1));
      line = broken.at(-1) ?? '';
      rest = rest.slice(1);
    }
    lines.push(line);
  }
  return lines;
}

/** Tried first, before it is doubled: about as many words as a line holds. */
const FIRST_TRIED = 16;

/**
 * The largest count up to `all` that fits: doubled until it does not, then by halving. A longer line is wider, and each
 * line that is tried is shaped, so that none much longer than fits is tried.
 */
function mostThatFit(all: number, fits: (count: number) => boolean): number {
  let [low, high] = [0, Math.min(all, FIRST_TRIED)];
  while (fits(high)) {
    if (high === all) return all;
    [low, high] = [high, Math.min(all, 2 * high)];
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function breakWord(word: string, fits: (line: string) => boolean): string[] {
  if (fits(word)) return [word];
  const lines: string[] = [];
  let line = '';
  for (const letter of word) {
    if (line !== '' && !fits(line + letter)) {
      lines.push(line);
      line = '';
    }
    line += letter;
  }
  lines.push(line);
  return lines;
}

/** Text set in lines from `at` (first baseline) downwards; `height` is from the first baseline to the last, points. */
export function paragraph(
  measure: TextMeasure,
  spec: TextSpec & { readonly width: number; readonly leading?: number },
): { readonly items: TextItem[]; readonly lines: number; readonly height: number } {
  const { width, leading, ...rest } = spec;
  const step = leading ?? lineHeight(spec.size);
  const lines = wrapText(measure, spec.text, spec.font ?? 'regular', spec.size, width);
  const items = lines.map((line, index) =>
    text(measure, { ...rest, text: line, at: [spec.at[0], spec.at[1] + index * step] }),
  );
  return { items, lines: lines.length, height: (lines.length - 1) * step };
}

/**
 * Text that must stay within `width` points: first as it is, then smaller down to SMALLEST_TEXT, then wrapped at that
 * size. Never cut short [SH3]. Lines go down from `at`.
 */
export function fitText(measure: TextMeasure, spec: TextSpec & { readonly width: number }): TextItem[] {
  const { width, ...rest } = spec;
  const natural = measure.width(spec.text, spec.font ?? 'regular', spec.size);
  const size = natural <= width ? spec.size : Math.max(SMALLEST_TEXT, (spec.size * width) / natural);
  return paragraph(measure, { ...rest, size: Math.min(size, spec.size), width: width + 1e-6 }).items;
}

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

/** Every text item of a list, also those within clips, in order. */
export function textItems(items: readonly Item[]): TextItem[] {
  return items.flatMap((item) =>
    item.kind === 'text' ? [item] : item.kind === 'clip' ? textItems(item.items) : [],
  );
}

/** Pairs of texts whose boxes overlap: a sheet must have none [SH4]. */
export function textOverlaps(sheet: Pick<Sheet, 'items'>): [TextItem, TextItem][] {
  const texts = textItems(sheet.items).toSorted((a, b) => a.box[0] - b.box[0]);
  const found: [TextItem, TextItem][] = [];
  for (let i = 0; i < texts.length; i++) {
    const a = texts[i]!;
    for (let j = i + 1; j < texts.length && texts[j]!.box[0] < a.box[2]; j++)
      if (boxesOverlap(a.box, texts[j]!.box)) found.push([a, texts[j]!]);
  }
  return found;
}

/** Items that leave their sheet, and texts that a clip would cut: a sheet must have none [SH4]. */
export function outsideSheet(sheet: Pick<Sheet, 'items' | 'width' | 'height'>): Item[] {
  return outside(sheet.items, [0, 0, sheet.width, sheet.height], false);
}

function outside(items: readonly Item[], frame: Box, clipped: boolean): Item[] {
  return items.flatMap((item) => {
    if (item.kind === 'clip') {
      const lost = within(item.box, frame) ? [] : [item];
      return [...lost, ...outside(item.items, item.box, true)];
    }
    // What a clip holds may be cut by it, but not its words.
    if (clipped && item.kind !== 'text') return [];
    return within(itemBox(item), frame) ? [] : [item];
  });
}

function within(box: Box, frame: Box): boolean {
  const slack = 0.01;
  return (
    box[0] >= frame[0] - slack &&
    box[1] >= frame[1] - slack &&
    box[2] <= frame[2] + slack &&
    box[3] <= frame[3] + slack
  );
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
