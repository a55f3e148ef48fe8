// Plain numbers as people type them: prices, counts, parts of a hundred, years. A comma or a point for the decimals. What
// cannot be read gets one sentence that says what would be right.

export interface NumberRange {
  readonly least: number;
  readonly most: number;
  /** Whole numbers only. */
  readonly whole?: boolean;
}

export type NumberRead =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string };

/** Reads one number within a range; `unit` may stand after it. */
export function readNumber(text: string, range: NumberRange, unit = ''): NumberRead {
  const bare = text.trim().replace(unit === '' ? /$^/ : new RegExp(`\\s*${escaped(unit)}$`), '');
  if (!/^[-−]?\d+([.,]\d+)?$/.test(bare)) return { ok: false, message: `“${text.trim()}” is no number.` };
  const value = Number(bare.replace(',', '.').replace('−', '-'));
  if (range.whole && !Number.isInteger(value))
    return { ok: false, message: 'A whole number is needed here.' };
  if (value < range.least || value > range.most)
    return { ok: false, message: `It goes from ${range.least} to ${range.most}.` };
  return { ok: true, value };
}

function escaped(unit: string): string {
  return unit.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
