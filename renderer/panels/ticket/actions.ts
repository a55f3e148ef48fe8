// Commands of the ticket and the walk: cope the other board, back to the rule, from corner to corner.

import type { CommandActions } from '../../app/command-types.ts';
import type { App } from '../../state/app.ts';
import type { AppState } from '../../state/app-state.ts';
import { shownOf } from '../../state/selectors.ts';
import { showOnSheet } from '../walk/show.ts';
import { backToRule, cornersMeant, swapCope } from './edits.ts';
import { corner } from './steps.ts';

function ruled(state: AppState): ReturnType<typeof backToRule> {
  const shown = shownOf(state);
  if (shown === null) return null;
  const refs = state.selection.length > 0 ? state.selection : state.hover === null ? [] : [state.hover];
  return backToRule(shown, refs);
}

function swapped(state: AppState): ReturnType<typeof swapCope> {
  const shown = shownOf(state);
  return shown === null ? null : swapCope(shown, cornersMeant(state.selection, state.hover));
}

function goCorner(app: App, step: 1 | -1): void {
  const state = app.store.get();
  const shown = shownOf(state);
  if (shown === null) return;
  const to = corner(shown, state.level, state.selection.at(-1) ?? state.hover, step);
  if (to === null) return;
  app.select([to]);
  showOnSheet(app, to);
}

const noPlan = (state: AppState): string | null => (state.open === null ? 'No plan is open.' : null);
const noCorner = (state: AppState): string | null =>
  noPlan(state) ??
  (shownOf(state)?.levels.some(({ walk }) => walk.levelId === state.level && walk.rooms.length > 0)
    ? null
    : 'There is no room on this level yet.');

export const ticketActions: CommandActions = {
  'trim.swapCope': {
    run: (app) => {
      const edit = swapped(app.store.get());
      if (edit !== null) app.commit(edit);
    },
    unavailable: (state) =>
      noPlan(state) ??
      (swapped(state) === null ? 'Choose a corner where a board is coped or butted first.' : null),
  },
  'edit.backToRule': {
    run: (app) => {
      const edit = ruled(app.store.get());
      if (edit !== null) app.commit(edit);
    },
    unavailable: (state) =>
      noPlan(state) ?? (ruled(state) === null ? 'Nothing of what is chosen was set by you.' : null),
  },
  'trim.nextCorner': { run: (app) => goCorner(app, 1), unavailable: noCorner },
  'trim.previousCorner': { run: (app) => goCorner(app, -1), unavailable: noCorner },
};
