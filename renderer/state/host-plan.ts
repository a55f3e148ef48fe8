// The plan that is shown goes to the host as one without a file, where the host's own is another by now: it was closed, or
// changed, in another window. So nothing that was done here is lost.

import { type Plan, writePlan } from '../../core/plan/index.ts';
import type { Bridge, DocumentView } from '../../electron/contract.ts';

/** So long after no answer came the host is asked again, ms. */
export const AGAIN_MS = 2000;

/** Asks until the host answers. Null where what was asked is wanted no more. */
export async function untilAnswered<T>(ask: () => Promise<T>, wanted: () => boolean): Promise<T | null> {
  while (wanted()) {
    try {
      return await ask();
    } catch {
      await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
    }
  }
  return null;
}

export interface GiveHooks {
  /** What is shown of the plan in question, with a name for it; null once another plan is shown. */
  shown(): { readonly plan: Plan; readonly name: string } | null;
  /** The host has it now, by this view. */
  given(view: DocumentView): void;
  /** The host does not take it. */
  refused(message: string): void;
}

export async function giveToHost(bridge: Bridge, { shown, given, refused }: GiveHooks): Promise<void> {
  for (let before = shown(); before !== null; before = shown()) {
    const { plan, name } = before;
    const answer = await untilAnswered(
      () => bridge.openText({ name, text: writePlan(plan) }),
      () => shown()?.plan === plan,
    );
    if (answer === null) continue;
    if (answer.outcome !== 'opened')
      return refused('message' in answer ? answer.message : 'The plan could not be kept.');
    if (shown()?.plan === plan) return given(answer.view);
    // It was changed, or left, meanwhile.
    await bridge.close({ handle: answer.view.handle, lose: true }).catch(() => undefined);
  }
}
