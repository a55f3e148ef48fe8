// On from the walk to the ticket.

import { goToZone } from '../../app/zones.ts';
import type { App } from '../../state/app.ts';

/** Once the ticket shows what was just chosen, its heading has the keyboard: it is read, and Tab goes to its fields. */
export function focusTicket(app: App): void {
  requestAnimationFrame(() => goToZone(app, 'ticket'));
}
