// Boards and scribes follow the plan by themselves, in the worker: asked for a moment after the last edit, thrown away when
// the plan has changed meanwhile. What was found for an earlier plan stays to be shown, marked as such.

import { derive, type Solved } from '../../core/report/index.ts';
import { Cancelled, type Job, type Jobs } from '../work/jobs.ts';
import type { SolvedParts } from '../work/protocol.ts';
import type { AppState, SolvedPlan } from './app-state.ts';
import type { Store } from './store.ts';

/** Quiet after an edit before work starts, ms. */
const QUIET_MS = 250;

export interface Solving {
  /** The plan changed. */
  ask(): void;
  /** The user has seen enough: what was found before stays. */
  stop(): void;
}

export function startSolving(store: Store<AppState>, jobs: Jobs): Solving {
  let job: Job<unknown> | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;

  const lastOf = (state: AppState): SolvedPlan | null =>
    state.solution.state === 'none' ? null : state.solution.last;

  async function run(): Promise<void> {
    const { open } = store.get();
    if (open === null) return;
    const { plan, derived } = open;
    const mine = jobs.start({ kind: 'solve', plan }, (progress) =>
      store.set((state) =>
        state.solution.state === 'pending' ? { ...state, solution: { ...state.solution, progress } } : state,
      ),
    );
    job = mine;
    try {
      const { parts, cuts } = await mine.done;
      const solved = whole(derived, parts);
      store.set((state) =>
        state.open?.plan === plan
          ? { ...state, solution: { state: 'done', last: { solved, cuts, plan } } }
          : state,
      );
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
        return {
          ...state,
          solution: { state: 'failed', last, message: 'Stopped. The boards are not worked out.' },
        };
      });
    },
  };
}

/** What the worker found, on what the window has derived itself. Scarfs moved for the boards' sake are derived again. */
function whole(derived: Solved | (Parameters<typeof derive>[1] & object), parts: SolvedParts): Solved {
  const { findings, scribes, stock, report, splits } = parts;
  const moved = Object.keys(splits).length > 0;
  const own = moved ? derive(derived.plan, derived, splits) : derived;
  return { ...own, findings, scribes, stock, report };
}
