// The parts of the window that keys go to: the walk, the sheet, the ticket, the tape bar, the red pencil. A part marks
// itself with `data-zone`; what in it takes the focus first may mark itself with `data-focus`. Side panels that are folded
// away are opened on the way.

import type { CommandId } from '../../electron/menu.ts';
import type { App } from '../state/app.ts';
import { drawNow } from './draw-now.ts';
import { isField } from './typed.ts';

export type Zone = 'walk' | 'sheet' | 'ticket' | 'tape' | 'pencil';

const PANEL: Partial<Readonly<Record<Zone, 'walk' | 'side'>>> = {
  walk: 'walk',
  ticket: 'side',
  pencil: 'side',
};
const TAKES_FOCUS =
  'a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), summary, [tabindex]:not([tabindex="-1"])';

export function goToZone(app: App, zone: Zone): void {
  const root = document.querySelector<HTMLElement>(`[data-zone="${zone}"]`);
  const panel = PANEL[zone];
  if (root === null) return;
  if (panel !== undefined && !root.checkVisibility()) {
    openPanel(app, panel);
    drawNow();
  }
  const own = root.querySelector<HTMLElement>('[data-focus]:not(:disabled)');
  const seen = [...root.querySelectorAll<HTMLElement>(TAKES_FOCUS)].find((each) => each.checkVisibility());
  (own ?? seen ?? root).focus();
}

/** Folds away what lies over a narrow sheet. */
export function uncoverSheet(app: App): void {
  if (document.querySelector('.frame.narrow') !== null)
    app.change(() => ({ panels: { walk: 'auto', side: 'auto' } }));
}

/** Shows a side panel; over a narrow sheet one lies at a time. */
export function openPanel(app: App, panel: 'walk' | 'side'): void {
  const narrow = document.querySelector('.frame.narrow') !== null;
  const other = panel === 'walk' ? 'side' : 'walk';
  app.change(({ panels }) => ({
    panels: { ...panels, [panel]: 'open', ...(narrow ? { [other]: 'closed' } : {}) },
  }));
}

const STAGE_COMMANDS: readonly CommandId[] = ['view.measure', 'view.draw', 'view.trim', 'view.cut'];

/**
 * After a command from a menu, the finder or a key: drawing goes on on the sheet, a stage in its main part, so their keys
 * are had there at once. A field that is typed in keeps the focus when the stage changes, and so does the walk, which goes
 * with every stage that has the sheet.
 */
export function goOn(app: App, id: CommandId): void {
  if (app.store.get().dialog !== null) return;
  if (!id.startsWith('draw.') && !STAGE_COMMANDS.includes(id)) return;
  drawNow();
  const { activeElement } = document;
  const inPlace =
    STAGE_COMMANDS.includes(id) &&
    (isField(activeElement) || (id !== 'view.cut' && activeElement?.closest('[data-zone="walk"]') != null));
  uncoverSheet(app);
  if (!inPlace) goToZone(app, 'sheet');
}
