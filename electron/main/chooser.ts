// The system's own file dialogs, as the desk asks for them.

import { join } from 'node:path';
import type { BrowserWindow, Dialog, FileFilter, Shell } from 'electron';
import type { Chooser } from '../services/index.ts';

const PLAN: FileFilter = { name: 'Copewright plan', extensions: ['copewright.json'] };
const EXPORTS: Readonly<Record<'pdf' | 'report', FileFilter>> = {
  pdf: { name: 'PDF', extensions: ['pdf'] },
  report: { name: 'Report', extensions: ['report.json'] },
};
const ALL: FileFilter = { name: 'All files', extensions: ['*'] };

export interface NativeParts {
  readonly dialog: Pick<Dialog, 'showOpenDialog' | 'showSaveDialog'>;
  readonly shell: Pick<Shell, 'showItemInFolder' | 'openPath'>;
  /** The window the dialogs belong to; null while there is none: nothing is asked then. */
  window(): BrowserWindow | null;
}

export function nativeChooser({ dialog, shell, window }: NativeParts): Chooser {
  const open = async (
    what: 'openFile' | 'openDirectory',
    defaultPath: string,
    filters: FileFilter[],
  ): Promise<string | null> => {
    const owner = window();
    if (owner === null) return null;
    const properties = what === 'openDirectory' ? [what, 'createDirectory' as const] : [what];
    const { canceled, filePaths } = await dialog.showOpenDialog(owner, { properties, defaultPath, filters });
    return canceled ? null : (filePaths[0] ?? null);
  };
  const save = async (defaultPath: string, filters: FileFilter[]): Promise<string | null> => {
    const owner = window();
    if (owner === null) return null;
    const { canceled, filePath } = await dialog.showSaveDialog(owner, { defaultPath, filters });
    return canceled || filePath === '' ? null : filePath;
  };
  return {
    openFile: (folder) => open('openFile', folder, [PLAN, ALL]),
    saveFile: (name, folder) => save(join(folder, name), [PLAN]),
    exportTo: (kind, name, folder) =>
      kind === 'csv' ? open('openDirectory', folder, []) : save(join(folder, name), [EXPORTS[kind], ALL]),
    showInFolder: (path) => shell.showItemInFolder(path),
    openInViewer: async (path) => (await shell.openPath(path)) === '',
  };
}
