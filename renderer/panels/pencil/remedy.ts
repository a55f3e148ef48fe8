// What a remedy is: an edit that does it, or a place to go where the user can; and what an edit turned out to do.

import type { Edit } from '../../../core/edit/index.ts';
import type { Finding } from '../../../core/fit/index.ts';
import type { LevelId, TrimLine } from '../../../core/plan/index.ts';

export interface EditRemedy {
  readonly kind: 'edit';
  /** What it does: 'Use "Low eased base" in this room'. */
  readonly words: string;
  readonly edit: Edit;
  /** Where the finding stays after it, what is better all the same. */
  readonly leaves?: string;
}

/** No edit, but the place where the user can do something about it. */
export interface GoRemedy {
  readonly kind: 'go';
  readonly words: string;
  readonly go:
    | { readonly to: 'measure' | 'settings' | 'stock' | 'profiles' }
    | {
        readonly to: 'picker';
        readonly level: LevelId;
        readonly room: string;
        readonly line: TrimLine;
      };
}

export type Remedy = EditRemedy | GoRemedy;

/** What an edit would do, found by doing it in memory. */
export interface Outcome {
  /** Null: done. Else why it cannot be done, in a sentence. */
  readonly refused: string | null;
  /** Null where only the solver can say: scribes and boards. */
  readonly gone: boolean | null;
  /** Other findings that go with it. */
  readonly alsoGone: number;
  /** Findings that were not there before. */
  readonly brings: readonly Finding[];
}

/** A remedy that leads to a stage or a dialog. */
export function go(words: string, to: 'measure' | 'settings' | 'stock' | 'profiles'): GoRemedy {
  return { kind: 'go', words, go: { to } };
}
