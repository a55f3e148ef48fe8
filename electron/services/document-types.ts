// What an open plan is asked, and what it needs from the register of documents. What can cross to a window is the
// contract's. Types only, and the ending of a plan file's name.

import type { Plan } from '../../core/plan/schema.ts';
import type { CloseAnswer, DocumentView, EditAnswer } from '../contract.ts';
import type { Journal } from './journal.ts';
import type { Lock } from './locks.ts';
import type { SaveOutcome } from './save.ts';

export const EXTENSION = '.copewright.json';

export type TakeOutcome =
  | { readonly outcome: 'taken'; readonly plan: Plan }
  | { readonly outcome: 'refused'; readonly message: string };

/** A file that this document holds. */
export interface HeldFile {
  readonly realPath: string;
  readonly lock: Lock | null;
  /** Hashes that are known as ours or as what was opened. */
  readonly known: Set<string>;
}

export interface DocumentStart {
  readonly handle: string;
  readonly plan: Plan;
  /** The plan as it stands in the file; null: nothing of it is saved. */
  readonly saved: Plan | null;
  readonly file: HeldFile | null;
  readonly journal: Journal;
  readonly autosaveStopped: string | null;
}

export interface DocumentHooks {
  /** Seconds of the preference; null: off. */
  autosaveSeconds(): number | null;
  /** Takes hold of a path for a save under another name; a sentence where another holds it. */
  hold(path: string, handle: string): Promise<HeldFile | string>;
  letGo(file: HeldFile): Promise<void>;
  changed(view: DocumentView): void;
}

export interface OpenDocument {
  view(): DocumentView;
  plan(): Plan;
  realPath(): string | null;
  edit(revision: number, edit: unknown): EditAnswer;
  /** `auto` never puts back a file that is gone, and does nothing once it is stopped. [SK2] */
  save(by: 'hand' | 'auto'): Promise<SaveOutcome>;
  /** `over`: a file of that name may be replaced. */
  saveAs(path: string, over?: boolean): Promise<SaveOutcome>;
  /** Under a new name in the same folder; this document goes on there. */
  saveBeside(): Promise<SaveOutcome>;
  /** Over what another program wrote, if that is still what the user was told of; it is kept as a version. */
  keepMine(theirs: string): Promise<SaveOutcome>;
  /** The file as it is now becomes the plan; ours is kept as a version. */
  takeTheirs(): Promise<TakeOutcome>;
  /** Whether the file is still what it was, by hash. */
  look(): Promise<'same' | 'changed' | 'gone' | 'unread' | 'none'>;
  /** The preference changed: from here on it is what counts, for edits that wait as well. */
  autosaveAnew(): void;
  /** Puts all edits into the journal now, as before the system sleeps; true when they are there. */
  flush(): Promise<boolean>;
  /** Unsaved work stays for recovery; where it cannot be kept the plan stays open, unless `lose` says that it may go. */
  close(lose?: boolean): Promise<CloseAnswer>;
}
