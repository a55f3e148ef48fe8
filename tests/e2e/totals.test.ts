// Thimble Cottage handed over three ways through the window's own dialogs: what the window shows, the PDF, the tables (CSV)
// and the report (JSON) name the same boards and the same money, line by line and in sum.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { CommandId } from '../../electron/menu.ts';
import { type ReadPdf, readPdf } from '../outside/lib/pdf-reader.ts';
import { demoFile, type OpenWindow, openWindow } from '../renderer/window.ts';
import { browserHands } from './browser-hands.ts';
import { byPointer } from './by-pointer.ts';
import type { Hands } from './ways.ts';

interface Line {
  readonly count: number;
  readonly sum: number;
  readonly spare: number;
  readonly spareSum: number;
}
interface ReportFile {
  readonly pieces: readonly { readonly id: string; readonly overallMm: number }[];
  readonly purchase: readonly Line[];
  readonly stock: readonly { readonly boards: readonly { readonly onHand: boolean }[] }[];
  readonly totals: Readonly<Record<string, unknown>>;
}

let w: OpenWindow;
let page: Page;
let hands: Hands;
let pdf: ReadPdf;
let report: ReportFile;
let order: readonly Line[];
let cuts: readonly Record<string, string>[];

const home = (name: string): string => join(w.folder, 'home', name);

/** Rows of a table file; a cell in quotes may hold commas. */
function rowsOf(csv: string): Record<string, string>[] {
  const lines = csv.replace('\uFEFF', '').trimEnd().split('\r\n');
  const cells = (line: string): string[] =>
    [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, plain]) =>
      quoted === undefined ? plain! : quoted.replaceAll('""', '"'),
    );
  const names = cells(lines[0]!);
  return lines.slice(1).map((line) => Object.fromEntries(cells(line).map((cell, at) => [names[at]!, cell])));
}

async function handOver(id: CommandId, title: string, name: string): Promise<void> {
  const way = byPointer(page, hands);
  await hands.menu(id);
  await page.getByRole('dialog', { name: title }).waitFor();
  await way.press('Choose where…');
  await page.getByRole('dialog').getByRole('button', { name: 'Save here' }).waitFor();
  await way.type(id === 'file.exportCsv' ? 'Folder name' : 'Name', name);
  await page.getByText(/^Written:|files written:$/).waitFor({ timeout: 60_000 });
  await way.press('Done');
}

beforeAll(async () => {
  w = await openWindow({ file: demoFile('thimble-cottage') });
  page = w.page;
  hands = browserHands(page, join(w.folder, 'home'));
  await page.locator('.sheet-canvas').first().waitFor();
  await page.keyboard.press('Alt+4');
  await page.locator('.handover-board').first().waitFor({ timeout: 120_000 });
  // Nothing is worked out any more.
  await page.waitForFunction(() => document.querySelector('.handover-standing')?.textContent === '', null, {
    timeout: 120_000,
  });
  await handOver('file.exportPdf', 'Hand over as PDF', 'crew');
  await handOver('file.exportCsv', 'Export tables (CSV)', 'tables');
  await handOver('file.exportReport', 'Export report (JSON)', 'crew');
  pdf = await readPdf(new Uint8Array(await readFile(home('crew.pdf'))));
  report = JSON.parse(await readFile(home('crew.report.json'), 'utf8')) as ReportFile;
  cuts = rowsOf(await readFile(home('tables/cuts.csv'), 'utf8'));
  order = rowsOf(await readFile(home('tables/order.csv'), 'utf8')).map((row) => ({
    count: Number(row.count),
    sum: Number(row.sum),
    spare: Number(row['spare count']),
    spareSum: Number(row['spare sum']),
  }));
}, 300_000);
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

const cents = (amounts: readonly number[]): number =>
  Math.round(100 * amounts.reduce((all, each) => all + each, 0));
const dash = (text: string): number => (text.trim() === '–' ? 0 : Number(text.replace(/[^\d.]/g, '')));

/** The order list as the window shows it: its lines, then its sums. */
async function shown(): Promise<Line[]> {
  await page.getByRole('tab', { name: 'Order' }).click();
  const rows = await page.locator('section[aria-label="Order list"] tr:has(td)').all();
  return Promise.all(
    rows.map(async (row) => {
      const [, count, , sum, spare, spareSum] = await row.locator('td').allTextContents();
      return { count: dash(count!), sum: dash(sum!), spare: dash(spare!), spareSum: dash(spareSum!) };
    }),
  );
}

test('what is bought stands line by line the same in the window, the tables and the report', async () => {
  const lines = (await shown()).slice(0, -1);
  expect(lines.length).toBeGreaterThan(2);
  const plain = report.purchase.map(({ count, sum, spare, spareSum }) => ({ count, sum, spare, spareSum }));
  expect(lines).toEqual(plain);
  expect(order).toEqual(plain);
});

test('boards and money are in sum the same in the window, the PDF, the tables and the report', async () => {
  const sums = (await shown()).at(-1)!;
  const { totals, purchase } = report;
  expect(sums.count).toBeGreaterThan(10);
  expect(sums.sum).toBeGreaterThan(0);
  expect(purchase.reduce((all, { count }) => all + count, 0)).toBe(sums.count);
  expect(cents([Number(totals.money)])).toBe(cents([sums.sum]));
  expect(cents([Number(totals.spareMoney)])).toBe(cents([sums.spareSum]));
  expect(order.reduce((all, { count }) => all + count, 0)).toBe(sums.count);
  expect(cents(order.map(({ sum }) => sum))).toBe(cents([sums.sum]));
  expect(cents(order.map(({ spareSum }) => spareSum))).toBe(cents([sums.spareSum]));

  const sheet = pdf.pages.find(({ texts }) => texts.some(({ text }) => text === 'Total'))!;
  const total = sheet.texts.find(({ text }) => text === 'Total')!;
  const row = sheet.texts
    .filter(({ at }) => Math.abs(at[1] - total.at[1]) < 1 && at[0] > total.at[0])
    .sort((a, b) => a.at[0] - b.at[0]);
  // A reader may cut a figure in two.
  expect(row.map(({ text }) => text).join('')).toBe(
    `${sums.count}${sums.sum.toFixed(2)}${sums.spare}${sums.spareSum.toFixed(2)}`,
  );
});

test('the boards to be cut and the stock they come from are as many everywhere', async () => {
  const stock = report.stock.flatMap(({ boards }) => boards).length;
  const pieces = report.pieces.length;
  expect(pieces).toBeGreaterThan(20);
  await page.getByRole('tab', { name: 'Boards' }).click();
  expect(await page.locator('.handover-board').count()).toBe(stock);
  const ids = await page.locator('.handover-board-pieces button').allTextContents();
  const base = new Set(ids.map((text) => text.trim().split(' ')[0]!));
  const inTables = new Set(cuts.map(({ piece }) => piece!));
  for (const { id } of report.pieces) {
    expect(base.has(id), `${id} in the window`).toBe(true);
    expect(inTables.has(id), `${id} in the tables`).toBe(true);
    expect(
      pdf.pages.some(({ texts }) => texts.some(({ text }) => text.trim() === id)),
      `${id} in the PDF`,
    ).toBe(true);
  }
  // Parts of casings are cut from stock as well; the window names them in words.
  expect(ids.length).toBe(cuts.length);
  const boards = new Set(cuts.map((row) => `${row.profile} ${row['stock board']}`));
  expect(boards.size).toBe(stock);
});
