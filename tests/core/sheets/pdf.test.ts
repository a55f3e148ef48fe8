// The PDF read back by programs that share no code with its writer: pdfjs-dist (text, outline, title, language, boxes),
// qpdf (syntax) and pdftotext of poppler. 1 pt = 1/72 in, page boxes in points: ISO 32000-1, 8.3.2.1 and 14.11.2.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SHEET_SIZES, type Sheet, type SheetSet } from '../../../core/sheets/items.ts';
import { writePdf } from '../../../core/sheets/pdf/writer.ts';
import { planSheets } from '../../../core/sheets/plan-sheets.ts';
import { circle, rectangle } from '../../../core/sheets/shapes.ts';
import { textItems } from '../../../core/sheets/sheet-faults.ts';
import { paragraph, text } from '../../../core/sheets/texts.ts';
import { COTTAGE } from '../../fixtures/cottage.ts';
import { fonts, measure } from './fonts.ts';
import { derived } from './plan-houses.ts';

const META = { date: '2026-01-31', creator: 'Copewright' } as const;
const SIZES = ['letter', 'tabloid', 'a4', 'a3', 'arch-c', 'arch-d'] as const;

function small(items: Sheet['items'], bookmark = 'One', parent: string | null = null): Sheet {
  return { width: 300, height: 200, bookmark, parent, items };
}

/** A set of plan sheets on every sheet size, under one bookmark a size. */
function plans(): SheetSet {
  const plan = derived(structuredClone(COTTAGE));
  return {
    title: 'Tallow Cottage: plans',
    language: 'en-US',
    sheets: SIZES.flatMap((sheet) => [
      small([], sheet),
      ...planSheets(measure, plan, { sheet, date: '31 January 2026', revision: 'C', parent: sheet }),
    ]),
  };
}

async function open(bytes: Uint8Array) {
  // pdfjs takes the buffer over: hand it a copy.
  return pdfjs.getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;
}

async function words(page: pdfjs.PDFPageProxy): Promise<string[]> {
  const content = await page.getTextContent();
  return content.items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item.str] : []));
}

describe('plans as PDF', () => {
  let folder: string;
  let file: string;
  let bytes: Uint8Array;
  const set = plans();
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'sheets-'));
    file = join(folder, 'plans.pdf');
    bytes = await writePdf(set, fonts, META);
    writeFileSync(file, bytes);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('[SH7] qpdf finds nothing wrong', () => {
    const said = execFileSync('qpdf', ['--check', file], { encoding: 'utf8' });
    expect(said).toContain('No syntax or stream encoding errors found');
    expect(said).not.toMatch(/warning/i);
  });

  test('[SH7] the same set, fonts and date give the same bytes; another date other ones', async () => {
    expect(Buffer.compare(Buffer.from(await writePdf(plans(), fonts, META)), Buffer.from(bytes))).toBe(0);
    const later = await writePdf(set, fonts, { ...META, date: new Date('2026-02-01T00:00:00Z') });
    expect(Buffer.compare(Buffer.from(later), Buffer.from(bytes))).not.toBe(0);
  });

  test('[SH7] each page is as large as its sheet, to a hundredth of a point', async () => {
    const document = await open(bytes);
    expect(document.numPages).toBe(set.sheets.length);
    const sizes = new Set<string>();
    for (let k = 1; k <= document.numPages; k++) {
      const [x0, y0, x1, y1] = (await document.getPage(k)).view as [number, number, number, number];
      const sheet = set.sheets[k - 1]!;
      expect([x0, y0]).toEqual([0, 0]);
      expect(Math.abs(x1 - sheet.width)).toBeLessThan(0.01);
      expect(Math.abs(y1 - sheet.height)).toBeLessThan(0.01);
      sizes.add(
        [x1, y1]
          .map((each) => Math.round(each))
          .toSorted((a, b) => a - b)
          .join(),
      );
    }
    // Letter, tabloid, A4, A3, Arch C and D: ANSI/ASME Y14.1, ISO 216; in points, rounded.
    for (const size of ['612,792', '792,1224', '595,842', '842,1191', '1296,1728', '1728,2592'])
      expect(sizes).toContain(size);
    expect(Object.keys(SHEET_SIZES).toSorted()).toEqual([...SIZES].toSorted());
  });

  test('[SH7] title, language, dates, creator and tagging are those given', async () => {
    const document = await open(bytes);
    const { info } = (await document.getMetadata()) as unknown as { info: Record<string, unknown> };
    expect(info).toMatchObject({
      Title: set.title,
      Language: 'en-US',
      Creator: 'Copewright',
      CreationDate: 'D:20260131000000Z',
      ModDate: 'D:20260131000000Z',
    });
    expect(await document.getMarkInfo()).toMatchObject({ Marked: true });
  });

  test('[SH7] the bookmarks are the sheets, each under its parent and at its page', async () => {
    const document = await open(bytes);
    const outline = await document.getOutline();
    expect(outline.map((each) => each.title)).toEqual([...SIZES]);
    let page = 0;
    for (const top of outline) {
      for (const each of [top, ...(top.items as typeof outline)]) {
        const [ref] = each.dest as [{ num: number; gen: number }];
        expect(await document.getPageIndex(ref)).toBe(page);
        expect(each.title).toBe(set.sheets[page]!.bookmark);
        page++;
      }
    }
    expect(page).toBe(set.sheets.length);
  });

  test('[SH7, SH33] a page that several rooms share has a bookmark for each, under its own parent', async () => {
    const sheets = [
      small([], 'Level'),
      { ...small([], 'Study', 'Level'), also: [{ bookmark: 'Pantry', parent: 'Level' }] },
      { ...small([], 'Site', null), also: [{ bookmark: 'Site: Study', parent: 'Site' }] },
      small([], 'Site: Study, continued', 'Site: Study'),
    ];
    const written = await writePdf({ title: 'T', language: 'en', sheets }, fonts, META);
    const document = await open(written);
    const outline = await document.getOutline();
    const names = (each: (typeof outline)[number]): unknown => [
      each.title,
      (each.items as typeof outline).map(names),
    ];
    expect(outline.map(names)).toEqual([
      [
        'Level',
        [
          ['Study', []],
          ['Pantry', []],
        ],
      ],
      ['Site', [['Site: Study', [['Site: Study, continued', []]]]]],
    ]);
    const level = outline[0]!.items as typeof outline;
    for (const each of level) {
      const [ref] = each.dest as [{ num: number; gen: number }];
      expect(await document.getPageIndex(ref)).toBe(1);
    }
  });

  test('[SH1] every text reads back word for word, fractions with it', async () => {
    const document = await open(bytes);
    let fractions = 0;
    for (let k = 1; k <= document.numPages; k++) {
      const read = (await words(await document.getPage(k))).map((each) => each.replace(/\s/g, '')).toSorted();
      const meant = textItems(set.sheets[k - 1]!.items)
        .map((each) => each.text.replace(/\s/g, ''))
        .toSorted();
      expect(read.join('')).toHaveLength(meant.join('').length);
      for (const each of meant) expect(read.join('\n')).toContain(each.slice(0, 6));
      fractions += meant.filter((each) => each.includes('⁄')).length;
    }
    expect(fractions).toBeGreaterThan(50);
    const poppler = execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' });
    expect(poppler).toContain('14′ 7 9⁄16″');
  });
});

describe('single things', () => {
  test('[SH1] a text is drawn as wide as it was measured, with and without fractions, in every font', async () => {
    const samples = [
      'AVATAR Ty. 12',
      '12′ 4 13⁄16″',
      '3x4 -> 7',
      '1⁄8″ = 1′‐0″',
      'Wo 1 1⁄2″ to',
      '–',
      'Hall  two spaces',
    ];
    for (const font of ['regular', 'semibold', 'bold', 'italic'] as const) {
      const items = samples.map((each, k) =>
        text(measure, { text: each, at: [10, 20 + k * 20], size: 11, font, role: 't' }),
      );
      const document = await open(
        await writePdf({ title: 't', language: 'en', sheets: [small(items)] }, fonts, META),
      );
      const content = await (await document.getPage(1)).getTextContent();
      for (const item of items) {
        const y = 200 - item.at[1];
        // pdfjs gives runs; those of one baseline together reach from the first glyph to the last.
        const runs = content.items.flatMap((run) =>
          'str' in run && Math.abs(run.transform[5] - y) < 5 ? [run] : [],
        );
        const right = Math.max(...runs.map((run) => run.transform[4] + run.width));
        expect(right, `${font} ${item.text}`).toBeCloseTo(item.box[2], 1);
      }
    }
  });

  test('[SH1] alignment and turning put the text where its box says', async () => {
    const spec = { text: 'Ample', size: 12, role: 't' } as const;
    const items = [
      text(measure, { ...spec, at: [150, 50], align: 'right' }),
      text(measure, { ...spec, at: [150, 80], align: 'middle' }),
      text(measure, { ...spec, at: [40, 120], turn: -90 }),
      text(measure, { ...spec, at: [80, 100], turn: 90 }),
    ];
    const document = await open(
      await writePdf({ title: 't', language: 'en', sheets: [small(items)] }, fonts, META),
    );
    const content = await (await document.getPage(1)).getTextContent();
    const seen = content.items.flatMap((run) =>
      'str' in run && run.str === 'Ample' ? [run.transform as number[]] : [],
    );
    expect(seen).toHaveLength(4);
    const [right, middle, up, down] = seen as [number[], number[], number[], number[]];
    expect(right[4]).toBeCloseTo(items[0]!.box[0], 1);
    expect(middle[4]).toBeCloseTo(items[1]!.box[0], 1);
    // Read up the sheet: the matrix turns a quarter anticlockwise in PDF's own axes (y up), from the lower end.
    expect(up.slice(0, 4).map(Math.sign)).toEqual([0, 1, -1, 0].map(Math.sign));
    expect(200 - up[5]!).toBeCloseTo(items[2]!.box[3], 1);
    expect(down.slice(0, 4).map(Math.sign)).toEqual([0, -1, 1, 0].map(Math.sign));
    expect(200 - down[5]!).toBeCloseTo(items[3]!.box[1], 1);
  });

  test('[SH7] a set without sheets, a date that is none and a bookmark without its parent are refused', async () => {
    const set = (sheets: Sheet[]): SheetSet => ({ title: 't', language: 'en', sheets });
    await expect(writePdf(set([]), fonts, META)).rejects.toThrow('no sheets');
    await expect(writePdf(set([small([])]), fonts, { ...META, date: 'soon' })).rejects.toThrow(
      'soon is not a date',
    );
    await expect(writePdf(set([small([], 'A', 'Nowhere')]), fonts, META)).rejects.toThrow("'Nowhere'");
  });

  test('[SH7] shapes of every kind, dashes, hatch, nested clips and empty ones are written and qpdf accepts them', async () => {
    const stroke = { ink: 'ink', width: 1, dash: [9, 3, 2, 3] } as const;
    const items: Sheet['items'] = [
      rectangle([10, 10, 60, 60], stroke, 'wash'),
      circle([100, 40], 20, stroke, 'washPencil'),
      {
        kind: 'arc',
        centre: [150, 40],
        radius: 20,
        fromDeg: 90,
        toDeg: -30,
        stroke: { ink: 'pencil', width: 0.5 },
      },
      { kind: 'line', points: [], stroke },
      { kind: 'area', rings: [[]], fill: 'wash' },
      {
        kind: 'clip',
        box: [10, 80, 100, 150],
        items: [
          {
            kind: 'area',
            rings: [
              [
                [0, 0],
                [300, 0],
                [300, 200],
                [0, 200],
              ],
              [
                [30, 90],
                [60, 90],
                [60, 120],
                [30, 120],
              ],
            ],
            fill: 'wash',
            hatch: { spacing: 3, angleDeg: 45, stroke: { ink: 'graphite', width: 0.3 } },
            stroke,
          },
          {
            kind: 'clip',
            box: [20, 85, 40, 100],
            items: [text(measure, { text: 'in', at: [22, 98], size: 8, role: 't' })],
          },
        ],
      },
      ...paragraph(measure, { text: 'a much longer text', at: [200, 100], size: 8, width: 30, role: 't' })
        .items,
      text(measure, { text: '', at: [10, 190], size: 8, role: 'blank' }),
      text(measure, { text: 'on lines', at: [200, 180], size: 8, halo: true, role: 't' }),
    ];
    const bytes = await writePdf({ title: 't', language: 'de', sheets: [small(items)] }, fonts, META);
    const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
    try {
      writeFileSync(join(folder, 'x.pdf'), bytes);
      expect(execFileSync('qpdf', ['--check', join(folder, 'x.pdf')], { encoding: 'utf8' })).toContain(
        'No syntax',
      );
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
    expect((await words(await (await open(bytes)).getPage(1))).join('|')).toBe(
      'in|a much|longer|text|on lines',
    );
  });
});
