// The field that has the focus: whether there is one, and taking what was typed in it.

const NOT_TYPED_IN = ['button', 'checkbox', 'radio', 'range', 'color', 'submit', 'reset', 'file'];

export function isField(target: EventTarget | null): target is HTMLElement {
  if (target instanceof HTMLInputElement) return !NOT_TYPED_IN.includes(target.type);
  return (
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLElement && target.isContentEditable)
  );
}

/** What was typed into the focused field and not yet taken is taken now, as on leaving it. */
export function takeTyped(): void {
  const { activeElement } = document;
  if (!isField(activeElement)) return;
  activeElement.blur();
  activeElement.focus();
}
