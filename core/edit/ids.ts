// New ids for walls and nodes that an edit makes by itself. RULES: ED4.

import { LONGEST_COUNTED } from './limits.ts';

/**
 * Gives `prefix1`, `prefix2`, … starting one above the largest number in use. Only plain numbers of up to nine digits
 * count as numbers; an id in use is never given again, nor one that was given before by the same giver. RULES: ED4.
 */
export function idGiver<Id extends string>(prefix: string, used: Iterable<string>): () => Id {
  const ids = [...used];
  // Most givers are never asked: what is in use is looked through at the first question.
  let taken: Set<string> | null = null;
  let last = 0;
  return () => {
    if (taken === null) {
      taken = new Set(ids);
      last = largestNumber(prefix, taken);
    }
    do last += 1;
    while (taken.has(`${prefix}${last}`));
    return `${prefix}${last}` as Id;
  };
}

function largestNumber(prefix: string, ids: Iterable<string>): number {
  const numbered = new RegExp(`^${prefix}[1-9][0-9]{0,${LONGEST_COUNTED - 1}}$`);
  let largest = 0;
  for (const id of ids) {
    if (numbered.test(id)) largest = Math.max(largest, Number(id.slice(prefix.length)));
  }
  return largest;
}
