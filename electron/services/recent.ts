// The files opened and saved last, newest first. Callers outside the services get ids and names, never paths.
// RULES: SK6, SK12.

import { dirname } from 'node:path';
import { z } from 'zod';
import type { Env } from './env.ts';
import { nameOf } from './file-names.ts';
import { hashOf } from './read-whole.ts';
import { smallFile } from './small-file.ts';

const MOST = 10;

const RecentSchema = z.object({ files: z.array(z.string().min(1).max(4096)).max(MOST) });

export interface RecentFile {
  readonly id: string;
  /** The file's name and its folder's name, to tell two of one name apart. */
  readonly name: string;
  readonly folder: string;
}

export interface Recent {
  list(): Promise<readonly RecentFile[]>;
  /** Puts a file first. The order is that of the calls, whatever the clock says. */
  add(path: string): Promise<void>;
  remove(id: string): Promise<void>;
  clear(): Promise<void>;
  /** For the services and the main process only. */
  pathOf(id: string): Promise<string | null>;
  paths(): Promise<readonly string[]>;
}

const idOf = (path: string): string => hashOf(`recent\n${path}`).slice(0, 16);

/** `recent.json`. */
export function recentFiles(env: Env): Recent {
  const file = smallFile(env, 'recent.json', RecentSchema, { files: [] });
  const change = async (how: (paths: string[]) => string[]): Promise<void> => {
    await file.change(({ files }) => ({ files: how(files).slice(0, MOST) }));
  };
  return {
    list: async () =>
      (await file.read()).files.map((path) => ({
        id: idOf(path),
        name: nameOf(path),
        folder: nameOf(dirname(path)),
      })),
    add: (path) => change((paths) => [path, ...paths.filter((other) => other !== path)]),
    remove: (id) => change((paths) => paths.filter((path) => idOf(path) !== id)),
    clear: () => change(() => []),
    pathOf: async (id) => (await file.read()).files.find((path) => idOf(path) === id) ?? null,
    paths: async () => (await file.read()).files,
  };
}
