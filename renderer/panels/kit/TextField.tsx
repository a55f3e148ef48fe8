// A field for one line of text. Enter or leaving takes it, Escape puts back what was there; what is refused stays, with
// the sentence that says why.

import { useApp } from '../../state/react.ts';
import { readLine } from './one-line.ts';
import { TypedInput } from './TypedInput.tsx';
import { refusalOf, useTyped } from './use-typed.ts';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly disabled?: boolean;
  /** What it is for, as a tooltip; its label where not given. */
  readonly title?: string;
  /** Why it cannot be had, in one sentence, or null. */
  readonly fault?: (value: string) => string | null;
  /** `false`, as `app.commit` gives it, where it was refused. */
  readonly onSet: (value: string) => unknown;
}

export function TextField({ label, value, placeholder, disabled, title, fault, onSet }: TextFieldProps) {
  const app = useApp();
  const field = useTyped(label, (text) => {
    if (text === value) return null;
    const read = readLine(label, text);
    if (!read.ok) return read.message;
    if (read.value === value) return null;
    return fault?.(read.value) ?? refusalOf(app, () => onSet(read.value));
  });
  return (
    <TypedInput
      label={label}
      of={field}
      standing={value}
      maxLength={200}
      placeholder={placeholder}
      title={title}
      disabled={disabled}
    />
  );
}
