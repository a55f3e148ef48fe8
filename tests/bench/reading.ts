// What reading a file costs, as a multiple of the built-in parser's work on the same bytes: sound plans by size, and files
// made to hurt: `npx tsx tests/bench/reading.ts`. The work is bundled first, as the program's is. A ratio that grows with
// the size is work that grows faster than the file; times are this machine's.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const folder = mkdtempSync(join(tmpdir(), 'reading-bench-'));
const outfile = join(folder, 'work.mjs');
try {
  await build({
    entryPoints: [fileURLToPath(new URL('./reading-work.ts', import.meta.url))],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
  });
  const work: { run(): void } = await import(pathToFileURL(outfile).href);
  work.run();
} finally {
  rmSync(folder, { recursive: true });
}
