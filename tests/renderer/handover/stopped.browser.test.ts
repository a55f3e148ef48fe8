// Work on boards that the user stops, in a real window with the real worker: the best so far is on every tab and on the
// sheets with the same totals; gone on with, it comes to the boards; what is handed over is worked out to the end, and the
// window comes to the same. The worker's messages are held back after some, so that there is a middle to stop in.

import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { axeFaults } from '../app/axe.ts';
import { openForFiles, type Use } from '../files/use.ts';
import { demoFile } from '../window.ts';
import { boardsShown } from './boards-shown.ts';

let use: Use;
let page: Page;

const tab = (name: string) => page.getByRole('tab', { name, exact: true });
const panel = () => page.locator('[role="tabpanel"]:visible');
const standing = () => page.locator('.handover-standing');

interface Held {
  holdBack: boolean;
  /** An answer came through that costs less than the first; nothing came after it. */
  cheaper: boolean;
}
const held = (set: Partial<Held>) => page.evaluate((own) => Object.assign(globalThis, own), set);

interface Told {
  readonly kind: string;
  readonly parts?: { readonly stock: readonly { readonly cost: number }[] };
}

/** What the order says must be paid, and how many boards it and the boards themselves are. */
async function totals(): Promise<{ money: string; bought: number; boards: number }> {
  await tab('Order').click();
  const foot = await panel().locator('tfoot td.figure').allTextContents();
  const onHand = /^(\d+) boards? on hand/m.exec((await panel().textContent()) ?? '')?.[1] ?? '0';
  await tab('Boards').click();
  const boards = await panel().locator('.handover-board').count();
  return { money: foot[1]!, bought: Number(foot[0]), boards: boards - Number(onHand) };
}

/** The same on the sheets, as they are painted. */
async function totalsOnSheets(): Promise<{ money: string; bought: number }> {
  await tab('Sheets').click();
  await page.locator('.handover-sheet-body:not(.stale) .handover-page-list').waitFor({ timeout: 60_000 });
  await page.locator('.handover-page-list button', { hasText: /Order and boards$/ }).click();
  const said = await page.locator('.handover-page p').textContent();
  const [, bought, money] = / · Total · (\d+) · ([\d.]+) · /.exec(said ?? '') ?? [];
  return { money: money!, bought: Number(bought) };
}

/** Held up after some answers; done when they are there. */
async function heldUp(): Promise<void> {
  await page.reload();
  await boardsShown(page);
  await page.waitForFunction(() => (globalThis as unknown as Held).cheaper, null, { timeout: 60_000 });
}

async function workedOut(): Promise<void> {
  await page.locator('p.handover-standing:empty').waitFor({ state: 'attached', timeout: 120_000 });
}

let first: string;
let whole: string;
beforeAll(async () => {
  use = await openForFiles({ file: demoFile('thimble-cottage') });
  page = use.page;
  await boardsShown(page);
  await workedOut();
  whole = (await totals()).money;
  await page.addInitScript(() => {
    const own: Held = { holdBack: true, cheaper: false };
    Object.assign(globalThis, own);
    globalThis.Worker = class extends Worker {
      constructor(address: string | URL, options?: WorkerOptions) {
        super(address, options);
        const now = globalThis as unknown as Held;
        let first: number | null = null;
        this.addEventListener('message', (event: MessageEvent<Told>) => {
          const { kind, parts } = event.data;
          if (!now.holdBack || kind === 'sheets') return;
          if (now.cheaper) event.stopImmediatePropagation();
          if (parts === undefined) return;
          const cost = parts.stock.reduce((sum, each) => sum + each.cost, 0);
          first ??= cost;
          now.cheaper ||= cost < first;
        });
      }
    };
  });
});
afterAll(async () => {
  const { errors } = use.w;
  await use.w.close();
  expect(errors).toEqual([]);
});

describe('stopped in the middle', () => {
  beforeEach(async () => {
    await heldUp();
    first = (await totals()).money;
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    await standing().getByText('Stopped').waitFor();
  });

  test('the best so far is kept: order, boards and sheets have the same totals', async () => {
    const shown = await totals();
    expect(Number(shown.money)).toBeLessThan(Number(first));
    expect(Number(shown.money)).toBeGreaterThan(Number(whole));
    expect(shown.boards).toBe(shown.bought);
    expect(await totalsOnSheets()).toEqual({ money: shown.money, bought: shown.bought });
    expect(await standing().textContent()).toMatch(
      /^Stopped: the best boards found so far; [1-3] of 4 mouldings are proved least\./,
    );
    await tab('Boards').click();
    const proofs = await page.locator('.handover-proof').allTextContents();
    expect(proofs.filter((words) => words.endsWith('proved')).length).toBeGreaterThan(0);
    expect(
      proofs.filter((words) => /least possible not known|could be saved/.test(words)).length,
    ).toBeGreaterThan(0);
    expect(await axeFaults(page, '.handover')).toEqual([]);
  });

  test('what is bought otherwise is not said to follow', async () => {
    await tab('Bought otherwise').click();
    expect(await panel().textContent()).toMatch(/^Stopped before/);
  });

  test('gone on with, the boards are those that were never stopped, on the sheets too', async () => {
    await held({ holdBack: false });
    await page.getByRole('button', { name: 'Go on', exact: true }).click();
    await workedOut();
    const shown = await totals();
    expect(shown.money).toBe(whole);
    expect(await totalsOnSheets()).toEqual({ money: shown.money, bought: shown.bought });
  });

  test('what is handed over is worked out to the end, as is said before, and the window comes to the same', async () => {
    await held({ holdBack: false });
    await use.menu('File', 'Export tables (CSV)…');
    const box = use.dialog('Export tables (CSV)');
    await box.getByText(/^Work on the boards was stopped\..* the window then shows the same\.$/).waitFor();
    await box.getByRole('button', { name: 'Choose where…' }).click();
    await box.getByRole('button', { name: 'Save here' }).click();
    await box.getByText('order.csv').waitFor({ timeout: 60_000 });
    const [head = '', ...rows] = (await readFile(use.atHome('Thimble Cottage tables/order.csv'), 'utf8'))
      .trim()
      .split('\r\n');
    const sum = head.split(',').indexOf('sum');
    const written = rows.reduce((all, row) => all + Number(row.split(',')[sum]), 0);
    await box.getByRole('button', { name: 'Done' }).click();
    await workedOut();
    const shown = await totals();
    expect(shown.money).toBe(written.toFixed(2));
    expect(shown.money).toBe(whole);
    expect(await totalsOnSheets()).toEqual({ money: shown.money, bought: shown.bought });
  });
});
