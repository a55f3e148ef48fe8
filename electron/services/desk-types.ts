// What a desk is given and gives. The desk is everything the contract's calls do, whatever carries them.

import type {
  Answers,
  CallName,
  DocumentView,
  EventName,
  Events,
  ExportKind,
  FieldEdit,
  OpenAnswer,
  Sent,
} from '../contract.ts';
import type { Env } from './env.ts';

/** The system's own dialogs, where the form has them. Each gives null where the user changed their mind. */
export interface Chooser {
  openFile(folder: string): Promise<string | null>;
  /** `name` is a proposal. The dialog itself asks before a file is to be replaced. */
  saveFile(name: string, folder: string): Promise<string | null>;
  /** A file; for `csv` the folder in which a new folder of tables is made. */
  exportTo(kind: ExportKind, name: string, folder: string): Promise<string | null>;
  showInFolder(path: string): void;
  /** Opens a file in the system's program for it; false where there is none. */
  openInViewer(path: string): Promise<boolean>;
}

export interface DeskOptions {
  readonly env: Env;
  readonly version: string;
  /** Null: this form has no dialogs; the window shows its own. */
  readonly chooser: Chooser | null;
  /** Where the user's files are likely to be. */
  readonly home: string;
  /** A plan that was named at the start. */
  readonly file: string | null;
  emit<E extends EventName>(event: E, data: Events[E]): void;
  /** Opens one of the program's own outside links. */
  openLink(address: string): void;
  /** The system's own editing in the window's focused field, where the form has it. */
  editField?(how: FieldEdit): void;
  /** The window asks its user before it goes. */
  stay?(): void;
  /** The window has let go and may be closed. */
  quit(): void;
}

/** What the desk does for each call; what is sent has been checked. */
export type DeskCalls = { readonly [C in CallName]: (sent: Sent<C>) => Promise<Answers[C]> };

export interface Desk {
  /** Answers a call. Throws `CallRefused` where the call or what was sent is not in the contract. */
  handle(call: CallName | string, sent: unknown): Promise<unknown>;
  /** Opens a file that the system named: dropped, an argument of a second start. Never from the window's own words. */
  openPath(path: string): Promise<OpenAnswer>;
  /** The plan that the window shows: of those that are open the one opened last. */
  shown(): DocumentView | null;
  /** Tells the window again how its plans stand, as after a lost connection. */
  tellAgain(): void;
  /** Puts all edits on disk now; true when they are there. */
  flush(): Promise<boolean>;
  /**
   * Ends exports and closes every plan; unsaved work is kept for the next start. True where nothing had to stay open, as
   * what cannot be kept does unless `lose` says that it may go.
   */
  end(lose?: boolean): Promise<boolean>;
}

/** Something that no window of ours sends. */
export class CallRefused extends Error {
  override readonly name = 'CallRefused';
}
