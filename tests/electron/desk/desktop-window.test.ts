// What only the desktop form has, clicked in the window: opening a PDF to print it, the folder of what was written, and
// plans that the native menus or a second start bring while a dialog is open or work is unsaved.

import { cp, mkdtemp, readdir, readFile, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { callChannel } from '../../../electron/channels.ts';
import { lockKey } from '../../../electron/services/locks.ts';
import { openPlanFile } from '../../../electron/services/plan-file.ts';
import { demoFile } from '../../renderer/window.ts';
import { FakeWindow, state } from '../main/fake-electron.ts';
import { type DesktopWindow, openDesktopWindow } from './desktop-window.ts';

vi.mock('electron', async () => (await import('../main/fake-electron.ts')).fakeElectron());

let folder: string;
let w: DesktopWindow;

const title = () => w.page.getByLabel('Title of the plan');
const dialog = (name: string) => w.page.getByRole('dialog', { name });
const rename = async (to: string): Promise<void> => {
  await title().fill(to);
  await title().press('Enter');
  await w.page.getByText('Unsaved changes').waitFor();
};
const press = (key: string): Promise<void> => w.page.keyboard.press(key);
/** The native menu's entry for a recent plan of that name. */
const entry = async (name: string): Promise<string> => {
  const find = (): string | undefined => w.recent().find((label) => label.startsWith(name));
  await vi.waitUntil(() => find() !== undefined);
  return find()!;
};

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'copewright-desktop-'));
  for (const name of ['first', 'second', 'third'])
    await cp(demoFile('thimble-cottage'), join(folder, `${name}.copewright.json`));
  // Both were chosen at once in the file manager: the second start comes before the page has asked what there is.
  w = await openDesktopWindow(folder, join(folder, 'first.copewright.json'), () =>
    state.app.emit('second-instance', {}, ['copewright', 'second.copewright.json'], folder),
  );
  await title().waitFor();
});
afterEach(() => expect(w.errors).toEqual([]));
afterAll(async () => {
  await w.close();
  await rm(folder, { recursive: true, force: true });
});

describe('two plans that are opened at once', () => {
  it('the second is shown, and the first is held no more', async () => {
    await w.page.getByTitle('second.copewright.json').waitFor();
    const held = async (name: string): Promise<boolean> => {
      const key = lockKey('file', await realpath(join(folder, name)));
      return (await readdir(join(folder, 'user', 'locks'))).some((each) => each.startsWith(key));
    };
    await expect.poll(() => held('first.copewright.json')).toBe(false);
    expect(await held('second.copewright.json')).toBe(true);
  });
});

describe('handing over', () => {
  it('`Open to print` opens the PDF that was written, `Show in its folder` its folder, and a failure is said', async () => {
    const path = w.atHome('sheets.pdf');
    w.saveTo(path);
    await press('Control+p');
    const box = dialog('Hand over as PDF');
    await box.getByRole('button', { name: 'Choose where…' }).click();
    await box.getByText('sheets.pdf').waitFor({ timeout: 90_000 });
    expect((await readFile(path)).subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(state.viewed).toEqual([]);
    await box.getByRole('button', { name: 'Open to print' }).click();
    await vi.waitUntil(() => state.viewed.length > 0);
    expect(state.viewed).toEqual([path]);
    await box.getByRole('button', { name: 'Show in its folder' }).click();
    await vi.waitUntil(() => state.shownInFolder.length > 0);
    expect(state.shownInFolder).toEqual([path]);
    state.viewerAnswer = 'no application is registered';
    await box.getByRole('button', { name: 'Open to print' }).click();
    await box.getByText(/^sheets\.pdf could not be opened; the system may have no program for PDF/).waitFor();
    await box.getByRole('button', { name: 'Done' }).click();
  });

  it('a report has no `Open to print`', async () => {
    w.saveTo(w.atHome('house.report.json'));
    w.choose('Export report (JSON)…');
    const box = dialog('Export report (JSON)');
    await box.getByRole('button', { name: 'Choose where…' }).click();
    await box.getByText('house.report.json').waitFor({ timeout: 90_000 });
    expect(await box.getByRole('button', { name: 'Show in its folder' }).count()).toBe(1);
    expect(await box.getByRole('button', { name: 'Open to print' }).count()).toBe(0);
    await box.getByRole('button', { name: 'Done' }).click();
  });
});

describe('another plan while this one is open', () => {
  /** Opens the second plan by a second start, and the first again by the native menu: both are recent then. */
  it('a recent plan of the native menu is opened', async () => {
    state.app.emit('second-instance', {}, ['copewright', 'second.copewright.json'], folder);
    await vi.waitUntil(async () => (await w.page.title()).includes('Thimble'));
    const label = await entry('first');
    await entry('second');
    w.choose(label);
    await w.page.getByTitle('first.copewright.json').waitFor();
  });

  it('while a dialog is open, the native menu’s recent plans and commands are told to wait, and the dialog stays', async () => {
    await press('Control+,');
    await dialog('Preferences').waitFor();
    w.choose(await entry('second'));
    await dialog('Preferences').getByText('Close the dialog first, then open another plan.').waitFor();
    w.choose('New plan');
    await dialog('Preferences').getByText('Close the dialog first, then choose it again.').waitFor();
    await press('Escape');
    await w.page.getByTitle('first.copewright.json').waitFor();
  });

  it('while work is unsaved it asks first: Cancel stays, Keep for later opens it, and the work is offered', async () => {
    await rename('Changed');
    const asked = dialog('Save Changed?');
    w.choose(await entry('second'));
    await asked.getByRole('button', { name: 'Cancel' }).click();
    expect(await title().inputValue()).toBe('Changed');
    // Asked twice, it asks once.
    w.choose(await entry('second'));
    await asked.waitFor();
    w.choose(await entry('second'));
    await asked.getByText('Close the dialog first, then open another plan.').waitFor();
    await asked.getByRole('button', { name: 'Keep for later' }).click();
    await w.page.getByTitle('second.copewright.json').waitFor();
    expect(await title().inputValue()).toBe('Thimble Cottage');
    expect(await readFile(join(folder, 'first.copewright.json'), 'utf8')).not.toContain('Changed');
    w.choose('Close plan');
    await w.page.getByRole('button', { name: 'Recover Changed' }).click();
    await expect.poll(() => title().inputValue()).toBe('Changed');
    await press('Control+s');
    await w.page.getByText('Saved as first.copewright.json.').waitFor();
  });

  it('a recent plan chosen in the window itself while work is unsaved asks as well, and saves', async () => {
    await rename('Changed again');
    await press('Control+Shift+O');
    await dialog('Open a recent plan')
      .getByRole('button', { name: /^second\.copewright\.json/ })
      .click();
    await dialog('Save Changed again?').getByRole('button', { name: 'Save', exact: true }).click();
    await w.page.getByTitle('second.copewright.json').waitFor();
    expect(await readFile(join(folder, 'first.copewright.json'), 'utf8')).toContain('Changed again');
  });

  it('a second start’s file waits while a dialog is open, which is not closed by it; one that is not there is told at once', async () => {
    await press('Control+,');
    const box = dialog('Preferences');
    await box.waitFor();
    state.app.emit('second-instance', {}, ['copewright', 'nowhere.copewright.json'], folder);
    await box.getByText(/^nowhere\.copewright\.json is not there/).waitFor();
    state.app.emit('second-instance', {}, ['copewright', 'third.copewright.json'], folder);
    await box.getByText('third.copewright.json is opened when this dialog is closed.').waitFor();
    await press('Escape');
    await w.page.getByTitle('third.copewright.json').waitFor();
  });
});

describe('a program that does not answer', () => {
  it('the plan can be copied out of the window, which downloads nothing and has no permission', async () => {
    const edits = callChannel('edit');
    const answering = state.handlers.get(edits)!;
    state.handlers.set(edits, async () => {
      throw new Error('made to fail');
    });
    await title().fill('Still in the window');
    await title().press('Enter');
    await w.page.getByText(/does not answer\. The plan is still here/).waitFor();
    await press('Control+s');
    await dialog('The program does not answer').getByRole('button', { name: 'Copy its text' }).click();
    await w.page.getByText('The text of the plan is copied.').waitFor();
    await w.page.context().grantPermissions(['clipboard-read']);
    const text = await w.page.evaluate('navigator.clipboard.readText()');
    const copied = join(folder, 'copied.copewright.json');
    await writeFile(copied, String(text));
    expect(await openPlanFile(copied)).toMatchObject({ title: 'Still in the window' });

    // Told to close, it is told at once to wait for its user, and offers the same.
    const stays = callChannel('stay');
    const staying = state.handlers.get(stays)!;
    const told = new Promise<void>((resolve) => {
      state.handlers.set(stays, (event, sent) => {
        resolve();
        return staying(event, sent);
      });
    });
    FakeWindow.made[0]!.close();
    await told;
    const asked = dialog('Close all the same?');
    await asked.getByText(/copy its text into an empty text file/).waitFor();
    await asked.getByRole('button', { name: 'Copy its text' }).click();
    await asked.waitFor({ state: 'detached' });
    expect(FakeWindow.made[0]!.destroyed).toBe(false);
    await w.page.getByText('The text of the plan is copied.').waitFor();

    state.handlers.set(edits, answering);
    await w.page.getByText(/does not answer/).waitFor({ state: 'detached' });
  });
});
