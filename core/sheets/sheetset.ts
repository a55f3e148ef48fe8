// A solved plan to the whole set of sheets: cover, a plan of each level, a sheet for each room, the cut list, order and
// boards, labels, site sheets; page numbers when the set is whole. Same plan, same date, same sheets: nothing here reads a
// clock [SH24].

import type { Solved } from '../report/types.ts';
import type { Sheet, SheetSet, SheetSize, TextMeasure } from './items.ts';
import { layArticles } from './page-articles.ts';
import { coverSheets, type SetEntry } from './page-cover.ts';
import { cutSheets } from './page-cuts.ts';
import { findingCounts } from './page-findings.ts';
import { labelSheets } from './page-labels.ts';
import { type PageKit, pageKit } from './page-layout.ts';
import { levelName, type RoomOnPaper, roomsOnPaper } from './page-names.ts';
import { roomArticle } from './page-room.ts';
import { siteSheets } from './page-site.ts';
import { stockSheets } from './page-stock.ts';
import { pageNumber } from './plan-frame.ts';
import { type PlanSheetOptions, planSheets, tilesFault } from './plan-sheets.ts';
import { type ListedScale, readPlanScale } from './scale.ts';
import { counted } from './words.ts';

/** A part of the set: its sheets, and how the cover lists what begins on them; `at` is the sheet's place in the part. */
interface Part {
  readonly entries: readonly { readonly at: number; readonly title: string; readonly shows: string }[];
  readonly sheets: readonly Sheet[];
}

/** What a set is printed on and how. */
export interface SetOptions {
  readonly sheet: SheetSize;
  /** Printed as given, and so is `revision`. */
  readonly date: string;
  readonly revision?: string;
  /** Of the floor plans, as it is typed: `1/4`, `1:50`. Absent: each at the largest that fits its sheet [SH12]. */
  readonly scale?: string | undefined;
}

/** In one sentence why the floor plans cannot be drawn at the scale asked for; null where they can. */
export function scaleFault(solved: Solved, measure: TextMeasure, options: SetOptions): string | null {
  if (options.scale === undefined) return null;
  const scale = readPlanScale(options.scale, solved.plan.units);
  if (typeof scale === 'string') return scale;
  return tilesFault(measure, solved, planOptions(pageKit(solved, measure, options), scale));
}

/**
 * The set that the crew works from. Every figure on it is the report's, rounded once when printed. Throws when report and
 * trim do not belong together, and on a scale that `scaleFault` finds fault with.
 */
export function sheetSet(solved: Solved, measure: TextMeasure, options: SetOptions): SheetSet {
  const kit = pageKit(solved, measure, options);
  const scale = options.scale === undefined ? null : readPlanScale(options.scale, solved.plan.units);
  if (typeof scale === 'string') throw new RangeError(scale);
  const rooms = roomsOnPaper(solved);
  const parts: Part[] = [
    ...levelParts(kit, rooms, planOptions(kit, scale)),
    ...partOf('Cut list', 'boards by moulding and saw setting, returns, casings', cutSheets(kit, rooms)),
    ...partOf('Order and boards', 'what to buy, with prices; how each stock board is cut', stockSheets(kit)),
    ...partOf('Labels', 'for the boards, to cut out', labelSheets(kit, rooms)),
    ...siteParts(kit, rooms),
  ];
  const cover = numbered(kit, rooms, parts);
  const sheets = [...cover, ...parts.flatMap((part) => part.sheets)];
  return {
    title: kit.job,
    language: 'en-GB',
    sheets: sheets.map((sheet, index) => ({
      ...sheet,
      items: [...sheet.items, pageNumber(measure, [sheet.width, sheet.height], index + 1, sheets.length)],
    })),
  };
}

function planOptions(kit: PageKit, scale: ListedScale | null): PlanSheetOptions {
  const { sheet, date, revision } = kit;
  return { sheet, date, revision, ...(scale === null ? {} : { scale }) };
}

function partOf(title: string, shows: string, sheets: readonly Sheet[]): Part[] {
  return sheets.length === 0 ? [] : [{ entries: [{ at: 0, title, shows }], sheets }];
}

/** Each level's plan, then its rooms. The rooms hang under the level's first sheet. */
function levelParts(kit: PageKit, rooms: readonly RoomOnPaper[], plan: PlanSheetOptions): Part[] {
  return kit.solved.levels.flatMap((derived): Part[] => {
    const name = levelName(kit.solved, derived.walk.level);
    const plans = planSheets(kit.measure, { ...kit.solved, levels: [derived] }, plan).map((sheet, index) =>
      index === 0 ? { ...sheet, bookmark: name, parent: null } : { ...sheet, parent: name },
    );
    const parent = plans.length === 0 ? null : name;
    const levelRatio = asFits(kit, derived, plan, plans);
    const ours = rooms.filter((room) => room.level === derived.walk.level);
    const { sheets, starts } = layArticles(kit, {
      articles: ours.map((room) => roomArticle(kit, derived, room, levelRatio)),
      parent,
      shared: (articles) => ({
        title: articles.map((article) => article.name).join('  ·  '),
        subtitle: `${name}  ·  heights above the subfloor`,
      }),
    });
    const entries = ours.map((room, index) => ({
      at: starts[index]!,
      title: room.name,
      shows: roomShows(room),
    }));
    return [...partOf(name, 'plan: corners, joints, boards, findings', plans), { entries, sheets }];
  });
}

/** The ratio of a level's plan where no scale is asked for: what is asked for has no say in its rooms' [SH12]. Null: no plan. */
function asFits(
  kit: PageKit,
  derived: Solved['levels'][number],
  { scale, ...plan }: PlanSheetOptions,
  drawn: readonly Sheet[],
): number | null {
  const plans = scale ? planSheets(kit.measure, { ...kit.solved, levels: [derived] }, plan) : drawn;
  return plans[0]?.scale?.ratio ?? null;
}

function roomShows(room: RoomOnPaper): string {
  const boards = room.runs.reduce((sum, run) => sum + run.pieces.length, 0);
  const found = findingCounts(room.findings);
  return [room.levelName, counted(boards, 'board'), ...(found === '' ? [] : [found])].join(', ');
}

/** Site sheets hang under the first of them, which is named for all and bears its room's name besides. */
function siteParts(kit: PageKit, rooms: readonly RoomOnPaper[]): Part[] {
  const title = 'Site sheets';
  const sheets = siteSheets(
    kit,
    kit.solved.levels.flatMap((derived) =>
      rooms.filter((room) => room.level === derived.walk.level).map((room) => [derived, room] as const),
    ),
    title,
  );
  const [first, ...others] = sheets;
  if (first === undefined) return [];
  const also = [{ bookmark: first.bookmark, parent: title }, ...(first.also ?? [])];
  return partOf(title, 'a bare plan and blanks for each room, to measure by', [
    { ...first, bookmark: title, parent: null, also },
    ...others,
  ]);
}

/** The cover with the page that each part begins on. Its own length does not hang on those figures. */
function numbered(kit: PageKit, rooms: readonly RoomOnPaper[], parts: readonly Part[]): Sheet[] {
  const entries = (first: number): SetEntry[] => {
    let page = first;
    return parts.flatMap((part) => {
      const found = part.entries.map(({ at, title, shows }) => ({ page: page + at, title, shows }));
      page += part.sheets.length;
      return found;
    });
  };
  const length = coverSheets(kit, rooms, entries(2)).length;
  return coverSheets(kit, rooms, entries(length + 1));
}
