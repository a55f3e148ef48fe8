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

/** Ids in code-unit order; the list itself is sorted. Maps mostly stand in that order already: looking is cheaper. */
function sorted<K extends string>(ids: K[]): K[] {
  for (let i = 1; i < ids.length; i++) if (ids[i - 1]! > ids[i]!) return ids.sort(byCodeUnit);
  return ids;
}

/** Entries in code-unit order of their ids. */
export function sortedEntries<K extends string, V>(map: Readonly<Record<K, V>>): [K, V][] {
  return sorted(Object.keys(map) as K[]).map((key) => [key, map[key]]);
}

/**
 * The keys of a map whose records are not the same object before and after: changed, new, or gone. New and changed ones
 * first, as the map has them.
 */
export function changedKeys<K extends string, V>(
  before: Readonly<Record<K, V>>,
  after: Readonly<Record<K, V>>,
): K[] {
  if (before === after) return [];
  const changed: K[] = [];
  let stayed = 0;
  for (const key of Object.keys(after) as K[]) {
    // What a map inherits is no record, so that an id like `constructor` shows as changed where it is new.
    if (before[key] === after[key]) stayed += 1;
    else {
      changed.push(key);
      if (Object.hasOwn(before, key)) stayed += 1;
    }
  }
  const all = Object.keys(before) as K[];
  if (stayed < all.length) for (const key of all) if (!Object.hasOwn(after, key)) changed.push(key);
  return changed;
}
