// The build: the window by vite into dist/window, what runs beside it by esbuild into dist/host, with all packages in it
// and its fonts and solver beside it, so that it needs nothing but dist/, demo-data/ and package.json. A part is built
// only where what it is made from has changed: beside it stands the hash of its sources. It is made in a folder aside and
// then put in place, so that there is never half a part. The tools are loaded only where something is to be built.

import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import type { BuildOptions } from 'esbuild';
import { codeOf } from '../services/file-calls.ts';
import { FONT_FILES, fontInPackage } from '../services/fonts.ts';
import { ownMark, stateOf, UNKNOWN_START } from '../services/process-mark.ts';
import { PROGRAM_FOLDER } from '../services/program.ts';

const at = (...steps: string[]): string => join(PROGRAM_FOLDER, ...steps);

interface Part {
  readonly name: 'window' | 'host';
  /** Files and folders that it is made from. */
  readonly sources: readonly string[];
  make(folder: string): Promise<void>;
}

export const WINDOW: Part = {
  name: 'window',
  sources: [
    'core',
    'renderer',
    'electron/contract.ts',
    'electron/channels.ts',
    'electron/menu.ts',
    'package-lock.json',
  ],
  make: async (outDir) => {
    const { build } = await import('vite');
    await build({
      configFile: at('renderer', 'vite.config.ts'),
      logLevel: 'error',
      build: { outDir, emptyOutDir: true },
    });
  },
};

export const HOST: Part = {
  name: 'host',
  sources: ['core', 'electron', 'package-lock.json'],
  make: async (outdir) => {
    const { build } = await import('esbuild');
    const common: BuildOptions = {
      bundle: true,
      platform: 'node',
      target: 'node20',
      external: ['electron'],
      logLevel: 'error',
      outdir,
    };
    const entry = (name: string, path: string): Record<string, string> =>
      existsSync(at(path)) ? { [name]: at(path) } : {};
    await build({
      ...common,
      format: 'esm',
      outExtension: { '.js': '.mjs' },
      // Packages in the older form ask for Node's own modules by `require`.
      banner: {
        js: "import { createRequire as requireMaker } from 'node:module'; const require = requireMaker(import.meta.url);",
      },
      entryPoints: {
        ...entry('local', 'electron/local/run.ts'),
        ...entry('thread', 'electron/services/thread.ts'),
        ...entry('main', 'electron/main/index.ts'),
      },
    });
    copyFileSync(createRequire(import.meta.url).resolve('highs/runtime'), join(outdir, 'highs.wasm'));
    mkdirSync(join(outdir, 'fonts'));
    for (const file of Object.values(FONT_FILES))
      copyFileSync(fontInPackage(file), join(outdir, 'fonts', basename(file)));
    const preload = entry('preload', 'electron/preload.ts');
    if (Object.keys(preload).length === 0) return;
    // A sandboxed preload is one file and may ask for little more than the runtime itself.
    await build({
      ...common,
      format: 'cjs',
      outExtension: { '.js': '.cjs' },
      entryPoints: preload,
    });
  },
};

function filesIn(path: string): string[] {
  const entries = existsSync(path) ? readdirSync(path, { withFileTypes: true }) : [];
  return entries.flatMap((entry) => {
    const inner = join(path, entry.name);
    return entry.isDirectory() ? filesIn(inner) : [inner];
  });
}

/** Hash of everything a part is made from. */
export function keyOf({ sources }: Part): string {
  const hash = createHash('sha256');
  for (const source of sources) {
    const files = /\.\w+$/.test(source) ? [at(source)] : filesIn(at(source)).sort();
    for (const file of files)
      hash.update(`${file.slice(PROGRAM_FOLDER.length)}\n`).update(readFileSync(file));
  }
  return hash.digest('hex');
}

const markOf = (folder: string): string => `${folder}.key`;

/** Whether the part in `folder` is made from the sources as they are. */
export function isCurrent(folder: string, key: string): boolean {
  return (
    existsSync(folder) && existsSync(markOf(folder)) && readFileSync(markOf(folder), 'utf8').trim() === key
  );
}

/** A folder is put in its place in a moment; whoever has been at it longer was killed, ms. */
const KILLED_MS = 10_000;

/** Does what is done to a folder while no other process does, so that none takes away what another has just put there. */
async function alone(folder: string, action: () => void): Promise<void> {
  const lock = `${folder}.lock`;
  /** The lock that is waited for, by its time, and since when: its time may lie ahead where the clock was set back. */
  let waiting = { since: Number.NaN, from: 0 };
  for (;;) {
    try {
      mkdirSync(lock);
      break;
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
      const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now();
      const now = performance.now();
      if (since !== waiting.since) waiting = { since, from: now };
      if (Date.now() - since > KILLED_MS || now - waiting.from > KILLED_MS)
        rmSync(lock, { recursive: true, force: true });
      else await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }
  try {
    action();
  } finally {
    rmSync(lock, { recursive: true, force: true });
  }
}

/** Longer than any build takes, ms: a process of that number is another one by now. */
const OLD_MS = 3600_000;

/** Removes what builds of this part that were killed left beside it. */
function sweep(folder: string): void {
  const { host } = ownMark();
  const inside = dirname(folder);
  for (const name of readdirSync(inside)) {
    const [, part, pid, at] = /^(.+)-(\d{1,10})-(\d{1,16})\.tmp$/.exec(name) ?? [];
    if (part !== basename(folder)) continue;
    const gone = stateOf({ host, pid: Number(pid), start: UNKNOWN_START }) === 'dead';
    if (gone || Date.now() - Number(at) > OLD_MS)
      rmSync(join(inside, name), { recursive: true, force: true });
  }
}

/** Makes a part into `folder`, where it is not current; `say` hears when it begins. */
export async function ensure(part: Part, folder: string, say: (line: string) => void): Promise<void> {
  const key = keyOf(part);
  if (isCurrent(folder, key)) return;
  say(`Building the ${part.name}…`);
  const start = performance.now();
  const aside = `${folder}-${process.pid}-${Date.now()}.tmp`;
  mkdirSync(dirname(folder), { recursive: true });
  sweep(folder);
  try {
    await part.make(aside);
    await alone(folder, () => {
      // Another process may have been quicker.
      if (isCurrent(folder, key)) return;
      rmSync(markOf(folder), { force: true });
      rmSync(folder, { recursive: true, force: true });
      renameSync(aside, folder);
      writeFileSync(markOf(folder), `${key}\n`);
    });
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
  say(`Built the ${part.name} in ${((performance.now() - start) / 1000).toFixed(1)} s.`);
}

export const partFolder = (part: Part): string => at('dist', part.name);
