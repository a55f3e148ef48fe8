// A page of words and tables: which way the sheet lies, how many columns it has, how large its type is, and blocks laid
// into framed sheets. Points. Kept: every sheet of the set has the same frame, and what goes on over sheets says so
// [SH5, SH23]. Knows no trade.

import type { Plan } from '../plan/schema.ts';
import type { Solved } from '../report/types.ts';
import type { Box } from './boxes.ts';
import { type Block, flow } from './flow.ts';
import { SHEET_SIZES, type Sheet, type SheetSize, SMALLEST_TEXT, type TextMeasure } from './items.ts';
import { sheetFrame } from './plan-frame.ts';
import type { TypeSizes } from './table.ts';
import { type Figures, figuresOf, nameOr, printable } from './words.ts';

/** Everything that the pages of one set share. */
export interface PageKit {
  readonly solved: Solved;
  readonly plan: Plan;
  readonly measure: TextMeasure;
  readonly figures: Figures;
  readonly sheet: SheetSize;
  /** The sheet as it lies for pages of words and tables. */
  readonly size: readonly [width: number, height: number];
  readonly sizes: TypeSizes;
  readonly columns: number;
  /** Width of one column, points. */
  readonly width: number;
  readonly job: string;
  readonly date: string;
  readonly revision: string;
}

const COLUMN_GAP = 26;

/**
 * How each sheet size lies for words and tables: a letter sheet stands with one column, larger ones lie with two or three,
 * so that a line of a table is never longer than an eye can follow [SH23].
 */
const SHAPES: Readonly<Record<SheetSize, { lies: boolean; columns: number; body: number }>> = {
  letter: { lies: false, columns: 1, body: 8.5 },
  a4: { lies: false, columns: 1, body: 8.5 },
  tabloid: { lies: true, columns: 2, body: 8.5 },
  a3: { lies: true, columns: 2, body: 8.5 },
  'arch-c': { lies: true, columns: 2, body: 12 },
  'arch-d': { lies: true, columns: 3, body: 12 },
};

/** The kit of a set. */
export function pageKit(
  solved: Solved,
  measure: TextMeasure,
  options: { readonly sheet: SheetSize; readonly date: string; readonly revision?: string },
): PageKit {
  const shape = SHAPES[options.sheet];
  const [short, long] = SHEET_SIZES[options.sheet];
  const size = shape.lies ? ([long, short] as const) : ([short, long] as const);
  const by = shape.body / 8.5;
  const job = nameOr(solved.plan.title, 'Untitled job');
  const kit = {
    solved,
    plan: solved.plan,
    measure,
    figures: figuresOf(solved.plan),
    sheet: options.sheet,
    size,
    sizes: { body: shape.body, small: Math.max(7.2, shape.body * 0.86), heading: shape.body * 1.4, by },
    columns: shape.columns,
    job,
    date: printable(options.date),
    revision: printable(options.revision ?? ''),
  };
  const { inner } = sheetFrame(measure, size, { ...frameHead(kit), title: 'x', subtitle: '' });
  return { ...kit, width: columnBoxes(inner, shape.columns)[0]![2] - inner[0] };
}

/** The same page with type and marks `by` times as large; none goes under the smallest that may be printed. */
export function smallerType(kit: PageKit, by: number): PageKit {
  if (by === 1) return kit;
  const { body, small, heading, by: large } = kit.sizes;
  return {
    ...kit,
    sizes: {
      body: Math.max(SMALLEST_TEXT, body * by),
      small: Math.max(SMALLEST_TEXT, small * by),
      heading: heading * by,
      by: large * by,
    },
  };
}

/** What every sheet's frame says of the set. */
export function frameHead(kit: { job: string; date: string; revision: string }): {
  job: string;
  date: string;
  revision: string;
} {
  return { job: kit.job, date: kit.date, revision: kit.revision };
}

/** The columns of a framed sheet's clear box, left to right, points. */
export function columnBoxes(inner: Box, columns: number): Box[] {
  const width = (inner[2] - inner[0] - COLUMN_GAP * (columns - 1)) / columns;
  return Array.from({ length: columns }, (_, index): Box => {
    const left = inner[0] + index * (width + COLUMN_GAP);
    return [left, inner[1], left + width, inner[3]];
  });
}

export interface PageSpec {
  readonly title: string;
  readonly subtitle: string;
  readonly bookmark: string;
  readonly parent: string | null;
  readonly blocks: readonly Block[];
  /** What stands at the head's right instead of the job's name. */
  readonly corner?: string;
}

/** Blocks on as many framed sheets as they need, at least one. What goes on hangs under the first. */
export function layPages(kit: PageKit, spec: PageSpec): Sheet[] {
  const frame = (page: number) =>
    sheetFrame(kit.measure, kit.size, {
      ...frameHead(kit),
      ...(spec.corner === undefined ? {} : { job: spec.corner }),
      title: page === 0 ? spec.title : `${spec.title}, continued`,
      subtitle: page === 0 ? spec.subtitle : '',
    });
  const pages = flow(spec.blocks, (page) => columnBoxes(frame(page).inner, kit.columns));
  return pages.map(
    (items, page): Sheet => ({
      width: kit.size[0],
      height: kit.size[1],
      bookmark: page === 0 ? spec.bookmark : `${spec.bookmark}, continued ${page + 1}`,
      parent: page === 0 ? spec.parent : spec.bookmark,
      items: [...frame(page).items, ...items],
    }),
  );
}
