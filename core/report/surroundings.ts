// What a level's derivation reads of a plan beside the level itself: where that is the same, rooms may be lent.

import type { Plan } from '../plan/schema.ts';

/** What no level's derivation reads: all else may be read, so that a new field of the plan is safe (RULES: RP3). */
const NOT_READ: ReadonlySet<string> = new Set<keyof Plan>(['title', 'levels', 'counters', 'heldBoards']);

/** Whether all that a level's derivation may read beside the level itself is the same. */
export function sameSurroundings(a: Plan, b: Plan): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)] as (keyof Plan)[]);
  return [...keys].every((key) => NOT_READ.has(key) || a[key] === b[key]);
}
