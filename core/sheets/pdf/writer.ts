// A sheet set to the bytes of one PDF. Points (1/72 in), origin top left, y down, as the items are; PDFKit turns the
// axis. Kept: the same set, fonts and date give the same bytes [SH7]; nothing is laid out, measured or decided here.
// The only file that knows PDFKit.

/// <reference path="../fontkit.d.ts" />

import type { Font } from 'fontkit';
import { create } from 'fontkit';
import PDFDocument from 'pdfkit';
import { type Box, grown } from '../boxes.ts';
import { INKS } from '../inks.ts';
import type { FontName, Item, Sheet, SheetSet, TextItem } from '../items.ts';
import { featuresOf } from '../measure.ts';
import { drawShape } from './shapes.ts';

/** What the file says of itself. `date` becomes both its dates; a string is a day, `2026-01-31`, or an ISO instant. */
export interface PdfMeta {
  readonly date: Date | string;
  readonly creator: string;
  readonly author?: string;
  readonly subject?: string;
}

type Doc = PDFKit.PDFDocument;
const FONT_NAMES: readonly FontName[] = ['regular', 'semibold', 'bold', 'italic'];

/**
 * Writes the set: a page a sheet, embedded fonts, real text with real fractions, bookmarks, title, language and tagged
 * text in reading order; drawn lines are marked as decoration [SH7]. Throws on a set without sheets, on a date that is
 * none, and on a bookmark whose parent does not stand before it.
 */
export async function writePdf(
  set: SheetSet,
  fonts: Readonly<Record<FontName, Uint8Array>>,
  meta: PdfMeta,
): Promise<Uint8Array> {
  const first = set.sheets[0];
  if (first === undefined) throw new Error('writePdf: the set has no sheets');
  const date = new Date(meta.date);
  if (Number.isNaN(date.getTime())) throw new RangeError(`writePdf: ${String(meta.date)} is not a date`);
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    lang: set.language,
    displayTitle: true,
    tagged: true,
    margin: 0,
    // PDFKit would else load one of its own fonts from the disk.
    font: null as never,
    info: {
      Title: set.title,
      Creator: meta.creator,
      Producer: meta.creator,
      CreationDate: date,
      ModDate: date,
      ...(meta.author ? { Author: meta.author } : {}),
      ...(meta.subject ? { Subject: meta.subject } : {}),
    },
  });
  const bytes = collect(doc);
  for (const name of FONT_NAMES) doc.registerFont(name, shapedOnce(fonts[name]) as never);
  const root = doc.struct('Document', { title: set.title });
  doc.addStructure(root);
  const marks = new Map<string, PDFKit.PDFOutline>();
  for (const sheet of set.sheets) {
    doc.addPage({ size: [sheet.width, sheet.height], margin: 0 });
    bookmark(doc, sheet, marks);
    const section = doc.struct('Sect', { title: sheet.bookmark });
    root.add(section);
    drawItems(doc, section, sheet.items, [0, 0, sheet.width, sheet.height]);
    section.end();
  }
  root.end();
  doc.end();
  return bytes;
}

/**
 * A font that shapes each text once: PDFKit asks for every text with features three times over. It scales the positions it
 * is handed in place, so each call gets its own.
 */
function shapedOnce(bytes: Uint8Array): Font {
  const font = create(bytes);
  const shape = font.layout.bind(font);
  const known = new Map<string, ReturnType<Font['layout']>>();
  font.layout = (text, features) => {
    const key = `${features?.join() ?? ''}\n${text}`;
    const run = known.get(key) ?? shape(text, features);
    known.set(key, run);
    const positions = run.positions.map((each) => ({ ...each }));
    // The run adds up its width from its own positions, scaled or not.
    return Object.assign(Object.create(run) as typeof run, { positions });
  };
  return font;
}

function collect(doc: Doc): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => {
      const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        whole.set(chunk, at);
        at += chunk.length;
      }
      resolve(whole);
    });
  });
}

/** A bookmark shows what hangs under it and its page whole; the types do not know `fit` yet. */
const OPEN_AND_WHOLE = { expanded: true, fit: true };

/** Hangs each of the sheet's bookmarks under its parent, which is the last one of that name before it. */
function bookmark(doc: Doc, sheet: Sheet, marks: Map<string, PDFKit.PDFOutline>): void {
  for (const { bookmark: name, parent } of [sheet, ...(sheet.also ?? [])]) {
    const under = parent === null ? doc.outline : marks.get(parent);
    if (under === undefined)
      throw new Error(`bookmark '${name}' hangs under '${parent}', which no sheet before it is`);
    marks.set(name, under.addItem(name, OPEN_AND_WHOLE));
  }
}

/** Text is content, in the order of the items; runs of anything else are marked as decoration. */
function drawItems(doc: Doc, section: PDFKit.PDFStructureElement, items: readonly Item[], seen: Box): void {
  let decorating = false;
  const decorate = (on: boolean) => {
    if (on === decorating) return;
    if (on) doc.markContent('Artifact', { type: 'Layout' });
    else doc.endMarkedContent();
    decorating = on;
  };
  for (const item of items) {
    if (item.kind === 'clip') {
      decorate(false);
      doc.save();
      const [x0, y0, x1, y1] = item.box;
      doc.rect(x0, y0, x1 - x0, y1 - y0).clip();
      drawItems(doc, section, item.items, shared(seen, item.box));
      doc.restore();
    } else if (item.kind === 'text') {
      if (item.text === '') continue;
      if (item.halo) {
        decorate(true);
        const [x0, y0, x1, y1] = grown(item.box, 0.8);
        doc.rect(x0, y0, x1 - x0, y1 - y0).fill(INKS.paper);
      }
      decorate(false);
      const tag = item.role === 'title' ? 'H1' : 'P';
      const content = doc.markStructureContent(tag);
      drawText(doc, item);
      doc.endMarkedContent();
      section.add(doc.struct(tag, item.meant === undefined ? {} : { actual: item.meant }, [content]));
    } else {
      decorate(true);
      drawShape(doc, item, seen);
    }
  }
  decorate(false);
}

/** What two boxes have in common; turned inside out where it is nothing. */
function shared(a: Box, b: Box): Box {
  return [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.min(a[2], b[2]), Math.min(a[3], b[3])];
}

function drawText(doc: Doc, item: TextItem): void {
  const turn = item.turn ?? 0;
  const width = turn === 0 ? item.box[2] - item.box[0] : item.box[3] - item.box[1];
  const shift = item.align === 'left' ? 0 : item.align === 'middle' ? width / 2 : width;
  const [x, y] = item.at;
  const features = featuresOf(item.text);
  doc.font(item.font, item.size).fillColor(INKS[item.ink]);
  if (turn !== 0) doc.save().rotate(turn, { origin: [x, y] });
  doc.text(item.text, x - shift, y, {
    lineBreak: false,
    // Known already: PDFKit need not measure it again.
    ...({ textWidth: width } as object),
    baseline: 'alphabetic',
    ...(features ? { features: features as PDFKit.Mixins.OpenTypeFeatures[] } : {}),
  });
  if (turn !== 0) doc.restore();
}
