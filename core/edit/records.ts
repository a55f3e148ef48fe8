// A map back to a plan's record: the old record itself where nothing changed; keys in code-unit order where any came or
// went.

import { byCodeUnit } from '../plan/maps.ts';
import { frozen } from './frozen.ts';

/** The record of a map, frozen where it is a new one. */
export function recordOf<K extends string, V>(before: Record<K, V>, now: ReadonlyMap<K, V>): Record<K, V> {
  const changed: [K, V][] = [];
  let sameKeys = now.size === Object.keys(before).length;
  now.forEach((value, key) => {
    // What a map inherits is no record.
    if (before[key] === value) return;
    changed.push([key, value]);
    sameKeys &&= Object.hasOwn(before, key);
  });
  if (!sameKeys) {
    const entries = [...now].sort(([a], [b]) => byCodeUnit(a, b));
    return frozen(Object.fromEntries(entries) as Record<K, V>);
  }
  if (changed.length === 0) return before;
  const record = { ...before };
  for (const [key, value] of changed) record[key] = value;
  return frozen(record);
}
