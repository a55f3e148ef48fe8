// Light or dark: what the user set, or what the system has. It stands on the root element, where the colours hang on it.

import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';

const DARK = '(prefers-color-scheme: dark)';

export function darkNow(theme: AppState['theme']): boolean {
  return theme === 'dark' || (theme === 'system' && globalThis.matchMedia?.(DARK).matches === true);
}

/** Gives back what ends it. */
export function followTheme(app: App): () => void {
  const put = (): void => {
    const next = darkNow(app.store.get().theme) ? 'dark' : 'light';
    const { dataset } = document.documentElement;
    if (dataset.theme !== next) dataset.theme = next;
  };
  const query = matchMedia(DARK);
  query.addEventListener('change', put);
  const end = app.store.listen(put);
  put();
  return () => {
    query.removeEventListener('change', put);
    end();
  };
}
