// The command line as one file, for tests that start it many times: read from the sources it takes a second to start.

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { PROGRAM_FOLDER } from '../../electron/services/program.ts';

/** Bundles the command line under the name of who asks, two of whom may ask at once; gives the file, which Node runs. */
export function bundledCli(asker: string): string {
  // Packages are found from where it lies.
  const folder = join(PROGRAM_FOLDER, 'node_modules', '.cache', 'copewright');
  mkdirSync(folder, { recursive: true });
  const outfile = join(folder, `${asker}-under-test.mjs`);
  buildSync({
    entryPoints: [join(PROGRAM_FOLDER, 'electron', 'cli.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    logLevel: 'silent',
  });
  return outfile;
}
