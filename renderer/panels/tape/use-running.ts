// The running tool for the tape bar: at once when the user types, chooses or sets something, and calmly while the pointer
// moves, since the bar is read, not watched, and laying it out on every frame would cost the drawing its time.

import { useState, useSyncExternalStore } from 'react';
import type { AppState } from '../../state/app-state.ts';
import { useApp } from '../../state/react.ts';
import type { Store } from '../../state/store.ts';
import { runningOf } from '../../tools/run.ts';

/** Between two figures that only follow the pointer, ms. */
const CALM_MS = 50;

/** The running tool as the bar shows it; null where no plan is open. */
export function useRunning(): ReturnType<typeof runningOf> {
  const { store } = useApp();
  const [calm] = useState(() => calmed(store));
  useSyncExternalStore(calm.listen, calm.get);
  return runningOf(store.get());
}

/** The store as it was when the bar had reason to be drawn last. */
function calmed(store: Store<AppState>): Pick<Store<AppState>, 'get' | 'listen'> {
  let shown = store.get();
  return {
    get: () => shown,
    listen: (heard) => {
      let timer: ReturnType<typeof setTimeout> | undefined;
      const show = (): void => {
        clearTimeout(timer);
        timer = undefined;
        shown = store.get();
        heard();
      };
      const end = store.listen(() => {
        const now = store.get();
        if (isUrgent(shown, now)) show();
        else if (shown.tool !== now.tool || shown.viewport !== now.viewport)
          timer ??= setTimeout(show, CALM_MS);
      });
      shown = store.get();
      return () => {
        clearTimeout(timer);
        end();
      };
    },
  };
}

/** Whether the user did something to the bar itself, to the plan, or to what is chosen or set. */
function isUrgent(shown: AppState, now: AppState): boolean {
  return (
    shown.open?.derived !== now.open?.derived ||
    shown.level !== now.level ||
    shown.stage !== now.stage ||
    shown.selection !== now.selection ||
    shown.drawing !== now.drawing ||
    shown.snapping !== now.snapping ||
    shown.tool.id !== now.tool.id ||
    shown.tool.texts !== now.tool.texts ||
    shown.tool.ask !== now.tool.ask
  );
}
