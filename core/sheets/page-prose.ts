// Words on a page that are no table: headings, paragraphs, lists to read and lists to tick. Points. Long texts are set
// line by line, so that they run on from column to column; a heading stays with what follows it [SH20].

import { type Block, block } from './flow.ts';
import type { FontName, Ink, Item, TextMeasure } from './items.ts';
import { MEDIUM, rectangle, rule } from './shapes.ts';
import type { TypeSizes } from './table.ts';
import { CAP_EM, lineHeight, middleBaseline, text, wrapText } from './texts.ts';

export interface ProseStyle {
  readonly size?: number;
  readonly font?: FontName;
  readonly ink?: Ink;
  readonly before?: number;
  readonly keep?: boolean;
  /** Distance from the column's left, points. */
  readonly indent?: number;
  readonly role?: string;
}

/** A heading with a rule under it, as a table's own: stays with the next block. */
export function heading(
  measure: TextMeasure,
  sizes: TypeSizes,
  width: number,
  title: string,
  note = '',
): Block {
  const items: Item[] = [];
  let y = 0;
  const put = (content: string, size: number, font: FontName, ink: Ink, role: string) => {
    for (const line of wrapText(measure, content, font, size, width)) {
      items.push(text(measure, { text: line, at: [0, y + size * CAP_EM], size, font, ink, role }));
      y += lineHeight(size);
    }
  };
  put(title, sizes.heading, 'bold', 'ink', 'heading');
  if (note !== '') put(note, sizes.small, 'italic', 'graphite', 'note');
  items.push(rule([0, y], [width, y], { ink: 'ink', width: MEDIUM }, 'head-rule'));
  return block(y + 2, items, { before: 12 * sizes.by, keep: true });
}

/** A paragraph, a block to a line; the first two and the last two lines stay together. */
export function prose(
  measure: TextMeasure,
  sizes: TypeSizes,
  width: number,
  content: string,
  style: ProseStyle = {},
): Block[] {
  const size = style.size ?? sizes.body;
  const font = style.font ?? 'regular';
  const indent = style.indent ?? 0;
  const lines = wrapText(measure, content, font, size, width - indent);
  return lines.map((line, index) => {
    const item = text(measure, {
      text: line,
      at: [indent, size * CAP_EM],
      size,
      font,
      ink: style.ink ?? 'ink',
      role: style.role ?? 'prose',
    });
    const orphan = lines.length > 1 && (index === 0 || index === lines.length - 2);
    const last = index === lines.length - 1;
    return block(lineHeight(size), line === '' ? [] : [item], {
      before: index === 0 ? (style.before ?? 3) : 0,
      keep: last ? (style.keep ?? false) : orphan,
    });
  });
}

/** A list; with 'tick' each entry has a box to tick. Entries run on over columns line by line. */
export function list(
  measure: TextMeasure,
  sizes: TypeSizes,
  width: number,
  entries: readonly string[],
  bullet: 'dash' | 'tick' | 'number',
  style: ProseStyle = {},
): Block[] {
  const size = style.size ?? sizes.body;
  const indent = style.indent ?? 0;
  const hang = (bullet === 'dash' ? 9 : bullet === 'tick' ? 14 : 16) * sizes.by;
  return entries.flatMap((entry, index) => {
    const blocks = prose(measure, sizes, width, entry, {
      ...style,
      indent: indent + hang,
      before: index === 0 ? (style.before ?? 4) : 2.5,
      keep: (style.keep === true || index === 0) && index < entries.length - 1,
    });
    const first = blocks[0]!;
    return [
      { ...first, items: [bulletMark(measure, size, bullet, index, indent), ...first.items] },
      ...blocks.slice(1),
    ];
  });
}

function bulletMark(
  measure: TextMeasure,
  size: number,
  bullet: 'dash' | 'tick' | 'number',
  index: number,
  indent: number,
): Item {
  if (bullet === 'tick') {
    const side = size * 0.82;
    const top = (size * CAP_EM - side) / 2;
    return rectangle(
      [indent + 0.5, top, indent + 0.5 + side, top + side],
      { ink: 'ink', width: 0.7 },
      undefined,
      'tick',
    );
  }
  const middle = (size * CAP_EM) / 2;
  if (bullet === 'dash')
    return rule([indent, middle], [indent + size * 0.5, middle], { ink: 'graphite', width: 0.8 }, 'dash');
  return text(measure, {
    text: `${index + 1}`,
    at: [indent, middleBaseline(middle, size)],
    size,
    font: 'semibold',
    ink: 'graphite',
    role: 'list-number',
  });
}
