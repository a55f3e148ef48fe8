// The store in React: one context, and a hook that draws a component again only when what it picked has changed.

import { createContext, useContext, useSyncExternalStore } from 'react';
import type { App } from './app.ts';
import type { AppState } from './app-state.ts';

const AppContext = createContext<App | null>(null);
export const AppProvider = AppContext.Provider;

export function useApp(): App {
  const app = useContext(AppContext);
  if (app === null) throw new Error('useApp outside the program');
  return app;
}

/** `pick` must give the same value for the same state: an object of the state, or a memoised one, never a fresh one. */
export function usePicked<T>(pick: (state: AppState) => T): T {
  const { store } = useApp();
  return useSyncExternalStore(store.listen, () => pick(store.get()));
}
