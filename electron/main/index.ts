// Where the desktop runtime starts: the program with the built window, and the preload beside this file's bundle.

import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { goOnUnread, WINDOW_FOLDER } from '../services/index.ts';
import { runProgram } from './program.ts';

goOnUnread();
runProgram({ window: WINDOW_FOLDER, preload: join(dirname(fileURLToPath(import.meta.url)), 'preload.cjs') });
