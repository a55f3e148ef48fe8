// From where to where a field goes, and the sentence for what lies outside. Ticks or degrees; how they are printed is the
// field's.

import { TICKS_PER_MM } from '../../../core/units/index.ts';

export interface Range {
  readonly least?: number;
  /** More than this. */
  readonly over?: number;
  readonly most?: number;
  /** Less than this. */
  readonly under?: number;
  /** Where the limit comes from, after a colon: `its bottom is there`. */
  readonly because?: string;
}

export const ABOVE_ZERO: Range = { over: 0 };
export const ZERO_UP: Range = { least: 0 };
/** Inner angles of corners as they are measured. */
export const CORNER_ANGLE: Range = { over: 0, most: 180 };
/** Studs wider apart than 10 ft are a slip of the finger. */
export const STUD_SPACING: Range = { over: 0, most: 3048 * TICKS_PER_MM };
/** Half a wall's thickness is at least one tick; the plan's schema holds no wall over 10 m. */
export const WALL_THICKNESS: Range = { over: 1, most: 10_000 * TICKS_PER_MM };

/** What is wrong with a value and what would be right, in one sentence; null where nothing is. */
export function rangeFault(
  label: string,
  value: number,
  range: Range,
  print: (of: number) => string,
): string | null {
  const { least = -Infinity, over = -Infinity, most = Infinity, under = Infinity, because } = range;
  if (value >= least && value > over && value <= most && value < under) return null;
  const say = (of: number): string => (of === 0 ? '0' : print(of));
  const limits = [
    over > -Infinity ? `more than ${say(over)}` : null,
    least > -Infinity ? `at least ${say(least)}` : null,
    most < Infinity ? `at most ${say(most)}` : null,
    under < Infinity ? `less than ${say(under)}` : null,
  ].filter((each) => each !== null);
  return `${label} must be ${limits.join(' and ')}${because === undefined ? '' : `: ${because}`}.`;
}
