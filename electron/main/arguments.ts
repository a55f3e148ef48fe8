// The plans that a start names: the arguments that are no switches. Where the program is not packaged the first of them is
// the program itself; the runtime may put switches before it, as it does for a second start (its `second-instance` page).

import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { nameOf } from '../services/index.ts';

/** Absolute paths, in the order in which they were named. `argv` without the executable; relative names are from `cwd`. */
export function plansNamedIn(argv: readonly string[], cwd: string, packaged: boolean): string[] {
  const words = argv.filter((each) => !each.startsWith('-'));
  return (packaged ? words : words.slice(1)).filter((each) => each !== '').map((name) => pathOf(name, cwd));
}

/** A file manager may give an address for a path (Desktop Entry Specification, `%U`); a path has no NUL in it. */
function pathOf(name: string, cwd: string): string {
  try {
    const path = fileURLToPath(name);
    if (!path.includes('\0')) return path;
  } catch {
    // It is no address of a file.
  }
  return resolve(cwd, name);
}

/** What is said of plans that were named beside the one that is opened, one at least. */
export function notOpened([first, ...others]: readonly string[]): string {
  const more =
    others.length === 0 ? '' : others.length === 1 ? ' and another' : ` and ${others.length} others`;
  return `The window shows one plan at a time: ${nameOf(first!)}${more} ${more === '' ? 'was' : 'were'} not opened.`;
}
