// The last stage as the crew's foreman meets it: boards, saw settings, order and sheets, and the way to the PDF.

import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeFaults } from '../app/axe.ts';
import type { OpenWindow } from '../window.ts';
import { boardsShown, openCottage } from './boards-shown.ts';

let w: OpenWindow;
let page: Page;

beforeAll(async () => {
  w = await openCottage((plan) => {
    const shoe = plan.profiles['shoe-a']!;
    shoe.scarf = false;
    shoe.stock[1]!.onHand = 2;
    // Of a casing that cannot be bought: one short board.
    plan.stockOnHand = { 'case-thin': [{ length: 1000, count: 1 }] };
  });
  page = w.page;
  await boardsShown(page);
  // Until they are worked out whole.
  await page.locator('p.handover-standing:empty').waitFor({ state: 'attached', timeout: 120_000 });
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

const tab = (name: string) => page.getByRole('tab', { name });
const panel = () => page.locator('[role="tabpanel"]:visible');

describe('cut and hand over', () => {
  test('every moulding says the least possible, what this is, and whether it is proved', async () => {
    const said = await page.locator('.handover-proof').allTextContents();
    const whole = said.filter((each) => !each.includes('that no board holds'));
    expect(whole.length).toBe(said.length - 1);
    expect(whole.length).toBeGreaterThan(1);
    for (const each of whole)
      expect(each).toMatch(/^least possible \S+, this \S+, (proved|not proved: at most .* could be saved)/);
  });

  test('a board of which nothing that can be read on a tape is left has no off-cut, as on paper', async () => {
    const said = await page.locator('.handover-offcut').allTextContents();
    expect(said.some((words) => words.startsWith('no off-cut'))).toBe(true);
    expect(said.filter((words) => /^off-cut 0"/.test(words))).toEqual([]);
  });

  test('a board has one length, in its stock board and in the cut list, with the spring apart', async () => {
    const onBoards = new Map(
      (await page.locator('.handover-board-pieces button').allTextContents()).map((text) => {
        const [, id = '', length = ''] = /^(\S+) (.*?)(?:, spring \+ .*)?$/.exec(text.trim()) ?? [];
        return [id, length] as const;
      }),
    );
    await tab('Saw settings').click();
    const rows = await panel().locator('tbody tr:has(td)').all();
    let compared = 0;
    for (const row of rows) {
      const id = (await row.locator('th').textContent())?.trim() ?? '';
      const wanted = onBoards.get(id);
      if (wanted === undefined) continue;
      expect((await row.locator('td').first().textContent())?.trim(), id).toBe(wanted);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(20);
  });

  test('a casing in its board says which room it looks into, as on paper', async () => {
    await tab('Boards').click();
    const pieces = await page.locator('.handover-board-pieces button b').allTextContents();
    const casings = pieces.filter((name) => / of /.test(name));
    expect(casings.length).toBeGreaterThan(5);
    expect(new Set(casings).size).toBe(casings.length);
    await tab('Sheets').click();
    await page.locator('.handover-page-list').getByText('Order and boards').first().click();
    const paper = page.locator('.handover-page .unseen');
    await expect.poll(() => paper.textContent()).toContain('Order and boards');
    const next = page.getByLabel('Next page');
    const number = page.locator('.handover-page-number');
    let printed = await paper.textContent();
    while ((await next.getAttribute('aria-disabled')) === null) {
      const before = await number.textContent();
      await next.click();
      await expect.poll(() => number.textContent()).not.toBe(before);
      printed += (await paper.textContent()) ?? '';
    }
    const words = printed!.replaceAll('\u00a0', ' ');
    expect(casings.filter((name) => !words.includes(name))).toEqual([]);
  });

  test('a board in the cut list is chosen on the plan', async () => {
    await tab('Saw settings').click();
    await panel().getByRole('button', { name: '15A', exact: true }).click();
    expect(await page.locator('#ticket-title').textContent()).toBe('Board 15A, base');
  });

  test('what leaves pieces uncut is not called cheaper', async () => {
    await tab('Bought otherwise').click();
    const rows = await panel().locator('tbody tr').allInnerTexts();
    const short = rows.filter((row) => /pieces? not placed/.test(row));
    expect(short.length).toBeGreaterThan(0);
    for (const row of short) expect(row).not.toMatch(/[+−]\d/);
  });

  test('[ST11] a row that buys more boards than can be had says so', async () => {
    await tab('Bought otherwise').click();
    const rows = page.getByRole('region', { name: 'Base shoe' }).locator('tbody tr');
    const saying = (await rows.allInnerTexts()).filter((row) =>
      /buys \d+ boards, and 2 can be had/.test(row),
    );
    expect(saying).toHaveLength(1);
    expect(saying[0]).toMatch(/^only 12' 0"/);
  });

  test('[ST6] under the total of the order stands what no board holds', async () => {
    await tab('Boards').click();
    const [, names = ''] = /^No stock board holds: (.*)\.$/.exec(
      (await panel().getByText('No stock board holds').textContent()) ?? '',
    )!;
    await tab('Order').click();
    const said = await panel()
      .getByText(/^Without \d+ pieces that no board holds/)
      .textContent();
    // Casings only: each has its opening and its room.
    const count = names.match(/ of \w+ o\d+, /g)?.length;
    expect(said).toBe(`Without ${count} pieces that no board holds: ${names}.`);
  });

  test('walls longer than the only length bought are joined for it, and the row says how often', async () => {
    await tab('Bought otherwise').click();
    const rows = page.getByRole('region', { name: 'Tall eased base' }).locator('tbody tr');
    const shortest = (await rows.allInnerTexts()).find((row) => row.startsWith(`only 8' 0"`));
    expect(shortest).toMatch(/\+\d.*\d scarfs more/s);
  });

  test('the tabs go by arrow keys, the pages by Page Down', async () => {
    await tab('Boards').click();
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    expect(await tab('Sheets').getAttribute('aria-selected')).toBe('true');
    await page.locator('.handover-page-number').getByText('Page 1 of').waitFor({ timeout: 60_000 });
    await page.locator('.handover-page').focus();
    await page.keyboard.press('PageDown');
    await page.locator('.handover-page-number').getByText('Page 2 of').waitFor();
    expect(await page.locator('[aria-current="page"]').textContent()).toMatch(/^2 /);
  });

  test('the next page by keys keeps the focus on the last page; with fewer pages it goes on from the one that is shown', async () => {
    await tab('Sheets').click();
    const size = page.locator('.handover-sheet-bar').getByLabel('Sheet', { exact: true });
    const was = await size.inputValue();
    const number = page.locator('.handover-page-number');
    const shown = async () => (await number.textContent())?.match(/\d+/g)?.map(Number) ?? [];
    await size.selectOption('letter');
    await page.locator('.handover-sheet-body:not(.stale)').waitFor({ timeout: 60_000 });
    const [, many = 0] = await shown();
    await page
      .locator('.handover-page-list button')
      .nth(many - 2)
      .click();
    const next = page.getByRole('button', { name: 'Next page' });
    await next.focus();
    for (let press = 0; press < 2; press++) await page.keyboard.press('Enter');
    expect(await shown()).toEqual([many, many]);
    expect(await next.getAttribute('aria-disabled')).toBe('true');
    expect(await next.evaluate((button) => button === document.activeElement)).toBe(true);

    await size.selectOption('arch-d');
    await expect.poll(async () => (await shown())[1], { timeout: 60_000 }).toBeLessThan(many);
    const [, few = 0] = await shown();
    expect(await page.locator('[aria-current="page"]').textContent()).toMatch(new RegExp(`^${few} `));
    await page.getByRole('button', { name: 'Page before' }).click();
    expect(await shown()).toEqual([few - 1, few]);
    await size.selectOption(was);
    await page.locator('.handover-page-list button').first().click();
  });

  test('each tab begins at its top, however far the one before was scrolled', async () => {
    const body = page.locator('.handover-body');
    await tab('Boards').click();
    await body.evaluate((box) => box.scrollTo(0, 200));
    expect(await body.evaluate((box) => box.scrollTop)).toBe(200);
    await tab('Saw settings').click();
    expect(await body.evaluate((box) => box.scrollTop)).toBe(0);
  });

  test.each([
    ['the button', () => page.getByRole('button', { name: 'Hand over as PDF…' }).click()],
    ['its key', () => page.keyboard.press('Control+p')],
  ])(
    '%s hands over on the sheet that was looked at, and what is chosen there is looked at',
    async (_by, ask) => {
      await tab('Sheets').click();
      const looked = page.locator('.handover-sheet-bar').getByLabel('Sheet', { exact: true });
      await looked.selectOption('a3');
      await ask();
      const dialog = page.getByRole('dialog', { name: 'Hand over as PDF' });
      expect(await dialog.getByLabel('Sheet', { exact: true }).inputValue()).toBe('a3');
      await dialog.getByLabel('Sheet', { exact: true }).selectOption('a4');
      await page.keyboard.press('Escape');
      await dialog.waitFor({ state: 'detached' });
      expect(await looked.inputValue()).toBe('a4');
    },
  );

  test('[SH12] the scale of the floor plans is chosen for the preview and goes along to the hand-over', async () => {
    await tab('Sheets').click();
    await page.getByLabel('Sheet', { exact: true }).selectOption('letter');
    const pages = page.locator('.handover-page-list');
    const scales = page.locator('.handover-sheet-bar').getByLabel('Floor plans at');
    expect(await scales.inputValue()).toBe('fits');
    await scales.selectOption('3/8');
    await pages.getByText('Ground floor, A2').waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Hand over as PDF…' }).click();
    const dialog = page.getByRole('dialog', { name: 'Hand over as PDF' });
    expect(await dialog.getByLabel('Floor plans at').inputValue()).toBe('3/8');
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    await scales.selectOption('3');
    await panel()
      .getByText(/^At 3″ = 1′‐0″ the plan of Ground floor would take \d+ sheets/)
      .waitFor({ timeout: 60_000 });
    await scales.selectOption('fits');
    await pages.getByText('Ground floor, A2').waitFor({ state: 'detached', timeout: 60_000 });
  });

  test('site sheets are asked for from the survey', async () => {
    await page.keyboard.press('Alt+1');
    await page.getByRole('button', { name: 'Print site sheets…' }).click();
    await page.getByRole('dialog', { name: 'Hand over as PDF' }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Alt+4');
  });

  test.each(['Boards', 'Saw settings', 'Order', 'Bought otherwise', 'Sheets'])(
    'axe finds nothing in %s',
    async (name) => {
      await tab(name).click();
      expect(await axeFaults(page, '.handover')).toEqual([]);
    },
  );

  test('nothing stands out of a window of 900 pixels', async () => {
    await page.setViewportSize({ width: 900, height: 700 });
    for (const name of ['Boards', 'Saw settings', 'Order', 'Bought otherwise']) {
      await tab(name).click();
      const over = await page.locator('.handover-body').evaluate((box) => box.scrollWidth - box.clientWidth);
      expect(over, name).toBeLessThanOrEqual(0);
    }
    await page.setViewportSize({ width: 1280, height: 800 });
  });
});
