// Angles as people type them, to degrees: `91.5`, `91 1/2`, `91½°`, `91° 30'`. Refused with a place like lengths.
// Which angle is meant (of a corner, of the saw) is the caller's to say. RULES: UN3, UN4, UN8.

import {
  add,
  characterAt,
  LONGEST_ENTRY,
  matchAt,
  type Rational,
  type Refusal,
  readNumber,
  refuse,
  skipSpaces,
} from './numbers.ts';

/** Angles beyond a full turn, either way, are refused. */
const FULL_TURN_DEG = 360;

/** Reads an angle in degrees, with minutes and seconds where marked. Never throws. [UN8] */
export function parseAngle(text: string): { ok: true; deg: number } | Refusal {
  if (text.length > LONGEST_ENTRY) return refuse('', LONGEST_ENTRY, 'the text is too long for an angle');
  let at = skipSpaces(text, 0);
  if (at === text.length)
    return refuse('', text.length, 'nothing was typed; write an angle such as 91.5 or 91 1/2');
  const sign = matchAt(/[+\-−‐‑–]/y, text, at)?.[0];
  if (sign !== undefined) at = skipSpaces(text, at + 1);

  const degrees = readNumber(text, at);
  if (degrees === null) {
    return at >= text.length
      ? refuse(text, text.length, 'the text ends where an angle was expected')
      : refuse(text, at, `found “${characterAt(text, at)}” where an angle such as 91.5 was expected`);
  }
  if (!degrees.ok) return degrees;
  let sum = degrees.value;
  at = degrees.end;
  const mark = matchAt(/\s*(?:[°º]|(?:degrees?|deg)(?!\p{L})\.?)/iuy, text, at);
  if (mark) {
    at += mark[0].length;
    let broken = degrees.form !== 'whole';
    for (const [part, over] of [
      [/\s*(?:['’′](?!['’′])|min(?!\p{L})\.?)/iuy, 60n],
      [/\s*(?:["”″]|''|’’|′′|sec(?!\p{L})\.?)/iuy, 3600n],
    ] as const) {
      const read = readPart(text, skipSpaces(text, at), part, over);
      if (read === null) continue;
      if (!read.ok) return read;
      if (broken)
        return refuse(
          text,
          skipSpaces(text, at),
          'found a further part after a broken number; use one or the other',
        );
      broken = read.broken;
      sum = add(sum, read.value);
      at = read.end;
    }
  }

  const rest = skipSpaces(text, at);
  if (rest < text.length) {
    const what =
      mark && readNumber(text, rest)?.ok
        ? 'a number without the mark of minutes or seconds, 0 to below 60'
        : null;
    return refuse(
      text,
      rest,
      what ? `found ${what}` : `found “${characterAt(text, rest)}”, which is no part of an angle`,
    );
  }
  const deg = Number(sum.top) / Number(sum.over);
  if (!(deg <= FULL_TURN_DEG)) {
    return {
      ok: false,
      at: 0,
      message: 'Understood all of it, but it is more than a full turn of 360 degrees.',
    };
  }
  return { ok: true, deg: sign !== undefined && sign !== '+' ? 0 - deg : deg };
}

/** Minutes or seconds at `at`: a number below 60 with its mark. Null where no such number with that mark stands. */
function readPart(
  text: string,
  at: number,
  mark: RegExp,
  over: bigint,
): { ok: true; value: Rational; end: number; broken: boolean } | Refusal | null {
  const number = readNumber(text, at);
  if (number === null) return null;
  if (!number.ok) return number;
  const found = matchAt(mark, text, number.end);
  if (!found) return null;
  if (number.value.top >= 60n * number.value.over)
    return refuse(text, at, 'found 60 or more minutes or seconds');
  return {
    ok: true,
    value: { top: number.value.top, over: number.value.over * over },
    end: number.end + found[0].length,
    broken: number.form !== 'whole',
  };
}
