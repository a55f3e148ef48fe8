// What sheets may be handed over on and at which scale, in words, and the date that stands on them.

import { PLAN_SCALES, SHEET_SIZES, type SheetSize } from '../../../core/sheets/index.ts';

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

/** A scale of the floor plans as it is typed, `1/4` or `1:50`; or each as large as fits its sheet. */
export type ScaleChoice = string;
export const AS_FITS: ScaleChoice = 'fits';

/** The scales that a plan's units know, to choose from. */
export function scaleChoices(units: 'imperial' | 'metric'): { value: ScaleChoice; words: string }[] {
  return [
    { value: AS_FITS, words: 'As fits' },
    ...PLAN_SCALES[units].map(({ key, name }) => ({ value: key, words: name })),
  ];
}

/** The choice as calls take it; as fits where these units do not know it. */
export function askedScale(choice: ScaleChoice, units: 'imperial' | 'metric'): string | undefined {
  return PLAN_SCALES[units].find(({ key }) => key === choice)?.key;
}

/** Today by the clock of this machine, as `2026-01-31`: what the user would write on the sheet. */
export function today(): string {
  const now = new Date();
  const two = (of: number): string => String(of).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
