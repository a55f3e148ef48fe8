// A level too large for its sheet, cut into tiles: which part each shows, where their match lines run, and the key plan
// that shows which tile is which. Ticks and points. Kept: every part of every wall is on a tile, and neighbours share a
// strip with the match line in its middle [SH13].

import type { Point } from '../graph/types.ts';
import type { LevelWalk } from '../walk/types.ts';
import type { Box } from './boxes.ts';
import type { Item, TextMeasure } from './items.ts';
import { segmentMeetsBox } from './plan-place.ts';
import { extentOf, type TickBox, viewOf, wallRings } from './plan-view.ts';
import { looseScale, pointsPerTick } from './scale.ts';
import { rectangle, rule } from './shapes.ts';
import { middleBaseline, text } from './texts.ts';

/** One tile: `A1` is the top left; letters go down, figures to the right. */
export interface Tile {
  readonly name: string;
  readonly row: number;
  readonly column: number;
  readonly shown: TickBox;
  /** What lies between its match lines: each point of the level is in the field of one tile. */
  readonly field: TickBox;
}

export interface Tiling {
  readonly tiles: readonly Tile[];
  readonly rows: number;
  readonly columns: number;
  /** Of the vertical and horizontal match lines, ticks. */
  readonly cutsX: readonly number[];
  readonly cutsY: readonly number[];
}

/** Shared by two neighbours, points on paper. */
const SHARED = 36;
/** Kept clear at the frame's edges for the match lines' names, points. */
export const GUTTER = 13;

/**
 * Cuts an extent into tiles that each fill `frame` (points) less its gutters at a scale. Tiles without walls are left out.
 * `by` is how much larger than usual the sheet's words are.
 */
export function tilesOf(walk: LevelWalk, extent: TickBox, frame: Box, ratio: number, by: number): Tiling {
  const per = pointsPerTick(ratio);
  const width = (frame[2] - frame[0] - 2 * GUTTER * by) / per;
  const height = (frame[3] - frame[1] - 2 * GUTTER * by) / per;
  const shared = (SHARED * by) / per;
  const columns = count(extent[2] - extent[0] + shared, width, shared);
  const rows = count(extent[3] - extent[1] + shared, height, shared);
  const spareX = columns * (width - shared) + shared - (extent[2] - extent[0]);
  const spareY = rows * (height - shared) + shared - (extent[3] - extent[1]);
  const lines = wallRings(walk).flatMap((ring) =>
    ring.map((p, i): [Point, Point] => [p, ring[(i + 1) % ring.length]!]),
  );
  const cuts = (from: number, step: number, number: number) =>
    Array.from({ length: number - 1 }, (_, k) => from + (k + 1) * step + shared / 2);
  // The spare paper lets the grid move a little: it goes where the match lines lie along the least wall.
  const left =
    extent[0] -
    bestShift(spareX, (at) => wallAlong(lines, 0, cuts(extent[0] - at, width - shared, columns), 8 / per));
  const top =
    extent[1] -
    bestShift(spareY, (at) => wallAlong(lines, 1, cuts(extent[1] - at, height - shared, rows), 8 / per));
  const cutsX = cuts(left, width - shared, columns);
  const cutsY = cuts(top, height - shared, rows);
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const x = left + column * (width - shared);
      const y = top + row * (height - shared);
      const shown: TickBox = [x, y, x + width, y + height];
      const field: TickBox = [
        cutsX[column - 1] ?? shown[0],
        cutsY[row - 1] ?? shown[1],
        cutsX[column] ?? shown[2],
        cutsY[row] ?? shown[3],
      ];
      if (lines.some(([a, b]) => segmentMeetsBox(a, b, shown)))
        tiles.push({ name: tileName(row, column), row, column, shown, field });
    }
  return { tiles, rows, columns, cutsX, cutsY };
}

/** Of nine places for the grid, the middle one first, that with the least wall under its lines. */
function bestShift(spare: number, cost: (shift: number) => number): number {
  let best = spare / 2;
  let least = cost(best);
  for (const part of [0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]) {
    const here = cost(spare * part);
    if (here < least) [best, least] = [spare * part, here];
  }
  return best;
}

/** Length of wall edges that run along the cuts of one axis (0: upright cuts), nearer than `near`; ticks. */
function wallAlong(
  lines: readonly (readonly [Point, Point])[],
  axis: 0 | 1,
  cuts: readonly number[],
  near: number,
): number {
  let sum = 0;
  for (const [a, b] of lines)
    for (const cut of cuts)
      if (Math.abs(a[axis] - cut) < near && Math.abs(b[axis] - cut) < near)
        sum += Math.hypot(b[0] - a[0], b[1] - a[1]);
  return sum;
}

function count(extent: number, tile: number, shared: number): number {
  return Math.max(1, Math.ceil((extent - shared) / (tile - shared) - 1e-9));
}

function tileName(row: number, column: number): string {
  const letters = (at: number): string =>
    (at < 26 ? '' : letters(Math.floor(at / 26) - 1)) + String.fromCharCode(65 + (at % 26));
  return `${letters(row)}${column + 1}`;
}

/** The name of the tile at a place, or a dash where nothing is drawn and so no sheet exists. */
function nameAt(tiling: Tiling, row: number, column: number): string {
  return tiling.tiles.find((tile) => tile.row === row && tile.column === column)?.name ?? '–';
}

/** The match lines of one tile, dashed and heavy, with the names of the tiles on both sides at both ends, in the gutters. */
export function matchLines(
  measure: TextMeasure,
  tiling: Tiling,
  tile: Tile,
  frame: Box,
  ratio: number,
  by: number,
): Item[] {
  const view = viewOf(tile.shown, frame, { name: '', ratio });
  const gutter = GUTTER * by;
  const stroke = { ink: 'ink' as const, width: 1.2 * by, dash: [9 * by, 3 * by, 2 * by, 3 * by] };
  const [x0, y0, x1, y1] = [frame[0] + gutter, frame[1] + gutter, frame[2] - gutter, frame[3] - gutter];
  const size = 8 * by;
  const label = (words: string, at: Point, turn: 0 | -90): Item =>
    text(measure, {
      text: words,
      at: turn === 0 ? [at[0], middleBaseline(at[1], size)] : [middleBaseline(at[0], size), at[1]],
      size,
      font: 'bold',
      align: 'middle',
      turn,
      role: 'match-line',
    });
  const items: Item[] = [];
  for (const column of [tile.column - 1, tile.column]) {
    const cut = tiling.cutsX[column];
    if (cut === undefined) continue;
    const x = view.on([cut, 0])[0];
    const words = `${nameAt(tiling, tile.row, column)} | ${nameAt(tiling, tile.row, column + 1)}`;
    items.push(rule([x, y0], [x, y1], stroke, 'match-line'));
    for (const y of [frame[1] + gutter / 2, frame[3] - gutter / 2]) items.push(label(words, [x, y], 0));
  }
  for (const row of [tile.row - 1, tile.row]) {
    const cut = tiling.cutsY[row];
    if (cut === undefined) continue;
    const y = view.on([0, cut])[1];
    const words = `${nameAt(tiling, row + 1, tile.column)} | ${nameAt(tiling, row, tile.column)}`;
    items.push(rule([x0, y], [x1, y], stroke, 'match-line'));
    for (const x of [frame[0] + gutter / 2, frame[2] - gutter / 2]) items.push(label(words, [x, y], -90));
  }
  return items;
}

/** The whole level small, with the tiles over it and this one framed heavily. Its height is what `width` makes it. */
export function keyPlan(
  measure: TextMeasure,
  walk: LevelWalk,
  tiling: Tiling,
  tile: Tile,
  width: number,
  highest: number,
): { readonly items: Item[]; readonly height: number } {
  const extent = extentOf(walk);
  if (extent === null) return { items: [], height: 0 };
  const shown = tiling.tiles.reduce<TickBox>(
    (box, { shown: [x0, y0, x1, y1] }) => [
      Math.min(box[0], x0),
      Math.min(box[1], y0),
      Math.max(box[2], x1),
      Math.max(box[3], y1),
    ],
    extent,
  );
  const size = [shown[2] - shown[0], shown[3] - shown[1]] as const;
  const scale = looseScale(size, [width - 2, highest - 2]);
  const height = size[1] * pointsPerTick(scale.ratio) + 2;
  const view = viewOf(shown, [0, 0, width, height], scale);
  const items: Item[] = [
    {
      kind: 'area',
      rings: wallRings(walk).map((ring) => ring.map(view.on)),
      fill: 'graphite',
      stroke: { ink: 'graphite', width: 1 },
      role: 'key-plan',
    },
  ];
  const field = (each: Tile): Box => [
    ...view.on([each.field[0], each.field[1]]),
    ...view.on([each.field[2], each.field[3]]),
  ];
  for (const each of tiling.tiles) {
    const here = each === tile;
    const box = field(each);
    items.push(rectangle(box, { ink: 'ink', width: 0.4, ...(here ? {} : { dash: [2, 1.5] }) }));
    const middle: Point = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
    const name = text(measure, {
      text: each.name,
      at: [middle[0], middleBaseline(middle[1], 7)],
      size: 7,
      font: here ? 'bold' : 'regular',
      align: 'middle',
      halo: true,
      role: 'key-tile',
    });
    if (name.box[2] - name.box[0] < box[2] - box[0] - 2 && 7 < box[3] - box[1] - 2) items.push(name);
  }
  items.push(rectangle(field(tile), { ink: 'ink', width: 1.6 }, undefined, 'key-here'));
  return { items, height };
}
