// Focus that stays in a list while its rows move or go: a button that was moved with its row keeps the focus, and where it was
// taken away the one in its place has it. Knows nothing of what is listed.

import { type RefObject, useEffect, useLayoutEffect, useRef } from 'react';

interface Focused {
  readonly button: HTMLElement;
  readonly row: number;
  /** Among the buttons of its row, counted from the end. */
  readonly fromEnd: number;
}

/** A list of rows with buttons whose focus is kept, for its `ref`. */
export function useKeptFocus<E extends HTMLElement>(): RefObject<E | null> {
  const list = useRef<E>(null);
  const focused = useRef<Focused | null>(null);
  useEffect(() => {
    const own = list.current;
    if (own === null) return;
    const taken = ({ target }: FocusEvent): void => {
      const button = target as HTMLElement;
      const row = [...own.children].findIndex((each) => each.contains(button));
      const buttons = buttonsOf(own.children[row]);
      focused.current = { button, row, fromEnd: buttons.length - 1 - buttons.indexOf(button) };
    };
    // Without a next one the focus is nowhere: its button may just have been moved or taken away.
    const left = ({ relatedTarget }: FocusEvent): void => {
      if (relatedTarget !== null) focused.current = null;
    };
    own.addEventListener('focusin', taken);
    own.addEventListener('focusout', left);
    return () => {
      own.removeEventListener('focusin', taken);
      own.removeEventListener('focusout', left);
    };
  }, []);
  useLayoutEffect(() => {
    if (focused.current === null || document.activeElement !== document.body) return;
    const { button, row, fromEnd } = focused.current;
    const own = list.current;
    const inPlace = buttonsOf(own?.children[Math.min(row, own.children.length - 1)]).at(-1 - fromEnd);
    (button.isConnected ? button : inPlace)?.focus({ preventScroll: true });
  });
  return list;
}

function buttonsOf(row: Element | undefined): HTMLElement[] {
  return row === undefined ? [] : [...row.querySelectorAll('button')];
}
