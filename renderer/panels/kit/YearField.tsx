// The year a house was built, or nothing. What is no year is said under the field.

import { TypedInput } from './TypedInput.tsx';
import { useTyped } from './use-typed.ts';

const FIRST = 1000;
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
    const last = new Date().getFullYear() + 1;
    if (text !== '' && !(/^\d{4}$/.test(text) && year >= FIRST && year <= last))
      return `“${text}” is no year a house was built in: four figures from ${FIRST} to ${last}, as in 1962.`;
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
