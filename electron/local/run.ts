// The browser form as a program: starts it, prints its address, opens the user's browser on it, ends it when it has been
// left, or when the terminal says so: twice, where that loses work.

import { spawn } from 'node:child_process';
import { homedir } from 'node:os';
import { realEnv } from '../services/env.ts';
import { programVersion, userDataFolder, WINDOW_FOLDER } from '../services/program.ts';
import { goOnUnread } from '../services/unread.ts';
import { startLocal } from './server.ts';

/** Asks the system to show an address. It may have no browser: then the printed address is what there is. */
function show(address: string): void {
  if (process.env.COPEWRIGHT_NO_BROWSER) return;
  const [command, ...words] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '""', address]
        : ['xdg-open', address];
  const child = spawn(command!, words, { stdio: 'ignore', detached: true });
  child.on('error', () => undefined);
  child.unref();
}

/** Runs until the window is left or the process is told to end. `print` takes lines for the user. */
export async function runLocal(file: string | null, print: (line: string) => void): Promise<void> {
  goOnUnread();
  const local = await startLocal({
    env: realEnv(userDataFolder()),
    version: programVersion(),
    windowFolder: WINDOW_FOLDER,
    home: homedir(),
    file,
    openLink: show,
    log: print,
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void local.stop());
  print(`Copewright is at ${local.address}`);
  print(
    'The address is good for one browser, once. It ends by itself when its page is closed; Ctrl+C ends it too.',
  );
  show(local.address);
  await local.stopped;
}
