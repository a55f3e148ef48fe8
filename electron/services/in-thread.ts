// Heavy work in a thread of its own, so that the program goes on answering: one thread a job, ended when the job is done
// or cancelled. What a job is and does is threads.ts. Run from the sources, the thread has the loader for them.

import { Worker } from 'node:worker_threads';
import type { ThreadAnswers, ThreadJob, ThreadMessage } from './thread-jobs.ts';

/** A job that was cancelled. */
export class Cancelled extends Error {
  override readonly name = 'Cancelled';
}

/** A job that failed of itself; `message` is the thread's own. */
export class WorkFailed extends Error {
  override readonly name = 'WorkFailed';
}

export interface Running<A> {
  /** Throws `Cancelled` or `WorkFailed`. */
  readonly done: Promise<A>;
  cancel(): void;
}

/**
 * The thread's program: beside the module at `from`, in the sources as in the build. In a package it lies beside the
 * archive with what it reads: a thread is not promised to see into the archive.
 */
export function threadProgram(from: string): URL {
  const url = new URL(from.endsWith('.ts') ? './thread-sources.mjs' : './thread.mjs', from);
  return new URL(url.href.replace('/app.asar/', '/app.asar.unpacked/'));
}

/** Starts a job. `tell` hears how far it is. */
export function inThread<J extends ThreadJob>(
  job: J,
  tell: (words: string, done: number, all: number) => void = () => undefined,
): Running<ThreadAnswers[J['kind']]> {
  const worker = new Worker(threadProgram(import.meta.url), { workerData: job, execArgv: [] });
  let cancel = (): void => undefined;
  const done = new Promise<ThreadAnswers[J['kind']]>((resolve, reject) => {
    cancel = () => reject(new Cancelled('cancelled'));
    worker.on('message', (message: ThreadMessage) => {
      if (message.kind === 'progress') tell(message.words, message.done, message.all);
      else if (message.kind === 'failed') reject(new WorkFailed(message.message));
      else resolve(message.answer as ThreadAnswers[J['kind']]);
    });
    worker.on('error', (error) => reject(new WorkFailed(error.message)));
    worker.on('exit', () => reject(new WorkFailed('the work ended before it was done')));
  }).finally(() => worker.terminate());
  return { done, cancel };
}
