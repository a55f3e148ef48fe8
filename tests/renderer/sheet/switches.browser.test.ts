// What is switched and shown by a key: snapping, the grid, real size, what is chosen made large, what lies beneath, the
// light; and what the browser itself may do in the middle of a gesture. Seen from outside: words, places and pixels.

import type { Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

let w: OpenWindow;
let page: Page;

const paper = () => page.locator('.sheet-paper');
const hint = () => page.locator('.tape-words');
const scale = () => page.locator('.sheet-scale span');
const ticket = () => page.locator('[data-zone="ticket"] h2').first();
const saved = () => page.getByText('Saved', { exact: true }).count();

/** The middle of the sheet, on the page. */
async function middle(): Promise<readonly [number, number]> {
  const box = (await paper().boundingBox())!;
  return [box.x + box.width / 2, box.y + box.height / 2];
}

beforeAll(async () => {
  w = await openWindow({ file: demoFile('thimble-cottage'), width: 1400, height: 900 });
  page = w.page;
  await page.locator('.sheet-paper canvas').first().waitFor();
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});
beforeEach(async () => {
  await page.keyboard.press('Alt+2');
  await paper().focus();
  for (let k = 0; k < 3; k++) await page.keyboard.press('Escape');
  await page.keyboard.press('f');
});

test('S lets go of snapping, and catches again', async () => {
  const [x, y] = await middle();
  await page.keyboard.press('w');
  await page.mouse.click(x, y);
  // Nearly level from where the wall starts.
  const heading = page.getByLabel('Heading');
  await page.mouse.move(x + 150, y + 3, { steps: 3 });
  await expect.poll(() => heading.getAttribute('placeholder')).toBe('0°');
  await page.keyboard.press('s');
  await page.mouse.move(x + 160, y + 3, { steps: 3 });
  await expect.poll(() => heading.getAttribute('placeholder')).not.toBe('0°');
  await page.keyboard.press('s');
  await page.mouse.move(x + 150, y + 3, { steps: 3 });
  await expect.poll(() => heading.getAttribute('placeholder')).toBe('0°');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
});

test('G lays a grid that catches, and takes it away', async () => {
  const box = (await paper().boundingBox())!;
  await page.keyboard.press('w');
  const at = [box.x + box.width - 60, box.y + 60] as const;
  await page.keyboard.press('g');
  let caught = 0;
  for (let k = 0; k < 12; k++) {
    await page.mouse.move(at[0] + 3 * k, at[1] + 2 * k);
    await page.waitForTimeout(80);
    if (/the grid/.test((await hint().textContent()) ?? '')) caught += 1;
  }
  expect(caught).toBeGreaterThan(0);
  await page.keyboard.press('g');
  for (let k = 0; k < 12; k++) {
    await page.mouse.move(at[0] + 3 * k, at[1] + 2 * k);
    await page.waitForTimeout(60);
    await expect.poll(() => hint().textContent()).not.toMatch(/the grid/);
  }
  await page.keyboard.press('Escape');
});

test('Ctrl+1 shows it in real size, F the whole plan again', async () => {
  const whole = await scale().textContent();
  await page.keyboard.press('Control+1');
  await expect.poll(() => scale().textContent()).toBe('real size');
  await page.keyboard.press('f');
  await expect.poll(() => scale().textContent()).toBe(whole);
});

test('Shift+F makes what is chosen as large as the sheet', async () => {
  const whole = await scale().textContent();
  await page.keyboard.press('F6');
  await page.keyboard.press('Home');
  await page.getByRole('treeitem').filter({ hasText: 'Wall 1 to 2' }).first().click();
  await paper().focus();
  await page.keyboard.press('Shift+F');
  await expect.poll(() => scale().textContent()).not.toBe(whole);
});

test('N goes through what lies under the last click, by what is there now', async () => {
  const [x, y] = await middle();
  await page.mouse.click(x, y);
  const first = await ticket().textContent();
  await page.keyboard.press('n');
  const second = await ticket().textContent();
  for (let k = 0; k < 6 && (await ticket().textContent()) !== first; k++) await page.keyboard.press('n');
  expect(await ticket().textContent()).toBe(first);
  expect(second).toBeTruthy();
});

test('the light changes by its command and is kept', async () => {
  const theme = () => page.evaluate(() => document.documentElement.dataset.theme);
  const was = await theme();
  const turn = async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('Light or dark');
    await page.keyboard.press('Enter');
  };
  await turn();
  await expect.poll(theme).not.toBe(was);
  await turn();
  await expect.poll(theme).toBe(was);
});

test('a gesture that the browser breaks off leaves the plan as it was', async () => {
  const box = (await paper().boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  // A wall of the cottage near the middle: the first place to the right that the pointer is over.
  let at: readonly [number, number] | null = null;
  for (let k = 0; k < 200 && at === null; k++) {
    await page.mouse.move(x + 2 * k, y);
    await page.waitForTimeout(20);
    if ((await paper().getAttribute('data-over')) === 'wall') at = [x + 2 * k, y];
  }
  expect(at).not.toBeNull();
  await page.mouse.down();
  await page.mouse.move(at![0] + 40, at![1] + 10, { steps: 4 });
  await paper().dispatchEvent('pointercancel', { pointerId: 1, bubbles: true });
  await page.mouse.move(at![0] + 80, at![1] + 10, { steps: 2 });
  await page.mouse.up();
  expect(await saved()).toBe(1);
});

test('undo in the middle of a drag puts the drag back and the sheet goes on', async () => {
  const box = (await paper().boundingBox())!;
  const corner = [box.x + box.width - 160, box.y + box.height - 140] as const;
  await page.keyboard.press('b');
  await page.mouse.click(...corner);
  await page.mouse.click(corner[0] + 100, corner[1] + 80);
  await expect.poll(saved).toBe(0);
  await page.keyboard.press('v');
  await page.mouse.move(...corner, { steps: 2 });
  await page.mouse.down();
  await page.mouse.move(corner[0] - 30, corner[1] - 20, { steps: 3 });
  for (let k = 0; k < 2; k++) await page.keyboard.press('Control+z');
  await page.mouse.move(corner[0] - 60, corner[1] - 20, { steps: 2 });
  await page.mouse.up();
  await expect.poll(saved).toBe(1);
  expect(await page.locator('.guard').count()).toBe(0);
  expect(await page.locator('.sheet-paper canvas').count()).toBeGreaterThan(0);
});
