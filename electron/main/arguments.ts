// The plan that a start names: the last argument that is no switch. The runtime's own arguments stand before ours where the
// program is not packaged.

import { resolve } from 'node:path';

/** An absolute path, or null. `argv` without the executable; relative names are from `cwd`. */
export function planNamedIn(argv: readonly string[], cwd: string, packaged: boolean): string | null {
  const own = packaged ? argv : argv.slice(1);
  const name = own.filter((each) => !each.startsWith('-')).at(-1);
  return name === undefined || name === '' ? null : resolve(cwd, name);
}
