// Floor plans at a scale that was asked for: on one sheet where they fit, else on tiles that leave nothing out; what cannot
// be is refused in one sentence. Ratios reckoned here from the inch and the foot: 1/4 in to the foot is 12 / (1/4) = 48.

import { describe, expect, test } from 'vitest';
import { SHEET_SIZES, type Sheet, type SheetSize } from '../../../core/sheets/items.ts';
import { writePdf } from '../../../core/sheets/pdf/writer.ts';
import { planSheets, tilesFault } from '../../../core/sheets/plan-sheets.ts';
import { PLAN_SCALES, readPlanScale } from '../../../core/sheets/scale.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { scaleFault, sheetSet } from '../../../core/sheets/sheetset.ts';
import { COTTAGE } from '../../fixtures/cottage.ts';
import { fonts, measure } from './fonts.ts';
import { solved, surveyed } from './page-solved.ts';
import { derived } from './plan-houses.ts';

const SIZES = Object.keys(SHEET_SIZES) as SheetSize[];
const OPTIONS = { date: '2026-01-31' } as const;
const imperial = derived(structuredClone(COTTAGE));
const metric = derived({ ...structuredClone(COTTAGE), units: 'metric' });

/** Where the drawing of a plan may be seen on its sheet: all else of it is cut off. */
function windowOf({ items }: Sheet): readonly [number, number, number, number] {
  const clip = items.find((item) => item.kind === 'clip');
  if (clip?.kind !== 'clip') throw new Error('a plan is drawn in a clip');
  return clip.box;
}

describe('what may be typed', () => {
  test('[SH8] every scale by its inches or its ratio, with or without the inch mark, spaces or a hyphen', () => {
    const typed = {
      '3': 4,
      '1 1/2': 8,
      '1-1/2"': 8,
      '1': 12,
      ' 3/4 ': 16,
      '1/2″': 24,
      '3/8 in': 32,
      '1/4': 48,
      '1⁄4': 48,
      '3/16': 64,
      '1/8': 96,
    };
    for (const [words, ratio] of Object.entries(typed))
      expect(readPlanScale(words, 'imperial'), words).toMatchObject({ ratio });
    for (const ratio of [5, 10, 20, 25, 50, 100])
      expect(readPlanScale(`1:${ratio}`, 'metric')).toMatchObject({ ratio });
    expect(readPlanScale('1 : 50', 'metric')).toMatchObject({ ratio: 50 });
  });

  test('[SH8] anything else is answered by one sentence that lists what there is, in the plan’s own units', () => {
    for (const words of ['1/5', '', 'fits', '1:48', '0', '-1/4', '1/64'])
      expect(readPlanScale(words, 'imperial')).toMatch(
        /is no scale .* 3, 1 1\/2, 1, 3\/4, 1\/2, 3\/8, 1\/4, 3\/16, 1\/8 \(inches/,
      );
    for (const words of ['1/4', '50', '1:51', '1:200'])
      expect(readPlanScale(words, 'metric')).toMatch(/is no scale .* 1:5, 1:10, 1:20, 1:25, 1:50, 1:100/);
  });
});

describe('at the scale asked for', () => {
  test('[SH12] every sheet size and every scale: at that scale, nothing overlaps or leaves, every corner numbered or listed', () => {
    let [whole, tiled, refused] = [0, 0, 0];
    for (const plan of [imperial, metric]) {
      const corners = plan.levels[0]!.walk.rooms.flatMap((room) =>
        room.loops.flatMap((loop) => loop.corners.map((each) => String(each.number))),
      );
      // Every second scale on each size, so that each stands on half of the sizes.
      for (const sheet of SIZES)
        for (const scale of PLAN_SCALES[plan.plan.units].filter(
          (_, k) => (k + SIZES.indexOf(sheet)) % 2 === 0,
        )) {
          const where = `${scale.key} on ${sheet}`;
          const options = { ...OPTIONS, sheet, scale };
          if (tilesFault(measure, plan, options) !== null) {
            refused++;
            continue;
          }
          const sheets = planSheets(measure, plan, options);
          const drawn = sheets.filter((each) => each.scale);
          for (const each of drawn) expect(each.scale!.ratio, where).toBe(scale.ratio);
          for (const each of sheets) {
            expect(
              textOverlaps(each).map(([a, b]) => `${a.text} over ${b.text}`),
              where,
            ).toEqual([]);
            expect(outsideSheet(each), where).toEqual([]);
          }
          const texts = sheets.flatMap((each) => textItems(each.items));
          const numbers = texts.filter((each) => each.role === 'corner-number').map((each) => each.text);
          const listed = texts
            .filter((each) => each.role === 'note')
            .flatMap(({ text }) => text.match(/\d+/g) ?? []);
          for (const corner of corners) expect([...numbers, ...listed], where).toContain(corner);
          expect(new Set(numbers).size, where).toBe(numbers.length);
          if (drawn.length === 1) whole++;
          else tiled++;
        }
    }
    console.log(`scales: ${whole} plans on one sheet, ${tiled} tiled, ${refused} refused`);
    expect(Math.min(whole, tiled, refused)).toBeGreaterThan(0);
  });

  test('[SH13] tiles leave nothing out: each step of 5 cm along each face is seen on one of them at least', () => {
    const scale = readPlanScale('1/2', 'imperial');
    if (typeof scale === 'string') throw new Error(scale);
    for (const sheet of ['letter', 'a4', 'tabloid'] as const) {
      const tiles = planSheets(measure, imperial, { ...OPTIONS, sheet, scale }).filter((each) => each.scale);
      expect(tiles.length, sheet).toBeGreaterThan(1);
      let steps = 0;
      for (const room of imperial.levels[0]!.walk.rooms)
        for (const { start, along, drawn } of room.loops.flatMap((loop) => loop.segments))
          for (let at = 0; at <= drawn; at += 50 * 320) {
            const p = [start[0] + along[0] * at, start[1] + along[1] * at] as const;
            const seen = tiles.some((tile) => {
              const { origin, pointsPerTick } = tile.scale!;
              const [x, y] = [origin[0] + p[0] * pointsPerTick, origin[1] + p[1] * pointsPerTick];
              const [x0, y0, x1, y1] = windowOf(tile);
              return x >= x0 && x <= x1 && y >= y0 && y <= y1;
            });
            expect(seen, `${sheet}: ${p}`).toBe(true);
            steps++;
          }
      expect(steps).toBeGreaterThan(500);
    }
  });

  test('[SH13] where its tiles would be too many it is refused in one sentence, and not drawn', () => {
    const scale = PLAN_SCALES.imperial[0]!;
    const options = { ...OPTIONS, sheet: 'letter', scale } as const;
    expect(tilesFault(measure, imperial, options)).toMatch(
      /^At 3″ = 1′‐0″ the plan of Ground floor would take \d+ sheets, more than 60; choose a smaller scale or a larger sheet\.$/,
    );
    expect(() => planSheets(measure, imperial, options)).toThrow('would take');
    expect(tilesFault(measure, imperial, { ...OPTIONS, sheet: 'arch-d', scale })).toBeNull();
  });
});

describe('the whole set', () => {
  test('[SH12] the floor plans alone follow the scale; without one they are as large as fits', async () => {
    const house = await solved(surveyed());
    const planOf = (scale?: string) =>
      sheetSet(house, measure, { sheet: 'letter', date: '2026-01-31', scale }).sheets.filter(
        (sheet) => sheet.scale,
      );
    expect(planOf().map((sheet) => sheet.scale!.ratio)).toEqual([64]);
    expect(planOf('1/8').map((sheet) => sheet.scale!.ratio)).toEqual([96]);
    const tiles = planOf('1/4');
    expect(tiles.length).toBeGreaterThan(1);
    expect(new Set(tiles.map((sheet) => sheet.scale!.ratio))).toEqual(new Set([48]));
  });

  test('[SH8] a scale that cannot be is told before, and the set is not made', async () => {
    const house = await solved(surveyed());
    const options = { sheet: 'letter', date: '2026-01-31' } as const;
    expect(scaleFault(house, measure, options)).toBeNull();
    expect(scaleFault(house, measure, { ...options, scale: '1/4' })).toBeNull();
    for (const scale of ['1:50', '3']) {
      const fault = scaleFault(house, measure, { ...options, scale });
      expect(fault).toMatch(/^[^.]+\.$/);
      expect(() => sheetSet(house, measure, { ...options, scale })).toThrow(fault!);
    }
  });

  test('[SH7] the same plan, scale and date give the same bytes, another scale others', async () => {
    const house = await solved(surveyed());
    const bytesAt = async (scale: string) =>
      Buffer.from(
        await writePdf(sheetSet(house, measure, { sheet: 'a4', date: '2026-01-31', scale }), fonts, {
          date: '2026-01-31',
          creator: 'Copewright',
        }),
      );
    const first = await bytesAt('1/4');
    expect(first.equals(await bytesAt('1/4'))).toBe(true);
    expect(first.equals(await bytesAt('3/16'))).toBe(false);
  });
});
