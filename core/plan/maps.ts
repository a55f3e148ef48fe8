// Looking things up in the plan's maps. An id may be `constructor` or `toString`: never index a map directly.

/** The record under `id`, or undefined. Never a property of Object itself. */
export function lookup<K extends string, V>(
  map: Readonly<Record<K, V>>,
  id: string | null | undefined,
): V | undefined {
  if (id == null) return undefined;
  return Object.hasOwn(map, id) ? map[id as K] : undefined;
}

/** The record under `id`. Throws when there is none: a plan that was read has no dangling reference. */
export function mustLookup<K extends string, V>(map: Readonly<Record<K, V>>, id: string): V {
  const value = lookup(map, id);
  if (value === undefined) throw new Error(`no record ${JSON.stringify(id)} in the plan`);
  return value;
}

/** Compares two strings by code unit: the order of ids in files, reports and ties. */
export function byCodeUnit(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Entries in code-unit order of their ids. */
export function sortedEntries<K extends string, V>(map: Readonly<Record<K, V>>): [K, V][] {
  return (Object.keys(map) as K[]).sort(byCodeUnit).map((key) => [key, map[key]]);
}
