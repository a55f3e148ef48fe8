// `npm start [-- file]`: builds what is not current, opens the window in the desktop runtime, or, where there is none, in
// the user's browser. Installs nothing.

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { runLocal } from '../local/run.ts';
import { ensure, HOST, partFolder, WINDOW } from './build-parts.ts';
import { fetchRuntime, findRuntime } from './runtime.ts';

const say = (line: string): void => console.log(line);

/** A runtime that gives up this soon did not open a window: no display, or no sandbox. */
const NO_START_MS = 10_000;

/** Runs the desktop form; false where it did not start. */
function runDesktop(runtime: string, file: string | null): boolean {
  const main = join(partFolder(HOST), 'main.mjs');
  if (!existsSync(main)) return false;
  const start = performance.now();
  const { status } = spawnSync(runtime, [main, ...(file === null ? [] : [file])], { stdio: 'inherit' });
  if (status !== 0 && performance.now() - start < NO_START_MS) return false;
  process.exitCode = status ?? 1;
  return true;
}

async function runBrowser(file: string | null): Promise<void> {
  const path = pathToFileURL(join(partFolder(HOST), 'local.mjs')).href;
  const local = (await import(path)) as { runLocal: typeof runLocal };
  await local.runLocal(file, say);
}

const [named, ...more] = process.argv.slice(2);
// Nothing is dropped without a word: neither a second plan, nor what was meant for a switch.
if (more.length > 0 || named?.startsWith('-')) {
  console.error(
    'Name one plan and nothing else, as in npm start -- house.copewright.json; a name with blanks goes in quotation marks.',
  );
  process.exit(2);
}
// npm runs scripts in the program's folder; the user named the file from where they were.
const file = named === undefined ? null : resolve(process.env.INIT_CWD ?? '.', named);

for (const part of [WINDOW, HOST]) await ensure(part, partFolder(part), say);
const runtime = findRuntime() ?? fetchRuntime(say);
if (runtime === null || !runDesktop(runtime, file)) {
  say(
    runtime === null
      ? 'The desktop runtime is not here, so the window opens in your browser.'
      : 'The desktop runtime did not start, so the window opens in your browser.',
  );
  await runBrowser(file);
}
