// The whole set, held as drawing items: what a crew must find on it, and what no sheet may do.

import { beforeAll, describe, expect, test } from 'vitest';
import { type Plan, type PlanFile, PlanSchema } from '../../../core/plan/schema.ts';
import type { Solved } from '../../../core/report/types.ts';
import {
  SHEET_SIZES,
  type Sheet,
  type SheetSet,
  type SheetSize,
  SMALLEST_TEXT,
} from '../../../core/sheets/items.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { sheetSet } from '../../../core/sheets/sheetset.ts';
import { figuresOf } from '../../../core/sheets/words.ts';
import { cottage as cottageOf } from '../../fixtures/cottage.ts';
import { cases, random } from '../../seeds.ts';
import { measure } from './fonts.ts';
import { emptyPlan, manyWalls, roomlessPlan, solved, surveyed, texts, wordsOf } from './page-solved.ts';
import { randomHouse } from './plan-houses.ts';

const SIZES = Object.keys(SHEET_SIZES) as SheetSize[];
const DATE = '2026-01-31';
let cottage: Solved;
let letter: SheetSet;

beforeAll(async () => {
  cottage = await solved(surveyed());
  letter = sheetSet(cottage, measure, { sheet: 'letter', date: DATE, revision: 'B' });
});

/** What no sheet may do, whatever stands on it. */
function expectSound(set: SheetSet): void {
  for (const [index, sheet] of set.sheets.entries()) {
    const where = `page ${index + 1}, ${sheet.bookmark}`;
    expect(
      textOverlaps(sheet).map(([a, b]) => `${where}: ${a.role} “${a.text}” on ${b.role} “${b.text}”`),
    ).toEqual([]);
    expect(outsideSheet(sheet).map((item) => `${where}: ${JSON.stringify(item).slice(0, 200)}`)).toEqual([]);
    for (const item of textItems(sheet.items))
      expect(item.size, item.text).toBeGreaterThanOrEqual(SMALLEST_TEXT);
  }
}

/** All bookmarks of a sheet: its own and those of the rooms that share it. */
function marksOf(sheet: Sheet): { readonly bookmark: string; readonly parent: string | null }[] {
  return [sheet, ...(sheet.also ?? [])];
}

async function setOf(plan: Plan, sheet: SheetSize = 'letter'): Promise<SheetSet> {
  return sheetSet(await solved(plan), measure, { sheet, date: DATE });
}

const LONG = 'Bathroom under the eaves with the crooked wall '.repeat(5).slice(0, 200);
const UNBROKEN = 'W'.repeat(200);

function longNames(name: string): (file: PlanFile) => PlanFile {
  return (file) => {
    file.title = name;
    for (const profile of Object.values(file.profiles ?? {}))
      Object.assign(profile, { name, material: name });
    const level = file.levels[0]!;
    level.name = name;
    for (const room of Object.values(level.rooms ?? {})) room.name = name;
    return file;
  };
}

describe('every sheet', () => {
  test.each(SIZES)('[SH4] holds its words apart and on the sheet: %s', (sheet) => {
    expectSound(sheetSet(cottage, measure, { sheet, date: DATE }));
  });

  test('[SH4] holds in metric too', async () => {
    expectSound(
      await setOf(
        surveyed((file) => ({ ...file, units: 'metric' })),
        'a4',
      ),
    );
  });

  test.each([
    ['letter', LONG],
    ['letter', UNBROKEN],
    ['a4', UNBROKEN],
    ['tabloid', UNBROKEN],
    ['arch-d', LONG],
  ] as const)('[SH29] holds names of 200 characters: %s', async (sheet, name) => {
    const set = await setOf(surveyed(longNames(name)), sheet);
    expectSound(set);
    expect(wordsOf(set.sheets).replace(/ /g, '')).toContain(name.replace(/ /g, ''));
  });

  test('[SH26, SH27] holds heights that no house has: a base of 3 m, an old line at 20 m, a floor that strays by 2 m', async () => {
    const tall = surveyed((file) => {
      Object.assign(file.profiles!.base!, { height: 3000 });
      for (const room of Object.values(file.levels[0]!.rooms ?? {}))
        Object.assign(room, {
          old: { baseHeight: 20_000, floor: 0 },
          new: { floor: 5, gap: 0 },
          floorDatum: 900,
        });
      return file;
    });
    for (const face of Object.values(tall.levels[0]!.faces))
      Object.assign(face, {
        floor: face.floor?.map(({ at, height }, index) => ({
          at,
          height: height + (index - 1) * 320 * 2000,
        })),
        line: [
          { at: 0, height: 320 * 50_000 },
          { at: 320_000, height: -320 * 50_000 },
        ],
      });
    expectSound(await setOf(tall));
  });

  test('[SH26] holds a hall of sixty doors and a room of two hundred walls', async () => {
    const hall = cottageOf((file) => {
      const level = file.levels[0]!;
      level.nodes = { n1: [0, 0], n2: [72_000, 0], n3: [72_000, 3000], n4: [0, 3000] };
      level.walls = {
        w1: { from: 'n1', to: 'n2', thickness: 115 },
        w2: { from: 'n2', to: 'n3', thickness: 115 },
        w3: { from: 'n3', to: 'n4', thickness: 115 },
        w4: { from: 'n4', to: 'n1', thickness: 115 },
      };
      const casing = { left: 'case', right: 'case' };
      level.openings = Object.fromEntries(
        Array.from({ length: 60 }, (_, k) => [
          `door-of-the-long-name-of-forty-signs-${k}`,
          {
            wall: 'w1',
            at: 200 + 1190 * k,
            width: 812,
            height: 2032,
            sill: 0,
            kind: 'door',
            reveal: 5,
            casing,
          } as const,
        ]),
      );
      Object.assign(level, { builtIns: {}, marks: {} });
      level.rooms = { r1: { name: 'Hall', at: [30_000, 1500], trim: { base: 'base', shoe: 'shoe' } } };
      return file;
    });
    expectSound(await setOf(hall));
    expectSound(await setOf(manyWalls(200), 'a4'));
  });

  test('[SH29] a plan without anything has a cover and nothing else', async () => {
    const set = await setOf(emptyPlan());
    expect(set.sheets.map((sheet) => sheet.bookmark)).toEqual(['Cover']);
    expect(set.title).toBe('Untitled job');
    expectSound(set);
  });

  test('a plan without rooms has its plan sheet and no room sheet', async () => {
    const set = await setOf(roomlessPlan());
    expect(set.sheets.map((sheet) => sheet.bookmark)).toEqual(['Cover', 'Yard']);
    expectSound(set);
  });

  test('[SH5] carries page n of m, date, revision and the job', () => {
    letter.sheets.forEach((sheet, index) => {
      const words = textItems(sheet.items);
      expect(words.filter((item) => item.role === 'page-number').map((item) => item.text)).toEqual([
        `page ${index + 1} of ${letter.sheets.length}`,
      ]);
      const foot = words
        .filter((item) => item.role === 'foot')
        .map((item) => item.text)
        .join(' ');
      expect(foot).toContain(DATE);
      expect(foot).toContain('B');
      expect(foot).toContain('Tallow Cottage');
    });
  });

  test('[SH12, SH33] a scale asked for the floor plan has no say in the plans of its rooms', () => {
    const roomScales = (set: SheetSet): string[] =>
      set.sheets.flatMap((sheet) => wordsOf([sheet]).match(/Plan \S+ = 1′‐0″\./g) ?? []);
    const as = (scale: string) => sheetSet(cottage, measure, { sheet: 'letter', date: DATE, scale });
    expect(roomScales(letter).length).toBeGreaterThan(3);
    for (const scale of ['1/8', '1/2']) expect(roomScales(as(scale))).toEqual(roomScales(letter));
  });

  test('[SH24] the same plan and date give the same sheets', () => {
    const again = sheetSet(cottage, measure, { sheet: 'letter', date: DATE, revision: 'B' });
    expect(JSON.stringify(again)).toBe(JSON.stringify(letter));
  });

  test('a bookmark hangs under one that stands before it', () => {
    const seen = new Set<string>();
    for (const sheet of letter.sheets) {
      for (const mark of marksOf(sheet)) {
        if (mark.parent !== null) expect(seen).toContain(mark.parent);
        seen.add(mark.bookmark);
      }
    }
  });
});

describe('the cover', () => {
  const cover = () => letter.sheets.filter((sheet) => sheet.bookmark.startsWith('Cover'));

  test('[SH28] tells every stop and fix, worst first, with all its remedies', () => {
    const words = wordsOf(cover())
      .replace(/[\s"″'′]/g, '')
      .replaceAll('⁄', '/');
    const plain = (said: string) => said.replace(/[\s"″'′]/g, '').replaceAll('⁄', '/');
    const heavy = cottage.report.findings.filter((finding) => finding.severity !== 'look');
    expect(heavy.length).toBeGreaterThan(0);
    let from = 0;
    for (const finding of heavy) {
      const at = words.indexOf(plain(finding.message), from);
      expect(at, finding.message).toBeGreaterThanOrEqual(from);
      from = at;
      for (const remedy of finding.remedies)
        expect(words.indexOf(plain(remedy), at), remedy).toBeGreaterThan(at);
    }
  });

  test('lists every sheet with the page it is on', () => {
    const pages = texts(cover(), 'set-page').map((item) => Number(item.text));
    const rooms = ['Parlour', 'Kitchen', 'Garden room', 'Hall'];
    const stock = cottage.report.stock.length > 0 ? ['Order and boards'] : [];
    const names = ['Ground floor', ...rooms, 'Cut list', ...stock, 'Labels', 'Site sheets'];
    expect(pages).toHaveLength(names.length);
    names.forEach((name, index) => {
      const marks = marksOf(letter.sheets[pages[index]! - 1]!).map((mark) => mark.bookmark);
      expect(marks).toContain(name);
    });
  });

  test('says which angle is meant, the datum of heights, what drawn means, and that local codes come first', () => {
    const words = wordsOf(cover());
    for (const said of [
      'what the angle finder reads',
      'degrees off square',
      'above the subfloor',
      'Measure, write it in the blank',
      'Local codes and licensed trades come first',
      'in the USA',
    ])
      expect(words).toContain(said);
  });

  test('[SH24] the totals are the report’s', () => {
    const figures = figuresOf(cottage.plan);
    const base = cottage.report.totals.base;
    if (typeof base !== 'object') throw new Error('no base in the totals');
    expect(wordsOf(cover())).toContain(`${base.pieces} pieces ${figures.length(base.lengthMm)}`);
  });
});

describe('room sheets and cut list', () => {
  const under = (name: string) =>
    letter.sheets.filter((sheet) =>
      marksOf(sheet).some((mark) => mark.bookmark === name || mark.bookmark.startsWith(`${name}, continued`)),
    );

  test('every piece of the report is on its room’s sheet and in the cut list, with its overall length', () => {
    const figures = figuresOf(cottage.plan);
    const cuts = texts(under('Cut list'), 'board-id').map((item) => item.text);
    const rooms = new Map(cottage.report.rooms.map((room) => [room.id, wordsOf(under(room.name))]));
    for (const piece of cottage.report.pieces) {
      expect(
        cuts.filter((id) => id === piece.id),
        piece.id,
      ).toHaveLength(1);
      const words = rooms.get(piece.room)!;
      expect(words).toMatch(new RegExp(`(^| )${piece.id}[ ,]`));
      expect(words).toContain(figures.cut(piece.overallMm));
    }
    expect(cottage.report.pieces.length).toBeGreaterThan(40);
  });

  test('every corner is on its room’s sheet: on the strip, in the table and on the plan', () => {
    for (const room of cottage.report.rooms) {
      const numbers = texts(under(room.name), 'corner-number').map((item) => item.text);
      for (const corner of room.loops.flatMap((loop) => loop.corners))
        expect(
          numbers.filter((number) => number === `${corner.number}`).length,
          `corner ${corner.number}`,
        ).toBeGreaterThanOrEqual(3);
    }
  });

  test('a drawn length says so beside its blank, once for each board on each list', () => {
    for (const sheets of [under('Cut list'), cottage.report.rooms.flatMap((room) => under(room.name))]) {
      const said = texts(sheets, 'length-from')
        .map((item) => item.text)
        .join(' ');
      const drawn = cottage.report.pieces.filter(
        (piece) => piece.lengthFrom === 'drawn' && piece.returnOf === null,
      );
      expect(said.match(/drawn: measure/g)).toHaveLength(drawn.length);
    }
  });

  test('[SH30] every piece under 6 in is marked in the cut list', () => {
    const small = cottage.report.pieces.filter((piece) => piece.overallMm < 152.4);
    expect(small.length).toBeGreaterThan(0);
    expect(texts(under('Cut list'), 'small')).toHaveLength(small.length);
    expect(wordsOf(under('Cut list'))).toContain('never held by hand');
  });

  test('[SH30] a group of the cut list has one pair of settings, and groups follow each other by setting', () => {
    const bands = texts(under('Cut list'), 'band').map((item) => item.text);
    expect(bands.length).toBeGreaterThan(3);
    for (const band of bands) expect(band).toMatch(/^(Square both ends|Saw at )/);
    expect(new Set(bands.slice(0, 3)).size).toBe(3);
  });

  test('a scarf says which piece laps', () => {
    const words = wordsOf(under('Parlour'));
    expect(words).toContain('laps over');
    expect(words).toContain('lies under');
  });

  test('[SH27] a scribed board is drawn with its exaggeration stated, and its words are the rule’s', () => {
    const words = wordsOf(cottage.report.rooms.flatMap((room) => under(room.name)));
    expect(cottage.report.scribes.some((scribe) => scribe.takeFrom !== 'none')).toBe(true);
    expect(words).toMatch(/Heights drawn \d+ times as large as lengths/);
    expect(words).toContain('Set the scriber at');
  });

  test('[SH32] a site sheet asks for floor readings down from the laser', () => {
    const site = letter.sheets.filter((sheet) => sheet.bookmark.startsWith('Site sheet'));
    expect(wordsOf(site)).toContain('down from laser');
  });
});

describe('long tables', () => {
  test('[SH20, SH22] 60 boards and 60 corners: rows whole, heads on every sheet they go on to', async () => {
    const drum = await solved(manyWalls(60));
    expect(drum.report.pieces.length).toBeGreaterThanOrEqual(60);
    const set = sheetSet(drum, measure, { sheet: 'letter', date: DATE });
    expectSound(set);
    const rooms = set.sheets.filter((sheet) => sheet.bookmark.startsWith('Drum'));
    const withBoards = rooms.filter((sheet) =>
      textItems(sheet.items).some((item) => item.text === 'back and face'),
    );
    expect(withBoards.length).toBeGreaterThan(3);
    for (const sheet of withBoards) {
      const words = textItems(sheet.items);
      const head = words.find((item) => item.text === 'back and face')!;
      const titled = words.find((item) => item.text.startsWith('Boards, in the order they go up'))!;
      expect(titled.at[1]).toBeLessThan(head.at[1]);
    }
    const ids = texts(rooms, 'board-id').map((item) => item.text);
    for (const piece of drum.report.pieces) expect(ids).toContain(piece.id);
  });
});

describe('random houses', () => {
  test('[SH4] seeded houses of uneven rooms: every sheet sound, every piece listed', async () => {
    const seed = 77;
    const next = random(seed);
    const sizes = ['letter', 'a3', 'arch-c'] as const;
    let sheets = 0;
    let pieces = 0;
    for (let round = 0; round < cases(40, 4); round++) {
      const file = randomHouse(next, 2 + Math.floor(next() * 2), 1 + Math.floor(next() * 3));
      const house = await solved(PlanSchema.parse(file));
      const set = sheetSet(house, measure, { sheet: sizes[round % sizes.length]!, date: DATE });
      try {
        expectSound(set);
      } catch (error) {
        throw new Error(`seed ${seed}, round ${round}`, { cause: error });
      }
      const ids = new Set(texts(set.sheets, 'board-id').map((item) => item.text));
      for (const piece of house.report.pieces)
        expect(ids, `seed ${seed}, round ${round}`).toContain(piece.id);
      sheets += set.sheets.length;
      pieces += house.report.pieces.length;
    }
    console.log(`page sets: seed ${seed}, ${sheets} sheets, ${pieces} pieces`);
    expect(pieces).toBeGreaterThan(50);
  });
});
