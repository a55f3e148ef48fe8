// The dialogs of mouldings, rooms, settings, stock and levels as they are used, and what axe finds in each.

import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { axeFaults } from '../app/axe.ts';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

let w: OpenWindow;
let page: Page;

const dialog = (name: string) => page.getByRole('dialog', { name });
const undo = () => page.getByRole('button', { name: /^Undo/ }).first();

async function open(menu: string, item: string, title: string) {
  await page.getByRole('menuitem', { name: menu, exact: true }).click();
  await page.getByRole('menu').getByText(item, { exact: true }).click();
  const box = dialog(title);
  await box.waitFor();
  return box;
}

beforeAll(async () => {
  w = await openWindow({ file: demoFile('thimble-cottage'), unstocked: true });
  page = w.page;
  await page.locator('.pencil [data-finding]').first().waitFor();
});
afterEach(async () => {
  for (let tries = 0; tries < 3 && (await page.locator('dialog[open]').count()) > 0; tries += 1)
    await page.keyboard.press('Escape');
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

const all = [
  ['Trim', 'Profiles…', 'Profiles'],
  ['Trim', 'What goes where: room by room…', 'What goes where'],
  ['Trim', 'Job settings…', 'Job settings'],
  ['Trim', 'Stock on hand…', 'Stock on hand'],
  ['Draw', 'Levels…', 'Levels'],
] as const;

describe('every dialog', () => {
  for (const [menu, item, title] of all)
    test(`${title}: axe finds nothing, and Escape closes it`, async () => {
      const box = await open(menu, item, title);
      expect(await axeFaults(page, 'dialog[open]')).toEqual([]);
      await page.keyboard.press('Escape');
      await box.waitFor({ state: 'detached' });
    });
});

describe('profiles', () => {
  test('one is added, named, given an id, a length and a price, and deleted', async () => {
    const box = await open('Trim', 'Profiles…', 'Profiles');
    const before = await box.locator('.profiles-name').count();
    await box.getByRole('combobox', { name: 'Kind of the new profile' }).selectOption('crown');
    // Its name is what is typed next, at once.
    const marked = await box.getByRole('button', { name: 'Add', exact: true }).evaluate((add) => {
      (add as HTMLButtonElement).click();
      return getSelection()?.toString();
    });
    expect(marked).toBe('New crown');
    expect(await box.locator('.profiles-name').count()).toBe(before + 1);
    await page.keyboard.type('Bed mould');
    await page.keyboard.press('Enter');
    await box.getByLabel('Id', { exact: true }).fill('bed');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => box.getByRole('button', { name: /^Bed mould/ }).getAttribute('title'))
      .toContain('bed:');
    await box.getByRole('button', { name: /^Add 12/ }).click();
    await box.getByLabel('Price of length 1').fill('19,5');
    await page.keyboard.press('Enter');
    await expect.poll(() => box.getByLabel('Price of length 1').inputValue()).toBe('19.50');
    await box.getByRole('button', { name: 'Delete', exact: true }).click();
    await expect.poll(() => box.locator('.profiles-name').count()).toBe(before);
    expect(await page.evaluate(() => document.activeElement?.closest('dialog') !== null)).toBe(true);
  });

  test('one in use is not deleted before something takes its place', async () => {
    const box = await open('Trim', 'Profiles…', 'Profiles');
    await box.getByRole('button', { name: /^Tall/ }).first().click();
    const before = await box.locator('.profiles-name').count();
    const refused = box.getByRole('button', { name: 'Delete', exact: true });
    expect(await refused.getAttribute('aria-disabled')).toBe('true');
    await refused.click({ force: true });
    expect(await box.locator('.profiles-name').count()).toBe(before);
    await expect
      .poll(() => page.locator('.notices').allInnerTexts())
      .toEqual(expect.arrayContaining([expect.stringContaining('is used by')]));
    await box.getByLabel('Put in its place').selectOption({ label: 'None at all' });
    await box.getByRole('button', { name: 'Delete', exact: true }).click();
    await expect.poll(() => box.locator('.profiles-name').count()).toBe(before - 1);
    await page.keyboard.press('Escape');
    await undo().click();
  });

  test('a thickness that cannot be read is told, and Escape in the field keeps the dialog open', async () => {
    const box = await open('Trim', 'Profiles…', 'Profiles');
    const field = box.getByLabel('Thickness', { exact: true });
    const was = await field.inputValue();
    await field.fill('thick');
    await page.keyboard.press('Enter');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    await page.keyboard.press('Escape');
    expect(await field.inputValue()).toBe(was);
    expect(await box.isVisible()).toBe(true);
  });
});

describe('what goes where', () => {
  test('a cell, a column and a copied row are each one step', async () => {
    const box = await open('Trim', 'What goes where: room by room…', 'What goes where');
    const bases = () =>
      box
        .locator('tbody select[aria-label^="base in"]')
        .evaluateAll((all) => all.map((each) => (each as HTMLSelectElement).value));
    const before = await bases();
    await box.getByRole('combobox', { name: 'base in every room' }).selectOption({ index: 1 });
    await expect.poll(async () => new Set(await bases()).size).toBe(1);
    const [first, second] = await box
      .locator('tbody tr')
      .filter({ has: page.locator('select') })
      .all();
    await first!.locator('select').first().selectOption('/none');
    await first!.getByRole('button', { name: /^Copy/ }).click();
    await second!.getByRole('button', { name: /^Paste/ }).click();
    await expect.poll(async () => (await bases()).slice(0, 2)).toEqual(['/none', '/none']);
    await page.keyboard.press('Escape');
    for (let step = 0; step < 3; step += 1) await undo().click();
    const again = await open('Trim', 'What goes where: room by room…', 'What goes where');
    await again.waitFor();
    expect(await bases()).toEqual(before);
  });

  test('the picker says which profiles fit and why others do not, and leads back to the table', async () => {
    const box = await open('Trim', 'What goes where: room by room…', 'What goes where');
    await box
      .getByRole('button', { name: /^Which base fits in/ })
      .first()
      .click();
    const picker = dialog('Which profile fits');
    await picker.waitFor();
    expect(await picker.locator('.picker-sum').textContent()).toMatch(/^\d+ of \d+ pass every check in/);
    const failing = picker.locator('li.fails');
    if ((await failing.count()) > 0)
      expect(await failing.first().locator('.picker-why li').count()).toBeGreaterThan(0);
    expect(await axeFaults(page, 'dialog[open]')).toEqual([]);
    const use = picker.getByRole('button', { name: /^Use / }).first();
    const name = ((await use.textContent()) ?? '').replace(/^Use\s*/, '').trim();
    await use.click();
    await expect.poll(() => picker.getByRole('button', { name: `In use ${name}` }).count()).toBe(1);
    await page.keyboard.press('Escape');
    await dialog('What goes where').waitFor();
  });
});

describe('settings, stock and levels', () => {
  test('a setting is set, marked, and put back to its default', async () => {
    const box = await open('Trim', 'Job settings…', 'Job settings');
    const field = box.getByLabel('Saw kerf');
    await field.fill('3/32');
    await page.keyboard.press('Enter');
    await expect.poll(() => field.inputValue()).toContain('3⁄32');
    await box.getByRole('button', { name: /^Back to .*Saw kerf$/ }).click();
    await expect.poll(() => field.inputValue()).toBe('');
    expect(await field.getAttribute('placeholder')).toContain('1⁄8');
    await box.getByLabel('Spare').fill('2000');
    await page.keyboard.press('Enter');
    await expect.poll(() => box.getByLabel('Spare').getAttribute('aria-invalid')).toBe('true');
    expect(await box.textContent()).toContain('It goes from 0 to 1000.');
  });

  test('boards on hand are added and taken out', async () => {
    const box = await open('Trim', 'Stock on hand…', 'Stock on hand');
    const first = box.locator('fieldset').first();
    const before = await first.locator('tbody tr').count();
    await first.getByRole('button', { name: /^Add a board/ }).click();
    await expect.poll(() => first.locator('tbody tr').count()).toBe(before + 1);
    await first.getByRole('button', { name: /out$/ }).last().click();
    await expect.poll(() => first.locator('tbody tr').count()).toBe(before);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Add a board');
  });

  test('a level is added, named, moved, and deleted only when that is confirmed', async () => {
    const box = await open('Draw', 'Levels…', 'Levels');
    const levels = box.locator('.levels > li');
    const before = await levels.count();
    await box.getByRole('button', { name: 'Add a level' }).click();
    await expect.poll(() => levels.count()).toBe(before + 1);
    const added = levels.last();
    await added.getByLabel('Name').fill('Loft');
    await page.keyboard.press('Enter');
    await added.getByRole('button', { name: 'Earlier Loft' }).click();
    const loft = levels.filter({ has: page.getByRole('button', { name: 'Earlier Loft' }) });
    await expect
      .poll(() =>
        levels
          .nth(before - 1)
          .getByLabel('Name')
          .inputValue(),
      )
      .toBe('Loft');
    await loft.getByRole('button', { name: /^Delete Loft/ }).click();
    await loft.getByRole('button', { name: 'Keep it' }).click();
    expect(await levels.count()).toBe(before + 1);
    await loft.getByRole('button', { name: /^Delete Loft/ }).click();
    await loft.getByRole('button', { name: 'Delete it' }).click();
    await expect.poll(() => levels.count()).toBe(before);
  });
});
