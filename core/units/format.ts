// Lengths, angles and areas as printed. Ticks or degrees in, text out; each rounds once, ties to the longer.
// Fractions carry the fraction slash (U+2044), which a font can draw as a true fraction and which reads back as text.
// What is printed can be read by parseLength and parseAngle again. RULES: UN9–UN11.

import { TICKS_PER_FOOT, TICKS_PER_INCH, TICKS_PER_MM, type Ticks } from './ticks.ts';

export interface LengthStyle {
  readonly units: 'imperial' | 'metric';
  /** Parts of an inch: 16 prints to the nearest 1/16 in. 16 where left out. */
  readonly roundIn?: number;
  /** Millimetres: 1 prints to the nearest whole one. 1 where left out. */
  readonly roundMm?: number;
  /** Imperial only: feet and inches, or inches throughout. `feet` where left out. */
  readonly style?: 'feet' | 'inches';
}

/** A derived length this close to a tie, in steps of the rounding, counts as the tie: doubles carry that much noise. */
const TIE_NOISE = 1e-9;

const SLASH = '⁄';
const MINUS = '−';

/**
 * A length in ticks (whole or derived) as text: `12' 4 3⁄8"`, `148 3⁄8"` or `3760 mm`. Rounds once, from ticks, ties to
 * the longer; fractions reduced. Throws a RangeError on a length or a rounding that is not finite or not positive. [UN9]
 */
export function formatLength(ticks: Ticks, opts: LengthStyle): string {
  if (!Number.isFinite(ticks)) throw new RangeError(`formatLength: ${ticks} is not a finite length in ticks`);
  const sign = ticks < 0 ? MINUS : '';
  const text = opts.units === 'metric' ? metric(Math.abs(ticks), opts) : imperial(Math.abs(ticks), opts);
  return /[1-9]/.test(text) ? sign + text : text;
}

/** A saw setting to the nearest quarter degree, ties to the larger: `44¼°`. [UN10] */
export function formatSaw(deg: number): string {
  if (!Number.isFinite(deg)) throw new RangeError(`formatSaw: ${deg} is not a finite angle`);
  const quarters = roundUpTies(Math.abs(deg) * 4);
  const whole = Math.floor(quarters / 4);
  const part = ['', '¼', '½', '¾'][quarters % 4]!;
  const sign = deg < 0 && quarters > 0 ? MINUS : '';
  return `${sign}${whole === 0 && part !== '' ? '' : whole}${part}°`;
}

/** An included or room angle to the nearest tenth of a degree, ties to the larger: `91.5°`, `90°`. [UN10] */
export function formatAngle(deg: number): string {
  if (!Number.isFinite(deg)) throw new RangeError(`formatAngle: ${deg} is not a finite angle`);
  const tenths = roundUpTies(Math.abs(deg) * 10);
  return `${deg < 0 && tenths > 0 ? MINUS : ''}${decimal(tenths, 1)}°`;
}

/** An area in square ticks as text: `123.4 sq ft` or `11.46 m²`. [UN11] */
export function formatArea(squareTicks: number, units: 'imperial' | 'metric'): string {
  if (!Number.isFinite(squareTicks)) throw new RangeError(`formatArea: ${squareTicks} is not a finite area`);
  const [unit, places, name] =
    units === 'imperial'
      ? ([TICKS_PER_FOOT, 1, 'sq ft'] as const)
      : ([1000 * TICKS_PER_MM, 2, 'm²'] as const);
  const steps = roundUpTies((Math.abs(squareTicks) / (unit * unit)) * 10 ** places);
  const sign = squareTicks < 0 && steps > 0 ? MINUS : '';
  return `${sign}${(steps / 10 ** places).toFixed(places)} ${name}`;
}

function imperial(ticks: number, { roundIn = 16, style = 'feet' }: LengthStyle): string {
  if (!Number.isInteger(roundIn) || roundIn <= 0) {
    throw new RangeError(`formatLength: roundIn ${roundIn} is not a whole number of parts`);
  }
  const steps = roundUpTies((ticks * roundIn) / TICKS_PER_INCH);
  const perFoot = 12 * roundIn;
  const feet = style === 'feet' ? Math.floor(steps / perFoot) : 0;
  const left = steps - feet * perFoot;
  const inches = Math.floor(left / roundIn);
  const fraction = reduced(left % roundIn, roundIn);
  const parts = [
    feet > 0 ? `${feet}'` : '',
    inches > 0 || feet > 0 || fraction === '' ? `${inches}` : '',
    fraction,
  ];
  return `${parts.filter((part) => part !== '').join(' ')}"`;
}

function metric(ticks: number, { roundMm = 1 }: LengthStyle): string {
  if (!Number.isFinite(roundMm) || roundMm < 0.001) {
    throw new RangeError(`formatLength: roundMm ${roundMm} is not a positive length`);
  }
  const thousandths = Math.round(roundMm * 1000);
  const steps = roundUpTies((ticks * 1000) / (TICKS_PER_MM * thousandths));
  return `${decimal(steps * thousandths, 3)} mm`;
}

/** `top/over` in lowest terms, or nothing for 0. */
function reduced(top: number, over: number): string {
  if (top === 0) return '';
  let [a, b] = [top, over];
  while (b > 0) [a, b] = [b, a % b];
  return `${top / a}${SLASH}${over / a}`;
}

/** A whole number of 10^−places as a decimal without trailing zeros: (915, 1) gives `91.5`. */
function decimal(steps: number, places: number): string {
  const digits = String(steps).padStart(places + 1, '0');
  const decimals = digits.slice(-places).replace(/0+$/, '');
  return decimals === '' ? digits.slice(0, -places) : `${digits.slice(0, -places)}.${decimals}`;
}

/** The nearest whole number to one at or above zero, ties up. */
function roundUpTies(value: number): number {
  return Math.floor(value + 0.5 + TIE_NOISE * Math.max(1, value * 1e-3));
}
