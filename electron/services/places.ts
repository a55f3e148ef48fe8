// Folders and files as a window without the system's own dialogs shows them: names and opaque ids, never a path. Hidden
// entries are left out; links are followed; what is neither folder nor ordinary file is not shown. Reads only.
// RULES: SK6.

import { constants } from 'node:fs';
import { access, readdir, realpath, stat } from 'node:fs/promises';
import { dirname, join, parse } from 'node:path';
import type { Place, PlaceAnswer } from '../contract.ts';
import { endsAsPlan, nameOf } from './file-names.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import type { OpaqueIds } from './opaque-ids.ts';

type Entry = Place['entries'][number];

/** Files that are no plans are shown so that a name is not taken twice by chance; of very many, these will do. */
const MOST_OTHERS = 500;

const isHidden = (name: string): boolean => name.startsWith('.');

function kindOf(path: string, is: { isDirectory(): boolean; isFile(): boolean }): Entry['kind'] | null {
  if (is.isDirectory()) return 'folder';
  if (!is.isFile()) return null;
  return endsAsPlan(path) ? 'plan' : 'other';
}

async function entriesOf(folder: string, ids: OpaqueIds): Promise<Entry[]> {
  const found: Entry[] = [];
  let others = 0;
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    if (isHidden(entry.name)) continue;
    const path = join(folder, entry.name);
    // A link that leads nowhere is no place.
    const about = entry.isSymbolicLink() ? await stat(path).catch(() => null) : entry;
    const kind = about && kindOf(path, about);
    if (kind === 'other') others += 1;
    if (!kind || (kind === 'other' && others > MOST_OTHERS)) continue;
    found.push({ id: ids.give(path), name: nameOf(path), kind });
  }
  const rank = ({ kind }: Entry): number => ['folder', 'plan', 'other'].indexOf(kind);
  const order = new Intl.Collator('en', { numeric: true });
  return found.sort((a, b) => rank(a) - rank(b) || order.compare(a.name, b.name));
}

function trailOf(folder: string, ids: OpaqueIds): Place['trail'] {
  const { root } = parse(folder);
  const trail: { id: string; name: string }[] = [];
  for (let at = folder; ; at = dirname(at)) {
    trail.unshift({ id: ids.give(at), name: at === root ? root : nameOf(at) });
    if (at === root) return trail;
  }
}

/** What is in a folder. A folder that is gone or closed to this account is refused with a sentence. */
export async function placeAt(path: string, ids: OpaqueIds): Promise<PlaceAnswer> {
  try {
    const folder = await realpath(path);
    if (!(await stat(folder)).isDirectory()) throw new FileProblem(path, 'is not a folder');
    const trail = trailOf(folder, ids);
    const entries = await entriesOf(folder, ids);
    const readOnly = await access(folder, constants.W_OK).then(
      () => false,
      () => true,
    );
    const { id, name } = trail.at(-1)!;
    return { outcome: 'place', place: { id, name, trail, entries, readOnly } };
  } catch (error) {
    const { what } = fileProblem(path, error, 'read');
    return { outcome: 'refused', message: `${nameOf(path) || path} ${what}.` };
  }
}
