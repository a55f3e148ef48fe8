// A question with a few answers, in a dialog; code waits for the answer. Closing the dialog is no answer: null.

import type { App } from '../../state/app.ts';
import type { Dialog } from '../../state/app-state.ts';

export interface Question<A extends string = string> {
  readonly title: string;
  /** Sentences, one paragraph each. */
  readonly words: readonly string[];
  readonly answers: readonly {
    readonly id: A;
    readonly words: string;
    /** The one that Enter gives; at most one, and never one that loses work. */
    readonly main?: boolean;
    readonly loses?: boolean;
  }[];
}

export interface Asked {
  readonly question: Question;
  answer(id: string): void;
}

export function ask<A extends string>(app: App, question: Question<A>): Promise<A | null> {
  return dialogFor<A>(app, (answer) => ({
    id: 'ask',
    of: { question, answer: (id: string) => answer(id as A) } satisfies Asked,
  }));
}

/** Shows a dialog and waits until it answers, or is closed or replaced: null. */
export function dialogFor<A>(app: App, make: (answer: (value: A) => void) => Dialog): Promise<A | null> {
  return new Promise((resolve) => {
    const end = (value: A | null): void => {
      stop();
      if (app.store.get().dialog === dialog) app.show(null);
      resolve(value);
    };
    const dialog = make((value) => end(value));
    app.show(dialog);
    const stop = app.store.listen(() => {
      if (app.store.get().dialog !== dialog) end(null);
    });
  });
}
