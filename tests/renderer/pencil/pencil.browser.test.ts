// The red pencil, the strip and the sections as they are used: by pointer and by keys, on a real plan.

import type { Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { axeFaults } from '../app/axe.ts';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

let w: OpenWindow;
let page: Page;

const pencil = () => page.locator('.pencil');
const rows = () => pencil().locator('[data-finding]');
const open = () => pencil().locator('[data-finding][aria-expanded="true"]');
const openFirst = async () => {
  if ((await rows().first().getAttribute('aria-expanded')) !== 'true') await rows().first().click();
};
const strip = () => page.getByRole('region', { name: 'Strip and section' });

beforeAll(async () => {
  w = await openWindow({ file: demoFile('thimble-cottage') });
  page = w.page;
  await rows().first().waitFor();
});
beforeEach(async () => {
  if (await strip().isVisible()) await page.getByRole('button', { name: 'Close the strip' }).click();
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

describe('the red pencil', () => {
  test('findings stand worst first, with their counts', async () => {
    expect(await pencil().locator('h3').allInnerTexts()).toEqual([
      expect.stringContaining('Stop'),
      expect.stringContaining('Look'),
    ]);
    expect(await pencil().locator('.pencil-counts').textContent()).toMatch(/2\s*stop\s*1\s*look/);
    expect(await rows().count()).toBe(3);
  });

  test('the key for the next finding opens one after the other and chooses what it is about', async () => {
    await page.keyboard.press('F7');
    await page.keyboard.press('.');
    await expect.poll(() => open().textContent()).toContain('Base proud of casing');
    const first = await open().getAttribute('data-finding');
    await page.keyboard.press('.');
    await expect.poll(() => open().getAttribute('data-finding')).not.toBe(first);
    await page.keyboard.press('.');
    await expect.poll(() => open().textContent()).toContain('Sliver');
    await page.keyboard.press('.');
    await expect.poll(() => open().getAttribute('data-finding')).toBe(first);
    await page.keyboard.press('F8');
    expect(await page.locator('[data-zone="ticket"] h2').first().textContent()).toContain('o3');
  });

  test('a remedy clears its finding, the focus goes to the next one, and undo brings it back', async () => {
    await openFirst();
    const more = pencil().locator('.pencil-remedies');
    const remedy = more.getByRole('button', { name: /^Set plinth blocks at o3/ });
    await remedy.waitFor();
    expect(await more.locator('li').filter({ hasText: 'Set plinth blocks at o3' }).textContent()).toContain(
      'Clears this and 1 other.',
    );
    await remedy.click();
    await expect.poll(() => rows().count()).toBe(1);
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.closest('.pencil') !== null))
      .toBe(true);
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect.poll(() => rows().count()).toBe(3);
  });

  test('a remedy stays at the level that it mended, though the next finding is on another', async () => {
    const house = await openWindow({ file: demoFile('larkspur-house') });
    const level = house.page.getByLabel('Level', { exact: true });
    const findings = house.page.locator('.pencil [data-finding]');
    const proud = findings.filter({ hasText: 'Base proud of casing' }).filter({ hasText: 'Dining room' });
    await proud.click();
    const ground = await level.inputValue();
    await house.page.locator('.pencil-remedies').getByRole('button', { name: 'Use “Square base”' }).click();
    await proud.waitFor({ state: 'detached' });
    const focused = () =>
      house.page.evaluate(() => document.activeElement?.closest('[data-finding]') !== null);
    await expect.poll(focused).toBe(true);
    expect(await level.inputValue()).toBe(ground);
    expect(house.errors).toEqual([]);
    await house.close();
  });

  test('where no edit can help, a remedy leads to the place that can', async () => {
    await openFirst();
    await pencil().getByRole('button', { name: 'See which profiles fit in this room' }).click();
    const dialog = page.getByRole('dialog', { name: 'Which profile fits' });
    await dialog.waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });

  test('axe finds nothing in it', async () => {
    await openFirst();
    expect(await axeFaults(page, '.pencil')).toEqual([]);
  });
});

describe('flags on the sheet', () => {
  test('a click on a flag opens its finding, and the list has its letter', async () => {
    await page.keyboard.press('Alt+3');
    await page.keyboard.press('F7');
    await page.keyboard.press('Escape');
    await page.keyboard.press('f');
    const letters = pencil().locator('.pencil-letter');
    expect(await letters.allTextContents()).toEqual([', flag A', ', flag B', ', flag C']);
    if ((await open().count()) > 0) await open().click();
    // Flag B stands near door o3, in the bath: looked for with the pointer, as a user would.
    const box = (await page.locator('.sheet-paper').boundingBox())!;
    const flagB = pencil().locator('[data-finding][aria-expanded="true"]', { hasText: 'flag B' });
    search: for (let y = 0.45; y < 0.75; y += 0.02)
      for (let x = 0.66; x < 0.82; x += 0.02) {
        await page.mouse.click(box.x + box.width * x, box.y + box.height * y);
        if ((await flagB.count()) > 0) break search;
      }
    expect(await flagB.textContent()).toContain('Base proud of casing');
    expect(await page.locator('#ticket-title').textContent()).toBe('Door o3');
    await page.keyboard.press('Alt+2');
  });
});

describe('strip and section', () => {
  const show = async () => {
    await page.keyboard.press('F7');
    await page.keyboard.press('Alt+s');
    await strip().waitFor();
  };

  test('they follow what is chosen, and say it in words', async () => {
    await show();
    await openFirst();
    await expect.poll(() => strip().textContent()).toContain('proud of the casing');
    const walls = await strip().locator('li').allInnerTexts();
    expect(walls.length).toBeGreaterThanOrEqual(4);
    expect(walls.join(' ')).toMatch(/board \d+A .*door o3/);
  });

  test('a click on the strip chooses a corner, and the section shows its joint', async () => {
    await show();
    const canvas = strip().locator('canvas');
    await expect.poll(async () => (await canvas.boundingBox())?.height ?? 0).toBeGreaterThan(80);
    // The first corner's ring stands at the left end of the row.
    await strip()
      .locator('.strip-scroll')
      .evaluate((box) => {
        box.scrollLeft = 0;
      });
    await canvas.click({ position: { x: 33, y: 16 } });
    await expect.poll(() => strip().locator('figcaption').first().textContent()).toMatch(/^Corner \d+/);
  });

  test('it is put away by its own button and by its key', async () => {
    await show();
    await page.keyboard.press('F7');
    await page.keyboard.press('Alt+s');
    await strip().waitFor({ state: 'detached' });
  });

  test('axe finds nothing in it', async () => {
    await show();
    expect(await axeFaults(page, '.strip')).toEqual([]);
  });
});
