// How long one edit takes on a large house, apply and derive apart: `npx tsx tests/bench/edit.ts`. The work is bundled
// first, as the window's is, and then run; times are this machine's, ratios to a fixed reckoning are kept by a slow one.
// `--small` leaves out the house of 10,000 walls.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const folder = mkdtempSync(join(tmpdir(), 'edit-bench-'));
const outfile = join(folder, 'work.mjs');
try {
  await build({
    entryPoints: [fileURLToPath(new URL('./edit-work.ts', import.meta.url))],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
  });
  const work: { run(demo: URL, sizes: readonly number[]): void } = await import(pathToFileURL(outfile).href);
  // 91 walls a copy.
  const sizes = process.argv.includes('--small') ? [22] : [22, 110];
  work.run(new URL('../../demo-data/larkspur-house.copewright.json', import.meta.url), sizes);
} finally {
  rmSync(folder, { recursive: true });
}
