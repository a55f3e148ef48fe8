// Tables and the flow of blocks: widths, wrapping, heads that are repeated, rows that are never split.

import { describe, expect, test } from 'vitest';
import type { Box } from '../../../core/sheets/boxes.ts';
import { type Block, block, flow } from '../../../core/sheets/flow.ts';
import type { Item } from '../../../core/sheets/items.ts';
import { rectangle } from '../../../core/sheets/shapes.ts';
import { textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { type Row, type TableSpec, type TypeSizes, table, words } from '../../../core/sheets/table.ts';
import { cases, random } from '../../seeds.ts';
import { measure } from './fonts.ts';

const SIZES: TypeSizes = { heading: 12, body: 8.5, small: 7.3, by: 1 };
const COLUMNS = (_page: number): readonly Box[] => [
  [10, 10, 110, 110],
  [130, 10, 230, 110],
];

function mark(height: number, more: { keep?: boolean; before?: number } = {}): Block {
  return block(height, [rectangle([0, 0, 10, height], { ink: 'ink', width: 0 })], more);
}

/** Top left corners of the rectangles of a page. */
function tops(items: readonly Item[]): [number, number][] {
  return items.flatMap((item): [number, number][] =>
    item.kind === 'line' ? [[item.points[0]![0], item.points[0]![1]]] : [],
  );
}

describe('flow', () => {
  test('nothing to place gives one empty page', () => {
    expect(flow([], COLUMNS)).toEqual([[]]);
  });

  test('[SH20] a block that does not fit goes to the next column, then to the next page, whole', () => {
    const pages = flow([mark(60), mark(60), mark(60)], COLUMNS);
    expect(pages.map(tops)).toEqual([
      [
        [10, 10],
        [130, 10],
      ],
      [[10, 10]],
    ]);
  });

  test('a block as high as the column stands alone in it; a higher one is refused', () => {
    expect(flow([mark(100), mark(100)], COLUMNS).map(tops)).toEqual([
      [
        [10, 10],
        [130, 10],
      ],
    ]);
    expect(() => flow([mark(101)], COLUMNS)).toThrow(/higher than its column/);
  });

  test('the space before a block is dropped at the top of a column', () => {
    const pages = flow([mark(60, { before: 5 }), mark(30, { before: 5 }), mark(30, { before: 5 })], COLUMNS);
    expect(tops(pages[0]!)).toEqual([
      [10, 10],
      [10, 75],
      [130, 10],
    ]);
  });

  test('[SH20] what must stay together moves together', () => {
    const pages = flow([mark(50), mark(20, { keep: true }), mark(20, { keep: true }), mark(20)], COLUMNS);
    expect(tops(pages[0]!)).toEqual([
      [10, 10],
      [130, 10],
      [130, 30],
      [130, 50],
    ]);
  });

  test('a chain that no column can hold is broken rather than refused', () => {
    const pages = flow([mark(60, { keep: true }), mark(60, { keep: true }), mark(60)], COLUMNS);
    expect(pages.flatMap(tops)).toHaveLength(3);
  });
});

const SPEC: TableSpec = {
  title: 'Boards',
  columns: [{ title: 'board' }, { title: 'length', align: 'right' }, { title: 'why', grow: 1 }],
  rows: Array.from(
    { length: 60 },
    (_, index): Row => ({
      kind: 'cells',
      cells: [
        words(`${index}A`),
        words('148 3⁄8″'),
        words('because it is the longer board '.repeat((index % 4) + 1)),
      ],
    }),
  ),
};
const PAGE: Box = [36, 80, 336, 480];

function pagesOf(spec: TableSpec, width = PAGE[2] - PAGE[0]): Item[][] {
  return flow(table(measure, SIZES, width, spec), () => [PAGE]);
}

describe('table', () => {
  test('no rows: no table', () => {
    expect(table(measure, SIZES, 300, { ...SPEC, rows: [] })).toEqual([]);
  });

  test('[SH22] 60 rows: the head stands at the top of every page, every row once, none past the foot', () => {
    const pages = pagesOf(SPEC);
    expect(pages.length).toBeGreaterThan(2);
    const seen: string[] = [];
    pages.forEach((items, page) => {
      const said = textItems(items);
      const heads = said.filter((item) => item.role === 'column-title').map((item) => item.text);
      expect(heads).toEqual(['board', 'length', 'why']);
      expect(said[0]!.text).toBe(page === 0 ? 'Boards' : 'Boards, continued');
      expect(textOverlaps({ items })).toEqual([]);
      for (const item of said) {
        expect(item.box[0]).toBeGreaterThanOrEqual(PAGE[0] - 0.01);
        expect(item.box[2]).toBeLessThanOrEqual(PAGE[2] + 0.01);
        expect(item.box[3]).toBeLessThanOrEqual(PAGE[3]);
      }
      seen.push(...said.filter((item) => /^\d+A$/.test(item.text)).map((item) => item.text));
      // A row's words are on the page of its id: as many lengths as ids.
      expect(said.filter((item) => item.text === '148 3⁄8″')).toHaveLength(
        said.filter((item) => /^\d+A$/.test(item.text)).length,
      );
    });
    expect(seen).toEqual(SPEC.rows.map((_, index) => `${index}A`));
  });

  test('[SH20] a band is never the last thing in a column', () => {
    const rows = Array.from({ length: 40 }, (_, index): Row[] => [
      { kind: 'band', text: `group ${index}` },
      { kind: 'cells', cells: [words(`${index}A`), words('1″'), words('x')] },
    ]).flat();
    for (const items of pagesOf({ ...SPEC, rows })) {
      const last = textItems(items).toSorted((a, b) => b.at[1] - a.at[1])[0]!;
      expect(last.role).not.toBe('band');
    }
  });

  test('[SH21] first lines of a row share one baseline whatever their size', () => {
    const [items] = pagesOf({
      ...SPEC,
      rows: [{ kind: 'cells', cells: [words('7A', { size: 14 }), words('1″'), words('small', { size: 7 })] }],
    });
    const baselines = textItems(items!)
      .filter((item) => item.role === 'cell')
      .map((item) => item.at[1]);
    expect(new Set(baselines).size).toBe(1);
  });

  test('a row with too few cells is refused', () => {
    expect(() => pagesOf({ ...SPEC, rows: [{ kind: 'cells', cells: [words('7A')] }] })).toThrow(
      /1 cells for 3/,
    );
  });

  test('fixed columns that do not fit are refused', () => {
    const columns = [{ title: 'a', width: 400 }, { title: 'b' }, { title: 'c' }];
    expect(() => pagesOf({ ...SPEC, columns })).toThrow(/do not fit/);
  });

  test('[SH21] random cells, long words and unbroken ones: no two overlap, none leaves its column', () => {
    const seed = 41;
    const next = random(seed);
    let rowsSeen = 0;
    for (let round = 0; round < cases(200, 20); round++) {
      const count = 1 + Math.floor(next() * 7);
      const say = () =>
        Array.from({ length: Math.floor(next() * 9) }, () =>
          'Wi'.repeat(1 + Math.floor(next() * 30 * next())),
        ).join(' ');
      const rows = Array.from(
        { length: 1 + Math.floor(next() * 5) },
        (): Row => ({
          kind: 'cells',
          cells: Array.from({ length: count }, () => words(say())),
        }),
      );
      const columns = Array.from({ length: count }, (_, index) => ({
        title: say(),
        align: (['left', 'middle', 'right'] as const)[index % 3]!,
        grow: index % 2,
      }));
      const tall: Box = [0, 0, 300, 100_000];
      const pages = flow(table(measure, SIZES, 300, { title: 'T', columns, rows }), () => [tall]);
      for (const items of pages) {
        expect(textOverlaps({ items }), `seed ${seed}, round ${round}`).toEqual([]);
        for (const item of textItems(items)) {
          expect(item.box[0], `seed ${seed}, round ${round}`).toBeGreaterThanOrEqual(-0.01);
          expect(item.box[2], `seed ${seed}, round ${round}`).toBeLessThanOrEqual(300.01);
        }
      }
      rowsSeen += rows.length;
    }
    console.log(`table: seed ${seed}, ${rowsSeen} random rows`);
  });
});
