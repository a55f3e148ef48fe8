// Edits on their way to the host, one after the other in the order they were made. The window does not wait for them; a
// save does. Where no answer comes, they wait here and are sent again, from the first that was not answered: the host does
// not do an edit twice. Where the host refuses one, which only a fault of ours or another window can bring about, the window
// is told and takes the host's plan again.

import type { Edit } from '../../core/edit/index.ts';
import type { Bridge, EditAnswer } from '../../electron/contract.ts';
import { AGAIN_MS } from './host-plan.ts';

/** So long an answer may take before the user is told, ms: a thread that reads a large file is done by then. */
const SLOW_MS = 5000;

/** Said where an edit got no answer. */
export const NOT_TAKEN =
  'The program that keeps the file does not answer. The plan is still here in the window, and goes to it once it answers.';

export interface HostQueue {
  send(edit: Edit): void;
  /** When all that was sent is answered; false where the host did not take it all, or does not answer now. */
  settled(): Promise<boolean>;
  /** Whether the host does not have all that was sent: it is not answered yet, or was refused. */
  waits(): boolean;
  /** The host's revision once all that was sent is done. */
  ahead(): number;
  /** Another plan is shown: what was not answered is not sent again. */
  end(): void;
}

export interface HostQueueHooks {
  taken(answer: EditAnswer & { ok: true }): void;
  /** No answer came, or none yet, after one that did. */
  unanswered(): void;
  /** It answers again. */
  answersAgain(): void;
  refused(answer: EditAnswer & { ok: false }): void;
}

/** `revision` is the host's at the start. Each edit that changed the plan raises it by one, here and there. */
export function hostQueue(
  bridge: Bridge,
  handle: string,
  revision: number,
  hooks: HostQueueHooks,
): HostQueue {
  const waiting: { readonly revision: number; readonly edit: Edit }[] = [];
  let next = revision;
  let running: Promise<boolean> | null = null;
  let silent = false;
  let over = false;
  /** An answer is long in coming. */
  let late = false;
  /** Who asked whether all is settled, told then. */
  const asking = new Set<() => void>();

  function noAnswer(): void {
    if (!silent && !over) hooks.unanswered();
    silent = true;
  }

  function tooLong(): void {
    late = true;
    noAnswer();
    for (const giveUp of asking) giveUp();
  }

  async function sendWaiting(): Promise<boolean> {
    for (let first = waiting[0]; first !== undefined && !over; first = waiting[0]) {
      let answer: EditAnswer;
      // It is still waited for: what was stopped for a while answers when it goes on.
      const slow = setTimeout(tooLong, SLOW_MS);
      try {
        answer = await bridge.edit({ handle, ...first });
      } catch {
        noAnswer();
        setTimeout(() => void flush(), AGAIN_MS);
        return false;
      } finally {
        clearTimeout(slow);
        late = false;
      }
      if (over) return false;
      if (silent) hooks.answersAgain();
      silent = false;
      if (!answer.ok) {
        over = true;
        hooks.refused(answer);
        return false;
      }
      waiting.shift();
      hooks.taken(answer);
    }
    return !over;
  }

  function flush(): Promise<boolean> {
    if (over) return Promise.resolve(false);
    running ??= sendWaiting().finally(() => {
      running = null;
    });
    return running;
  }

  return {
    send: (edit) => {
      waiting.push({ revision: next, edit });
      next += 1;
      void flush();
    },
    settled: () =>
      new Promise((resolve) => {
        const giveUp = (): void => resolve(false);
        if (late) return giveUp();
        asking.add(giveUp);
        void flush().then((all) => {
          asking.delete(giveUp);
          resolve(all);
        });
      }),
    waits: () => waiting.length > 0,
    ahead: () => next,
    end: () => {
      over = true;
    },
  };
}
