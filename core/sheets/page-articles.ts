// Rooms on pages: each begins a page of its own, or shares one with its neighbours where all of them fit on it whole. What
// closes a room, lines to write on, takes the paper that is left. Points. Kept: nothing of a room is left out, a page never
// holds such lines alone, and every room has its bookmark [SH20, SH33]. Knows no trade.

import { once } from '../graph/once.ts';
import { type Box, moved } from './boxes.ts';
import { type Block, block, type Flowed, flowWithRest } from './flow.ts';
import type { Item, Sheet } from './items.ts';
import { kept } from './kept.ts';
import { columnBoxes, frameHead, type PageKit } from './page-layout.ts';
import { sheetFrame } from './plan-frame.ts';
import { MEDIUM, rule } from './shapes.ts';
import { CAP_EM, lineHeight, text, wrapText } from './texts.ts';

/** A room's matter: `body` first, `tail` last. */
export interface ArticleBlocks {
  readonly body: readonly Block[];
  readonly tail: readonly Block[];
  /** Of its picture's scale, 48 of 1:48: the smaller, the larger the picture. Absent where its size is all one. */
  readonly ratio?: number;
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
 * on the same sheet where it fits there whole, or where it saves a sheet, its picture is no smaller for it and the other
 * takes less than half of the sheet; with `anyOrder` a later one may fill a sheet up.
 */
export function layArticles(kit: PageKit, asked: ArticlesSpec): ArticleSheets {
  const articles = asked.articles.map((article) => ({ ...article, make: kept(article.make) }));
  const spec: Spec = { ...asked, articles, setAlone: kept((article) => alone(kit, spec, article)) };
  const sheets: Sheet[] = [];
  const starts: number[] = [];
  const left = articles.map((_, index) => index);
  while (left.length > 0) {
    let group = [left.shift()!];
    const all = () => group.map((index) => articles[index]!);
    const page = filledUp(spec, left, group, () => sharedPage(kit, spec, all()));
    for (const index of group) starts[index] = sheets.length;
    if (page !== null) {
      sheets.push(page);
      continue;
    }
    for (let own: Alone | null = spec.setAlone(all()[0]!); own !== null; ) {
      const here: Alone = own;
      const last = filledUp(spec, left, group, () => here.followedBy(all().slice(1)));
      const led =
        last === null && !spec.anyOrder && left.length > 0 ? here.leadsInto(articles[left[0]!]!) : null;
      if (last !== null) sheets.push(...here.sheetsBefore(), last);
      else sheets.push(...(led === null ? here.sheets : here.sheetsBefore()));
      for (const index of group.slice(1)) starts[index] = sheets.length - 1;
      own = led;
      if (led === null) break;
      group = [left.shift()!];
      starts[group[0]!] = sheets.length;
    }
  }
  return { sheets, starts };
}

/** What is asked, and how each article is set on sheets of its own. */
interface Spec extends ArticlesSpec {
  readonly setAlone: (article: Article) => Alone;
}

/** Takes what more fits from `left` into `group`, and returns the last sheet that held it all; null where nothing did. */
function filledUp(spec: Spec, left: number[], group: number[], page: () => Sheet | null): Sheet | null {
  let best: Sheet | null = null;
  for (const index of [...left]) {
    group.push(index);
    const made = page();
    if (made !== null) {
      best = made;
      left.splice(left.indexOf(index), 1);
      continue;
    }
    group.pop();
    if (!spec.anyOrder) break;
  }
  return best;
}

/** The page that several articles share; null where they do not fit on one. */
function sharedPage(kit: PageKit, spec: Spec, articles: readonly Article[]): Sheet | null {
  const { title, subtitle } = spec.shared(articles);
  const frame = sheetFrame(kit.measure, kit.size, { ...frameHead(kit), title, subtitle });
  const items = onOnePage(kit, articles, columnBoxes(frame.inner, kit.columns), () => true);
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

type Way = (article: Article, blocks: ArticleBlocks) => boolean;

/**
 * Articles one after the other, each whole under its name, down columns, in the roomiest way in which all of them fit;
 * null where these columns do not hold them in any way that is `allowed`.
 */
function onOnePage(
  kit: PageKit,
  articles: readonly Article[],
  columns: readonly Box[],
  allowed: Way,
): Item[] | null {
  const most = Math.max(...articles.map((article) => article.ways));
  const tried = (tight: number): Item[] | null => {
    const made = articles.map((article) => article.make(Math.min(tight, article.ways - 1)));
    if (!made.every((blocks, index) => allowed(articles[index]!, blocks))) return null;
    return inColumns(
      kit,
      articles.flatMap((article, index): Block[] => {
        const { body, tail } = made[index]!;
        const closing = article.closing ? [article.closing.make(article.closing.least)] : [];
        return [nameBand(kit, article), ...body, ...tail, ...closing];
      }),
      columns,
    );
  };
  for (let tight = 0; tight < most; tight++) {
    const items = tried(tight);
    if (items !== null) return items;
  }
  return null;
}

/** Blocks down the columns of one page, or null where these do not hold them. */
function inColumns(kit: PageKit, blocks: readonly Block[], columns: readonly Box[]): Item[] | null {
  const room = columns.reduce((sum, box) => sum + box[3] - box[1], 0);
  if (blocks.reduce((sum, each) => sum + each.height, 0) > room) return null;
  // What does not fit goes to a page that has the room.
  const whole = columnBoxes([0, 0, kit.size[0], kit.size[1]], 1);
  const { pages } = flowWithRest(blocks, (page) => (page === 0 ? columns : whole), 'rest');
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
  /** Height of all that is clear there without lines to write on, points. */
  readonly free: number;
  readonly ratio: number | undefined;
}

/** The sheet of another article that one begins on: the paper left there, and the sheet with what is put on it. */
interface Begun {
  readonly boxes: readonly Box[];
  sheet(items: readonly Item[]): Sheet;
}

/** One article on sheets of its own, the first of which may be another's last. */
interface Alone {
  readonly sheets: readonly Sheet[];
  /** Scale of its picture, 48 of 1:48. */
  readonly ratio: number | undefined;
  /** All but the last, where others follow on that. */
  sheetsBefore(): readonly Sheet[];
  /** The last sheet with others after it; null where they do not fit there. */
  followedBy(articles: readonly Article[]): Sheet | null;
  /** Another that begins on the last sheet and goes on to others; null where that saves no sheet. */
  leadsInto(article: Article): Alone | null;
}

/** Of an article set as tightly as it may be, points. */
function heightOf(article: Article): number {
  const { body, tail } = article.make(article.ways - 1);
  return [...body, ...tail].reduce((sum, each) => sum + each.height, 0);
}

/** Whether a picture is at least as large as at a ratio. */
function noSmaller(ratio: number | undefined, than: number | undefined): boolean {
  return ratio === undefined || than === undefined || ratio <= than;
}

/** In the roomiest way that needs no more sheets than the tightest. */
function alone(kit: PageKit, spec: Spec, article: Article): Alone {
  const ways = Array.from({ length: article.ways }, (_, tight) => tight);
  const best = (set: 'open' | 'closed'): Laid => {
    const tightest = layAlone(kit, article, article.ways - 1, set);
    return (
      firstLaid(ways.slice(0, -1), tightest.pages.length, (tight) => layAlone(kit, article, tight, set)) ??
      tightest
    );
  };
  return settled(kit, spec, article, best, null)!;
}

/** The first way that needs no more than so many pages. */
function firstLaid(ways: readonly number[], most: number, lay: (tight: number) => Laid): Laid | null {
  for (const tight of ways) {
    const laid = lay(tight);
    if (laid.pages.length <= most) return laid;
  }
  return null;
}

/** As `alone`, begun on another's sheet, in no more sheets (that one with them) than alone and with no smaller picture. */
function begunOn(kit: PageKit, spec: Spec, article: Article, begun: Begun): Alone | null {
  const own = spec.setAlone(article);
  const ways = Array.from({ length: article.ways }, (_, tight) => tight).filter((tight) =>
    noSmaller(article.make(tight).ratio, own.ratio),
  );
  return settled(
    kit,
    spec,
    article,
    (set) => firstLaid(ways, own.sheets.length, (tight) => layAlone(kit, article, tight, set, begun.boxes)),
    begun,
  );
}

/** Sheets from what `best` lays, closed or open; null where it lays nothing. */
function settled(
  kit: PageKit,
  spec: Spec,
  article: Article,
  best: (set: 'open' | 'closed') => Laid | null,
  begun: Begun | null,
): Alone | null {
  const closed = best('closed');
  if (closed === null) return null;
  const sheetOf = (laid: Laid, page: number): Sheet => {
    if (page === 0 && begun !== null) return begun.sheet(laid.pages[0]!);
    return {
      width: kit.size[0],
      height: kit.size[1],
      bookmark: page === 0 ? article.title : `${article.title}, continued ${page + 1}`,
      parent: page === 0 ? spec.parent : article.title,
      items: [...laid.frames(page).items, ...laid.pages[page]!],
    };
  };
  const last = closed.pages.length - 1;
  // Made when something is to follow. It must not cost a sheet itself.
  const openly = once(() => best('open'));
  /** What is left on the last sheet for those named; null for a first page, which is shared under a title of its own. */
  const leftFor = (articles: readonly Article[]): Begun | null => {
    const open = last === 0 ? null : openly();
    if (open === null || open.pages.length !== closed.pages.length) return null;
    const frame = open.frames(last, articles.map((each) => each.name).join('  ·  '));
    if (frame.inner[1] !== open.frames(last).inner[1]) return null;
    return {
      boxes: open.rest,
      sheet: (items) => ({
        ...sheetOf(open, last),
        also: articles.map((each) => ({ bookmark: each.title, parent: spec.parent })),
        items: [...frame.items, ...open.pages[last]!, ...items],
      }),
    };
  };
  return {
    sheets: closed.pages.map((_, page) => sheetOf(closed, page)),
    ratio: closed.ratio,
    sheetsBefore: () => {
      const open = openly()!;
      return open.pages.slice(0, -1).map((_, page) => sheetOf(open, page));
    },
    followedBy: (articles) => {
      if (articles.some((each) => heightOf(each) > closed.free)) return null;
      const begin = leftFor(articles);
      const items =
        begin &&
        onOnePage(kit, articles, begin.boxes, (each, { ratio }) =>
          noSmaller(ratio, spec.setAlone(each).ratio),
        );
      return begin && items && begin.sheet(items);
    },
    leadsInto: (next) => {
      const [, top, , foot] = closed.frames(last).inner;
      if (closed.free < (kit.columns * (foot - top)) / 2) return null;
      const begin = leftFor([next]);
      return begin && begunOn(kit, spec, next, begin);
    },
  };
}

/**
 * With all the lines to write on that the paper holds, or ('open') with the least of them, the paper after them left.
 * `begun`: the columns that another article left on the sheet that this one begins on, under its name.
 */
function layAlone(
  kit: PageKit,
  article: Article,
  tight: number,
  set: 'open' | 'closed',
  begun?: readonly Box[],
): Laid {
  const frames = (page: number, more = '') => {
    const title = page === 0 ? article.title : `${article.title}, continued`;
    return sheetFrame(kit.measure, kit.size, {
      ...frameHead(kit),
      title: more === '' ? title : `${title}  ·  ${more}`,
      subtitle: page === 0 ? article.subtitle : '',
    });
  };
  const columns = (page: number) =>
    page === 0 && begun ? begun : columnBoxes(frames(page).inner, kit.columns);
  const first = begun ? 'rest' : 'whole';
  const { body, tail, ratio } = article.make(tight);
  const blocks = [...(begun ? [nameBand(kit, article)] : []), ...body, ...tail];
  const end = (flowed: Flowed): Laid => {
    const last = flowed.pages.length - 1;
    const gap = 24 * kit.sizes.by;
    const rest = flowed.rest
      .filter(({ page }) => page === last)
      .map(({ box: [x0, y0, x1, y1] }): Box => {
        const top = columns(last)[0]![1];
        return [x0, y0 > top ? Math.min(y0 + gap, y1) : y0, x1, y1];
      });
    return { pages: flowed.pages, frames, rest, free: freeOn(flowed, last), ratio };
  };
  const closing = article.closing;
  if (closing === undefined) return end(flowWithRest(blocks, columns, first));
  const least = closing.make(closing.least);
  const among = () => end(flowWithRest(amidst(blocks, least, columns, first), columns, first));
  if (set === 'open') return among();
  const flowed = flowWithRest(blocks, columns, first);
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
    return { pages, frames, rest: [], free: freeOn(flowed, pages.length - 1), ratio };
  }
  // No place anywhere: what stood last goes on to a new page in its stead.
  return among();
}

function freeOn({ rest }: Flowed, page: number): number {
  return rest.reduce((sum, { page: of, box }) => sum + (of === page ? box[3] - box[1] : 0), 0);
}

/** The blocks with one more among them, as late as it has company on its page; never within a table or under a heading. */
function amidst(
  blocks: readonly Block[],
  more: Block,
  columns: (page: number) => readonly Box[],
  first: 'whole' | 'rest',
): readonly Block[] {
  for (let at = blocks.length; at > 0; at--) {
    const [before, after] = [blocks[at - 1]!, blocks[at]];
    if (before.keep || (after?.head !== undefined && after.head === before.head)) continue;
    const through = [...blocks.slice(0, at), more];
    const all = [...through, ...blocks.slice(at)];
    const page = flowWithRest(through, columns, first).pages.length - 1;
    if (flowWithRest(all, columns, first).pages[page]!.length > more.items.length) return all;
  }
  return [...blocks, more];
}
