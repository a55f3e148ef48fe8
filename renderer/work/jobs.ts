// Jobs for the worker, as promises that can be cancelled. A new job of a kind puts an end to the one before it: what is
// shown is always for the newest plan asked. Workers are started when first needed and kept while they are idle.

import type { WorkAnswer, WorkProgress, WorkRequest } from './protocol.ts';

export interface Job<A> {
  readonly done: Promise<A>;
  /** Ends the job; `done` is then refused with `Cancelled`. */
  cancel(): void;
}

export class Cancelled extends Error {
  constructor() {
    super('cancelled');
    this.name = 'Cancelled';
  }
}

export type Finished<K extends WorkRequest['kind']> = Extract<
  WorkAnswer,
  { kind: K extends 'solve' ? 'solved' : 'sheets' }
>;

/** An answer on the way to the last one. */
export type Staged = Extract<WorkAnswer, { kind: 'staged' }>;

export interface Jobs {
  start<K extends WorkRequest['kind']>(
    request: Extract<WorkRequest, { kind: K }>,
    tell?: (progress: WorkProgress) => void,
    stage?: (answer: Staged) => void,
  ): Job<Finished<K>>;
  /** Ends every job and worker. */
  close(): void;
}

interface Lane {
  worker: Worker;
  cancel: (() => void) | null;
}

export function startJobs(makeWorker: () => Worker): Jobs {
  const lanes = new Map<WorkRequest['kind'], Lane>();

  function laneFor(kind: WorkRequest['kind']): Lane {
    const lane = lanes.get(kind);
    lane?.cancel?.();
    const kept = lanes.get(kind);
    if (kept !== undefined) return kept;
    const fresh: Lane = { worker: makeWorker(), cancel: null };
    lanes.set(kind, fresh);
    return fresh;
  }

  return {
    start: (request, tell, stage) => {
      const lane = laneFor(request.kind);
      const { worker } = lane;
      let cancel = (): void => undefined;
      const done = new Promise<never>((resolve, reject) => {
        const settle = (): void => {
          lane.cancel = null;
          worker.onmessage = null;
          worker.onerror = null;
        };
        cancel = () => {
          if (lane.cancel !== cancel) return;
          settle();
          worker.terminate();
          lanes.delete(request.kind);
          reject(new Cancelled());
        };
        worker.onmessage = ({ data }: MessageEvent<WorkAnswer>) => {
          if (data.kind === 'progress') return tell?.(data.progress);
          if (data.kind === 'staged') return stage?.(data);
          settle();
          if (data.kind === 'failed') reject(new Error(data.message));
          else resolve(data as never);
        };
        worker.onerror = (event) => {
          settle();
          worker.terminate();
          lanes.delete(request.kind);
          reject(new Error(event.message || 'the worker stopped'));
        };
        lane.cancel = cancel;
        worker.postMessage(request);
      });
      return { done, cancel };
    },
    close: () => {
      for (const lane of [...lanes.values()]) {
        lane.cancel?.();
        lane.worker.terminate();
      }
      lanes.clear();
    },
  };
}
