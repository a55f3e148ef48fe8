// What the fields of dialogs and tickets do with what cannot be: it stays in the field with one sentence in the plan's
// units, and nothing that was typed goes without a word. In the built window over the real server.

import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

let w: OpenWindow;
let page: Page;

beforeAll(async () => {
  w = await openWindow({ file: demoFile('thimble-cottage'), unstocked: true });
  page = w.page;
  await page.getByRole('tree', { name: 'The walk' }).waitFor();
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

async function open(menu: string, item: string, title: string): Promise<Locator> {
  await page.getByRole('menuitem', { name: menu, exact: true }).click();
  await page.getByRole('menu').getByText(item, { exact: true }).click();
  const box = page.getByRole('dialog', { name: title });
  await box.waitFor();
  return box;
}

const notices = (): Promise<string[]> => page.locator('.notice').allTextContents();
async function clearNotices(): Promise<void> {
  const dismiss = page.locator('.notice').getByRole('button');
  while ((await dismiss.count()) > 0) await dismiss.first().click();
}
const row = (name: RegExp) => page.getByRole('tree', { name: 'The walk' }).getByRole('treeitem', { name });
/** What is said of a field, by whoever it names as its description. */
const saidOf = (field: Locator): Promise<string> =>
  field.evaluate(
    (input) => document.getElementById(input.getAttribute('aria-describedby') ?? '')?.textContent ?? '',
  );

/**
 * Types something into every field for text and leaves it. Whatever is refused keeps its text and has a sentence of its own;
 * nobody is told of files, and of millimetres only where the plan is in them.
 */
async function tryAll(within: Locator, text: string): Promise<{ refused: string[]; taken: number }> {
  // What is typed into the last row of a list of readings makes another one.
  const fields = within.locator(
    '.field input[inputmode]:not(:disabled, .ticket-reading-next *, .ticket-reading *)',
  );
  const refused: string[] = [];
  let taken = 0;
  for (let at = 0; at < (await fields.count()); at += 1) {
    const field = fields.nth(at);
    await field.fill(text);
    await field.press('Enter');
    if ((await field.getAttribute('aria-invalid')) !== 'true') {
      taken += 1;
      continue;
    }
    expect(await field.inputValue()).toBe(text);
    const said = await saidOf(field);
    expect(said).toMatch(/^[A-Z“].*\.$/);
    expect(said).not.toMatch(/no file|cannot be kept|\bmm\b|\bnumber to be\b/);
    refused.push(said);
    await field.press('Escape');
    expect(await field.getAttribute('aria-invalid')).not.toBe('true');
  }
  expect((await notices()).join(' ')).not.toMatch(/no file|cannot be kept|\bmm\b/);
  return { refused, taken };
}

describe('a length or an angle that cannot be', () => {
  test('in job settings is refused in the field, and the dialog stays', async () => {
    const box = await open('Trim', 'Job settings…', 'Job settings');
    const { refused } = await tryAll(box.locator('.settings-group:not(:first-child)'), '-1');
    expect(refused).toContain('Shortest board to cope must be at least 0.');
    expect(refused).toContain('Shims come in must be more than 0.');
    expect(refused.length).toBeGreaterThan(20);
    const saw = box.getByLabel('Saw swings to', { exact: true });
    await saw.fill('200');
    await saw.press('Tab');
    expect(await saidOf(saw)).toBe('Saw swings to must be at least 0 and at most 180°.');
    expect(await saw.inputValue()).toBe('200');
    await saw.press('Escape');
    expect(await box.isVisible()).toBe(true);
    const studs = box.getByLabel('Stud spacing');
    await studs.fill('0');
    await studs.press('Enter');
    expect(await saidOf(studs)).toMatch(/^Stud spacing must be more than 0 and at most 120"\.$/);
    await studs.press('Escape');
    const year = box.getByLabel('Year built');
    await year.fill('9999');
    await year.press('Enter');
    expect(await saidOf(year)).toMatch(/^“9999” is no year a house was built in: .*, as in 1962\.$/);
    await year.press('Escape');
    await page.keyboard.press('Escape');
    await box.waitFor({ state: 'detached' });
  });

  test('in profiles is refused in the field, of every kind, and so is an id', async () => {
    const box = await open('Trim', 'Profiles…', 'Profiles');
    for (let at = 0; at < (await box.locator('.profiles-name').count()); at += 1) {
      await box.locator('.profiles-name').nth(at).click();
      const kind = await box.getByLabel('Kind', { exact: true }).inputValue();
      for (const name of ['Height', 'Width', 'Thickness', 'Drop', 'Projection', 'Length 1']) {
        const field = box.getByLabel(name, { exact: true });
        if ((await field.count()) === 0) continue;
        for (const text of ['0', '-2']) {
          await field.fill(text);
          await field.press('Tab');
          expect(await saidOf(field), kind).toBe(`${name} must be more than 0.`);
          expect(await field.inputValue()).toBe(text);
        }
        await field.press('Escape');
      }
    }
    const id = box.getByLabel('Id', { exact: true });
    await id.fill('1 no id');
    await id.press('Enter');
    expect(await saidOf(id)).toBe('A letter, then at most 39 letters, digits, “-” or “_”.');
    expect(await id.inputValue()).toBe('1 no id');
    await id.press('Escape');
    expect(await box.isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    await box.waitFor({ state: 'detached' });
  });

  test('a crown without the sizes it needs is refused in the field, in words', async () => {
    const box = await open('Trim', 'Profiles…', 'Profiles');
    await box.getByRole('combobox', { name: 'Kind of the new profile' }).selectOption('crown');
    await box.getByRole('button', { name: 'Add', exact: true }).click();
    const [spring, drop] = [
      box.getByRole('textbox', { name: 'Spring angle' }),
      box.getByRole('textbox', { name: 'Drop' }),
    ];
    await spring.fill('');
    await spring.press('Enter');
    await drop.fill('');
    await drop.press('Enter');
    expect(await saidOf(drop)).toMatch(/a crown needs projection and drop, or spring angle and one of/);
    await drop.press('Escape');
    await clearNotices();
    await box.getByRole('button', { name: 'Delete', exact: true }).click();
    await page.keyboard.press('Escape');
    await box.waitFor({ state: 'detached' });
  });

  test.each([
    ['the plan', null],
    ['a corner', /^Corner 1,/],
    ['a wall’s face', /^Wall, corner 1 to 2/],
    ['a board', /^Board 2A,/],
    ['an opening', /^Window/],
    ['a built-in', /^(Cabinet|Hearth|Tub|Radiator|Stair|Column)/],
    ['a mark', /^(Outlet|Register)/],
    ['a room', /^Bedroom/],
  ] as const)('in the ticket of %s is refused in the field', async (_, name) => {
    if (name === null) {
      await page.locator('[data-zone="sheet"]').focus();
      await page.keyboard.press('Escape');
      await page.keyboard.press('Escape');
    } else await row(name).first().click();
    const ticket = page.locator('.ticket');
    const { refused } = await tryAll(ticket, 'abc');
    expect(refused.length).toBeGreaterThan(0);
    await tryAll(ticket, '-1');
  });

  test('a top below its bottom is said in the plan’s units', async () => {
    await row(/^(Outlet|Register)/)
      .first()
      .click();
    const top = page.getByLabel('Top', { exact: true });
    for (const [field, text] of [
      [top, '12'],
      [page.getByLabel('Bottom', { exact: true }), '6'],
    ] as const) {
      await field.fill(text);
      await field.press('Enter');
    }
    await top.fill('2');
    await top.press('Enter');
    expect(await saidOf(top)).toBe('Top must be at least 6": its bottom is there.');
    await top.press('Escape');
  });
});

describe('what is half typed', () => {
  test('and bad is told as not taken when another thing is chosen', async () => {
    await row(/^Corner 1,/)
      .first()
      .click();
    await page.getByLabel('Measured', { exact: true }).fill('abc');
    await row(/^Corner 2,/)
      .first()
      .click();
    await expect.poll(notices).toContainEqual(expect.stringContaining('Measured: “abc” was not taken. '));
    expect((await notices()).filter((each) => each.includes('“abc”'))).toHaveLength(1);
    await clearNotices();
  });

  test('and good is taken without a word', async () => {
    await row(/^Corner 1,/)
      .first()
      .click();
    await page.getByLabel('Measured', { exact: true }).fill('91.5');
    await row(/^Corner 2,/)
      .first()
      .click();
    await expect.poll(() => row(/^Corner 1, inside 91.5°/).count()).toBe(1);
    expect((await notices()).filter((each) => each.includes('91.5'))).toEqual([]);
  });

  test('and bad is told as not taken when its dialog is closed', async () => {
    const box = await open('Trim', 'Job settings…', 'Job settings');
    await box.getByLabel('Saw kerf').fill('wide');
    await box.getByRole('button', { name: 'Done' }).click();
    await expect.poll(notices).toContainEqual(expect.stringContaining('Saw kerf: “wide” was not taken. '));
  });
});

describe('a name of spaces alone', () => {
  const SAID = /cannot be spaces alone: type some words, or leave it empty\.$/;

  test('is refused for a room, a level, a profile and the plan, and what stood there stays', async () => {
    await row(/^Bedroom/)
      .first()
      .click();
    const name = page.locator('.ticket').getByLabel('Name', { exact: true });
    await name.fill('   ');
    await name.press('Enter');
    expect(await saidOf(name)).toMatch(SAID);
    await name.press('Escape');
    expect(await name.inputValue()).toBe('Bedroom');

    for (const [menu, item, title, label] of [
      ['Draw', 'Levels…', 'Levels', 'Name'],
      ['Trim', 'Profiles…', 'Profiles', 'Name'],
      ['Trim', 'Job settings…', 'Job settings', 'Title'],
    ] as const) {
      const box = await open(menu, item, title);
      const field = box.getByLabel(label, { exact: true }).first();
      const was = await field.inputValue();
      await field.fill('  ');
      await field.press('Enter');
      expect(await saidOf(field), title).toMatch(SAID);
      await field.press('Escape');
      expect(await field.inputValue()).toBe(was);
      await field.fill(`  ${was} two `);
      await field.press('Enter');
      await expect.poll(() => field.inputValue()).toBe(`${was} two`);
      await page.keyboard.press('Escape');
      await box.waitFor({ state: 'detached' });
    }

    const title = page.getByRole('textbox', { name: 'Title of the plan' });
    await title.fill('  ');
    await title.press('Enter');
    expect(await title.inputValue()).toBe('  ');
    await expect
      .poll(notices)
      .toContainEqual(expect.stringContaining('The title of the plan needs some words'));
    await title.press('Escape');
    expect((await title.inputValue()).endsWith(' two')).toBe(true);
  });
});
