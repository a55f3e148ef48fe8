// Two lists of the same things.

/** Whether two lists hold the same values, or the same objects, in the same order. */
export function sameList<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((each, i) => each === b[i]);
}
