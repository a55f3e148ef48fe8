// The two checks that every sheet must pass: no texts over each other, nothing that leaves the sheet or is cut off [SH4].
// Points (1/72 in), origin top left, y down.

import { type Box, boxesOverlap, itemBox } from './boxes.ts';
import type { Item, Sheet, TextItem } from './items.ts';

/** Every text item of a list, also those within clips, in order. */
export function textItems(items: readonly Item[]): TextItem[] {
  return items.flatMap((item) =>
    item.kind === 'text' ? [item] : item.kind === 'clip' ? textItems(item.items) : [],
  );
}

/** Pairs of texts whose boxes overlap: a sheet must have none [SH4]. */
export function textOverlaps(sheet: Pick<Sheet, 'items'>): [TextItem, TextItem][] {
  const texts = textItems(sheet.items).toSorted((a, b) => a.box[0] - b.box[0]);
  const found: [TextItem, TextItem][] = [];
  for (let i = 0; i < texts.length; i++) {
    const a = texts[i]!;
    for (let j = i + 1; j < texts.length && texts[j]!.box[0] < a.box[2]; j++)
      if (boxesOverlap(a.box, texts[j]!.box)) found.push([a, texts[j]!]);
  }
  return found;
}

/** Items that leave their sheet, and texts that a clip would cut: a sheet must have none [SH4]. */
export function outsideSheet(sheet: Pick<Sheet, 'items' | 'width' | 'height'>): Item[] {
  return outside(sheet.items, [0, 0, sheet.width, sheet.height], false);
}

function outside(items: readonly Item[], frame: Box, clipped: boolean): Item[] {
  return items.flatMap((item) => {
    if (item.kind === 'clip') {
      const lost = within(item.box, frame) ? [] : [item];
      return [...lost, ...outside(item.items, item.box, true)];
    }
    // What a clip holds may be cut by it, but not its words.
    if (clipped && item.kind !== 'text') return [];
    return within(itemBox(item), frame) ? [] : [item];
  });
}

function within(box: Box, frame: Box): boolean {
  const slack = 0.01;
  return (
    box[0] >= frame[0] - slack &&
    box[1] >= frame[1] - slack &&
    box[2] <= frame[2] + slack &&
    box[3] <= frame[3] + slack
  );
}
