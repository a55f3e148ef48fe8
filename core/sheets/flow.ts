// Blocks set one below the other down columns and on to new pages: the way tables, lists and pictures fill a sheet.
// Points, y down; a block's own items start at [0, 0]. Kept: a block is never split; a block that must stay with the next
// one does; a table's head stands again at the top of every column that goes on with it [SH20].
// Knows nothing of what a block shows.

import { type Box, moved } from './boxes.ts';
import type { Item } from './items.ts';

/** Something of a fixed height that is never split. Its width is its maker's affair: the column's. */
export interface Block {
  readonly height: number;
  /** With the block's top left at [0, 0]. */
  readonly items: readonly Item[];
  /** Clear space above; dropped at the top of a column. */
  readonly before: number;
  /** Stays in the same column as the block after it. */
  readonly keep: boolean;
  /** Stands above the first block that names it, and again wherever a column begins with such a block. */
  readonly head?: BlockHead;
}

/** The head of a table: as it first stands, and as it stands where the table goes on. */
export interface BlockHead {
  readonly first: { readonly height: number; readonly items: readonly Item[] };
  readonly again: { readonly height: number; readonly items: readonly Item[] };
}

/** A block of items. */
export function block(
  height: number,
  items: readonly Item[],
  more: { before?: number; keep?: boolean } = {},
): Block {
  return { height, items, before: more.before ?? 0, keep: more.keep ?? false };
}

/** The same blocks, each but the last kept with the one after it. Only for what fits a column. */
export function together(blocks: readonly Block[]): Block[] {
  return blocks.map((each, index) => (index < blocks.length - 1 ? { ...each, keep: true } : each));
}

/**
 * Blocks set one below the other as one block that is never split: for what stands next to a
 * picture. Heads of tables stand as they first do.
 */
export function stacked(blocks: readonly Block[]): Block {
  const items: Item[] = [];
  let y = 0;
  let last: BlockHead | undefined;
  blocks.forEach((each, index) => {
    if (index > 0) y += each.before;
    if (each.head !== undefined && each.head !== last) {
      items.push(...moved(each.head.first.items, [0, y]));
      y += each.head.first.height;
    }
    items.push(...moved(each.items, [0, y]));
    y += each.height;
    last = each.head;
  });
  return { height: y, items, before: blocks[0]?.before ?? 0, keep: false };
}

/** Two blocks side by side, tops level, the second `at` points to the right. */
export function sideBySide(left: Block, right: Block, at: number): Block {
  return {
    height: Math.max(left.height, right.height),
    items: [...left.items, ...moved(right.items, [at, 0])],
    before: Math.max(left.before, right.before),
    keep: false,
  };
}

/** Breaking a little early is better than a column that ends a hair over its foot: points. */
const SLACK = 0.001;

/**
 * Places blocks down the columns of page after page. `columnsOf(page)` gives each page's columns, left to right, in points
 * on the sheet; a block stands at its column's left. Returns the items of each page, at least one page.
 * Throws when a block (with its table's head) is higher than a whole column: the makers keep theirs lower.
 */
export function flow(blocks: readonly Block[], columnsOf: (page: number) => readonly Box[]): Item[][] {
  return flowWithRest(blocks, columnsOf).pages;
}

/** What blocks filled, and what they left. */
export interface Flowed {
  readonly pages: Item[][];
  /** Which block each page begins with. */
  readonly begins: readonly number[];
  /** Clear paper at the foot of each column, in the order of reading; a column without blocks is whole. */
  readonly rest: readonly { readonly page: number; readonly box: Box }[];
}

/**
 * As `flow`, with the paper that is left over. Where the columns of the first page are the 'rest' that others left of it,
 * one that is too low for what comes next is left empty.
 */
export function flowWithRest(
  blocks: readonly Block[],
  columnsOf: (page: number) => readonly Box[],
  first: 'whole' | 'rest' = 'whole',
): Flowed {
  const pages: Item[][] = [[]];
  const begins: number[] = [];
  const rest: { page: number; box: Box }[] = [];
  let columns = columnsOf(0);
  let column = 0;
  let y = columns[0]![1];
  let empty = true;
  let last: BlockHead | undefined;

  const leave = () => {
    const [x0, , x1, y1] = columns[column]!;
    rest.push({ page: pages.length - 1, box: [x0, Math.min(y, y1), x1, y1] });
  };
  const nextColumn = () => {
    leave();
    column += 1;
    if (column === columns.length) {
      pages.push([]);
      columns = columnsOf(pages.length - 1);
      column = 0;
    }
    y = columns[column]![1];
    empty = true;
    last = undefined;
  };

  const isRest = () => first === 'rest' && pages.length === 1;
  const mayLeave = () => !empty || isRest();
  const highest = () =>
    Math.max(
      ...[columns[column]!, ...(isRest() ? [...columns, ...columnsOf(1)] : [])].map(
        ([, top, , foot]) => foot - top,
      ),
    );

  for (let index = 0; index < blocks.length; index++) {
    const room = () => columns[column]![3] - y;
    const chain = () => chainHeight(blocks, index, last, empty);
    while (chain() > room() + SLACK && mayLeave() && chainFits(blocks, index, highest())) nextColumn();
    const each = blocks[index]!;
    const now = () => headOver(each, last, empty, index, blocks);
    while (blockHeight(each, now(), empty) > room() + SLACK && mayLeave()) nextColumn();
    if (blockHeight(each, now(), empty) > room() + SLACK)
      throw new RangeError(`flow: a block of ${each.height} pt is higher than its column of ${room()} pt`);
    const page = pages.at(-1)!;
    begins[pages.length - 1] ??= index;
    const x = columns[column]![0];
    const head = now();
    if (!empty) y += each.before;
    if (head) {
      page.push(...moved(head.items, [x, y]));
      y += head.height;
    }
    page.push(...moved(each.items, [x, y]));
    y += each.height;
    empty = false;
    last = each.head;
  }
  leave();
  for (const box of columns.slice(column + 1)) rest.push({ page: pages.length - 1, box });
  return { pages, begins, rest };
}

/** What stands above a block where it is set now: nothing where its table simply goes on. */
function headOver(
  each: Block,
  last: BlockHead | undefined,
  empty: boolean,
  index: number,
  blocks: readonly Block[],
): BlockHead['first'] | null {
  if (each.head === undefined) return null;
  if (!empty && last === each.head) return null;
  return blocks[index - 1]?.head === each.head ? each.head.again : each.head.first;
}

function blockHeight(each: Block, head: BlockHead['first'] | null, empty: boolean): number {
  return (empty ? 0 : each.before) + (head?.height ?? 0) + each.height;
}

/** Height of a block with all that must stay with it, set at a place where `last` was the head in force. */
function chainHeight(
  blocks: readonly Block[],
  from: number,
  last: BlockHead | undefined,
  empty: boolean,
): number {
  let height = 0;
  let headNow = last;
  let emptyNow = empty;
  for (let index = from; index < blocks.length; index++) {
    const each = blocks[index]!;
    height += blockHeight(each, headOver(each, headNow, emptyNow, index, blocks), emptyNow);
    headNow = each.head;
    emptyNow = false;
    if (!each.keep) break;
  }
  return height;
}

/** Whether a chain would fit the highest column there is: if not, breaking before it gains nothing. */
function chainFits(blocks: readonly Block[], from: number, high: number): boolean {
  return chainHeight(blocks, from, undefined, true) <= high + SLACK;
}
