// Where the focus goes when the row it was in is taken away: to the button that adds one; and when a profile is added: to
// its name, which is typed first.

import { drawNow } from '../../app/draw-now.ts';

/** Does `takeOut`, which takes away the row `from` is in. Where it gives `false`, nothing was taken and the focus stays. */
export function takeOutAt(from: HTMLElement, takeOut: () => unknown): void {
  const within = from.closest('fieldset') ?? from.closest('dialog');
  if (takeOut() === false) return;
  drawNow();
  within?.querySelector<HTMLElement>('[data-add]')?.focus();
}

/** The name of the profile that is shown next, all of it marked. */
export function focusName(from: HTMLElement): void {
  const within = from.closest('dialog');
  drawNow();
  const name = within?.querySelector<HTMLInputElement>('.profile-fields input');
  name?.focus();
  name?.select();
}
