// Plain words for what the report names by code, and figures as they are printed. Nothing is reckoned here: millimetres
// of the report go to ticks and are rounded once, by core/units [SH24]. Knows no layout.

import { listed } from '../fit/say.ts';
import type { FindingCode, Severity } from '../fit/types.ts';
import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Report } from '../report/schema.ts';
import { formatAngle, formatArea, formatLength, formatSaw } from '../units/index.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';

type ReportPiece = Report['pieces'][number];
export type ReportEnd = ReportPiece['left'];

/** Worst first, as the findings are headed. */
export const SEVERITY_WORDS: Readonly<Record<Severity, { readonly one: string; readonly means: string }>> = {
  stop: { one: 'Stop', means: 'do not cut before this is settled' },
  fix: { one: 'Fix', means: 'needs work or a part that the plan does not have yet' },
  look: { one: 'Look', means: 'good to know before you start' },
};

/** Parts of a casing as they are cut. */
export const CASING_PARTS: Readonly<Record<Report['casings'][number]['parts'][number]['part'], string>> = {
  head: 'head',
  legLeft: 'left leg',
  legRight: 'right leg',
  sill: 'sill',
};

/** `cope`, `mitre` …: what is done at an end, in one or two words. */
export const END_WORDS: Readonly<Record<ReportEnd['end'], string>> = {
  square: 'square',
  cope: 'cope',
  mitre: 'mitre',
  butt: 'butt',
  scarf: 'scarf',
  return: 'return',
  scribe: 'scribe',
  block: 'square, at a block',
};

export const JOINT_WORDS: Readonly<Record<'cope' | 'mitre' | 'butt' | 'block', string>> = {
  cope: 'cope',
  mitre: 'mitre',
  butt: 'butt',
  block: 'corner block',
};

/** What a user wrote, fit to be set on one line: control characters, line breaks and direction marks become spaces. */
export function printable(written: string): string {
  return written
    .replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cn}\u2028\u2029]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

/** A user's name for something, or what stands in where it is empty. */
export function nameOr(written: string, otherwise: string): string {
  const name = printable(written);
  return name === '' ? otherwise : name;
}

const CORNER_HEIGHT = 'the floor height in corner ';

/** `the floor height in corners 4, 5 and 6` instead of three entries. */
export function gathered(entries: readonly string[]): string[] {
  const corners = entries.flatMap((each) =>
    each.startsWith(CORNER_HEIGHT) ? [each.slice(CORNER_HEIGHT.length)] : [],
  );
  if (corners.length < 2) return [...entries];
  return [
    ...entries.filter((each) => !each.startsWith(CORNER_HEIGHT)),
    `the floor height in corners ${listed(corners)}`,
  ];
}

/** A figure that never breaks at a line's end. */
export function unbroken(figure: string): string {
  return figure.replaceAll(' ', '\u00a0');
}

/** The whole factor, or one over a whole number, nearest below what is wanted: what can be said of an exaggeration. */
export function sayableFactor(wanted: number): number {
  if (!(wanted > 0)) throw new RangeError(`sayableFactor: ${wanted} is no factor`);
  return wanted >= 1 ? Math.floor(wanted) : 1 / Math.ceil(1 / wanted);
}

/** `3 times as large as`, `as large as`, `1⁄4 as large as`. */
export function factorWords(factor: number): string {
  if (factor === 1) return 'as large as';
  return factor > 1 ? `${factor} times as large as` : `1⁄${Math.round(1 / factor)} as large as`;
}

/** `1 board`, `2 boards`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** What a finding is about, in two or three words, for counting them. */
export const FINDING_NAMES: Readonly<Record<FindingCode, readonly [one: string, many: string]>> = {
  'base-proud': ['base proud of a casing', 'bases proud of a casing'],
  'base-flush': ['base nearly flush with a casing', 'bases nearly flush with a casing'],
  'base-short': ['base too short for the old line', 'bases too short for the old line'],
  'base-close': ['base that barely covers the old line', 'bases that barely cover the old line'],
  'height-change': ['change of height', 'changes of height'],
  'opening-clash': ['opening that cannot stand there', 'openings that cannot stand there'],
  'built-in-clash': ['built-in that cannot stand there', 'built-ins that cannot stand there'],
  'casing-crowded': ['crowded casing', 'crowded casings'],
  sliver: ['sliver', 'slivers'],
  'joint-in-sight': ['scarf in sight', 'scarfs in sight'],
  'angle-odd': ['angle that differs from the drawing', 'angles that differ from the drawing'],
  'length-odd': ['length that differs from the drawing', 'lengths that differ from the drawing'],
  'saw-limit': ['setting beyond the saw', 'settings beyond the saw'],
  'order-circle': ['order of work in a circle', 'orders of work in a circle'],
  'too-narrow': ['place too narrow for trim', 'places too narrow for trim'],
  mended: ['mended wall', 'mended walls'],
  'cope-short': ['pair of boards too short to cope', 'pairs of boards too short to cope'],
  'not-closed': ['wall that does not close', 'walls that do not close'],
  'scribe-deep': ['deep scribe', 'deep scribes'],
  'end-tilt': ['tilted board end', 'tilted board ends'],
  'pocket-nails': ['pocket door', 'pocket doors'],
  'outlet-hit': ['outlet or register in the way', 'outlets or registers in the way'],
  'sill-hit': ['sill in the way', 'sills in the way'],
  'stock-none': ['board longer than any stock', 'boards longer than any stock'],
  'held-loose': ['board that can no longer be held', 'boards that can no longer be held'],
  unmeasured: ['room with something unmeasured', 'rooms with something unmeasured'],
  'old-paint': ['caution for old paint', 'cautions for old paint'],
  'old-floor': ['caution for old floors', 'cautions for old floors'],
  'record-unused': ['record that fits nothing', 'records that fit nothing'],
  'room-twice': ['room with two records', 'rooms with two records'],
};

/** Figures of one plan, printed in its units and rounding. */
export interface Figures {
  /** A cut length: inches throughout, or millimetres. */
  cut(mm: number): string;
  /** A length that is paced out rather than cut: feet and inches, or millimetres. */
  length(mm: number): string;
  /** A small length to 1/64 in or 0.1 mm. */
  fine(mm: number): string;
  angle(deg: number): string;
  saw(deg: number): string;
  area(mm2: number): string;
}

/** The printer of a plan's figures. Rounds once [SH24, UN9, UN10]. */
export function figuresOf(plan: Plan): Figures {
  const { roundIn, roundMm } = settingsOf(plan);
  const units = plan.units;
  const print = (mm: number, style: 'feet' | 'inches', fine = false): string => {
    const rounding = fine ? { roundIn: 64, roundMm: 0.1 } : { roundIn, roundMm };
    return primes(formatLength(mm * TICKS_PER_MM, { units, style, ...rounding }));
  };
  return {
    cut: (mm) => print(mm, 'inches'),
    length: (mm) => print(mm, 'feet'),
    fine: (mm) => print(mm, 'inches', true),
    angle: formatAngle,
    saw: formatSaw,
    area: (mm2) => formatArea(mm2 * TICKS_PER_MM * TICKS_PER_MM, units),
  };
}

/** Feet and inch marks after a figure as they are set in print: primes, not quotation marks. */
export function primes(words: string): string {
  return words
    .replace(/(\d) ?"/g, '$1″')
    .replace(/(\d)'(?!\p{L})/gu, '$1′')
    .replace(/(\d+) ?\/ ?(\d+)(?=″| in\b)/g, '$1⁄$2');
}

/** Where an end stands, in words: `corner 7`, `door o1`, `hearth b2`, `board 3B`. */
export function placeWords(plan: PlaceNames, at: ReportEnd['at']): string {
  if ('corner' in at) return `corner ${at.corner}`;
  if ('opening' in at) return plan.opening(at.opening);
  if ('builtIn' in at) return plan.builtIn(at.builtIn);
  return `board ${at.piece}`;
}

/** Names of things on one level. */
export interface PlaceNames {
  opening(id: string): string;
  builtIn(id: string): string;
}

/** An end in words: what and where, how the saw is set, where the long point lies. A square cut has only the first. */
export interface EndWords {
  readonly what: string;
  /** `saw 44¼°`, or nothing. */
  readonly saw: string;
  /** `long at back`, or nothing. */
  readonly long: string;
}

/** The words for an end. */
export function endWords(names: PlaceNames, figures: Figures, end: ReportEnd): EndWords {
  const place = placeWords(names, end.at);
  const what =
    end.end === 'scarf'
      ? `scarf, ${end.lap === 'laps' ? 'laps over' : 'lies under'} ${place.replace('board ', '')}`
      : end.end === 'square' && 'corner' in end.at
        ? `square, to ${place}`
        : `${END_WORDS[end.end]}, ${place}`;
  if (end.sawDeg === 0 && end.longPoint === null) return { what, saw: '', long: '' };
  const long = end.longPoint === null ? '' : `long at ${end.longPoint}`;
  return { what, saw: `saw ${figures.saw(end.sawDeg)}`, long };
}
