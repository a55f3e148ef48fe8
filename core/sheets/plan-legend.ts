// What stands beside a plan: its scale and bar, the legend of marks, the findings in red pencil, and what found no room
// on the drawing. Blocks of a given width, points; flow.ts sets them down the sheet. Printed on every plan sheet [SH9].
// Knows no plan.

import type { Point } from '../graph/types.ts';
import { type Block, block } from './flow.ts';
import type { Item, TextMeasure } from './items.ts';
import { cornerMark, endMark, MARK_SIZE, type MarkCorner } from './marks.ts';
import type { FlaggedFinding, Unplaced } from './plan-options.ts';
import { type NamedScale, scaleBar, type Units } from './scale.ts';
import { circle, flaggedLetter, MEDIUM, ringedNumber, rule, THIN } from './shapes.ts';
import { fitText, lineHeight, paragraph, text, wrapText } from './texts.ts';
import { primes, printable, SEVERITY_WORDS } from './words.ts';

const SIZE = 7.5;

/** A heading over a group of blocks. */
export function heading(measure: TextMeasure, words: string, width: number): Block {
  const size = 9;
  const items = fitText(measure, {
    text: words,
    at: [0, size * 0.8],
    size,
    font: 'bold',
    width,
    role: 'heading',
  });
  const base = items.at(-1)!.at[1];
  return block(
    base + 6,
    [...items, rule([0, base + 3.5], [width, base + 3.5], { ink: 'graphite', width: THIN })],
    { before: 12, keep: true },
  );
}

/** The scale's name and its bar. `note` says what else must be said of the scale; may be empty. */
export function scaleBlocks(
  measure: TextMeasure,
  width: number,
  scale: NamedScale,
  units: Units,
  note = '',
): Block[] {
  const name = fitText(measure, {
    text: `Scale ${scale.name}`,
    at: [0, 9],
    size: 10,
    font: 'semibold',
    width,
    role: 'scale-name',
  });
  const top = name.at(-1)!.at[1] + 6;
  const bar = scaleBar(measure, { at: [0.5, top], width: width - 1, ratio: scale.ratio, units });
  const blocks = [block(top + bar.height + 3, [...name, ...bar.items], { keep: note !== '' })];
  if (note !== '') blocks.push(...lines(measure, note, width));
  return blocks;
}

const SQUARE_INSIDE: Omit<MarkCorner, 'worked'> = {
  before: [0, 1],
  after: [1, 0],
  inwardBefore: [1, 0],
  inwardAfter: [0, 1],
  kind: 'inside',
};
const SQUARE_OUTSIDE: Omit<MarkCorner, 'worked'> = {
  before: [1, 0],
  after: [0, 1],
  inwardBefore: [0, -1],
  inwardAfter: [-1, 0],
  kind: 'outside',
};

interface Entry {
  readonly words: string;
  readonly draw: (centre: Point) => Item[];
}

/**
 * The legend of marks as a strip of the given width from [0, 0] down: each drawn as it is on the plan, and named [SH9].
 * `withJoints` is false for a bare plan, which has neither joints nor boards.
 */
export function legendStrip(
  measure: TextMeasure,
  width: number,
  withJoints: boolean,
): { readonly items: Item[]; readonly height: number } {
  const joints: Entry[] = [
    entry('cope', (at) => cornerMark(measure, 'cope', { ...SQUARE_INSIDE, worked: 'after' }, at)),
    entry('butt', (at) => cornerMark(measure, 'butt', { ...SQUARE_INSIDE, worked: 'after' }, at)),
    entry('mitre, inside', (at) => cornerMark(measure, 'mitre', { ...SQUARE_INSIDE, worked: null }, at)),
    entry('mitre, outside', (at) => cornerMark(measure, 'mitre', { ...SQUARE_OUTSIDE, worked: null }, at)),
    entry('corner block', (at) => cornerMark(measure, 'block', { ...SQUARE_INSIDE, worked: null }, at)),
    entry('scarf', (at) => endMark(measure, 'scarf', [1, 0], [0, 1], at)),
    entry('return', (at) => endMark(measure, 'return', [1, 0], [0, 1], at)),
    entry('scribe', (at) => endMark(measure, 'scribe', [1, 0], [0, 1], at)),
  ];
  const common: Entry[] = [
    entry('corner number', (at) => ringedNumber(measure, at, '7', 8, 'legend-number')),
    entry('door, window', (at) => [
      text(measure, {
        text: 'o3',
        at: [at[0], at[1] + 2.7],
        size: SIZE,
        font: 'italic',
        align: 'middle',
        role: 'legend-id',
      }),
    ]),
    ...(withJoints
      ? [
          entry('board number', (at) => [
            text(measure, {
              text: '7A',
              at: [at[0], at[1] + 2.7],
              size: SIZE,
              font: 'semibold',
              ink: 'graphite',
              align: 'middle',
              role: 'legend-id',
            }),
          ]),
          entry('finding', (at) => flaggedLetter(measure, at, 'A', SIZE, 'legend-finding')),
        ]
      : []),
    entry('pocket in the wall', (at) => [
      {
        kind: 'line',
        points: [
          [at[0] - 9, at[1] - 3],
          [at[0] + 9, at[1] - 3],
          [at[0] + 9, at[1] + 3],
          [at[0] - 9, at[1] + 3],
        ],
        closed: true,
        stroke: { ink: 'ink', width: 0.6, dash: [2.4, 1.8] },
      },
    ]),
    entry('outlet', (at) => [circle(at, 1.9, { ink: 'ink', width: MEDIUM }, 'paper')]),
    entry('register', (at) => [
      {
        kind: 'line',
        points: [
          [at[0] - 7, at[1] - 1.3],
          [at[0] + 7, at[1] - 1.3],
          [at[0] + 7, at[1] + 1.3],
          [at[0] - 7, at[1] + 1.3],
        ],
        closed: true,
        stroke: { ink: 'ink', width: 0.6 },
      },
      rule([at[0], at[1] - 1.3], at, { ink: 'ink', width: THIN }),
    ]),
  ];
  const entries = [...(withJoints ? joints : []), ...common];
  const count = Math.max(1, Math.floor(width / CELL));
  const cell = width / count;
  const items: Item[] = [rule([0, 0], [width, 0], { ink: 'graphite', width: THIN })];
  entries.forEach((each, index) => {
    const x = (index % count) * cell;
    const y = 6 + Math.floor(index / count) * ROW;
    items.push(...each.draw([x + MARK_SIZE / 2 + 0.5, y + ROW / 2]));
    const words = {
      text: each.words,
      at: [x + MARK_SIZE + 6, y + ROW / 2 + SIZE * 0.36] as const,
      size: SIZE,
    };
    items.push(...fitText(measure, { ...words, width: cell - MARK_SIZE - 10, role: 'legend' }));
  });
  let bottom = 6 + Math.ceil(entries.length / count) * ROW;
  if (withJoints) {
    const note = paragraph(measure, {
      text: LEGEND_NOTE,
      at: [0, bottom + 10],
      size: SIZE,
      ink: 'graphite',
      width,
      role: 'note',
    });
    items.push(...note.items);
    bottom += 13 + note.height;
  }
  return { items, height: bottom };
}

/** Least width of one mark with its name, and height of a row, points. */
const CELL = 96;
const ROW = 20;
const LEGEND_NOTE =
  'Grey is the board that is worked; where only one is grey, the white one runs through. Marks are the base’s, or where a room has none the next line’s. Lengths are clear, face to face, as drawn; bold ones were measured on site.';

function entry(words: string, draw: Entry['draw']): Entry {
  return { words, draw };
}

/** Findings by letter: how bad, and the message. Nothing where there are none. */
export function findingsBlocks(
  measure: TextMeasure,
  width: number,
  flagged: readonly FlaggedFinding[],
): Block[] {
  if (flagged.length === 0) return [];
  const indent = 24;
  const blocks = [heading(measure, 'In red pencil', width)];
  for (const { letter, finding } of flagged) {
    const words = `${SEVERITY_WORDS[finding.severity].one}: ${primes(printable(finding.message))}`;
    const font = finding.severity === 'look' ? 'regular' : 'semibold';
    const wrapped = wrapText(measure, words, font, SIZE, width - indent);
    // A line a block: a long message may go on in the next column, its first two lines stay with the letter.
    wrapped.forEach((line, index) => {
      const item = text(measure, { text: line, at: [indent, 8], size: SIZE, font, role: 'finding-message' });
      const mark = index === 0 ? flaggedLetter(measure, [10, 6.5], letter, SIZE, 'finding-key') : [];
      const short = index === 0 && wrapped.length === 1;
      blocks.push(
        block(short ? 15 : lineHeight(SIZE), line === '' ? mark : [...mark, item], {
          before: index === 0 ? 5 : 0,
          keep: index === 0 && wrapped.length > 1,
        }),
      );
    });
  }
  return blocks;
}

const UNPLACED_ORDER: readonly Unplaced['kind'][] = [
  'corner',
  'joint',
  'room-name',
  'piece',
  'end-mark',
  'opening',
  'finding',
  'dimension',
];

/** What the drawing had no room for, a paragraph a kind. Nothing where all found room. */
export function unplacedBlocks(measure: TextMeasure, width: number, unplaced: readonly Unplaced[]): Block[] {
  if (unplaced.length === 0) return [];
  const blocks = [heading(measure, 'No room on the drawing for', width)];
  for (const kind of UNPLACED_ORDER) {
    const words = unplaced.filter((each) => each.kind === kind).map((each) => each.words);
    if (words.length > 0) blocks.push(...lines(measure, `${words.join('; ')}.`, width));
  }
  return blocks;
}

/** Text in lines, each line a block of its own, so that a long text may go on in the next column. */
function lines(measure: TextMeasure, words: string, width: number): Block[] {
  const wrapped = wrapText(measure, words, 'regular', SIZE, width);
  return wrapped.map((line, index) =>
    block(
      lineHeight(SIZE),
      line === ''
        ? []
        : [text(measure, { text: line, at: [0, SIZE * 0.95], size: SIZE, ink: 'graphite', role: 'note' })],
      { before: index === 0 ? 3 : 0, keep: index < wrapped.length - 1 && wrapped.length <= 4 },
    ),
  );
}
