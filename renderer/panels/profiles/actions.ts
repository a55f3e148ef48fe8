// What the commands of mouldings, rooms, settings, stock and levels do: each opens its dialog.

import { noPlan } from '../../app/actions.ts';
import type { CommandAction, CommandActions } from '../../app/command-types.ts';
import type { Dialog } from '../../state/app-state.ts';

const dialog = (id: Exclude<Dialog['id'], 'export'>): CommandAction => ({
  run: (app) => app.show({ id }),
  unavailable: noPlan,
});

export const profileActions: CommandActions = {
  'trim.profiles': dialog('profiles'),
  'trim.rooms': dialog('rooms'),
  'trim.picker': dialog('picker'),
  'trim.settings': dialog('settings'),
  'trim.stock': dialog('stock'),
  'draw.level': dialog('levels'),
};
