// Saving whole or not at all, one file and several: every file operation made to fail in turn, a full disk, links, read-only files.

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
import { TEMPORARY } from '../../electron/services/temporary.ts';
import { writeAllInto } from '../../electron/services/write-all.ts';
import { writeWhole } from '../../electron/services/write-whole.ts';
import { faultyDisk, freshFolder, remove, row, smallDisk } from './services/helpers.ts';

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

describe('[SK18] writing several files into one folder', () => {
  const NAMES = ['a.csv', 'b.csv', 'c.csv', 'd.csv'];
  const FILES = NAMES.map((name) => ({ name, bytes: bytes(`new ${name}`) }));
  const look = async (): Promise<void> => undefined;
  let folder: string;
  beforeEach(async () => {
    folder = await freshFolder();
  });
  afterEach(() => remove(folder));

  /** What stands in a folder, all of it, by name. */
  async function inside(at: string): Promise<Record<string, string>> {
    const names = (await readdir(at)).sort();
    return Object.fromEntries(
      await Promise.all(names.map(async (name) => [name, await readFile(join(at, name), 'utf8')] as const)),
    );
  }
  const NEW = Object.fromEntries(NAMES.map((name) => [name, `new ${name}`]));
  /** Two that are old, two that were not there. */
  const OLD = { 'b.csv': 'old b', 'd.csv': 'old d' };
  async function old(at: string): Promise<void> {
    await mkdir(at);
    for (const [name, text] of Object.entries(OLD)) await writeFile(join(at, name), text);
  }
  const problemOf = (done: Promise<void>): Promise<FileProblem | null> =>
    done.then(
      () => null,
      (error: unknown) => {
        expect(error).toBeInstanceOf(FileProblem);
        expect((error as FileProblem).message).toMatch(/^\S[^\n]*\.$/);
        return error as FileProblem;
      },
    );

  it('makes the folder and those above it, and replaces what is there', async () => {
    const at = join(folder, 'x', 'y');
    for (let time = 1; time <= 2; time += 1) {
      await writeAllInto(at, FILES, { look });
      expect(await inside(at)).toEqual(NEW);
    }
  });

  it('all or none, whichever operation fails; where a disk fails for good the sentence says which are new', async () => {
    const disk = faultyDisk();
    let [tried, put, mixed] = [0, 0, 0];
    for (const forGood of [false, true]) {
      for (let k = 1; ; k += 1) {
        const at = join(folder, `${forGood}-${k}`);
        await old(at);
        disk.arm(k, forGood, 'EIO');
        const problem = await problemOf(writeAllInto(at, FILES, { calls: disk.calls, look }));
        const struck = disk.struck();
        disk.disarm();
        // What the disk did not let us remove is swept later.
        const left = Object.entries(await inside(at));
        const strays = left.filter(([name]) => TEMPORARY.test(name));
        expect(strays.length, `${forGood} ${k}`).toBeLessThanOrEqual(forGood ? 2 * NAMES.length : 1);
        const now = Object.fromEntries(left.filter((each) => !strays.includes(each)));
        const isNew = NAMES.filter((name) => now[name] === NEW[name]);
        const label = `${forGood} ${k} ${problem?.message}`;
        const told = / is new already| are new already/.test(problem?.message ?? '');
        if (told) {
          for (const name of NAMES)
            expect(problem!.what.split(';').at(-1)!.includes(name), label).toBe(isNew.includes(name));
          mixed += 1;
        } else expect([OLD, NEW], label).toContainEqual(now);
        if (!forGood) expect(told, label).toBe(false);
        if (problem !== null && isNew.length === 0) put += 1;
        tried += 1;
        if (!struck) {
          expect([problem, now]).toEqual([null, NEW]);
          break;
        }
      }
    }
    expect(mixed).toBeGreaterThan(0);
    row(
      'k-th file operation fails while tables are written',
      `${tried} runs, once and for good; none new in ${put}, told which are in ${mixed}`,
    );
  });

  it('on a disk without second names a step that fails says which files are new', async () => {
    await old(join(folder, 't'));
    const calls: FileCalls = {
      ...REAL_CALLS,
      link: async () => {
        throw Object.assign(new Error('made to fail'), { code: 'EPERM' });
      },
      rename: async (from, to) => {
        if (to.endsWith('d.csv')) throw Object.assign(new Error('made to fail'), { code: 'EBUSY' });
        await rename(from, to);
      },
    };
    const problem = await problemOf(writeAllInto(join(folder, 't'), FILES, { calls, look }));
    expect(problem?.message).toBe(
      `${join(folder, 't', 'd.csv')} is in use by another program; close it there and try again; b.csv is new already, the others are as they were.`,
    );
    expect(await inside(join(folder, 't'))).toEqual({ ...OLD, 'b.csv': 'new b.csv' });
  });

  it.each<[string, (at: string) => Promise<unknown>, RegExp]>([
    ['a folder in the way', (at) => mkdir(join(at, 'c.csv')), /c\.csv is not an ordinary file/],
    ['a read-only file', (at) => chmod(join(at, 'd.csv'), 0o444), /d\.csv is read-only/],
    ['a link to nowhere', (at) => symlink('nowhere', join(at, 'c.csv')), /c\.csv is a link to something/],
    ['a link to another of them', (at) => symlink('b.csv', join(at, 'c.csv')), /same file as b\.csv/],
  ])('with %s nothing is touched', async (_what, happen, words) => {
    const at = join(folder, 't');
    await old(at);
    await happen(at);
    const before = await readdir(at);
    expect((await problemOf(writeAllInto(at, FILES, { look })))?.message).toMatch(words);
    expect(await readdir(at)).toEqual(before);
    for (const [name, text] of Object.entries(OLD)) expect(await readFile(join(at, name), 'utf8')).toBe(text);
  });

  it('what looks at the targets is asked about each, before there is anything new, and makes no folder', async () => {
    const at = join(folder, 't');
    await old(at);
    const asked: string[] = [];
    const no = async (path: string): Promise<void> => {
      asked.push(path);
      if (path.endsWith('d.csv')) throw new FileProblem(path, 'must not be');
    };
    expect((await problemOf(writeAllInto(at, FILES, { look: no })))?.what).toBe('must not be');
    expect(asked).toEqual(NAMES.map((name) => join(at, name)));
    expect(await inside(at)).toEqual(OLD);
  });

  it('a folder that was made goes again where nothing can be put into it', async () => {
    const calls: FileCalls = {
      ...REAL_CALLS,
      rename: async () => {
        throw Object.assign(new Error('made to fail'), { code: 'ENOSPC' });
      },
    };
    const problem = await problemOf(writeAllInto(join(folder, 'x', 'y'), FILES, { calls, look }));
    expect(problem?.message).toContain('the disk is full');
    expect(await readdir(folder)).toEqual([]);
  });
});
