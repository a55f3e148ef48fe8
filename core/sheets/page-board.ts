// A board as it lies under the saw: seen from above with the wall at the top, its left end on the left, each end drawn as
// it is cut, the long points dotted, its overall length in its middle, the saw's setting beside each end, and where the ends
// are below. Points.
// Not to scale along its length; the angles of its ends are drawn as the saw makes them [SH25].

import type { Point } from '../graph/types.ts';
import type { Report } from '../report/schema.ts';
import { type Box, corners } from './boxes.ts';
import type { Item, TextMeasure } from './items.ts';
import { endPicture } from './marks.ts';
import { HEAVY, patch, rule, THIN } from './shapes.ts';
import type { CellPart, TypeSizes } from './table.ts';
import { CAP_EM, lineHeight, middleBaseline, text, wrapText } from './texts.ts';
import { endWords, type Figures, type PlaceNames, type ReportEnd } from './words.ts';

type ReportPiece = Report['pieces'][number];

/** Thickness of the drawn board and least width of a drawn end, on a letter sheet, points. */
const THICK = 13;
const END_WIDE = 26;
/** How `endPicture` shares its box: the wall takes a fifth, the board at most 0.78 of the rest, the tip 0.12 of the width. */
const WALL_SHARE = 0.2;
const BOARD_SHARE = 0.78;
const SLANT_SHARE = 0.72;
const TIP_SHARE = 0.12;
/** How far a wall, a casing or another board stands out past the board's face, points. */
const OVERHANG = 1.6;

/**
 * A board drawn in `width` points, with its overall length, its settings and the words for both ends; 'alone'
 * without the words, but for a setting that finds no room in the board.
 */
export function boardPicture(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  names: PlaceNames,
  piece: ReportPiece,
  width: number,
  told: 'whole' | 'alone' = 'whole',
): Extract<CellPart, { kind: 'drawing' }> {
  const by = sizes.by;
  const thick = THICK * by;
  const high = thick / BOARD_SHARE / (1 - WALL_SHARE);
  const wall = high * WALL_SHARE;
  const leftWide = endWidth(piece.left, thick, by);
  const rightWide = endWidth(piece.right, thick, by);
  const items: Item[] = [
    ...body([leftWide, 0, width - rightWide, high], wall, thick),
    ...besides(piece.left, thick, wall, by).map((item) =>
      mapped(item, (p) => [leftWide * TIP_SHARE - p[0], p[1]]),
    ),
    ...besides(piece.right, thick, wall, by).map((item) =>
      mapped(item, (p) => [width - rightWide * TIP_SHARE + p[0], p[1]]),
    ),
    ...endPicture(piece.left, 'left', [0, 0, leftWide, high]),
    ...endPicture(piece.right, 'right', [width - rightWide, 0, width, high]),
  ];
  const size = sizes.body * (told === 'whole' ? 1.25 : 1.05);
  const overall = figures.cut(piece.overallMm);
  const middle = wall + thick / 2;
  items.push(
    text(measure, {
      text: overall,
      at: [width / 2, middleBaseline(middle, size)],
      size,
      font: 'bold',
      align: 'middle',
      role: 'overall',
    }),
  );
  const small = sizes.small;
  const said = { left: endWords(names, figures, piece.left), right: endWords(names, figures, piece.right) };
  // The setting stands in the board beside its end; where the slants leave no room for it, below with the rest.
  const clear = (width - measure.width(overall, 'bold', size)) / 2 - 2 * by;
  const inside = (side: 'left' | 'right', wide: number): boolean => {
    const { saw } = said[side];
    if (saw === '' || measure.width(saw, 'semibold', small) > clear - wide) return false;
    items.push(
      text(measure, {
        text: saw,
        at: [side === 'left' ? wide : width - wide, middleBaseline(middle, small)],
        size: small,
        font: 'semibold',
        align: side,
        role: 'end',
      }),
    );
    return true;
  };
  const below = (side: 'left' | 'right', wide: number): string => {
    const { what, saw, long } = said[side];
    const isIn = inside(side, wide);
    // Settings are never left off.
    const parts = told === 'alone' ? [isIn ? '' : saw] : isIn ? [what, long] : [what, saw, long];
    return parts.filter((part) => part !== '').join(' · ');
  };
  const [left, right] = [below('left', leftWide + 2 * by), below('right', rightWide + 2 * by)];
  const bottom = wall + thick + 3.6 * by;
  if (left === '' && right === '') return { kind: 'drawing', width, height: bottom, items };
  const gap = 10 * by;
  const wide = (content: string) => measure.width(content, 'regular', small);
  const half = (width - gap) / 2;
  // One takes what the other leaves it.
  const leftMost = Math.max(half, width - gap - wide(right));
  const rightMost = Math.max(half, width - gap - wide(left));
  const put = (content: string, align: 'left' | 'right', most: number): number => {
    const lines = content === '' ? [] : wrapText(measure, content, 'regular', small, most);
    lines.forEach((line, index) => {
      items.push(
        text(measure, {
          text: line,
          at: [align === 'left' ? 0 : width, bottom + small * CAP_EM + index * lineHeight(small)],
          size: small,
          align,
          role: 'end',
        }),
      );
    });
    return bottom + small * CAP_EM + (lines.length - 1) * lineHeight(small) + small * 0.24;
  };
  const height = Math.max(put(left, 'left', leftMost), put(right, 'right', rightMost));
  return { kind: 'drawing', width, height, items };
}

/** Width that an end's slant needs at the board's full thickness. */
function endWidth(end: ReportEnd, thick: number, by: number): number {
  const tan = Math.tan((Math.min(end.sawDeg, 78) * Math.PI) / 180);
  return Math.max(END_WIDE * by, (thick * tan) / SLANT_SHARE);
}

/** The board between its ends, against the wall. */
function body(box: Box, wall: number, thick: number): Item[] {
  const [x0, y0, x1] = box;
  const [back, face] = [y0 + wall, y0 + wall + thick];
  return [
    patch([x0, y0, x1, back], 'wash', {
      spacing: 2.4,
      angleDeg: 45,
      stroke: { ink: 'graphite', width: 0.3 },
    }),
    patch([x0, back, x1, face], 'wash'),
    rule([x0, back], [x1, back], { ink: 'ink', width: 0.9 }),
    rule([x0, face], [x1, face], { ink: 'ink', width: 0.8 }, 'board'),
  ];
}

/** What the board's end meets, drawn for a right end whose tip is at x 0: the wall it runs to, a casing, another board. */
function besides(end: ReportEnd, thick: number, wall: number, by: number): Item[] {
  const box = (from: number, deep: number, down: number): Item => ({
    kind: 'line',
    points: corners([from * by, wall, (from + deep) * by, wall + thick + down * by]),
    stroke: { ink: 'graphite', width: THIN },
    closed: true,
    fill: 'paper',
    role: 'beside',
  });
  if (end.end === 'cope' || end.end === 'butt') return [box(0, 3, OVERHANG)];
  if (end.end !== 'square') return [];
  if ('corner' in end.at)
    return [
      rule(
        [0.9 * by, wall],
        [0.9 * by, wall + thick + OVERHANG * by],
        { ink: 'ink', width: HEAVY * by },
        'beside',
      ),
    ];
  return 'opening' in end.at ? [box(0.3, 2.6, OVERHANG)] : [];
}

/** A line item with every point put through `to`. */
function mapped(item: Item, to: (p: Point) => Point): Item {
  if (item.kind !== 'line') throw new Error(`page-board: cannot place a ${item.kind}`);
  return { ...item, points: item.points.map(to) };
}
