// The file on disk is not the one this plan came from: three ways on, each with what it does and what becomes of the other.

import { DialogBox } from '../kit/DialogBox.tsx';

export interface ConflictAsked {
  readonly message: string;
  answer(choice: 'mine' | 'theirs' | 'beside'): void;
}

export function Conflict({ of }: { readonly of: unknown }) {
  const { message, answer } = of as ConflictAsked;
  return (
    <DialogBox title="Changed by another program">
      <p className="files-said">{message} Nothing was written over.</p>
      <ul className="files-ways">
        <li>
          <button type="button" className="main" data-first onClick={() => answer('beside')}>
            Save mine beside it
          </button>
          <p className="soft">Both stay. Yours goes on under a name with a number.</p>
        </li>
        <li>
          <button type="button" onClick={() => answer('theirs')}>
            Take theirs
          </button>
          <p className="soft">
            The plan becomes what the file holds. Yours is kept among the earlier versions.
          </p>
        </li>
        <li>
          <button type="button" className="loses" onClick={() => answer('mine')}>
            Keep mine
          </button>
          <p className="soft">
            The file becomes your plan. What it holds now is kept among the earlier versions.
          </p>
        </li>
      </ul>
      <p className="soft">Close this to decide later; the plan stays as it is and is not saved.</p>
    </DialogBox>
  );
}
