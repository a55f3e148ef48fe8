// Opening a finding: what it is about is chosen and brought into sight. And going where a remedy leads.

import type { Finding } from '../../../core/fit/index.ts';
import { showPlace, showRef } from '../../sheet/show.ts';
import type { App } from '../../state/app.ts';
import { shownOf } from '../../state/selectors.ts';
import { findingKey, refsOf } from './findings.ts';
import type { GoRemedy } from './remedy.ts';

/** Opens a finding of the plan shown in the red pencil, chooses what it is about and shows its place. */
export function openFinding(app: App, finding: Finding): void {
  const shown = shownOf(app.store.get());
  if (shown === null) return;
  app.change(() => ({ finding: findingKey(finding, shown) }));
  const refs = refsOf(finding, shown);
  app.select(refs);
  if (finding.level !== null && finding.level !== app.store.get().level)
    app.change(() => ({ level: finding.level }));
  if (finding.at !== null) showPlace(app, finding.at);
  else if (refs[0] !== undefined) showRef(app, refs[0]);
}

/** Goes where the user can do something about a finding. */
export function goTo(app: App, { go }: GoRemedy, finding: Finding): void {
  switch (go.to) {
    case 'measure':
      openFinding(app, finding);
      app.setStage('measure');
      return;
    case 'settings':
    case 'stock':
    case 'profiles':
      app.show({ id: go.to });
      return;
    case 'picker':
      app.show({ id: 'picker', of: { level: go.level, room: go.room, line: go.line } });
  }
}
