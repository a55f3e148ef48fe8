// One of a few: the system's own list, so that keys, touch and screen readers work as everywhere.

import { useId } from 'react';
import { capital } from '../../../core/fit/say.ts';

export interface Option<V extends string> {
  readonly value: V;
  readonly words: string;
  readonly disabled?: boolean;
}

/** Kinds of things to choose from, from their words in core/plan/kinds.ts. */
export function kindOptions<V extends string>(words: Readonly<Record<V, string>>): readonly Option<V>[] {
  return (Object.keys(words) as V[]).map((value) => ({ value, words: capital(words[value]) }));
}

export interface ChoiceProps<V extends string> {
  readonly label: string;
  readonly value: V;
  readonly of: readonly Option<V>[];
  readonly disabled?: boolean;
  /** What it is for, as a tooltip; its label where not given. */
  readonly title?: string;
  readonly onSet: (value: V) => void;
}

export function Choice<V extends string>({
  label,
  value,
  of,
  disabled,
  title = label,
  onSet,
}: ChoiceProps<V>) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="field-input">
        <select
          id={id}
          value={value}
          disabled={disabled}
          title={title}
          onChange={({ target }) => onSet(target.value as V)}
        >
          {of.map((each) => (
            <option key={each.value} value={each.value} disabled={each.disabled}>
              {each.words}
            </option>
          ))}
        </select>
      </span>
    </div>
  );
}
