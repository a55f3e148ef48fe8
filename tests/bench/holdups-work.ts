// The measured part of holdups.ts.

import { readFileSync } from 'node:fs';
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setImmediate, setTimeout as sleep } from 'node:timers/promises';
import { serialize } from 'node:v8';
import { writePlan } from '../../core/plan/index.ts';
import { type Documents, type OpenOutcome, openDocuments } from '../../electron/services/documents.ts';
import { realEnv } from '../../electron/services/env.ts';
import { manyHouses } from './houses.ts';

const EDITS = 1_900;

/** A house often enough to fill a file. */
function fileOf(house: string, megabytes: number): string {
  return writePlan(manyHouses(house, Math.round((megabytes * 1e6) / house.length)));
}

const BEAT_MS = 5;

/** CPU time of the main thread so far, ms, where the system tells it (Linux); else the time of day: busy machines show. */
function spent(): number {
  try {
    return Number(readFileSync(`/proc/self/task/${process.pid}/schedstat`, 'latin1').split(' ')[0]) / 1e6;
  } catch {
    return performance.now();
  }
}

/** Does a step; prints how long it took, and how much work at most was done in one go, with nothing else let in. */
async function step<T>(what: string, action: () => Promise<T>): Promise<T> {
  let held = 0;
  let last = spent();
  const beat = setInterval(() => {
    const now = spent();
    held = Math.max(held, now - last);
    last = now;
  }, BEAT_MS);
  await sleep(4 * BEAT_MS);
  held = 0;
  const start = performance.now();
  const done = await action();
  const took = performance.now() - start;
  await sleep(4 * BEAT_MS);
  clearInterval(beat);
  console.log(`  ${what.padEnd(38)} ${took.toFixed(0).padStart(7)} ${held.toFixed(0).padStart(8)}`);
  return done;
}

function opened(outcome: OpenOutcome) {
  if (outcome.outcome !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.document;
}

/** As after a crash: nothing that this process held counts any more. */
async function crash(userData: string): Promise<void> {
  await rm(join(userData, 'locks'), { recursive: true, force: true });
}

export async function run(folder: string, housePath: string, megabytes: number): Promise<void> {
  const text = fileOf(await readFile(housePath, 'utf8'), megabytes);
  const userData = join(folder, 'user');
  const path = join(folder, 'house.copewright.json');
  await mkdir(folder, { recursive: true });
  await writeFile(path, text);
  console.log(`plan of ${(text.length / 1e6).toFixed(1)} MB`.padEnd(40), 'took ms', 'held ms');
  const begin = (): Documents => openDocuments(realEnv(userData));

  const documents = begin();
  const document = opened(await step('open', () => documents.open(path)));
  await step('tell it over loopback', async () => Buffer.from(JSON.stringify(document.plan()), 'utf8'));
  await step('tell it to another process', async () => serialize(document.plan()));
  let titles = 0;
  const edit = (): void => {
    titles += 1;
    const answer = document.edit(document.view().revision, { type: 'setPlan', set: { title: `t${titles}` } });
    if (!answer.ok) throw new Error(answer.message);
  };
  const edited = async (): Promise<void> => edit();
  await step('journal begins', () => sleep(2_000));
  await step('first edit', edited);
  await step('second edit', edited);
  await step('save', () => document.save('hand'));
  await step('journal begins again', () => sleep(2_000));
  edit();
  await writeFile(path, `${text} `);
  const conflict = await step('save into a conflict', () => document.save('hand'));
  if (conflict.outcome !== 'conflict') throw new Error(conflict.outcome);
  await step('keep mine', () => document.keepMine(conflict.theirs));
  await writeFile(path, `${text} `);
  edit();
  await step('take theirs', () => document.takeTheirs());
  await step('save under a new name', () => document.saveAs(join(folder, 'other.copewright.json')));
  await step(`${EDITS} edits`, async () => {
    for (let k = 0; k < EDITS; k += 1) {
      edit();
      await setImmediate();
    }
  });
  await document.flush();
  await crash(userData);
  const later = begin();
  const [offer] = await step('look for what a crash left', () => later.offers());
  const recovered = opened(await step(`recover ${EDITS} edits`, () => later.recover(offer!.id)));
  await step('an edit of what was recovered', async () => {
    recovered.edit(0, { type: 'setPlan', set: { title: 'recovered' } });
    await recovered.flush();
  });
  await step('save what was recovered', () => recovered.save('hand'));
  await later.closeAll();
  await documents.closeAll();

  await writeFile(path, text.slice(0, text.length * 0.9));
  const corrupt = await step('open a file that is cut off', () => begin().open(path));
  if (corrupt.outcome !== 'refused' || corrupt.lastGood === null) throw new Error(corrupt.outcome);
  await writeFile(path, text.replace('"version": 1', '"version": 2'));
  await step('open a file of a newer version', () => begin().open(path));
}
