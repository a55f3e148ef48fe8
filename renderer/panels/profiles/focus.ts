// Where the focus goes when the row it was in is taken away: to the button that adds one.

/** Call it before the row goes. */
export function focusAdd(from: HTMLElement): void {
  const within = from.closest('fieldset') ?? from.closest('dialog');
  requestAnimationFrame(() => within?.querySelector<HTMLElement>('[data-add]')?.focus());
}
