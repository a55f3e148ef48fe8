// A map back to a plan's record: keys in code-unit order, and the old record itself where nothing changed.

import { byCodeUnit, lookup } from '../plan/maps.ts';

export function recordOf<K extends string, V>(before: Record<K, V>, now: ReadonlyMap<K, V>): Record<K, V> {
  const entries = [...now];
  const same =
    entries.length === Object.keys(before).length &&
    entries.every(([key, value]) => lookup(before, key) === value);
  if (same) return before;
  return Object.fromEntries(entries.sort(([a], [b]) => byCodeUnit(a, b))) as Record<K, V>;
}
