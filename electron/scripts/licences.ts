// Writes renderer/app/licences.json: what ships with the program, its versions and licences with their texts, read from the
// lock file and the installed packages. The desktop runtime ships as well and brings its own licence files beside it.

import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

interface LockEntry {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
}

export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  /** The package's own licence text; null where it ships none. */
  readonly text: string | null;
}

/** Every package that is not only for development, by name then version. Throws where one has no licence. */
export function licencesOf(folder: string): Licence[] {
  const lock = JSON.parse(readFileSync(join(folder, 'package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, LockEntry>>;
  };
  const found: Licence[] = [];
  for (const [path, entry] of Object.entries(lock.packages)) {
    if (path === '' || entry.dev === true || entry.version === undefined) continue;
    const place = join(folder, path);
    // Binaries for other machines are in the lock file and not here.
    if (entry.optional === true && !existsSync(place)) continue;
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
    const licence = entry.license ?? ownLicence(place);
    if (licence === null) throw new Error(`${name} ${entry.version} names no licence`);
    found.push({ name, version: entry.version, licence, text: textOf(place) });
  }
  return found.toSorted((a, b) => (a.name === b.name ? 0 : a.name < b.name ? -1 : 1));
}

function ownLicence(place: string): string | null {
  const own = JSON.parse(readFileSync(join(place, 'package.json'), 'utf8')) as { readonly license?: unknown };
  if (typeof own.license === 'string') return own.license;
  return textOf(place)?.startsWith('MIT License') ? 'MIT' : null;
}

function textOf(place: string): string | null {
  const name = readdirSync(place)
    .filter((each) => /^(licen[cs]e|copying)(\.|-|$)/i.test(each))
    .toSorted()[0];
  return name === undefined ? null : readFileSync(join(place, name), 'utf8').trim();
}

export const LICENCES_FILE = join(root, 'renderer', 'app', 'licences.json');

export function licencesText(): string {
  // Packages for one kind of machine differ from machine to machine: the list is of what every build ships.
  const every = licencesOf(root).filter(({ name }) => !name.startsWith('@esbuild/'));
  return `${JSON.stringify(every, null, 2)}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(LICENCES_FILE, licencesText());
}
