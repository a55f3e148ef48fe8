// Which characters of a set of sheets its fonts lack, and where, in one sentence: whoever hands the set over is told.
// Knows no font: reads what the items say was meant [SH38].

import { listed } from '../fit/say.ts';
import { JOINED, type SheetSet, STAND_IN, type TextItem } from './items.ts';
import { textItems } from './sheet-faults.ts';

/** More are counted and not named. */
const MOST_NAMED = 12;
const MOST_PAGES = 6;

/** `“居” and “間” are not in the font of the sheets and stand as □: in “居間”, pages 1, 3 to 5.` Null where nothing is lacking. */
export function unprinted(set: SheetSet): string | null {
  const lacking = new Set<string>();
  const pages: number[] = [];
  const wholes: string[] = [];
  set.sheets.forEach(({ items }, index) => {
    const lost = textItems(items).filter((item) => lostIn(item).length > 0);
    if (lost.length === 0) return;
    for (const item of lost) for (const letter of lostIn(item)) lacking.add(letter);
    wholes.push(...lost.map(({ meant = '' }) => meant));
    pages.push(index + 1);
  });
  if (lacking.size === 0) return null;
  // A name alone tells more than a sentence that it stands in.
  const shortest = wholes.reduce((a, b) => (b.length < a.length ? b : a));
  const letters = named(
    [...lacking].map((letter) => `“${letter}”`),
    MOST_NAMED,
  );
  const verbs = lacking.size === 1 ? ['is', 'stands'] : ['are', 'stand'];
  const where = `${pages.length === 1 ? 'page' : 'pages'} ${named(spansOf(pages), MOST_PAGES)}`;
  return `${letters} ${verbs[0]} not in the font of the sheets and ${verbs[1]} as ${STAND_IN}: in “${shortest}”, ${where}.`;
}

/** Letters that were meant and are not drawn. */
function lostIn({ text, meant = '' }: TextItem): string[] {
  return [...meant].filter((letter) => !text.includes(letter) && !JOINED.test(letter));
}

/** The first of them, and how many more there are. */
function named(all: readonly string[], most: number): string {
  return all.length <= most ? listed(all) : `${all.slice(0, most).join(', ')} and ${all.length - most} more`;
}

/** `1`, `3 to 5`. */
function spansOf(pages: readonly number[]): string[] {
  const spans: [from: number, to: number][] = [];
  for (const page of pages) {
    const last = spans.at(-1);
    if (last?.[1] === page - 1) last[1] = page;
    else spans.push([page, page]);
  }
  return spans.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`));
}
