// Real disks and users: a full one, read-only files and folders as an ordinary user, names, sizes, the order of calls.

import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmod,
  chown,
  mkdir,
  open,
  readdir,
  readFile,
  rm,
  stat,
  truncate,
  unlink,
  writeFile,
} from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { PlanFile } from '../../../core/plan/schema.ts';
import { openDocuments } from '../../../electron/services/documents.ts';
import { type FileCalls, REAL_CALLS } from '../../../electron/services/file-calls.ts';
import { COTTAGE } from '../../fixtures/cottage.ts';
import {
  buildChild,
  bytesOf,
  freshFolder,
  handEnv,
  mustOpen,
  openAt,
  preparedCottage,
  remove,
  retitle,
  row,
  smallDisk,
  strays,
  textOf,
} from './helpers.ts';

const NOBODY = 65534;
const asRoot = process.getuid?.() === 0;

interface ChildSave {
  readonly outcome: string;
  readonly message: string;
}

describe('real disks', () => {
  let root: string;
  let program: string;
  let folder: string;
  let number = 0;
  beforeAll(async () => {
    root = await freshFolder('disk');
    program = await buildChild(root);
  });
  afterAll(() => remove(root));
  beforeEach(async () => {
    number += 1;
    folder = join(root, String(number));
    await mkdir(folder);
  });

  /** The child saves a changed plan: as an ordinary user where this is root, else as this user. */
  function saveInChild(path: string, userData: string, before: string[] = []) {
    const words = [...before, process.execPath, program, 'save', userData, path];
    const done = spawnSync(words[0]!, words.slice(1), {
      encoding: 'utf8',
      cwd: folder,
      ...(asRoot ? { uid: NOBODY, gid: NOBODY } : {}),
    });
    expect(done.stderr).toBe('');
    const [outcome, view, refused] = done.stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as unknown);
    return {
      outcome: outcome as ChildSave,
      view: view as { unsaved: boolean },
      refused: refused as unknown[],
    };
  }

  async function forNobody(...paths: string[]): Promise<void> {
    if (asRoot) for (const path of paths) await chown(path, NOBODY, NOBODY);
  }

  it('[SK1, SK8] a full disk: the old file whole, a sentence, saved elsewhere; edits wait until there is space', async () => {
    const small = join(folder, 'small');
    const disk = smallDisk(small, '256k', { fault: 'full disk', instead: 'the limit on file size below' });
    if (disk === null) return;
    try {
      const path = join(small, 'house.copewright.json');
      await writeFile(path, textOf('t0'));
      const userData = join(small, 'user');
      const env = handEnv(userData);
      const documents = openDocuments(env);
      const document = await openAt(documents, path);
      retitle(document, 't1');
      expect(await document.flush()).toBe(true);
      // Fill it to the last block.
      const filler = await open(join(small, 'filler'), 'w');
      await expect(
        (async () => {
          for (;;) await filler.write(Buffer.alloc(1024));
        })(),
      ).rejects.toMatchObject({ code: 'ENOSPC' });
      await filler.close();
      const refused = await document.save('hand');
      expect(refused).toMatchObject({ outcome: 'refused', elsewhere: true });
      const message = refused.outcome === 'refused' ? refused.message : '';
      expect(message).toContain('disk is full');
      expect(await readFile(path, 'utf8')).toBe(textOf('t0'));
      expect(await strays(small)).toEqual([]);
      expect(document.view().unsaved).toBe(true);
      for (let k = 0; k < 100; k += 1) retitle(document, `t2-${k}-${'x'.repeat(100)}`);
      expect(await document.flush()).toBe(false);
      expect(document.view().journalProblem).toContain('disk is full');
      expect(await documents.close(document.view().handle)).toMatchObject({ outcome: 'refused' });
      const elsewhere = join(folder, 'elsewhere.copewright.json');
      expect(await document.saveAs(elsewhere)).toMatchObject({ outcome: 'saved' });
      retitle(document, 't3');
      await rm(join(small, 'filler'));
      expect(await document.flush()).toBe(true);
      expect(document.view().journalProblem).toBeNull();
      await rm(join(userData, 'locks'), { recursive: true });
      const later = openDocuments(env);
      const [offer] = await later.offers();
      expect(mustOpen(await later.recover(offer!.id)).plan.title).toBe('t3');
      await later.closeAll();
      await documents.close(document.view().handle, true);
      row('full disk (tmpfs of 256 KiB)', message);
    } finally {
      disk.gone();
    }
  });

  it('[SK1] a limit on the size of files: the old file whole, a sentence', async () => {
    const path = join(folder, 'house.copewright.json');
    await writeFile(path, textOf('t0'));
    await chmod(folder, 0o777);
    await forNobody(path);
    // 4 KiB a file: the plan takes 7.
    const limit = ['bash', '--norc', '-c', 'ulimit -f 4; exec "$@"', 'bash'];
    const { outcome, view } = saveInChild(path, join(folder, 'user'), limit);
    expect(outcome).toMatchObject({
      outcome: 'refused',
      message: expect.stringContaining('larger than this disk allows'),
    });
    expect(view.unsaved).toBe(true);
    expect(await readFile(path, 'utf8')).toBe(textOf('t0'));
    expect(await strays(folder)).toEqual([]);
    row('file size limit (ulimit -f)', outcome.message);
  });

  it('[SK3] a read-only file, a read-only folder, another’s file in a shared folder, as an ordinary user', async () => {
    const cases: [name: string, prepare: (inner: string, path: string) => Promise<void>, saved: boolean][] = [
      [
        'read-only file',
        async (_, path) => {
          await forNobody(path);
          await chmod(path, 0o444);
        },
        false,
      ],
      ['another’s file', async (_, path) => chmod(path, 0o644), !asRoot],
      [
        'read-only folder',
        async (inner, path) => {
          await forNobody(path);
          await chmod(inner, 0o555);
        },
        false,
      ],
      [
        'another’s file in a shared folder (sticky)',
        async (inner, path) => {
          await chmod(path, 0o666);
          await chmod(inner, 0o1777);
        },
        !asRoot,
      ],
      ['own file', async (_, path) => forNobody(path), true],
    ];
    await chmod(folder, 0o777);
    for (const [i, [name, prepare, saves]] of cases.entries()) {
      const inner = join(folder, String(i));
      const path = join(inner, 'house.copewright.json');
      await mkdir(inner);
      await chmod(inner, 0o777);
      await writeFile(path, textOf('t0'));
      await prepare(inner, path);
      const before = await stat(path);
      const { outcome, view, refused } = saveInChild(path, join(folder, `user-${i}`));
      expect(outcome.outcome, name).toBe(saves ? 'saved' : 'refused');
      expect(view.unsaved).toBe(!saves);
      expect(refused).toEqual([]);
      const after = await stat(path);
      expect([after.mode, after.uid]).toEqual([before.mode, before.uid]);
      expect(await readFile(path, 'utf8')).toBe(textOf(saves ? 'changed' : 't0'));
      expect(await readdir(inner)).toEqual(['house.copewright.json']);
      row(`${name}${asRoot ? ', as nobody' : ''}`, saves ? 'saved' : outcome.message);
      await chmod(inner, 0o777);
    }
  });

  it('[SK1] a disk that is read-only, where one can be mounted', async () => {
    const small = join(folder, 'small');
    const disk = smallDisk(small, '256k', { fault: 'read-only disk', instead: 'the read-only folder above' });
    if (disk === null) return;
    try {
      const path = join(small, 'house.copewright.json');
      await writeFile(path, textOf('t0'));
      const documents = openDocuments(handEnv(join(folder, 'user')));
      const document = await openAt(documents, path);
      retitle(document, 't1');
      execFileSync('mount', ['-o', 'remount,ro', small]);
      const refused = await document.save('hand');
      expect(refused).toMatchObject({
        outcome: 'refused',
        message: expect.stringContaining('read-only disk'),
      });
      expect(await readFile(path, 'utf8')).toBe(textOf('t0'));
      row('read-only disk', refused.outcome === 'refused' ? refused.message : '');
      // The disk is pulled out.
      disk.gone();
      expect(await document.look()).toBe('gone');
      expect(await document.close()).toEqual({ outcome: 'closed', kept: true });
      row('disk pulled out', 'plan kept as unsaved; closing keeps it for recovery');
    } finally {
      disk.gone();
    }
  });

  it('[SK1] a name of 255 bytes is saved, a longer one is told', async () => {
    const stem = 'é'.repeat((255 - '.copewright.json'.length - 1) / 2);
    const documents = openDocuments(handEnv(join(folder, 'user')));
    const document = mustOpen(documents.create('metric')).document;
    expect(await document.saveAs(join(folder, `x${stem}.copewright.json`))).toMatchObject({
      outcome: 'saved',
    });
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    const long = await document.saveAs(join(folder, `xxx${stem}.copewright.json`));
    expect(long).toMatchObject({ outcome: 'refused', message: expect.stringContaining('too long a name') });
    await documents.closeAll();
  });

  it('[SK14] a sparse file of 2 GB, a pipe, a device and a folder are refused within 2 s, unread', async () => {
    const sparse = join(folder, 'huge.copewright.json');
    await writeFile(sparse, '');
    await truncate(sparse, 2 * 1024 ** 3);
    const pipe = join(folder, 'pipe.copewright.json');
    execFileSync('mkfifo', [pipe]);
    const opened: string[] = [];
    const calls: FileCalls = {
      ...REAL_CALLS,
      open: (path, ...more) => {
        opened.push(path);
        return REAL_CALLS.open(path, ...more);
      },
    };
    const documents = openDocuments(handEnv(join(folder, 'user'), calls));
    for (const [path, says] of [
      [sparse, 'is larger than 64 MiB'],
      [pipe, 'is not an ordinary file'],
      ['/dev/zero', 'is not an ordinary file'],
      [folder, 'is a folder'],
      [join(folder, 'none.copewright.json'), 'is not there'],
    ] as const) {
      const start = performance.now();
      const outcome = await documents.open(path);
      const ms = performance.now() - start;
      expect(outcome).toMatchObject({ outcome: 'refused', message: expect.stringContaining(says) });
      // Two seconds are promised; a loaded machine may take longer, a read of 2 GB or a hang takes far longer.
      expect(ms).toBeLessThan(20_000);
      if (path === sparse) row('sparse file of 2 GB', `refused in ${ms.toFixed(0)} ms`);
    }
    // Not one of them was opened, let alone read.
    expect(opened.filter((path) => !path.startsWith(join(folder, 'user')))).toEqual([]);
    await unlink(sparse);
  });

  it('a plan of 50 MB is opened, edited, saved, killed and recovered', async () => {
    // Rooms with the longest names that there may be: many bytes, few values.
    const name = '木'.repeat(200);
    const rooms = Object.fromEntries(
      Array.from({ length: 79_000 }, (_, i) => [`r${i + 10}`, { name, at: [i, -5000] as [number, number] }]),
    );
    const level = COTTAGE.levels[0]!;
    const file: PlanFile = { ...COTTAGE, levels: [{ ...level, rooms: { ...level.rooms, ...rooms } }] };
    const bytes = bytesOf(JSON.stringify(file));
    expect(bytes.length).toBeGreaterThan(50e6);
    const path = join(folder, 'large.copewright.json');
    await writeFile(path, bytes);
    const env = handEnv(join(folder, 'user'));
    const documents = openDocuments(env);
    const times: string[] = [];
    const timed = async <T>(what: string, action: () => Promise<T>): Promise<T> => {
      const start = performance.now();
      const result = await action();
      times.push(`${what} ${((performance.now() - start) / 1000).toFixed(2)} s`);
      return result;
    };
    const document = await timed('open', () => openAt(documents, path));
    await timed('edit', async () => retitle(document, 't1'));
    await timed('journal', async () => expect(await document.flush()).toBe(true));
    await timed('save', async () => expect(await document.save('hand')).toMatchObject({ outcome: 'saved' }));
    retitle(document, 't2');
    expect(await document.flush()).toBe(true);
    await rm(join(env.userData, 'locks'), { recursive: true });
    const later = openDocuments(env);
    const [offer] = await later.offers();
    const recovered = await timed('recover', async () => mustOpen(await later.recover(offer!.id)));
    expect(recovered.plan.title).toBe('t2');
    await later.closeAll();
    await documents.close(document.view().handle, true);
    row(`plan of ${(bytes.length / 1e6).toFixed(0)} MB`, times.join(', '));
  });

  it('[SK1] the order of calls: write → fsync → rename → fsync of the folder', async () => {
    const path = join(folder, 'house.copewright.json');
    await writeFile(path, textOf('t0'));
    await chmod(folder, 0o777);
    await forNobody(path);
    const log = join(folder, 'strace.log');
    const calls =
      'trace=openat,write,pwrite64,fsync,fdatasync,rename,renameat,renameat2,link,linkat,unlink,close';
    const strace = ['strace', '-f', '-s', '64', '-e', calls, '-o', log];
    const able = spawnSync('strace', ['-o', '/dev/null', 'true']).status === 0;
    if (!able) {
      row('power loss: order of calls', 'strace cannot be used here; not checked');
      expect(process.env.CI, 'strace is needed where this is the check that counts').toBeUndefined();
      return;
    }
    const { outcome } = saveInChild(path, join(folder, 'user'), strace);
    expect(outcome.outcome).toBe('saved');
    const lines = (await readFile(log, 'utf8')).split('\n');
    const steps = orderOf(lines, folder);
    expect(steps).toEqual(['open temporary', 'write', 'fsync', 'rename', 'open folder', 'fsync folder']);
    // The journal: its start whole in the same way before the file is touched.
    const journal = lines.findIndex((line) => /rename.*\.journal"/.test(line));
    const file = lines.findIndex((line) => /rename.*house\.copewright\.json"/.test(line));
    expect(journal).toBeGreaterThan(-1);
    expect(journal).toBeLessThan(file);
    row('power loss: order of calls', steps.join(' → '));
  });
});

/** The steps of the save in a trace, by following the numbers of its open files. A call may be cut in two lines. */
function orderOf(lines: readonly string[], folder: string): string[] {
  const started = new Map<string, string>();
  const steps: string[] = [];
  let temporary: string | null = null;
  let ofFolder: string | null = null;
  for (const raw of lines) {
    const [, pid, rest] = /^(\d+) +(.*)$/.exec(raw) ?? [];
    if (pid === undefined || rest === undefined) continue;
    let line = rest;
    if (line.endsWith('<unfinished ...>')) {
      started.set(pid, line.replace(/ *<unfinished \.\.\.>$/, ''));
      continue;
    }
    const resumed = /^<\.\.\. \w+ resumed>(.*)$/.exec(line);
    if (resumed) line = `${started.get(pid) ?? ''}${resumed[1]}`;
    const fd = /= (\d+)$/.exec(line)?.[1] ?? null;
    const on = /^\w+\((\d+)[,)]/.exec(line)?.[1] ?? null;
    if (line.startsWith('openat') && line.includes(`"${folder}/.copewright-`) && line.includes('O_EXCL')) {
      temporary = fd;
      steps.push('open temporary');
    } else if (/^p?write/.test(line) && on !== null && on === temporary) {
      if (steps.at(-1) !== 'write') steps.push('write');
    } else if (/^f(data)?sync/.test(line) && on !== null && on === temporary) steps.push('fsync');
    else if (line.startsWith('close') && on === temporary) temporary = null;
    else if (/^rename/.test(line) && line.includes(`"${folder}/house.copewright.json"`)) steps.push('rename');
    else if (line.startsWith('openat') && line.includes(`"${folder}",`) && steps.includes('rename')) {
      // Looking round for strays opens it as well; only what is fsynced counts.
      ofFolder = fd;
    } else if (/^fsync/.test(line) && on !== null && on === ofFolder)
      steps.push('open folder', 'fsync folder');
    else if (line.startsWith('close') && on === ofFolder) ofFolder = null;
  }
  return steps;
}

describe('the cottage of these tests', () => {
  it('is written as its text', () => {
    expect(textOf('t0')).toContain('"title": "t0"');
    expect(preparedCottage().counters.corner).toBeGreaterThan(0);
  });
});
