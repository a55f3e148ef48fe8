// The last way out: where the program that keeps the files does not answer any more, the plan is still in the page, and the
// page can hand it over by itself. A browser puts it among its downloads. The desktop window downloads nothing and is given
// no permission, but what the user presses may copy.

import { writePlan } from '../../../core/plan/index.ts';
import type { App } from '../../state/app.ts';
import type { OpenPlan } from '../../state/app-state.ts';
import { ENDING, nameFor } from './names.ts';

export interface WayOut {
  /** What the user is to do, in sentences. */
  readonly words: string;
  /** What does it. */
  readonly button: string;
  /** To be called at the user's press. */
  take(open: OpenPlan): void;
}

export function wayOut(app: App): WayOut {
  if (app.bridge.form === 'browser')
    return {
      words: 'The plan is still in this page. Download a copy before you close it.',
      button: 'Download a copy',
      take: download,
    };
  return {
    words: `The plan is still in this window. Before you close it, copy its text into an empty text file, and give that file a name that ends in ${ENDING}.`,
    button: 'Copy its text',
    take: (open) => {
      if (copy(writePlan(open.plan))) app.say('The text of the plan is copied.');
      else app.say('The text of the plan could not be copied.', 'problem');
    },
  };
}

function download(open: OpenPlan): void {
  const address = URL.createObjectURL(new Blob([writePlan(open.plan)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = nameFor(open);
  link.click();
  // The browser has taken hold of it by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** By the event of a copy, for the clipboard's own interface asks for a permission. False where nothing was copied. */
function copy(text: string): boolean {
  let put = false;
  const hear = (event: ClipboardEvent): void => {
    event.clipboardData?.setData('text/plain', text);
    event.preventDefault();
    put = event.clipboardData !== null;
  };
  document.addEventListener('copy', hear);
  const done = document.execCommand('copy');
  document.removeEventListener('copy', hear);
  return done && put;
}
