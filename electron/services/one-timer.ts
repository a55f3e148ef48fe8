// The one timer of a journal: what is to be done next, and when. It knows nothing of what is done; who has it says how
// that is run. RULES: SK8.

import type { Env } from './env.ts';

/** One timer at a time: an earlier time wins over a later one that is already set, never the other way round. */
export function oneTimer(env: Env) {
  let dueIn = Number.POSITIVE_INFINITY;
  let cancel: (() => void) | null = null;
  let stopped = false;
  const timer = {
    run: (_action: () => Promise<unknown>): void => {},
    set(ms: number, action: () => Promise<unknown>): void {
      // Once set, a timer of the same or a shorter wait is nearer than a new one would be.
      if (stopped || ms >= dueIn) return;
      cancel?.();
      dueIn = ms;
      cancel = env.timers.after(ms, () => {
        dueIn = Number.POSITIVE_INFINITY;
        cancel = null;
        timer.run(action);
      });
    },
    /** What is set has nothing left to do. */
    drop(): void {
      cancel?.();
      cancel = null;
      dueIn = Number.POSITIVE_INFINITY;
    },
    stop(): void {
      stopped = true;
      timer.drop();
    },
  };
  return timer;
}
