// The preload as the build makes it, as text: one file that needs nothing but the runtime.

import { join } from 'node:path';
import { build } from 'esbuild';
import { PROGRAM_FOLDER } from '../../electron/services/index.ts';

export async function builtPreload(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [join(PROGRAM_FOLDER, 'electron', 'preload.ts')],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'cjs',
    external: ['electron'],
    logLevel: 'silent',
  });
  return outputFiles[0]!.text;
}
