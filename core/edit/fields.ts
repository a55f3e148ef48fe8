// Changed fields put into a record: what is named is set, `null` takes it out, lengths go to whole ticks. Knows no plan:
// whether the record then fits the schema is asked at the end (check.ts). RULES: ED13.

import { roundHalfAway } from '../units/ticks.ts';
import { sameValue } from './same.ts';

/** Fields to change: a value sets, `null` takes the field out, what is not named stays. */
export type Changes<T> = { readonly [K in keyof T]?: T[K] | null };

/** All numbers in plain data to whole ticks, halves away from zero, but for those under a key of `except`. */
export function wholeTicks<T>(value: T, except: ReadonlySet<string> = NONE): T {
  if (typeof value === 'number') return roundHalfAway(value) as T;
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((each) => wholeTicks(each, except)) as T;
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [key, except.has(key) ? each : wholeTicks(each, except)]),
  ) as T;
}

const NONE: ReadonlySet<string> = new Set();

/** A record with fields changed; the same object where nothing differs. */
export function withChanges<T extends object>(record: T, set: Changes<T>): T {
  const fields = new Map<string, unknown>(Object.entries(record));
  let differs = false;
  for (const [key, value] of Object.entries(set)) {
    if (value === undefined || sameValue(fields.get(key), value ?? undefined)) continue;
    differs = true;
    if (value === null) fields.delete(key);
    else fields.set(key, value);
  }
  return differs ? (Object.fromEntries(fields) as T) : record;
}

/** The same for a record that may not be there: an empty one is none. */
export function withOptionalChanges<T extends object>(record: T | undefined, set: Changes<T>): T | undefined {
  const changed = withChanges<T>(record ?? ({} as T), set);
  return Object.keys(changed).length === 0 ? undefined : changed;
}

/** A map with one record set or, for undefined, taken out; the same object where nothing differs. */
export function withRecord<K extends string, V>(
  map: Record<K, V>,
  id: K,
  record: V | undefined,
): Record<K, V> {
  const was = Object.hasOwn(map, id) ? map[id] : undefined;
  if (was === record) return map;
  if (record !== undefined) return { ...map, [id]: record };
  const { [id]: _gone, ...rest } = map;
  return rest as Record<K, V>;
}
