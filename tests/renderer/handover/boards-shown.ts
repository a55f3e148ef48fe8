// From an opened plan to its boards on the screen, for tests of the last stage.

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

/** The small demo house without scarfs in its shoe, opened: its boards are worked out whole in a few seconds. */
export async function openUnjoined(): Promise<OpenWindow> {
  const plan = JSON.parse(await readFile(demoFile('thimble-cottage'), 'utf8'));
  plan.profiles['shoe-a'].scarf = false;
  const folder = await mkdtemp(join(tmpdir(), 'copewright-unjoined-'));
  const file = join(folder, 'thimble-cottage.copewright.json');
  await writeFile(file, JSON.stringify(plan));
  try {
    return await openWindow({ file });
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** Goes to the last stage; done when the first boards are shown. */
export async function boardsShown(page: Page): Promise<void> {
  await page.locator('.sheet-canvas').first().waitFor();
  await page.keyboard.press('Alt+4');
  await page.locator('.handover-board').first().waitFor({ timeout: 120_000 });
}
