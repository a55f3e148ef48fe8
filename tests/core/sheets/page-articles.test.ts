// Rooms on pages: who shares a page, what is never left out, and where the lines to write on go.

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { readPlanBytes } from '../../../core/plan/index.ts';
import { derive, solve } from '../../../core/report/index.ts';
import type { Solved } from '../../../core/report/types.ts';
import { type Block, block, flowWithRest } from '../../../core/sheets/flow.ts';
import { SHEET_SIZES, type Sheet, type SheetSize } from '../../../core/sheets/items.ts';
import { type Article, layArticles } from '../../../core/sheets/page-articles.ts';
import { reasonWords } from '../../../core/sheets/page-corners.ts';
import { type PageKit, pageKit } from '../../../core/sheets/page-layout.ts';
import { roomsOnPaper } from '../../../core/sheets/page-names.ts';
import { roomArticle } from '../../../core/sheets/page-room.ts';
import { planSheets } from '../../../core/sheets/plan-sheets.ts';
import { rectangle } from '../../../core/sheets/shapes.ts';
import { textItems } from '../../../core/sheets/sheet-faults.ts';
import { sheetSet } from '../../../core/sheets/sheetset.ts';
import { text } from '../../../core/sheets/texts.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { cases, random } from '../../seeds.ts';
import { measure } from './fonts.ts';
import { solved, surveyed, texts, wordsOf } from './page-solved.ts';

let house: Solved;
let kit: PageKit;
/** Height of the clear column of a letter sheet, and a part of it that is not a part of any page. */
const COLUMN = 640;

beforeAll(async () => {
  house = await solved(surveyed());
  kit = pageKit(house, measure, { sheet: 'letter', date: '2026-01-31' });
});

function part(word: string, height: number): Block {
  return block(height, [
    rectangle([0, 0, 5, height], { ink: 'ink', width: 0 }),
    text(measure, { text: word, at: [10, 10], size: 8, role: 'part' }),
  ]);
}

/** An article of blocks, each named after it. `heights[way]` are its blocks' heights, `ratios[way]` its picture's scale. */
function article(
  name: string,
  heights: readonly (readonly number[])[],
  closing = false,
  ratios: readonly number[] = [],
): Article {
  return {
    title: name,
    name,
    subtitle: '',
    ways: heights.length,
    make: (tight) => ({
      body: heights[tight]!.map((height) => part(name, height)),
      tail: [],
      ...(ratios[tight] === undefined ? {} : { ratio: ratios[tight] }),
    }),
    ...(closing ? { closing: { least: 3, most: 8, make: (lines) => part('found', 30 + 18 * lines) } } : {}),
  };
}

const lay = (articles: readonly Article[], anyOrder = false) =>
  layArticles(kit, {
    articles,
    parent: 'Level',
    anyOrder,
    shared: (group) => ({ title: group.map((each) => each.name).join(' · '), subtitle: '' }),
  });

const marks = (sheet: Sheet) => [sheet.bookmark, ...(sheet.also ?? []).map((each) => each.bookmark)];
const parts = (sheets: readonly Sheet[]) => texts(sheets, 'part').map((item) => item.text);

describe('articles', () => {
  test('nothing to lay gives no sheet', () => {
    expect(lay([])).toEqual({ sheets: [], starts: [] });
  });

  test('[SH33] two that fit share a page, each under its name and with its bookmark', () => {
    const { sheets, starts } = lay([article('A', [[200]]), article('B', [[200]])]);
    expect(sheets.map(marks)).toEqual([['A', 'B']]);
    expect(sheets[0]!.also![0]!.parent).toBe('Level');
    expect(starts).toEqual([0, 0]);
    expect(texts(sheets, 'article').map((item) => item.text)).toEqual(['A', 'B']);
    expect(parts(sheets)).toEqual(['A', 'B']);
  });

  test('[SH33] one that would have to be split begins a page of its own', () => {
    const { sheets, starts } = lay([
      article('A', [[400]]),
      article('B', [[200, 200]]),
      article('C', [[100]]),
    ]);
    expect(sheets.map(marks)).toEqual([['A'], ['B', 'C']]);
    expect(starts).toEqual([0, 1, 1]);
  });

  test('[SH33] a short one follows on the last page of a long one, where it stands whole', () => {
    const { sheets, starts } = lay([
      article('A', [[500, 300]]),
      article('B', [[200]]),
      article('C', [[500]]),
    ]);
    expect(sheets.map(marks)).toEqual([['A'], ['A, continued 2', 'B'], ['C']]);
    expect(starts).toEqual([0, 1, 2]);
    expect(texts([sheets[1]!], 'title').map((item) => item.text)).toEqual(['A, continued  ·  B']);
  });

  test('[SH33] one begins on the last sheet of the one before where that saves a sheet', () => {
    const { sheets, starts } = lay([article('A', [[500, 200]]), article('B', [[300, 500]])]);
    expect(sheets.map(marks)).toEqual([['A'], ['A, continued 2', 'B'], ['B, continued 2']]);
    expect(sheets.map((sheet) => parts([sheet]))).toEqual([['A'], ['A', 'B'], ['B']]);
    expect(starts).toEqual([0, 1]);
    expect(texts([sheets[2]!], 'title').map((item) => item.text)).toEqual(['B, continued']);
    // Three in a row, each on the last sheet of the one before.
    const three = lay([article('A', [[500, 200]]), article('B', [[360, 310]]), article('C', [[250, 600]])]);
    expect(three.sheets.map((sheet) => parts([sheet]))).toEqual([['A'], ['A', 'B'], ['B', 'C'], ['C']]);
    expect(three.starts).toEqual([0, 1, 2]);
  });

  test('[SH33] not where it would save none, nor where the one before takes more than half of the sheet', () => {
    expect(lay([article('A', [[500, 200]]), article('B', [[600]])]).sheets.map(marks)).toEqual([
      ['A'],
      ['A, continued 2'],
      ['B'],
    ]);
    expect(lay([article('A', [[500, 360]]), article('B', [[150, 600]])]).sheets).toHaveLength(4);
  });

  test('[SH33] not where its picture would have to be smaller than on a sheet of its own', () => {
    const heights = [
      [420, 300],
      [200, 500],
    ];
    const before = article('A', [[500, 200]]);
    expect(lay([before, article('B', heights, false, [48, 48])]).sheets).toHaveLength(3);
    expect(lay([before, article('B', heights, false, [48, 64])]).sheets).toHaveLength(4);
  });

  test('[SH33] those that share a sheet are set as roomily as all of them fit', () => {
    const heightsOf = (sheets: readonly Sheet[]) =>
      sheets[0]!.items.flatMap((item) =>
        item.kind === 'line' && item.stroke.width === 0
          ? [Math.round(item.points[2]![1] - item.points[0]![1])]
          : [],
      );
    expect(heightsOf(lay([article('A', [[200], [100]]), article('B', [[200], [100]])]).sheets)).toEqual([
      200, 200,
    ]);
    expect(heightsOf(lay([article('A', [[300], [100]]), article('B', [[300], [100]])]).sheets)).toEqual([
      100, 100,
    ]);
  });

  test('[SH33] a later one fills a sheet up only where any order is allowed', () => {
    const three = [article('A', [[300]]), article('B', [[500]]), article('C', [[200]])];
    expect(lay(three).sheets.map(marks)).toEqual([['A'], ['B'], ['C']]);
    const { sheets, starts } = lay(three, true);
    expect(sheets.map(marks)).toEqual([['A', 'C'], ['B']]);
    expect(starts).toEqual([0, 1, 0]);
  });

  test('[SH33] the roomiest way that needs no more pages is taken', () => {
    const roomy = lay([
      article('A', [
        [300, 200],
        [100, 100],
      ]),
    ]).sheets;
    expect(roomy).toHaveLength(1);
    const heights = roomy[0]!.items.flatMap((item) =>
      item.kind === 'line' && item.stroke.width === 0 ? [item.points[2]![1] - item.points[0]![1]] : [],
    );
    expect(heights.map(Math.round)).toEqual([300, 200]);
    expect(
      lay([
        article('A', [
          [400, 400],
          [300, 300],
        ]),
      ]).sheets,
    ).toHaveLength(1);
  });

  test('[SH33] a room’s plan shrinks until its words stand beside it, where that saves a sheet', async () => {
    const read = readPlanBytes(readFileSync('demo-data/larkspur-house.copewright.json'));
    if (!read.ok) throw new Error(read.error.message);
    const levels = read.plan.levels.filter(({ rooms }) =>
      Object.values(rooms).some(({ name }) => name === 'Box room'),
    );
    const upper = solve(derive({ ...read.plan, levels }), await loadHighs(), { work: 0 });
    const own = pageKit(upper, measure, { sheet: 'letter', date: '2026-01-31' });
    const room = roomsOnPaper(upper).find(({ name }) => name === 'Box room')!;
    const box = roomArticle(own, upper.levels[0]!, room, null);
    const { sheets } = layArticles(own, {
      articles: [box],
      parent: null,
      shared: () => ({ title: '', subtitle: '' }),
    });
    expect(sheets).toHaveLength(2);
    expect(wordsOf(sheets)).toContain('What goes up');
    expect(wordsOf(sheets)).not.toContain('No room on the plan for');
  });

  test('[SH33] a room’s plan is no smaller than its level’s where its column holds it, however much is told', async () => {
    const read = readPlanBytes(readFileSync('demo-data/thimble-cottage.copewright.json'));
    if (!read.ok) throw new Error(read.error.message);
    const small = solve(derive(read.plan), await loadHighs(), { work: 0 });
    const [level] = small.levels;
    let tall = 0;
    for (const sheet of Object.keys(SHEET_SIZES) as SheetSize[]) {
      const own = pageKit(small, measure, { sheet, date: '2026-01-31' });
      const [plan] = planSheets(measure, small, { sheet, date: '2026-01-31' });
      const { ratio: onLevel, pointsPerTick } = plan!.scale!;
      // Words and marks, and so the clear paper round a room, are larger on the largest sheets [SH6].
      const clear = 44 * (sheet.startsWith('arch') ? 1.4 : 1);
      for (const room of roomsOnPaper(small)) {
        const [xs, ys] = [0, 1].map((axis) => room.trim.room.loops[0]!.corners.map(({ at }) => at[axis]!));
        const [wide, high] = [xs!, ys!].map((all) => (Math.max(...all) - Math.min(...all)) * pointsPerTick);
        const holds = wide! + clear <= own.width && high! + clear <= own.size[1] * 0.72;
        const article = roomArticle(own, level!, room, onLevel);
        const free = roomArticle(own, level!, room, null);
        for (let tight = 0; tight < article.ways; tight++) {
          const { ratio } = article.make(tight);
          if (holds) expect(ratio, `${sheet} ${room.name} ${tight}`).toBeLessThanOrEqual(onLevel);
          if (holds && free.make(tight).ratio! > onLevel) tall++;
          expect(ratio, `${sheet} ${room.name} ${tight}`).toBeLessThanOrEqual(free.make(tight).ratio!);
        }
      }
    }
    // It is not idle: left to the words, many would be smaller.
    expect(tall).toBeGreaterThan(10);
  });

  test('[SH33] lines to write on take what is left, go back a page where nothing is, and never stand alone', () => {
    for (let last = 20; last <= COLUMN; last += 20) {
      const { sheets } = lay([article('A', [[500, last]], true)]);
      expect(
        parts(sheets).filter((word) => word === 'found'),
        `${last}`,
      ).toHaveLength(1);
      for (const sheet of sheets) expect(parts([sheet]), `${last}`).toContain('A');
    }
  });

  test('[SH20] random articles: every block stands once, in order, on the sheet it began on or after', () => {
    const seed = 91;
    const next = random(seed);
    let blocks = 0;
    for (let round = 0; round < cases(200, 40); round++) {
      const articles = Array.from({ length: 1 + Math.floor(next() * 6) }, (_, index) =>
        article(
          `N${index}`,
          [Array.from({ length: 1 + Math.floor(next() * 5) }, () => 20 + next() * 500)],
          next() < 0.5,
        ),
      );
      const { sheets, starts } = lay(articles, next() < 0.5);
      articles.forEach((each, index) => {
        const wanted = each.make(0).body.length;
        const found = parts(sheets).filter((word) => word === each.name).length;
        expect(found, `seed ${seed}, round ${round}, ${each.name}`).toBe(wanted);
        expect(marks(sheets[starts[index]!]!), `seed ${seed}, round ${round}`).toContain(each.name);
        expect(parts([sheets[starts[index]!]!]), `seed ${seed}, round ${round}`).toContain(each.name);
        blocks += wanted;
      });
      const closings = articles.filter((each) => each.closing).length;
      expect(parts(sheets).filter((word) => word === 'found')).toHaveLength(closings);
    }
    console.log(`articles: seed ${seed}, ${blocks} blocks`);
  });
});

describe('the paper that is left', () => {
  test('is the foot of each column and every column without blocks', () => {
    const columns = () =>
      [
        [0, 0, 50, 100],
        [60, 0, 110, 100],
      ] as const;
    const { rest } = flowWithRest([part('a', 60)], columns);
    expect(rest).toEqual([
      { page: 0, box: [0, 60, 50, 100] },
      { page: 0, box: [60, 0, 110, 100] },
    ]);
    const more = flowWithRest([part('a', 60), part('b', 60), part('c', 100)], columns);
    expect(more.rest.map((each) => [each.page, each.box[1]])).toEqual([
      [0, 60],
      [0, 60],
      [1, 100],
      [1, 0],
    ]);
  });
});

describe('reasons', () => {
  test('[SH24] what stands in other columns is left out, the reason never', () => {
    expect(
      reasonWords(
        'cope: inside 90° drawn and set for 91.5° with build-up, shaped base; board 1A runs through because it faces the entry',
      ),
    ).toBe('1A runs through because it faces the entry');
    expect(reasonWords('mitre: outside 90.5° measured')).toBe('');
    expect(
      reasonWords('mitre: inside 135° drawn and set for 136.5° with build-up, not within 80° to 100°'),
    ).toBe('angle not within 80° to 100°');
    expect(reasonWords('mitre: your choice, inside 90° drawn')).toBe('your choice');
    expect(reasonWords('block: "Tall" meets "Low", which differ, inside 90° drawn')).toBe(
      '"Tall" meets "Low", which differ',
    );
    expect(reasonWords('something that is put another way')).toBe('something that is put another way');
  });

  test('every reason of the cottage is short or empty, and says who runs through where one does', () => {
    const all = house.report.rooms.flatMap((room) =>
      room.loops.flatMap((loop) => loop.corners.flatMap((corner) => [corner.base, corner.shoe])),
    );
    let through = 0;
    for (const joint of all) {
      if (!joint) continue;
      expect(reasonWords(joint.why)).not.toMatch(/drawn|measured|build-up/);
      if (!/runs through/.test(joint.why)) continue;
      through += 1;
      expect(reasonWords(joint.why)).toMatch(/^\S+ runs through /);
    }
    expect(through).toBeGreaterThan(5);
  });
});

describe('on the set', () => {
  test('[SH33] every room has its lines for what is found, and no sheet holds them alone', () => {
    const set = sheetSet(house, measure, { sheet: 'letter', date: '2026-01-31' });
    const headed = set.sheets.filter((sheet) =>
      texts([sheet], 'heading').some((item) => item.text === 'Found on site'),
    );
    const count = texts(set.sheets, 'heading').filter((item) => item.text === 'Found on site').length;
    expect(count).toBe(house.report.rooms.length);
    const frame = ['title', 'subtitle', 'job', 'foot', 'page-number', 'heading', 'note', 'article'];
    for (const sheet of headed)
      expect(
        textItems(sheet.items).filter((item) => !frame.includes(item.role)).length,
        sheet.bookmark,
      ).toBeGreaterThan(0);
  });

  test('[SH34] a room’s own cautions are in full, those for any room in short, their sources on the cover', () => {
    const set = sheetSet(house, measure, { sheet: 'letter', date: '2026-01-31' });
    const rooms = set.sheets.filter((sheet) =>
      house.report.rooms.some((room) => sheet.bookmark.startsWith(room.name)),
    );
    const words = wordsOf(rooms);
    expect(words).toContain('Local codes and licensed trades come first');
    expect(words).toContain('never held by hand');
    expect(words).not.toContain('29 CFR');
    expect(wordsOf(set.sheets.filter((sheet) => sheet.bookmark.startsWith('Cover')))).toContain('29 CFR');
  });

  test('[SH35] every opening of a room bears its id on the room’s plan and on its site sheet', () => {
    const set = sheetSet(house, measure, { sheet: 'letter', date: '2026-01-31' });
    for (const { trims } of house.levels)
      for (const { room } of trims)
        for (const prefix of ['', 'Site sheet: ']) {
          const sheets = set.sheets.filter((sheet) =>
            marks(sheet).some((mark) => mark.startsWith(`${prefix}${room.name}`)),
          );
          const said = wordsOf(sheets);
          const ids = new Set(sheets.flatMap((sheet) => textItems(sheet.items)).map((item) => item.text));
          for (const { id } of room.loops.flatMap((loop) => loop.segments.flatMap((each) => each.openings)))
            expect(ids.has(id) || said.includes(`opening ${id}`), `${prefix}${room.name}: ${id}`).toBe(true);
        }
  });
});
