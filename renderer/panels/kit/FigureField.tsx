// A field for a length or an angle as people type it. What was understood stands beside it while typing; Enter or leaving
// the field takes it, Escape puts back what was there. What cannot be read, or cannot be done, is said under the field and
// nothing is lost.

import { useId } from 'react';
import { useApp } from '../../state/react.ts';
import type { Figures } from './figures.ts';
import { useTyped } from './use-typed.ts';

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
  const asText = (of: number): string => (takes === 'length' ? figures.length(of) : `${of}°`);
  const read = (text: string) => (takes === 'length' ? figures.readLength(text) : figures.readAngle(text));
  const standing = value === null ? '' : (shown ?? asText(value));

  /** The refusal's own words, as they were said. */
  const set = (to: number | null): string | null =>
    onSet(to) === false ? (app.store.get().notices.at(-1)?.words ?? 'This could not be done.') : null;
  const { typed, problem, input } = useTyped((text) => {
    if (text.trim() === '') {
      if (!mayBeEmpty) return `${label} cannot be empty.`;
      return value === null ? null : set(null);
    }
    const answer = read(text);
    if (!answer.ok) return answer.message;
    if (positive && !(answer.value > 0)) return `${label} must be more than 0.`;
    return answer.value !== value && text !== standing ? set(answer.value) : null;
  });
  const understood = typed === null || typed.trim() === '' ? null : read(typed);

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
          {...input}
          onFocus={({ target }) => target.select()}
        />
        <span id={`${id}-more`} className={problem === null ? 'soft' : 'wrong'}>
          {problem ?? (understood?.ok && typed !== standing ? `= ${asText(understood.value)}` : '')}
        </span>
      </span>
    </div>
  );
}
