// The marks as data: do they show what they say? Shapes are held against the geometry of the joint itself (which board
// reaches the wall, which way the slant leans), not against how they happen to be drawn.

import { describe, expect, test } from 'vitest';
import { itemBox } from '../../../core/sheets/boxes.ts';
import type { Item } from '../../../core/sheets/items.ts';
import {
  cornerMark,
  endMark,
  endPicture,
  MARK_LETTERS,
  MARK_SIZE,
  type MarkCorner,
} from '../../../core/sheets/marks.ts';
import { legendStrip } from '../../../core/sheets/plan-legend.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { measure } from './fonts.ts';

/** A corner whose wall walked out on points `turnDeg` clockwise from the right, with `roomDeg` through the room. */
function corner(roomDeg: number, turnDeg: number, worked: MarkCorner['worked']): MarkCorner {
  const unit = (deg: number): [number, number] => [
    Math.cos((deg * Math.PI) / 180),
    Math.sin((deg * Math.PI) / 180),
  ];
  const after = unit(turnDeg);
  // The room is on the right hand, so from the wall walked out on it opens clockwise (y down), towards the other wall.
  const before = unit(turnDeg + roomDeg);
  return {
    before,
    after,
    inwardAfter: [-after[1], after[0]],
    inwardBefore: [before[1], -before[0]],
    kind: roomDeg < 180 ? 'inside' : 'outside',
    worked,
  };
}

const shapesOf = (items: readonly Item[]) =>
  items.flatMap((item) => (item.kind === 'clip' ? item.items : [])).filter((item) => item.kind === 'line');

describe('corner marks', () => {
  test('[SH9] every kind at every angle: the letter within reach of the square, one letter, all finite', () => {
    for (const joint of ['cope', 'butt', 'mitre', 'block'] as const)
      for (let roomDeg = 15; roomDeg < 360; roomDeg += 15)
        for (let turn = 0; turn < 360; turn += 45) {
          if (roomDeg === 180) continue;
          for (const worked of ['before', 'after'] as const) {
            const items = cornerMark(measure, joint, corner(roomDeg, turn, worked), [50, 50]);
            const letters = textItems(items);
            expect(letters.map((each) => each.text)).toEqual([MARK_LETTERS[joint]]);
            const [x0, y0, x1, y1] = letters[0]!.box;
            const reach = MARK_SIZE / 2 + 3;
            expect(
              Math.min(x0 - 50 + reach, y0 - 50 + reach, 50 + reach - x1, 50 + reach - y1),
            ).toBeGreaterThan(0);
            for (const item of items) expect(itemBox(item).every(Number.isFinite)).toBe(true);
          }
        }
  });

  test('[SH9] the grey board is the worked one: it lies along the wall that is named', () => {
    for (const joint of ['cope', 'butt'] as const)
      for (const worked of ['before', 'after'] as const) {
        const at = corner(90, 0, worked);
        const shapes = shapesOf(cornerMark(measure, joint, at, [0, 0]));
        const grey = shapes.filter((each) => each.fill === 'faint');
        const white = shapes.filter((each) => each.fill === 'paper');
        expect([grey.length, white.length]).toEqual([1, 1]);
        // Far end of each board along its own wall.
        const along = (item: (typeof shapes)[number], way: readonly [number, number]) =>
          Math.max(...item.points.map(([x, y]) => x * way[0] + y * way[1]));
        const [mine, other] = worked === 'after' ? [at.after, at.before] : [at.before, at.after];
        expect(along(grey[0]!, mine)).toBeGreaterThan(along(grey[0]!, other));
        expect(along(white[0]!, other)).toBeGreaterThan(along(white[0]!, mine));
      }
  });

  test('[SH9] the board that runs through reaches the corner of the walls, the worked one stops at its face', () => {
    const at = corner(90, 0, 'after');
    const shapes = shapesOf(cornerMark(measure, 'butt', at, [0, 0]));
    const wall = shapes.find((each) => !each.fill && each.points.length === 3)!;
    const [cx, cy] = wall.points[1]!;
    const nearest = (item: (typeof shapes)[number]) =>
      Math.min(...item.points.map(([x, y]) => Math.hypot(x - cx, y - cy)));
    const through = shapes.find((each) => each.fill === 'paper')!;
    const worked = shapes.find((each) => each.fill === 'faint')!;
    expect(nearest(through)).toBeCloseTo(0, 9);
    // As thick as the through board: b = 0.17 of the square.
    expect(nearest(worked)).toBeCloseTo(MARK_SIZE * 0.17, 9);
  });

  test('[SH9] a mitre’s line halves the angle between the walls, inside and outside', () => {
    for (const roomDeg of [70, 90, 135, 200, 270, 300]) {
      const at = corner(roomDeg, 20, null);
      const shapes = shapesOf(cornerMark(measure, 'mitre', at, [0, 0]));
      const joint = shapes.find((each) => !each.fill && each.points.length === 2)!;
      const [a, b] = joint.points as [readonly [number, number], readonly [number, number]];
      const way = Math.atan2(b[1] - a[1], b[0] - a[0]);
      const half = ((20 + roomDeg / 2) * Math.PI) / 180;
      expect(Math.cos(way - half), `${roomDeg}°`).toBeCloseTo(1, 9);
    }
  });

  test('[SH9] each kind differs in shape, not in letter or colour alone', () => {
    const at = corner(90, 0, 'after');
    const outlines = (['cope', 'butt', 'mitre', 'block'] as const).map((joint) =>
      JSON.stringify(shapesOf(cornerMark(measure, joint, at, [0, 0])).map((each) => each.points)),
    );
    expect(new Set(outlines).size).toBe(4);
    const ends = (['scarf', 'return', 'scribe', 'square'] as const).map((kind) =>
      JSON.stringify(endMark(measure, kind, [1, 0], [0, 1], [0, 0]).map((each) => ({ ...each, text: '' }))),
    );
    expect(new Set(ends).size).toBe(4);
  });
});

describe('pictures of ends', () => {
  const BOX = [0, 0, 40, 16] as const;
  /** The cut of a picture: its saw line from back (top) to face, as the outline draws it. */
  const cutOf = (end: Parameters<typeof endPicture>[0], side: 'left' | 'right') => {
    const outline = endPicture(end, side, BOX).find(
      (item) => item.kind === 'line' && !item.fill && !item.closed && item.points.length >= 4,
    );
    if (outline?.kind !== 'line') throw new Error('no outline');
    return { back: outline.points[1]!, face: outline.points.at(-2)! };
  };

  test('[SH15] a left end with its long point at the back reaches further left at the wall, a right end further right', () => {
    const left = cutOf({ end: 'mitre', sawDeg: 45, longPoint: 'back' }, 'left');
    expect(left.back[0]).toBeLessThan(left.face[0]);
    const right = cutOf({ end: 'mitre', sawDeg: 45, longPoint: 'back' }, 'right');
    expect(right.back[0]).toBeGreaterThan(right.face[0]);
    const outside = cutOf({ end: 'mitre', sawDeg: 45, longPoint: 'face' }, 'right');
    expect(outside.back[0]).toBeLessThan(outside.face[0]);
  });

  test('[SH15] the slant is the saw setting, also where it is long', () => {
    for (const sawDeg of [5, 22.5, 44.25, 45, 60, 67.5, 80])
      for (const longPoint of ['back', 'face'] as const) {
        const { back, face } = cutOf({ end: 'mitre', sawDeg, longPoint }, 'right');
        const seen = (Math.atan2(Math.abs(back[0] - face[0]), Math.abs(back[1] - face[1])) * 180) / Math.PI;
        expect(seen).toBeCloseTo(sawDeg, 6);
      }
  });

  test('[SH15] the dot is at the long point, and a square end has none', () => {
    const dots = (end: Parameters<typeof endPicture>[0]) =>
      endPicture(end, 'left', BOX).flatMap((item) =>
        item.kind === 'arc' && item.role === 'long-point' ? [item.centre] : [],
      );
    const end = { end: 'mitre', sawDeg: 30, longPoint: 'face' } as const;
    expect(dots(end)).toEqual([cutOf(end, 'left').face]);
    expect(dots({ end: 'square', sawDeg: 0, longPoint: null })).toEqual([]);
  });

  test('[SH15] every end at every setting stays in its box', () => {
    for (const end of ['square', 'cope', 'mitre', 'butt', 'scarf', 'return', 'scribe', 'block'] as const)
      for (const sawDeg of [0, 10, 45, 67.5, 89])
        for (const longPoint of ['back', 'face', null] as const)
          for (const side of ['left', 'right'] as const) {
            const items = endPicture({ end, sawDeg, longPoint }, side, [5, 5, 45, 21]);
            expect(outsideSheet({ width: 50, height: 26, items }), `${end} ${sawDeg} ${longPoint}`).toEqual(
              [],
            );
          }
  });
});

describe('the legend', () => {
  test('[SH9] names every joint that a plan marks, on any width, without overlaps', () => {
    for (const width of [300, 523, 540, 720, 2400]) {
      const { items, height } = legendStrip(measure, width, true);
      expect(textOverlaps({ items }), String(width)).toEqual([]);
      // Marks may stand a hair over the edge; words may not.
      for (const each of textItems(items)) expect(each.box[2]).toBeLessThanOrEqual(width);
      expect(height).toBeGreaterThan(20);
      const words = textItems(items).map((each) => each.text);
      for (const name of [
        'cope',
        'butt',
        'mitre, inside',
        'mitre, outside',
        'corner block',
        'scarf',
        'return',
        'scribe',
      ])
        expect(words).toContain(name);
    }
  });
});
