// How a plan sheet is shared out: the drawing's frame, columns of words beside it or in a band under it, the legend at
// the foot. Points. Kept: of all ways the one that draws the level largest is taken [SH12]; spare paper goes to the words.
// Knows no plan, only how large it is and what words there are.

import { type Box, moved, scaled } from './boxes.ts';
import type { Block } from './flow.ts';
import { type Item, SHEET_SIZES, type SheetSize, type TextMeasure } from './items.ts';
import { type SheetHead, sheetFrame } from './plan-frame.ts';
import { legendStrip } from './plan-legend.ts';
import { chooseScale, type NamedScale, pointsPerTick } from './scale.ts';

/** A way to lay the sheet. */
export interface Layout {
  readonly size: readonly [width: number, height: number];
  /** The legend, already in its place at the foot. */
  readonly legend: readonly Item[];
  readonly frame: Box;
  /** For the words beside the drawing, all of one width. */
  readonly columns: readonly Box[];
}

/** Where the words stand: in so many columns on the right, or in a band of such a height under the drawing. */
export type Words = { readonly band: number } | { readonly columns: number };

export interface LayoutSpec {
  readonly sheet: SheetSize;
  readonly head: SheetHead;
  readonly bare: boolean;
  /** What the level may be drawn at, largest first. */
  readonly scales: readonly NamedScale[];
}

/** Width of a column of words beside a plan, and the least of one under it; the gap between; as at `wordScale` 1. */
const PANEL = 170;
const LEAST_COLUMN = 155;
const GAP = 20;
const LEAST_BAND = 96;
/** Points kept clear between a level and its frame; as the drawing keeps them. */
const MARGIN = 8;

/** How much larger words and marks are on a sheet: those of Arch C and D are read from further away. */
export function wordScale(sheet: SheetSize): number {
  return sheet === 'arch-c' || sheet === 'arch-d' ? 1.4 : 1;
}

/** One layout of a sheet that lies or stands. */
export function layoutOf(measure: TextMeasure, spec: LayoutSpec, lies: boolean, words: Words): Layout {
  const by = wordScale(spec.sheet);
  const [short, long] = SHEET_SIZES[spec.sheet];
  const size = lies ? ([long, short] as const) : ([short, long] as const);
  const [x0, y0, x1, foot] = sheetFrame(measure, size, spec.head).inner;
  const strip = legendStrip(measure, (x1 - x0) / by, !spec.bare);
  const y1 = foot - (strip.height + 8) * by;
  const legend = moved(scaled(strip.items, by), [x0, foot - strip.height * by]);
  const gap = GAP * by;
  if ('columns' in words) {
    const left = x1 - words.columns * (PANEL * by + gap) + gap;
    return {
      size,
      legend,
      frame: [x0, y0, left - gap, y1],
      columns: columnsIn([left, y0, x1, y1], PANEL * by, gap),
    };
  }
  const top = y1 - words.band;
  const count = Math.max(1, Math.floor((x1 - x0 + gap) / (LEAST_COLUMN * by + gap)));
  const columns = columnsIn([x0, top, x1, y1], (x1 - x0 - gap * (count - 1)) / count, gap);
  return { size, legend, frame: [x0, y0, x1, top - 12 * by], columns };
}

/** As many columns of one width as fit a box, from its left. */
export function columnsIn(box: Box, width: number, gap: number): Box[] {
  const count = Math.max(1, Math.floor((box[2] - box[0] + gap + 1e-6) / (width + gap)));
  return Array.from({ length: count }, (_, k): Box => {
    const left = box[0] + k * (width + gap);
    return [left, box[1], left + width, box[3]];
  });
}

/** The columns of a sheet that goes on with the words of a layout. */
export function laterColumns(inner: Box, layout: Layout, sheet: SheetSize): Box[] {
  return columnsIn(inner, columnWidth(layout), GAP * wordScale(sheet));
}

export function columnWidth(layout: Layout): number {
  return layout.columns[0]![2] - layout.columns[0]![0];
}

/**
 * The layout with the largest of the scales for a level of `size` ticks; of those alike the first: lying as the level
 * does, words beside a lying plan and under a standing one. `beside` makes the words that are known beforehand, for a
 * column's width. Null where the level fits none.
 */
export function bestLayout(
  measure: TextMeasure,
  spec: LayoutSpec,
  size: readonly [widthTicks: number, heightTicks: number],
  beside: (width: number) => readonly Block[],
): { readonly layout: Layout; readonly scale: NamedScale } | null {
  const by = wordScale(spec.sheet);
  const band = LEAST_BAND * by;
  const ways = (lies: boolean): [boolean, Words][] => {
    const both: Words[] = [{ columns: 1 }, { band }];
    return (lies ? both : both.toReversed()).map((words) => [lies, words]);
  };
  let best: { lies: boolean; words: Words; scale: NamedScale } | null = null;
  for (const [lies, words] of size[0] >= size[1]
    ? [...ways(true), ...ways(false)]
    : [...ways(false), ...ways(true)]) {
    const scale = scaleIn(layoutOf(measure, spec, lies, words).frame, size, spec.scales, by);
    if (scale !== null && (best === null || scale.ratio < best.scale.ratio)) best = { lies, words, scale };
  }
  if (best === null) return null;
  const { lies, words, scale } = best;
  const layout =
    'band' in words
      ? roomiestBand(measure, spec, lies, size, scale, beside)
      : roomiestColumns(measure, spec, lies, size, scale, beside);
  return { layout, scale };
}

function scaleIn(
  frame: Box,
  size: readonly [number, number],
  scales: readonly NamedScale[],
  by: number,
): NamedScale | null {
  const clear = [frame[2] - frame[0] - 2 * MARGIN * by, frame[3] - frame[1] - 2 * MARGIN * by] as const;
  return chooseScale(size, clear, scales);
}

/** A band of words grows into the height that the drawing at this scale leaves free. */
function roomiestBand(
  measure: TextMeasure,
  spec: LayoutSpec,
  lies: boolean,
  size: readonly [number, number],
  scale: NamedScale,
  beside: (width: number) => readonly Block[],
): Layout {
  const by = wordScale(spec.sheet);
  const band = LEAST_BAND * by;
  const least = layoutOf(measure, spec, lies, { band });
  const spare = least.frame[3] - least.frame[1] - 2 * MARGIN * by - size[1] * pointsPerTick(scale.ratio);
  const wanted = heightOf(beside(columnWidth(least))) / least.columns.length + 40 * by;
  return layoutOf(measure, spec, lies, { band: band + Math.max(0, Math.min(spare - 1, wanted - band)) });
}

/** Words beside the drawing get as many columns as they need and the drawing at this scale leaves free. */
function roomiestColumns(
  measure: TextMeasure,
  spec: LayoutSpec,
  lies: boolean,
  size: readonly [number, number],
  scale: NamedScale,
  beside: (width: number) => readonly Block[],
): Layout {
  const by = wordScale(spec.sheet);
  let best = layoutOf(measure, spec, lies, { columns: 1 });
  const high = best.columns[0]![3] - best.columns[0]![1];
  const wanted = Math.ceil((heightOf(beside(columnWidth(best))) + 40 * by) / high);
  for (let columns = 2; columns <= wanted; columns++) {
    const wider = layoutOf(measure, spec, lies, { columns });
    const fitting = scaleIn(wider.frame, size, spec.scales, by);
    if (fitting === null || fitting.ratio > scale.ratio) break;
    best = wider;
  }
  return best;
}

/** Blocks one under the other. */
function heightOf(blocks: readonly Block[]): number {
  return blocks.reduce((sum, each) => sum + each.height + each.before, 0);
}
