// Type on a canvas: the font of each role, and how wide words are in it. Sizes in the canvas's own units. Widths are the
// browser's own, so that a label measured here is as wide as it is drawn; fractions stack by themselves.

import type { FontName, TextMeasure } from '../../core/sheets/items.ts';
import { CAP_EM } from '../../core/sheets/texts.ts';

const FACES: Readonly<Record<FontName, string>> = {
  regular: '400',
  semibold: '600',
  bold: '600',
  italic: 'italic 400',
};
const FAMILY = '"Inter", system-ui, sans-serif';

/** Of Inter, in em: the ink of letters with tails and of the tallest ones. From the font's own bounding boxes. */
const ASCENT_EM = Math.max(CAP_EM, 0.78);
const DESCENT_EM = 0.21;
/** Widths are asked for at this size: fine enough for any other. */
const ASKED_AT = 100;

export function fontOf(name: FontName, size: number): string {
  return `${FACES[name]} ${size}px ${FAMILY}`;
}

/** All faces the drawing uses: a canvas does not ask for a font that no element shows. */
export async function loadFaces(fonts: FontFaceSet): Promise<void> {
  const all = Object.keys(FACES) as FontName[];
  await Promise.allSettled(all.map((name) => fonts.load(fontOf(name, 16), 'Aa 1⁄8')));
}

/** A measure by a canvas context. It remembers what it was asked; make a new one when the fonts have changed. */
export function canvasMeasure(context: Pick<CanvasRenderingContext2D, 'font' | 'measureText'>): TextMeasure {
  const known = new Map<string, number>();
  return {
    width: (text, font, size) => {
      const key = `${font}|${text}`;
      let em = known.get(key);
      if (em === undefined) {
        context.font = fontOf(font, ASKED_AT);
        em = context.measureText(text).width / ASKED_AT;
        known.set(key, em);
      }
      return em * size;
    },
    ascent: (_, size) => ASCENT_EM * size,
    descent: (_, size) => DESCENT_EM * size,
  };
}
