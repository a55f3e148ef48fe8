// What the program says unasked. One polite live region for all: plain news goes by itself after a while, a problem stays
// until it is dismissed. While a dialog is open, the region stands in the dialog.

import { useEffect, useState } from 'react';
import type { App } from '../state/app.ts';
import type { Notice } from '../state/app-state.ts';
import { useApp, usePicked } from '../state/react.ts';
import { bannerWords } from './Banners.tsx';
import './notices.css';

const PLAIN_MS = 7000;

/** Every problem once, the latest loss and the latest news. */
function shownOfAll(all: readonly Notice[]): readonly Notice[] {
  const last = (['plain', 'loss'] as const).map((wanted) => all.findLast(({ tone }) => tone === wanted));
  return all.filter(
    (each, at) =>
      last.includes(each) ||
      (each.tone === 'problem' && all.findLastIndex(({ words }) => words === each.words) === at),
  );
}

export function Notices({ within = false }: { readonly within?: boolean }) {
  const notices = usePicked((state) => state.notices);
  const covered = usePicked((state) => state.dialog !== null);
  const banners = usePicked((state) => bannerWords(state));
  const spoken = usePicked((state) => state.spoken);
  if (!within && covered) return null;
  return (
    <div className={within ? 'notices notices-within' : 'notices'} role="status">
      <p className="unseen">{banners}</p>
      <p className="unseen">{spoken}</p>
      {shownOfAll(notices).map((each) => (
        <OneNotice key={each.id} notice={each} />
      ))}
    </div>
  );
}

/** News goes with all that came before it: what was no longer shown does not come back. */
function dismissNews(app: App, latest: number): void {
  for (const { id, tone } of app.store.get().notices) if (tone === 'plain' && id <= latest) app.dismiss(id);
}

function OneNotice({ notice }: { readonly notice: Notice }) {
  const app = useApp();
  const [held, setHeld] = useState(false);
  const { id, tone, words } = notice;
  const goes = tone === 'plain' && !held;
  useEffect(() => {
    if (!goes) return undefined;
    const timer = setTimeout(() => dismissNews(app, id), PLAIN_MS);
    return () => clearTimeout(timer);
  }, [goes, id, app]);
  const dismiss = (): void => {
    if (tone === 'plain') dismissNews(app, id);
    if (tone === 'loss')
      for (const each of app.store.get().notices) if (each.tone === 'loss') app.dismiss(each.id);
    for (const each of app.store.get().notices) if (each.words === words) app.dismiss(each.id);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it only stays longer while it is pointed at or used
    <div
      className={`notice notice-${tone}`}
      onPointerEnter={() => setHeld(true)}
      onPointerLeave={() => setHeld(false)}
      onFocus={() => setHeld(true)}
      onBlur={() => setHeld(false)}
    >
      <p>
        {tone === 'problem' ? <strong className="notice-mark" aria-label="Problem:" role="img" /> : null}
        {words}
      </p>
      <button
        type="button"
        className="plain"
        aria-label={`Dismiss: ${words}`}
        title="Dismiss"
        onClick={dismiss}
      >
        ×
      </button>
    </div>
  );
}
