// The calls about a plan that is open: what it holds, edits, whether its file is still what it was, closing.

import type { Edit } from '../../core/edit/index.ts';
import type { DeskState } from './desk-state.ts';
import type { DeskCalls } from './desk-types.ts';

export function planCalls(state: DeskState) {
  const { documents } = state;
  return {
    plan: async ({ handle }) => {
      const document = documents.get(handle);
      return document && { plan: document.plan(), view: document.view(), history: state.historyOf(handle) };
    },
    edit: async ({ handle, revision, edit: raw }) => {
      const document = documents.get(handle);
      if (document === null) return { ok: false, code: 'closed', message: 'This plan is no longer open.' };
      const before = document.view().revision;
      const answer = document.edit(revision, raw);
      // What was done was an edit; one that is only answered once more was remembered then.
      if (answer.ok && answer.revision > before)
        state.remember(handle, { edit: raw as Edit, inverse: answer.inverse });
      return answer;
    },
    look: async ({ handle }) => (await documents.get(handle)?.look()) ?? 'none',
    takeTheirs: async ({ handle }) => {
      const document = documents.get(handle);
      if (document === null) return { outcome: 'refused', message: 'This plan is no longer open.' };
      const outcome = await document.takeTheirs();
      if (outcome.outcome !== 'taken') return outcome;
      state.forget(handle);
      return { ...outcome, view: document.view() };
    },
    close: async ({ handle, lose }) => {
      const outcome = await documents.close(handle, lose);
      if (outcome.outcome === 'closed') state.forget(handle);
      return outcome;
    },
  } satisfies Partial<DeskCalls>;
}
