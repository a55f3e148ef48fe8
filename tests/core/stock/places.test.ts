// What the cells of a long stretch promise: together they stand for every place that it may be joined at, however many
// parts it has. A made-up stretch, ticks; flat ends that add nothing.

import { describe, expect, it } from 'vitest';
import type { Cell, LongStretch, Part } from '../../../core/stock/long.ts';
import { cellsOf } from '../../../core/stock/places.ts';

const SQUARE = { backOffset: 0, faceOffset: 0 };

/** A stretch of so many parts of 1000 or so, with two studs for each joint, four apart; its joints lie at the later ones. */
function stretchOf(parts: number): LongStretch {
  const L = parts * 1000;
  const joints = Array.from({ length: parts - 1 }, (_, i) => (i + 1) * 1000);
  const between = (from: readonly number[], to: readonly number[]): Part[] =>
    [...to, L].map((end, i) => {
      const need = Math.max(0, end - (i === 0 ? 0 : from[i - 1]!));
      return { need, kerf: 0, shorter: need };
    });
  const partsAt = (cuts: readonly number[]) => between(cuts, cuts);
  return {
    stretch: { L },
    longest: 1010,
    pieces: Array.from({ length: parts }, () => ({ left: SQUARE, right: SQUARE })),
    usual: joints.map((at) => at + 4),
    studs: joints.flatMap((at) => [at, at + 4]),
    partsAt,
    allows: (cuts: readonly number[]) => partsAt(cuts).every(({ need }) => need >= 900 && need <= 1010),
    leastBetween: (cells: readonly Cell[]) =>
      between(
        cells.map(([, to]) => to),
        cells.map(([from]) => from),
      ),
    leastTogether: () => L,
  } as unknown as LongStretch;
}

describe('the cells of a long stretch', () => {
  it.each([3, 8, 14, 20])('[ST12] stand for every way of joining it in %i parts', (parts) => {
    const long = stretchOf(parts);
    const cells = cellsOf(long, 900, 100)!;
    expect(cells.count).toBe(parts);
    const wanted = long.partsAt(long.usual);
    const standsForIt = (option: readonly Part[]): boolean =>
      option.every(({ need }, i) => need <= wanted[i]!.need);
    expect(cells.options.some(standsForIt)).toBe(true);
    // Every place by itself only where none is left out.
    if (parts <= 8) expect(cells.all).toHaveLength(2 ** (parts - 1));
    else expect([cells.all, cells.exact]).toEqual([null, null]);
  });
});
