// A field for a plain number. Enter or leaving takes it, Escape puts back what was there; emptied, it is unset.

import { useId, useState } from 'react';
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
  readonly onSet: (value: number | null) => void;
}

export function NumberField(props: NumberFieldProps) {
  const { label, range, value, digits, unit = '', placeholder, mayBeEmpty = false, onSet } = props;
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const number = value === null ? '' : digits === undefined ? `${value}` : value.toFixed(digits);
  const standing = number === '' || unit === '' ? number : `${number} ${unit}`;

  function take(): void {
    if (typed === null) return;
    if (typed.trim() === '') {
      if (!mayBeEmpty) {
        setProblem(`${label} cannot be empty.`);
        return;
      }
      if (value !== null) onSet(null);
      setTyped(null);
      return;
    }
    const read = readNumber(typed, range, unit);
    if (!read.ok) {
      setProblem(read.message);
      return;
    }
    setTyped(null);
    setProblem(null);
    if (read.value !== value) onSet(read.value);
  }

  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="field-input">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={typed ?? standing}
          placeholder={placeholder}
          title={label}
          aria-invalid={problem !== null}
          aria-describedby={problem === null ? undefined : `${id}-more`}
          onChange={({ target }) => {
            setTyped(target.value);
            setProblem(null);
          }}
          onFocus={({ target }) => target.select()}
          onBlur={take}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
            if (event.key === 'Escape' && typed !== null) {
              event.preventDefault();
              event.stopPropagation();
              setTyped(null);
              setProblem(null);
            }
          }}
        />
        {problem === null ? null : (
          <span id={`${id}-more`} className="wrong">
            {problem}
          </span>
        )}
      </span>
    </div>
  );
}
