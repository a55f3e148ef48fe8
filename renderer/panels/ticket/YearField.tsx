// The year a house was built, or nothing. What is no year is said under the field.

import { TypedInput } from '../kit/TypedInput.tsx';
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
  const field = useTyped(LABEL, (typing) => {
    const text = typing.trim();
    const year = Number(text);
    if (text !== '' && !(/^\d{4}$/.test(text) && year >= FIRST && year <= LAST))
      return `“${text}” is no year: four figures, as in 1962.`;
    const now = text === '' ? null : year;
    if (now !== value) onSet(now);
    return null;
  });
  return (
    <TypedInput
      label={LABEL}
      of={field}
      standing={value === null ? '' : `${value}`}
      figure="numeric"
      placeholder="not known"
      title="Old paint and old floors are warned of by it"
    />
  );
}
