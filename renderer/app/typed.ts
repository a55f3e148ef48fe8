// The field that has the focus: whether there is one, whether its typing can be taken back in it, and taking what was
// typed.

const NOT_TYPED_IN = ['button', 'checkbox', 'radio', 'range', 'color', 'submit', 'reset', 'file'];

export function isField(target: EventTarget | null): target is HTMLElement {
  if (target instanceof HTMLInputElement) return !NOT_TYPED_IN.includes(target.type);
  return (
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLElement && target.isContentEditable)
  );
}

/** Whether taking back is the field's own: where something half typed stands in it. In a list of choices nothing does. */
export function takesBack(target: EventTarget | null): boolean {
  if (!isField(target) || target instanceof HTMLSelectElement) return false;
  return !target.hasAttribute('data-settled') && !target.hasAttribute('data-empty');
}

/** What was typed into the focused field and not yet taken is taken now, as on leaving it. */
export function takeTyped(): void {
  const { activeElement } = document;
  if (!isField(activeElement)) return;
  activeElement.blur();
  activeElement.focus();
}
