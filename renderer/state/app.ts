// What the window can do to its state: open a plan, change it, take back, choose, look elsewhere. Every change of the plan
// goes through `commit`, which derives, remembers the way back and hands the edit to the host's link; nothing that is derived
// is kept beside its source.

import { freeze } from 'immer';
import { apply, describe, type Edit, type MendNote, type PatchEdit } from '../../core/edit/index.ts';
import type { LevelId, NodeId, Plan } from '../../core/plan/index.ts';
import { type Derived, derive } from '../../core/report/index.ts';
import type { Bridge, DocumentView, HeldPlan, OpenAnswer, OpenedPlan } from '../../electron/contract.ts';
import type { Jobs } from '../work/jobs.ts';
import type { AppState, Dialog, Notice, OpenPlan, Stage, Step } from './app-state.ts';
import { hostLink } from './host-link.ts';
import { drawingOptions, initialState } from './initial.ts';
import { leftOdd, leftOddWords, lostWords } from './left-odd.ts';
import { type Ref, sameRef } from './refs.ts';
import { refNow, refsNow } from './same-room.ts';
import { type Solving, startSolving } from './solving.ts';
import { createStore, type Store } from './store.ts';
import type { Viewport } from './viewport.ts';

export interface CommitOptions {
  /** Names the step where the edit's own words do not do. */
  readonly words?: string;
  /** What is selected afterwards. Of a room either name will do: the one before the edit or the one after it. */
  readonly select?: readonly Ref[];
  /** The level it was done on or to, where that is not the one on the sheet: taking it back shows that again. */
  readonly level?: LevelId;
  /** Steps with the same key that follow at once are one step for undo: arrow keys, a field typed in. */
  readonly runs?: string;
}

export interface App {
  readonly store: Store<AppState>;
  readonly bridge: Bridge;
  readonly jobs: Jobs;
  /** Any change of what is shown. The plan itself is changed by `commit` only. */
  change(how: (state: AppState) => Partial<AppState>): void;
  /** Does an edit as one step. False, with a sentence for the user, where it cannot be done. */
  commit(edit: Edit, options?: CommitOptions): boolean;
  undo(): void;
  redo(): void;
  select(refs: readonly Ref[]): void;
  toggle(ref: Ref): void;
  setStage(stage: Stage): void;
  setLevel(level: LevelId): void;
  look(how: (viewport: Viewport) => Viewport): void;
  show(dialog: Dialog | null): void;
  say(words: string, tone?: Notice['tone']): void;
  dismiss(id: number): void;
  /** Puts an answer of the host on the sheet; false where there is nothing to show. */
  opened(answer: OpenAnswer): boolean;
  /** The host's news of the open plan. */
  viewed(view: DocumentView): void;
  /** The plan as it is on disk now, after 'take theirs': history starts anew. */
  replaced(plan: Plan, view: DocumentView): void;
  /** No plan is open any more. */
  closed(): void;
  /** When every edit is with the host. */
  settled(): Promise<boolean>;
  solving: Solving;
}

/** Steps that run together do so only within this time, ms. */
const RUN_MS = 1500;
const MOST_NOTICES = 4;

/** The way back, as the host has it. */
function stepsOf(history: HeldPlan['history'], plan: Plan): Step[] {
  return history.map(({ edit, inverse }) => ({
    words: describe(edit, plan),
    back: inverse,
    level: null,
    selection: [],
    runs: null,
  }));
}

export function createApp(bridge: Bridge, jobs: Jobs): App {
  const store = createStore(initialState());
  const change: App['change'] = (how) => store.set((state) => ({ ...state, ...how(state) }));
  const solving = startSolving(store, jobs);
  let notices = 0;
  let lastRun = 0;

  const say: App['say'] = (words, tone = 'plain') => {
    notices += 1;
    const notice: Notice = { id: notices, tone, words };
    change((state) => ({ notices: [...state.notices, notice].slice(-MOST_NOTICES) }));
  };

  const link = hostLink(store, bridge, {
    say,
    begin: (held) => begin({ outcome: 'opened', notes: [], ...held }),
    follow: ({ view, plan, history }) =>
      put(derive(freeze(plan, true)), () => ({ view, done: stepsOf(history, plan), undone: [] })),
  });

  function begin({ view, plan, history }: OpenedPlan): void {
    // Only of what is frozen is anything remembered: so the first edit, too, costs what it touches.
    const derived = derive(freeze(plan, true));
    const done = stepsOf(history, plan);
    link.sendTo(view);
    change((state) => ({
      open: { view, plan: derived.plan, derived, done, undone: [] },
      level: plan.levels[0]?.id ?? null,
      selection: [],
      hover: null,
      recent: [],
      drawing: drawingOptions(plan.units),
      tool: { id: 'select', state: null },
      dialog: null,
      sheets: { sheet: null, scale: null },
      finding: null,
      // What was copied is of the plan that was open before.
      clipboard: null,
      // Boards of the plan that was open before are no boards of this one.
      solution: { state: 'none' },
      viewport: { ...state.viewport },
    }));
    solving.ask();
    link.shown();
  }

  function replaced(plan: Plan, view: DocumentView): void {
    begin({ outcome: 'opened', view, plan, notes: [], history: [] });
  }

  /**
   * Applies an edit and derives from it, then hands it to the host: what cannot be shown is not sent. Null, with a
   * sentence said, where it cannot be done.
   */
  function applied(edit: Edit): { derived: Derived; inverse: PatchEdit; notes: readonly MendNote[] } | null {
    const { open } = store.get();
    if (open === null) return null;
    try {
      const result = apply(open.plan, edit);
      if (!result.ok) {
        say(result.message, 'problem');
        return null;
      }
      const { plan, inverse, notes } = result;
      if (plan === open.plan) return { derived: open.derived, inverse, notes };
      const derived = derive(plan, open.derived);
      link.send(edit);
      return { derived, inverse, notes };
    } catch (error) {
      say(`This could not be done: ${error instanceof Error ? error.message : String(error)}`, 'problem');
      return null;
    }
  }

  function put(derived: Derived, how: (open: OpenPlan) => Partial<OpenPlan>): void {
    change(({ open, level, selection, hover }) => {
      if (open === null) return {};
      const { plan } = derived;
      const there = plan.levels.some(({ id }) => id === level);
      return {
        open: { ...open, ...how(open), plan, derived },
        level: there ? level : (plan.levels[0]?.id ?? null),
        selection: refsNow(selection, open.derived, derived),
        hover: hover && refNow(hover, open.derived, derived),
      };
    });
    solving.ask();
  }

  const commit: App['commit'] = (edit, options = {}) => {
    const before = store.get();
    if (before.open === null) return false;
    const result = applied(edit);
    if (result === null) return false;
    if (result.derived !== before.open.derived) {
      const now = performance.now();
      const last = before.open.done.at(-1);
      const runs = options.runs ?? null;
      const runsOn = runs !== null && last?.runs === runs && now - lastRun < RUN_MS;
      lastRun = now;
      const step: Step = {
        words: options.words ?? describe(edit, before.open.plan),
        back: result.inverse,
        level: options.level ?? before.level,
        selection: before.selection,
        runs,
      };
      const joined: Step = runsOn
        ? { ...last, back: { type: 'patch', patches: [...result.inverse.patches, ...last.back.patches] } }
        : step;
      put(result.derived, ({ done }) => ({
        done: runsOn ? [...done.slice(0, -1), joined] : [...done, joined],
        undone: [],
      }));
      remember(edit, result.derived.plan);
      const lost = lostWords(result.notes);
      const odd = leftOdd(before.open.derived, result.derived);
      const news = [lost, odd > 0 ? leftOddWords(odd) : null].filter((each) => each !== null);
      // What is lost stays to be read; all else is news that goes.
      const tone = result.notes.some(({ loses }) => loses === true) ? 'loss' : 'plain';
      if (news.length > 0) say(news.join(' '), tone);
    }
    if (options.select !== undefined) select(refsNow(options.select, before.open.derived, result.derived));
    return true;
  };

  /** Nodes an edit names are what guides run from next; not those that copied walls had. */
  function remember(edit: Edit, { levels }: Plan): void {
    const named =
      JSON.stringify(edit, (key, value: unknown) => (key === 'source' ? undefined : value))
        .match(/"[^"\\]+"/g)
        ?.map((each) => each.slice(1, -1)) ?? [];
    const fresh = named
      .filter((each) => levels.some(({ nodes }) => Object.hasOwn(nodes, each)))
      .slice(-4) as NodeId[];
    if (fresh.length === 0) return;
    change(({ recent }) => ({ recent: [...recent.filter((id) => !fresh.includes(id)), ...fresh].slice(-6) }));
  }

  function takeBack(from: 'done' | 'undone', to: 'done' | 'undone'): void {
    const { open, level } = store.get();
    const step = open?.[from].at(-1);
    if (open === null || step === undefined) return;
    const result = applied(step.back);
    if (result === null) return;
    const other: Step = { ...step, back: result.inverse, runs: null };
    put(result.derived, (now) => ({ [from]: now[from].slice(0, -1), [to]: [...now[to], other] }));
    const there = result.derived.plan.levels.some(({ id }) => id === step.level);
    if (there && step.level !== level) change(() => ({ level: step.level }));
    // What was chosen before the step: taken back, it has the names of then.
    const chosen = from === 'done' ? step.selection : refsNow(step.selection, open.derived, result.derived);
    select(chosen.filter((ref) => !there || ref.level === step.level));
    say(`${from === 'done' ? 'Undone' : 'Done again'}: ${step.words}.`);
  }

  function select(refs: readonly Ref[]): void {
    change(({ level }) => ({ selection: refs, level: refs[0]?.level ?? level }));
  }

  return {
    store,
    bridge,
    jobs,
    change,
    commit,
    undo: () => takeBack('done', 'undone'),
    redo: () => takeBack('undone', 'done'),
    select,
    toggle: (ref) =>
      change(({ selection }) => ({
        selection: selection.some((each) => sameRef(each, ref))
          ? selection.filter((each) => !sameRef(each, ref))
          : [...selection, ref],
      })),
    setStage: (stage) => change(() => ({ stage })),
    setLevel: (level) => change(() => ({ level, selection: [], hover: null })),
    look: (how) => change(({ viewport }) => ({ viewport: how(viewport) })),
    show: (dialog) => change(() => ({ dialog })),
    say,
    dismiss: (id) => change(({ notices: all }) => ({ notices: all.filter((each) => each.id !== id) })),
    opened: (answer) => {
      if (answer.outcome === 'opened') {
        begin(answer);
        for (const note of answer.notes) say(note.message);
        return true;
      }
      if (answer.outcome === 'refused' || answer.outcome === 'held') say(answer.message, 'problem');
      if (answer.outcome === 'shown') void link.show(answer.handle);
      return answer.outcome === 'shown';
    },
    viewed: link.viewed,
    replaced,
    closed: () => {
      link.end();
      solving.stop();
      change(() => ({ open: null, level: null, selection: [], hover: null, solution: { state: 'none' } }));
    },
    settled: link.settled,
    solving,
  };
}
