// One set of totals wherever they are read: the report's JSON, the tables, what `cuts` prints, and the PDF read back by a
// library that did not write it. Labels' grid measured in the PDF, in millimetres: 1 pt = 1/72 in (ISO 32000-1, 8.3.2.1).

import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../core/fit/types.ts';
import { readPlan } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { type Cuts, cutsOf, derive, type Solved, solve } from '../../core/report/index.ts';
import { csvFiles, fontMetrics } from '../../core/sheets/index.ts';
import { labelSheets } from '../../core/sheets/page-labels.ts';
import { pageKit } from '../../core/sheets/page-layout.ts';
import { roomsOnPaper } from '../../core/sheets/page-names.ts';
import { stockSheets } from '../../core/sheets/page-stock.ts';
import { writePdf } from '../../core/sheets/pdf/index.ts';
import { figuresOf } from '../../core/sheets/words.ts';
import { loadFonts } from '../../electron/services/fonts.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import { type ReadPdf, readPdf } from './lib/pdf-reader.ts';

const FOLDER = new URL('../../demo-data/', import.meta.url);
const houses = readdirSync(FOLDER).filter((name) => name.endsWith('.copewright.json'));
/** No more than first answers: sums do not hang on how good the boards are. */
const LITTLE = { work: 0 };
const MM_PER_POINT = 25.4 / 72;

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

function planOf(name: string): Plan {
  const read = readPlan(readFileSync(new URL(name, FOLDER), 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  return read.plan;
}

/** The sheets of order, boards and labels alone, written and read back. */
async function sheetsBack(solved: Solved): Promise<ReadPdf> {
  const fonts = await loadFonts();
  const kit = pageKit(solved, fontMetrics(fonts), { sheet: 'letter', date: '2026-01-31' });
  const rooms = roomsOnPaper(solved);
  const sheets = [...stockSheets(kit, rooms), ...labelSheets(kit, rooms)];
  const set = { title: 'Order, boards, labels', language: 'en-US', sheets };
  return readPdf(await writePdf(set, fonts, { date: '2026-01-31', creator: 'Copewright' }));
}

/** Rows of a table of ours; no cell that is looked at here has a comma. */
function rowsOf(csv: string): Record<string, string>[] {
  const [heading, ...rows] = csv.replace('\uFEFF', '').trimEnd().split('\r\n');
  const names = heading!.split(',');
  return rows.map((row) => Object.fromEntries(row.split(',').map((cell, i) => [names[i]!, cell])));
}

const sum = (of: readonly number[]): number =>
  Math.round(of.reduce((all, each) => all + each, 0) * 1e6) / 1e6;
const plain = (words: string): string => words.replace(/[\s\u00a0\u202f]+/g, ' ');

describe.each(houses)('the totals of %s', (name) => {
  let solved: Solved;
  let cuts: Cuts;
  let pdf: ReadPdf;
  beforeAll(async () => {
    solved = solve(derive(planOf(name)), solver, LITTLE);
    cuts = JSON.parse(JSON.stringify(cutsOf(solved, solver, { work: 0 }))) as Cuts;
    pdf = await sheetsBack(solved);
  });

  it('[SH24, ST9] boards, cost, waste and money are the same in JSON, tables, cuts and PDF', () => {
    const { stock, purchase, totals } = solved.report;
    const tables = csvFiles(solved.report);
    const cutRows = rowsOf(tables['cuts.csv']!);
    const orderRows = rowsOf(tables['order.csv']!);
    const all = plain(pdf.pages.map((page) => page.all).join(' '));
    const figures = figuresOf(solved.plan);
    expect(stock.length).toBeGreaterThan(2);
    for (const each of stock) {
      const rows = cutRows.filter(
        (row) => row.profile === each.profile && row['stock board'] !== 'not placed',
      );
      const boards = [...new Map(rows.map((row) => [row['stock board'], row])).values()];
      expect(boards).toHaveLength(each.boards.length);
      const waste = sum(each.boards.map((board) => board.lengthMm - board.piecesMm));
      expect(sum(boards.map((row) => Number(row['stock length (mm)']) - Number(row['pieces (mm)'])))).toBe(
        waste,
      );
      for (const board of each.boards) {
        expect(sum([board.piecesMm, board.kerfMm, board.trimMm, board.offcutMm])).toBe(board.lengthMm);
      }
      const bought = orderRows.filter((row) => row.profile === each.profile);
      expect(sum(bought.map((row) => Number(row.count)))).toBe(
        each.boards.filter((one) => !one.onHand).length,
      );
      if (each.by === 'money') expect(sum(bought.map((row) => Number(row.sum)))).toBe(each.cost);
      const [asked] = cuts.alternatives.find((one) => one.profile === each.profile)!.rows;
      expect(asked).toMatchObject({ kind: 'asked', boards: each.boards.length, wasteMm: waste });
      if (each.by === 'money') expect(asked!.money).toBe(each.cost);
      const cost = each.by === 'money' ? `${each.cost.toFixed(2)}, ` : '';
      const counted = `${each.boards.length} board${each.boards.length === 1 ? '' : 's'}`;
      expect(all).toContain(plain(`${counted}, ${cost}waste ${figures.length(waste)}`));
    }
    expect(cuts.stock).toEqual(stock);
    expect(cuts.purchase).toEqual(purchase);
    expect(cuts.totals).toEqual(totals);
    expect(sum(orderRows.map((row) => Number(row.sum)))).toBe(totals.money);
    expect(sum(orderRows.map((row) => Number(row['spare sum'])))).toBe(totals.spareMoney);
    // The total row of the order: count, sum, spare, for spare, on one line of the sheet.
    const page = pdf.pages.find((each) => each.texts.some((text) => text.text === 'Total'))!;
    const at = page.texts.find((text) => text.text === 'Total')!;
    const row = page.texts
      .filter((text) => Math.abs(text.at[1] - at.at[1]) < 1)
      .sort((a, b) => a.at[0] - b.at[0]);
    const counts = (key: 'count' | 'spare'): string => `${sum(purchase.map((line) => line[key]))}`;
    // A reader may cut a figure in two.
    expect(row.map((text) => text.text).join('')).toBe(
      [
        'Total',
        counts('count'),
        Number(totals.money).toFixed(2),
        counts('spare'),
        Number(totals.spareMoney).toFixed(2),
      ].join(''),
    );
  });

  it('[SH37] the grid of labels stands in the PDF to half a millimetre: three equal columns, equal rows', async () => {
    const kit = pageKit(solved, fontMetrics(await loadFonts()), { sheet: 'letter', date: '2026-01-31' });
    const sheets = labelSheets(kit, roomsOnPaper(solved));
    expect(sheets.length).toBeGreaterThan(2);
    const pages = pdf.pages.slice(-sheets.length);
    sheets.forEach((sheet, number) => {
      const page = pages[number]!;
      const frames = sheet.items.flatMap((item) =>
        item.kind === 'line' && item.role === 'label' ? [item.points] : [],
      );
      const [first] = frames;
      // A cell is drawn with its sides right and below: from above right to below left.
      const [[x0, y0], [x1, y1]] = [
        [first![2]![0], first![0]![1]],
        [first![0]![0], first![2]![1]],
      ] as const;
      const [wide, high] = [x1 - x0, y1 - y0];
      frames.forEach((points, at) => {
        const [column, row] = [at % 3, Math.floor(at / 3)];
        const wanted = [
          [x0 + column * wide, y0 + row * high],
          [x0 + (column + 1) * wide, y0 + (row + 1) * high],
        ] as const;
        for (const [x, y] of wanted) {
          const off = page.points.map(([px, py]) => Math.hypot(px - x, page.box[3] - py - y));
          expect(Math.min(...off) * MM_PER_POINT, `label ${at + 1} of sheet ${number + 1}`).toBeLessThan(0.5);
        }
        expect(points).toHaveLength(3);
      });
    });
  });
});

describe('a piece that no board holds', () => {
  it('[ST6, FD16] is a finding that stops, and stands as not placed in JSON, tables, cuts and PDF', async () => {
    const plan = planOf(houses.find((name) => name.startsWith('thimble'))!);
    const profiles = Object.fromEntries(
      Object.entries(plan.profiles).map(([id, profile]) => [
        id,
        {
          ...profile,
          scarf: false,
          stock: profile.kind === 'base' ? [{ length: 8 * 12 * 8128, price: 9 }] : [],
        },
      ]),
    ) as Plan['profiles'];
    const solved = solve(derive({ ...plan, profiles }), solver, LITTLE);
    const { stock, findings, pieces } = solved.report;
    const room = 96 * 25.4 - 12.7;
    const long = pieces.filter(
      (piece) =>
        piece.line === 'base' &&
        piece.overallMm + piece.springMm > room + 0.01 &&
        stock.some((each) => each.profile === piece.profile),
    );
    expect(long.length).toBeGreaterThan(1);
    const unplaced = stock.flatMap((each) => each.unplaced);
    expect(unplaced.toSorted()).toEqual(long.map((piece) => piece.id).toSorted());
    const told = findings.filter((each) => each.code === 'stock-none');
    expect(told.every((each) => each.severity === 'stop')).toBe(true);
    const rows = rowsOf(csvFiles(solved.report)['cuts.csv']!).filter(
      (row) => row['stock board'] === 'not placed',
    );
    expect(rows.map((row) => row.piece).toSorted()).toEqual(unplaced.toSorted());
    const cuts = cutsOf(solved, solver, { work: 0 });
    expect(cuts.stock.flatMap((each) => each.unplaced).toSorted()).toEqual(unplaced.toSorted());
    const pdf = await sheetsBack(solved);
    const all = plain(pdf.pages.map((page) => page.all).join(' '));
    for (const { id } of long) {
      expect(
        told.some((each) => each.about.includes(id)),
        id,
      ).toBe(true);
      expect(all.match(/No stock board holds: [^.]*\./g)!.join(' '), id).toMatch(new RegExp(`\\b${id}\\b`));
    }
  });
});
