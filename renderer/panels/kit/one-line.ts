// Names and titles as people type them: without the spaces round them. Empty is no name at all, which is allowed; spaces
// alone would be a name that nobody sees.

import type { Refused } from './figures.ts';

export function readLine(
  label: string,
  text: string,
): { readonly ok: true; readonly value: string } | Refused {
  const value = text.trim();
  if (value === '' && text !== '')
    return { ok: false, message: `${label} cannot be spaces alone: type some words, or leave it empty.` };
  return { ok: true, value };
}
