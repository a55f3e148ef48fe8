// Plans on paper, held against the items themselves: nothing overlaps, nothing leaves, and what is measured with a ruler on
// the sheet times the scale is what the plan says. 1 pt = 1/72 in: ISO 32000-1, 8.3.2.1. Scale ratios: 1/4 in to the foot
// is 1:48 and so on (12 in / the fraction), reckoned here from the inch and the foot.

import { describe, expect, test } from 'vitest';
import type { Derived } from '../../../core/report/types.ts';
import { drawnBox, itemBox } from '../../../core/sheets/boxes.ts';
import { type Item, SHEET_SIZES, type Sheet, SMALLEST_TEXT } from '../../../core/sheets/items.ts';
import { flagFindings, planDrawing } from '../../../core/sheets/plan-drawing.ts';
import { pageNumber } from '../../../core/sheets/plan-frame.ts';
import { planFormat, planSheets } from '../../../core/sheets/plan-sheets.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { COTTAGE } from '../../fixtures/cottage.ts';
import { cases, random } from '../../seeds.ts';
import { measure } from './fonts.ts';
import { derived, randomHouse } from './plan-houses.ts';

const OPTIONS = { date: '31 January 2026', revision: 'C' } as const;

/** What every plan sheet must be, whatever is on it. */
function holds(sheet: Sheet, name: string): void {
  const overlaps = textOverlaps(sheet).map(([a, b]) => `${a.text} over ${b.text}`);
  expect(overlaps, name).toEqual([]);
  expect(outsideSheet(sheet), name).toEqual([]);
  for (const item of textItems(sheet.items))
    expect(item.size, `${name}: ${item.text}`).toBeGreaterThanOrEqual(SMALLEST_TEXT);
}

function withPage(sheet: Sheet): Sheet {
  return { ...sheet, items: [...sheet.items, pageNumber(measure, [sheet.width, sheet.height], 12, 138)] };
}

/** Corner numbers printed in rings on the sheets. */
function numbersOn(sheets: readonly Sheet[]): string[] {
  return sheets.flatMap((sheet) =>
    textItems(sheet.items)
      .filter((item) => item.role === 'corner-number')
      .map((item) => item.text),
  );
}

function cornersOf(plan: Derived): string[] {
  return plan.levels.flatMap((level) =>
    level.walk.rooms.flatMap((room) =>
      room.loops.flatMap((loop) => loop.corners.map((each) => String(each.number))),
    ),
  );
}

describe('a level on a sheet', () => {
  test('[SH12] a level without walls has no plan sheet', () => {
    const plan = derived({
      ...structuredClone(COTTAGE),
      levels: [{ id: 'L1', name: 'Empty', ceilingHeight: 2400 }],
    });
    expect(planSheets(measure, plan, { ...OPTIONS, sheet: 'letter' })).toEqual([]);
  });

  test('[SH12] one wall that encloses nothing is drawn, with the finding that it does not close', () => {
    const plan = derived({
      ...structuredClone(COTTAGE),
      levels: [
        {
          id: 'L1',
          name: 'One wall',
          ceilingHeight: 2400,
          nodes: { n1: [0, 0], n2: [3000, 0] },
          walls: { w1: { from: 'n1', to: 'n2', thickness: 100 } },
        },
      ],
    });
    const [sheet] = planSheets(measure, plan, { ...OPTIONS, sheet: 'a4' });
    holds(sheet!, 'one wall');
    expect(areas(sheet!.items)).toHaveLength(1);
  });

  for (const size of Object.keys(SHEET_SIZES) as (keyof typeof SHEET_SIZES)[])
    for (const bare of [false, true])
      test(`[SH4] [SH11] the cottage on ${size}${bare ? ', bare' : ''}: no overlap, nothing outside, every corner numbered once`, () => {
        const plan = derived(structuredClone(COTTAGE));
        const sheets = planSheets(measure, plan, { ...OPTIONS, sheet: size, bare });
        for (const sheet of sheets) holds(withPage(sheet), sheet.bookmark);
        expect(numbersOn(sheets).toSorted()).toEqual(cornersOf(plan).toSorted());
        const [a, b] = [sheets[0]!.width, sheets[0]!.height].toSorted((p, q) => p - q);
        expect([a, b]).toEqual([...SHEET_SIZES[size]]);
      });

  test('[SH12] a bare plan has neither joints, boards, dimensions nor findings', () => {
    const plan = derived(structuredClone(COTTAGE));
    const roles = rolesOn(planSheets(measure, plan, { ...OPTIONS, sheet: 'letter', bare: true }));
    for (const role of ['joint-letter', 'piece-id', 'board', 'dimension', 'finding', 'dimension-line'])
      expect(roles.has(role), role).toBe(false);
    const full = rolesOn(planSheets(measure, plan, { ...OPTIONS, sheet: 'letter' }));
    for (const role of [
      'joint-letter',
      'piece-id',
      'board',
      'dimension',
      'finding',
      'dimension-line',
      'casing',
    ])
      expect(full.has(role), role).toBe(true);
  });

  test('[SH14] every finding with a place stands on the plan by its letter and beside it in words', () => {
    const plan = derived(structuredClone(COTTAGE));
    const sheets = planSheets(measure, plan, { ...OPTIONS, sheet: 'tabloid' });
    const texts = sheets.flatMap((sheet) => textItems(sheet.items));
    const flagged = flagFindings(plan.findings, plan.levels[0]!.walk.levelId);
    expect(flagged.length).toBeGreaterThan(2);
    const letters = (role: string) => texts.filter((each) => each.role === role).map((each) => each.text);
    expect(letters('finding').toSorted()).toEqual(flagged.map((each) => each.letter).toSorted());
    expect(letters('finding-key')).toEqual(flagged.map((each) => each.letter));
  });
});

describe('random houses', () => {
  const count = cases(60, 8);
  test(`[SH4] [SH11] ${count} random houses, all sheets: no overlap, nothing outside, every corner numbered`, () => {
    let [sheetsSeen, labels, tiled] = [0, 0, 0];
    for (let seed = 1; seed <= count; seed++) {
      const next = random(seed);
      const large = seed % 4 === 0;
      const plan = derived(
        randomHouse(next, large ? 7 : 1 + Math.floor(next() * 4), large ? 6 : 1 + Math.floor(next() * 3)),
      );
      const size = (['letter', 'a4', 'tabloid', 'a3'] as const)[seed % 4]!;
      const sheets = planSheets(measure, plan, { ...OPTIONS, sheet: size });
      for (const sheet of sheets) holds(withPage(sheet), `seed ${seed}, ${sheet.bookmark}`);
      expect([...new Set(numbersOn(sheets))].toSorted(), `seed ${seed}`).toEqual(cornersOf(plan).toSorted());
      sheetsSeen += sheets.length;
      tiled += sheets.filter((sheet) => rolesOn([sheet]).has('match-line')).length;
      labels += sheets.reduce((sum, sheet) => sum + textItems(sheet.items).length, 0);
    }
    console.log(
      `${count} houses (seeds 1..${count}), ${sheetsSeen} sheets, ${tiled} of them tiles, ${labels} texts`,
    );
  });

  test('[SH11] rooms alone: no overlap, nothing outside the frame given, every corner numbered once', () => {
    let rooms = 0;
    for (let seed = 100; seed < 100 + cases(40, 6); seed++) {
      const plan = derived(randomHouse(random(seed), 3, 2));
      const level = plan.levels[0]!;
      for (const room of level.walk.rooms) {
        const frame = [40, 50, 40 + 320 + (seed % 5) * 60, 380] as const;
        const drawing = planDrawing(measure, level, frame, {
          units: plan.plan.units,
          format: planFormat(plan.plan),
          room: room.id,
          findings: flagFindings(plan.findings, level.walk.levelId),
        })!;
        holds(
          { width: 900, height: 700, items: drawing.items, bookmark: '', parent: null },
          `seed ${seed} ${room.id}`,
        );
        const [x0, y0, x1, y1] = drawnBox(drawing.items);
        expect([
          x0 >= frame[0] - 0.01,
          y0 >= frame[1] - 0.01,
          x1 <= frame[2] + 0.01,
          y1 <= frame[3] + 0.01,
        ]).toEqual([true, true, true, true]);
        const numbers = numbersOn([{ items: drawing.items } as unknown as Sheet]).toSorted();
        const own = room.loops.flatMap((loop) => loop.corners.map((each) => String(each.number))).toSorted();
        const left = drawing.unplaced.filter((each) => each.kind === 'corner').length;
        expect(numbers.length + left, `seed ${seed} ${room.id}`).toBe(own.length);
        rooms++;
      }
    }
    console.log(`${rooms} rooms drawn alone`);
  });
});

describe('true to scale', () => {
  /** Ticks on paper to millimetres: 25.4 mm to the inch, 72 points to the inch. */
  const paperMm = (points: number) => (points / 72) * 25.4;

  test('[SH10] each dimension line, measured on paper and multiplied by the scale, is its face to within 0.1 mm on paper', () => {
    let seen = 0;
    for (let seed = 1; seed <= cases(40, 6); seed++) {
      const plan = derived(randomHouse(random(seed), 2, 2));
      const [sheet] = planSheets(measure, plan, { ...OPTIONS, sheet: 'a3' });
      const { ratio, origin, pointsPerTick } = sheet!.scale!;
      expect(pointsPerTick).toBeCloseTo(72 / (25.4 * 320) / ratio, 12);
      const faces = plan.levels[0]!.walk.rooms.flatMap((room) =>
        room.loops.flatMap((loop) => [...loop.segments]),
      );
      for (const line of linesOf(sheet!.items, 'dimension-line')) {
        const [a, b] = [line.points[0]!, line.points[1]!];
        // The face it belongs to: parallel, and its ends square across from the line's ends.
        const offsets = faces.map((face) => {
          const at = (p: readonly [number, number]) =>
            [
              origin[0] + (p[0] / 320 / ratio / 25.4) * 72,
              origin[1] + (p[1] / 320 / ratio / 25.4) * 72,
            ] as const;
          const [p, q] = [at(face.start), at(face.end)];
          const across = (from: readonly [number, number], to: readonly [number, number]) =>
            Math.abs((to[0] - from[0]) * face.along[0] + (to[1] - from[1]) * face.along[1]);
          return { face, off: Math.max(across(p, a), across(q, b)) };
        });
        const best = offsets.filter(({ off }) => paperMm(off) < 0.1);
        expect(best.length, `seed ${seed}`).toBeGreaterThan(0);
        const long = paperMm(Math.hypot(b[0] - a[0], b[1] - a[1])) * ratio;
        const nearest = Math.min(...best.map(({ face }) => Math.abs(face.drawn / 320 - long)));
        expect(nearest / ratio, `seed ${seed}: ${long} mm`).toBeLessThan(0.1);
        seen++;
      }
    }
    expect(seen).toBeGreaterThan(20);
    console.log(`${seen} dimension lines measured`);
  });

  test('[SH10] the figure beside a dimension line is the plan’s own length, printed once', () => {
    const plan = derived(structuredClone(COTTAGE));
    const [sheet] = planSheets(measure, plan, { ...OPTIONS, sheet: 'arch-d' });
    const format = planFormat(plan.plan);
    const figures = textItems(sheet!.items)
      .filter((each) => each.role === 'dimension')
      .map((each) => each.text);
    const all = plan.levels[0]!.walk.rooms.flatMap((room) =>
      room.loops.flatMap((loop) =>
        loop.segments.filter((each) => each.parts.length > 0).map((each) => format.length(each.drawn)),
      ),
    );
    expect(figures.toSorted()).toEqual(all.toSorted());
  });

  test('[SH10] a face measured on site prints what was measured, in bold', () => {
    const file = structuredClone(COTTAGE);
    file.levels[0]!.faces = { 'w3:right': { measured: 4466.0 } };
    const plan = derived(file);
    const [sheet] = planSheets(measure, plan, { ...OPTIONS, sheet: 'arch-c' });
    const bold = textItems(sheet!.items).filter((each) => each.role === 'dimension-measured');
    expect(bold.map((each) => [each.text, each.font])).toEqual([
      [planFormat(plan.plan).length(4466 * 320), 'semibold'],
    ]);
  });

  test('[SH12] walls fall where origin and scale say: the outermost faces to 0.1 mm on paper', () => {
    const plan = derived(structuredClone(COTTAGE));
    for (const size of ['letter', 'a3'] as const) {
      const [sheet] = planSheets(measure, plan, { ...OPTIONS, sheet: size });
      const walls = areas(sheet!.items).find((each) => each.role === 'walls')!;
      const xs = walls.rings.flat().map(([x]) => x);
      const wide = paperMm(Math.max(...xs) - Math.min(...xs)) * sheet!.scale!.ratio;
      // Centre lines 0 to 9200 mm, half of 165 mm on either side.
      expect(Math.abs(wide - 9365) / sheet!.scale!.ratio).toBeLessThan(0.1);
    }
  });

  test('[SH12] the scale taken is the largest that fits: the next larger one would not', () => {
    const plan = derived(structuredClone(COTTAGE));
    const ratios = (['letter', 'tabloid', 'arch-c', 'arch-d'] as const).map(
      (sheet) => planSheets(measure, plan, { ...OPTIONS, sheet })[0]!.scale!.ratio,
    );
    // Reckoned by hand for 9.365 by 7.165 m of walls and half an inch of margin. Letter: at 1:48 553 pt wide, but 540 are
    // left standing and 530 lying, beside the words. Tabloid: at 1:32 830 by 635 pt; 720 are left standing, and lying under
    // 600 in height, less heading, legend and foot. Arch C: at 1:16 1270 pt high of 1224. Arch D: at 1:12 1693 of 1656.
    expect(ratios).toEqual([64, 48, 24, 16]);
  });
});

describe('tiles', () => {
  const stretched = (by: number) => {
    const file = structuredClone(COTTAGE);
    const level = file.levels[0]!;
    for (const [key, [x, y]] of Object.entries(level.nodes!)) level.nodes![key] = [x * by, y * by];
    for (const room of Object.values(level.rooms!)) room.at = [room.at[0] * by, room.at[1] * by];
    return derived(file);
  };

  test('[SH13] a house too large for its sheet is tiled, every corner is numbered on one tile, and every tile has its key', () => {
    const plan = stretched(5);
    const sheets = planSheets(measure, plan, { ...OPTIONS, sheet: 'letter' });
    const tiles = sheets.filter((sheet) => sheet.scale);
    expect(tiles.length).toBeGreaterThan(3);
    for (const sheet of sheets) holds(withPage(sheet), sheet.bookmark);
    expect(numbersOn(sheets).toSorted()).toEqual(cornersOf(plan).toSorted());
    for (const sheet of tiles) {
      expect(sheet.scale!.ratio).toBe(96);
      expect(rolesOn([sheet])).toContain('key-here');
    }
  });

  test('[SH13] a match line is at the same place of the house on both tiles, and both name both', () => {
    const plan = stretched(3.2);
    const tiles = planSheets(measure, plan, { ...OPTIONS, sheet: 'letter' }).filter((sheet) => sheet.scale);
    const places = new Map<string, number[]>();
    for (const sheet of tiles) {
      const labels = textItems(sheet.items).filter((each) => each.role === 'match-line');
      for (const label of labels) {
        const upright = (label.turn ?? 0) === 0;
        const axis = upright ? 0 : 1;
        const middle = (label.box[axis] + label.box[axis + 2]!) / 2;
        const at = (middle - sheet.scale!.origin[axis]) / sheet.scale!.pointsPerTick;
        const list = places.get(label.text);
        if (list) list.push(at);
        else places.set(label.text, [at]);
      }
    }
    expect(places.size).toBeGreaterThan(0);
    for (const [name, list] of places) {
      expect(list.length, name).toBe(4);
      // Within 0.5 mm of the house.
      expect(Math.max(...list) - Math.min(...list), name).toBeLessThan(0.5 * 320 * 96);
    }
  });

  test('[SH13] a tiled level with a name of many lines still has its head clear of its drawing', () => {
    const file = structuredClone(COTTAGE);
    const level = file.levels[0]!;
    level.name = 'The long wing and everything north of it '.repeat(4);
    for (const [key, [x, y]] of Object.entries(level.nodes!)) level.nodes![key] = [x * 3, y * 3];
    for (const sheet of planSheets(measure, derived(file), { ...OPTIONS, sheet: 'arch-c' }))
      holds(sheet, sheet.bookmark);
    for (const sheet of planSheets(measure, derived(file), { ...OPTIONS, sheet: 'letter' }))
      holds(sheet, sheet.bookmark);
  });

  test('[SH13] two sheds a kilometre apart do not make a thousand sheets', () => {
    const file = structuredClone(COTTAGE);
    const level = file.levels[0]!;
    const shed = (name: string, x: number, y: number) => {
      const at = [
        [x, y],
        [x + 3000, y],
        [x + 3000, y + 2000],
        [x, y + 2000],
      ] as const;
      at.forEach((p, k) => {
        level.nodes![`${name}${k}`] = [...p];
        level.walls![`${name}w${k}`] = { from: `${name}${k}`, to: `${name}${(k + 1) % 4}`, thickness: 100 };
      });
    };
    shed('east', 900_000, 0);
    shed('south', 0, 800_000);
    const sheets = planSheets(measure, derived(file), { ...OPTIONS, sheet: 'letter' });
    expect(sheets.length).toBeLessThan(20);
    for (const sheet of sheets) holds(sheet, sheet.bookmark);
  });
});

function areas(items: readonly Item[]): Extract<Item, { kind: 'area' }>[] {
  return items.flatMap((item) =>
    item.kind === 'clip' ? areas(item.items) : item.kind === 'area' && item.role === 'walls' ? [item] : [],
  );
}

function linesOf(items: readonly Item[], role: string): Extract<Item, { kind: 'line' }>[] {
  return items.flatMap((item) =>
    item.kind === 'clip'
      ? linesOf(item.items, role)
      : item.kind === 'line' && item.role === role
        ? [item]
        : [],
  );
}

function rolesOn(sheets: readonly Sheet[]): Set<string> {
  const seen = new Set<string>();
  const walk = (items: readonly Item[]) => {
    for (const item of items) {
      if (item.kind === 'clip') walk(item.items);
      else if (item.role) seen.add(item.role);
      expect(itemBox(item).every(Number.isFinite)).toBe(true);
    }
  };
  for (const sheet of sheets) walk(sheet.items);
  return seen;
}
