// The program of a thread: does the one job it was started with, tells how far it is, answers, ends.

import { parentPort, workerData } from 'node:worker_threads';
import { PlanProblem, understand } from './plan-file.ts';
import type { ThreadAnswers, ThreadJob, ThreadMessage, UnderstandAnswer } from './thread-jobs.ts';

const post = (message: ThreadMessage): void => parentPort?.postMessage(message);

function understood(bytes: Uint8Array): UnderstandAnswer {
  try {
    const { plan, notes } = understand('', bytes);
    return { ok: true, plan, notes };
  } catch (error) {
    if (error instanceof PlanProblem) return { ok: false, what: error.what, newer: error.newer };
    throw error;
  }
}

async function work(job: ThreadJob): Promise<ThreadAnswers[keyof ThreadAnswers]> {
  if (job.kind === 'understand') return understood(job.bytes);
  // Solver, sheets and fonts take their time to load: only where they are needed.
  const { made } = await import('./thread-export.ts');
  return made(job, (words, done, all) => post({ kind: 'progress', words, done, all }));
}

work(workerData as ThreadJob).then(
  (answer) => post({ kind: 'done', answer }),
  (error: unknown) =>
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
);
