// The hands of the desktop form: its menus and file dialogs are the system's, so they are reached through the program's
// main side: a menu's item is clicked there, a file dialog is answered there before it is asked for.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ElectronApplication, Page } from 'playwright';
import type { CommandId } from '../../electron/menu.ts';
import type { Hands } from './ways.ts';

/** The next file dialogs for saving give this path. */
function answerSave(program: ElectronApplication, path: string): Promise<void> {
  return program.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
  }, path);
}

export function desktopHands(program: ElectronApplication, page: Page, folder: string): Hands {
  return {
    async menu(id: CommandId) {
      await program.evaluate(({ Menu }, wanted) => {
        const item = Menu.getApplicationMenu()?.getMenuItemById(wanted);
        if (item == null) throw new Error(`No menu has ${wanted}.`);
        item.click();
      }, id);
    },
    async saveAs(way, stem) {
      const path = join(folder, `${stem}.copewright.json`);
      await answerSave(program, path);
      await way.command('file.saveAs');
      await page.getByText(`Saved as ${stem}.copewright.json.`).waitFor();
      return readFile(path, 'utf8');
    },
    async exportPdf(way, stem) {
      const path = join(folder, `${stem}.pdf`);
      await answerSave(program, path);
      await way.command('file.exportPdf');
      await page.getByRole('dialog', { name: 'Hand over as PDF' }).waitFor();
      await way.press('Choose where…');
      await page.getByText('Written:').waitFor({ timeout: 60_000 });
      await way.press('Done');
      return new Uint8Array(await readFile(path));
    },
  };
}
