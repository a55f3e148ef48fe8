// Where the program's own files are, and where its user's are. The sources (electron/services/) and the build
// (dist/host/) lie equally deep, so one way up is right for both.

import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that has package.json, demo-data/ and dist/. */
export const PROGRAM_FOLDER = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

export const WINDOW_FOLDER = join(PROGRAM_FOLDER, 'dist', 'window');

export function demoPath(house: string): string {
  return join(PROGRAM_FOLDER, 'demo-data', `${house}.copewright.json`);
}

export function programVersion(): string {
  const text = readFileSync(join(PROGRAM_FOLDER, 'package.json'), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}

/**
 * The folder for journals, versions, preferences: the same for the desktop and the browser form, so that each sees what
 * the other holds and left. `COPEWRIGHT_USER_DATA` names another. What the system names is heeded where it is an
 * absolute path: an empty one would lead into whatever folder is current (XDG Base Directory Specification).
 */
export function userDataFolder(environment: NodeJS.ProcessEnv = process.env): string {
  const { COPEWRIGHT_USER_DATA: own, APPDATA, XDG_CONFIG_HOME } = environment;
  if (own) return own;
  if (process.platform === 'win32')
    return join(absolute(APPDATA) ?? join(homedir(), 'AppData', 'Roaming'), 'Copewright', 'safe');
  if (process.platform === 'darwin')
    return join(homedir(), 'Library', 'Application Support', 'Copewright', 'safe');
  return join(absolute(XDG_CONFIG_HOME) ?? join(homedir(), '.config'), 'copewright', 'safe');
}

const absolute = (path: string | undefined): string | null =>
  path !== undefined && isAbsolute(path) ? path : null;
