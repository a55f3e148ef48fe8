// Names for files: what a user typed, held against what file systems take, and a name made from a plan's title.

import { basename } from 'node:path';
import { EXTENSION } from './document-types.ts';

/** What one system or another does not take in a name, or takes for something else; marks that turn the direction of
 *  writing, so that another ending is read than is there. */
const NOT_IN_NAMES = /[<>:"/\\|?*\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/u;
const UNSEEN = /[\p{C}\p{Z}]/u;
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
/** Bytes; the common limit is 255, and a temporary file beside it has a name of its own. */
const MOST_BYTES = 240;

function named(sign: string): string {
  if (!UNSEEN.test(sign)) return JSON.stringify(sign);
  return `the sign U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
}

/** Names on a disk may hold what would break a line or turn a whole sentence round. */
const UNSHOWN = /[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/gu;

/** The last name of a path, as it is shown; not for use as a path. */
export function nameOf(path: string): string {
  return basename(path).replace(UNSHOWN, '\ufffd');
}

/** One sentence on why a name cannot be used; null where it can. */
export function nameFault(name: string): string | null {
  const trimmed = name.trim();
  if (trimmed === '' || /^\.+$/.test(trimmed)) return 'A file needs a name with a letter or a digit in it.';
  if (trimmed.startsWith('.')) return 'A name that starts with a dot would hide the file; choose another.';
  const bad = NOT_IN_NAMES.exec(name)?.[0];
  if (bad !== undefined) return `A file name cannot hold ${named(bad)}; leave it out.`;
  if (DEVICES.test(trimmed))
    return `${trimmed} is the name of a device on some systems; choose another name.`;
  if (/[. ]$/.test(name)) return 'A file name cannot end with a dot or a space.';
  if (new TextEncoder().encode(name).length > MOST_BYTES)
    return 'The name is too long; choose a shorter one.';
  return null;
}

/** Whether a name or path ends as plans do; letters large or small. */
export const endsAsPlan = (name: string): boolean => name.toLowerCase().endsWith(EXTENSION);

/** The name with `ending`, added where it is not there. */
export function withEnding(name: string, ending: string): string {
  return name.toLowerCase().endsWith(ending) ? name : `${name}${ending}`;
}

/** A name for a plan that has none yet, from its title; without an ending. */
export function stemOf(name: string | null, title: string): string {
  if (name !== null && endsAsPlan(name)) return name.slice(0, -EXTENSION.length);
  const plain = title
    .normalize('NFC')
    .replace(new RegExp(NOT_IN_NAMES, 'gu'), ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[. ]+|[. ]+$/g, '')
    .slice(0, 60)
    .trimEnd();
  return nameFault(plain) === null ? plain : 'plan';
}
