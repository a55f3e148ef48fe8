// A thread that is not given, ends, or breaks in the middle of a large plan's save: the save ends all the same, and well.

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Worker, WorkerOptions } from 'node:worker_threads';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Plan, writePlan } from '../../../core/plan/index.ts';
import { openDocuments } from '../../../electron/services/documents.ts';
import { inThread, WorkFailed } from '../../../electron/services/in-thread.ts';
import { freshFolder, openAt, remove, retitle, roomy, wallEnv } from './helpers.ts';

/** What a thread does in place of its job: its program, or that there is none; null: the job. */
const wish = vi.hoisted(() => ({ instead: null as string | null, started: 0 }));

const NO_THREAD = 'no thread';

vi.mock('node:worker_threads', async (original) => {
  const real = await original<{ Worker: typeof Worker }>();
  class Wished extends real.Worker {
    constructor(program: string | URL, options: WorkerOptions) {
      wish.started += 1;
      if (wish.instead === NO_THREAD)
        throw Object.assign(new Error('Worker initialization failure: EAGAIN'), {
          code: 'ERR_WORKER_INIT_FAILED',
        });
      if (wish.instead === null) super(program, options);
      else super(wish.instead, { ...options, eval: true });
    }
  }
  return { ...real, Worker: Wished };
});

const LARGE = roomy(12_000);
const titled = (title: string): string => writePlan({ ...LARGE, title } as Plan);

const FAULTS = [
  ['is not given', NO_THREAD],
  ['ends without a word', 'process.exit(3)'],
  ['breaks', 'throw new Error("broken for the test")'],
] as const;

describe('[SK13] a thread that', () => {
  let folder: string;
  let path: string;
  beforeEach(async () => {
    folder = await freshFolder();
    path = join(folder, 'house.copewright.json');
    await writeFile(path, titled('t0'));
    wish.instead = null;
  });
  afterEach(() => remove(folder));

  it.each(FAULTS)(
    '%s does not hold up a save of a large plan',
    async (_what, instead) => {
      const documents = openDocuments(wallEnv(join(folder, 'user')));
      const document = await openAt(documents, path);
      retitle(document, 't1');
      wish.instead = instead;
      wish.started = 0;
      expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
      expect(wish.started).toBe(1);
      expect(await readFile(path, 'utf8')).toBe(titled('t1'));
      await documents.closeAll();
    },
    30_000,
  );

  it.each(FAULTS)(
    '%s is a job that failed',
    async (_what, instead) => {
      wish.instead = instead;
      await expect(inThread({ kind: 'write' }, { plan: LARGE }).done).rejects.toBeInstanceOf(WorkFailed);
    },
    30_000,
  );
});
