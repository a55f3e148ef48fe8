// A dialog over the window: the browser's own modal dialog, which holds the focus, closes on Escape and gives the focus
// back. Notices said meanwhile stand in it, since what lies under it cannot be read.

import { type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import { Notices } from '../../app/Notices.tsx';
import { useApp } from '../../state/react.ts';

export interface DialogBoxProps {
  readonly title: string;
  readonly wide?: boolean;
  readonly children: ReactNode;
  /** Buttons at its foot. */
  readonly foot?: ReactNode;
  /** Called when it is closed by Escape or its button; closes the dialog of the program where not given. */
  readonly onClose?: () => void;
}

export function DialogBox({ title, wide = false, children, foot, onClose }: DialogBoxProps) {
  const app = useApp();
  const id = useId();
  const box = useRef<HTMLDialogElement>(null);
  const close = onClose ?? (() => app.show(null));
  // Closed while it is still on the page: only then does the browser give the focus back.
  useLayoutEffect(() => {
    const dialog = box.current;
    if (dialog !== null && !dialog.open) {
      // Else what the dialog is about, before the button that closes it.
      const first =
        dialog.querySelector<HTMLElement>('[data-first]') ??
        dialog.querySelector<HTMLElement>('.dialog-body :is(input, select, textarea, button):not(:disabled)');
      dialog.showModal();
      first?.focus();
    }
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={box}
      className={wide ? 'dialog wide' : 'dialog'}
      aria-labelledby={id}
      onCancel={(event) => {
        if (event.target !== box.current) return;
        event.preventDefault();
        close();
      }}
    >
      <header className="dialog-head">
        <h2 id={id}>{title}</h2>
        <button
          type="button"
          className="plain dialog-close"
          aria-label={`Close ${title}`}
          title="Close (Esc)"
          onClick={close}
        >
          ×
        </button>
      </header>
      <div className="dialog-body">{children}</div>
      <Notices within />
      {foot === undefined ? null : <footer className="dialog-foot row">{foot}</footer>}
    </dialog>
  );
}
