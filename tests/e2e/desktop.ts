// `npm run test:desktop`: the whole job in the desktop program itself, once with the pointer and once by the keyboard alone.
// Where the runtime is not here nothing is run, and that is said and is the exit code 2: it is no success.

import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { _electron } from 'playwright';
import { ensure, HOST, partFolder, WINDOW } from '../../electron/scripts/build-parts.ts';
import { findRuntime } from '../../electron/scripts/runtime.ts';
import { byKeyboard } from './by-keyboard.ts';
import { byPointer } from './by-pointer.ts';
import { desktopHands } from './desktop-hands.ts';
import type { Hands, Way } from './ways.ts';
import { wholeJob } from './whole-job.ts';

const NOT_HERE = 'The desktop runtime is not here: the end-to-end suite was not run under it.';
const say = (line: string): void => console.log(line);

type MakeWay = (page: Way['page'], hands: Hands) => Way;
const WAYS: readonly (readonly [words: string, make: MakeWay])[] = [
  ['by the keyboard alone', (page) => byKeyboard(page)],
  ['with the pointer', (page, hands) => byPointer(page, hands)],
];

/** The job in a program of its own, on folders of its own; what the page complained of is a failure as well. */
async function run(runtime: string, make: MakeWay): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'copewright-desktop-'));
  const program = await _electron.launch({
    executablePath: runtime,
    args: [join(partFolder(HOST), 'main.mjs')],
    env: { ...stringsOf(process.env), ...ownFolders(folder) },
  });
  try {
    const page = await program.firstWindow();
    page.setDefaultTimeout(15_000);
    const errors: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    page.on('pageerror', (error) => errors.push(String(error.stack ?? error)));
    await program.evaluate(({ BrowserWindow }) =>
      BrowserWindow.getAllWindows()[0]?.setContentSize(1440, 900),
    );
    const hands = desktopHands(program, page, folder);
    await wholeJob(make(page, hands), hands);
    if (errors.length > 0) throw new Error(`The page complained: ${errors.join('\n')}`);
  } finally {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  }
}

/** The user's own plans and preferences are left alone: the program's folders are below this one. */
function ownFolders(folder: string): Record<string, string> {
  return {
    COPEWRIGHT_USER_DATA: join(folder, 'user'),
    HOME: folder,
    XDG_CONFIG_HOME: folder,
    APPDATA: folder,
  };
}

function stringsOf(environment: NodeJS.ProcessEnv): Record<string, string> {
  return Object.fromEntries(
    Object.entries(environment).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  );
}

async function main(): Promise<number> {
  const runtime = findRuntime();
  if (runtime === null) {
    say(NOT_HERE);
    return 2;
  }
  for (const part of [WINDOW, HOST]) await ensure(part, partFolder(part), say);
  let failed = 0;
  for (const [words, make] of WAYS) {
    try {
      await run(runtime, make);
      say(`The whole job ${words}: done.`);
    } catch (error) {
      failed += 1;
      say(`The whole job ${words} failed: ${error instanceof Error ? error.stack : String(error)}`);
    }
  }
  return failed === 0 ? 0 : 1;
}

process.exitCode = await main();
