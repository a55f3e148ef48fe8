// From an opened plan to its boards on the screen, for tests of the last stage.

import type { Page } from 'playwright';

/** Goes to the last stage; done when the first boards are shown. */
export async function boardsShown(page: Page): Promise<void> {
  await page.locator('.sheet-canvas').first().waitFor();
  await page.keyboard.press('Alt+4');
  await page.locator('.handover-board').first().waitFor({ timeout: 120_000 });
}
