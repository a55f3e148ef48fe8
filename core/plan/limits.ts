// Whether what is about to be written stays within what the reader takes: values, entries of a record or list, walls of a
// level. Counts only; the size in bytes is for who has the bytes. Knows no text. RULES: PL2, PL7.

import { MAX_WALLS } from './read.ts';
import { type JsonPath, MAX_ENTRIES, MAX_VALUES, pathText } from './scan.ts';

/** `document` is JSON data, where an absent field may be undefined. What goes past a limit and where; null: nothing. [PL7] */
export function beyondReading(document: unknown): string | null {
  const path: (string | number)[] = [];
  let values = 0;

  function beyond(value: unknown): string | null {
    values += 1;
    if (values > MAX_VALUES) return `more than ${MAX_VALUES} values are more than a plan file may hold`;
    if (typeof value !== 'object' || value === null) return null;
    let entries = 0;
    for (const [key, inner] of Array.isArray(value) ? value.entries() : Object.entries(value)) {
      if (inner === undefined) continue;
      entries += 1;
      path.push(key);
      const found = beyond(inner);
      if (found !== null) return found;
      path.pop();
    }
    return tooMany(path, entries, Array.isArray(value) ? 'list' : 'record');
  }

  return beyond(document);
}

function tooMany(path: JsonPath, entries: number, kind: keyof typeof MAX_ENTRIES): string | null {
  const walls = path.length === 3 && path[0] === 'levels' && path[2] === 'walls';
  if (walls && entries > MAX_WALLS)
    return `${pathText(path)}: ${entries} walls on one level are more than ${MAX_WALLS}`;
  if (entries <= MAX_ENTRIES[kind]) return null;
  return `${pathText(path)}: ${entries} entries in one ${kind} are more than ${MAX_ENTRIES[kind]}`;
}
