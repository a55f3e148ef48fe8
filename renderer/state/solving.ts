// Boards and scribes follow the plan by themselves, in the worker: asked for a moment after the last edit, thrown away when
// the plan has changed meanwhile. A first layout is shown at once, then the boards that were found; the best on the way are
// kept unseen, for when the user stops. What was found for an earlier plan stays to be shown, marked as such. An answer is
// put on the plan in slices: the pointer never waits for it.

import type { Plan } from '../../core/plan/index.ts';
import { type Cuts, plainCutsOf, type SolvedParts } from '../../core/report/index.ts';
import { Cancelled, type Job, type Jobs, type Staged } from '../work/jobs.ts';
import { isNoWorse, solvedInSteps } from '../work/protocol.ts';
import { inSlices } from '../work/slices.ts';
import type { AppState, OpenPlan, SolvedPlan } from './app-state.ts';
import type { Store } from './store.ts';

/** Quiet after an edit before work starts, ms. */
const QUIET_MS = 250;

export interface Solving {
  /** The plan changed, or the user wants the work that was stopped to go on. */
  ask(): void;
  /** The user has seen enough: the best that was found stays. */
  stop(): void;
}

/** The best answer of a plan. */
interface Best extends Pick<Staged, 'parts' | 'stage'> {
  readonly plan: Plan;
}

/** Work that goes on after a stop begins anew: what it comes to first is no news. */
function isNews({ parts, stage }: Pick<Best, 'parts' | 'stage'>, best: Best): boolean {
  return stage === 'boards' || (best.stage !== 'boards' && isNoWorse(parts, best.parts));
}

export function startSolving(store: Store<AppState>, jobs: Jobs): Solving {
  let job: Job<unknown> | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;
  /** Ends the putting together of the last answer. */
  let leave: (() => void) | null = null;
  let best: Best | null = null;
  /** What of it is shown. */
  let shown: SolvedParts | null = null;

  const lastOf = (state: AppState): SolvedPlan | null =>
    state.solution.state === 'none' ? null : state.solution.last;

  function put(last: SolvedPlan): void {
    store.set((state) => {
      const { solution } = state;
      if (state.open?.plan !== last.plan) return state;
      if (solution.state === 'pending') return { ...state, solution: { ...solution, last, progress: null } };
      return solution.state === 'stopped' ? { ...state, solution: { ...solution, last } } : state;
    });
  }

  /** Puts the best answer on the plan that it is of. */
  function show(
    { plan, parts, stage }: Best,
    { derived }: OpenPlan,
    then: () => void = () => undefined,
  ): void {
    leave?.();
    const steps = solvedInSteps(derived, parts, lastOf(store.get())?.solved);
    leave = inSlices(steps, (solved) => {
      leave = null;
      shown = parts;
      put({ solved, cuts: plainCutsOf(solved), plan, stage });
      then();
    });
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
    const { plan } = open;
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
        if (best?.plan === plan && !isNews({ parts, stage }, best)) return;
        best = { plan, parts, stage };
        if (stage === 'better') return;
        show(best, open, () => {
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

  function halt(): void {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    job?.cancel();
    job = null;
    leave?.();
    leave = null;
  }

  return {
    ask: () => {
      halt();
      store.set((state) => ({
        ...state,
        solution: { state: 'pending', last: lastOf(state), progress: null },
      }));
      timer = setTimeout(() => void run(), QUIET_MS);
    },
    stop: () => {
      halt();
      const { open, solution } = store.get();
      if (solution.state !== 'pending') return;
      store.set((state) => ({ ...state, solution: { state: 'stopped', last: lastOf(state) } }));
      if (open !== null && best?.plan === open.plan && best.parts !== shown) show(best, open);
    },
  };
}
