// The frame as it is used: keys where they belong, menus, finder, dialogs, room at every size, and what axe finds.

import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';
import { axeFaults } from './axe.ts';

let w: OpenWindow;
let page: Page;

const dialogs = () => page.locator('dialog[open]');
const titleField = () => page.getByLabel('Title of the plan');
const focused = (): Promise<string> =>
  page.evaluate(() => document.activeElement?.closest('[data-zone]')?.getAttribute('data-zone') ?? 'none');
const menu = async (name: string, item: string): Promise<void> => {
  await page.getByRole('menuitem', { name, exact: true }).click();
  await page.getByRole('menu').getByText(item, { exact: true }).click();
};

beforeAll(async () => {
  w = await openWindow({ file: demoFile('thimble-cottage'), unstocked: true });
  page = w.page;
  await titleField().waitFor();
});
beforeEach(async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

/** What is said lies over an open walk, and the plan is fitted beside it. */
async function besideTheWalk(): Promise<void> {
  await page.keyboard.press('F6');
  const walk = (await page.locator('#frame-walk').boundingBox())!;
  await page.keyboard.press('f');
  await page.keyboard.press('Control+z');
  const notice = page.locator('.notice').last();
  await notice.waitFor();
  const seen = await notice.evaluate((box) => {
    const { left, top, height } = box.getBoundingClientRect();
    return box.contains(document.elementFromPoint(left + 4, top + height / 2));
  });
  expect(seen).toBe(true);
  await page.keyboard.press('Escape');
  const chosen = page.locator('#ticket-title');
  const pressAt = (share: number) =>
    page.mouse.click(walk.x + walk.width * share, walk.y + walk.height * 0.65);
  await pressAt(1.35);
  await expect.poll(() => chosen.textContent()).toBe('Sitting room');
  await pressAt(0.5);
  await expect.poll(() => chosen.textContent()).not.toBe('Sitting room');
}

describe('keys', () => {
  test('a dialog that closes gives the focus back to where it was', async () => {
    for (const key of ['p', 'Shift+P', '?', 'Control+k', 'Control+t', 'Control+p']) {
      await page.keyboard.press('F7');
      await page.keyboard.press(key);
      await dialogs().waitFor();
      await page.keyboard.press('Escape');
      await dialogs().waitFor({ state: 'detached' });
      expect(await focused(), key).toBe('sheet');
    }
  });

  test('F keys go from part to part', async () => {
    for (const [key, zone] of [
      ['F6', 'walk'],
      ['F7', 'sheet'],
      ['F8', 'ticket'],
      ['F9', 'tape'],
      ['F10', 'pencil'],
    ] as const) {
      await page.keyboard.press(key);
      expect(await focused(), key).toBe(zone);
    }
  });

  test('letters are commands on the sheet and in the walk, and nothing but letters in a field', async () => {
    await page.keyboard.press('F7');
    await page.keyboard.press('w');
    const tool = page.getByRole('button', { name: 'Draw walls', exact: true });
    await expect.poll(() => tool.getAttribute('aria-pressed')).toBe('true');
    await page.keyboard.press('Escape');
    await expect.poll(() => tool.getAttribute('aria-pressed')).toBe('false');
    await titleField().focus();
    await titleField().press('End');
    await page.keyboard.type('w');
    expect(await titleField().inputValue()).toBe('Thimble Cottagew');
    expect(await tool.getAttribute('aria-pressed')).toBe('false');
    await page.keyboard.press('Escape');
    expect(await titleField().inputValue()).toBe('Thimble Cottage');
  });

  test('the list of keys opens by its sign on a button too, and in a field the sign is typed', async () => {
    const tool = page.getByRole('button', { name: 'Draw walls', exact: true });
    for (const part of ['.top-line', '[data-zone="pencil"]']) {
      const button = page.locator(`${part} button`).first();
      await button.focus();
      await page.keyboard.press('w');
      await page.keyboard.press('?');
      await dialogs().getByText('Keys without Ctrl or Alt').waitFor();
      await page.keyboard.press('Escape');
      await dialogs().waitFor({ state: 'detached' });
      await expect.poll(() => button.evaluate((each) => each === document.activeElement)).toBe(true);
      expect(await tool.getAttribute('aria-pressed')).toBe('false');
    }
    await titleField().focus();
    await titleField().press('End');
    await page.keyboard.type('?');
    expect(await titleField().inputValue()).toBe('Thimble Cottage?');
    await page.keyboard.press('Escape');
    await page.keyboard.press('F7');
    await page.keyboard.press('w');
    await page.keyboard.press('F9');
    const figure = page.locator('.tape-figure > input:focus');
    await page.keyboard.type('?');
    expect(await figure.inputValue()).toBe('?');
    expect(await dialogs().count()).toBe(0);
    await figure.fill('');
    await page.keyboard.press('F7');
    await page.keyboard.press('Escape');
    await expect.poll(() => tool.getAttribute('aria-pressed')).toBe('false');
  });

  test('a field keeps its own undo', async () => {
    await titleField().fill('Renamed');
    await titleField().press('Enter');
    await page.getByText('Unsaved changes').waitFor();
    await titleField().focus();
    await titleField().press('End');
    await page.keyboard.type('x');
    await page.keyboard.press('Control+z');
    expect(await titleField().inputValue()).toBe('Renamed');
    await page.keyboard.press('F6');
    await page.keyboard.press('Control+z');
    await expect.poll(() => titleField().inputValue()).toBe('Thimble Cottage');
  });

  test('with nothing half typed in a field, and in a list of choices, the keys that take back are the plan’s', async () => {
    const title = async (now: string) => await expect.poll(() => titleField().inputValue()).toBe(now);
    await titleField().fill('Once more');
    await titleField().press('Enter');
    await titleField().press('Control+z');
    await title('Thimble Cottage');
    await titleField().press('Control+y');
    await title('Once more');
    await titleField().press('Control+z');
    await title('Thimble Cottage');

    const units = page.locator('.ticket').getByLabel('Units');
    const was = await units.inputValue();
    await units.selectOption(was === 'metric' ? 'imperial' : 'metric');
    await units.press('Control+z');
    await expect.poll(() => units.inputValue()).toBe(was);
  });

  test('news that was dismissed brings back none from before', async () => {
    await titleField().fill('Newsworthy');
    await titleField().press('Enter');
    for (const key of ['Control+z', 'Control+y', 'Control+z']) await page.keyboard.press(key);
    await page.getByRole('button', { name: /^Dismiss: Undone/ }).click();
    expect(await page.locator('.notice-plain').count()).toBe(0);
  });

  test('stages change by their keys, from anywhere', async () => {
    await titleField().focus();
    await page.keyboard.press('Alt+3');
    expect(await page.getByRole('button', { name: 'Trim' }).getAttribute('aria-current')).toBe('step');
    await page.keyboard.press('Alt+2');
    expect(await page.getByRole('button', { name: 'Trim' }).getAttribute('aria-current')).toBeNull();
  });

  test('after a stage’s key the sheet has the keys, at Cut & hand over its page; typing and the walk are not left', async () => {
    // What the live region has held: it does not hold it long.
    const said = await page.evaluateHandle(() => {
      const texts: string[] = [];
      const note = () => texts.push(document.querySelector('[role="status"]')?.textContent ?? '');
      new MutationObserver(note).observe(document.body, {
        subtree: true,
        childList: true,
        characterData: true,
      });
      return texts;
    });
    const heard = () => said.evaluate((texts) => texts.join('\n'));
    for (const [key, words] of [
      ['Alt+4', /Stage: Cut & hand over\. Boards/],
      ['Alt+3', /Stage: Trim\. Joints/],
      ['Alt+1', /Stage: Measure\. The survey/],
      ['Alt+2', /Stage: Draw\. Walls/],
    ] as const) {
      await page.getByRole('button', { name: 'Find a command' }).focus();
      await page.keyboard.press(key);
      expect(await focused(), key).toBe('sheet');
      await expect.poll(heard).toMatch(words);
    }
    await page.keyboard.press('F6');
    await page.keyboard.press('Alt+3');
    expect(await focused(), 'the walk goes with every stage').toBe('walk');
    await page.keyboard.press('Alt+4');
    expect(await focused()).toBe('sheet');
    await titleField().focus();
    await page.keyboard.press('Alt+2');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
      'Title of the plan',
    );
    await page.keyboard.press('F7');
  });

  test('a dialog keeps the keys of the window to itself, and Escape closes it', async () => {
    await page.keyboard.press('F1');
    await page.keyboard.press('Alt+4');
    await page.keyboard.press('Control+k');
    expect(await dialogs().count()).toBe(1);
    expect(
      await page
        .getByRole('button', { name: 'Cut & hand over', includeHidden: true })
        .getAttribute('aria-current'),
    ).toBeNull();
    await page.keyboard.press('Escape');
    expect(await dialogs().count()).toBe(0);
  });
});

describe('menus and finder', () => {
  test('a menu is worked with arrow keys, and says why a command is not to be had', async () => {
    await page.getByRole('menuitem', { name: 'File', exact: true }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    const undo = page.getByRole('menu').getByRole('menuitem', { name: /^Undo/ });
    expect(await undo.getAttribute('aria-disabled')).toBe('true');
    expect(await undo.getAttribute('title')).toBe('There is nothing to undo.');
    await page.keyboard.press('Escape');
    await page.getByRole('menu').waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Edit');
  });

  test('what can be switched shows whether it is on', async () => {
    await page.getByRole('menuitem', { name: 'View', exact: true }).click();
    const draw = page.getByRole('menuitemcheckbox', { name: /^Stage: Draw/ });
    expect(await draw.getAttribute('aria-checked')).toBe('true');
    await page.keyboard.press('Escape');
  });

  test('the finder runs what was typed, and the focus is where the command puts it', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('go walk');
    await page.keyboard.press('Enter');
    await expect.poll(focused).toBe('walk');
    expect(await dialogs().count()).toBe(0);
  });

  test('after a drawing command the sheet has the focus, so that Escape ends it', async () => {
    for (const choose of [
      () => menu('Draw', 'Draw walls'),
      async () => {
        await page.keyboard.press('Control+k');
        await page.keyboard.type('draw walls');
        await page.keyboard.press('Enter');
      },
    ]) {
      await choose();
      await expect.poll(focused).toBe('sheet');
      const tool = page.getByRole('button', { name: 'Draw walls', exact: true });
      await expect.poll(() => tool.getAttribute('aria-pressed')).toBe('true');
      await page.keyboard.press('Escape');
      await expect.poll(() => tool.getAttribute('aria-pressed')).toBe('false');
    }
  });

  test('what is typed right after a drawing command of a menu or the finder reaches the tape bar', async () => {
    /** Chooses what is pointed at, and gives a digit to what has the focus before anything else can happen. */
    const chooseAndType = (item: Locator) =>
      item.evaluate(async (element: HTMLElement) => {
        element.click();
        await Promise.resolve();
        const type = { key: '1', bubbles: true, cancelable: true };
        document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', type));
      });
    for (const choose of [
      async () => {
        await page.getByRole('menuitem', { name: 'Draw', exact: true }).click();
        await chooseAndType(page.getByRole('menuitemcheckbox', { name: /^Draw walls/ }));
      },
      async () => {
        await page.keyboard.press('Control+k');
        await page.keyboard.type('draw walls');
        await chooseAndType(page.getByRole('option', { name: /^Draw walls/ }));
      },
    ]) {
      await page.keyboard.press('Alt+4');
      await choose();
      await page.keyboard.press('2');
      await expect.poll(() => page.locator('#tape-length').inputValue()).toBe('12');
      expect(await focused()).toBe('tape');
      for (let n = 0; n < 4; n += 1) await page.keyboard.press('Escape');
    }
  });

  test('the finder opens other dialogs', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('list keys');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'List of keys' }).waitFor();
    await page.keyboard.press('Escape');
  });
});

describe('room', () => {
  const overflow = () =>
    page.evaluate(() => {
      const { scrollWidth, scrollHeight, clientWidth, clientHeight } = document.documentElement;
      return [scrollWidth - clientWidth, scrollHeight - clientHeight];
    });

  test.each([
    [1280, 800],
    [1920, 1200],
    [900, 700],
    [400, 800],
  ])('at %i × %i nothing runs out of the window', async (width, height) => {
    await page.setViewportSize({ width, height });
    // The sheet follows a moment later.
    await expect.poll(overflow).toEqual([0, 0]);
    for (const name of ['Measure', 'Draw', 'Trim', 'Cut & hand over'])
      expect(await page.getByRole('button', { name, exact: true }).first().isVisible()).toBe(true);
  });

  test('in a narrow window the sides lie over the sheet, one at a time, and Escape puts them away', async () => {
    await page.setViewportSize({ width: 900, height: 700 });
    const walk = page.locator('#frame-walk');
    const side = page.locator('#frame-side');
    await expect.poll(() => walk.isVisible()).toBe(false);
    await page.keyboard.press('F6');
    expect(await walk.isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Ticket & pencil' }).click();
    await expect.poll(() => side.isVisible()).toBe(true);
    await expect.poll(() => walk.isVisible()).toBe(false);
    await page.keyboard.press('F10');
    await page.keyboard.press('Escape');
    await expect.poll(() => side.isVisible()).toBe(false);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-controls'))).toBe(
      'frame-side',
    );
    await page.keyboard.press('F8');
    expect(await side.isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(() => side.isVisible()).toBe(false);
  });

  test('with text of 200 % everything can be reached, and the sheet keeps a part of the window', async () => {
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
    });
    try {
      await expect.poll(() => page.locator('.frame').getAttribute('class')).toContain('narrow');
      await expect.poll(overflow).toEqual([0, 0]);
      expect((await page.locator('.frame-sheet').boundingBox())!.height).toBeGreaterThan(300);
      expect(await axeFaults(page)).toEqual([]);
      await besideTheWalk();
    } finally {
      await page.evaluate(() => {
        document.documentElement.style.fontSize = '';
      });
    }
  });

  test('the edge of a side panel moves by keys, within bounds', async () => {
    await page.setViewportSize({ width: 1920, height: 1200 });
    await page.keyboard.press('F6');
    const edge = page.getByRole('separator', { name: 'Width of The walk' });
    const width = async () => (await page.locator('#frame-walk').boundingBox())!.width;
    const before = await width();
    await edge.press('ArrowRight');
    await expect.poll(width).toBe(before + 16);
    for (let n = 0; n < 40; n += 1) await edge.press('ArrowLeft');
    expect(await edge.getAttribute('aria-valuenow')).toBe(await edge.getAttribute('aria-valuemin'));
  });
});

describe('what axe finds', () => {
  test.each(['light', 'dark'] as const)(
    'nothing in the frame, an open menu and the dialogs, %s',
    async (theme) => {
      await page.emulateMedia({ colorScheme: theme });
      await expect.poll(() => page.locator('html').getAttribute('data-theme')).toBe(theme);
      expect(await axeFaults(page)).toEqual([]);
      await page.getByRole('menuitem', { name: 'View', exact: true }).click();
      expect(await axeFaults(page)).toEqual([]);
      await page.keyboard.press('Escape');
      for (const [name, item, title] of [
        ['File', 'Open…', 'Open a plan'],
        ['File', 'Open a recent plan…', 'Open a recent plan'],
        ['File', 'Open a demo house…', 'Open a demo house'],
        ['File', 'Save as…', 'Save as'],
        ['File', 'Earlier versions…', 'Earlier versions'],
        ['File', 'Hand over as PDF…', 'Hand over as PDF'],
        ['File', 'Preferences…', 'Preferences'],
        ['Help', 'Find a command…', 'Find a command'],
        ['Help', 'List of keys', 'List of keys'],
        ['Help', 'Licences', 'Licences'],
        ['Help', 'About Copewright', 'About Copewright'],
      ] as const) {
        await menu(name, item);
        await page.getByRole('dialog', { name: title }).waitFor();
        expect(await axeFaults(page), title).toEqual([]);
        await page.keyboard.press('Escape');
        await expect.poll(() => dialogs().count()).toBe(0);
      }
    },
  );

  test('nothing in the window without a plan, nor in its questions', async () => {
    await titleField().fill('Asked about');
    await titleField().press('Enter');
    await page.getByText('Unsaved changes').waitFor();
    await menu('File', 'Close plan');
    await page.getByRole('dialog', { name: 'Save Asked about?' }).waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep for later' }).click();
    await page.getByRole('button', { name: 'Discard Asked about…' }).click();
    expect(await axeFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: 'Recover Asked about' }).click();
    await titleField().waitFor();
  });
});
