// The button at the end of a row that takes the row out.

import { takeOutAt } from './focus.ts';

export function TakeOut({
  label,
  title,
  onTake,
}: {
  readonly label: string;
  readonly title: string;
  readonly onTake: () => unknown;
}) {
  return (
    <button
      type="button"
      className="plain cells-out"
      aria-label={label}
      title={title}
      onClick={(event) => takeOutAt(event.currentTarget, onTake)}
    >
      ×
    </button>
  );
}
