// Which of the host's plans this tab shows, remembered over a reload: several tabs may show several. Where the browser keeps
// nothing for a page, the tab shows the plan that was opened last.

import type { OpenAnswer } from '../../electron/contract.ts';
import type { App } from '../state/app.ts';

const KEY = 'copewright.shown';

function remembered(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

function remember(handle: string | null): void {
  try {
    if (handle === null) sessionStorage.removeItem(KEY);
    else sessionStorage.setItem(KEY, handle);
  } catch {
    // Then it shows the plan that was opened last.
  }
}

/** The plan that this tab showed, where the host still has it open; else what it would show. */
export async function shownHere({ bridge }: App, otherwise: OpenAnswer | null): Promise<OpenAnswer | null> {
  const handle = remembered();
  if (handle === null || otherwise?.outcome !== 'opened' || otherwise.view.handle === handle)
    return otherwise;
  const held = await bridge.plan({ handle });
  return held === null ? otherwise : { outcome: 'opened', notes: [], ...held };
}

export function followShown({ store }: App): void {
  let last = store.get().open?.view.handle ?? null;
  store.listen(() => {
    const handle = store.get().open?.view.handle ?? null;
    if (handle !== last) remember(handle);
    last = handle;
  });
}
