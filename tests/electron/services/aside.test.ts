// Large plans are read, written, checked and done again in a thread, whatever they are opened or saved for; and what the
// user does meanwhile is neither lost nor taken for saved.

import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Plan, writePlan } from '../../../core/plan/index.ts';
import { type Documents, openDocuments as openReal } from '../../../electron/services/documents.ts';
import type { Env } from '../../../electron/services/env.ts';
import type { inThread, ThreadWish } from '../../../electron/services/in-thread.ts';
import type { ThreadJob } from '../../../electron/services/thread-jobs.ts';
import {
  bytesOf,
  freshFolder,
  handEnv,
  mustOpen,
  openAt,
  preparedCottage,
  remove,
  retitle,
  roomy,
  textOf,
  wallEnv,
} from './helpers.ts';

/** Kinds of the jobs that threads were started for, and one of them that is to fail. */
const seen = vi.hoisted(() => ({ jobs: [] as string[], broken: null as string | null }));

vi.mock('../../../electron/services/in-thread.ts', async (original) => {
  const real = await original<{ inThread: typeof inThread; WorkFailed: typeof Error }>();
  return {
    ...real,
    inThread: (job: ThreadJob, wish: ThreadWish) => {
      seen.jobs.push(job.kind);
      if (job.kind !== seen.broken) return real.inThread(job, wish);
      return { done: Promise.reject(new real.WorkFailed('broken for the test')), cancel: () => undefined };
    },
  };
});

const LARGE = roomy(12_000);
const titled = (title: string): string => writePlan({ ...LARGE, title } as Plan);

let folder: string;
let path: string;
let userData: string;
const running: Documents[] = [];

function openDocuments(env: Env): Documents {
  const documents = openReal(env);
  running.push(documents);
  return documents;
}

/** The kinds of jobs since this was asked last. */
const jobs = (): string[] => seen.jobs.splice(0);
const inFile = (): Promise<string> => readFile(path, 'utf8');

beforeEach(async () => {
  folder = await freshFolder();
  path = join(folder, 'house.copewright.json');
  userData = join(folder, 'user');
  seen.broken = null;
  jobs();
  await writeFile(path, titled('t0'));
});
afterEach(async () => {
  for (const documents of running.splice(0))
    for (const document of documents.all()) await document.close(true);
  await remove(folder);
});

describe('a large plan', () => {
  it('is opened, saved and taken from another program in threads; each gives what it gives a small one', async () => {
    const documents = openDocuments(wallEnv(userData));
    const document = await openAt(documents, path);
    expect(document.plan()).toEqual({ ...LARGE, title: 't0' });
    expect(jobs()).toEqual(['understand']);
    retitle(document, 't1');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved', written: true });
    expect(await inFile()).toBe(titled('t1'));
    expect(jobs()).toEqual(['write']);
    await writeFile(path, titled('theirs'));
    retitle(document, 't2');
    const conflict = await document.save('hand');
    if (conflict.outcome !== 'conflict') throw new Error(conflict.outcome);
    expect(jobs()).toEqual(['write']);
    expect(await document.takeTheirs()).toMatchObject({ outcome: 'taken', plan: { title: 'theirs' } });
    expect(jobs()).toEqual(['understand', 'write']);
  }, 60_000);

  it('is still unsaved where it was edited while its text was made; closing waits for the save', async () => {
    const documents = openDocuments(wallEnv(userData));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    const saving = document.save('hand');
    await vi.waitUntil(() => seen.jobs.includes('write'));
    await setImmediate();
    retitle(document, 't2');
    const closing = documents.close(document.view().handle);
    expect(await inFile()).toBe(titled('t0'));
    expect(await saving).toMatchObject({ outcome: 'saved' });
    expect(document.view()).toMatchObject({ title: 't2', unsaved: true });
    expect(await closing).toEqual({ outcome: 'closed', kept: true });
    expect(await inFile()).toBe(titled('t1'));
    const later = openDocuments(wallEnv(userData));
    const [offer] = await later.offers();
    expect(offer).toMatchObject({ title: 't2', edits: 1, original: 'same' });
    jobs();
    const recovered = mustOpen(await later.recover(offer!.id));
    expect(jobs()).toEqual(['replay']);
    expect(recovered.plan).toEqual({ ...LARGE, title: 't2' });
  }, 60_000);

  it('that is cut off is refused, and its last good version found, in threads', async () => {
    const documents = openDocuments(wallEnv(userData));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    await documents.closeAll();
    jobs();
    await writeFile(path, titled('t1').slice(0, -100));
    const outcome = await openDocuments(wallEnv(userData)).open(path);
    expect(outcome).toMatchObject({ outcome: 'refused', lastGood: { id: expect.any(String) } });
    expect(jobs()).toEqual(['understand', 'check']);
  }, 60_000);

  it('of a newer version is known by its head, and elsewhere by a thread', async () => {
    const documents = openDocuments(wallEnv(userData));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    jobs();
    const refused = { outcome: 'refused', message: expect.stringContaining('never written over') };
    await writeFile(path, titled('t0').replace('"version": 1', '"version": 2'));
    expect(await document.save('hand')).toMatchObject(refused);
    expect(jobs()).toEqual(['write']);
    const { format, version, ...rest } = JSON.parse(titled('t0')) as Record<string, unknown>;
    await writeFile(path, JSON.stringify({ ...rest, version: 2, format }));
    expect(await document.save('hand')).toMatchObject(refused);
    expect(jobs()).toEqual(['write', 'check']);
    expect(version).toBe(1);
  }, 60_000);

  it('is saved all the same where the thread fails', async () => {
    const document = await openAt(openDocuments(wallEnv(userData)), path);
    retitle(document, 't1');
    seen.broken = 'write';
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    expect(await inFile()).toBe(titled('t1'));
  }, 60_000);

  it("'s journal that grows over goes on from text made in a thread, and loses no edit that came meanwhile", async () => {
    const env = handEnv(userData);
    const document = await openAt(openDocuments(env), path);
    const firstRooms = Object.keys(document.plan().levels[0]!.rooms).length;
    for (let k = 1; k <= 2_000; k += 1) retitle(document, `t${k}`);
    jobs();
    env.fire(1_000);
    await document.flush();
    await vi.waitUntil(() => seen.jobs.includes('write'));
    retitle(document, 't2001');
    env.fire(1_000);
    expect(await document.flush()).toBe(true);
    // The text takes longer than this flush: the edit is behind the others, where a crash finds it.
    await rm(join(userData, 'locks'), { recursive: true, force: true });
    const early = openDocuments(handEnv(userData));
    const offered = await early.offers();
    expect(offered).toMatchObject([{ title: 't2001' }]);
    const second = join(userData, 'journals', offered[0]!.id, '000002.journal');
    await vi.waitUntil(() => readFile(second).catch(() => null), { timeout: 30_000 });
    await document.flush();
    const { plan } = mustOpen(await early.recover(offered[0]!.id));
    expect(plan.title).toBe('t2001');
    expect(Object.keys(plan.levels[0]!.rooms)).toHaveLength(firstRooms);
  }, 120_000);
});

describe('a small plan', () => {
  it('is read and written here: a thread would take longer', async () => {
    await writeFile(path, textOf('t0'));
    const documents = openDocuments(wallEnv(userData));
    const document = await openAt(documents, path);
    retitle(document, 't1');
    await document.save('hand');
    mustOpen(await documents.openBytes('small', bytesOf(writePlan(preparedCottage())), true));
    expect(jobs()).toEqual([]);
  });
});
