// Puts bytes into a file so that the file is the old one or the new one, whole, at every moment.
// Order: temporary file beside the target, opened exclusively; write; fsync; size check; rename; fsync of the folder.
// Two popular atomic-write packages ignore the byte count of a short write and so lose data on a full disk; this does not.

import { randomBytes } from 'node:crypto';
import {
  access,
  constants,
  type FileHandle,
  lstat,
  open,
  realpath,
  rename,
  stat,
  unlink,
} from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { FileProblem, fileProblem } from './file-problem.ts';

/** Temporary files of ours: `.name.<16 hex>.copewright-tmp`. */
export const TEMPORARY = /^\..+\.[0-9a-f]{16}\.copewright-tmp$/;

/** The operations a write goes through; tests make the k-th fail. */
export interface FileCalls {
  open(path: string, flags: string, mode?: number): Promise<FileHandle>;
  rename(from: string, to: string): Promise<void>;
  unlink(path: string): Promise<void>;
}

const REAL_CALLS: FileCalls = { open, rename, unlink };

/** Follows links so that a link stays a link; a target that does not exist yet is itself. */
async function realTarget(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    const link = await lstat(path).catch(() => null);
    if (link) throw new FileProblem(path, 'is a link to something that is not there; name the file itself');
    return path;
  }
}

/** A file that is there must be an ordinary, writable one: rename would silently replace a read-only file. */
async function mayReplace(target: string): Promise<number | undefined> {
  const there = await stat(target).catch(() => null);
  if (!there) return undefined;
  if (!there.isFile()) throw new FileProblem(target, 'is not an ordinary file; name another');
  await access(target, constants.W_OK);
  if ((there.mode & 0o222) === 0)
    throw new FileProblem(target, 'is read-only; name another file or make it writable');
  return there.mode & 0o777;
}

async function syncFolder(folder: string, calls: FileCalls): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await calls.open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function writeTemporary(
  path: string,
  bytes: Uint8Array,
  mode: number | undefined,
  calls: FileCalls,
): Promise<void> {
  const handle = await calls.open(path, 'wx', mode ?? 0o666);
  try {
    await handle.writeFile(bytes);
    await handle.sync();
    const { size } = await handle.stat();
    if (size !== bytes.byteLength)
      throw new FileProblem(path, `took ${size} of ${bytes.byteLength} bytes; is the disk full?`);
    if (mode !== undefined) await handle.chmod(mode);
  } finally {
    await handle.close();
  }
}

/**
 * Writes `bytes` to `path`, whole or not at all. Throws `FileProblem` with one sentence when it cannot; the file that
 * was there is then untouched and no temporary file is left.
 */
export async function writeWhole(
  path: string,
  bytes: Uint8Array,
  calls: FileCalls = REAL_CALLS,
): Promise<void> {
  try {
    const target = await realTarget(path);
    const mode = await mayReplace(target);
    const folder = dirname(target);
    const temporary = join(
      folder,
      `.${basename(target).slice(0, 180)}.${randomBytes(8).toString('hex')}.copewright-tmp`,
    );
    try {
      await writeTemporary(temporary, bytes, mode, calls);
      await calls.rename(temporary, target);
    } catch (error) {
      await calls.unlink(temporary).catch(() => undefined);
      throw error;
    }
    await syncFolder(folder, calls);
  } catch (error) {
    throw fileProblem(path, error, 'write');
  }
}
