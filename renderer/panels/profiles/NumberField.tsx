// A field for a plain number. Enter or leaving takes it, Escape puts back what was there; emptied, it is unset.

import { useApp } from '../../state/react.ts';
import { TypedInput } from '../kit/TypedInput.tsx';
import { refusalOf, useTyped } from '../kit/use-typed.ts';
import { type NumberRange, readNumber } from './numbers.ts';

export interface NumberFieldProps {
  readonly label: string;
  readonly range: NumberRange;
  readonly value: number | null;
  /** Digits after the point: prices have two. */
  readonly digits?: number;
  readonly unit?: string;
  readonly placeholder?: string;
  readonly mayBeEmpty?: boolean;
  /** What it is for, as a tooltip; its label where not given. */
  readonly title?: string;
  /** `false`, as `app.commit` gives it, where it was refused: what was typed stays, with the sentence that was said. */
  readonly onSet: (value: number | null) => unknown;
}

export function NumberField(props: NumberFieldProps) {
  const { label, range, value, digits, unit = '', placeholder, mayBeEmpty = false, onSet } = props;
  const app = useApp();
  const number = value === null ? '' : digits === undefined ? `${value}` : value.toFixed(digits);
  const standing = number === '' || unit === '' ? number : `${number} ${unit}`;

  const field = useTyped(label, (text) => {
    if (text.trim() === '') {
      if (!mayBeEmpty) return `${label} cannot be empty.`;
      return value === null ? null : refusalOf(app, () => onSet(null));
    }
    const read = readNumber(text, range, unit);
    if (!read.ok) return read.message;
    return read.value === value ? null : refusalOf(app, () => onSet(read.value));
  });

  return (
    <TypedInput
      label={label}
      of={field}
      standing={standing}
      figure="decimal"
      placeholder={placeholder}
      title={props.title}
    />
  );
}
