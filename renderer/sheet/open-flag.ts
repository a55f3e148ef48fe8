// A press on a finding's flag opens the finding in the red pencil. Places in ticks; the letters are those on paper.

import type { Point } from '../../core/graph/index.ts';
import { flagFindings } from '../../core/sheets/plan-options.ts';
import { openFinding } from '../panels/pencil/show.ts';
import type { App } from '../state/app.ts';
import { derivedLevelOf, shownOf } from '../state/selectors.ts';
import { flagAt } from './painted.ts';

/** True where a flag stood there. */
export function openFlag(app: App, at: Point): boolean {
  const state = app.store.get();
  const [shown, level] = [shownOf(state), derivedLevelOf(state)];
  if (shown === null || level === null) return false;
  const letter = flagAt(level, state.stage, at, state.viewport.pixelsPerTick);
  if (letter === null) return false;
  const flagged = flagFindings(shown.findings, level.walk.levelId).find((each) => each.letter === letter);
  if (flagged === undefined) return false;
  openFinding(app, flagged.finding);
  return true;
}
