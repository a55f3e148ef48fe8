// The year a house was built, or nothing. What is no year is said under the field.

import { useId, useState } from 'react';

const FIRST = 1000;
const LAST = 9999;

export function YearField({
  value,
  onSet,
}: {
  readonly value: number | null;
  readonly onSet: (value: number | null) => unknown;
}) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  function take(): void {
    if (typed === null) return;
    const text = typed.trim();
    const year = Number(text);
    if (text !== '' && !(/^\d{4}$/.test(text) && year >= FIRST && year <= LAST)) {
      setProblem(`“${text}” is no year: four figures, as in 1962.`);
      return;
    }
    setTyped(null);
    const now = text === '' ? null : year;
    if (now !== value) onSet(now);
  }
  return (
    <div className="field">
      <label htmlFor={id}>Year built</label>
      <span className="field-input">
        <input
          id={id}
          type="text"
          inputMode="numeric"
          autoComplete="off"
          value={typed ?? value ?? ''}
          placeholder="not known"
          aria-invalid={problem !== null}
          aria-describedby={`${id}-more`}
          onChange={({ target }) => {
            setTyped(target.value);
            setProblem(null);
          }}
          onBlur={take}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
            if (event.key === 'Escape' && typed !== null) {
              event.stopPropagation();
              setTyped(null);
              setProblem(null);
            }
          }}
        />
        <span id={`${id}-more`} className="wrong">
          {problem}
        </span>
      </span>
    </div>
  );
}
