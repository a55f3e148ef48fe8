// What stays true until somebody acts: edits are not kept for recovery, autosave has stopped. It stands under the top bar
// for as long as it holds.

import { CommandButton } from '../panels/kit/CommandButton.tsx';
import type { AppState } from '../state/app-state.ts';
import { usePicked } from '../state/react.ts';

/** The same in one line, for the live region. */
export function bannerWords({ open }: AppState): string {
  if (open === null) return '';
  return [open.view.journalProblem, open.view.autosaveStopped].filter((each) => each !== null).join(' ');
}

export function Banners() {
  const journal = usePicked(({ open }) => open?.view.journalProblem ?? null);
  const autosave = usePicked(({ open }) => open?.view.autosaveStopped ?? null);
  if (journal === null && autosave === null) return null;
  return (
    <section className="frame-banners" aria-label="Needs attention">
      {journal === null ? null : (
        <p className="banner banner-problem">
          <strong>Not kept for recovery.</strong> {journal}
          <CommandButton id="file.save" />
          <CommandButton id="file.saveAs" />
        </p>
      )}
      {autosave === null ? null : (
        <p className="banner">
          <strong>Autosave waits.</strong> {autosave}
          <CommandButton id="file.save" />
        </p>
      )}
    </section>
  );
}
