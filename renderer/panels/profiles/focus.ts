// Where the focus goes when the row it was in is taken away: to the button that adds one; and when a profile is added: to
// its name, which is typed first.

/** Call it before the row goes. */
export function focusAdd(from: HTMLElement): void {
  const within = from.closest('fieldset') ?? from.closest('dialog');
  requestAnimationFrame(() => within?.querySelector<HTMLElement>('[data-add]')?.focus());
}

/** The name of the profile that is shown next, all of it marked. */
export function focusName(from: HTMLElement): void {
  const within = from.closest('dialog');
  requestAnimationFrame(() => {
    const name = within?.querySelector<HTMLInputElement>('.profile-fields input');
    name?.focus();
    name?.select();
  });
}
