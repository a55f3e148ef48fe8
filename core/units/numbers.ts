// Numbers as they are typed: `12`, `4.375`, `3/8`, `4 3/8`, `4-3/8`, `4⅜`. Text in, an exact fraction of whole numbers
// out, with the place where reading stopped. Knows nothing of units: length.ts and angle.ts do. RULES: UN3, UN4.

/** An exact number: `over` is above zero. */
export interface Rational {
  readonly top: bigint;
  readonly over: bigint;
}

/** Why a text was refused. `at` is the index in the text of the first character that was not understood. */
export interface Refusal {
  readonly ok: false;
  readonly at: number;
  readonly message: string;
}

/** A number read from a text, without sign. `end` is the index just after it. */
export interface ReadNumber {
  readonly ok: true;
  readonly value: Rational;
  readonly form: 'whole' | 'decimal' | 'fraction' | 'mixed';
  readonly end: number;
}

/** Longer texts are refused: nobody types them, and long digits cost time. */
export const LONGEST_ENTRY = 200;

const VULGAR: readonly (readonly [character: string, top: bigint, over: bigint])[] = [
  ['½', 1n, 2n],
  ['⅓', 1n, 3n],
  ['⅔', 2n, 3n],
  ['¼', 1n, 4n],
  ['¾', 3n, 4n],
  ['⅕', 1n, 5n],
  ['⅖', 2n, 5n],
  ['⅗', 3n, 5n],
  ['⅘', 4n, 5n],
  ['⅙', 1n, 6n],
  ['⅚', 5n, 6n],
  ['⅐', 1n, 7n],
  ['⅛', 1n, 8n],
  ['⅜', 3n, 8n],
  ['⅝', 5n, 8n],
  ['⅞', 7n, 8n],
  ['⅑', 1n, 9n],
  ['⅒', 1n, 10n],
];

/** The match of a pattern exactly at `at`. The pattern must carry the sticky flag and be made by the caller. */
export function matchAt(sticky: RegExp, text: string, at: number): RegExpExecArray | null {
  sticky.lastIndex = at;
  return sticky.exec(text);
}

/** The index of the first character from `at` that is no space (of any kind). */
export function skipSpaces(text: string, at: number): number {
  let next = at;
  while (next < text.length && /\s/.test(text[next]!)) next++;
  return next;
}

/** True where a number could begin. */
export function startsNumber(text: string, at: number): boolean {
  return matchAt(/\.?\d/y, text, at) !== null || vulgarAt(text, at) !== null;
}

/** True for a dash as keyboards and correcting programs write it. The minus sign (U+2212) is not one: it only takes away. */
export function isDash(character: string | undefined): boolean {
  return character !== undefined && /[-‐‑–]/.test(character);
}

/** The character at `at` for a message: whole even where it takes two code units, by its number where it cannot be seen. */
export function characterAt(text: string, at: number): string {
  const code = text.codePointAt(at)!;
  const character = String.fromCodePoint(code);
  return /[\p{C}\p{Z}]/u.test(character)
    ? `U+${code.toString(16).toUpperCase().padStart(4, '0')}`
    : character;
}

/** A refusal that tells what was understood before `at`. `why` goes on from there, without a full stop. */
export function refuse(text: string, at: number, why: string): Refusal {
  const before = text.slice(0, at).trim().replace(/\s+/g, ' ');
  const shown = before.length > 40 ? `…${before.slice(-40)}` : before;
  const sentence =
    shown === '' ? `${why[0]!.toUpperCase()}${why.slice(1)}` : `Understood “${shown}”, then ${why}`;
  return { ok: false, at, message: `${sentence}.` };
}

export function add(a: Rational, b: Rational): Rational {
  return { top: a.top * b.over + b.top * a.over, over: a.over * b.over };
}

export function times(a: Rational, factor: bigint): Rational {
  return { top: a.top * factor, over: a.over };
}

/** The nearest whole number, halves away from zero [UN2]. */
export function nearestWhole(value: Rational): bigint {
  const size = value.top < 0n ? -value.top : value.top;
  const rounded = (2n * size + value.over) / (2n * value.over);
  return value.top < 0n ? -rounded : rounded;
}

/**
 * Reads the number that begins exactly at `at`; null where none begins there.
 * A fraction after a whole number may be set apart by spaces or by a dash without spaces, and must be below one.
 */
export function readNumber(text: string, at: number): ReadNumber | Refusal | null {
  const bare = fractionAt(text, at);
  if (bare !== null) return bare.ok ? { ...bare, form: 'fraction' } : bare;

  const digits = matchAt(/(\d*)(?:\.(\d*))?/y, text, at)!;
  const [all, whole = '', decimals] = digits;
  if (whole === '' && !decimals) {
    return text[at] === ',' && /\d/.test(text[at + 1] ?? '') ? refuseComma(text, at) : null;
  }
  const end = at + all.length;
  if (text[end] === ',') return refuseComma(text, end);
  if (decimals !== undefined) {
    if (decimals === '') return refuse(text, end, 'the decimals after the point are missing');
    if (text[end] === '.') return refuse(text, end, 'found a second point');
    const over = 10n ** BigInt(decimals.length);
    const next = fractionAt(text, skipSpaces(text, end));
    if (next !== null) {
      return refuse(
        text,
        skipSpaces(text, end),
        'found a fraction after a decimal number; use one or the other',
      );
    }
    return { ok: true, value: { top: BigInt(whole + decimals), over }, form: 'decimal', end };
  }

  const value = { top: BigInt(whole), over: 1n };
  const start = isDash(text[end]) ? end + 1 : skipSpaces(text, end);
  const fraction = fractionAt(text, start);
  if (fraction === null) return { ok: true, value, form: 'whole', end };
  if (!fraction.ok) return fraction;
  if (fraction.value.top >= fraction.value.over) {
    const written = text.slice(start, fraction.end).replace(/\s+/g, '');
    return refuse(text, start, `found the fraction ${written}, which is not below one`);
  }
  return { ok: true, value: add(value, fraction.value), form: 'mixed', end: fraction.end };
}

function refuseComma(text: string, at: number): Refusal {
  return refuse(
    text,
    at,
    'found a comma; write decimals with a point, as in 3.76, and thousands without a mark',
  );
}

function vulgarAt(text: string, at: number): Rational | null {
  const found = VULGAR.find(([character]) => character === text[at]);
  return found === undefined ? null : { top: found[1], over: found[2] };
}

/** `3/8` or `⅜` exactly at `at`. */
function fractionAt(text: string, at: number): { ok: true; value: Rational; end: number } | Refusal | null {
  const vulgar = vulgarAt(text, at);
  if (vulgar !== null) {
    const clash = matchAt(/[\d./⁄∕]/y, text, at + 1);
    if (clash) return refuse(text, at + 1, `found “${clash[0]}” straight after a fraction`);
    return { ok: true, value: vulgar, end: at + 1 };
  }
  const written = matchAt(/(\d+)(\s*[/⁄∕]\s*)(\d*)/y, text, at);
  if (!written) return null;
  const [all, top = '', slash = '', over = ''] = written;
  const end = at + all.length;
  const overAt = at + top.length + slash.length;
  if (over === '') return refuse(text, overAt, 'the lower number of the fraction is missing');
  if (BigInt(over) === 0n) return refuse(text, overAt, 'found a fraction over 0');
  const clash = matchAt(/\s*[/⁄∕]|\.|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]/y, text, end);
  if (clash) return refuse(text, end, `found “${clash[0].trim()}” straight after a fraction`);
  if (text[end] === ',') return refuseComma(text, end);
  return { ok: true, value: { top: BigInt(top), over: BigInt(over) }, end };
}
