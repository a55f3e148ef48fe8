// After the host refused an edit: the window shows the host's plan again. Where the host has it no longer, for it was closed
// in another window, the host is given the plan that is shown as one without a file, so that nothing done here is lost.

import { type Plan, writePlan } from '../../core/plan/index.ts';
import type { Bridge, DocumentView } from '../../electron/contract.ts';

/** So long after no answer came the host is asked again, ms. */
export const AGAIN_MS = 2000;

export interface HostPlanHooks {
  /** What is shown of the plan in question, with a name for it; null once another plan is shown. */
  shown(): { readonly plan: Plan; readonly name: string } | null;
  /** The host has it: this is to be shown. */
  held(plan: Plan, view: DocumentView): void;
  /** The host had it no longer and has it now, by this view. */
  given(view: DocumentView): void;
  /** The host does not take it. */
  refused(message: string): void;
}

/** Asks until the host answers. */
export async function agreeWithHost(bridge: Bridge, handle: string, hooks: HostPlanHooks): Promise<void> {
  for (let before = hooks.shown(); before !== null; before = hooks.shown()) {
    try {
      const held = await bridge.plan({ handle });
      if (hooks.shown() === null) return;
      if (held !== null) return hooks.held(held.plan, held.view);
      const answer = await bridge.openText({ name: before.name, text: writePlan(before.plan) });
      if (answer.outcome !== 'opened')
        return hooks.refused('message' in answer ? answer.message : 'The plan could not be kept.');
      if (hooks.shown()?.plan === before.plan) return hooks.given(answer.view);
      // It was changed, or left, meanwhile.
      await bridge.close({ handle: answer.view.handle, lose: true });
    } catch {
      await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
    }
  }
}
