// Brings what was chosen in the walk or the ticket into view on the sheet, where it is outside.

import { showRef } from '../../sheet/show.ts';
import type { App } from '../../state/app.ts';
import type { Ref } from '../../state/refs.ts';

export function showOnSheet(app: App, ref: Ref): void {
  showRef(app, ref);
}
