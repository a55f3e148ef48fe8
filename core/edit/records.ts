// A map back to a plan's record: keys in code-unit order, and the old record itself where nothing changed.

import { byCodeUnit, lookup } from '../plan/maps.ts';

export function recordOf<K extends string, V>(before: Record<K, V>, now: ReadonlyMap<K, V>): Record<K, V> {
  const keys = [...now.keys()].sort(byCodeUnit);
  const same =
    keys.length === Object.keys(before).length && keys.every((key) => lookup(before, key) === now.get(key));
  return same ? before : (Object.fromEntries(keys.map((key) => [key, now.get(key)!])) as Record<K, V>);
}
