// One set of totals wherever they are read: the report's JSON, the tables, what `cuts` prints, and the PDF read back by a
// library that did not write it. Labels' grid measured in the PDF, in millimetres: 1 pt = 1/72 in (ISO 32000-1, 8.3.2.1).

import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../core/fit/types.ts';
import { readPlan } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { settingsOf } from '../../core/plan/settings.ts';
import { type Cuts, cutsOf, cutsToText, derive, type Solved, solve } from '../../core/report/index.ts';
import { csvFiles, fontMetrics } from '../../core/sheets/index.ts';
import { labelSheets } from '../../core/sheets/page-labels.ts';
import { pageKit } from '../../core/sheets/page-layout.ts';
import { roomsOnPaper } from '../../core/sheets/page-names.ts';
import { stockSheets } from '../../core/sheets/page-stock.ts';
import { writePdf } from '../../core/sheets/pdf/index.ts';
import { figuresOf } from '../../core/sheets/words.ts';
import { loadFonts } from '../../electron/services/fonts.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import type { Vec } from './lib/file.ts';
import { type ReadPage, type ReadPdf, readPdf } from './lib/pdf-reader.ts';

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
  const sheets = [...stockSheets(kit), ...labelSheets(kit, rooms)];
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

  it('[SH37] the grid of labels stands in the PDF to half a millimetre: equal columns and rows, as many as the settings ask or the sheet’s head says', async () => {
    const kit = pageKit(solved, fontMetrics(await loadFonts()), { sheet: 'letter', date: '2026-01-31' });
    const sheets = labelSheets(kit, roomsOnPaper(solved)).length;
    expect(sheets).toBeGreaterThan(2);
    const { labelColumns, labelRows } = settingsOf(solved.plan);
    const pages = pdf.pages.slice(-sheets);
    let labels = 0;
    pages.forEach((page, number) => {
      const fewer = /\b(\d+) down, not (\d+), so that each label holds its words/.exec(plain(page.all));
      if (fewer) expect(Number(fewer[2])).toBe(labelRows);
      const rows = Number(fewer?.[1] ?? labelRows);
      const [x0, y0, x1, y1] = innerOf(page);
      const [wide, high] = [(x1 - x0) / labelColumns, (y1 - y0) / rows];
      const cells = cellsOf(page);
      cells.forEach((points, at) => {
        const [column, row] = [at % labelColumns, Math.floor(at / labelColumns)];
        const [right, below] = [x0 + (column + 1) * wide, y0 + (row + 1) * high];
        const wanted = [
          [right, below - high],
          [right, below],
          [right - wide, below],
        ] as const;
        wanted.forEach(([x, y], i) => {
          const off = Math.hypot(points[i]![0] - x, page.box[3] - points[i]![1] - y);
          expect(off * MM_PER_POINT, `label ${at + 1} of sheet ${number + 1}`).toBeLessThan(0.5);
        });
      });
      labels += cells.length;
    });
    const { pieces, casings } = solved.report;
    const boards = pieces.filter(({ returnOf }) => returnOf === null).length;
    expect(labels).toBe(casings.reduce((sum, { parts }) => sum + parts.length, boards));
  });
});

/** Cells of labels in a page: each is one path of its own along its sides right and below, from above right to below left. */
function cellsOf({ paths }: ReadPage): Vec[][] {
  const least = 60;
  return paths.filter((path) => {
    const [a, b, c] = path;
    if (path.length !== 3) return false;
    const isDown = Math.abs(a![0] - b![0]) < 20 && a![1] - b![1] > least / 2;
    return isDown && Math.abs(b![1] - c![1]) < 20 && b![0] - c![0] > least;
  });
}

/**
 * What heading and foot leave of a sheet: half an inch of clear paper all round; below the title's line a board and 22.2
 * points, below the subtitle's 13; above the foot's rule, which is 12 points above the margin, 10. Origin top left.
 */
function innerOf({ box, texts }: ReadPage): readonly [number, number, number, number] {
  const [, , width, height] = box;
  const baseline = (starts: RegExp): number | undefined => {
    const found = texts.find(({ text }) => starts.test(plain(text)));
    return found && height - found.at[1];
  };
  const subtitle = baseline(/^(one for each board|\d+ (across|down), not )/);
  const top = subtitle === undefined ? baseline(/^Labels/)! + 22.2 : subtitle + 13;
  return [36, top, width - 36, height - 36 - 12 - 10];
}

describe('a piece that no board holds', () => {
  it('[ST6, FD16] is a finding that stops, and stands as not placed in JSON, tables, cuts and PDF, under the total too', async () => {
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
    const without = `Without ${unplaced.length} pieces that no board holds: ${unplaced.join(', ')}.`;
    expect(all).toContain(without);
    expect(cutsToText(solved.plan, cuts)).toMatch(
      new RegExp(`^All boards: .*\\n${without.replaceAll('.', '\\.')}$`, 'm'),
    );
    for (const { id } of long) {
      expect(
        told.some((each) => each.about.includes(id)),
        id,
      ).toBe(true);
      expect(all.match(/No stock board holds: [^.]*\./g)!.join(' '), id).toMatch(new RegExp(`\\b${id}\\b`));
    }
  });
});
