// Heavy work in a thread of its own, so that the program goes on answering: one thread a job, ended when the job is done
// or cancelled. What a job is and does is thread-jobs.ts. A plan goes over and comes back in pieces, with room between
// them for everything else. Run from the sources, the thread has the loader for them.

import { setImmediate } from 'node:timers/promises';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';
import type { Plan } from '../../core/plan/schema.ts';
import { gatherPlan, type PlanPiece, piecesOf } from './plan-pieces.ts';
import type { ThreadAnswers, ThreadJob, ThreadMessage, ThreadStart } from './thread-jobs.ts';

/** A job that was cancelled. */
export class Cancelled extends Error {
  override readonly name = 'Cancelled';
}

/** A job that failed of itself; `message` is the thread's own. */
export class WorkFailed extends Error {
  override readonly name = 'WorkFailed';
}

export interface Done<A> {
  readonly answer: A;
  /** The plan that the job made; null where it made none. */
  readonly plan: Plan | null;
}

export interface Running<A> {
  /** Throws `Cancelled` or `WorkFailed`. */
  readonly done: Promise<Done<A>>;
  cancel(): void;
}

export interface ThreadWish {
  /** The plan that the job is about. */
  readonly plan?: Plan;
  /** Hears how far it is. */
  readonly tell?: (words: string, done: number, all: number) => void;
}

/**
 * The thread's program: beside the module at `from`, in the sources as in the build. In a package it lies beside the
 * archive with what it reads: a thread is not promised to see into the archive.
 */
export function threadProgram(from: string): URL {
  const url = new URL(from.endsWith('.ts') ? './thread-sources.mjs' : './thread.mjs', from);
  return new URL(url.href.replace('/app.asar/', '/app.asar.unpacked/'));
}

async function sendPlan(port: MessagePort, plan: Plan): Promise<void> {
  for (const piece of piecesOf(plan)) {
    port.postMessage(piece);
    await setImmediate();
  }
  port.postMessage(null);
}

/** What the thread has sent already, piece by piece; null where it sent no plan. */
async function takePlan(port: MessagePort): Promise<Plan | null> {
  const gatherer = gatherPlan();
  let some = false;
  for (;;) {
    const received = receiveMessageOnPort(port) as { message: PlanPiece } | undefined;
    if (received === undefined) return some ? gatherer.plan() : null;
    some = true;
    gatherer.take(received.message);
    await setImmediate();
  }
}

/** A thread that does the job; why there is none, where the system gives none. */
function startThread(job: ThreadJob, pieces: MessagePort): Worker | WorkFailed {
  const workerData: ThreadStart = { job, pieces };
  try {
    return new Worker(threadProgram(import.meta.url), { workerData, transferList: [pieces], execArgv: [] });
  } catch (error) {
    return new WorkFailed(error instanceof Error ? error.message : String(error));
  }
}

/** Starts a job. */
export function inThread<J extends ThreadJob>(
  job: J,
  { plan, tell = () => undefined }: ThreadWish = {},
): Running<ThreadAnswers[J['kind']]> {
  const { port1: here, port2: there } = new MessageChannel();
  const worker = startThread(job, there);
  if (worker instanceof WorkFailed) {
    here.close();
    return { done: Promise.reject(worker), cancel: () => undefined };
  }
  let cancel = (): void => undefined;
  const done = new Promise<Done<ThreadAnswers[J['kind']]>>((resolve, reject) => {
    const failed = (why: string): void => reject(new WorkFailed(why));
    cancel = () => reject(new Cancelled('cancelled'));
    worker.on('message', (message: ThreadMessage) => {
      if (message.kind === 'progress') tell(message.words, message.done, message.all);
      else if (message.kind === 'failed') failed(message.message);
      else {
        const answer = message.answer as ThreadAnswers[J['kind']];
        takePlan(here).then((made) => resolve({ answer, plan: made }), reject);
      }
    });
    worker.on('error', (error) => failed(error.message));
    worker.on('exit', () => failed('the work ended before it was done'));
    if (plan !== undefined) sendPlan(here, plan).catch(reject);
  }).finally(() => {
    here.close();
    return worker.terminate();
  });
  return { done, cancel };
}
