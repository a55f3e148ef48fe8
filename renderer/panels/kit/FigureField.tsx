// A field for a length or an angle as people type it. What was understood stands beside it while typing; Enter or leaving
// the field takes it, Escape puts back what was there. What cannot be read, or cannot be done, is said under the field and
// nothing is lost.

import { useApp } from '../../state/react.ts';
import type { Figures } from './figures.ts';
import { type Range, rangeFault } from './range.ts';
import { TypedInput } from './TypedInput.tsx';
import { refusalOf, useTyped } from './use-typed.ts';

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
  /** From where to where it goes, in ticks or degrees; everywhere where not given. */
  readonly range?: Range;
  /** What it is for, as a tooltip; its label where not given. */
  readonly title?: string;
  readonly disabled?: boolean;
  /** `false`, as `app.commit` gives it, where it was refused: what was typed stays, with the sentence that was said. */
  readonly onSet: (value: number | null) => unknown;
}

export function FigureField(props: FigureFieldProps) {
  const { label, figures, takes, value, shown, placeholder, mayBeEmpty = false, disabled, onSet } = props;
  const { range = {}, title } = props;
  const app = useApp();
  const asText = (of: number): string => (takes === 'length' ? figures.length(of) : `${of}°`);
  const read = (text: string) => (takes === 'length' ? figures.readLength(text) : figures.readAngle(text));
  const standing = value === null ? '' : (shown ?? asText(value));

  const set = (to: number | null): string | null => refusalOf(app, () => onSet(to));
  const limit = (of: number): string => (takes === 'length' ? figures.fine(of) : `${of}°`);
  const field = useTyped(label, (text) => {
    if (text.trim() === '') {
      if (!mayBeEmpty) return `${label} cannot be empty.`;
      return value === null ? null : set(null);
    }
    const answer = read(text);
    if (!answer.ok) return answer.message;
    const outside = rangeFault(label, answer.value, range, limit);
    if (outside !== null) return outside;
    return answer.value !== value && text !== standing ? set(answer.value) : null;
  });
  const { typed } = field;
  const understood = typed === null || typed.trim() === '' || typed === standing ? null : read(typed);

  return (
    <TypedInput
      label={label}
      of={field}
      standing={standing}
      understood={understood?.ok ? `= ${asText(understood.value)}` : ''}
      figure="text"
      placeholder={placeholder}
      title={title}
      disabled={disabled}
    />
  );
}
