// On from the walk to the ticket.

import { drawNow } from '../../app/draw-now.ts';
import { goToZone } from '../../app/zones.ts';
import type { App } from '../../state/app.ts';

/** The ticket shows what was just chosen, and its heading has the keyboard: it is read, and Tab goes to its fields. */
export function focusTicket(app: App): void {
  drawNow();
  goToZone(app, 'ticket');
}
