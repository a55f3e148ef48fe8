// Names in scripts that the fonts of the sheets lack: they stand as a visible sign, the sheets stay sound, and whoever hands
// them over is told which and where. The fonts' coverage is asked of fontkit, not of the code under test.

import { create } from 'fontkit';
import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../core/plan/schema.ts';
import type { SheetSet } from '../../../core/sheets/items.ts';
import { writePdf } from '../../../core/sheets/pdf/writer.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { sheetSet } from '../../../core/sheets/sheetset.ts';
import { text, wrapText } from '../../../core/sheets/texts.ts';
import { unprinted } from '../../../core/sheets/unprinted.ts';
import { fonts, measure } from './fonts.ts';
import { solved, surveyed, texts } from './page-solved.ts';

const opened = Object.fromEntries(Object.entries(fonts).map(([name, bytes]) => [name, create(bytes)]));
const META = { date: '2026-01-31', creator: 'Copewright' } as const;

function houseCalled(name: string): Plan {
  return surveyed((file) => {
    Object.values(file.levels[0]!.rooms ?? {})[0]!.name = name;
    return file;
  });
}

async function setOf(name: string): Promise<SheetSet> {
  return sheetSet(await solved(houseCalled(name)), measure, { sheet: 'letter', date: '2026-01-31' });
}

/** A set of one sheet with these texts on it. */
function saying(...words: string[]): SheetSet {
  const items = words.map((each, k) =>
    text(measure, { text: each, at: [10, 20 + 20 * k], size: 9, role: 't' }),
  );
  const sheet = { width: 300, height: 200, bookmark: 'One', parent: null, items };
  return { title: 'T', language: 'en', sheets: [sheet] };
}

const printed = (words: string): string | undefined => textItems(saying(words).sheets[0]!.items)[0]!.text;

describe('a character that the font lacks', () => {
  test('[SH38] stands as a sign that every font has; Greek, Cyrillic, accents and fractions stay as they are', () => {
    for (const font of Object.values(opened)) expect(font.hasGlyphForCodePoint(0x25a1)).toBe(true);
    for (const kept of ['Κουζίνα', 'Кухня', 'Łazienka', 'Phòng tắm', 'Küche e\u0301', '12′ 4 13⁄16″'])
      expect(printed(kept)).toBe(kept);
    expect(printed('居間 east')).toBe('□□ east');
    expect(printed('مطبخ')).toBe('□□□□');
  });

  test('[SH38] takes with it the marks that belong to it, so that one letter is one sign', () => {
    expect(printed('कि')).toBe('□');
    expect(printed('\u{1f44d}\u{1f3fd} up')).toBe('□ up');
    expect(printed('\u{1f6e0}\ufe0f shop')).toBe('□ shop');
    // Half of a pair of surrogates is no character at all.
    expect(printed('a\ud800b')).toBe('a□b');
  });

  test('[SH38] is measured as it is drawn, and broken over lines like any other', async () => {
    const lines = wrapText(measure, '居'.repeat(60), 'regular', 9, 100);
    expect(lines.join('')).toBe('居'.repeat(60));
    expect(lines.length).toBeGreaterThan(3);
    const set = saying('居間 beside the □ hall');
    const [item] = textItems(set.sheets[0]!.items);
    const file = await pdfjs.getDocument({ data: await writePdf(set, fonts, META), verbosity: 0 }).promise;
    const content = await (await file.getPage(1)).getTextContent();
    const runs = content.items.flatMap((run) => ('str' in run ? [run] : []));
    expect(runs.map((run) => run.str).join('')).toBe('□□ beside the □ hall');
    expect(Math.max(...runs.map((run) => run.transform[4] + run.width))).toBeCloseTo(item!.box[2], 1);
  });

  test('[SH38] no glyph of a set is the font’s own empty one, whatever the room is called', async () => {
    for (const name of ['居間 مطبخ', '\u{1f6c1} \u{1f468}\u200d\u{1f469}\u200d\u{1f467} कमरा']) {
      const set = await setOf(name);
      for (const sheet of set.sheets) {
        expect(textOverlaps(sheet), name).toEqual([]);
        expect(outsideSheet(sheet), name).toEqual([]);
        for (const item of textItems(sheet.items))
          for (const letter of item.text)
            expect(opened[item.font]!.hasGlyphForCodePoint(letter.codePointAt(0)!), letter).toBe(true);
      }
      expect(texts(set.sheets, 'title').some((item) => item.text.includes('□'))).toBe(true);
    }
  });
});

describe('what is said of it', () => {
  test('[SH38] nothing where everything is printed', async () => {
    expect(unprinted(await setOf('Κουζίνα'))).toBeNull();
    expect(unprinted(saying('a □ of their own'))).toBeNull();
  });

  test('[SH38] which characters, in what, on which pages: one sentence', async () => {
    expect(unprinted(saying('居間', 'hall'))).toBe(
      '“居” and “間” are not in the font of the sheets and stand as □: in “居間”, page 1.',
    );
    expect(unprinted(saying('A 居'))).toBe(
      '“居” is not in the font of the sheets and stands as □: in “A 居”, page 1.',
    );
    const set = await setOf('居間');
    const said = unprinted(set);
    expect(said).toMatch(
      /^“居” and “間” are not in the font of the sheets and stand as □: in “居間”, pages [\d, to]+ and [^.]*\.$/,
    );
    const pages = set.sheets.flatMap((sheet, index) =>
      textItems(sheet.items).some((item) => item.text.includes('□')) ? [index + 1] : [],
    );
    expect(said).toContain(`pages ${pages[0]}`);
  });

  test('[SH38] of very many the first are named and the rest counted', () => {
    const many = String.fromCodePoint(...Array.from({ length: 40 }, (_, k) => 0x4e00 + k));
    const said = unprinted(saying(many.slice(0, 20), many.slice(20)));
    expect(said).toContain(' and 28 more are not in the font');
    expect(said!.length).toBeLessThan(300);
  });

  test('[SH38] the PDF keeps what was meant for search and reading aloud, and bookmarks keep the name', async () => {
    const set = await setOf('居間');
    const bytes = await writePdf(set, fonts, META);
    const file = await pdfjs.getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
    const names = JSON.stringify(await file.getOutline());
    expect(names).toContain('居間');
    // UTF-16 with its mark, as PDF writes such text (ISO 32000-1, 7.9.2.2), in the structure of the page.
    const meant = textItems(set.sheets.flatMap((sheet) => sheet.items)).filter(
      (item) => item.meant !== undefined,
    );
    expect(meant.length).toBeGreaterThan(3);
    for (const item of meant) expect(item.meant).toMatch(/[居間]/);
    expect(Buffer.from(bytes).includes(Buffer.from('ActualText'))).toBe(true);
  });
});
