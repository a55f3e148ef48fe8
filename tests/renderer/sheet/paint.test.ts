// Painting: only what is in sight, and the context is left as it was found.

import { describe, expect, test } from 'vitest';
import { type Level, type Opening, type OpeningId, sortedEntries } from '../../../core/plan/index.ts';
import type { Item } from '../../../core/sheets/items.ts';
import { groundOf } from '../../../renderer/sheet/ground.ts';
import { paintItems } from '../../../renderer/sheet/paint-items.ts';
import { paletteOf } from '../../../renderer/sheet/palette.ts';
import { levelBounds } from '../../../renderer/sheet/show.ts';
import { fittedTo } from '../../../renderer/sheet/view-moves.ts';
import { REAL_SIZE } from '../../../renderer/state/viewport.ts';
import { groundFloor, paintedOn } from './house.ts';

const level = groundFloor();
const whole = fittedTo({ centre: [0, 0], pixelsPerTick: REAL_SIZE / 48, width: 1200, height: 800 }, level);

function strokes(viewport: typeof whole): number {
  const { context, calls, depth } = paintedOn();
  groundOf(level).paint(context, viewport, paletteOf('light'));
  expect(depth()).toBe(0);
  return calls.filter((name) => name === 'stroke').length;
}

describe('the ground', () => {
  test('away from the house nothing is painted', () => {
    expect(strokes({ ...whole, centre: [whole.centre[0] + 1e9, whole.centre[1]] })).toBe(0);
  });

  test('in one corner of the house less is painted than of the whole', () => {
    const all = strokes(whole);
    const corner = strokes({
      ...whole,
      centre: level.walk.rooms[0]!.loops[0]!.corners[0]!.at,
      pixelsPerTick: whole.pixelsPerTick * 12,
    });
    expect(corner).toBeGreaterThan(0);
    expect(corner).toBeLessThan(all / 3);
  });

  test('from far away the small parts are left out', () => {
    expect(strokes({ ...whole, pixelsPerTick: whole.pixelsPerTick / 20 })).toBeLessThan(strokes(whole) / 2);
  });
});

describe('doors and windows', () => {
  const { walk } = level;
  /** Of the level as if it had one opening and no rooms: its strokes at a zoom at which that is so many pixels wide. */
  const strokesOf = (id: string, kind: Opening['kind'], px: number): number => {
    const opening = { ...walk.level.openings[id as OpeningId]!, kind };
    const alone = { ...walk.level, openings: { [id]: opening } } as Level;
    const bare = { ...level, walk: { ...walk, level: alone, rooms: [], outside: [], voids: [] } };
    const { context, calls } = paintedOn();
    const [x, y, x1, y1] = levelBounds(level)!;
    const viewport = { ...whole, centre: [(x + x1) / 2, (y + y1) / 2] as const, width: 1e5, height: 1e5 };
    const by = { ...viewport, pixelsPerTick: px / opening.width };
    groundOf(bare).paint(context, by, paletteOf('light'));
    return calls.filter((name) => name === 'stroke').length;
  };
  const all = sortedEntries(walk.level.openings).filter(
    ([, { kind }]) => kind === 'door' || kind === 'window',
  );
  const more = (px: number): readonly number[] =>
    all.map(([id, { kind }]) => strokesOf(id, kind, px) - strokesOf(id, 'passage', px));

  test('show their small parts from the same size on, whichever way the wall runs', () => {
    const slanting = all.filter(([, { wall }]) => {
      const { from, to } = walk.level.walls[wall]!;
      const [a, b] = [walk.level.nodes[from]!, walk.level.nodes[to]!];
      return a[0] !== b[0] && a[1] !== b[1];
    });
    expect(slanting.map(([id]) => id)).toEqual(expect.arrayContaining(['o10', 'o15', 'o17']));
    expect(more(9)).toEqual(all.map(([, { kind }]) => (kind === 'window' ? 4 : 1)));
  });

  test('are told from passages, however small they are drawn', () => {
    for (const px of [5, 2]) expect(more(px)).toEqual(all.map(([, { kind }]) => (kind === 'window' ? 2 : 1)));
  });
});

describe('drawing items on a canvas', () => {
  const words = (text: string, ink: 'ink' | 'pencil', role: string): Item => ({
    kind: 'text',
    text,
    at: [10, 10],
    size: 9,
    font: 'regular',
    ink,
    align: 'left',
    turn: -90,
    halo: true,
    box: [0, 0, 20, 10],
    role,
  });
  const items: readonly Item[] = [
    words('12', 'ink', 'cell'),
    { kind: 'clip', box: [0, 0, 50, 50], items: [words('A', 'pencil', 'finding')] },
    {
      kind: 'area',
      rings: [
        [
          [0, 0],
          [9, 0],
          [9, 9],
        ],
      ],
      fill: 'wash',
      hatch: { spacing: 3, angleDeg: 45, stroke: { ink: 'graphite', width: 0.2 } },
      stroke: { ink: 'ink', width: 1 },
    },
    { kind: 'area', rings: [], fill: 'wash' },
    { kind: 'line', points: [], stroke: { ink: 'ink', width: 1 } },
    {
      kind: 'arc',
      centre: [5, 5],
      radius: 2,
      fromDeg: 0,
      toDeg: 360,
      stroke: { ink: 'ink', width: 0 },
      fill: 'ink',
    },
    words('9 ft', 'ink', 'dimension-measured'),
  ];

  test('every save is restored, also within a clip and a hatch', () => {
    for (const paper of ['paper', 'light', 'dark'] as const) {
      const { context, depth } = paintedOn();
      paintItems(context, items, paper);
      expect(depth()).toBe(0);
    }
  });

  test('words have the ink of their role; what was measured has the user’s own, on the screen', () => {
    const colours = (paper: 'paper' | 'light' | 'dark'): string[] => {
      const { context, words: painted } = paintedOn();
      paintItems(context, items, paper);
      return painted.map(([, colour]) => colour);
    };
    for (const paper of ['light', 'dark'] as const) {
      const { inks, set } = paletteOf(paper);
      expect(colours(paper)).toEqual([inks.ink, inks.pencil, set]);
      expect(set).not.toBe(inks.ink);
    }
    expect(colours('paper')[2]).toBe(colours('paper')[0]);
  });
});
