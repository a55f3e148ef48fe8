// What the services take from outside: the disk, the clock, timers, and the folder that is theirs. Tests bring their own.

import { type FileCalls, REAL_CALLS } from './file-calls.ts';

/** Wall clock in milliseconds since 1970. For telling people when something was; never for what comes before what. */
export interface Clock {
  now(): number;
}

export interface Timers {
  /** Runs `action` once after `ms` milliseconds of real time, whatever the clock says. Gives what cancels it. */
  after(ms: number, action: () => void): () => void;
}

export interface Env {
  readonly calls: FileCalls;
  readonly clock: Clock;
  readonly timers: Timers;
  /** Folder for preferences, recent files, journals, versions and locks; made where it is not there. */
  readonly userData: string;
  /** Lock files of this process that could not be removed when they were let go: they hold nothing. */
  readonly leftLocks: Set<string>;
}

/** The real thing. */
export function realEnv(userData: string): Env {
  return {
    calls: REAL_CALLS,
    clock: { now: () => Date.now() },
    timers: {
      after: (ms, action) => {
        const timer = setTimeout(action, ms);
        return () => clearTimeout(timer);
      },
    },
    userData,
    leftLocks: new Set(),
  };
}
