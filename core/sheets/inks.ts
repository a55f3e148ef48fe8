// The colour of each ink on paper. Warm greys and one red; every mark reads without its colour too [SH6].
// Paper is white here: what is not printed is the sheet itself.

import type { Ink } from './items.ts';

/** Ink by role as a hex colour. */
export const INKS: Readonly<Record<Ink, string>> = {
  graphite: '#57514a',
  ink: '#23252b',
  pencil: '#b1281c',
  faint: '#878076',
  paper: '#ffffff',
  wash: '#ebe5db',
  washPencil: '#f8e4de',
};
