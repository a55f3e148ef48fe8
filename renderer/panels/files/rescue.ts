// The last way out: where the program that keeps the files does not answer any more, the plan is still in the page, and the
// browser can put it among its downloads.

import { writePlan } from '../../../core/plan/index.ts';
import type { App } from '../../state/app.ts';
import { nameFor } from './names.ts';

export function downloadPlan(app: App): void {
  const { open } = app.store.get();
  if (open === null) return;
  const address = URL.createObjectURL(new Blob([writePlan(open.plan)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = nameFor(open);
  link.click();
  // The browser has taken hold of it by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
