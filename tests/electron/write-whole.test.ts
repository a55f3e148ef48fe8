// Saving whole or not at all: every file operation made to fail in turn, a full disk, links, read-only files.

import {
  chmod,
  lstat,
  mkdir,
  mkdtemp,
  open,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  symlink,
  writeFile,
} from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type FileCalls, REAL_CALLS } from '../../electron/services/file-calls.ts';
import { FileProblem } from '../../electron/services/file-problem.ts';
import { writeWhole } from '../../electron/services/write-whole.ts';
import { smallDisk } from './services/helpers.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('writing a file whole', () => {
  let folder: string;
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'copewright-write-'));
  });
  afterEach(() => rm(folder, { recursive: true, force: true }));

  it('writes a new file and replaces an old one, leaving nothing else behind', async () => {
    const path = join(folder, 'a.pdf');
    await writeWhole(path, bytes('one'));
    await writeWhole(path, bytes('two'));
    expect(await readFile(path, 'utf8')).toBe('two');
    expect(await readdir(folder)).toEqual(['a.pdf']);
  });

  it('a file that comes between the look and the last step is not written over where a fresh one is asked for', async () => {
    const path = join(folder, 'a.pdf');
    const beforeRename = () => writeFile(path, 'theirs');
    await expect(writeWhole(path, bytes('ours'), { fresh: true, beforeRename })).rejects.toThrow(FileProblem);
    expect(await readFile(path, 'utf8')).toBe('theirs');
    expect(await readdir(folder)).toEqual(['a.pdf']);
  });

  it('keeps mode bits and keeps a link a link', async () => {
    const real = join(folder, 'real.pdf');
    const link = join(folder, 'link.pdf');
    await writeFile(real, 'old');
    await chmod(real, 0o640);
    await symlink(real, link);
    await writeWhole(link, bytes('new'));
    expect((await lstat(link)).isSymbolicLink()).toBe(true);
    expect(await readFile(real, 'utf8')).toBe('new');
    expect((await stat(real)).mode & 0o777).toBe(0o640);
  });

  it('notices a disk that takes less than it is given without a word: the old file stays, whole', async () => {
    const path = join(folder, 'a.pdf');
    await writeWhole(path, bytes('the old one'));
    const calls: FileCalls = {
      ...REAL_CALLS,
      open: async (at, ...more) => {
        const handle = await REAL_CALLS.open(at, ...more);
        const real = handle.writeFile.bind(handle);
        const short = (data: Uint8Array) => real(data.subarray(0, data.length - 4));
        return Object.assign(handle, { writeFile: short as typeof handle.writeFile });
      },
    };
    await expect(writeWhole(path, bytes('the new one'), { calls })).rejects.toMatchObject({
      what: expect.stringMatching(/^took 7 of 11 bytes; is the disk full\?$/),
    });
    expect(await readFile(path, 'utf8')).toBe('the old one');
    expect(await readdir(folder)).toEqual(['a.pdf']);
  });

  it('refuses a read-only file, a folder, a dangling link and a missing folder, each in one sentence', async () => {
    const readOnly = join(folder, 'ro.pdf');
    await writeFile(readOnly, 'old');
    await chmod(readOnly, 0o444);
    const dangling = join(folder, 'dangling.pdf');
    await symlink(join(folder, 'nowhere'), dangling);
    await mkdir(join(folder, 'sub'));
    for (const path of [readOnly, join(folder, 'sub'), dangling, join(folder, 'missing', 'a.pdf')]) {
      const problem = await writeWhole(path, bytes('new')).then(
        () => null,
        (error: unknown) => error,
      );
      expect(problem).toBeInstanceOf(FileProblem);
      expect((problem as FileProblem).message).toMatch(/^\S.*\.$/);
      expect((problem as FileProblem).message).not.toContain('\n');
    }
    expect(await readFile(readOnly, 'utf8')).toBe('old');
    expect((await readdir(folder)).sort()).toEqual(['dangling.pdf', 'ro.pdf', 'sub']);
  });

  it('leaves old or new, and no stray file, whichever operation fails', async () => {
    let failed = 0;
    let done = false;
    for (let k = 1; !done; k += 1) {
      const path = join(folder, 'k.pdf');
      await writeFile(path, 'old');
      let count = 0;
      const step = (): void => {
        count += 1;
        if (count === k) throw Object.assign(new Error('made to fail'), { code: 'EIO' });
      };
      const calls: FileCalls = {
        ...REAL_CALLS,
        open: async (...args) => {
          step();
          const handle = await open(...args);
          for (const name of ['writeFile', 'sync', 'stat', 'chmod'] as const) {
            const real = handle[name].bind(handle) as (...a: unknown[]) => Promise<unknown>;
            Object.assign(handle, {
              [name]: async (...a: unknown[]) => {
                step();
                return real(...a);
              },
            });
          }
          return handle;
        },
        rename: async (...args) => {
          step();
          return rename(...args);
        },
      };
      const problem = await writeWhole(path, bytes('new'), { calls }).then(
        () => null,
        (error: unknown) => error,
      );
      const now = await readFile(path, 'utf8');
      if (problem === null) {
        done = true;
        expect(now).toBe('new');
      } else {
        failed += 1;
        expect(problem).toBeInstanceOf(FileProblem);
        expect(['old', 'new']).toContain(now);
      }
      expect(await readdir(folder)).toEqual(['k.pdf']);
    }
    expect(failed).toBeGreaterThanOrEqual(6);
  });

  it('succeeds in a folder that may be written but not read', async () => {
    const path = join(folder, 'w.pdf');
    let refused = 0;
    const calls: FileCalls = {
      ...REAL_CALLS,
      open: async (name, ...rest) => {
        if (name !== folder) return REAL_CALLS.open(name, ...rest);
        refused += 1;
        throw Object.assign(new Error('made to fail'), { code: 'EACCES' });
      },
    };
    await writeWhole(path, bytes('new'), { calls });
    expect(refused).toBe(1);
    expect(await readFile(path, 'utf8')).toBe('new');
  });

  it('on a full disk the old file stays whole and the sentence says so', async () => {
    const small = join(folder, 'small');
    const disk = smallDisk(small, '64k', {
      fault: 'an export on a full disk',
      instead: 'services/disk.test.ts, limit on file size',
    });
    if (disk === null) return;
    try {
      const path = join(small, 'a.pdf');
      await writeFile(path, 'old');
      const problem = await writeWhole(path, new Uint8Array(200_000)).then(
        () => null,
        (error: unknown) => error,
      );
      expect(String(problem)).toContain('disk is full');
      expect(await readFile(path, 'utf8')).toBe('old');
      expect(await readdir(small)).toEqual(['a.pdf']);
    } finally {
      disk.gone();
    }
  });
});
