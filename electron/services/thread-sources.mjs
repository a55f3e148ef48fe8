// Starts the thread's program from the sources, which a thread cannot read by itself: made into one file first, which is
// gone as soon as it is loaded. Not part of the build.

import { randomBytes } from 'node:crypto';
import { unlink } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));
// Packages are found from where it lies.
const outfile = at(`../../node_modules/.cache/copewright/thread-${randomBytes(8).toString('hex')}.mjs`);

await build({
  entryPoints: [at('./thread.ts')],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  logLevel: 'silent',
});
await import(outfile);
await unlink(outfile);
