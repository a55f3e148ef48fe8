// Lengths as people type them, to whole ticks: `12' 4 3/8"`, `12-4-3/8`, `148.375`, `3.76m`, sums and differences.
// Exact until one rounding at the end. What cannot be read is refused with its place; empty text is never zero.
// Knows nothing of plans. RULES: UN2–UN7.

import {
  add,
  characterAt,
  isDash,
  LONGEST_ENTRY,
  matchAt,
  nearestWhole,
  type Rational,
  type Refusal,
  readNumber,
  refuse,
  skipSpaces,
  startsNumber,
  times,
} from './numbers.ts';
import { TICKS_PER_FOOT, TICKS_PER_INCH, TICKS_PER_MM, type Ticks } from './ticks.ts';

export type UnitSystem = 'imperial' | 'metric';

/** Lengths beyond this are refused: 1 km in ticks [UN7]. */
export const LONGEST_LENGTH: Ticks = 1_000_000 * TICKS_PER_MM;

type Unit = 'ft' | 'in' | 'mm' | 'cm' | 'm';

const TICKS_PER: Record<Unit, bigint> = {
  ft: BigInt(TICKS_PER_FOOT),
  in: BigInt(TICKS_PER_INCH),
  mm: BigInt(TICKS_PER_MM),
  cm: BigInt(10 * TICKS_PER_MM),
  m: BigInt(1000 * TICKS_PER_MM),
};

/** A length that was read, in ticks; `mark` is how its last number was marked. */
interface Term {
  readonly ok: true;
  readonly ticks: Rational;
  readonly mark: Unit | null;
  readonly end: number;
}

/**
 * Reads a length that a person typed. Bare numbers are inches in an imperial plan, millimetres in a metric one; after
 * feet they are inches. Gives whole ticks, rounded once, halves away from zero. Never throws. [UN2–UN7]
 */
export function parseLength(text: string, units: UnitSystem): { ok: true; ticks: Ticks } | Refusal {
  if (text.length > LONGEST_ENTRY) return refuse('', LONGEST_ENTRY, 'the text is too long for a length');
  let at = skipSpaces(text, 0);
  if (at === text.length)
    return refuse('', text.length, `nothing was typed; write a length such as ${example(units)}`);

  const sign = matchAt(/[+\-−‐‑–]/y, text, at)?.[0];
  if (sign !== undefined) at = skipSpaces(text, at + 1);
  let term = readTerm(text, at, units);
  if (!term.ok) return term;
  let sum = sign === undefined || sign === '+' ? term.ticks : times(term.ticks, -1n);

  for (let next = skipSpaces(text, term.end); next < text.length; next = skipSpaces(text, term.end)) {
    const operator = readOperator(text, next, term, units);
    if (!operator.ok) return operator;
    const right = readTerm(text, skipSpaces(text, next + 1), units);
    if (!right.ok) return right;
    sum = add(sum, times(right.ticks, operator.factor));
    term = right;
  }

  const ticks = nearestWhole(sum);
  if (ticks > BigInt(LONGEST_LENGTH) || ticks < -BigInt(LONGEST_LENGTH)) {
    return {
      ok: false,
      at: 0,
      message: 'Understood all of it, but it is longer than 1 km, the longest that a plan holds.',
    };
  }
  return { ok: true, ticks: Number(ticks) };
}

function example(units: UnitSystem): string {
  return units === 'imperial' ? `12' 4 3/8"` : '3760 or 3.76 m';
}

/** Plus or minus between two lengths. A dash could be a minus or a joint: refused where unsure. */
function readOperator(
  text: string,
  at: number,
  left: Term,
  units: UnitSystem,
): { ok: true; factor: bigint } | Refusal {
  const found = characterAt(text, at);
  if (found === '+') return { ok: true, factor: 1n };
  const minus = found === '−';
  if (!minus && !isDash(found)) {
    if (startsNumber(text, at)) {
      return refuse(
        text,
        at,
        `found another number; mark the first one, as in ${example(units)}, or put + or - between`,
      );
    }
    return refuse(text, at, `found “${found}”, which is no part of a length`);
  }
  const before = at > left.end;
  const next = skipSpaces(text, at + 1);
  if (next === text.length) return { ok: true, factor: -1n }; // and the missing length is refused
  const after = next > at + 1;
  if (!minus && before !== after) {
    return refuse(
      text,
      at,
      'found a dash with a space on one side only; put a space on both sides to take away',
    );
  }
  if (!before && left.mark === null) {
    return refuse(
      text,
      at,
      'found a dash that could be read two ways; put a space on both sides to take away',
    );
  }
  if (!before && (left.mark === 'in' || left.mark === 'ft')) {
    const right = readNumber(text, at + 1);
    if (right?.ok && right.form === 'fraction') {
      return refuse(
        text,
        at,
        'found a fraction joined on by a dash; put a space on both sides to take it away',
      );
    }
  }
  return { ok: true, factor: -1n };
}

/** One length without sign: feet and inches, or one number with or without its unit. */
function readTerm(text: string, at: number, units: UnitSystem): Term | Refusal {
  const first = readNumber(text, at);
  if (first === null) return refuseNoNumber(text, at, units);
  if (!first.ok) return first;

  const unit = readUnit(text, first.end);
  if (!unit.ok) return unit;
  if (unit.unit === 'ft') return readInches(text, first.value, first.form === 'whole', unit.end);
  if (unit.unit !== null) {
    return { ok: true, ticks: times(first.value, TICKS_PER[unit.unit]), mark: unit.unit, end: unit.end };
  }
  if (first.form === 'whole' && joinsAt(text, first.end))
    return readDashed(text, first.value, first.end, units);
  const plain = units === 'imperial' ? 'in' : 'mm';
  return { ok: true, ticks: times(first.value, TICKS_PER[plain]), mark: null, end: first.end };
}

/** What may follow a foot mark: inches, with a space, a dash without spaces, or nothing between. */
function readInches(text: string, feet: Rational, wholeFeet: boolean, at: number): Term | Refusal {
  const ticks = times(feet, TICKS_PER.ft);
  const start = joinsAt(text, at) ? at + 1 : skipSpaces(text, at);
  if (!startsNumber(text, start)) return { ok: true, ticks, mark: 'ft', end: at };
  if (!wholeFeet)
    return refuse(text, start, 'found inches after a broken number of feet; use one or the other');
  const inches = readNumber(text, start)!;
  if (!inches.ok) return inches;
  const unit = readUnit(text, inches.end);
  if (!unit.ok) return unit;
  if (unit.unit !== null && unit.unit !== 'in') {
    return refuse(
      text,
      skipSpaces(text, inches.end),
      'found another unit where inches were expected after feet',
    );
  }
  return {
    ok: true,
    ticks: add(ticks, times(inches.value, TICKS_PER.in)),
    mark: unit.unit,
    end: unit.unit === null ? inches.end : unit.end,
  };
}

/** `12-4` and `12-4-3/8`: feet and inches joined by dashes [UN5]. `at` is the first dash. */
function readDashed(text: string, feet: Rational, at: number, units: UnitSystem): Term | Refusal {
  const inches = readNumber(text, at + 1)!;
  if (!inches.ok) return inches;
  const unit = readUnit(text, inches.end);
  if (!unit.ok) return unit;
  if (unit.unit !== null && unit.unit !== 'in') {
    return refuse(
      text,
      at,
      'found a dash, which joins feet and inches only; put a space on both sides to take away',
    );
  }
  if (unit.unit === null && units === 'metric') {
    return refuse(text, at, 'found a dash between millimetres; put a space on both sides to take away');
  }
  if (inches.value.top >= 12n * inches.value.over) {
    return refuse(
      text,
      at + 1,
      'found 12 or more inches after feet; put a space on both sides of the dash to take away',
    );
  }
  if (unit.unit === null && joinsAt(text, inches.end)) {
    return refuse(
      text,
      inches.end,
      'found a further dash; after feet and inches only a fraction such as -3/8 may follow',
    );
  }
  return {
    ok: true,
    ticks: add(times(feet, TICKS_PER.ft), times(inches.value, TICKS_PER.in)),
    mark: unit.unit,
    end: unit.unit === null ? inches.end : unit.end,
  };
}

/** True for a dash with no space on either side and a number after it. */
function joinsAt(text: string, at: number): boolean {
  return isDash(text[at]) && startsNumber(text, at + 1);
}

/** The unit that follows a number, spaces between allowed; null where none does. */
function readUnit(text: string, from: number): { ok: true; unit: Unit | null; end: number } | Refusal {
  const at = skipSpaces(text, from);
  const mark = matchAt(/''|’’|′′|["”“″]/y, text, at);
  if (mark) return { ok: true, unit: 'in', end: at + mark[0].length };
  if (matchAt(/['’‘′]/y, text, at)) return { ok: true, unit: 'ft', end: at + 1 };
  const word = matchAt(/\p{L}+/uy, text, at)?.[0];
  if (word === undefined) return { ok: true, unit: null, end: from };
  const unit = unitNamed(word.toLowerCase());
  if (unit === null) return refuse(text, at, `found “${word.slice(0, 20)}”, which is no unit of length here`);
  const stop = (unit === 'ft' || unit === 'in') && text[at + word.length] === '.' ? 1 : 0;
  return { ok: true, unit, end: at + word.length + stop };
}

function unitNamed(word: string): Unit | null {
  if (/^(ft|foot|feet)$/.test(word)) return 'ft';
  if (/^(in|inch|inches)$/.test(word)) return 'in';
  if (/^(mm|millimet(re|er)s?)$/.test(word)) return 'mm';
  if (/^(cm|centimet(re|er)s?)$/.test(word)) return 'cm';
  if (/^(m|met(re|er)s?)$/.test(word)) return 'm';
  return null;
}

function refuseNoNumber(text: string, at: number, units: UnitSystem): Refusal {
  if (at >= text.length) return refuse(text, text.length, 'the text ends where a length was expected');
  return refuse(
    text,
    at,
    `found “${characterAt(text, at)}” where a length such as ${example(units)} was expected`,
  );
}
