// Puts bytes into a file so that the file is the old one or the new one, whole, at every moment.
// Order: temporary file beside the target, opened exclusively; write; fsync; size check; rename; fsync of the folder.
// Two popular atomic-write packages ignore the byte count of a short write and so lose data on a full disk; this does not.
// RULES: SK1, SK3, SK4.

import { constants, type Stats } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { codeOf, type FileCalls, REAL_CALLS } from './file-calls.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import { temporaryIn } from './temporary.ts';

export interface WriteOptions {
  readonly calls?: FileCalls;
  /** Refuse when there is a file of that name already. */
  readonly fresh?: boolean;
  /** Last look before the old file goes; what it throws stops the write. */
  readonly beforeRename?: () => Promise<void>;
}

/**
 * Where a write to `path` ends up: links followed, so that a link stays a link; of a file that is not there yet, its
 * folder's real path and its name. Throws where the link leads nowhere or the folder is not there.
 */
export async function realTarget(path: string, calls: FileCalls): Promise<string> {
  try {
    return await calls.realpath(path);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
    const link = await calls.lstat(path).catch(() => null);
    if (link) throw new FileProblem(path, 'is a link to something that is not there; name the file itself');
    return join(await calls.realpath(dirname(path)), basename(path));
  }
}

/** A file that is there must be an ordinary, writable one: rename would silently replace a read-only file. [SK3] */
export async function mayReplace(target: string, calls: FileCalls): Promise<Stats | null> {
  let there: Stats;
  try {
    there = await calls.stat(target);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
  if (!there.isFile()) throw new FileProblem(target, 'is not an ordinary file; name another');
  if ((there.mode & 0o222) === 0)
    throw new FileProblem(target, 'is read-only; name another file or make it writable');
  await calls.access(target, constants.W_OK);
  return there;
}

/** Some disks, mostly across a network, have no such call for folders and say so. */
const NO_FOLDER_SYNC = ['EINVAL', 'ENOTSUP'];
/** Such a folder may be written but not read; by then the rename is done, and to call it a failure would be untrue. */
const UNREADABLE = ['EACCES', 'EPERM'];

/** Makes the folder's list of names last through a loss of power, where the system can. Windows cannot. */
export async function syncFolder(folder: string, calls: FileCalls): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await calls.open(folder, 'r').catch((error: unknown) => {
    if (UNREADABLE.includes(codeOf(error) ?? '')) return null;
    throw error;
  });
  if (handle === null) return;
  try {
    await handle.sync().catch((error: unknown) => {
      if (!NO_FOLDER_SYNC.includes(codeOf(error) ?? '')) throw error;
    });
  } finally {
    await handle.close();
  }
}

/** Writes a new temporary file, with the mode and owner of the one that is `there`, and makes it last. */
export async function writeTemporary(
  path: string,
  bytes: Uint8Array,
  there: Stats | null,
  calls: FileCalls,
): Promise<void> {
  const mode = there === null ? 0o666 : there.mode & 0o777;
  const handle = await calls.open(path, 'wx', mode);
  try {
    await handle.writeFile(bytes);
    if (there !== null) {
      // Only root may give a file away; for others it stays theirs, which is all that can be had.
      if (there.uid !== process.geteuid?.() || there.gid !== process.getegid?.())
        await handle.chown(there.uid, there.gid).catch(() => undefined);
      await handle.chmod(mode);
    }
    await handle.sync();
    const { size } = await handle.stat();
    if (size !== bytes.byteLength)
      throw new FileProblem(path, `took ${size} of ${bytes.byteLength} bytes; is the disk full?`);
  } finally {
    await handle.close();
  }
}

/** Gives the temporary file the name of a file that must not be there yet. */
async function putFresh(temporary: string, target: string, calls: FileCalls): Promise<void> {
  try {
    await calls.link(temporary, target);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw error;
    // A disk without second names: look, then rename.
    const there = await calls.lstat(target).catch(() => null);
    if (there !== null) throw Object.assign(new Error('there already'), { code: 'EEXIST' });
    await calls.rename(temporary, target);
    return;
  }
  await calls.unlink(temporary);
}

/**
 * Writes `bytes` to `path`, whole or not at all. Throws `FileProblem` with one sentence when it cannot; the file that
 * was there is then untouched (or, when only the last fsync failed, already the new one) and no temporary file is left,
 * as far as the disk still lets one be removed. [SK1]
 */
export async function writeWhole(path: string, bytes: Uint8Array, options: WriteOptions = {}): Promise<void> {
  const { calls = REAL_CALLS, fresh = false, beforeRename } = options;
  try {
    const target = await realTarget(path, calls);
    const there = await mayReplace(target, calls);
    if (fresh && there !== null) throw Object.assign(new Error('there already'), { code: 'EEXIST' });
    const folder = dirname(target);
    const temporary = temporaryIn(folder);
    try {
      await writeTemporary(temporary, bytes, there, calls);
      await beforeRename?.();
      if (fresh) await putFresh(temporary, target, calls);
      else await calls.rename(temporary, target);
    } catch (error) {
      await calls.unlink(temporary).catch(() => undefined);
      throw error;
    }
    await syncFolder(folder, calls);
  } catch (error) {
    throw fileProblem(path, error, 'write');
  }
}
