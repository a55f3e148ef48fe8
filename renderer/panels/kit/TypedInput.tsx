// The line that people type in, with its label, and under it what is said of what they typed. What is taken, and when, is
// `useTyped`'s.

import { useId } from 'react';
import type { Typed } from './use-typed.ts';

export interface TypedInputProps {
  readonly label: string;
  readonly of: Typed;
  /** What stands in it while nothing is typed. */
  readonly standing: string;
  /** What was understood; not said beside a problem. */
  readonly understood?: string;
  /** It holds a figure, typed on these keys: all of it is marked on the way in, to be typed over. */
  readonly figure?: 'text' | 'decimal' | 'numeric';
  readonly maxLength?: number;
  readonly placeholder?: string | undefined;
  /** What it is for, as a tooltip; its label where not given. */
  readonly title?: string | undefined;
  readonly disabled?: boolean | undefined;
}

export function TypedInput({
  label,
  of: { typed, problem, input },
  standing,
  understood,
  figure,
  title = label,
  ...more
}: TypedInputProps) {
  const id = useId();
  const said = problem ?? understood;
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="field-input">
        <input
          id={id}
          type="text"
          autoComplete="off"
          inputMode={figure}
          spellCheck={figure === undefined ? undefined : false}
          value={typed ?? standing}
          title={title}
          aria-invalid={problem !== null}
          aria-describedby={said === undefined ? undefined : `${id}-more`}
          {...more}
          {...input}
          onFocus={figure === undefined ? undefined : ({ target }) => target.select()}
        />
        {said === undefined ? null : (
          <span id={`${id}-more`} className={problem === null ? 'soft' : 'wrong'}>
            {said}
          </span>
        )}
      </span>
    </div>
  );
}
