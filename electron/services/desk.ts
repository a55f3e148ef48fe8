// The desk: every call of the contract, checked and done over the services. It knows which plan the window shows, which
// ids stand for which files, and nothing of what carries the calls. RULES: SK6, SK16.

import { lookup } from '../../core/plan/index.ts';
import { CALL_NAMES, CALLS, type CallName } from '../contract.ts';
import { exportCalls } from './desk-export.ts';
import { openCalls } from './desk-open.ts';
import { planCalls } from './desk-plan.ts';
import { saveCalls } from './desk-save.ts';
import { type DeskState, openDeskState } from './desk-state.ts';
import { CallRefused, type Desk, type DeskCalls, type DeskOptions } from './desk-types.ts';
import { LINKS } from './links.ts';

function otherCalls({ options, recent, preferences }: DeskState) {
  return {
    setPreferences: preferences.set,
    recent: () => recent.list(),
    clearRecent: async () => {
      await recent.clear();
      return null;
    },
    openLink: async ({ id }) => {
      const address = lookup(LINKS, id);
      if (address === undefined) throw new CallRefused('openLink: the program has no such link.');
      options.openLink(address);
      return null;
    },
    editField: async ({ how }) => {
      options.editField?.(how);
      return null;
    },
    stay: async () => {
      options.stay?.();
      return null;
    },
    quit: async () => {
      options.quit();
      return null;
    },
  } satisfies Partial<DeskCalls>;
}

/** Sweeps what ended processes left, and is ready for calls. */
export function openDesk(options: DeskOptions): Desk {
  const state = openDeskState(options);
  const opening = openCalls(state);
  const exporting = exportCalls(state);
  const calls: DeskCalls = {
    ...opening.calls,
    ...planCalls(state),
    ...saveCalls(state),
    ...exporting.calls,
    ...otherCalls(state),
  };

  return {
    handle: async (call, sent) => {
      if (!(CALL_NAMES as readonly string[]).includes(call)) throw new CallRefused('There is no such call.');
      const name = call as CallName;
      const checked = CALLS[name].safeParse(sent);
      if (!checked.success) {
        const { path, message } = checked.error.issues[0]!;
        throw new CallRefused(`${[name, ...path.map(String)].join('.')}: ${message}`.slice(0, 300));
      }
      return (calls[name] as (sent: unknown) => Promise<unknown>)(checked.data);
    },
    openPath: opening.openPath,
    shown: () => state.documents.all().at(-1)?.view() ?? null,
    tellAgain: () => {
      for (const document of state.documents.all()) options.emit('changed', document.view());
    },
    flush: async () => {
      const all = await Promise.all(state.documents.all().map((document) => document.flush()));
      return all.every(Boolean);
    },
    end: async (lose = false) => {
      exporting.stop();
      await state.begun;
      return (await state.documents.closeAll(lose)).length === 0;
    },
  };
}
