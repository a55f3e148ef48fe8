// Handing over, and what happens when the program or the disk is no longer there: the built window over the real server.

import { mkdtemp, readdir, readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { realEnv } from '../../../electron/services/env.ts';
import { REAL_CALLS } from '../../../electron/services/file-calls.ts';
import { faultyDisk } from '../../electron/services/helpers.ts';
import { demoFile, type WindowOptions } from '../window.ts';
import { openForFiles, planAt, type Use } from './use.ts';

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

afterEach(async () => {
  const { errors } = use.w;
  await use.w.close();
  expect(errors).toEqual([]);
});

describe('handing over', () => {
  beforeEach(() => open({ file: demoFile('thimble-cottage'), unstocked: true }));

  test('the PDF is written where the user says, with the name of the plan', async () => {
    await titleField().waitFor();
    await page.keyboard.press('Control+p');
    const box = dialog('Hand over as PDF');
    await box.getByLabel('Sheet', { exact: true }).selectOption('a4');
    await box.getByLabel('Date on the sheets').fill('2026-01-31');
    await box.getByRole('button', { name: 'Choose where…' }).click();
    await box.getByRole('button', { name: 'Save here' }).click();
    await box.getByText('Thimble Cottage.pdf').waitFor({ timeout: 60_000 });
    const bytes = await readFile(atHome('Thimble Cottage.pdf'));
    expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(bytes.toString('latin1')).toContain('D:20260131');
    await box.getByRole('button', { name: 'Done' }).click();
  });

  test('tables go into a folder of their own', async () => {
    await titleField().waitFor();
    await use.menu('File', 'Export tables (CSV)…');
    const box = dialog('Export tables (CSV)');
    await box.getByRole('button', { name: 'Choose where…' }).click();
    const name = box.getByLabel('Folder name');
    await name.waitFor();
    expect(await name.evaluate((field) => field === document.activeElement)).toBe(true);
    await page.keyboard.press('Enter');
    await box.getByText('boards.csv').waitFor({ timeout: 60_000 });
    expect(await readdir(atHome('Thimble Cottage tables'))).toContain('order.csv');
  });
});

describe('a program that has gone', () => {
  beforeEach(() => open({ file: demoFile('thimble-cottage'), unstocked: true }));

  test('says so, keeps the plan in the page, lets it be downloaded, and asks before the page goes', async () => {
    await titleField().waitFor();
    await use.w.local.stop();
    await rename('Still here');
    await page.getByText(/does not answer\. The plan is still here/).waitFor();
    await page.getByText('Unsaved changes').waitFor();
    await page.keyboard.press('Control+s');
    const box = dialog('The program does not answer');
    const coming = page.waitForEvent('download');
    await box.getByRole('button', { name: 'Download a copy' }).click();
    const download = await coming;
    expect(download.suggestedFilename()).toBe('thimble-cottage.copewright.json');
    expect(await planAt(await download.path())).toMatchObject({ title: 'Still here' });
    expect(await titleField().inputValue()).toBe('Still here');

    const asked = page.waitForEvent('dialog');
    void page.close({ runBeforeUnload: true });
    const question = await asked;
    expect(question.type()).toBe('beforeunload');
    await question.dismiss();
    // The page complained of the lost connection and of nothing else.
    expect(
      use.w.errors.filter((line) => !/ERR_CONNECTION|Failed to fetch|ERR_INCOMPLETE/.test(line)),
    ).toEqual([]);
    use.w.errors.length = 0;
  });

  test('that did not answer for a while has every edit afterwards, in order and once, and the save works', async () => {
    await titleField().waitFor();
    let lost = 0;
    // One call does not arrive, of one the answer does not.
    await page.route('**/call/edit', async (route) => {
      lost += 1;
      if (lost === 2) await route.fetch();
      if (lost <= 2) await route.abort();
      else await route.continue();
    });
    await rename('First');
    await page.getByText(/does not answer\. The plan is still here/).waitFor();
    await rename('Second');
    await rename('Third');
    await page.getByText(/does not answer/).waitFor({ state: 'detached' });
    await page.keyboard.press('Control+s');
    await page.getByText('Saved as thimble-cottage.copewright.json.').waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Third' });
    await page.reload();
    expect(await titleField().inputValue()).toBe('Third');
    for (const title of ['Second', 'First', 'Thimble Cottage']) {
      await page.keyboard.press('Control+z');
      await expect.poll(() => titleField().inputValue()).toBe(title);
    }
    expect(use.w.errors.filter((line) => !/ERR_FAILED/.test(line))).toEqual([]);
    use.w.errors.length = 0;
  });

  test('that answers again: what was said of it does not stay over the save that worked', async () => {
    await rename('Saved later');
    await page.getByText('Unsaved changes').waitFor();
    await page.route('**/call/save', (route) => route.abort());
    await page.keyboard.press('Control+s');
    const said = page.getByText(/does not answer\. The plan is still here/);
    await said.waitFor();
    await page.unroute('**/call/save');
    await page.keyboard.press('Control+s');
    await page.getByText('Saved as thimble-cottage.copewright.json.').waitFor();
    expect(await said.count()).toBe(0);
    expect(use.w.errors.filter((line) => !/ERR_FAILED/.test(line))).toEqual([]);
    use.w.errors.length = 0;
  });

  test('does not ask before the page goes where every edit is with the program', async () => {
    await rename('Kept there');
    await use.taken('Kept there');
    let asked = false;
    page.on('dialog', (question) => {
      asked = true;
      void question.accept();
    });
    await page.close({ runBeforeUnload: true });
    await expect.poll(() => page.isClosed()).toBe(true);
    expect(asked).toBe(false);
  });
});

describe('a disk that takes nothing any more', () => {
  test('says that edits are not kept, where to go instead, and loses nothing on closing', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'copewright-full-'));
    const disk = faultyDisk();
    const env = { ...realEnv(join(folder, 'user')), calls: disk.calls };
    await open({ file: demoFile('thimble-cottage'), unstocked: true, folder, local: { env } });
    await titleField().waitFor();
    disk.arm(1, true, 'ENOSPC');
    await rename('Not on the disk');
    await page.getByText('Not kept for recovery.').waitFor();

    await page.keyboard.press('Control+s');
    const refused = dialog('Not saved');
    await refused.getByText('Its edits are not kept for recovery now.').waitFor();
    await refused.getByRole('button', { name: 'Not now' }).click();
    await page.getByText('Unsaved changes').waitFor();

    await use.menu('File', 'Close plan');
    await dialog('Save Not on the disk?').getByRole('button', { name: 'Keep for later' }).click();
    const lost = dialog('The unsaved work cannot be kept');
    await lost.getByRole('button', { name: 'Leave it open' }).click();
    expect(await titleField().inputValue()).toBe('Not on the disk');

    disk.disarm();
    await page.keyboard.press('Control+s');
    await page.getByText('Saved as thimble-cottage.copewright.json.').waitFor();
    await page.getByText('Not kept for recovery.').waitFor({ state: 'detached' });
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Not on the disk' });
  });
});

describe('a window that goes in the middle of a save', () => {
  test('[SK1] loaded again, it shows the plan as saved once it is, with the way back, and the file is whole', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'copewright-slow-'));
    let arrived = (): void => undefined;
    let goOn = (): void => undefined;
    const waits = new Promise<void>((resolve) => {
      arrived = resolve;
    });
    const gate = new Promise<void>((resolve) => {
      goOn = resolve;
    });
    const rename = async (from: string, to: string): Promise<void> => {
      if (to.endsWith('thimble-cottage.copewright.json')) {
        arrived();
        await gate;
      }
      await REAL_CALLS.rename(from, to);
    };
    const env = { ...realEnv(join(folder, 'user')), calls: { ...REAL_CALLS, rename } };
    await open({ file: demoFile('thimble-cottage'), unstocked: true, folder, local: { env } });
    const before = await readFile(use.w.file!, 'utf8');
    await use.rename('Saved slowly');
    await page.getByText('Unsaved changes').waitFor();
    await page.keyboard.press('Control+s');
    await waits;
    await page.reload();
    await page.getByText('Unsaved changes').waitFor();
    expect(await titleField().inputValue()).toBe('Saved slowly');
    expect(await readFile(use.w.file!, 'utf8')).toBe(before);
    goOn();
    await page.getByText('Saved', { exact: true }).waitFor();
    expect(await planAt(use.w.file!)).toMatchObject({ title: 'Saved slowly' });
    await page.getByRole('button', { name: 'Undo rename plan' }).click();
    await expect.poll(() => titleField().inputValue()).toBe('Thimble Cottage');
    // The page that went had a call under way.
    expect(use.w.errors.filter((line) => !/Failed to fetch|ERR_ABORTED/.test(line))).toEqual([]);
    use.w.errors.length = 0;
  });
});
