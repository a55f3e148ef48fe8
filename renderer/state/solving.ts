// Boards and scribes follow the plan by themselves, in the worker: asked for a moment after the last edit, thrown away when
// the plan has changed meanwhile. A first layout is shown at once and replaced by better ones; what was found for an earlier
// plan stays to be shown, marked as such. An answer is put on the plan in slices: the pointer never waits for it.

import type { Plan } from '../../core/plan/index.ts';
import { type Cuts, plainCutsOf } from '../../core/report/index.ts';
import { Cancelled, type Job, type Jobs } from '../work/jobs.ts';
import { solvedInSteps } from '../work/protocol.ts';
import { inSlices } from '../work/slices.ts';
import type { AppState, SolvedPlan } from './app-state.ts';
import type { Store } from './store.ts';

/** Quiet after an edit before work starts, ms. */
const QUIET_MS = 250;

/** What the user is told who stopped, by how far the plan shown was worked out. */
const STOPPED = {
  none: 'Stopped. The boards of this plan are not worked out.',
  first: 'Stopped. What is shown is a first layout: better boards may be found.',
  boards: 'Stopped. The boards are worked out; what they cost bought otherwise is not.',
  whole: 'Stopped. The boards are worked out.',
} as const;

export interface Solving {
  /** The plan changed. */
  ask(): void;
  /** The user has seen enough: what was found before stays. */
  stop(): void;
}

export function startSolving(store: Store<AppState>, jobs: Jobs): Solving {
  let job: Job<unknown> | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;
  /** Ends the putting together of the last answer. */
  let leave: (() => void) | null = null;

  const lastOf = (state: AppState): SolvedPlan | null =>
    state.solution.state === 'none' ? null : state.solution.last;

  function put(last: SolvedPlan): void {
    store.set((state) =>
      state.open?.plan === last.plan && state.solution.state === 'pending'
        ? { ...state, solution: { ...state.solution, last, progress: null } }
        : state,
    );
  }

  function finish(plan: Plan, alternatives: Cuts['alternatives']): void {
    store.set((state) => {
      const last = lastOf(state);
      return last?.plan === plan && state.open?.plan === plan
        ? {
            ...state,
            solution: {
              state: 'done',
              last: { ...last, cuts: { ...last.cuts, alternatives }, stage: 'whole' },
            },
          }
        : state;
    });
  }

  async function run(): Promise<void> {
    const { open } = store.get();
    if (open === null) return;
    const { plan, derived } = open;
    /** What boards cost bought otherwise, where that is known before the boards are put on the plan. */
    let otherwise: Cuts['alternatives'] | null = null;
    const mine = jobs.start(
      { kind: 'solve', plan },
      (progress) =>
        store.set((state) =>
          state.solution.state === 'pending'
            ? { ...state, solution: { ...state.solution, progress } }
            : state,
        ),
      ({ parts, stage }) => {
        leave?.();
        const steps = solvedInSteps(derived, parts, lastOf(store.get())?.solved);
        leave = inSlices(steps, (solved) => {
          leave = null;
          put({ solved, cuts: plainCutsOf(solved), plan, stage });
          if (otherwise !== null) finish(plan, otherwise);
        });
      },
    );
    job = mine;
    try {
      const { alternatives } = await mine.done;
      if (leave === null) finish(plan, alternatives);
      else otherwise = alternatives;
    } catch (error) {
      if (error instanceof Cancelled) return;
      const message = error instanceof Error ? error.message : String(error);
      store.set((state) => ({ ...state, solution: { state: 'failed', last: lastOf(state), message } }));
    } finally {
      if (job === mine) job = null;
    }
  }

  function stop(): void {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    job?.cancel();
    job = null;
    leave?.();
    leave = null;
  }

  return {
    ask: () => {
      stop();
      store.set((state) => ({
        ...state,
        solution: { state: 'pending', last: lastOf(state), progress: null },
      }));
      timer = setTimeout(() => void run(), QUIET_MS);
    },
    stop: () => {
      stop();
      store.set((state) => {
        const last = lastOf(state);
        if (state.solution.state !== 'pending') return state;
        const stage = last !== null && last.plan === state.open?.plan ? last.stage : null;
        return { ...state, solution: { state: 'failed', last, message: STOPPED[stage ?? 'none'] } };
      });
    },
  };
}
