// Work that was never saved, from a crash or kept on closing: what it is, when it is from, how much. Nothing is taken back
// or thrown away by itself. RULES: SK11.

import { useState } from 'react';
import type { DiscardAnswer, RecoveryOffer } from '../../../electron/contract.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { recover, refreshStart, whenWords } from './opening.ts';
import { called } from './saving.ts';

const NONE: readonly RecoveryOffer[] = [];
const ORIGINAL: Readonly<Record<RecoveryOffer['original'], string>> = {
  none: 'It was never saved to a file.',
  same: 'The file is as it was then.',
  changed: 'The file was changed since; it is not touched.',
  gone: 'The file is no longer there.',
  unread: 'The file cannot be read now; it is not touched.',
};

const NOT_DISCARDED: Readonly<Record<Exclude<DiscardAnswer, 'discarded'>, string>> = {
  open: 'This work is open in another window and was left as it is.',
  changed: 'This work, or its file, is not as it was listed here, and was left as it is. Look at it again.',
  kept: 'This work could not be thrown away: the disk that it lies on takes no changes now. It is still there.',
  gone: 'This work is no longer there: it was taken up or thrown away in another window.',
};

export function Offers() {
  const offers = usePicked(({ start }) => start?.offers ?? NONE);
  return (
    <ul className="offers">
      {offers.map((each) => (
        <Offer key={each.id} offer={each} />
      ))}
    </ul>
  );
}

/** How much there is in no file, and when it is from. */
function inNoFile(edits: number, at: number | null): string {
  const when = at === null ? '' : whenWords(at);
  if (edits === 0) return when && `From ${when}.`;
  return `${edits === 1 ? '1 edit' : `${edits} edits`} in no file${when && `, the last ${when}`}.`;
}

function Offer({ offer }: { readonly offer: RecoveryOffer }) {
  const app = useApp();
  const [sure, setSure] = useState(false);
  const { id, title, name, at, edits, original, torn, unreadable } = offer;
  const discard = async (): Promise<void> => {
    const answer = await called(app, () =>
      app.bridge.discardRecovery({ id, edits, at, original, torn, unreadable }),
    );
    if (answer !== null && answer !== 'discarded') app.say(NOT_DISCARDED[answer], 'problem');
    await refreshStart(app);
    if (app.store.get().start?.offers.length === 0 && app.store.get().dialog?.id === 'recovery')
      app.show(null);
  };
  return (
    <li className="offer">
      <div className="offer-what">
        <strong>{title === '' ? 'A plan without a title' : title}</strong>
        {name === null ? null : <span className="soft"> {name}</span>}
        <p className="soft">
          {inNoFile(edits, at)} {unreadable && original === 'none' ? '' : ORIGINAL[original]}
          {torn ? ' The last moments may be missing.' : ''}
        </p>
        {unreadable ? <p className="wrong">It cannot be read. It is kept as it is.</p> : null}
      </div>
      {sure ? (
        <fieldset className="row offer-sure">
          <legend className="unseen">{`Throw away ${title} for good?`}</legend>
          <span aria-hidden="true">Throw it away for good?</span>
          <button type="button" onClick={() => setSure(false)}>
            Keep it
          </button>
          <button type="button" className="loses" onClick={() => void discard()}>
            Throw away
          </button>
        </fieldset>
      ) : (
        <div className="row">
          <button type="button" onClick={() => setSure(true)} aria-label={`Discard ${title}…`}>
            Discard…
          </button>
          <button
            type="button"
            className="main"
            disabled={unreadable}
            aria-label={`Recover ${title}`}
            onClick={() => void recover(app, id).then(() => refreshStart(app))}
          >
            Recover
          </button>
        </div>
      )}
    </li>
  );
}

export function RecoveryDialog() {
  const app = useApp();
  return (
    <DialogBox
      title="Work that was not saved"
      foot={
        <button type="button" onClick={() => app.show(null)}>
          Decide later
        </button>
      }
    >
      <p className="files-said">
        The program ended, or a plan was closed, before this was saved. Recovered work opens as unsaved; no
        file is touched until you save.
      </p>
      <Offers />
    </DialogBox>
  );
}
