// Which mouldings the program works out, and what is said of those that it only keeps: one set of words for the tickets,
// the profiles and the table of rooms.

import { capital, listed } from '../../../core/fit/say.ts';
import { LINES, type Profile, type TrimLine } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';

/** Lines that get boards. A test holds this against what core lays out. */
const LAID_OUT: ReadonlySet<TrimLine> = new Set(['base', 'shoe']);

/** Lines that are kept and named, and get no boards. */
export const ONLY_NAMED: readonly TrimLine[] = LINES.filter((line) => !LAID_OUT.has(line));

export function isOnlyNamed(kind: Profile['kind']): kind is TrimLine {
  return (ONLY_NAMED as readonly string[]).includes(kind);
}

/** What the program does for lines that it only names, and what it does not. Requires at least one. */
export function onlyNamedWords(lines: readonly TrimLine[]): string {
  const it = lines.length === 1 ? 'it' : 'them';
  return `${capital(listed(lines.map((line) => LINE_NAMES[line])))}: named on the room’s sheet, for the crew to measure on site. No boards, joints, saw settings, checks or stock are worked out for ${it}; those are for base, shoe and casings.`;
}
