// How long the desk holds up everything else while it works on large plans: of each step the most that is done in one go,
// ms of this machine's CPU: `npx tsx tests/bench/holdups.ts [MB ...]`. What a thread does beside it does not count.
// The work and its thread are bundled first, as the program's are.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const sizes = process.argv.slice(2).map(Number);
const folder = mkdtempSync(join(tmpdir(), 'holdups-bench-'));
try {
  await build({
    entryPoints: { work: at('./holdups-work.ts'), thread: at('../../electron/services/thread.ts') },
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
    banner: {
      js: "import { createRequire as requireMaker } from 'node:module'; const require = requireMaker(import.meta.url);",
    },
  });
  const work: { run(folder: string, house: string, megabytes: number): Promise<void> } = await import(
    pathToFileURL(join(folder, 'work.mjs')).href
  );
  const house = at('../../demo-data/larkspur-house.copewright.json');
  for (const megabytes of sizes.length > 0 ? sizes : [15, 40])
    await work.run(join(folder, String(megabytes)), house, megabytes);
} finally {
  rmSync(folder, { recursive: true });
}
