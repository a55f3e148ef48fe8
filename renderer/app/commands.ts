// All commands with what they do. A command that no part of the window gives an action is a fault, found by a test.

import type { CommandId } from '../../electron/menu.ts';
import { fileActions } from '../panels/files/actions.ts';
import { pencilActions } from '../panels/pencil/actions.ts';
import { profileActions } from '../panels/profiles/actions.ts';
import { ticketActions } from '../panels/ticket/actions.ts';
import { sheetActions } from '../sheet/actions.ts';
import type { App } from '../state/app.ts';
import { when } from '../state/when.ts';
import { toolActions } from '../tools/actions.ts';
import { frameActions } from './actions.ts';
import type { CommandAction, CommandActions } from './command-types.ts';

const ACTIONS: CommandActions = {
  ...frameActions,
  ...fileActions,
  ...sheetActions,
  ...toolActions,
  ...ticketActions,
  ...profileActions,
  ...pencilActions,
};

export function actionOf(id: CommandId): CommandAction | null {
  return ACTIONS[id] ?? null;
}

/** Runs a command, or says why it cannot be had now. What is asked while a plan is being opened is meant for that plan. */
export function runCommand(app: App, id: CommandId): void {
  const action = actionOf(id);
  if (action === null) return;
  if (app.store.get().opening) {
    void when(app.store, ({ opening }) => !opening).then(() => runCommand(app, id));
    return;
  }
  const why = action.unavailable?.(app.store.get()) ?? null;
  if (why === null) action.run(app);
  else app.say(why);
}
