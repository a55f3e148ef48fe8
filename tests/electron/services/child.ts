// The process that the tests kill, run as another user, or hold up as a second copy of the program. Its first word says
// what to do; it answers on standard output, one JSON a line, written at once so that a kill cannot hold it back.

import { writeSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { openDocuments } from '../../../electron/services/documents.ts';
import { realEnv } from '../../../electron/services/env.ts';
import { writeWhole } from '../../../electron/services/write-whole.ts';
import { random } from '../../seeds.ts';

const [mode, userData, path, seed, from, saves] = process.argv.slice(2) as [
  string,
  string,
  string,
  string,
  string,
  string,
];

/** Bytes of a file that takes a while to write; the test that kills knows it too. */
const LARGE = 8 * 1024 * 1024;

function tell(value: unknown): void {
  writeSync(1, `${JSON.stringify(value)}\n`);
}

/** Process-independent: the system's monotonic clock. */
const monotonicMs = (): number => Number(process.hrtime.bigint()) / 1e6;

const title = (value: string) => ({ type: 'patch', patches: [{ op: 'replace', path: ['title'], value }] });

const documents = openDocuments(realEnv(userData));

async function opened() {
  const outcome = await documents.open(path);
  if (outcome.outcome === 'opened') return outcome.document;
  tell(outcome);
  process.exit(0);
}

/** Edits and saves without end. */
async function work(): Promise<void> {
  const document = await opened();
  const next = random(Number(seed));
  tell({ ready: true });
  let saving = Promise.resolve();
  for (let k = Number(from) + 1; ; k += 1) {
    const answer = document.edit(document.view().revision, title(`t${k}`));
    if (!answer.ok) throw new Error(answer.message);
    tell({ edit: k, at: monotonicMs() });
    if (saves === 'saves' && next() < 0.15) {
      const asked = k;
      saving = saving.then(async () => {
        const { outcome } = await document.save('hand');
        tell({ save: asked, outcome });
      });
    }
    await sleep(1 + next() * 6);
  }
}

/** One edit and one save. */
async function save(): Promise<void> {
  const document = await opened();
  document.edit(0, title('changed'));
  tell(await document.save('hand'));
  tell(document.view());
  tell(await documents.closeAll());
  process.exit(0);
}

/** Writes two large files over each other without end: nearly all of its time is spent in the middle of one. */
async function write(): Promise<void> {
  const texts = [new Uint8Array(LARGE).fill(65), new Uint8Array(LARGE).fill(66)];
  tell({ ready: true });
  for (let k = 0; ; k += 1) await writeWhole(path, texts[k % 2]!);
}

/** Recovers what there is and edits on. */
async function recover(): Promise<void> {
  const [offer] = await documents.offers();
  const outcome = await documents.recover(offer!.id);
  if (outcome.outcome !== 'opened') throw new Error(JSON.stringify(outcome));
  tell({ recovered: outcome.plan.title });
  for (let k = 0; ; k += 1) {
    outcome.document.edit(k, title(`${outcome.plan.title}+${k}`));
    await sleep(5);
  }
}

if (mode === 'work') await work();
else if (mode === 'write') await write();
else if (mode === 'save') await save();
else if (mode === 'recover') await recover();
else if (mode === 'hold') {
  const outcome = await documents.open(path);
  tell(outcome.outcome === 'opened' ? { outcome: 'opened' } : outcome);
  setInterval(() => undefined, 1000);
}
