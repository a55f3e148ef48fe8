// Text with its measured box: one line, text wrapped to a width, paragraphs, text made to fit. Points (1/72 in), origin top
// left, y down. Kept: every text item carries the box it covers; nothing smaller than SMALLEST_TEXT is made [SH2].
// Knows no plan and no writer.

import type { Point } from '../graph/types.ts';
import type { Box } from './boxes.ts';
import { type FontName, type Ink, SMALLEST_TEXT, type TextItem, type TextMeasure } from './items.ts';

/** Height of a capital or a figure, in em: Inter's own metrics, 1490/2048. Only used to set text in the middle of things. */
export const CAP_EM = 1490 / 2048;
/** Reach of plain letters, figures and primes (no accents, no brackets, which stand higher) and of what has no tail, in em. */
const PLAIN_ASCENT_EM = 0.775;
const PLAIN_DESCENT_EM = 0.02;
const LINE_EM = 1.3;

export interface TextSpec {
  readonly text: string;
  /** Left, middle or right of the baseline, by `align`. */
  readonly at: Point;
  /** Points; at least SMALLEST_TEXT. */
  readonly size: number;
  readonly role: string;
  readonly font?: FontName;
  readonly ink?: Ink;
  readonly align?: 'left' | 'middle' | 'right';
  readonly turn?: 0 | 90 | -90;
  readonly halo?: boolean;
}

/** Distance between baselines, points. */
export function lineHeight(size: number): number {
  return size * LINE_EM;
}

/**
 * One line of text with its measured box [SH2]. Regular, ink and left unless said otherwise. Throws below SMALLEST_TEXT
 * and on a line break: wrap first.
 */
export function text(measure: TextMeasure, spec: TextSpec): TextItem {
  const { at, size } = spec;
  if (!(size >= SMALLEST_TEXT))
    throw new RangeError(`text of ${size} pt is under ${SMALLEST_TEXT} pt: ${spec.text}`);
  if (spec.text.includes('\n')) throw new Error(`text with a line break: ${JSON.stringify(spec.text)}`);
  const font = spec.font ?? 'regular';
  const align = spec.align ?? 'left';
  const turn = spec.turn ?? 0;
  const words = measure.printed?.(spec.text, font) ?? spec.text;
  return {
    kind: 'text',
    text: words,
    ...(words === spec.text ? {} : { meant: spec.text }),
    at,
    size,
    font,
    ink: spec.ink ?? 'ink',
    align,
    ...(turn === 0 ? {} : { turn }),
    ...(spec.halo ? { halo: true } : {}),
    box: textBox(measure, words, at, size, font, align, turn),
    role: spec.role,
  };
}

/** The box that a line of text covers, points, after turning about `at`. */
export function textBox(
  measure: TextMeasure,
  words: string,
  at: Point,
  size: number,
  font: FontName,
  align: TextItem['align'],
  turn: 0 | 90 | -90,
): Box {
  const width = measure.width(words, font, size);
  const left = align === 'left' ? 0 : align === 'middle' ? -width / 2 : -width;
  const up = /[^A-Za-z0-9 .,:;°·–—′″⁄×=+‐-]/.test(words)
    ? measure.ascent(font, size)
    : Math.min(measure.ascent(font, size), PLAIN_ASCENT_EM * size);
  const down = /[^A-PR-Z0-9 .°′″⁄·–—+×=-]/.test(words)
    ? measure.descent(font, size)
    : Math.min(measure.descent(font, size), PLAIN_DESCENT_EM * size);
  const [x, y] = at;
  if (turn === 0) return [x + left, y - up, x + left + width, y + down];
  // Clockwise as seen with y down: the text's own right goes down the sheet at 90, up it at −90.
  if (turn === 90) return [x - down, y + left, x + up, y + left + width];
  return [x - up, y - left - width, x + down, y - left];
}

/** Baseline that sets capitals and figures of a size in the middle of a height, points. */
export function middleBaseline(y: number, size: number): number {
  return y + (CAP_EM * size) / 2;
}

/**
 * Breaks text into lines no wider than `width` points. Breaks at spaces (never at a no-break space) and at line breaks in
 * the text; a word wider than the line is broken between characters. Always at least one line.
 */
export function wrapText(
  measure: TextMeasure,
  words: string,
  font: FontName,
  size: number,
  width: number,
): string[] {
  const fits = (line: string) => measure.width(line, font, size) <= width;
  const lines: string[] = [];
  for (const paragraph of words.split('\n')) {
    let line = '';
    let rest = paragraph.split(' ');
    while (rest.length > 0) {
      const joined = (count: number) => {
        const more = rest.slice(0, count).join(' ');
        return line === '' ? more : `${line} ${more}`;
      };
      const count = mostThatFit(rest.length, (each) => fits(joined(each)));
      if (count > 0) {
        line = joined(count);
        rest = rest.slice(count);
        continue;
      }
      if (line !== '') lines.push(line);
      const broken = breakWord(rest[0]!, fits);
      lines.push(...broken.slice(0, -1));
      line = broken.at(-1) ?? '';
      rest = rest.slice(1);
    }
    lines.push(line);
  }
  return lines;
}

/** Tried first, before it is doubled: about as many words as a line holds. */
const FIRST_TRIED = 16;

/**
 * The largest count up to `all` that fits: doubled until it does not, then by halving. A longer line is wider, and each
 * line that is tried is shaped, so that none much longer than fits is tried.
 */
function mostThatFit(all: number, fits: (count: number) => boolean): number {
  let [low, high] = [0, Math.min(all, FIRST_TRIED)];
  while (fits(high)) {
    if (high === all) return all;
    [low, high] = [high, Math.min(all, 2 * high)];
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function breakWord(word: string, fits: (line: string) => boolean): string[] {
  if (fits(word)) return [word];
  const lines: string[] = [];
  let line = '';
  for (const letter of word) {
    if (line !== '' && !fits(line + letter)) {
      lines.push(line);
      line = '';
    }
    line += letter;
  }
  lines.push(line);
  return lines;
}

/** Text set in lines from `at` (first baseline) downwards; `height` is from the first baseline to the last, points. */
export function paragraph(
  measure: TextMeasure,
  spec: TextSpec & { readonly width: number; readonly leading?: number },
): { readonly items: TextItem[]; readonly lines: number; readonly height: number } {
  const { width, leading, ...rest } = spec;
  const step = leading ?? lineHeight(spec.size);
  const lines = wrapText(measure, spec.text, spec.font ?? 'regular', spec.size, width);
  const items = lines.map((line, index) =>
    text(measure, { ...rest, text: line, at: [spec.at[0], spec.at[1] + index * step] }),
  );
  return { items, lines: lines.length, height: (lines.length - 1) * step };
}

/**
 * Text that must stay within `width` points: first as it is, then smaller down to SMALLEST_TEXT, then wrapped at that
 * size. Never cut short [SH3]. Lines go down from `at`.
 */
export function fitText(measure: TextMeasure, spec: TextSpec & { readonly width: number }): TextItem[] {
  const { width, ...rest } = spec;
  const natural = measure.width(spec.text, spec.font ?? 'regular', spec.size);
  const size = natural <= width ? spec.size : Math.max(SMALLEST_TEXT, (spec.size * width) / natural);
  return paragraph(measure, { ...rest, size: Math.min(size, spec.size), width: width + 1e-6 }).items;
}
