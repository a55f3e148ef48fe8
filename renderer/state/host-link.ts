// The open plan and the host's: edits go there, its news comes here, and where the two have parted one of them is taken. Another
// window may change or close the plan meanwhile: then this one follows, or what was done here goes on as a plan of its own.

import type { Edit } from '../../core/edit/index.ts';
import type { Bridge, DocumentView, HeldPlan } from '../../electron/contract.ts';
import type { AppState, Notice, OpenPlan } from './app-state.ts';
import { giveToHost, untilAnswered } from './host-plan.ts';
import { type HostQueue, hostQueue, NOT_TAKEN } from './host-queue.ts';
import type { Store } from './store.ts';

const KEPT = 'What is shown here is kept as a plan without a file: save it.';
const CLOSED_ELSEWHERE = `This plan was closed in another window. ${KEPT}`;
const CHANGED_AT_ONCE = `This plan was changed in another window at the same time. ${KEPT}`;
const CHANGED_ELSEWHERE = 'This plan was changed in another window; it is shown as it is now.';

export interface HostLink {
  /** From now on edits go to the host's plan of this view, which is the one that is shown. */
  sendTo(view: DocumentView): void;
  send(edit: Edit): void;
  /** The host's news of a plan; of one that is not shown yet it is kept until it is. */
  viewed(view: DocumentView): void;
  /** A plan of the host is shown now: what came of it before counts. */
  shown(): void;
  /** Shows the host's plan of this handle, where it can be had. */
  show(handle: string): Promise<void>;
  /** When every edit is with the host; false where it did not take them all, or does not answer now. */
  settled(): Promise<boolean>;
  /** No plan is shown any more. */
  end(): void;
}

export interface HostLinkHooks {
  say(words: string, tone?: Notice['tone']): void;
  /** Shows a plan of the host as one that was opened. */
  begin(held: HeldPlan): void;
  /** Shows what has become of the plan that is shown; view and choice stay. */
  follow(held: HeldPlan): void;
}

export function hostLink(store: Store<AppState>, bridge: Bridge, hooks: HostLinkHooks): HostLink {
  const { say, begin } = hooks;
  let queue: HostQueue | null = null;
  /** The revision that the host told of last, by plan. */
  const told = new Map<string, number>();
  let following = false;

  /** Whether the host does not have all that is shown. */
  const waits = (): boolean => queue?.waits() ?? false;

  const seen = (part: Partial<DocumentView>): void =>
    store.set((state) => {
      const { open } = state;
      return open === null ? state : { ...state, open: { ...open, view: { ...open.view, ...part } } };
    });

  /** The plan of this handle, as long as it is the one that is shown. */
  function shownOf(handle: string): OpenPlan | null {
    const { open } = store.get();
    return open?.view.handle === handle ? open : null;
  }

  function sendTo({ handle, revision }: DocumentView): void {
    queue?.end();
    queue = hostQueue(bridge, handle, revision, {
      unanswered: () => say(NOT_TAKEN, 'problem'),
      answersAgain: () =>
        store.set((state) => ({
          ...state,
          notices: state.notices.filter(({ words }) => words !== NOT_TAKEN),
        })),
      // What is still on its way is in no file.
      taken: (answer) => {
        seen({ unsaved: answer.unsaved || waits(), revision: answer.revision });
        void follow(handle);
      },
      refused: ({ code, message }) => {
        seen({ unsaved: true });
        if (code === 'closed') void keepApart(handle, CLOSED_ELSEWHERE);
        else if (code === 'out-of-step') void keepApart(handle, CHANGED_AT_ONCE);
        else {
          say(message, 'problem');
          void takeAgain(handle);
        }
      },
    });
  }

  /** The plan that is shown goes on as one of its own. */
  function keepApart(handle: string, words: string): Promise<void> {
    return giveToHost(bridge, {
      shown: () => {
        const open = shownOf(handle);
        return open && { plan: open.plan, name: (open.view.name ?? open.plan.title).slice(0, 200) };
      },
      given: (view) => {
        sendTo(view);
        seen(view);
        say(words, 'problem');
      },
      refused: (message) => say(message, 'problem'),
    });
  }

  /** The host cannot do what was done here, which only a fault of ours can bring about: its plan is shown again. */
  async function takeAgain(handle: string): Promise<void> {
    const isShown = (): boolean => shownOf(handle) !== null;
    const held = await untilAnswered(() => bridge.plan({ handle }), isShown);
    if (!isShown()) return;
    if (held === null) await keepApart(handle, CLOSED_ELSEWHERE);
    else begin(held);
  }

  /** Another window has changed the plan, and nothing done here is on its way: it is shown as the host has it. */
  async function follow(handle: string): Promise<void> {
    const isBehind = (): boolean =>
      shownOf(handle) !== null && !waits() && queue !== null && queue.ahead() < (told.get(handle) ?? 0);
    if (following) return;
    following = true;
    try {
      while (isBehind()) {
        const held = await bridge.plan({ handle });
        if (held === null || !isBehind()) return;
        sendTo(held.view);
        hooks.follow(held);
        if (store.get().notices.every(({ words }) => words !== CHANGED_ELSEWHERE))
          say(CHANGED_ELSEWHERE, 'loss');
      }
    } catch {
      // The host is gone for now; its next news tells of this again.
    } finally {
      following = false;
    }
  }

  return {
    sendTo,
    send: (edit) => {
      queue?.send(edit);
      seen({ unsaved: true });
    },
    viewed: (view) => {
      told.set(view.handle, view.revision);
      const open = shownOf(view.handle);
      if (open === null) return;
      seen({ ...view, revision: open.view.revision, unsaved: view.unsaved || waits() });
      void follow(view.handle);
    },
    shown: () => {
      const { open } = store.get();
      if (open !== null) void follow(open.view.handle);
    },
    show: async (handle) => {
      const held = await bridge.plan({ handle }).catch(() => null);
      if (held !== null) begin(held);
    },
    settled: () => queue?.settled() ?? Promise.resolve(true),
    end: () => {
      queue?.end();
      queue = null;
    },
  };
}
