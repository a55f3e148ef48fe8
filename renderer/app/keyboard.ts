// The window's keys: every key press that nothing on the way took is looked up in the command table. A focused field keeps
// the keys of typing; keys without Ctrl or Alt are commands only inside what is marked `data-keys` (the sheet, the walk);
// a dialog keeps everything to itself but taking back and saving.

import type { FieldEdit } from '../../electron/contract.ts';
import type { CommandId } from '../../electron/menu.ts';
import { openRecent } from '../panels/files/opening.ts';
import type { App } from '../state/app.ts';
import { runCommand } from './commands.ts';
import { commandOf, type KeyPress } from './keys.ts';
import { isField, takeTyped } from './typed.ts';
import { goOnDrawing } from './zones.ts';

/** Commands that a key held down repeats. */
const REPEATS: readonly CommandId[] = [
  'edit.undo',
  'edit.redo',
  'edit.selectNext',
  'view.zoomIn',
  'view.zoomOut',
  'trim.nextCorner',
  'trim.previousCorner',
  'trim.nextFinding',
];
/** What a focused field does itself, by the same keys. */
const TYPING: Partial<Readonly<Record<CommandId, FieldEdit>>> = {
  'edit.undo': 'undo',
  'edit.redo': 'redo',
  'edit.copy': 'copy',
  'edit.paste': 'paste',
  'edit.selectAll': 'selectAll',
};
const IN_DIALOGS: readonly CommandId[] = ['edit.undo', 'edit.redo', 'file.save'];
/** Take a tool that draws in hand. */
const TOOL_COMMANDS: readonly CommandId[] = [
  'draw.wall',
  'draw.room',
  'draw.halfWall',
  'draw.opening',
  'draw.builtIn',
  'draw.mark',
  'draw.measure',
];
/** Dialogs that ask for an answer first. */
const ASKING: readonly string[] = ['ask', 'conflict', 'recovery', 'places', 'export'];
/** Whether a command may run with what is open over the window now. */
function allowed(app: App, id: CommandId): boolean {
  if (document.querySelector('dialog[open]') === null) return true;
  const { dialog } = app.store.get();
  return IN_DIALOGS.includes(id) && (dialog === null || !ASKING.includes(dialog.id));
}

/** A plan of the system menu's recent list. A dialog that is open has its answer first. */
export function recentFromMenu(app: App, id: string): void {
  if (document.querySelector('dialog[open]') !== null) {
    app.say('Close the dialog first, then open another plan.', 'problem');
    return;
  }
  takeTyped();
  void openRecent(app, id);
}

/** A command from the system's menu: in a field, the editing ones are the field's, done by the system: a page may not paste. */
export function commandFromMenu(app: App, id: CommandId): void {
  const typing = TYPING[id];
  if (isField(document.activeElement) && typing !== undefined)
    void app.bridge.editField({ how: typing }).catch(() => undefined);
  else if (allowed(app, id)) {
    takeTyped();
    runCommand(app, id);
  }
}

const pressOf = (event: KeyboardEvent): KeyPress => ({
  key: event.key,
  code: event.code,
  ctrl: event.ctrlKey,
  meta: event.metaKey,
  alt: event.altKey,
  shift: event.shiftKey,
  altGraph: event.getModifierState('AltGraph'),
});

/** Gives back what ends the listening. */
export function listenToKeys(app: App): () => void {
  const { platform, form } = app.bridge;

  function hear(event: KeyboardEvent): void {
    if (event.defaultPrevented || event.isComposing) return;
    const { target } = event;
    // A field of the tape bar with nothing in it has nothing to take back or copy: the plan has.
    const field = isField(target) && !target.hasAttribute('data-empty');
    const inKeys = target instanceof Element && target.closest('[data-keys]') !== null;
    const id = commandOf(pressOf(event), { platform, form, plain: inKeys && !field });
    if (id === null) return;
    if (TYPING[id] !== undefined) {
      if (field) return;
      // Outside sheet and walk these are for text that is marked on the page.
      const ofText = id !== 'edit.undo' && id !== 'edit.redo';
      if (ofText && !inKeys && target !== document.body) return;
      if (id === 'edit.copy' && !(document.getSelection()?.isCollapsed ?? true)) return;
    }
    event.preventDefault();
    if (event.repeat && !REPEATS.includes(id)) return;
    if (!allowed(app, id) || (field && id.startsWith('edit.'))) return;
    if (field) takeTyped();
    runCommand(app, id);
    // A tool taken in hand from the walk is used on the sheet: arrows and figures are meant for it.
    if (TOOL_COMMANDS.includes(id)) goOnDrawing(app, id);
  }

  window.addEventListener('keydown', hear);
  return () => window.removeEventListener('keydown', hear);
}
