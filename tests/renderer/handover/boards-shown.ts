// From an opened plan to its boards on the screen, for tests of the last stage.

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

interface Json {
  profiles: Record<string, { scarf?: boolean; stock: { length: number; onHand?: number }[] }>;
  stockOnHand?: Record<string, { length: number; count: number }[]>;
  levels: { rooms: Record<string, { trim: { shoe?: string | null } }> }[];
}

/** The small demo house, changed so that its boards are soon worked out whole, opened. */
export async function openCottage(change: (plan: Json) => void): Promise<OpenWindow> {
  const plan = JSON.parse(await readFile(demoFile('thimble-cottage'), 'utf8')) as Json;
  change(plan);
  const folder = await mkdtemp(join(tmpdir(), 'copewright-cottage-'));
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
