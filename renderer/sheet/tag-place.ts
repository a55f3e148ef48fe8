// Where a tag with words stands beside a place that was caught. Pixels.

import type { Point } from '../../core/graph/index.ts';
import type { Box } from '../../core/sheets/boxes.ts';

/** Of a tag: half its height, and what stands left and right of its words. */
export const [HALF, PAD] = [9.5, 5];

/**
 * Where words of this width begin, and their middle line: right below the place, else beside it where they cover no figure
 * and run out of the sheet nowhere; where neither can be had, within the sheet.
 */
export function tagBeside(
  [x, y]: Point,
  wide: number,
  taken: readonly Box[],
  { width, height }: { readonly width: number; readonly height: number },
): Point {
  const places: readonly Point[] = [
    [x + 12, y + 18],
    [x + 12, y - 18],
    [x - 12 - wide, y + 18],
    [x - 12 - wide, y - 18],
  ];
  const within = places.filter(
    ([left, middle]) =>
      left >= PAD && left + wide + PAD <= width && middle >= HALF && middle + HALF <= height,
  );
  const free = within.find(([left, middle]) =>
    taken.every(
      ([x0, y0, x1, y1]) =>
        left - PAD >= x1 || left + wide + PAD <= x0 || middle - HALF >= y1 || middle + HALF <= y0,
    ),
  );
  return free ?? within[0] ?? places[0]!;
}
