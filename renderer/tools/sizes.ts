// Sizes a kind of opening starts with, in round figures of either system. Common practice, no published source. Ticks.

import { ticksFromMm } from '../../core/units/index.ts';
import type { DrawingOptions } from './types.ts';

/** Width, height and sill, mm: imperial and metric. */
const SIZES: Readonly<Record<DrawingOptions['openingKind'], readonly (readonly [number, number])[]>> = {
  door: [
    [812.8, 810],
    [2032, 2030],
    [0, 0],
  ],
  cased: [
    [914.4, 900],
    [2032, 2030],
    [0, 0],
  ],
  window: [
    [914.4, 900],
    [1219.2, 1200],
    [914.4, 900],
  ],
  sliding: [
    [1828.8, 1800],
    [2032, 2030],
    [0, 0],
  ],
  pocket: [
    [812.8, 810],
    [2032, 2030],
    [0, 0],
  ],
  passage: [
    [914.4, 900],
    [2032, 2030],
    [0, 0],
  ],
};

/**
 * How far a casing is set back from the jamb's edge: about 3/16 in (NAVEDTRA 14044, fig. 6-26); 5 mm is common practice, no
 * published source. Null where there is no casing.
 */
export function usualReveal(
  kind: DrawingOptions['openingKind'],
  units: 'imperial' | 'metric',
): number | null {
  return kind === 'passage' ? null : ticksFromMm(units === 'imperial' ? 4.7625 : 5);
}

export function openingSizes(
  kind: DrawingOptions['openingKind'],
  units: 'imperial' | 'metric',
): Pick<DrawingOptions, 'openingWidth' | 'openingHeight' | 'openingSill'> {
  const [width, height, sill] = SIZES[kind].map((pair) => ticksFromMm(pair[units === 'imperial' ? 0 : 1]));
  return { openingWidth: width!, openingHeight: height!, openingSill: sill! };
}
