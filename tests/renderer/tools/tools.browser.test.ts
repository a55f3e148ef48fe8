// Drawing as a user meets it, in a real browser: a plan by the keyboard alone, the same with the mouse, the tape walk, and
// a tape bar that keeps still.

import type { Page } from 'playwright';
import { afterEach, describe, expect, test } from 'vitest';
import { axeFaults } from '../app/axe.ts';
import { demoFile, type OpenWindow, openWindow, type WindowOptions } from '../window.ts';

let w: OpenWindow;
let page: Page;

async function open(options: WindowOptions = {}): Promise<void> {
  w = await openWindow(options);
  page = w.page;
  if (options.file == null) {
    await page.keyboard.press('Control+n');
    await page.locator('.sheet-paper').waitFor();
  }
}
afterEach(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

const walk = () => page.getByRole('tree');
const field = (name: string) => page.locator('.tape-give').getByLabel(name, { exact: true });

const focusedClass = () => page.evaluate(() => document.activeElement?.className ?? '');

async function give(...texts: readonly string[]): Promise<void> {
  for (const [i, text] of texts.entries()) {
    if (i > 0) await page.keyboard.press('Tab');
    await page.keyboard.type(text);
  }
  await page.keyboard.press('Enter');
}

/** A room 12' 4" by 10' 2" inside, by typed walls. */
async function typedRoom(): Promise<void> {
  await page.keyboard.press('F7');
  await page.keyboard.press('w');
  for (const length of [`12' 4`, `10' 2`, `12' 4`, `10' 2`]) await give(length);
  await walk().getByText('Wall 1 to 2').waitFor();
}

/** Goes down the walk to a row that begins so, opening rooms on the way, and chooses it. */
async function chooseRow(begins: string): Promise<void> {
  const focused = page.locator(':focus');
  for (let i = 0; i < 20; i++) {
    const text = (await focused.textContent()) ?? '';
    if (text.startsWith(begins)) break;
    if ((await focused.getAttribute('aria-expanded')) === 'false') await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press(' ');
}

describe('by the keyboard alone', () => {
  test('a room, two doors, a half wall and a cabinet', async () => {
    await open();
    await typedRoom();
    const texts = await walk().textContent();
    expect(texts).toMatch(/12' 4" measured.*10' 2" measured.*12' 4" measured.*10' 2" measured/);

    // Two doors on the wall chosen in the walk, by their gaps to its corners.
    await page.keyboard.press('Escape');
    await page.keyboard.press('F6');
    await chooseRow('Wall 2');
    await page.keyboard.press('d');
    await page.keyboard.press('t');
    await give(`1' 6`);
    await walk().getByText('Door o1').waitFor();
    await page.keyboard.press('t');
    await give('', `1' 6`);
    await walk().getByText('Door o2').waitFor();

    // What was given is done: keys are the sheet's again. In an empty field Ctrl+Z takes back the door, not a letter.
    expect(await focusedClass()).toContain('sheet-paper');
    await page.keyboard.press('t');
    await page.keyboard.press('Control+z');
    await walk().getByText('Door o2').waitFor({ state: 'detached' });
    await page.keyboard.press('Control+y');
    await walk().getByText('Door o2').waitFor();

    // A half wall by the cross.
    await page.keyboard.press('F7');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Shift+W');
    for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await expect.poll(() => walk().textContent()).toContain('124.5 sq ft');

    // A cabinet on the first wall.
    await page.keyboard.press('Escape');
    await page.keyboard.press('F6');
    await page.keyboard.press('Home');
    await chooseRow('Wall 1');
    await page.keyboard.press('c');
    await page.keyboard.press('t');
    await give('6');
    await walk().getByText('Cabinet b1').waitFor();
  });

  test('a refusal is one sentence in the tape bar, and what was typed stays', async () => {
    await open();
    await page.keyboard.press('F7');
    await page.keyboard.press('w');
    await page.keyboard.type('1 furlong');
    await page.keyboard.press('Enter');
    expect(await page.locator('.tape-words').textContent()).toMatch(/furlong|“f”/);
    expect(await field('Length').inputValue()).toBe('1 furlong');
    await page.keyboard.press('Escape');
    expect(await field('Length').inputValue()).toBe('');
  });

  test('a tape walk: Enter adds a row, the miss is shown, Ctrl+Enter draws the room', async () => {
    await open();
    await page.keyboard.press('Control+t');
    const dialog = page.getByRole('dialog', { name: 'Tape walk' });
    await dialog.waitFor();
    for (const length of [`12' 4`, `10' 2`, `12' 4 1/2`, `10' 1 3/4`]) await give(length);
    await expect.poll(() => dialog.textContent()).toMatch(/1 in \d+ of the way round/);
    expect(await axeFaults(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+t');
    expect(await dialog.getByLabel('Length of wall 3').inputValue()).toBe(`12' 4 1/2`);
    await page.keyboard.press('Control+Enter');
    await dialog.waitFor({ state: 'hidden' });
    await walk().getByText('Wall 1 to 2').waitFor();
    expect(await walk().textContent()).toContain(`12' 4 1⁄2" measured`);
  });
});

describe('with the mouse', () => {
  test('a wall is dragged, its length changes, undo puts it back', async () => {
    await open();
    await typedRoom();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.keyboard.press('f');
    await page.waitForTimeout(300);
    const paper = (await page.locator('.sheet-paper').boundingBox())!;
    const y = paper.y + paper.height * 0.4;
    let x = paper.x + paper.width - 4;
    const chosen = field('Clear on its right');
    for (; x > paper.x + paper.width / 2 && (await chosen.count()) === 0; x -= 6)
      await page.mouse.click(x, y);
    expect(await chosen.getAttribute('placeholder')).toBe(`12' 4"`);
    x += 6;
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 120, y + 4, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => chosen.getAttribute('placeholder')).not.toBe(`12' 4"`);
    await page.keyboard.press('Control+z');
    await expect.poll(() => chosen.getAttribute('placeholder')).toBe(`12' 4"`);
  });

  test('the tape bar keeps still while the pointer moves over the sheet', async () => {
    await open({ file: demoFile('larkspur-house') });
    await page.locator('.sheet-canvas').waitFor();
    const tall = (await page.locator('.tape').boundingBox())!.height;
    for (const tool of [
      'Draw walls',
      'Draw a room by two corners',
      'Draw a half wall',
      'Place a door, window or opening',
    ]) {
      await page.getByRole('toolbar', { name: 'Tools' }).getByRole('button', { name: tool }).click();
      const paper = (await page.locator('.sheet-paper').boundingBox())!;
      const parts = page.locator('.tape input, .tape select, .tape button');
      const boxes = async () =>
        JSON.stringify(
          await parts.evaluateAll((all) => all.map((each) => each.getBoundingClientRect().toJSON())),
        );
      await page.mouse.move(paper.x + 300, paper.y + 250);
      await page.waitForTimeout(60);
      expect((await page.locator('.tape').boundingBox())!.height, `${tool}: one row`).toBe(tall);
      const before = await boxes();
      for (let i = 1; i <= 12; i++) {
        await page.mouse.move(paper.x + 300 + i * 17, paper.y + 250 + i * 9);
        await page.waitForTimeout(30);
        expect(await boxes(), tool).toBe(before);
      }
    }
    expect(await axeFaults(page)).toEqual([]);
  });
});
