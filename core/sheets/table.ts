// A table to blocks: columns whose widths follow from what stands in them, cells that wrap, a head that is repeated, rows
// that are never split. Points, y down. Kept: no cell's items leave its column; first lines of a row share one baseline
// [SH21, SH22]. Knows nothing of the trade: what stands in a cell is its maker's.

import { moved } from './boxes.ts';
import type { Block, BlockHead } from './flow.ts';
import type { FontName, Ink, Item, TextMeasure } from './items.ts';
import { MEDIUM, rule, THIN } from './shapes.ts';
import { CAP_EM, lineHeight, text, wrapText } from './texts.ts';

/** Part of a cell; parts stand one below the other. */
export type CellPart =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly size?: number;
      readonly font?: FontName;
      readonly ink?: Ink;
      readonly role?: string;
    }
  | {
      readonly kind: 'drawing';
      readonly width: number;
      readonly height: number;
      /** With the drawing's top left at [0, 0]. */
      readonly items: readonly Item[];
    }
  /** Made to the cell's own width: a line to write on, a picture of a board. */
  | { readonly kind: 'filling'; readonly height: number; readonly draw: (width: number) => readonly Item[] };

export type Cell = readonly CellPart[];

export interface Column {
  readonly title: string;
  readonly align?: 'left' | 'middle' | 'right';
  /** Fixed width, points, clear of the gaps between columns. */
  readonly width?: number;
  /** Share of what is left over when everything fits; 0 where absent. */
  readonly grow?: number;
}

/** A row of cells, or words across the whole table. */
export type Row =
  | {
      readonly kind: 'cells';
      readonly cells: readonly Cell[];
      /** Stays with the next row. */
      readonly keep?: boolean;
      /** No rule under it: the next row belongs to it. */
      readonly open?: boolean;
    }
  | { readonly kind: 'band'; readonly text: string; readonly ink?: Ink };

export interface TableSpec {
  readonly title: string;
  /** Under the title; may be absent. */
  readonly note?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** Sizes of type on one sheet size, points [SH23]. */
export interface TypeSizes {
  readonly heading: number;
  readonly body: number;
  readonly small: number;
  /** How much larger than on a letter sheet pictures in tables are drawn. */
  readonly by: number;
}

/** Between columns, points. */
const GAP = 9;
/** Above and below what stands in a row. */
const PAD = 2.4;

/** A cell of plain words; an empty text gives an empty cell. */
export function words(
  content: string,
  more: Omit<Extract<CellPart, { kind: 'text' }>, 'kind' | 'text'> = {},
): Cell {
  return content === '' ? [] : [{ kind: 'text', text: content, ...more }];
}

/** A line to write on, as high as a hand needs. */
export function blank(height = 16): CellPart {
  return {
    kind: 'filling',
    height,
    draw: (width) => [
      {
        ...rule(
          [0, height - 2],
          [width, height - 2],
          { ink: 'graphite', width: THIN, dash: [1, 1.4] },
          'blank',
        ),
      },
    ],
  };
}

/** A table as blocks for a column of `width` points. No rows: no blocks. */
export function table(measure: TextMeasure, sizes: TypeSizes, width: number, spec: TableSpec): Block[] {
  if (spec.rows.length === 0) return [];
  const widths = columnWidths(measure, sizes, width, spec);
  const lefts = widths.map((_, index) => widths.slice(0, index).reduce((sum, each) => sum + each + GAP, 0));
  const head = tableHead(measure, sizes, width, spec, widths, lefts);
  const body = spec.rows.map((row) => drawRow(measure, sizes, width, spec, widths, lefts, row));
  return body.map((drawn, index) => {
    const row = spec.rows[index]!;
    // A band stays with its first row, a lone last row with the one before it, a lone first row with the second.
    const keep =
      (row.kind === 'band' || row.keep === true || index === 0 || index === body.length - 2) &&
      index < body.length - 1;
    return { height: drawn.height, items: drawn.items, before: index === 0 ? 12 * sizes.by : 0, keep, head };
  });
}

/** Where a cell's first baseline may not stand higher, points below the cell's top. */
function firstBaseline(sizes: TypeSizes, cells: readonly Cell[]): number {
  const tops = cells.map((cell) => {
    const part = cell[0];
    return part?.kind === 'text' ? (part.size ?? sizes.body) * CAP_EM : 0;
  });
  return Math.max(0, ...tops);
}

interface Drawn {
  readonly height: number;
  readonly items: readonly Item[];
}

function drawRow(
  measure: TextMeasure,
  sizes: TypeSizes,
  width: number,
  spec: TableSpec,
  widths: readonly number[],
  lefts: readonly number[],
  row: Row,
): Drawn {
  if (row.kind === 'band') {
    const size = sizes.body;
    const lines = wrapText(measure, row.text, 'semibold', size, width);
    const top = PAD + 3;
    const items = lines.map((line, index) =>
      text(measure, {
        text: line,
        at: [0, top + size * CAP_EM + index * lineHeight(size)],
        size,
        font: 'semibold',
        ink: row.ink ?? 'ink',
        role: 'band',
      }),
    );
    const height = top + size * CAP_EM + (lines.length - 1) * lineHeight(size) + PAD + 1;
    return {
      height,
      items: [...items, rule([0, height], [width, height], { ink: 'graphite', width: THIN }, 'row-rule')],
    };
  }
  if (row.cells.length !== spec.columns.length)
    throw new Error(`table '${spec.title}': ${row.cells.length} cells for ${spec.columns.length} columns`);
  const base = firstBaseline(sizes, row.cells);
  const drawn = row.cells.map((cell, index) =>
    drawCell(measure, sizes, cell, widths[index]!, spec.columns[index]!.align ?? 'left', base),
  );
  const height = 2 * PAD + Math.max(sizes.body, ...drawn.map((each) => each.height));
  const items = drawn.flatMap((each, index) => moved(each.items, [lefts[index]!, PAD]));
  return {
    height,
    items: row.open
      ? items
      : [...items, rule([0, height], [width, height], { ink: 'faint', width: THIN }, 'row-rule')],
  };
}

function drawCell(
  measure: TextMeasure,
  sizes: TypeSizes,
  cell: Cell,
  width: number,
  align: 'left' | 'middle' | 'right',
  base: number,
): Drawn {
  const items: Item[] = [];
  let y = 0;
  cell.forEach((part, index) => {
    if (index > 0) y += 2.6;
    if (part.kind === 'drawing') {
      const x = align === 'left' ? 0 : align === 'middle' ? (width - part.width) / 2 : width - part.width;
      items.push(...moved(part.items, [x, y]));
      y += part.height;
      return;
    }
    if (part.kind === 'filling') {
      items.push(...moved(part.draw(width), [0, y]));
      y += part.height;
      return;
    }
    const size = part.size ?? sizes.body;
    const font = part.font ?? 'regular';
    const lines = wrapText(measure, part.text, font, size, width);
    const first = index === 0 ? base : y + size * CAP_EM;
    lines.forEach((line, at) => {
      if (line === '') return;
      items.push(
        text(measure, {
          text: line,
          at: [align === 'left' ? 0 : align === 'middle' ? width / 2 : width, first + at * lineHeight(size)],
          size,
          font,
          ink: part.ink ?? 'ink',
          align,
          role: part.role ?? 'cell',
        }),
      );
    });
    y = first + (lines.length - 1) * lineHeight(size) + size * 0.24;
  });
  return { height: y, items };
}

function tableHead(
  measure: TextMeasure,
  sizes: TypeSizes,
  width: number,
  spec: TableSpec,
  widths: readonly number[],
  lefts: readonly number[],
): BlockHead {
  const draw = (title: string, note: string): Drawn => {
    const items: Item[] = [];
    let y = 0;
    const put = (content: string, size: number, font: FontName, ink: Ink, role: string) => {
      for (const line of wrapText(measure, content, font, size, width)) {
        items.push(text(measure, { text: line, at: [0, y + size * CAP_EM], size, font, ink, role }));
        y += lineHeight(size);
      }
    };
    if (title !== '') put(title, sizes.heading, 'bold', 'ink', 'heading');
    if (note !== '') put(note, sizes.small, 'italic', 'graphite', 'note');
    if (spec.columns.some((column) => column.title !== '')) {
      y += title === '' ? 0 : 2;
      const size = sizes.small;
      const titles = spec.columns.map((column, index) =>
        wrapText(measure, column.title, 'semibold', size, widths[index]!),
      );
      const deepest = Math.max(...titles.map((lines) => lines.length));
      titles.forEach((lines, index) => {
        const align = spec.columns[index]!.align ?? 'left';
        const x = align === 'left' ? 0 : align === 'middle' ? widths[index]! / 2 : widths[index]!;
        lines.forEach((line, at) => {
          if (line === '') return;
          const down = deepest - lines.length + at;
          items.push(
            text(measure, {
              text: line,
              at: [lefts[index]! + x, y + size * CAP_EM + down * size * 1.2],
              size,
              font: 'semibold',
              ink: 'graphite',
              align,
              role: 'column-title',
            }),
          );
        });
      });
      y += size * CAP_EM + (deepest - 1) * size * 1.2 + 4;
    }
    items.push(rule([0, y], [width, y], { ink: 'ink', width: MEDIUM }, 'head-rule'));
    return { height: y, items };
  };
  return {
    first: draw(spec.title, spec.note ?? ''),
    again: draw(spec.title === '' ? '' : `${spec.title}, continued`, ''),
  };
}

/** Widths by column, clear of gaps; together with the gaps they fill `width` or less. Throws when fixed ones do not fit. */
function columnWidths(
  measure: TextMeasure,
  sizes: TypeSizes,
  width: number,
  spec: TableSpec,
): readonly number[] {
  const clear = width - GAP * (spec.columns.length - 1);
  const wants = spec.columns.map((column, index) => {
    if (column.width !== undefined) return { least: column.width, most: column.width };
    const cells = spec.rows.flatMap((row) => (row.kind === 'cells' ? [row.cells[index] ?? []] : []));
    const parts: CellPart[] = [
      { kind: 'text', text: column.title, size: sizes.small, font: 'semibold' },
      ...cells.flat(),
    ];
    const sizesOf = parts.map((part) => partWidths(measure, sizes, part));
    return {
      least: Math.max(...sizesOf.map((each) => each.least)),
      most: Math.max(...sizesOf.map((each) => each.most)),
    };
  });
  const fixed = spec.columns.map((column) => column.width !== undefined);
  const fixedSum = sum(wants.map((want, index) => (fixed[index] ? want.most : 0)));
  const rest = clear - fixedSum;
  const free = wants.filter((_, index) => !fixed[index]);
  if (rest < free.length * sizes.body)
    throw new RangeError(`table '${spec.title}': columns of ${fixedSum} pt do not fit ${width} pt`);
  const most = sum(free.map((want) => want.most));
  if (most <= rest) {
    const grow = sum(spec.columns.map((column) => column.grow ?? 0));
    return wants.map((want, index) =>
      fixed[index] || grow === 0
        ? want.most
        : want.most + ((rest - most) * (spec.columns[index]!.grow ?? 0)) / grow,
    );
  }
  // Too wide: nobody gets less than its longest word (a word longer than a third of the table breaks), the rest is shared
  // in proportion to what each still wants.
  const cap = rest / Math.max(2, free.length);
  const least = wants.map((want) => Math.min(want.least, Math.max(cap, sizes.body * 2)));
  const leastSum = sum(least.filter((_, index) => !fixed[index]));
  if (leastSum >= rest) {
    return wants.map((want, index) => (fixed[index] ? want.most : (least[index]! * rest) / leastSum));
  }
  const wanted = wants.map((want, index) => (fixed[index] ? 0 : Math.max(0, want.most - least[index]!)));
  const damped = wanted.map((want) => want ** 0.75);
  const dampedSum = sum(damped);
  return wants.map((want, index) =>
    fixed[index] ? want.most : least[index]! + ((rest - leastSum) * damped[index]!) / dampedSum,
  );
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}

/** The least width a part can stand in without breaking a word, and the width that needs no wrapping. */
function partWidths(measure: TextMeasure, sizes: TypeSizes, part: CellPart): { least: number; most: number } {
  if (part.kind === 'drawing') return { least: part.width, most: part.width };
  if (part.kind === 'filling') return { least: 0, most: 0 };
  const width = (content: string) => measure.width(content, part.font ?? 'regular', part.size ?? sizes.body);
  const slack = 0.01;
  const longest = Math.max(...part.text.split(/[ \n]/).map(width));
  return { least: longest + slack, most: Math.max(...part.text.split('\n').map(width)) + slack };
}
