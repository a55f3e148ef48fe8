// Whether two plans say the same, the counter of corner numbers aside: undo leaves that alone (RULES: ED11).

import type { Plan } from '../plan/schema.ts';

/** Deep equality of two plans but for `counters.corner`. Order of keys does not count; absent equals undefined. */
export function sameButCounter(a: Plan, b: Plan): boolean {
  if (a === b) return true;
  return sameValue({ ...a, counters: undefined }, { ...b, counters: undefined });
}

/** Deep equality of plain data. Order of keys does not count; absent equals undefined. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) {
    if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length) return false;
    return a.every((value, i) => sameValue(value, b[i]));
  }
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(one).filter((key) => one[key] !== undefined);
  if (keys.length !== Object.keys(other).filter((key) => other[key] !== undefined).length) return false;
  return keys.every((key) => Object.hasOwn(other, key) && sameValue(one[key], other[key]));
}
