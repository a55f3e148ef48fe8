// The hands of the browser form: menus of the window, file dialogs of the window, files below the server's home.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright';
import type { CommandId } from '../../electron/menu.ts';
import { type Hands, menuOf } from './ways.ts';

export function browserHands(page: Page, home: string): Hands {
  return {
    async menu(id: CommandId) {
      const { menu, words } = menuOf(id);
      await page.getByRole('menuitem', { name: menu, exact: true }).click();
      await page.getByRole('menu').getByText(words, { exact: true }).click();
    },
    async saveAs(way, stem) {
      await way.command('file.saveAs');
      await page.getByRole('dialog', { name: 'Save as' }).waitFor();
      // By the keyboard Enter in the field has saved it; the pointer's Enter does the same.
      await way.type('Name', stem);
      await page.getByText(`Saved as ${stem}.copewright.json.`).waitFor();
      return readFile(join(home, `${stem}.copewright.json`), 'utf8');
    },
    async exportPdf(way, stem) {
      await way.command('file.exportPdf');
      await page.getByRole('dialog', { name: 'Hand over as PDF' }).waitFor();
      await way.press('Choose where…');
      await page.getByLabel('Name', { exact: true }).waitFor();
      await way.type('Name', stem);
      await page.getByText('Written:').waitFor({ timeout: 60_000 });
      await way.press('Done');
      return new Uint8Array(await readFile(join(home, `${stem}.pdf`)));
    },
  };
}
