// A room that gets its first record, and one that a wall cuts in two, as the walk and the ticket show them: nothing folds
// up, and whoever types or goes by keys is not thrown out. And boards whose joints are still being placed.

import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

let w: OpenWindow;
let page: Page;

beforeAll(async () => {
  w = await openWindow();
  page = w.page;
  // The keys of a new plan are had while the lists of the start are still being read.
  let goOn = (): void => undefined;
  const drawn = new Promise<void>((resolve) => {
    goOn = resolve;
  });
  await page.route('**/call/offers', (route) => drawn.then(() => route.continue()));
  await page
    .getByRole('button', { name: /^New plan in/ })
    .first()
    .click();
  await page.getByRole('toolbar', { name: 'Tools' }).waitFor();
  await page.keyboard.press('F7');
  await page.keyboard.press('b');
  for (const key of ['4', 'm', 'Tab', '3', 'm', 'Enter']) await page.keyboard.press(key);
  await room(/^Room 1/).waitFor();
  goOn();
  await page.keyboard.press('v');
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

const tree = () => page.getByRole('tree', { name: 'The walk' });
const room = (name: RegExp) => tree().getByRole('treeitem', { name });
const open = (name: RegExp) => room(name).getAttribute('aria-expanded');
const focused = () =>
  page.evaluate(() => {
    const { activeElement } = document;
    const label = activeElement?.getAttribute('aria-label');
    return label ?? activeElement?.closest('.field')?.querySelector('label')?.textContent ?? null;
  });

test('a room that is named stays unfolded, and its name’s field keeps the focus', async () => {
  expect(await open(/^Room 1/)).toBe('true');
  await room(/^Room 1/).click();
  const name = page.locator('[data-zone="ticket"]').getByLabel('Name', { exact: true });
  await name.fill('Parlour');
  await name.press('Enter');
  await room(/^Parlour/).waitFor();
  expect(await open(/^Parlour/)).toBe('true');
  expect(await focused()).toBe('Name');
});

test('taken back from the walk it stays unfolded too, and the walk keeps the focus on it', async () => {
  await page.keyboard.press('F6');
  await room(/^Parlour/).focus();
  await page.keyboard.press('Control+z');
  await room(/^Room 1/).waitFor();
  expect(await open(/^Room 1/)).toBe('true');
  await expect.poll(focused).toMatch(/^Room 1/);
  await page.keyboard.press('Control+y');
  await expect.poll(focused).toMatch(/^Parlour/);
});

test('cut in two by a wall, both halves stay unfolded', async () => {
  await page.keyboard.press('F7');
  const box = (await page.locator('.frame-draw').boundingBox())!;
  await page.keyboard.press('w');
  // From above the room to below it, through both walls.
  const at = (share: number) => [box.x + box.width * 0.75, box.y + box.height * share] as const;
  await page.keyboard.press('Control+0');
  await page.mouse.click(...at(0.02));
  await page.mouse.move(...at(0.5));
  await page.mouse.click(...at(0.98));
  await page.keyboard.press('Enter');
  const rooms = tree().locator('[data-row^="room|"]');
  await expect.poll(() => rooms.count()).toBe(2);
  for (const each of await rooms.all()) expect(await each.getAttribute('aria-expanded')).toBe('true');
});

test('a board of a long wall says that its joint is still being placed, until it is', async () => {
  const house = await openWindow({ file: demoFile('larkspur-house') });
  const boards = house.page
    .getByRole('tree', { name: 'The walk' })
    .getByRole('treeitem', { name: /^Board / });
  const placing = boards.filter({ hasText: 'joint being placed' });
  await placing.first().waitFor();
  expect(await placing.first().getAttribute('aria-label')).toMatch(
    /scarf.*, its joint is still being placed$/,
  );
  // Those that go from corner to corner, or to a door, are as long as they will be.
  expect(await placing.count()).toBeLessThan(await boards.count());
  await expect.poll(() => placing.count(), { timeout: 100_000 }).toBe(0);
  expect(house.errors).toEqual([]);
  await house.close();
}, 120_000);
