// `npm run package [-- --dir]`: builds what is not current and packs it for this system; with `--dir` as a folder, without
// installers. The packager fetches the desktop runtime by itself; where it cannot, one sentence says so.

import { build } from 'electron-builder';
import { PROGRAM_FOLDER } from '../services/program.ts';
import { ensure, HOST, partFolder, WINDOW } from './build-parts.ts';

const say = (line: string): void => console.log(line);
/** What the network and its libraries say where something cannot be had. */
const NO_NETWORK = /ENOTFOUND|EAI_AGAIN|ECONN|ETIMEDOUT|certificate|HTTPError|Response code/;

for (const part of [WINDOW, HOST]) await ensure(part, partFolder(part), say);
try {
  await build({
    projectDir: PROGRAM_FOLDER,
    config: 'electron/packaging/builder.json',
    dir: process.argv.includes('--dir'),
    publish: null,
  });
  say('The packages are in dist/packages.');
} catch (error) {
  const why = error instanceof Error ? error.message.split('\n', 1)[0]! : String(error);
  const cause = NO_NETWORK.test(why)
    ? 'the desktop runtime cannot be fetched from here'
    : 'the packager gave up';
  say(`No package was made: ${cause} (${why}). What goes into one is built and lies in dist/.`);
  // The packager leaves the exit code at 0.
  process.exit(2);
}
