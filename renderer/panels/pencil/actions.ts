// What the red pencil's commands do: going from finding to finding, each shown in its place.

import type { CommandActions } from '../../app/command-types.ts';
import type { App } from '../../state/app.ts';
import { shownOf } from '../../state/selectors.ts';
import { CODE_WORDS, findingKey, neighbour, placeWords } from './findings.ts';
import { openFinding } from './show.ts';

/** Opens the finding after or before the one that is open, and says which it is. */
export function stepFinding(app: App, step: 1 | -1): void {
  const state = app.store.get();
  const shown = shownOf(state);
  if (shown === null) return;
  const now = shown.findings.find((each) => findingKey(each, shown) === state.finding) ?? null;
  const next = neighbour(shown.findings, now, step);
  if (next === null) return;
  openFinding(app, next);
  const at = shown.findings.indexOf(next) + 1;
  app.say(
    `${at} of ${shown.findings.length}, ${next.severity}: ${CODE_WORDS[next.code]}, ${placeWords(next, shown)}.`,
  );
}

export const pencilActions: CommandActions = {
  'trim.nextFinding': {
    run: (app) => stepFinding(app, 1),
    unavailable: (state) => {
      const shown = shownOf(state);
      if (shown === null) return 'No plan is open.';
      return shown.findings.length === 0 ? 'There is no finding.' : null;
    },
  },
};
