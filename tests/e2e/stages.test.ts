// Every stage of a whole house, light and dark: axe finds nothing, not even what is minor, and the page complains of nothing.

import type { Page } from 'playwright';
import { afterEach, describe, expect, test } from 'vitest';
import { axeFaults } from '../renderer/app/axe.ts';
import { demoFile, type OpenWindow, openWindow } from '../renderer/window.ts';
import { closedClean } from './closed-clean.ts';

let w: OpenWindow;
afterEach(() => closedClean(w));

/** What each stage shows when it is there. */
const STAGES: readonly (readonly [key: string, name: string, there: (page: Page) => Promise<void>])[] = [
  ['Alt+1', 'Measure', (page) => page.getByRole('heading', { name: 'Survey' }).waitFor()],
  ['Alt+2', 'Draw', (page) => page.getByRole('toolbar', { name: 'Tools' }).waitFor()],
  ['Alt+3', 'Trim', (page) => page.locator('.pencil [data-finding]').first().waitFor()],
  ['Alt+4', 'Cut & hand over', (page) => page.locator('.handover-board').first().waitFor()],
];

describe.each([
  ['light', false],
  ['dark', true],
] as const)('Larkspur House, %s', (_, dark) => {
  test('no stage has a fault', { timeout: 300_000 }, async () => {
    w = await openWindow({ file: demoFile('larkspur-house'), dark });
    const { page } = w;
    page.setDefaultTimeout(120_000);
    await page.locator('.sheet-canvas').first().waitFor();
    // Dark paper is dark: the ground is darker than the middle of grey, or lighter.
    const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const [red = 0, green = 0, blue = 0] = (ground.match(/[\d.]+/g) ?? []).map(Number);
    expect(red + green + blue < 3 * 128, ground).toBe(dark);
    for (const [key, name, there] of STAGES) {
      await page.keyboard.press(key);
      await there(page);
      const button = page.locator('.frame-top').getByRole('button', { name, exact: true });
      expect(await button.getAttribute('aria-current'), name).toBe('step');
      expect(await axeFaults(page), name).toEqual([]);
    }
  });
});
