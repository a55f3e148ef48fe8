// Every button, field and tab in the four stages has a name and a tooltip; what is fitted into the window is fitted into the
// room that it really has; and what a new plan and the preferences offer does what it says.

import type { Page } from 'playwright';
import { afterEach, describe, expect, test } from 'vitest';
import { demoFile, type OpenWindow, openWindow, type WindowOptions } from '../window.ts';

let w: OpenWindow | null = null;
afterEach(async () => {
  const errors = w?.errors ?? [];
  await w?.close();
  w = null;
  expect(errors).toEqual([]);
});

async function opened(options: WindowOptions): Promise<Page> {
  w = await openWindow(options);
  return w.page;
}

const CONTROLS = 'button, input, select, textarea, [role="tab"], [role="menuitem"], [role="slider"]';

/** Controls in sight that have no name, or no tooltip of their own or of what they stand in. */
function unnamed(page: Page): Promise<string[]> {
  return page.evaluate((controls) => {
    const nameOf = (each: HTMLElement): string =>
      each.getAttribute('aria-label') ??
      document.getElementById(each.getAttribute('aria-labelledby') ?? '')?.textContent ??
      ((each as HTMLInputElement).labels?.[0]?.textContent || each.textContent || '');
    return [...document.querySelectorAll<HTMLElement>(controls)]
      .filter((each) => each.checkVisibility())
      .filter(
        (each) =>
          nameOf(each).trim() === '' || each.closest('[title]')?.getAttribute('title')?.trim() == null,
      )
      .map((each) => `${each.localName}.${each.className}: ${nameOf(each)}`);
  }, CONTROLS);
}

describe('every control in sight has a name and a tooltip', () => {
  test('in the four stages, with a room, a wall, an opening and a finding chosen, and in every part of the hand-over', async () => {
    const page = await opened({ file: demoFile('larkspur-house'), unstocked: true });
    const tree = page.getByRole('tree', { name: 'The walk' });
    await tree.waitFor();
    let seen = 0;
    const look = async (where: string): Promise<void> => {
      await page.waitForTimeout(300);
      seen += await page.locator(CONTROLS).count();
      expect(await unnamed(page), where).toEqual([]);
    };
    for (const stage of ['Measure', 'Draw', 'Trim']) {
      await page
        .getByRole('button', { name: stage, exact: true })
        .or(page.getByRole('tab', { name: stage }))
        .first()
        .click();
      await look(stage);
      for (const row of [/^Study,/, /^Wall, corner/, /^Door/, /^Corner 1,/, /^Board 1A,/]) {
        const found = tree.getByRole('treeitem', { name: row }).first();
        if ((await found.count()) === 0) continue;
        await found.click();
        await look(`${stage}: ${row}`);
      }
    }
    await page
      .getByRole('button', { name: 'Cut & hand over' })
      .or(page.getByRole('tab', { name: 'Cut & hand over' }))
      .first()
      .click();
    for (const part of ['Boards', 'Saw settings', 'Order', 'Bought otherwise', 'Sheets']) {
      await page.getByRole('tab', { name: part, exact: true }).click();
      await look(part);
    }
    expect(seen).toBeGreaterThan(400);
  });
});

describe('a plan that is opened', () => {
  test.each([
    [1280, 800],
    [1024, 768],
  ])('is shown as large as it fits at %d by %d', async (width, height) => {
    const page = await opened({ file: demoFile('larkspur-house'), unstocked: true, width, height });
    const scale = page.locator('.sheet-scale span');
    await scale.waitFor();
    const first = await scale.textContent();
    await page.getByRole('button', { name: 'Fit the whole plan' }).click();
    await page.waitForTimeout(400);
    expect(await scale.textContent()).toBe(first);
  });
});

describe('a new plan’s empty sheet', () => {
  test('has a demo house one click away', async () => {
    const page = await opened({});
    await page.getByRole('button', { name: /^New plan in feet/ }).click();
    await page.locator('.empty-plan').getByRole('button', { name: 'Thimble Cottage' }).click();
    await expect
      .poll(() => page.getByRole('textbox', { name: 'Title of the plan' }).inputValue())
      .toBe('Thimble Cottage');
  });

  test('asks first where the plan has changes that are in no file', async () => {
    const page = await opened({});
    await page.getByRole('button', { name: /^New plan in feet/ }).click();
    const title = page.getByRole('textbox', { name: 'Title of the plan' });
    await title.fill('Mine');
    await title.press('Enter');
    await page.locator('.empty-plan').getByRole('button', { name: 'Thimble Cottage' }).click();
    const asked = page.getByRole('dialog', { name: 'Save Mine?' });
    await asked.getByRole('button', { name: 'Cancel' }).click();
    expect(await title.inputValue()).toBe('Mine');
    await page.locator('.empty-plan').getByRole('button', { name: 'Thimble Cottage' }).click();
    await asked.getByRole('button', { name: 'Keep for later' }).click();
    await expect.poll(() => title.inputValue()).toBe('Thimble Cottage');
  });
});

describe('the preferences of drawing', () => {
  const open = async (page: Page) => {
    await page.getByRole('menuitem', { name: 'File', exact: true }).click();
    await page.getByRole('menu').getByText('Preferences…', { exact: true }).click();
    const box = page.getByRole('dialog', { name: 'Preferences' });
    await box.waitFor();
    return { box, steps: box.getByLabel('Angles in steps of'), grid: box.getByLabel('Grid spacing') };
  };

  test('hold from then on and after the window is opened again; what cannot be is refused', async () => {
    const page = await opened({});
    await page.getByRole('button', { name: /^New plan in feet/ }).click();
    const first = await open(page);
    expect(await first.steps.inputValue()).toBe('15°');
    expect(await first.grid.getAttribute('placeholder')).toBe('6"');
    await first.steps.fill('120');
    await first.steps.press('Enter');
    expect(await first.box.locator('.wrong').first().textContent()).toBe(
      'Angles in steps of must be at least 0 and at most 90°.',
    );
    await first.steps.fill('45');
    await first.steps.press('Enter');
    await first.grid.fill(`1'`);
    await first.grid.press('Enter');
    await page.getByRole('button', { name: 'Done' }).click();
    await page.reload({ waitUntil: 'load' });
    await page.locator('.empty-plan, .welcome').first().waitFor();
    const again = await open(page);
    expect(await again.steps.inputValue()).toBe('45°');
    expect(await again.grid.inputValue()).toBe(`1' 0"`);
    await page.getByRole('button', { name: 'Done' }).click();
  });

  test('decide where a wall that is drawn snaps to', async () => {
    const page = await opened({});
    await page.getByRole('button', { name: /^New plan in feet/ }).click();
    /** Draws towards some 31° off the level: the tape bar says what that is caught by. */
    const caughtAt = async (angle: RegExp): Promise<void> => {
      const sheet = page.locator('.sheet-paper');
      const box = (await sheet.boundingBox())!;
      await page.getByRole('toolbar', { name: 'Tools' }).getByRole('button').nth(1).click();
      const [x, y] = [box.x + box.width / 2 - 100, box.y + box.height / 2];
      await page.mouse.click(x, y);
      await page.mouse.move(x + 171, y + 103, { steps: 4 });
      await expect.poll(() => page.locator('.tape').textContent()).toMatch(angle);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Escape');
    };
    await caughtAt(/(?<!\d)30°/);
    const { steps } = await open(page);
    await steps.fill('8');
    await steps.press('Enter');
    await page.getByRole('button', { name: 'Done' }).click();
    await caughtAt(/(?<!\d)32°/);
  });
});
