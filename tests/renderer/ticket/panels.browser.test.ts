// Walk, ticket and survey as a user of the keyboard meets them, in the built window over the real server.

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeFaults } from '../app/axe.ts';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

let w: OpenWindow;
let page: Page;

beforeAll(async () => {
  w = await openWindow({ file: demoFile('larkspur-house'), unstocked: true });
  page = w.page;
  await tree().waitFor();
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

const tree = () => page.getByRole('tree', { name: 'The walk' });
const row = (name: RegExp) => tree().getByRole('treeitem', { name });
const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);
const heading = () => page.locator('#ticket-title');
const press = (key: string) => page.keyboard.press(key);
/** Everything chosen is let go, and the sheet has the keyboard. */
async function letGo(): Promise<void> {
  await page.locator('[data-zone="sheet"]').focus();
  await press('Escape');
  await press('Escape');
}

describe('the walk by the keyboard', () => {
  test('has one tab stop, opens and closes, and finds a corner by its number', async () => {
    expect(await tree().locator('[tabindex="0"]').count()).toBe(1);
    await press('F6');
    expect(await focused()).toMatch(/^Level Ground floor, 9 rooms/);
    await press('ArrowDown');
    expect(await focused()).toMatch(/^Study/);
    const study = row(/^Study,/);
    expect(await study.getAttribute('aria-expanded')).toBe('true');
    await press('ArrowLeft');
    expect(await study.getAttribute('aria-expanded')).toBe('false');
    await press('ArrowRight');
    await press('ArrowRight');
    expect(await focused()).toMatch(/^Corner 1, inside 90°, cope: board 1A is coped/);
    await press('3');
    expect(await focused()).toMatch(/^Corner 3, inside/);
    expect(await tree().locator('[tabindex="0"]').count()).toBe(1);
    await press('End');
    await press('Home');
    expect(await focused()).toMatch(/^Level Ground floor/);
  });

  test('a row that the keyboard goes to is never hidden under the head of the walk', async () => {
    await press('F6');
    await press('End');
    for (const key of ['2', 'Home', 'End', '5']) {
      await page.waitForTimeout(1000);
      await press(key);
      const covered = () =>
        page.evaluate(() => {
          const head = document.querySelector('.walk-head')!.getBoundingClientRect();
          return head.bottom - document.activeElement!.getBoundingClientRect().top;
        });
      await expect.poll(covered, { message: key }).toBeLessThanOrEqual(0);
    }
    await press('Home');
  });

  test('Space chooses, Shift chooses several, Enter goes to the ticket and Escape comes back', async () => {
    await press('F6');
    await press('1');
    await press(' ');
    expect(await row(/^Corner 1,/).getAttribute('aria-selected')).toBe('true');
    expect(await heading().textContent()).toBe('Corner 1, inside');
    await press('Shift+ArrowDown');
    await press('Shift+ArrowDown');
    expect(await heading().textContent()).toBe('3 things chosen');
    expect(await tree().locator('[aria-selected="true"]').count()).toBe(3);
    await press('2');
    const now = await page.evaluate(() => {
      const enter = new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true });
      document.activeElement?.dispatchEvent(enter);
      return document.activeElement?.id;
    });
    expect(now).toBe('ticket-title');
    expect(await heading().textContent()).toBe('Corner 2, inside');
    await press('Tab');
    await press('Escape');
    expect(await focused()).toMatch(/^Corner 2, inside/);
  });

  test('copes the other board, lets the rule have it back, and undoes both', async () => {
    await press('F6');
    await press('2');
    await press(' ');
    const name = await focused();
    expect(name).toMatch(/cope: board 2A is coped/);
    await press('e');
    await expect.poll(focused).toMatch(/^Corner 2, .*cope: board 1\w is coped/);
    await press('r');
    await expect.poll(focused).toBe(name);
    await press('Control+z');
    await expect.poll(focused).toMatch(/cope: board 1\w is coped/);
    await press('Control+z');
    await expect.poll(focused).toBe(name);
  });

  test('goes from corner to corner with the bracket keys', async () => {
    await press('F6');
    await press('1');
    await press(' ');
    await press(']');
    expect(await heading().textContent()).toBe('Corner 2, inside');
    await press(']');
    await press('[');
    await press('[');
    expect(await heading().textContent()).toBe('Corner 1, inside');
  });

  test('a row that is deleted leaves the focus beside it, and undo brings it back', async () => {
    const names = () =>
      tree()
        .getByRole('treeitem')
        .evaluateAll((all) => all.map((each) => each.getAttribute('aria-label') ?? ''));
    const before = await names();
    const door = before.findIndex((name) => /^Door o/.test(name));
    await tree().getByRole('treeitem').nth(door).focus();
    await press(' ');
    await press('Delete');
    const title = (name: string | null | undefined) => name?.split(',')[0];
    await expect.poll(async () => title(await focused())).not.toBe(title(before[door]));
    // The boards at its sides become one: what is left of its wall is near.
    const now = await names();
    expect(Math.abs(now.indexOf((await focused()) ?? '') - door)).toBeLessThanOrEqual(2);
    const there = await focused();
    await press('ArrowDown');
    expect(await focused()).toBe(now[now.indexOf(there ?? '') + 1]);
    await press('Control+z');
    await expect.poll(focused).toBe(before[door]);
  });

  test('shows only what is asked for, with what is above it', async () => {
    const find = page.getByLabel('Find in the walk');
    await find.fill('hall corner cope:');
    await expect.poll(() => tree().getByRole('treeitem').count()).toBeLessThan(20);
    const names = await tree()
      .getByRole('treeitem')
      .evaluateAll((all) => all.map((each) => each.getAttribute('aria-label') ?? ''));
    expect(names.filter((each) => each.startsWith('Hall,'))).toHaveLength(1);
    expect(names.some((each) => /^Corner \d+, .*cope/.test(each))).toBe(true);
    expect(names.some((each) => each.startsWith('Study'))).toBe(false);
    await press('ArrowDown');
    expect(await focused()).not.toBe('Find in the walk');
    await find.fill('');
  });

  test('opens and shows what is chosen elsewhere', async () => {
    await letGo();
    const pencil = page.locator('[data-zone="pencil"]');
    await pencil.getByRole('button', { name: /Next/ }).first().click();
    await expect.poll(() => tree().locator('[aria-selected="true"]').count()).toBeGreaterThan(0);
    const seen = await tree().locator('[aria-selected="true"]').first().isVisible();
    expect(seen).toBe(true);
  });
});

describe('the ticket', () => {
  const choose = async (name: RegExp): Promise<void> => {
    await row(name).first().click();
  };

  test('an angle is typed, told as measured, refused with a sentence when it is none, and taken back', async () => {
    await choose(/^Corner 1,/);
    const field = page.getByLabel('Measured', { exact: true });
    await field.fill('200');
    await field.press('Enter');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await field.inputValue()).toBe('200');
    await expect.poll(() => page.locator('.ticket .wrong').first().textContent()).toMatch(/at most 180/);
    await field.fill('91 1/2');
    await field.press('Enter');
    await expect.poll(() => row(/^Corner 1, inside 91.5°/).count()).toBe(1);
    expect(await page.locator('.ticket').textContent()).not.toContain('Build-up allowed');
    await field.fill('');
    await field.press('Enter');
    await expect.poll(() => row(/^Corner 1, inside 90°/).count()).toBe(1);
  });

  test('a length of nothing is refused in the field, in words of the trade', async () => {
    await choose(/^Wall, corner 1 to 2/);
    const field = page.getByLabel('Measured', { exact: true });
    await field.fill('0');
    await field.press('Enter');
    await expect
      .poll(() => page.locator('.ticket .wrong').first().textContent())
      .toBe('Measured must be more than 0.');
    await field.press('Escape');
    expect(await field.inputValue()).toBe('');
  });

  test('a joint is chosen, shown as set by the user, and goes back to the rule', async () => {
    await choose(/^Corner 1,/);
    await page.getByLabel('Joint', { exact: true }).selectOption({ label: 'mitre' });
    await expect.poll(() => row(/^Corner 1, inside 90°, mitre/).count()).toBe(1);
    expect(await page.getByText('set by you').count()).toBe(1);
    await page.getByRole('button', { name: 'Back to the rule' }).click();
    await expect.poll(() => row(/^Corner 1, inside 90°, cope/).count()).toBe(1);
  });

  test('a measured length is typed on the board, and its length follows', async () => {
    await choose(/^Board 2A,/);
    const before = await row(/^Board 2A,/).getAttribute('aria-label');
    await page.getByLabel('Measured', { exact: true }).fill('119 1/2');
    await page.getByLabel('Measured', { exact: true }).press('Enter');
    await expect.poll(() => row(/^Board 2A,.*, measured$/).count()).toBe(1);
    expect(await row(/^Board 2A,/).getAttribute('aria-label')).not.toBe(before);
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect.poll(() => row(/^Board 2A,/).getAttribute('aria-label')).toBe(before);
  });

  test('a door moves to where its distance from a corner is typed', async () => {
    await choose(/^Door o6,/);
    const field = page.getByLabel(/^From corner 2, left/);
    const before = await field.inputValue();
    await field.fill(`9' 6"`);
    await field.press('Enter');
    await expect.poll(() => page.getByLabel(/^From corner 2, left/).inputValue()).toBe(`9' 6"`);
    await page.getByLabel(/^From corner 2, left/).fill(`40'`);
    await page.getByLabel(/^From corner 2, left/).press('Enter');
    expect(await page.getByLabel(/^From corner 2, left/).inputValue()).toBe(`40'`);
    expect(await page.getByLabel(/^From corner 2, left/).getAttribute('aria-invalid')).toBe('true');
    await page.getByLabel(/^From corner 2, left/).press('Escape');
    await page.getByLabel(/^From corner 2, left/).fill(before);
    await page.getByLabel(/^From corner 2, left/).press('Enter');
    await expect.poll(() => page.getByLabel(/^From corner 2, left/).inputValue()).toBe(before);
    // A wider door stays about its middle.
    const gaps = () =>
      Promise.all(
        [/^From corner 2, left/, /^From corner 3, right/].map((each) => page.getByLabel(each).inputValue()),
      );
    expect(await gaps()).toEqual([`10' 2 3⁄4"`, `9 3⁄4"`]);
    await page.getByTitle('Width: its middle stays where it is').fill(`2' 8"`);
    await page.getByTitle('Width: its middle stays where it is').press('Enter');
    await expect.poll(gaps).toEqual([`10' 1 3⁄4"`, `8 3⁄4"`]);
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect.poll(gaps).toEqual([`10' 2 3⁄4"`, `9 3⁄4"`]);
  });

  test('every kind of ticket passes the accessibility checker', async () => {
    for (const name of [
      /^Corner 1,/,
      /^Board 1A,/,
      /^Wall, corner 1 to 2/,
      /^Door o6,/,
      /^Radiator/,
      /^Outlet/,
      /^Study,/,
    ]) {
      await choose(name);
      expect(await axeFaults(page), String(name)).toEqual([]);
    }
    await row(/^Corner 1,/).click();
    await row(/^Corner 2,/).click({ modifiers: ['ControlOrMeta'] });
    expect(await heading().textContent()).toBe('2 things chosen');
    expect(await axeFaults(page), 'several').toEqual([]);
  });
});

describe('the survey', () => {
  test('is typed down from field to field, a refused figure keeps the focus, and what is missing gets less', async () => {
    await letGo();
    await press('Alt+1');
    await page.getByRole('heading', { name: 'Survey' }).waitFor();
    await page.getByLabel('Room', { exact: true }).selectOption({ index: 2 });
    const missing = async () =>
      Number(
        /(\d+) figures? missing/.exec((await page.locator('.measure-title').textContent()) ?? '')?.[1] ?? 0,
      );
    const before = await missing();
    const angles = page.locator('.measure-list').getByLabel(/^Corner \d+, .*angle$/);
    const first = angles.first();
    await first.focus();
    const was = await first.inputValue();
    expect(was).toBe('');
    await page.keyboard.type('ninety');
    await press('Enter');
    await expect.poll(() => first.getAttribute('aria-invalid')).toBe('true');
    expect(await first.evaluate((field) => field === document.activeElement)).toBe(true);
    await press('Control+a');
    await page.keyboard.type('97');
    await press('Enter');
    await expect
      .poll(() =>
        page.evaluate(() => document.activeElement?.closest('.field')?.querySelector('label')?.textContent),
      )
      .toMatch(/^Wall \d+ to \d+, corner to corner/);
    expect(await missing()).toBe(before - 1);
    expect(await page.locator('.measure-row').first().locator('.measure-odd').textContent()).toContain('+7°');
    expect(await axeFaults(page)).toEqual([]);
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect.poll(missing).toBe(before);
    await press('Alt+2');
  });

  test('readings down from the laser are kept with their sign turned, and Enter goes on to the next', async () => {
    await press('Alt+1');
    await page.getByLabel('Floor', { exact: true }).check();
    const at = page.getByLabel(/^Next Wall 1 to 2, floor, from the left/);
    await page.getByLabel('Room', { exact: true }).selectOption({ index: 0 });
    await at.focus();
    for (const text of ['0', '40', '48', '40 1/8']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await expect.poll(() => page.getByLabel('Wall 1 to 2, floor 2, down').inputValue()).toBe('40 1⁄8"');
    expect(await at.evaluate((field) => field === document.activeElement)).toBe(true);
    await press('Alt+2');
    await row(/^Wall, corner 1 to 2/).click();
    expect(await page.getByLabel('floor reading 2, height').inputValue()).toBe('−40 1⁄8"');
  });
});

describe('a house whose rooms have no names', () => {
  let bare: OpenWindow;
  let folder: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'copewright-bare-'));
    const plan = JSON.parse(await readFile(demoFile('thimble-cottage'), 'utf8')) as { levels: object[] };
    const file = join(folder, 'bare.copewright.json');
    await writeFile(
      file,
      JSON.stringify({ ...plan, levels: plan.levels.map((level) => ({ ...level, rooms: {} })) }),
    );
    bare = await openWindow({ file });
  });
  afterAll(async () => {
    const { errors } = bare;
    await bare.close();
    await rm(folder, { recursive: true });
    expect(errors).toEqual([]);
  });

  test('says so, and the room stays chosen when its first figure and then its name are typed', async () => {
    const rooms = bare.page.getByRole('treeitem', { name: /^Room 1, no name yet/ });
    await rooms.click();
    expect(await bare.page.locator('#ticket-title').textContent()).toBe('Room 1');
    const height = bare.page.getByLabel('Old base height', { exact: true });
    await height.fill('3 1/2');
    await height.press('Enter');
    await expect.poll(() => height.inputValue()).toBe('3 1⁄2"');
    expect(await bare.page.locator('#ticket-title').textContent()).toBe('Room 1');
    const name = bare.page.locator('.ticket').getByLabel('Name', { exact: true });
    await name.fill('Parlour');
    await name.press('Enter');
    await expect.poll(() => bare.page.locator('#ticket-title').textContent()).toBe('Parlour');
    expect(await bare.page.getByRole('treeitem', { name: /^Parlour,/ }).getAttribute('aria-selected')).toBe(
      'true',
    );
    await bare.page.getByRole('button', { name: /^Undo/ }).first().click();
    await bare.page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect.poll(() => rooms.count()).toBe(1);
  });

  test('stays in the strip and in the profile picker through its first record, undo and redo', async () => {
    const { page } = bare;
    await page.keyboard.press('Alt+3');
    await page.keyboard.press('F7');
    await page.keyboard.press('Alt+S');
    const strip = page.locator('.strip-head select').first();
    await strip.selectOption({ label: 'Room 2' });
    await page.keyboard.press('F7');
    await page.keyboard.press('Escape');
    const inStrip = () => strip.evaluate((list: HTMLSelectElement) => list.selectedOptions[0]?.textContent);
    await expect.poll(() => page.getByRole('treeitem', { selected: true }).count()).toBe(0);
    expect(await inStrip()).toBe('Room 2');

    await page.keyboard.press('Control+k');
    await page.keyboard.type('which profile');
    await page.keyboard.press('Enter');
    const picker = page.getByRole('dialog', { name: 'Which profile fits' });
    await picker.getByLabel('Room').first().selectOption({ label: 'Room 2' });
    const sum = picker.locator('.picker-sum');
    await expect.poll(() => sum.textContent()).toMatch(/in Room 2\.$/);
    const inUse = picker.getByRole('button', { name: /^In use/ });
    await picker.getByRole('button', { name: /^Use / }).first().click();
    for (const [key, count] of [
      [null, 1],
      ['Control+z', 0],
      ['Control+Shift+Z', 1],
    ] as const) {
      if (key !== null) await page.keyboard.press(key);
      await expect.poll(() => inUse.count(), { message: String(key) }).toBe(count);
      expect(await sum.textContent(), String(key)).toMatch(/in Room 2\.$/);
      expect(await inStrip(), String(key)).toBe('Room 2');
    }
    await page.keyboard.press('Escape');
    await picker.waitFor({ state: 'detached' });
    await page.keyboard.press('Control+z');
    // A corner of the room chosen is as good as the room.
    await page.getByRole('treeitem', { name: /^Room 2/ }).press('ArrowDown');
    await page.keyboard.press(' ');
    await page.getByRole('treeitem', { name: /^Corner/, selected: true }).waitFor();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('which profile');
    await page.keyboard.press('Enter');
    await expect.poll(() => sum.textContent()).toMatch(/in Room 2\.$/);
    await page.keyboard.press('Escape');
    await picker.waitFor({ state: 'detached' });
    await page.keyboard.press('F7');
    await page.keyboard.press('Alt+S');
  });
});
