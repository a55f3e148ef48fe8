// A field for a length or an angle as people type it. What was understood stands beside it while typing; Enter or leaving
// the field takes it, Escape puts back what was there. What cannot be read, or cannot be done, is said under the field and
// nothing is lost.

import { useId, useState } from 'react';
import { useApp } from '../../state/react.ts';
import type { Figures } from './figures.ts';

export interface FigureFieldProps {
  readonly label: string;
  readonly figures: Figures;
  readonly takes: 'length' | 'angle';
  /** Ticks or degrees; null: nothing is set. */
  readonly value: number | null;
  /** As text, where the value is to be shown otherwise. */
  readonly shown?: string;
  /** What stands in the field while nothing is set: the rule's own value. */
  readonly placeholder?: string;
  /** The field may be emptied: `onSet(null)`. */
  readonly mayBeEmpty?: boolean;
  /** Only what is more than 0. */
  readonly positive?: boolean;
  readonly disabled?: boolean;
  /** `false`, as `app.commit` gives it, where it was refused: what was typed stays, with the sentence that was said. */
  readonly onSet: (value: number | null) => unknown;
}

export function FigureField(props: FigureFieldProps) {
  const { label, figures, takes, value, shown, placeholder, mayBeEmpty = false, disabled, onSet } = props;
  const { positive = false } = props;
  const app = useApp();
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const asText = (of: number): string => (takes === 'length' ? figures.length(of) : `${of}°`);
  const read = (text: string) => (takes === 'length' ? figures.readLength(text) : figures.readAngle(text));
  const standing = value === null ? '' : (shown ?? asText(value));
  const understood = typed === null || typed.trim() === '' ? null : read(typed);

  function set(to: number | null): void {
    const refused = onSet(to) === false;
    setProblem(refused ? (app.store.get().notices.at(-1)?.words ?? 'This could not be done.') : null);
    if (!refused) setTyped(null);
  }

  function take(): void {
    if (typed === null || problem !== null) return;
    if (typed.trim() === '') {
      if (!mayBeEmpty) setProblem(`${label} cannot be empty.`);
      else if (value !== null) set(null);
      else setTyped(null);
      return;
    }
    const answer = read(typed);
    if (!answer.ok) {
      setProblem(answer.message);
      return;
    }
    if (positive && !(answer.value > 0)) {
      setProblem(`${label} must be more than 0.`);
      return;
    }
    if (answer.value !== value && typed !== standing) set(answer.value);
    else setTyped(null);
  }

  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="field-input">
        <input
          id={id}
          type="text"
          inputMode="text"
          autoComplete="off"
          spellCheck={false}
          disabled={disabled}
          value={typed ?? standing}
          placeholder={placeholder}
          aria-invalid={problem !== null}
          aria-describedby={`${id}-more`}
          onChange={({ target }) => {
            setTyped(target.value);
            setProblem(null);
          }}
          onFocus={({ target }) => target.select()}
          onBlur={take}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
            if (event.key === 'Escape' && typed !== null) {
              // A dialog round it stays open.
              event.preventDefault();
              event.stopPropagation();
              setTyped(null);
              setProblem(null);
            }
          }}
        />
        <span id={`${id}-more`} className={problem === null ? 'soft' : 'wrong'}>
          {problem ?? (understood?.ok && typed !== standing ? `= ${asText(understood.value)}` : '')}
        </span>
      </span>
    </div>
  );
}
