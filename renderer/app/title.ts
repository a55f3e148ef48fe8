// The window's own title: a dot while there is unsaved work, the plan, the program.

import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';

export const PROGRAM = 'Copewright';

export function titleOf({ open }: AppState): string {
  if (open === null) return PROGRAM;
  return `${open.view.unsaved ? '• ' : ''}${open.plan.title} – ${PROGRAM}`;
}

/** Gives back what ends it. */
export function followTitle(app: App): () => void {
  const put = (): void => {
    const next = titleOf(app.store.get());
    if (document.title !== next) document.title = next;
  };
  put();
  return app.store.listen(put);
}
