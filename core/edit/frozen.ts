// Plans are never changed in place: what an edit makes is frozen, so that whoever tries is told, and so that what was
// worked out from a part of a plan can be kept for as long as the part is (RULES: RP3).

import { freeze } from 'immer';

/** Freezes plain data, all that it holds too. What is frozen already is taken to be so all through. Gives it back. */
export function frozen<T>(value: T): T {
  return freeze(value, true);
}
