// The program of a thread: does the one job it was started with, tells how far it is, answers, and is ended by who started
// it. What it makes is sent before the answer.

import { parentPort, workerData } from 'node:worker_threads';
import type { Plan } from '../../core/plan/schema.ts';
import { PlanProblem, planText, understand } from './plan-file.ts';
import { gatherPlan, type PlanPiece, piecesOf } from './plan-pieces.ts';
import { replay } from './replay.ts';
import type { NoPlan, ThreadAnswers, ThreadMessage, ThreadStart } from './thread-jobs.ts';

const { job, pieces } = workerData as ThreadStart;
const post = (message: ThreadMessage): void => parentPort?.postMessage(message);

/** The plan that is sent. Listening also keeps the thread until what it sent is taken. */
const sent = new Promise<Plan>((resolve) => {
  const gatherer = gatherPlan();
  pieces.on('message', (piece: PlanPiece | null) => {
    if (piece === null) resolve(gatherer.plan());
    else gatherer.take(piece);
  });
});

function send(plan: Plan): void {
  for (const piece of piecesOf(plan)) pieces.postMessage(piece);
}

/** What `action` gives; why the bytes hold no plan, where it finds that. */
function read<A>(action: () => A): A | NoPlan {
  try {
    return action();
  } catch (error) {
    if (error instanceof PlanProblem) return { ok: false, what: error.what, newer: error.newer };
    throw error;
  }
}

async function work(): Promise<ThreadAnswers[keyof ThreadAnswers]> {
  switch (job.kind) {
    case 'understand':
      return read(() => {
        const { plan, notes } = understand('', job.bytes);
        send(plan);
        return { ok: true as const, notes };
      });
    case 'check':
      return read(() => {
        understand('', job.bytes);
        return { ok: true as const };
      });
    case 'replay':
      return read(() => {
        const { plan, done } = replay(understand('', job.bytes).plan, job.edits);
        send(plan);
        return { ok: true as const, done };
      });
    case 'write':
      return planText(await sent);
    case 'export': {
      // Solver, sheets and fonts take their time to load: only where they are needed.
      const { made } = await import('./thread-export.ts');
      return made(job, await sent, (words, done, all) => post({ kind: 'progress', words, done, all }));
    }
  }
}

work().then(
  (answer) => post({ kind: 'done', answer }),
  (error: unknown) =>
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
);
