// Order, boards and labels, held as drawing items against the report they are drawn from.

import { beforeAll, describe, expect, test } from 'vitest';
import { cutsToText, plainCutsOf } from '../../../core/report/index.ts';
import type { Solved } from '../../../core/report/types.ts';
import { type Box, boxesOverlap, itemBox } from '../../../core/sheets/boxes.ts';
import type { Item, Sheet, SheetSize } from '../../../core/sheets/items.ts';
import { labelSheets } from '../../../core/sheets/page-labels.ts';
import { type PageKit, pageKit } from '../../../core/sheets/page-layout.ts';
import { roomsOnPaper } from '../../../core/sheets/page-names.ts';
import { stockSheets } from '../../../core/sheets/page-stock.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { figuresOf } from '../../../core/sheets/words.ts';
import { ticksFromMm } from '../../../core/units/ticks.ts';
import { measure } from './fonts.ts';
import { solved, surveyed, texts, wordsOf } from './page-solved.ts';

const kitOf = (from: Solved, sheet: SheetSize = 'letter'): PageKit =>
  pageKit(from, measure, { sheet, date: '2026-01-31' });
const plain = (words: string) => words.replace(/[\s\u00a0]+/g, ' ');

let house: Solved;
let sheets: Sheet[];

beforeAll(async () => {
  house = await solved(
    surveyed((file) => {
      for (const profile of Object.values(file.profiles ?? {}))
        profile.stock = [
          { length: 3657.6, price: 21.4 },
          { length: 4876.8, price: 29.8 },
        ];
      return file;
    }),
  );
  sheets = stockSheets(kitOf(house));
});

function lines(of: readonly Sheet[], role: string): Extract<Item, { kind: 'line' }>[] {
  return of.flatMap((sheet) =>
    sheet.items.flatMap((item) => (item.kind === 'line' && item.role === role ? [item] : [])),
  );
}

function expectSound(of: readonly Sheet[]): void {
  for (const sheet of of) {
    expect(textOverlaps(sheet).map(([a, b]) => `${a.text} on ${b.text}`)).toEqual([]);
    expect(outsideSheet(sheet)).toEqual([]);
  }
}

describe('order and boards', () => {
  test('[SH4] keeps words apart and on the sheet, on letter and Arch C', () => {
    expectSound(sheets);
    expectSound(stockSheets(kitOf(house, 'arch-c')));
  });

  test('[SH36] every board of the report is drawn once, and every piece cut from it', () => {
    const boards = house.report.stock.flatMap((each) => each.boards);
    expect(boards.length).toBeGreaterThan(8);
    expect(lines(sheets, 'stock')).toHaveLength(boards.length);
    expect(lines(sheets, 'stock-piece')).toHaveLength(boards.flatMap((board) => board.pieces).length);
    const words = plain(
      texts(sheets, 'stock-pieces')
        .map((item) => item.text)
        .join(' '),
    );
    const figures = figuresOf(house.plan);
    const placed = new Set(boards.flatMap((board) => board.pieces));
    const springing = house.report.pieces.filter((piece) => piece.springMm > 0 && placed.has(piece.id));
    expect(springing.length).toBeGreaterThan(3);
    // The length of the cut list and the label, with the spring apart as there.
    for (const piece of house.report.pieces.filter(({ id }) => placed.has(id))) {
      const spring = piece.springMm > 0 ? `, spring + ${figures.fine(piece.springMm)}` : '';
      const said = plain(`${piece.id} ${figures.cut(piece.overallMm)}${spring}`);
      expect(words).toContain(said);
      if (spring === '') expect(words).not.toContain(`${said}, spring`);
    }
  });

  test('[ST13, SH36] a board that is held says so in a word, and is shut in at both ends', async () => {
    expect(texts(sheets, 'held')).toEqual([]);
    const [first, second] = house.report.stock[0]!.boards;
    const held = await solved({
      ...house.plan,
      heldBoards: {
        [house.report.stock[0]!.profile]: [first!, second!].map((board) => ({
          length: ticksFromMm(board.lengthMm),
          onHand: board.onHand,
          pieces: board.pieces,
        })),
      },
    });
    const drawn = stockSheets(kitOf(held));
    expect(held.report.stock[0]!.boards.filter((board) => board.held)).toHaveLength(2);
    expect(texts(drawn, 'held').map(({ text }) => text)).toEqual(['held', 'held']);
    expect(lines(drawn, 'held-end')).toHaveLength(4);
    expectSound(drawn);
  });

  test('[SH36] pieces lie within their board, to its scale, and apart from each other', () => {
    // Boards of one profile are drawn to one scale: the longest is the widest.
    const drawn = lines(sheets, 'stock').map(itemBox);
    const pieces = lines(sheets, 'stock-piece').map(itemBox);
    let at = 0;
    let board = 0;
    for (const stock of house.report.stock) {
      const longest = Math.max(...stock.boards.map((each) => each.lengthMm));
      const widest = Math.max(
        ...drawn.slice(board, board + stock.boards.length).map((box) => box[2] - box[0]),
      );
      for (const each of stock.boards) {
        const outer = drawn[board]!;
        board += 1;
        expect((outer[2] - outer[0]) / widest).toBeCloseTo(each.lengthMm / longest, 2);
        const ours = pieces.slice(at, at + each.pieces.length);
        at += each.pieces.length;
        for (const [index, box] of ours.entries()) {
          expect(box[0]).toBeGreaterThanOrEqual(outer[0]);
          expect(box[2]).toBeLessThanOrEqual(outer[2] + 0.5);
          if (index > 0) expect(ours[index - 1]![2]).toBeLessThanOrEqual(box[0] + 0.8);
        }
      }
    }
  });

  test('[SH36] an end leans the way it is cut: the edge that is on top is longer where the long point is at the back', () => {
    const byId = new Map(house.report.pieces.map((piece) => [piece.id, piece]));
    const ids = house.report.stock.flatMap((each) => each.boards.flatMap((board) => board.pieces));
    let checked = 0;
    lines(sheets, 'stock-piece').forEach((item, index) => {
      const piece = byId.get(ids[index]!);
      if (!piece) return;
      const [topLeft, topRight, footRight, footLeft] = item.points.map((point) => point[0]);
      const sign = (end: typeof piece.left) =>
        end.sawDeg === 0 || end.longPoint === null ? 0 : end.longPoint === 'back' ? 1 : -1;
      expect(Math.sign(footLeft! - topLeft!), `${piece.id} left`).toBe(sign(piece.left));
      expect(Math.sign(topRight! - footRight!), `${piece.id} right`).toBe(sign(piece.right));
      if (sign(piece.left) !== 0 || sign(piece.right) !== 0) checked += 1;
    });
    expect(checked).toBeGreaterThan(10);
  });

  test('[SH36] the order gives count, price and sum of the report, and their total', () => {
    const counts = texts(sheets, 'order-count').map((item) => Number(item.text));
    expect(counts).toEqual(house.report.purchase.map((line) => line.count));
    const sum = house.report.purchase.reduce((total, line) => total + line.sum!, 0);
    expect(texts(sheets, 'order-total').map((item) => item.text)).toEqual([sum.toFixed(2)]);
  });

  test('[SH36] a sum without all its prices says so, and boards on hand are not ordered', async () => {
    const odd = await solved(
      surveyed((file) => {
        for (const profile of Object.values(file.profiles ?? {})) profile.stock = [{ length: 4876.8 }];
        file.stockOnHand = { base: [{ length: 4876.8, count: 2 }] };
        return file;
      }),
    );
    const words = wordsOf(stockSheets(kitOf(odd)));
    expect(words).toContain('Total: no price is known.');
    expect(words).toContain('on hand are used as well and not ordered');
  });

  test('[SH36] a sum of which some prices are known says how much, in the words of text and report', async () => {
    const some = await solved(
      surveyed((file) => {
        Object.values(file.profiles ?? {}).forEach((profile, at) => {
          profile.stock = at === 0 ? [{ length: 4876.8, price: 29.8 }] : [{ length: 4876.8 }];
        });
        return file;
      }),
    );
    const { purchase, totals } = some.report;
    const known = purchase.reduce((sum, line) => sum + (line.sum ?? 0), 0);
    const without = purchase.filter(({ sum }) => sum === null).length;
    expect(known).toBeGreaterThan(0);
    expect(without).toBeGreaterThan(0);
    expect(totals).toMatchObject({ money: known, unpricedLines: without });
    const pages = stockSheets(kitOf(some));
    expectSound(pages);
    expect(texts(pages, 'order-total').map(({ text }) => text)).toEqual([known.toFixed(2)]);
    const said = `known so far ${known.toFixed(2)}; ${without} of ${purchase.length} lines ${without === 1 ? 'has' : 'have'} no price`;
    expect(wordsOf(pages)).toContain(`Total: ${said}.`);
    expect(cutsToText(some.plan, plainCutsOf(some))).toContain(`All boards: ${said}; for spare: `);
  });

  test('without stock lengths there is no such sheet', async () => {
    const none = await solved(
      surveyed((file) => {
        for (const profile of Object.values(file.profiles ?? {})) profile.stock = [];
        return file;
      }),
    );
    expect(none.report.stock).toEqual([]);
    expect(stockSheets(kitOf(none))).toEqual([]);
  });
});

describe('labels', () => {
  test.each([
    [1, 1],
    [3, 10],
    [20, 50],
  ])(
    '[SH37] one for every board but return pieces, whole in its cell: %i × %i',
    (labelColumns, labelRows) => {
      const asked: Solved = {
        ...house,
        plan: { ...house.plan, settings: { ...house.plan.settings, labelColumns, labelRows } },
      };
      const made = labelSheets(kitOf(asked), roomsOnPaper(asked));
      expectSound(made);
      const ids = texts(made, 'label-id').map((item) => item.text);
      const boards = house.report.pieces.filter((piece) => piece.returnOf === null).map((piece) => piece.id);
      expect(ids.toSorted()).toEqual(boards.toSorted());
      for (const sheet of made) {
        const cells = lines([sheet], 'label').map(itemBox);
        const own = textItems(sheet.items).filter(
          (item) => item.role.startsWith('label-') || item.role === 'end',
        );
        for (const item of own)
          expect(
            cells.filter((cell) => boxesOverlap(cell, item.box) && item.box[3] <= cell[3] + 0.01),
            item.text,
          ).toHaveLength(1);
      }
    },
  );

  test('[SH37] every part of a casing has one, with its points, its saw setting and its stock', () => {
    const made = labelSheets(kitOf(house), roomsOnPaper(house));
    const figures = figuresOf(house.plan);
    const parts = house.report.casings.flatMap((casing) => casing.parts);
    expect(parts.length).toBeGreaterThan(10);
    expect(texts(made, 'label-casing')).toHaveLength(parts.length);
    const notes = plain(
      texts(made, 'label-note')
        .map((item) => item.text)
        .join(' '),
    );
    for (const part of parts) {
      expect(notes).toContain(plain(`long ${figures.cut(part.longMm)}`));
      expect(notes).toContain(plain(`short ${figures.cut(part.shortMm)}`));
    }
  });

  test('[SH37] a room’s name too long for a label ends in a sign that says so, and its level stays', async () => {
    const name = 'Bedroom with the bay window on the garden side of the house';
    const long = await solved(
      surveyed((file) => {
        const [level] = file.levels;
        for (const room of Object.values(level!.rooms!)) room.name = name;
        file.levels.push({ id: 'L2', name: 'Upper floor', ceilingHeight: 2400, nodes: {}, walls: {} });
        return file;
      }),
    );
    const made = labelSheets(kitOf(long), roomsOnPaper(long));
    expectSound(made);
    const said = texts(made, 'label-room')
      .map((item) => plain(item.text))
      .filter((each) => !each.startsWith('outside'));
    const own = long.plan.levels[0]!.name;
    expect(said.length).toBeGreaterThan(10);
    for (const each of said) {
      expect(each.endsWith(`…, ${own}`), each).toBe(true);
      expect(name.startsWith(each.slice(0, each.indexOf('…')))).toBe(true);
    }
  });

  test('[SH37] the ends of a part of a casing are drawn: 45° at the head, longer at its outer edge, square at a foot', () => {
    const made = labelSheets(kitOf(house), roomsOnPaper(house));
    const names = texts(made, 'label-casing').map((item) => item.text);
    const drawn = lines(made, 'label-part');
    const parts = house.report.casings.flatMap((casing) =>
      casing.parts.map(({ part }) => ({ part, sill: casing.parts.some((each) => each.part === 'sill') })),
    );
    expect(drawn).toHaveLength(names.length);
    parts.forEach(({ part, sill }, index) => {
      const [outerLeft, outerRight, innerRight, innerLeft] = drawn[index]!.points as readonly (readonly [
        number,
        number,
      ])[];
      const high = innerLeft![1] - outerLeft![1];
      expect(high).toBeGreaterThan(0);
      // Seen lying with the outer edge on top, the head of a left leg is its right end.
      expect(innerLeft![0] - outerLeft![0]).toBeCloseTo(part === 'legLeft' && !sill ? 0 : high, 6);
      expect(outerRight![0] - innerRight![0]).toBeCloseTo(part === 'legRight' && !sill ? 0 : high, 6);
    });
  });

  test.each([
    ['letter', 1],
    ['a4', 1],
    ['tabloid', 2],
    ['arch-c', 2],
    ['arch-d', 3],
  ] as const)(
    '[SH37] after the boards, on the same grid, so many parts of casings share a cell on %s: %i',
    (sheet, many) => {
      const made = labelSheets(kitOf(house, sheet), roomsOnPaper(house));
      expectSound(made);
      const frames = made.flatMap((each) => lines([each], 'label').map(itemBox));
      const boards = house.report.pieces.filter((piece) => piece.returnOf === null).length;
      // Without the line that it is drawn with.
      const wide = ([x0, , x1]: Box) => x1 - x0 - 0.4;
      const [board] = frames;
      expect(frames.length - boards).toBe(house.report.casings.flatMap((casing) => casing.parts).length);
      frames.forEach((frame, index) => {
        expect(wide(frame)).toBeCloseTo(wide(board!) / (index < boards ? 1 : many), 6);
      });
    },
  );

  test('[SH36, SH37] the stock board on a label is the one that its piece lies on, numbered in its profile', () => {
    const made = labelSheets(kitOf(house), roomsOnPaper(house));
    const said = [...texts(made, 'label-note'), ...texts(made, 'label-place')].flatMap(
      (item) => plain(item.text).match(/stock \d+/g) ?? [],
    );
    const returns = new Set(
      house.report.pieces.filter((piece) => piece.returnOf !== null).map((piece) => piece.id),
    );
    const wanted = house.report.stock.flatMap((stock) =>
      stock.boards.flatMap((board, index) =>
        board.pieces.filter((id) => !returns.has(id)).map(() => `stock ${index + 1}`),
      ),
    );
    expect(said.toSorted()).toEqual(wanted.toSorted());
  });

  test('[SH25, SH37] each says both its settings and whether its length is drawn', () => {
    const made = labelSheets(kitOf(house), roomsOnPaper(house));
    const figures = figuresOf(house.plan);
    const boards = house.report.pieces.filter((piece) => piece.returnOf === null);
    const settings = boards.flatMap((piece) =>
      [piece.left, piece.right].filter((end) => end.sawDeg !== 0 || end.longPoint !== null),
    );
    const said = texts(made, 'end').map((item) => item.text);
    expect(said.toSorted()).toEqual(settings.map((end) => `saw ${figures.saw(end.sawDeg)}`).toSorted());
    const drawn = boards.filter((piece) => piece.lengthFrom === 'drawn').length;
    expect(texts(made, 'label-note').filter((item) => item.text.startsWith('drawn: measure'))).toHaveLength(
      drawn,
    );
  });
});
