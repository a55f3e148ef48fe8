// What sheets may be handed over on, in words, and the date that stands on them.

import { SHEET_SIZES, type SheetSize } from '../../../core/sheets/index.ts';

const WORDS: Readonly<Record<SheetSize, string>> = {
  letter: 'Letter, 8 1/2 × 11 in',
  tabloid: 'Tabloid, 11 × 17 in',
  a4: 'A4, 210 × 297 mm',
  a3: 'A3, 297 × 420 mm',
  'arch-c': 'Arch C, 18 × 24 in',
  'arch-d': 'Arch D, 24 × 36 in',
};

/** The sizes in their order, to choose from. */
export const SHEET_CHOICES = (Object.keys(SHEET_SIZES) as SheetSize[]).map((value) => ({
  value,
  words: WORDS[value],
}));

/** What most printers hold where a plan's units are used. */
export const usualSheet = (units: 'imperial' | 'metric'): SheetSize => (units === 'metric' ? 'a4' : 'letter');

/** Today by the clock of this machine, as `2026-01-31`: what the user would write on the sheet. */
export function today(): string {
  const now = new Date();
  const two = (of: number): string => String(of).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
