// What stands round every sheet: its title over a board that ends in a mitre, and the foot with job, date, revision and
// page. Points (1/72 in), origin top left, y down. Gives the box that is left for the sheet's own matter.
// Knows nothing of what the sheet shows.

import type { Box } from './boxes.ts';
import type { Item, TextItem, TextMeasure } from './items.ts';
import { rule, THIN } from './shapes.ts';
import { fitText, lineHeight, text } from './texts.ts';

/** What a sheet says of itself. All words come from outside: nothing here reads a clock. */
export interface SheetHead {
  /** What the sheet shows: 'Ground floor', 'Cut list'. */
  readonly title: string;
  /** The line under the title; may be empty. */
  readonly subtitle: string;
  /** Title of the job. */
  readonly job: string;
  /** The plan's date and revision, as printed. */
  readonly date: string;
  readonly revision: string;
}

/** Clear paper at the sheet's edge, points: half an inch, so that any printer holds it. */
export const MARGIN = 36;
const FOOT_SIZE = 7.5;

/** How much larger headings are on a larger sheet: 1 on letter and A4, up to 1.6. */
export function headScale(width: number, height: number): number {
  return Math.min(1.6, Math.max(1, Math.sqrt(Math.min(width, height) / 612)));
}

/** Heading and foot of a sheet, and the box between them [SH5]. */
export function sheetFrame(
  measure: TextMeasure,
  size: readonly [width: number, height: number],
  head: SheetHead,
): { readonly items: Item[]; readonly inner: Box } {
  const [width, height] = size;
  const by = headScale(width, height);
  const right = width - MARGIN;
  const titleBase = MARGIN + 17 * by;
  const title = fitText(measure, {
    text: head.title,
    at: [MARGIN, titleBase],
    size: 20 * by,
    font: 'bold',
    width: (right - MARGIN) * 0.62,
    role: 'title',
  });
  const titleEnd = Math.max(...title.map((line) => line.box[2]));
  const job = fitText(measure, {
    text: head.job,
    at: [right, titleBase],
    size: 9 * by,
    font: 'semibold',
    ink: 'graphite',
    align: 'right',
    width: right - titleEnd - 18,
    role: 'job',
  });
  const lowest = Math.max(...title.map((line) => line.at[1]), ...job.map((line) => line.at[1]));
  const items: Item[] = [...title, ...job];
  let below = lowest + 9 * by;
  items.push(...board(MARGIN, right, below, 3.2 * by));
  below += 3.2 * by;
  if (head.subtitle !== '') {
    const subtitle = fitText(measure, {
      text: head.subtitle,
      at: [MARGIN, below + 12.5 * by],
      size: 8.5 * by,
      ink: 'graphite',
      width: right - MARGIN,
      role: 'subtitle',
    });
    items.push(...subtitle);
    below = subtitle.at(-1)!.at[1] + 3 * by;
  }
  const footTop = height - MARGIN - 12 * by;
  items.push(rule([MARGIN, footTop], [right, footTop], { ink: 'graphite', width: THIN }));
  const when = [head.date, head.revision].filter((word) => word !== '').join('  ·  ');
  const third = (right - MARGIN - 72 * by) / 2;
  items.push(...foot(measure, `${head.job}  ·  ${head.title}`, [MARGIN, footTop], third, 'left', by));
  if (when !== '') items.push(...foot(measure, when, [right - 76 * by, footTop], third - 16, 'right', by));
  return { items, inner: [MARGIN, below + 10 * by, right, footTop - 10] };
}

/** Page n of m, at the foot's right: added when the set is whole [SH5]. */
export function pageNumber(
  measure: TextMeasure,
  size: readonly [width: number, height: number],
  page: number,
  pages: number,
): TextItem {
  const by = headScale(size[0], size[1]);
  return text(measure, {
    text: `page ${page} of ${pages}`,
    at: [size[0] - MARGIN, size[1] - MARGIN - 1.5 * by],
    size: FOOT_SIZE * by,
    font: 'semibold',
    ink: 'graphite',
    align: 'right',
    role: 'page-number',
  });
}

/** One line at the foot; what is too long goes smaller, then on to a second line downwards into the margin. */
function foot(
  measure: TextMeasure,
  words: string,
  at: readonly [number, number],
  width: number,
  align: 'left' | 'right',
  by: number,
): TextItem[] {
  const lines = fitText(measure, {
    text: words,
    at: [at[0], at[1] + 10.5 * by],
    size: FOOT_SIZE * by,
    ink: 'graphite',
    align,
    width,
    role: 'foot',
  });
  // The foot is one line high; a title of a whole paragraph keeps the lines that its margin holds.
  return lines.slice(0, Math.floor((MARGIN + 1) / lineHeight(lines[0]!.size)));
}

/** A thin board seen from above: square on the left, mitred on the right. */
function board(left: number, right: number, top: number, thickness: number): Item[] {
  return [
    {
      kind: 'line',
      points: [
        [left, top],
        [right, top],
        [right - thickness, top + thickness],
        [left, top + thickness],
      ],
      stroke: { ink: 'graphite', width: 0.5 },
      closed: true,
      fill: 'wash',
      role: 'head-board',
    },
  ];
}
