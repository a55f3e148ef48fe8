// Where the desktop runtime is, if it is there at all: its package does not check. One short attempt to fetch it with the
// package's own script, never an install.

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { PROGRAM_FOLDER } from '../services/program.ts';

const FETCH_MS = 20_000;

function executable(): string {
  if (process.platform === 'darwin') return 'Electron.app/Contents/MacOS/Electron';
  return process.platform === 'win32' ? 'electron.exe' : 'electron';
}

const PACKAGE = join(PROGRAM_FOLDER, 'node_modules', 'electron');

/** The runtime's program file, or null where it is not there. */
export function findRuntime(environment: NodeJS.ProcessEnv = process.env): string | null {
  const path = join(environment.ELECTRON_OVERRIDE_DIST_PATH || join(PACKAGE, 'dist'), executable());
  return existsSync(path) ? path : null;
}

/** Tries to fetch the runtime, where that is wanted; gives what is there afterwards. */
export function fetchRuntime(
  say: (line: string) => void,
  environment: NodeJS.ProcessEnv = process.env,
): string | null {
  const script = join(PACKAGE, 'install.js');
  const { ELECTRON_OVERRIDE_DIST_PATH: own, ELECTRON_SKIP_BINARY_DOWNLOAD: skip } = environment;
  if (own || skip || !existsSync(script)) return null;
  say('Fetching the desktop runtime, for at most 20 seconds…');
  spawnSync(process.execPath, [script], { stdio: 'ignore', timeout: FETCH_MS, killSignal: 'SIGKILL' });
  return findRuntime(environment);
}
