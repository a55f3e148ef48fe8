// What is printed, as data: each sheet is a list of drawing items in points (1/72 in), origin at the sheet's top left,
// x right and y down. A writer (pdf/, svg) turns items into bytes and decides nothing. Whatever is on paper can be
// tested here without a PDF. Items are drawn in order.

import type { Point } from '../graph/types.ts';

/** Fonts by role; the writer is handed the bytes. */
export type FontName = 'regular' | 'semibold' | 'bold' | 'italic';

/** Ink by role. The writer maps a role to a colour; every mark also reads without colour. */
export type Ink = 'graphite' | 'ink' | 'pencil' | 'faint' | 'paper' | 'wash' | 'washPencil';

export interface Stroke {
  readonly ink: Ink;
  readonly width: number;
  /** Lengths of dash and gap in points; absent for a whole line. */
  readonly dash?: readonly number[];
}

/** Text on one line. `at` is the left, middle or right of its baseline. `box` is what tests hold against overlaps. */
export interface TextItem {
  readonly kind: 'text';
  /** As it is drawn: what the font lacks is replaced. */
  readonly text: string;
  /** As it was written, where that differs. */
  readonly meant?: string;
  readonly at: Point;
  readonly size: number;
  readonly font: FontName;
  readonly ink: Ink;
  readonly align: 'left' | 'middle' | 'right';
  /** Degrees clockwise as seen, about `at`; only 0, 90 and −90 are used. */
  readonly turn?: 0 | 90 | -90;
  /** Ground painted under it so that lines do not cross the letters. */
  readonly halo?: boolean;
  /** Measured extent on the sheet, after turning: [x0, y0, x1, y1]. */
  readonly box: readonly [number, number, number, number];
  /** What it tells, for tests and reading order: 'cell', 'dimension', 'corner-number', 'title' … */
  readonly role: string;
}

export type Item =
  | TextItem
  | {
      readonly kind: 'line';
      readonly points: readonly Point[];
      readonly stroke: Stroke;
      readonly closed?: boolean;
      readonly fill?: Ink;
      readonly role?: string;
    }
  /** Polygon with holes, even-odd; walls are drawn so. */
  | {
      readonly kind: 'area';
      readonly rings: readonly (readonly Point[])[];
      readonly fill: Ink;
      readonly stroke?: Stroke;
      readonly hatch?: { readonly spacing: number; readonly angleDeg: number; readonly stroke: Stroke };
      readonly role?: string;
    }
  | {
      readonly kind: 'arc';
      readonly centre: Point;
      readonly radius: number;
      readonly fromDeg: number;
      readonly toDeg: number;
      readonly stroke: Stroke;
      readonly fill?: Ink;
      readonly role?: string;
    }
  /** Items clipped to a box. */
  | {
      readonly kind: 'clip';
      readonly box: readonly [number, number, number, number];
      readonly items: readonly Item[];
    };

export const SHEET_SIZES = {
  letter: [612, 792], // ANSI/ASME Y14.1 A, 8.5 × 11 in
  tabloid: [792, 1224], // ANSI/ASME Y14.1 B, 11 × 17 in
  a4: [(210 / 25.4) * 72, (297 / 25.4) * 72], // ISO 216
  a3: [(297 / 25.4) * 72, (420 / 25.4) * 72], // ISO 216
  'arch-c': [1296, 1728], // 18 × 24 in
  'arch-d': [1728, 2592], // 24 × 36 in
} as const satisfies Record<string, readonly [width: number, height: number]>;
export type SheetSize = keyof typeof SHEET_SIZES;

/** One page. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  /** Title in the bookmark list; `parent` names the bookmark it hangs under. */
  readonly bookmark: string;
  readonly parent: string | null;
  /** Further bookmarks of this page, after the first: of a page that several rooms share. */
  readonly also?: readonly { readonly bookmark: string; readonly parent: string | null }[];
  readonly items: readonly Item[];
  /** A plan drawn to scale: where its origin falls, and the scale. Sheet = origin + ticks × pointsPerTick. */
  readonly scale?: {
    readonly name: string;
    readonly ratio: number;
    readonly origin: Point;
    readonly pointsPerTick: number;
  };
}

export interface SheetSet {
  readonly title: string;
  readonly language: string;
  readonly sheets: readonly Sheet[];
}

/** Width and vertical extents of text in points. Made from the font bytes by `fontMetrics` in sheets/measure.ts. */
export interface TextMeasure {
  width(text: string, font: FontName, size: number): number;
  /** Above and below the baseline, both positive. */
  ascent(font: FontName, size: number): number;
  descent(font: FontName, size: number): number;
  /** The text with a visible sign for each character that the font lacks. Absent where nothing is ever lacking. */
  printed?(text: string, font: FontName): string;
}

/** Stands for a character that the fonts lack [SH38]; every font has it. */
export const STAND_IN = '□';
/** Has no place of its own: it belongs to the character before it. */
export const JOINED = /^[\p{M}\p{Emoji_Modifier}]$/u;

/** Smallest text that may be printed, points (RULES: SH). */
export const SMALLEST_TEXT = 7;
