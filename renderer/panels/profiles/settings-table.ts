// Every setting of a job: what it is called, what it does in one sentence, in which unit, under which heading. The defaults
// are core's. A test holds this table against core's settings, so that none is missing.

import type { Settings } from '../../../core/plan/index.ts';
import { formatArea, TICKS_PER_MM } from '../../../core/units/index.ts';
import { ABOVE_ZERO, type Range, ZERO_UP } from '../kit/range.ts';

export type SettingKey = keyof Settings;

export type Takes =
  /** Ticks or degrees. */
  | { readonly as: 'length'; readonly range: Range }
  | { readonly as: 'angle'; readonly range: Range }
  | {
      readonly as: 'number';
      readonly least: number;
      readonly most: number;
      readonly unit: string;
      readonly whole?: boolean;
    }
  /** Square metres in the plan; shown and typed in the plan's own unit. */
  | { readonly as: 'area'; readonly mostM2: number }
  | { readonly as: 'choice'; readonly of: readonly { readonly value: number; readonly words: string }[] };

export interface SettingRow {
  readonly key: SettingKey;
  readonly words: string;
  readonly says: string;
  readonly takes: Takes;
  /** Shown only in plans of these units. */
  readonly units?: 'imperial' | 'metric';
}

export interface SettingGroup {
  readonly title: string;
  readonly rows: readonly SettingRow[];
}

const length: Takes = { as: 'length', range: ZERO_UP };
const angle: Takes = { as: 'angle', range: { least: 0, most: 180 } };
const number = (least: number, most: number, unit: string, whole = false): Takes => ({
  as: 'number',
  least,
  most,
  unit,
  whole,
});

export const SETTING_GROUPS: readonly SettingGroup[] = [
  {
    title: 'Figures',
    rows: [
      {
        key: 'roundIn',
        words: 'Printed to the nearest',
        says: 'How finely lengths are printed; they are kept exactly.',
        units: 'imperial',
        takes: { as: 'choice', of: [8, 16, 32, 64].map((value) => ({ value, words: `1⁄${value}"` })) },
      },
      {
        key: 'roundMm',
        words: 'Printed to the nearest',
        says: 'How finely lengths are printed; they are kept exactly.',
        units: 'metric',
        takes: { as: 'choice', of: [0.1, 0.5, 1].map((value) => ({ value, words: `${value} mm` })) },
      },
      {
        key: 'voidAreaM2',
        words: 'Smallest room',
        says: 'A closed space with less floor than this is a shaft or a void: it carries no trim.',
        takes: { as: 'area', mostM2: 100 },
      },
    ],
  },
  {
    title: 'Corners and joints',
    rows: [
      {
        key: 'buildUpDeg',
        words: 'Build-up of drywall',
        says: 'What compound adds in unmeasured drywall corners; mitres and copes are set by it.',
        takes: number(0, 10, '°'),
      },
      {
        key: 'copeMin',
        words: 'Shortest board to cope',
        says: 'A shorter board is never coped: the other one is, or the corner is mitred.',
        takes: length,
      },
      {
        key: 'blockSize',
        words: 'Corner block',
        says: 'How far a block reaches along each wall; the boards stop short by it.',
        takes: length,
      },
      {
        key: 'returnHold',
        words: 'Return held back',
        says: 'How far a return stays back from the edge that it ends at.',
        takes: length,
      },
      {
        key: 'scarfDeg',
        words: 'Scarf',
        says: 'The saw’s setting where two boards lap along a wall.',
        takes: number(0, 60, '°'),
      },
      {
        key: 'springOver',
        words: 'Spring in over',
        says: 'A coped or butted board longer than this is cut a little long, to be sprung in.',
        takes: length,
      },
      {
        key: 'springBy',
        words: 'Spring by',
        says: 'How much longer such a board is cut.',
        takes: length,
      },
    ],
  },
  {
    title: 'Saw',
    rows: [
      {
        key: 'sawStandingDeg',
        words: 'Saw swings to',
        says: 'The farthest setting with the board standing against the fence; beyond it is a finding.',
        takes: angle,
      },
      {
        key: 'sawBevelDeg',
        words: 'Saw tilts to',
        says: 'The farthest bevel with the board lying flat.',
        takes: angle,
      },
    ],
  },
  {
    title: 'Checks',
    rows: [
      {
        key: 'flushUnder',
        words: 'Flush under',
        says: 'A step from casing down to base under this counts as flush.',
        takes: length,
      },
      {
        key: 'closeUnder',
        words: 'Close over the old line',
        says: 'A base that covers the old line by less than this is worth a look.',
        takes: length,
      },
      {
        key: 'sliverUnder',
        words: 'Sliver under',
        says: 'A board shorter than this is a sliver.',
        takes: length,
      },
      {
        key: 'angleOddDeg',
        words: 'Odd angle over',
        says: 'A measured angle that is farther than this from the drawn one is asked about.',
        takes: angle,
      },
      {
        key: 'lengthOdd',
        words: 'Odd length over',
        says: 'A measured length that is farther than this from the drawn one is asked about.',
        takes: length,
      },
      {
        key: 'nearlyMeet',
        words: 'Nearly meeting',
        says: 'Wall ends nearer than this to another wall, and not joined, are asked about.',
        takes: length,
      },
    ],
  },
  {
    title: 'Scribing',
    rows: [
      {
        key: 'scribeAllowance',
        words: 'Scribe allowance',
        says: 'How much longer a board is cut where it is scribed to stone or brick.',
        takes: length,
      },
      {
        key: 'scribeDeep',
        words: 'Deepest scribe',
        says: 'More than this off the bottom of a board is a finding.',
        takes: length,
      },
      {
        key: 'scribeTolerance',
        words: 'Gap allowed',
        says: 'How far a base may stand off the floor before it is scribed.',
        takes: length,
      },
      {
        key: 'carpetTolerance',
        words: 'Gap allowed over carpet',
        says: 'The same where carpet hides it.',
        takes: length,
      },
      {
        key: 'shimStep',
        words: 'Shims come in',
        says: 'Blocks and the scriber are set to steps of this.',
        takes: { as: 'length', range: ABOVE_ZERO },
      },
    ],
  },
  {
    title: 'Stock and labels',
    rows: [
      { key: 'kerf', words: 'Saw kerf', says: 'What each cut takes out of a board.', takes: length },
      {
        key: 'endTrim',
        words: 'End trim',
        says: 'What is cut off a new board before the first piece.',
        takes: length,
      },
      {
        key: 'minScarfPiece',
        words: 'Shortest scarfed piece',
        says: 'Where a wall is longer than the stock, no part is shorter than this.',
        takes: length,
      },
      {
        key: 'sparePercent',
        words: 'Spare',
        says: 'How much more than needed is put on the order, told apart.',
        takes: number(0, 1000, '%'),
      },
      {
        key: 'labelColumns',
        words: 'Labels across',
        says: 'Labels side by side on a sheet; fewer where a label would not hold its words.',
        takes: number(1, 20, '', true),
      },
      {
        key: 'labelRows',
        words: 'Labels down',
        says: 'Labels below each other on a sheet; fewer where a label would not hold its words.',
        takes: number(1, 50, '', true),
      },
    ],
  },
];

/** Square feet in a square metre: a foot is 0.3048 m exactly (RULES: UN11). */
const SQUARE_FEET = 1 / 0.3048 ** 2;

/** How an area of a setting is typed in a plan's units: as a plain number with its unit after it, to a hundredth. */
export function areaField(takes: Extract<Takes, { as: 'area' }>, units: 'imperial' | 'metric') {
  const perM2 = units === 'imperial' ? SQUARE_FEET : 1;
  return {
    unit: units === 'imperial' ? 'sq ft' : 'm²',
    range: { least: 0, most: Math.floor(takes.mostM2 * perM2) },
    shown: (m2: number): number => Math.round(m2 * perM2 * 100) / 100,
    m2: (typed: number): number => typed / perM2,
  };
}

/** A value as it is shown where nothing is set. */
export function shownNumber(value: number, takes: Takes, units: 'imperial' | 'metric'): string {
  if (takes.as === 'choice') return takes.of.find((each) => each.value === value)?.words ?? `${value}`;
  if (takes.as === 'angle') return `${value}°`;
  if (takes.as === 'area') return formatArea(value * (1000 * TICKS_PER_MM) ** 2, units);
  if (takes.as === 'number') return takes.unit === '°' ? `${value}°` : `${value} ${takes.unit}`.trim();
  return `${value}`;
}
