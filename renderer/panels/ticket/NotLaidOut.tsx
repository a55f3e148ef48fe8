// Lines that are chosen but get no boards: the plan keeps them, and the ticket says so.

import type { TrimLine } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/sheets/words.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { Why } from './parts.tsx';
import { upper } from './say.ts';

export function NotLaidOut({
  lines,
  found,
}: {
  readonly lines: readonly TrimLine[];
  readonly found: RoomTrim;
}) {
  const without = lines.filter((line) => !found.lines.some((each) => each.line === line));
  if (without.length === 0) return null;
  const names = without.map((line) => LINE_NAMES[line]).join(' and ');
  return (
    <Why>
      {upper(names)}: kept in the plan, but no boards are laid out for it. Boards are for base and shoe.
    </Why>
  );
}
