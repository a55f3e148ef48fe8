// Seeded random cutting orders for the checks of core/stock. Lengths in ticks, prices in hundredths.

import type { ProfileId } from '../../../core/plan/schema.ts';
import type { StockItem, StockLength, StockOrder } from '../../../core/stock/index.ts';
import { random } from '../../seeds.ts';

const INCH = 8128;

/** An order of plain numbers: lengths and counts as published, cut from one length without kerf or trim. */
export function plainOrder(
  length: number,
  pieces: readonly (readonly [length: number, count: number])[],
): StockOrder {
  const items = pieces.flatMap(([need, count], kind) =>
    Array.from(
      { length: count },
      (_, i): StockItem => ({ id: `${kind}-${i}`, need, kerf: 0, sawDeg: [0, 0] }),
    ),
  );
  return orderWith(items, [{ length, price: 1, limit: null, onHand: false }], 0);
}

export function orderWith(
  items: readonly StockItem[],
  lengths: readonly StockLength[],
  endTrim: number,
): StockOrder {
  const profileId = 'any' as ProfileId;
  return { profileId, kind: 'base', items, lengths, endTrim, keepFrom: 12 * INCH, sparePercent: 10 };
}

/**
 * Up to `most` pieces on a grid of whole inches, so that an arc-flow model stays small: square and mitred cuts (their
 * kerfs whole grid steps), one to five stock lengths with or without prices, sometimes limited boards or boards on hand.
 */
export function gridOrder(seed: number, most: number): { order: StockOrder; grid: number } {
  const next = random(seed);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const grid = INCH;
  const pieces = int(1, most);
  const shortest = int(2, 40);
  const longest = int(shortest + 4, 180);
  const kinds = next() < 0.5 ? int(1, 12) : pieces;
  const kerf = next() < 0.25 ? 0 : grid;
  const lengths = Array.from({ length: kinds }, () => ({
    need: int(shortest, longest) * grid,
    wide: next() < 0.4 ? 1 : 0,
  }));
  const items = Array.from({ length: pieces }, (_, i): StockItem => {
    const { need, wide } = lengths[kinds === pieces ? i : int(0, kinds - 1)]!;
    return { id: `p${i}`, need, kerf: kerf * (1 + wide), sawDeg: [wide * 60, 0] };
  });
  const yard = [96, 120, 144, 168, 192].filter((each) => each === 192 || next() < 0.5);
  const priced = next() < 0.7;
  const stock: StockLength[] = yard.map((inches) => ({
    length: inches * INCH,
    price: priced ? Math.round((inches / 12) * (150 + 60 * next())) : null,
    limit: inches !== 192 && next() < 0.15 ? int(1, 3) : null,
    onHand: false,
  }));
  if (next() < 0.3) {
    stock.unshift({ length: int(30, 110) * INCH, price: 0, limit: int(1, 3), onHand: true });
  }
  return { order: orderWith(items, stock, next() < 0.3 ? 0 : grid), grid };
}

/** `pieces` of `kinds` lengths to the tick, with three saw settings, from `stocks` lengths that all have a price. */
export function largeOrder(seed: number, pieces: number, kinds: number, stocks: number): StockOrder {
  const next = random(seed);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const shapes = Array.from({ length: kinds }, () => ({
    need: int(6 * INCH, 150 * INCH),
    ...[
      { kerf: 1016, sawDeg: [0, 0] as const },
      { kerf: 1437, sawDeg: [45, 0] as const },
      { kerf: 1456, sawDeg: [45.75, 45.75] as const },
    ][int(0, 2)]!,
  }));
  const items = Array.from(
    { length: pieces },
    (_, i): StockItem => ({ id: `p${i}`, ...shapes[i < kinds ? i : int(0, kinds - 1)]! }),
  );
  const lengths = Array.from({ length: stocks }, (_, i): StockLength => {
    const feet = 16 - i;
    return {
      length: feet * 12 * INCH,
      price: Math.round(feet * (150 + 40 * next())),
      limit: null,
      onHand: false,
    };
  });
  return orderWith(items, lengths, INCH / 2);
}
