// The window's keys: every key press that nothing on the way took is looked up in the command table. A focused field keeps
// the keys of typing, taking back only while something half typed stands in it; keys without Ctrl or Alt are commands only
// inside what is marked `data-keys` (the sheet, the walk), but for signs that nothing but a field takes; a dialog keeps
// everything to itself but taking back and saving.

import type { FieldEdit } from '../../electron/contract.ts';
import type { CommandId } from '../../electron/menu.ts';
import { openRecent } from '../panels/files/opening.ts';
import type { App } from '../state/app.ts';
import { when } from '../state/when.ts';
import { runCommand } from './commands.ts';
import { commandOf, type KeyPress } from './keys.ts';
import { isField, takesBack, takeTyped } from './typed.ts';
import { goOn } from './zones.ts';

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
/** Of these, what a field does only while something half typed stands in it; else they are meant for the plan. */
const TAKE_BACK: readonly CommandId[] = ['edit.undo', 'edit.redo'];
const IN_DIALOGS: readonly CommandId[] = ['edit.undo', 'edit.redo', 'file.save'];
/** Take a tool in hand, or change the stage: from the walk too, arrows and figures are then meant for the sheet. */
const GO_ON: readonly CommandId[] = [
  'draw.wall',
  'draw.room',
  'draw.halfWall',
  'draw.opening',
  'draw.builtIn',
  'draw.mark',
  'draw.measure',
  'view.measure',
  'view.draw',
  'view.trim',
  'view.cut',
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
  // One plan is opened at a time, in the order in which they were asked for.
  void when(app.store, ({ opening }) => !opening).then(() => openRecent(app, id));
}

/** A command from the system's menu: in a field, the editing ones are the field's, done by the system: a page may not paste. */
export function commandFromMenu(app: App, id: CommandId): void {
  const { activeElement } = document;
  const typing = TYPING[id];
  if (typing !== undefined && (TAKE_BACK.includes(id) ? takesBack(activeElement) : isField(activeElement)))
    void app.bridge.editField({ how: typing }).catch(() => undefined);
  else if (allowed(app, id)) {
    takeTyped();
    runCommand(app, id);
  } else app.say('Close the dialog first, then choose it again.', 'problem');
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
    const place = inKeys && !field ? 'keys' : isField(target) ? 'field' : 'elsewhere';
    const id = commandOf(pressOf(event), { platform, form, place });
    if (id === null) return;
    const ofPlan = TAKE_BACK.includes(id) && !takesBack(target);
    if (TYPING[id] !== undefined) {
      if (field && !ofPlan) return;
      // Outside sheet and walk these are for text that is marked on the page.
      if (!TAKE_BACK.includes(id) && !inKeys && target !== document.body) return;
      if (id === 'edit.copy' && !(document.getSelection()?.isCollapsed ?? true)) return;
    }
    event.preventDefault();
    if (event.repeat && !REPEATS.includes(id)) return;
    if (!allowed(app, id) || (field && !ofPlan && id.startsWith('edit.'))) return;
    if (field) takeTyped();
    runCommand(app, id);
    if (GO_ON.includes(id)) goOn(app, id);
  }

  window.addEventListener('keydown', hear);
  return () => window.removeEventListener('keydown', hear);
}
