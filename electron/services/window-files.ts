// The window's own files, as both forms serve them: an allow-list made once from the built folder. A name that is not on
// the list is not looked for on the disk at all, so no spelling of a path leads anywhere else.

import { readdirSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
};

export interface WindowFile {
  readonly path: string;
  readonly type: string;
}

/** Address path (`/assets/index.js`) to the file it stands for. Files of other kinds are not served. */
export function builtFiles(folder: string): ReadonlyMap<string, WindowFile> {
  const files = new Map<string, WindowFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = TYPES[extname(entry.name)];
    if (!entry.isFile() || type === undefined) continue;
    const path = join(entry.parentPath, entry.name);
    files.set(`/${relative(folder, path).split(sep).join('/')}`, { path, type });
  }
  return files;
}
