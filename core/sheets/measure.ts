/// <reference path="./fontkit.d.ts" />
// The size of printed text, from the bytes of the fonts that the PDF embeds. Points (1/72 in).
// Kept: a width here is the width the PDF writer draws, because both ask the same shaping library for the same features
// in the same pieces. Knows no sheet and no writer.

import type { Font } from 'fontkit';

import { create } from 'fontkit';
import { type FontName, JOINED, STAND_IN, type TextMeasure } from './items.ts';

const FRACTION_SLASH = '\u2044';
const FRACTION_FEATURES = ['kern', 'frac', 'tnum'] as const;

/**
 * Features that a text is shaped with, by the writer as well as by the measure [SH1]: real fractions and figures of one
 * width where it holds a fraction slash (U+2044), the font's own defaults otherwise, which cost a third of the time.
 */
export function featuresOf(text: string): readonly string[] | undefined {
  return text.includes(FRACTION_SLASH) ? FRACTION_FEATURES : undefined;
}

/** Letters and figures whose ink decides how far a line of text reaches up and down. */
const TALL = 'bdfhkl0123456789()\u2032\u2033\u2044ÄÉ';
const DEEP = 'gjpqy(),;Q';

/**
 * Text widths and heights in points from whole font files, by role. Throws where a font cannot be read or a role has no
 * font. Widths are what the PDF writer draws [SH1]; ascent and descent are those of the ink, not of the line.
 */
export function fontMetrics(fonts: Readonly<Record<FontName, Uint8Array>>): TextMeasure {
  const opened = new Map<FontName, Opened>();
  const open = (name: FontName): Opened => {
    const known = opened.get(name);
    if (known) return known;
    const bytes = fonts[name];
    if (bytes === undefined) throw new Error(`fontMetrics: no font for the role '${name}'`);
    const font = create(bytes);
    const made: Opened = { font, words: new Map(), ...extents(font) };
    opened.set(name, made);
    return made;
  };
  return {
    width: (text, name, size) => widthInEm(open(name), printedIn(open(name).font, text)) * size,
    ascent: (name, size) => open(name).ascentEm * size,
    descent: (name, size) => open(name).descentEm * size,
    printed: (text, name) => printedIn(open(name).font, text),
  };
}

interface Opened {
  readonly font: Font;
  readonly ascentEm: number;
  readonly descentEm: number;
  /** Widths in em by word: owned by one measure, never by the module. */
  readonly words: Map<string, number>;
}

/** What most texts are made of, and every font has. */
const EVERYDAY = /^[\x20-\x7e\xa0-\xff‐–—‘’“”…′″⁄×□]*$/;

/** A sign for each character that the font lacks, together with the marks that belong to it [SH38]. */
function printedIn(font: Font, text: string): string {
  if (EVERYDAY.test(text)) return text;
  let printed = '';
  let lacked = false;
  for (const letter of text) {
    const has = font.hasGlyphForCodePoint(letter.codePointAt(0)!);
    if ((lacked || !has) && JOINED.test(letter)) continue;
    lacked = !has;
    printed += has ? letter : STAND_IN;
  }
  return printed;
}

/** A text without features is shaped word by word, each with the space after it, as the PDF library does. */
function widthInEm(opened: Opened, text: string): number {
  const features = featuresOf(text);
  if (features) return shaped(opened, text, features);
  let width = 0;
  for (const word of text.match(/[^ \t]*[ \t]|[^ \t]+$/g) ?? []) width += shaped(opened, word, undefined);
  return width;
}

function shaped(opened: Opened, text: string, features: readonly string[] | undefined): number {
  const known = opened.words.get(text);
  if (known !== undefined) return known;
  const run = opened.font.layout(text, features);
  const width = run.advanceWidth / opened.font.unitsPerEm;
  opened.words.set(text, width);
  return width;
}

function extents(font: Font): { ascentEm: number; descentEm: number } {
  const top = Math.max(...font.layout(TALL).glyphs.map((glyph) => glyph.bbox.maxY));
  const bottom = Math.min(...font.layout(DEEP).glyphs.map((glyph) => glyph.bbox.minY));
  return { ascentEm: top / font.unitsPerEm, descentEm: -bottom / font.unitsPerEm };
}
