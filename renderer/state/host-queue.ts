// Edits on their way to the host, one after the other in the order they were made. The window does not wait for them; a
// save does. Where the host does not take one, which only a fault of ours or a lost connection can bring about, the window
// is told and takes the host's plan again.

import type { Edit } from '../../core/edit/index.ts';
import type { Bridge, EditAnswer } from '../../electron/contract.ts';

/** Said where an edit got no answer. */
export const NOT_TAKEN =
  'The program that keeps the file does not answer. The plan is still here: export or copy it.';

export interface HostQueue {
  send(edit: Edit): void;
  /** When all that was sent is answered; false where the host did not take it all. */
  settled(): Promise<boolean>;
}

export interface HostQueueHooks {
  taken(answer: EditAnswer & { ok: true }): void;
  refused(message: string): void;
}

/** `revision` is the host's at the start. Each edit that changed the plan raises it by one, here and there. */
export function hostQueue(
  bridge: Bridge,
  handle: string,
  revision: number,
  hooks: HostQueueHooks,
): HostQueue {
  let next = revision;
  let line: Promise<boolean> = Promise.resolve(true);
  return {
    send: (edit) => {
      const at = next;
      next += 1;
      line = line.then(async (sound) => {
        if (!sound) return false;
        try {
          const answer = await bridge.edit({ handle, revision: at, edit });
          if (answer.ok) hooks.taken(answer);
          else hooks.refused(answer.message);
          return answer.ok;
        } catch {
          hooks.refused(NOT_TAKEN);
          return false;
        }
      });
    },
    settled: () => line,
  };
}
