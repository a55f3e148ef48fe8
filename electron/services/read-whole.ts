// A file's bytes with what tells them from others: real path, hash, size, time. The size is looked at before anything is
// read, and never more is read than the limit, whatever the file does meanwhile. Never writes. RULES: SK2, SK14.

import { createHash } from 'node:crypto';
import { codeOf, type FileCalls } from './file-calls.ts';
import { FileProblem, fileProblem } from './file-problem.ts';

/** What is known of a file as it was when it was read or written. */
export interface Fingerprint {
  /** SHA-256 of the bytes, hex: the only thing that is compared. */
  readonly hash: string;
  readonly size: number;
  /** For telling people; never compared. */
  readonly mtimeMs: number;
}

export interface WholeFile extends Fingerprint {
  /** Without links. */
  readonly realPath: string;
  readonly bytes: Uint8Array;
}

/** SHA-256, hex. */
export function hashOf(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/**
 * Reads an ordinary file of at most `limit` bytes. `kind` names what was wanted, such as 'a plan file'.
 * Throws `FileProblem` with one sentence; so for folders, pipes and devices, which would never end. [SK14]
 */
export async function readWhole(
  path: string,
  limit: number,
  kind: string,
  calls: FileCalls,
): Promise<WholeFile> {
  try {
    const realPath = await calls.realpath(path);
    // Before opening: opening a pipe waits for its other end.
    mustBeOrdinary(path, await calls.stat(realPath), limit, kind);
    const handle = await calls.open(realPath, 'r');
    try {
      const about = await handle.stat();
      mustBeOrdinary(path, about, limit, kind);
      const bytes = await readUpTo(handle, about.size, limit);
      if (bytes === null) throw tooLarge(path, limit, kind);
      return { realPath, bytes, hash: hashOf(bytes), size: bytes.byteLength, mtimeMs: about.mtimeMs };
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw fileProblem(path, error, 'read');
  }
}

/** The same, or null where there is no such file. A folder above it that is gone counts as gone. */
export async function readIfThere(
  path: string,
  limit: number,
  kind: string,
  calls: FileCalls,
): Promise<WholeFile | null> {
  try {
    await calls.stat(path);
  } catch (error) {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR') return null;
    throw fileProblem(path, error, 'read');
  }
  return readWhole(path, limit, kind, calls);
}

interface About {
  readonly size: number;
  isDirectory(): boolean;
  isFile(): boolean;
}

function mustBeOrdinary(path: string, about: About, limit: number, kind: string): void {
  if (about.isDirectory()) throw new FileProblem(path, `is a folder; name ${kind}`);
  if (!about.isFile()) throw new FileProblem(path, `is not an ordinary file; name ${kind}`);
  if (about.size > limit) throw tooLarge(path, limit, kind);
}

function tooLarge(path: string, limit: number, kind: string): FileProblem {
  const mib = Math.round(limit / 1024 / 1024);
  return new FileProblem(path, `is larger than ${mib} MiB, which no plan is; name ${kind}`);
}

/** All bytes to the end of the file; null when there are more than `limit`. */
async function readUpTo(
  handle: Awaited<ReturnType<FileCalls['open']>>,
  expected: number,
  limit: number,
): Promise<Uint8Array | null> {
  let buffer = Buffer.allocUnsafe(Math.min(expected, limit) + 1);
  let length = 0;
  for (;;) {
    if (length === buffer.length) {
      if (length > limit) return null;
      const larger = Buffer.allocUnsafe(Math.min(2 * buffer.length, limit) + 1);
      buffer.copy(larger);
      buffer = larger;
    }
    const { bytesRead } = await handle.read(buffer, length, buffer.length - length, length);
    if (bytesRead === 0) return length > limit ? null : buffer.subarray(0, length);
    length += bytesRead;
  }
}
