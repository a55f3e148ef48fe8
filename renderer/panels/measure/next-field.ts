// Enter goes from field to field, as a carpenter types down his sheet of paper. It has gone there before the next key is
// read, however fast they come.

import { drawNow } from '../../app/draw-now.ts';

const FIELDS = 'input[type="text"], select';

/** The fields of a panel that can be typed in now, in reading order. */
export function fieldsOf(panel: Element): readonly HTMLElement[] {
  return [...panel.querySelectorAll<HTMLElement>(FIELDS)].filter(
    (field) =>
      !field.matches(':disabled, [data-aside]') &&
      field.closest('[data-aside]') === null &&
      field.checkVisibility(),
  );
}

/**
 * Once the field has taken what was typed, the next one has the focus; a field that refused keeps it. Fields may come and
 * go meanwhile: a reading that was added stands before the next one, at the place of the one it was typed in. `last` is
 * called where there is none.
 */
export function goOn(panel: Element, from: HTMLElement, last: () => void): void {
  const at = fieldsOf(panel).indexOf(from);
  const pair = from.closest('.ticket-reading-next');
  const leaves =
    pair !== null && [...pair.querySelectorAll('input')].every(({ value }) => value.trim() === '');
  const step = leaves && pair.querySelector('input') === from ? 2 : 1;
  drawNow();
  if (from.isConnected && from.getAttribute('aria-invalid') === 'true') return;
  const next = fieldsOf(panel)[at + step];
  if (next === undefined) last();
  else next.focus();
}
