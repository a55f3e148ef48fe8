// Floor plans at a scale that was asked for, measured in the PDF with a reader that is not the writer (pdfjs-dist 5.6.205): a
// wall of known length, times the scale, on every sheet size. 72 points to the inch (ISO 32000-1, 8.3.2.1); 3/8 in to the
// foot is 1:32.

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { SHEET_SIZES, type SheetSize } from '../../core/sheets/index.ts';
import { pdfOf } from '../../electron/services/export.ts';
import type { PlanJson, Vec } from './lib/file.ts';
import { bestShift, readPdf } from './lib/pdf-reader.ts';
import { solve } from './product-solved.ts';

const MM = 72 / 25.4;
interface Asked {
  readonly asked: string;
  readonly ratio: number;
  readonly sheets: readonly SheetSize[];
}
/** Every sheet size, with the units that it is measured in; one with both. */
const SCALES: Record<PlanJson['units'], Asked> = {
  imperial: { asked: '3/8', ratio: 32, sheets: ['letter', 'tabloid', 'arch-c', 'arch-d'] },
  metric: { asked: '1:25', ratio: 25, sheets: ['a4', 'a3', 'letter'] },
};

test('no sheet size is left out', () => {
  const sheets = Object.values(SCALES).flatMap((each) => each.sheets);
  expect(new Set(sheets)).toEqual(new Set(Object.keys(SHEET_SIZES)));
});

test.each(['imperial', 'metric'] as const)(
  '[SH8] [SH12] a wall measures true at the scale asked for on every sheet size, whole or tiled: %s',
  async (units) => {
    const text = readFileSync(
      new URL('../../demo-data/thimble-cottage.copewright.json', import.meta.url),
      'utf8',
    );
    const plan: PlanJson = { ...(JSON.parse(text) as PlanJson), units };
    const solved = await solve(JSON.stringify(plan));
    const { asked, ratio, sheets } = SCALES[units];
    // The smallest room's walls, of known lengths: they stand whole on some tile.
    const { loops, name } = solved.report.rooms.toSorted((a, b) => a.areaMm2 - b.areaMm2)[0]!;
    const corners = loops[0]!.corners.map(({ at }) => at);
    const counts: string[] = [];
    for (const sheet of sheets) {
      const made = await pdfOf(solved, { sheet, date: '2026-11-24', scale: asked });
      if (!made.ok) throw new Error(made.message);
      const { pages } = await readPdf(made.bytes);
      const named = plan.levels[0]!.name;
      const plans = pages.filter(({ texts }) => texts[0]!.text.replace(/, [A-Z]+\d+$/, '') === named);
      expect(plans.length, sheet).toBeGreaterThan(0);
      const foundAt = (by: number): number =>
        Math.max(
          ...plans.map(({ points }) =>
            bestShift(
              corners.map(([x, y]): Vec => [(x * MM) / by, (-y * MM) / by]),
              points,
              0.05,
            ),
          ),
        );
      expect(foundAt(ratio), `${name} on ${sheet}`).toBe(corners.length);
      expect(foundAt(ratio * 1.01), `${name} on ${sheet}, a scale 1 % off`).toBeLessThan(corners.length);
      counts.push(`${sheet} ${plans.length}`);
    }
    console.log(`plans at 1:${ratio}, sheets: ${counts.join(', ')}`);
  },
  120_000,
);
