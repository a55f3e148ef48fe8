// What a command does, beside the table that says how it is called (electron/menu.ts). Each part of the window gives the
// actions of its own commands; commands.ts puts them together.

import type { CommandId } from '../../electron/menu.ts';
import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';

export interface CommandAction {
  run(app: App): void;
  /** Why it cannot be had now, in one sentence; null where it can. */
  unavailable?(state: AppState): string | null;
  /** Of a command that switches something: whether it is on. */
  checked?(state: AppState): boolean;
  /** The words as they are now: 'Undo move wall'. */
  words?(state: AppState): string;
}

export type CommandActions = Partial<Readonly<Record<CommandId, CommandAction>>>;
