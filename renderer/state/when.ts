// Waiting for the window's state to be one in which something may be done.

import type { Store } from './store.ts';

/** When the state is such a one: at once, or at the first change that makes it so. */
export function when<S>(store: Store<S>, holds: (state: S) => boolean): Promise<void> {
  if (holds(store.get())) return Promise.resolve();
  return new Promise((resolve) => {
    const end = store.listen(() => {
      if (!holds(store.get())) return;
      end();
      resolve();
    });
  });
}
