// The window as the tests of files use it: what is on the page, and what is on the disk.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright';
import { expect } from 'vitest';
import type { Answer } from '../../../electron/contract.ts';
import { type OpenWindow, openWindow, type WindowOptions } from '../window.ts';

export interface Use {
  readonly w: OpenWindow;
  readonly page: Page;
  /** An item of a menu, by pointer. */
  menu(name: string, item: string): Promise<void>;
  dialog(title: string): Locator;
  titleField(): Locator;
  rename(title: string): Promise<void>;
  /** When the host has the title: nothing is on its way any more. */
  taken(title: string): Promise<void>;
  /** Path of a file of the user. */
  atHome(name: string): string;
}

export async function openForFiles(options: WindowOptions = {}): Promise<Use> {
  const w = await openWindow(options);
  const { page } = w;
  const titleField = (): Locator => page.getByLabel('Title of the plan');
  return {
    w,
    page,
    titleField,
    menu: async (name, item) => {
      await page.getByRole('menuitem', { name, exact: true }).click();
      await page.getByRole('menu').getByText(item, { exact: true }).click();
    },
    dialog: (title) => page.getByRole('dialog', { name: title }),
    rename: async (title) => {
      await titleField().fill(title);
      await titleField().press('Enter');
    },
    taken: async (title) => {
      await expect
        .poll(async () => {
          const { opened } = (await w.local.desk.handle('start', {})) as Answer<'start'>;
          return opened?.outcome === 'opened' ? opened.view.title : null;
        })
        .toBe(title);
    },
    atHome: (name) => join(w.folder, 'home', name),
  };
}

/** A plan file as it is on the disk. */
export async function planAt(path: string): Promise<Record<string, unknown>> {
  return JSON.parse(await readFile(path, 'utf8')) as Record<string, unknown>;
}

/** Drops a file on the window while no plan is open. */
export async function dropOn(page: Page, name: string, text: string): Promise<void> {
  const dataTransfer = await page.evaluateHandle(
    (file) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([file.text], file.name, { type: 'application/json' }));
      return transfer;
    },
    { name, text },
  );
  await page.dispatchEvent('.welcome', 'drop', { dataTransfer });
}
