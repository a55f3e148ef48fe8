// The year a house was built, or nothing. What is no year is said under the field.

import { useId } from 'react';
import { useTyped } from '../kit/use-typed.ts';

const FIRST = 1000;
const LAST = 9999;
const LABEL = 'Year built';

export function YearField({
  value,
  onSet,
}: {
  readonly value: number | null;
  readonly onSet: (value: number | null) => unknown;
}) {
  const id = useId();
  const { typed, problem, input } = useTyped(LABEL, (typing) => {
    const text = typing.trim();
    const year = Number(text);
    if (text !== '' && !(/^\d{4}$/.test(text) && year >= FIRST && year <= LAST))
      return `“${text}” is no year: four figures, as in 1962.`;
    const now = text === '' ? null : year;
    if (now !== value) onSet(now);
    return null;
  });
  return (
    <div className="field">
      <label htmlFor={id}>{LABEL}</label>
      <span className="field-input">
        <input
          id={id}
          type="text"
          inputMode="numeric"
          autoComplete="off"
          value={typed ?? value ?? ''}
          placeholder="not known"
          title="Old paint and old floors are warned of by it"
          aria-invalid={problem !== null}
          aria-describedby={`${id}-more`}
          {...input}
        />
        <span id={`${id}-more`} className="wrong">
          {problem}
        </span>
      </span>
    </div>
  );
}
