// The plan that a start names: the last argument that is no switch. Where the program is not packaged the first of them is
// the program itself; the runtime may put switches before it, as it does for a second start (its `second-instance` page).

import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** An absolute path, or null. `argv` without the executable; relative names are from `cwd`. */
export function planNamedIn(argv: readonly string[], cwd: string, packaged: boolean): string | null {
  const words = argv.filter((each) => !each.startsWith('-'));
  const name = (packaged ? words : words.slice(1)).at(-1);
  return name === undefined || name === '' ? null : pathOf(name, cwd);
}

/** A file manager may give an address for a path (Desktop Entry Specification, `%U`). */
function pathOf(name: string, cwd: string): string {
  try {
    return fileURLToPath(name);
  } catch {
    return resolve(cwd, name);
  }
}
