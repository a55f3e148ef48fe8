// A carpenter's job in the window, in a real browser over the real server: four rooms from a list of sizes, profiles, a door
// at a typed distance, a base that is proud found and mended, a measured angle, the other board coped, ten steps back and
// again, the crew's PDF. The lengths it ends with were worked out by hand from the rules of trade, below.
//
// By hand. Walls are 4 1/2 in. The floor is 24 ft 4 1/2 in by 20 ft 4 1/2 in inside; less one wall each way that leaves
// 13 ft 0 + 11 ft 0 across and 9 ft 6 + 10 ft 6 down. On the 13 ft (156 in) wall a 32 in door stands 60 in from the left
// corner, its casing 2 1/4 in wide set back 3/16 in: the board on its left is 60 − 3/16 − 2 1/4 = 57 9/16 in, the one on
// its right 156 − 60 − 32 − 3/16 − 2 1/4 = 61 9/16 in. A coped end is as long at the back as the wall, a board that runs
// through too. A corner measured at 92° is sawn for its cope at (180 − 92) / 2 = 44°.

// biome-ignore-all lint/performance/useDomNodeTextContent: what is shown, with its line breaks, is what is read

import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readPdf } from '../outside/lib/pdf-reader.ts';
import { type OpenWindow, openWindow } from '../renderer/window.ts';

let w: OpenWindow;
let page: Page;
let sheet: Locator;

beforeAll(async () => {
  w = await openWindow();
  page = w.page;
  sheet = page.getByRole('application');
});
afterAll(() => w?.close());

const walk = async (): Promise<string> =>
  (await page.getByRole('navigation', { name: 'The walk' }).innerText()).replace(/\s+/g, ' ');
const proud = () => page.getByRole('button', { name: /Base proud of casing/ });
const corner = (number: number) =>
  page.getByRole('treeitem', { name: new RegExp(`^Corner ${number},`) }).first();

async function key(name: string): Promise<void> {
  await sheet.focus();
  await page.keyboard.press(name);
}

async function type(field: Locator, value: string): Promise<void> {
  await field.fill(value);
  await field.press('Enter');
}

describe('a job with lengths worked out by hand', () => {
  test('four rooms come out as the list says', async () => {
    await page.getByRole('button', { name: 'New plan in feet and inches' }).click();
    await key('b');
    const box = (await page.locator('.sheet').boundingBox())!;
    await page.mouse.click(box.x + 170, box.y + 120);
    await page.keyboard.type("24' 4 1/2");
    await page.keyboard.press('Tab');
    await page.keyboard.type("20' 4 1/2");
    await page.keyboard.press('Enter');
    await page.getByText('496.6 sq ft').first().waitFor();
    await key('f');
    // Inner faces, with the plan fitted in a window of 1280 × 800: left 353, right 908, top 161, bottom 624.
    const partition = async (from: [number, number], to: [number, number], rooms: string) => {
      await key('w');
      await page.mouse.click(...from);
      await page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
      await page.mouse.click(...to);
      await page.keyboard.press('Enter');
      await page.getByText(rooms).first().waitFor();
    };
    await partition([680, 161], [680, 624], '2 rooms');
    await partition([353, 350], [908, 350], '4 rooms');
    await key('v');
    const across = page.getByRole('textbox', { name: /^Room 1, to wall/ });
    await page.mouse.click(680, 250);
    await type(across, "13' 0");
    await sheet.focus();
    await page.mouse.click(500, 350);
    await page.getByRole('textbox', { name: /^Room 3, to wall/ }).waitFor();
    await type(across, "9' 6");
    await expect.poll(walk).toContain('Room 1 no name yet · 123.5 sq ft');
    for (const area of ['104.5', '136.5', '115.5']) expect(await walk()).toContain(`${area} sq ft`);
    for (const size of [`13' 0"`, `9' 6"`, `10' 6"`]) expect(await walk()).toContain(size);
  });

  test('profiles are made and given to every room', async () => {
    await key('p');
    const profiles = page.getByRole('dialog', { name: 'Profiles' });
    const set = (label: string, value: string) =>
      type(profiles.getByRole('textbox', { name: label, exact: true }), value);
    const add = async (kind: string) => {
      await profiles.getByLabel('Kind of the new profile').selectOption({ label: kind });
      await profiles.getByRole('button', { name: 'Add', exact: true }).click();
    };
    await add('Base');
    await set('Name', 'Tall base');
    await set('Height', '5 1/4');
    await set('Thickness', '3/4');
    await profiles.getByRole('button', { name: "Add 12' 0" }).click();
    await profiles.getByRole('button', { name: /^Add 1[46]' 0/ }).click();
    await add('Casing');
    await set('Name', 'Plain casing');
    await set('Width', '2 1/4');
    await set('Thickness', '11/16');
    await set('Edge thickness', '5/8');
    await profiles.getByRole('button', { name: 'Done', exact: true }).click();
    await key('Shift+P');
    const rooms = page.getByRole('dialog', { name: 'What goes where' });
    await rooms.getByLabel('base in every room').selectOption({ label: 'Tall base' });
    await rooms.getByRole('button', { name: 'Done', exact: true }).click();
    await page.getByRole('treeitem', { name: /^Room 1/ }).focus();
    await page.keyboard.press('*');
    await expect.poll(walk).toContain('1A 156"');
  });

  test('a door stands at its typed distance, and the boards beside it are as worked out', async () => {
    await key('d');
    await page.mouse.move(500, 162);
    await page.keyboard.type('60');
    await page.keyboard.press('Enter');
    await type(page.getByRole('textbox', { name: 'Reveal' }), '3/16');
    expect(await page.getByRole('textbox', { name: 'From corner 1, left' }).inputValue()).toBe(`5' 0"`);
    await key('Shift+P');
    const rooms = page.getByRole('dialog', { name: 'What goes where' });
    await rooms.getByLabel('casing in every room').selectOption({ label: 'Plain casing' });
    await rooms.getByRole('button', { name: 'Done', exact: true }).click();
    await expect.poll(walk).toContain('1A 57 9⁄16"');
    expect(await walk()).toContain('1B 61 9⁄16"');
  });

  test('a base found proud is mended by a click, is back by undo, and goes for good with a thinner base', async () => {
    await page.keyboard.press('Alt+3');
    await proud().first().click();
    await page.getByRole('button', { name: /^Set plinth blocks at o1/ }).click();
    await expect.poll(() => proud().count()).toBe(0);
    await page.keyboard.press('Control+z');
    await expect.poll(() => proud().count()).toBe(1);
    await key('p');
    const profiles = page.getByRole('dialog', { name: 'Profiles' });
    await profiles
      .getByRole('button', { name: /Tall base/ })
      .first()
      .click();
    await type(profiles.getByRole('textbox', { name: 'Thickness', exact: true }), '1/2');
    await profiles.getByRole('button', { name: 'Done', exact: true }).click();
    await expect.poll(() => proud().count()).toBe(0);
  });

  test('a measured angle sets the saw, and the other board is coped when the user says so', async () => {
    await corner(9).click();
    expect(await corner(9).getAttribute('aria-label')).toContain('board 5A is coped');
    const ticket = page.locator('.ticket').first();
    expect(await ticket.innerText()).toContain('44¼°');
    await type(page.getByRole('textbox', { name: 'Measured' }).first(), '92');
    await expect.poll(() => ticket.innerText()).toContain('44° off square');
    await corner(9).focus();
    await page.keyboard.press('e');
    await expect.poll(() => corner(9).getAttribute('aria-label')).toContain('board 9A is coped');
    expect(await ticket.innerText()).toContain('by your choice');
  });

  test('ten steps are taken back and done again, each named', async () => {
    const before = await walk();
    for (let i = 0; i < 10; i += 1) await page.keyboard.press('Control+z');
    await page
      .getByText(/^Undone: /)
      .first()
      .waitFor();
    expect(await walk()).not.toBe(before);
    for (let i = 0; i < 10; i += 1) await page.keyboard.press('Control+y');
    await expect.poll(walk).toBe(before);
  });

  test('the plan is saved, and the crew’s PDF holds the lengths worked out by hand', async () => {
    await page.keyboard.press('Control+s');
    const save = page.getByRole('dialog', { name: 'Save as' });
    await save.getByLabel('Name', { exact: true }).fill('job');
    await save.getByRole('button', { name: 'Save here' }).click();
    await page.getByText('Saved as job.copewright.json.').first().waitFor();
    await page.keyboard.press('Control+p');
    const box = page.getByRole('dialog', { name: 'Hand over as PDF' });
    await box.getByRole('button', { name: 'Choose where…' }).click();
    await box.getByRole('button', { name: 'Save here' }).click();
    await box.getByText(/\.pdf/).first().waitFor({ timeout: 60_000 });
    const home = join(w.folder, 'home');
    const named = async () => (await readdir(home)).find((name) => name.endsWith('.pdf'));
    await expect.poll(named, { timeout: 60_000 }).toBeDefined();
    const pdf = await readPdf(new Uint8Array(await readFile(join(home, (await named())!))));
    const said = pdf.pages
      .map(({ all }) => all)
      .join(' ')
      .replace(/\s+/g, ' ');
    for (const length of ['57 9⁄16″', '61 9⁄16″', '156″', '114″']) expect(said).toContain(length);
    expect(said).toContain('44°');
    expect(w.errors).toEqual([]);
  });
});
