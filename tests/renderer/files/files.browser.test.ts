// Plans and files as a user of the browser form meets them: the built window, the real server, real files.

import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { demoFile, type WindowOptions } from '../window.ts';
import { dropOn, openForFiles, planAt, type Use } from './use.ts';

const HOSTILE = '<img src=x onerror="document.title=1"> & "Yard" \u202e';
let use: Use;
let page: Page;

async function open(options: WindowOptions = {}): Promise<void> {
  use = await openForFiles(options);
  page = use.page;
}
const dialog = (title: string) => use.dialog(title);
const titleField = () => use.titleField();
const atHome = (name: string): string => use.atHome(name);
const rename = (title: string) => use.rename(title);
const wallsAt = async (path: string): Promise<number> => {
  const { levels } = (await planAt(path)) as { levels: { walls: object }[] };
  return levels.reduce((sum, { walls }) => sum + Object.keys(walls).length, 0);
};

/** A room of four walls, by two clicks on the sheet. */
async function drawRoom(): Promise<void> {
  await page.locator('.empty-plan').getByRole('button', { name: 'Draw a room by two corners' }).click();
  const box = (await page.locator('.sheet').boundingBox())!;
  await page.mouse.click(box.x + box.width * 0.3, box.y + box.height * 0.3);
  await page.mouse.move(box.x + box.width * 0.5, box.y + box.height * 0.5);
  await page.mouse.click(box.x + box.width * 0.6, box.y + box.height * 0.6);
}

async function saveAsNamed(name: string): Promise<void> {
  const box = dialog('Save as');
  await box.getByLabel('Name', { exact: true }).fill(name);
  await box.getByRole('button', { name: 'Save here' }).click();
}

afterEach(async () => {
  const { errors } = use.w;
  await use.w.close();
  expect(errors).toEqual([]);
});

describe('from an empty window', () => {
  beforeEach(() => open());

  test('a plan is drawn, saved under a name, closed, and opened again as it was', async () => {
    await page.getByRole('button', { name: 'New plan in feet and inches' }).click();
    await drawRoom();
    await rename(HOSTILE);
    await page.getByText('In no file yet').waitFor();
    expect(await page.title()).toBe(`• ${HOSTILE} – Copewright`);

    await page.keyboard.press('Control+s');
    await saveAsNamed('yard');
    await page.getByText('Saved as yard.copewright.json.').waitFor();
    expect(await wallsAt(atHome('yard.copewright.json'))).toBe(4);
    expect(await planAt(atHome('yard.copewright.json'))).toMatchObject({ title: HOSTILE });
    expect(await page.title()).toBe(`${HOSTILE} – Copewright`);

    await use.menu('File', 'Close plan');
    await page.getByRole('button', { name: 'Open a plan…' }).click();
    await dialog('Open a plan').getByRole('button', { name: 'Plan yard.copewright.json' }).dblclick();
    await page.getByText('Saved', { exact: true }).waitFor();
    expect(await titleField().inputValue()).toBe(HOSTILE);
    expect(await page.locator('img').count()).toBe(0);
  });

  test('a name that is taken is written over only when the user says so', async () => {
    const taken = atHome('taken.copewright.json');
    await writeFile(taken, 'not ours');
    await page.getByRole('button', { name: 'New plan in feet and inches' }).click();
    await page.keyboard.press('Control+Shift+S');
    await saveAsNamed('taken');
    await dialog('Save as').locator('form').getByText('taken.copewright.json is there already.').waitFor();
    expect(await readFile(taken, 'utf8')).toBe('not ours');
    await page.getByRole('button', { name: 'Replace it' }).click();
    await page.getByText('Saved as taken.copewright.json.').waitFor();
    expect(await planAt(taken)).toMatchObject({ format: 'copewright-plan' });
  });

  test('Enter given before the folder was read is done once it is', async () => {
    await page.getByRole('button', { name: 'New plan in feet and inches' }).click();
    await page.locator('.sheet-paper').waitFor();
    await page.route('**/*', async (route) => {
      const request = route.request();
      if (/places/.test(request.url() + (request.postData() ?? '')))
        await new Promise((done) => setTimeout(done, 700));
      await route.continue();
    });
    await page.keyboard.press('Control+Shift+S');
    await dialog('Save as').waitFor();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('quick');
    await page.keyboard.press('Enter');
    await page.getByText('Saved as quick.copewright.json.').waitFor();
    expect(await planAt(atHome('quick.copewright.json'))).toMatchObject({ format: 'copewright-plan' });
  });

  test('a name with a slash, or one far too long, is refused in the dialog, and what was typed stays', async () => {
    await page.getByRole('button', { name: 'New plan in feet and inches' }).click();
    await page.keyboard.press('Control+s');
    await saveAsNamed('../outside');
    await dialog('Save as').locator('form').getByText('A name holds no / and no \\').waitFor();
    expect(await dialog('Save as').getByLabel('Name', { exact: true }).inputValue()).toBe('../outside');
    expect(existsSync(join(use.w.folder, 'outside.copewright.json'))).toBe(false);
    await dialog('Save as').getByLabel('Name', { exact: true }).fill('x'.repeat(40_000));
    await dialog('Save as').getByRole('button', { name: 'Save here' }).click();
    await dialog('Save as')
      .locator('form')
      .getByText('The name is too long; choose a shorter one.')
      .waitFor();
  });

  test('a file that is no plan is refused with a sentence, and what is open stays open', async () => {
    await writeFile(atHome('spoiled.copewright.json'), '{"format": "copewright-plan", "version": 1,');
    await page.getByRole('button', { name: 'Thimble Cottage' }).click();
    await page.keyboard.press('Control+o');
    const box = dialog('Open a plan');
    await box.getByRole('button', { name: 'Plan spoiled.copewright.json' }).click();
    await box.getByRole('button', { name: 'Open', exact: true }).click();
    await box
      .locator('form')
      .getByText(/^spoiled\.copewright\.json: /)
      .waitFor();
    await page.keyboard.press('Escape');
    expect(await titleField().inputValue()).toBe('Thimble Cottage');
  });

  test('a plan dropped on the window is opened', async () => {
    const text = await readFile(demoFile('thimble-cottage'), 'utf8');
    await dropOn(page, 'cottage.copewright.json', text);
    await page.getByText('In no file yet').waitFor();
    expect(await titleField().inputValue()).toBe('Thimble Cottage');
  });

  test('preferences hold at once and after loading the page again', async () => {
    await page.keyboard.press('Control+,');
    const box = dialog('Preferences');
    await box.getByLabel('Light or dark').selectOption('dark');
    await box.getByLabel('Units of new plans').selectOption('metric');
    await box.getByLabel('Autosave').selectOption('60');
    expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
    await box.getByRole('button', { name: 'Done' }).click();
    await page.reload();
    await page.getByRole('button', { name: 'New plan in millimetres' }).waitFor();
    expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
    await page.keyboard.press('Control+,');
    expect(await dialog('Preferences').getByLabel('Autosave').inputValue()).toBe('60');
  });
});

describe('unsaved work', () => {
  beforeEach(() => open({ file: demoFile('thimble-cottage'), unstocked: true }));

  test('opening another plan asks first: Cancel stays, Keep for later offers it, Save saves it', async () => {
    await rename('Changed');
    await page.getByText('Unsaved changes').waitFor();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('new plan');
    await page.keyboard.press('Enter');
    const box = dialog('Save Changed?');
    await box.getByRole('button', { name: 'Cancel' }).click();
    expect(await titleField().inputValue()).toBe('Changed');

    await use.menu('File', 'Close plan');
    await box.getByRole('button', { name: 'Keep for later' }).click();
    await page.getByRole('heading', { name: 'Work that was not saved' }).waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Thimble Cottage' });

    await page.getByRole('button', { name: 'Recover Changed' }).click();
    await page.getByText('Autosave waits.').waitFor();
    expect(await titleField().inputValue()).toBe('Changed');
    await page.keyboard.press('Control+z');
    await expect.poll(() => titleField().inputValue()).toBe('Thimble Cottage');
    await page.keyboard.press('Control+y');
    await expect.poll(() => titleField().inputValue()).toBe('Changed');

    await use.menu('File', 'Close plan');
    await box.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByRole('heading', { name: 'Demo houses' }).waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Changed' });
    expect(await page.getByRole('heading', { name: 'Work that was not saved' }).count()).toBe(0);
  });

  test('kept work is thrown away only after a second yes', async () => {
    await rename('To be thrown away');
    await page.getByText('Unsaved changes').waitFor();
    await use.menu('File', 'Close plan');
    await page.getByRole('button', { name: 'Keep for later' }).click();
    await page.getByRole('button', { name: 'Discard To be thrown away…' }).click();
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: 'Discard To be thrown away…' }).click();
    await page.getByRole('button', { name: 'Throw away' }).click();
    await page.getByRole('heading', { name: 'Work that was not saved' }).waitFor({ state: 'detached' });
  });

  test('taking everything back makes the plan saved again', async () => {
    await rename('Changed');
    await page.getByText('Unsaved changes').waitFor();
    await page.getByRole('button', { name: 'Undo rename plan' }).click();
    await page.getByText('Saved', { exact: true }).waitFor();
  });

  test('the page loaded again shows the same plan with its unsaved work', async () => {
    await rename('Changed');
    await use.taken('Changed');
    await page.reload();
    await page.getByText('Unsaved changes').waitFor();
    expect(await titleField().inputValue()).toBe('Changed');
  });
});

describe('a file that another program changed', () => {
  beforeEach(async () => {
    await open({ file: demoFile('thimble-cottage'), unstocked: true });
    await rename('Mine');
    await page.getByText('Unsaved changes').waitFor();
    const theirs = { ...(await planAt(use.w.file!)), title: 'Theirs' };
    await writeFile(use.w.file!, JSON.stringify(theirs));
    await page.keyboard.press('Control+s');
    await dialog('Changed by another program').waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Theirs' });
  });

  test('mine can be saved beside it', async () => {
    await page.getByRole('button', { name: 'Save mine beside it' }).click();
    await page.getByText('Saved as thimble-cottage (2).copewright.json.').waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Theirs' });
    expect(await planAt(atHome('thimble-cottage (2).copewright.json'))).toMatchObject({ title: 'Mine' });
  });

  test('theirs can be taken, and mine is among the earlier versions', async () => {
    await page.getByRole('button', { name: 'Take theirs' }).click();
    await page.getByText('Saved', { exact: true }).waitFor();
    expect(await titleField().inputValue()).toBe('Theirs');
    await use.menu('File', 'Earlier versions…');
    await dialog('Earlier versions').locator('li button').first().click();
    await page.getByText('In no file yet').waitFor();
    expect(await titleField().inputValue()).toBe('Mine');
  });

  test('mine can be kept', async () => {
    await page.getByRole('button', { name: 'Keep mine' }).click();
    await page.getByText('Saved as thimble-cottage.copewright.json.').waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Mine' });
  });

  test('deciding later changes nothing on either side', async () => {
    await page.keyboard.press('Escape');
    await page.getByText('Autosave waits.').waitFor();
    expect(await titleField().inputValue()).toBe('Mine');
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Theirs' });
  });
});

describe('coming back to the window', () => {
  beforeEach(() => open({ file: demoFile('thimble-cottage'), unstocked: true }));

  test('a file changed meanwhile is noticed, and mine can be kept from there', async () => {
    await titleField().waitFor();
    await writeFile(use.w.file!, JSON.stringify({ ...(await planAt(use.w.file!)), title: 'Theirs' }));
    await page.evaluate(() => window.dispatchEvent(new Event('focus')));
    await dialog('Changed by another program').getByRole('button', { name: 'Keep mine' }).click();
    await page.getByText('Saved as thimble-cottage.copewright.json.').waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Thimble Cottage' });
  });
});

describe('a start that names what cannot be opened', () => {
  test.each([
    ['nowhere.copewright.json', 'nowhere.copewright.json is not there; check the name and the folder.'],
    ['', /is a folder; name a plan file \(\.copewright\.json\)\./],
  ])('%j: the window says so, and shows what can be opened', async (name, sentence) => {
    const folder = await mkdtemp(join(tmpdir(), 'copewright-named-'));
    await mkdir(join(folder, 'home'));
    await open({ folder, local: { file: join(folder, 'home', name) } });
    await page.getByText(sentence).waitFor();
    await page.getByRole('heading', { name: 'Demo houses' }).waitFor();
    expect(await readdir(join(folder, 'home'))).toEqual([]);
  });
});
