// Every operation on files that the services use, as one set, so that tests can make the k-th of them fail.
// Paths in, Node's own answers out. Knows nothing of plans.

import type { Stats } from 'node:fs';
import {
  access,
  type FileHandle,
  link,
  lstat,
  mkdir,
  open,
  readdir,
  realpath,
  rename,
  rmdir,
  stat,
  unlink,
} from 'node:fs/promises';
import { dirname } from 'node:path';

export interface FileCalls {
  open(path: string, flags: string | number, mode?: number): Promise<FileHandle>;
  rename(from: string, to: string): Promise<void>;
  /** A second name for a file; fails where the name is taken. */
  link(from: string, to: string): Promise<void>;
  unlink(path: string): Promise<void>;
  stat(path: string): Promise<Stats>;
  lstat(path: string): Promise<Stats>;
  /** The path without links, in the disk's own spelling. */
  realpath(path: string): Promise<string>;
  access(path: string, mode: number): Promise<void>;
  /** Makes the folder and those above it, for this user only where no mode is given; nothing when it is there. */
  mkdir(path: string, mode?: number): Promise<void>;
  rmdir(path: string): Promise<void>;
  readdir(path: string): Promise<string[]>;
}

const OWN_FOLDER = 0o700;
/** For a folder among the user's files: whoever the system's mask of modes lets in. */
export const USERS_FOLDER = 0o777;

const isFolder = async (path: string): Promise<boolean> =>
  (await stat(path).catch(() => null))?.isDirectory() ?? false;

/** The error, where a folder could not be made; null where it is there, whoever made it. */
async function whyNoFolder(path: string, mode: number): Promise<unknown> {
  try {
    await mkdir(path, { mode });
    return null;
  } catch (error) {
    return (await isFolder(path)) ? null : error;
  }
}

/**
 * Node's own `recursive` tries for ever where the system says that nothing is there though the folder above is, as it does
 * of any new name in /proc.
 */
async function makeFolder(path: string, mode: number): Promise<void> {
  const first = await whyNoFolder(path, mode);
  if (first === null) return;
  if (codeOf(first) !== 'ENOENT' || dirname(path) === path) throw first;
  await makeFolder(dirname(path), mode);
  const second = await whyNoFolder(path, mode);
  if (second !== null) throw second;
}

export const REAL_CALLS: FileCalls = {
  open,
  rename,
  link,
  unlink,
  stat: (path) => stat(path),
  lstat: (path) => lstat(path),
  realpath: (path) => realpath(path),
  access,
  mkdir: (path, mode = OWN_FOLDER) => makeFolder(path, mode),
  rmdir: (path) => rmdir(path),
  readdir: (path) => readdir(path),
};

/** The code of a failed file operation, such as `ENOENT`; undefined for any other error. */
export function codeOf(error: unknown): string | undefined {
  return (error as NodeJS.ErrnoException | null)?.code;
}
