// Rooms on pages: each begins a page of its own, or shares one with its neighbours where all of them fit on it whole. What
// closes a room, lines to write on, takes the paper that is left. Points. Kept: nothing of a room is left out, a page never
// holds such lines alone, and every room has its bookmark [SH20, SH33]. Knows no trade.

import { type Block, block, type Flowed, flow, flowWithRest } from './flow.ts';
import type { Item, Sheet } from './items.ts';
import { type Box, CAP_EM, lineHeight, MEDIUM, moved, rule, text, wrapText } from './kit.ts';
import { columnBoxes, frameHead, type PageKit } from './page-layout.ts';
import { sheetFrame } from './plan-frame.ts';

/** A room's matter: `body` first, `tail` last. */
export interface ArticleBlocks {
  readonly body: readonly Block[];
  readonly tail: readonly Block[];
}

/** Lines to write on, as many as the paper that is left holds. */
export interface Closing {
  readonly least: number;
  readonly most: number;
  make(lines: number): Block;
}

export interface Article {
  /** Title of its page and its bookmark. */
  readonly title: string;
  readonly subtitle: string;
  /** What it is called on a page that it shares. */
  readonly name: string;
  /** How tightly it may be set, from 0 up: 1 knows 0 alone. */
  readonly ways: number;
  make(tight: number): ArticleBlocks;
  readonly closing?: Closing;
}

export interface ArticlesSpec {
  readonly articles: readonly Article[];
  readonly parent: string | null;
  /** Later articles may stand before earlier ones where they fill a sheet up. */
  readonly anyOrder?: boolean;
  /** Title and line under it of a page that several share. */
  shared(articles: readonly Article[]): { readonly title: string; readonly subtitle: string };
}

/** The sheets, and for each article the index of the sheet that it begins on. */
export interface ArticleSheets {
  readonly sheets: readonly Sheet[];
  readonly starts: readonly number[];
}

/**
 * Articles in their order on as few sheets as they go on without splitting one that could stand whole. One follows another
 * on the same sheet only where it fits there whole; with `anyOrder` a later one may fill a sheet up.
 */
export function layArticles(kit: PageKit, asked: ArticlesSpec): ArticleSheets {
  const spec = { ...asked, articles: asked.articles.map(madeOnce) };
  const sheets: Sheet[] = [];
  const starts: number[] = [];
  const left = spec.articles.map((_, index) => index);
  while (left.length > 0) {
    const group = [left.shift()!];
    const all = () => group.map((index) => spec.articles[index]!);
    const page = filledUp(spec, left, group, () => sharedPage(kit, spec, all()));
    for (const index of group) starts[index] = sheets.length;
    if (page !== null) {
      sheets.push(page);
      continue;
    }
    const own = alone(kit, spec, spec.articles[group[0]!]!);
    const last = filledUp(spec, left, group, () => own.followedBy(all().slice(1)));
    sheets.push(...(last === null ? own.sheets : [...own.sheetsBefore(), last]));
    for (const index of group.slice(1)) starts[index] = sheets.length - 1;
  }
  return { sheets, starts };
}

/** Takes what more fits from `left` into `group`, and returns the last sheet that held it all; null where nothing did. */
function filledUp(
  spec: ArticlesSpec,
  left: number[],
  group: number[],
  page: () => Sheet | null,
): Sheet | null {
  let best: Sheet | null = null;
  for (let at = 0; at < left.length; ) {
    group.push(left[at]!);
    const tried = page();
    if (tried !== null) {
      best = tried;
      left.splice(at, 1);
      continue;
    }
    group.pop();
    if (!spec.anyOrder) break;
    at += 1;
  }
  return best;
}

/** The same article, each way made when it is first asked for and then kept. */
function madeOnce(article: Article): Article {
  const made = new Map<number, ArticleBlocks>();
  return {
    ...article,
    make: (tight) => {
      const blocks = made.get(tight) ?? article.make(tight);
      made.set(tight, blocks);
      return blocks;
    },
  };
}

/** The page that several articles share, each set as tightly as it may be; null where they do not fit on one. */
function sharedPage(kit: PageKit, spec: ArticlesSpec, articles: readonly Article[]): Sheet | null {
  const { title, subtitle } = spec.shared(articles);
  const frame = sheetFrame(kit.measure, kit.size, { ...frameHead(kit), title, subtitle });
  const items = onOnePage(kit, articles, columnBoxes(frame.inner, kit.columns));
  if (items === null) return null;
  return {
    width: kit.size[0],
    height: kit.size[1],
    bookmark: articles[0]!.title,
    parent: spec.parent,
    also: articles.slice(1).map((article) => ({ bookmark: article.title, parent: spec.parent })),
    items: [...frame.items, ...items],
  };
}

/** Articles one after the other, each whole under its name, down columns; null where these do not hold them. */
function onOnePage(kit: PageKit, articles: readonly Article[], columns: readonly Box[]): Item[] | null {
  const blocks = articles.flatMap((article): Block[] => {
    const { body, tail } = article.make(article.ways - 1);
    const closing = article.closing ? [article.closing.make(article.closing.least)] : [];
    return [nameBand(kit, article), ...body, ...tail, ...closing];
  });
  const room = columns.reduce((sum, box) => sum + box[3] - box[1], 0);
  if (blocks.reduce((sum, each) => sum + each.height, 0) > room) return null;
  // A column that a block is too high for would stop the flow: what does not fit goes to a page that has the room.
  const whole = columnBoxes([0, 0, kit.size[0], kit.size[1]], 1);
  const pages = flow(blocks, (page) => (page === 0 ? columns : whole));
  return pages.length > 1 ? null : pages[0]!;
}

/** An article's name over its matter on a page that it shares. */
function nameBand(kit: PageKit, article: Article): Block {
  const { measure, sizes, width } = kit;
  const items: Item[] = [];
  let y = 0;
  const put = (content: string, size: number, bold: boolean) => {
    for (const line of wrapText(measure, content, bold ? 'bold' : 'regular', size, width)) {
      items.push(
        text(measure, {
          text: line,
          at: [0, y + size * CAP_EM],
          size,
          font: bold ? 'bold' : 'regular',
          ink: bold ? 'ink' : 'graphite',
          role: bold ? 'article' : 'subtitle',
        }),
      );
      y += lineHeight(size);
    }
  };
  put(article.name, sizes.heading * 1.35, true);
  put(article.subtitle, sizes.small, false);
  const ruled = rule([0, y + 1], [width, y + 1], { ink: 'ink', width: MEDIUM * 2 }, 'head-rule');
  return block(y + 4, [...items, ruled], { before: 26 * sizes.by, keep: true });
}

interface Laid {
  readonly pages: readonly (readonly Item[])[];
  readonly frames: (page: number, more?: string) => ReturnType<typeof sheetFrame>;
  /** Clear paper on the last page. */
  readonly rest: readonly Box[];
}

/** One article on sheets of its own. */
interface Alone {
  readonly sheets: readonly Sheet[];
  /** All but the last, where others follow on that. */
  sheetsBefore(): readonly Sheet[];
  /** The last sheet with others after it; null where they do not fit there. */
  followedBy(articles: readonly Article[]): Sheet | null;
}

/** In the roomiest way that needs no more sheets than the tightest. */
function alone(kit: PageKit, spec: ArticlesSpec, article: Article): Alone {
  const best = (set: 'open' | 'closed'): Laid => {
    const tightest = layAlone(kit, article, article.ways - 1, set);
    for (let tight = 0; tight < article.ways - 1; tight++) {
      const laid = layAlone(kit, article, tight, set);
      if (laid.pages.length <= tightest.pages.length) return laid;
    }
    return tightest;
  };
  const sheetOf = (laid: Laid, page: number): Sheet => ({
    width: kit.size[0],
    height: kit.size[1],
    bookmark: page === 0 ? article.title : `${article.title}, continued ${page + 1}`,
    parent: page === 0 ? spec.parent : article.title,
    items: [...laid.frames(page).items, ...laid.pages[page]!],
  });
  const closed = best('closed');
  const last = closed.pages.length - 1;
  // Made when something is to follow. It must not cost a sheet itself.
  let known: Laid | undefined;
  const open = (): Laid => {
    known ??= best('open');
    return known;
  };
  return {
    sheets: closed.pages.map((_, page) => sheetOf(closed, page)),
    sheetsBefore: () =>
      open()
        .pages.slice(0, -1)
        .map((_, page) => sheetOf(open(), page)),
    followedBy: (articles) => {
      // A first page is shared under a title of its own, or not at all.
      if (last === 0 || open().pages.length !== closed.pages.length) return null;
      const frame = open().frames(last, articles.map((each) => each.name).join('  ·  '));
      if (frame.inner[1] !== open().frames(last).inner[1]) return null;
      const items = onOnePage(kit, articles, open().rest);
      if (items === null) return null;
      return {
        ...sheetOf(open(), last),
        also: articles.map((each) => ({ bookmark: each.title, parent: spec.parent })),
        items: [...frame.items, ...open().pages[last]!, ...items],
      };
    },
  };
}

/** With all the lines to write on that the paper holds, or ('open') with the least of them, the paper after them left. */
function layAlone(kit: PageKit, article: Article, tight: number, set: 'open' | 'closed'): Laid {
  const frames = (page: number, more = '') => {
    const title = page === 0 ? article.title : `${article.title}, continued`;
    return sheetFrame(kit.measure, kit.size, {
      ...frameHead(kit),
      title: more === '' ? title : `${title}  ·  ${more}`,
      subtitle: page === 0 ? article.subtitle : '',
    });
  };
  const columns = (page: number) => columnBoxes(frames(page).inner, kit.columns);
  const { body, tail } = article.make(tight);
  const end = (flowed: Flowed): Laid => {
    const last = flowed.pages.length - 1;
    const gap = 24 * kit.sizes.by;
    const rest = flowed.rest
      .filter(({ page }) => page === last)
      .map(({ box: [x0, y0, x1, y1] }): Box => {
        const top = columns(last)[0]![1];
        return [x0, y0 > top ? Math.min(y0 + gap, y1) : y0, x1, y1];
      });
    return { pages: flowed.pages, frames, rest };
  };
  const closing = article.closing;
  if (closing === undefined) return end(flowWithRest([...body, ...tail], columns));
  const least = closing.make(closing.least);
  if (set === 'open') return end(flowWithRest(amidst([...body, ...tail], least, columns), columns));
  const flowed = flowWithRest([...body, ...tail], columns);
  const { pages } = flowed;
  // The last page first, in the order of reading; then the pages before it, the nearest first.
  const places = flowed.rest.toSorted((a, b) => b.page - a.page);
  for (let lines = closing.most; lines >= closing.least; lines--) {
    const made = closing.make(lines);
    const place = places.find(
      ({ page, box }) =>
        (page === pages.length - 1 || lines === closing.least) &&
        box[3] - box[1] >= made.height + made.before,
    );
    if (place === undefined) continue;
    const { page, box } = place;
    const isWhole = columns(page).some((column) => column[0] === box[0] && column[1] === box[1]);
    pages[page]!.push(...moved(made.items, [box[0], box[1] + (isWhole ? 0 : made.before)]));
    return { pages, frames, rest: [] };
  }
  // No place anywhere: what stood last goes on to a new page in its stead.
  return end(flowWithRest(amidst([...body, ...tail], least, columns), columns));
}

/** The blocks with one more among them, as late as it has company on its page; never within a table or under a heading. */
function amidst(
  blocks: readonly Block[],
  more: Block,
  columns: (page: number) => readonly Box[],
): readonly Block[] {
  for (let at = blocks.length; at > 0; at--) {
    const [before, after] = [blocks[at - 1]!, blocks[at]];
    if (before.keep || (after?.head !== undefined && after.head === before.head)) continue;
    const through = [...blocks.slice(0, at), more];
    const all = [...through, ...blocks.slice(at)];
    const page = flow(through, columns).length - 1;
    if (flow(all, columns)[page]!.length > more.items.length) return all;
  }
  return [...blocks, more];
}
