// One loop of a room's walls, unrolled in a line, as drawing items for the screen, and where on them each thing can be
// chosen. The items are core's own strip, as it is printed; here it is only given one long row and larger type.
// Points here are CSS pixels, y down. Knows no canvas.

import { placeParts } from '../../../core/fit/context.ts';
import type { Scribe } from '../../../core/fit/index.ts';
import type { Derived, DerivedLevel, Solved } from '../../../core/report/index.ts';
import { boxOf, moved } from '../../../core/sheets/boxes.ts';
import type { Item, TextMeasure } from '../../../core/sheets/index.ts';
import { strip, stripNote } from '../../../core/sheets/strip.ts';
import { boardLine, type StripSpec, wallsFromLowest } from '../../../core/sheets/strip-spec.ts';
import type { TypeSizes } from '../../../core/sheets/table.ts';
import { figuresOf } from '../../../core/sheets/words.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { type Ref, sameRef } from '../../state/refs.ts';

export type Box = readonly [x0: number, y0: number, x1: number, y1: number];

/** A thing that can be chosen; later ones lie over earlier ones. */
export interface StripPlace {
  readonly ref: Ref;
  readonly box: Box;
}

export interface StripPicture {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  readonly places: readonly StripPlace[];
  /** Which way it is seen, how much heights and humps are exaggerated. */
  readonly note: string;
}

/** Type on the screen, pixels; pictures in it half as large again as on a letter sheet. */
const SIZES: TypeSizes = { heading: 14, body: 13, small: 12, by: 1.5 };
/** Half a corner's ring beside each end of the row, and where one row follows another. */
const EDGE = 22 * SIZES.by;
const FOOT = 12 * 8128;
/** Walls that core puts into one row at most. */
const MOST_IN_ROW = 14;
const NEAR_CORNER = 5;

/** Pixels to a foot of wall: the least and the most that the strip is drawn at. */
export const STRIP_ZOOM = { least: 15 * SIZES.by, most: 70 * SIZES.by } as const;

/** The loop at so many pixels to the foot. Requires a loop that the room has; an empty loop gives an empty picture. */
export function stripPicture(
  measure: TextMeasure,
  shown: Derived | Solved,
  level: DerivedLevel,
  trim: RoomTrim,
  loop: number,
  pixelsPerFoot: number,
): StripPicture {
  const spec = specOf(shown, trim, loop);
  const segments = trim.room.loops[loop]?.segments ?? [];
  if (spec === null || segments.length === 0) return { width: 0, height: 0, items: [], places: [], note: '' };
  const rowCount = Math.ceil(segments.length / MOST_IN_ROW);
  const total = segments.reduce((sum, each) => sum + each.drawn, 0);
  const zoom = Math.min(STRIP_ZOOM.most, Math.max(STRIP_ZOOM.least, pixelsPerFoot));
  const longest = Math.max(...segments.map((each) => each.drawn));
  const perRow = rowCount === 1 ? total : Math.max(longest, (total / rowCount) * 1.15);
  const rowWide = (perRow / FOOT) * zoom + 2 * EDGE;
  const blocks = strip(measure, SIZES, figuresOf(shown.plan), rowWide, spec);
  const floors = blocks.map((each) => lowestOf(cornerLines(each.items)));
  const floor = Math.max(...floors);
  const items: Item[] = [];
  const lines: number[][] = [];
  let width = 0;
  let height = 0;
  blocks.forEach((each, row) => {
    const by = [width, floor - floors[row]!] as const;
    items.push(...moved(each.items, [by[0], by[1]]));
    lines.push(cornerLines(each.items).map(([x]) => x + width));
    width += Math.max(rowWide, ...each.items.map(rightOf));
    height = Math.max(height, each.height + by[1]);
  });
  const places = placesOf(level, trim, loop, spec, items, lines);
  return { width, height, items, places, note: stripNote(SIZES, rowWide, spec) };
}

function specOf(shown: Derived | Solved, trim: RoomTrim, loop: number): StripSpec | null {
  const reportRoom = shown.report.rooms.find(
    ({ id, level }) => id === trim.room.id && level === trim.room.level,
  );
  if (reportRoom === undefined) return null;
  const scribes: readonly Scribe[] = 'scribes' in shown ? shown.scribes : [];
  const own = shown.report.pieces.filter(({ level }) => level === trim.room.level);
  return {
    trim,
    loop,
    reportRoom,
    pieces: new Map(own.map((piece) => [piece.id, piece])),
    scribes: new Map(scribes.map((scribe) => [scribe.piece, scribe])),
  };
}

/** The uprights between walls, left to right: x, top and bottom. */
function cornerLines(items: readonly Item[]): (readonly [number, number, number])[] {
  return items
    .flatMap((item) =>
      item.kind === 'line' && item.role === 'corner-line'
        ? [[item.points[0]![0], item.points[0]![1], item.points[1]![1]] as const]
        : [],
    )
    .sort((a, b) => a[0] - b[0]);
}

function lowestOf(lines: readonly (readonly [number, number, number])[]): number {
  return Math.max(0, ...lines.map((line) => line[2]));
}

function rightOf(item: Item): number {
  if (item.kind === 'text') return item.box[2];
  return item.kind === 'line' ? boxOf(item.points)[2] : 0;
}

function placesOf(
  level: DerivedLevel,
  trim: RoomTrim,
  loopIndex: number,
  spec: StripSpec,
  items: readonly Item[],
  rows: readonly (readonly number[])[],
): StripPlace[] {
  const loop = trim.room.loops[loopIndex]!;
  const levelId = level.walk.levelId;
  const lines = cornerLines(items);
  const [top, bottom] = [Math.min(...lines.map((line) => line[1])), lowestOf(lines)];
  const walls: StripPlace[] = [];
  const standing: StripPlace[] = [];
  const boards: StripPlace[] = [];
  const corners: StripPlace[] = [];
  const order = wallsFromLowest(loop.corners);
  let next = 0;
  for (const row of rows) {
    for (let at = 0; at + 1 < row.length; at += 1) {
      const index = order[next++];
      const segment = index === undefined ? undefined : loop.segments[index];
      if (segment === undefined) continue;
      const [x0, x1] = [row[at]!, row[at + 1]!];
      const xOf = (ticks: number) => x0 + ((x1 - x0) * ticks) / segment.drawn;
      const box = (from: number, to: number): Box => [xOf(from), top, xOf(to), bottom];
      walls.push({ ref: { kind: 'segment', level: levelId, id: segment.key }, box: [x0, top, x1, bottom] });
      for (const { id, from, to } of segment.openings)
        standing.push({ ref: { kind: 'opening', level: levelId, id }, box: box(from, to) });
      for (const { id, from, to } of segment.builtIns)
        standing.push({ ref: { kind: 'builtIn', level: levelId, id }, box: box(from, to) });
      for (const { id, from, to } of segment.marks)
        standing.push({ ref: { kind: 'mark', level: levelId, id }, box: box(from, to) });
      const line = boardLine(spec);
      for (const stretch of line?.stretches ?? []) {
        if (stretch.segment.key !== segment.key || stretch.segment.loop !== loopIndex) continue;
        const parts = line!.runs
          .flatMap((run) => run.pieces)
          .filter((piece) => piece.stretch.segment.key === segment.key && piece.stretch.key === stretch.key)
          .toSorted((a, b) => a.part - b.part);
        for (const { piece, from, to } of placeParts(stretch, parts))
          boards.push({ ref: { kind: 'piece', level: levelId, id: piece.id }, box: box(from, to) });
      }
      const right = loop.corners[index!];
      const left = loop.corners[(index! + loop.corners.length - 1) % loop.corners.length];
      for (const [corner, x] of [
        [left, x0],
        [right, x1],
      ] as const)
        if (corner !== undefined)
          corners.push({
            ref: { kind: 'corner', level: levelId, id: corner.key },
            box: [x - NEAR_CORNER, top, x + NEAR_CORNER, bottom],
          });
    }
  }
  return [...walls, ...boards, ...standing, ...corners, ...ringed(items, loop.corners, levelId)];
}

/** The rings with the corners' numbers. */
function ringed(
  items: readonly Item[],
  corners: RoomTrim['room']['loops'][number]['corners'],
  level: Ref['level'],
): StripPlace[] {
  return items.flatMap((item) => {
    if (item.kind !== 'text' || item.role !== 'corner-number') return [];
    const corner = corners.find(({ number }) => `${number ?? '?'}` === item.text);
    if (corner === undefined) return [];
    const [x0, y0, x1, y1] = item.box;
    const by = 8;
    const box: Box = [x0 - by, y0 - by, x1 + by, y1 + by];
    return [{ ref: { kind: 'corner', level, id: corner.key }, box } satisfies StripPlace];
  });
}

/** What lies at a place, the topmost first asked. */
export function placeAt(picture: StripPicture, x: number, y: number): StripPlace | null {
  for (let at = picture.places.length - 1; at >= 0; at -= 1) {
    const place = picture.places[at]!;
    const [x0, y0, x1, y1] = place.box;
    if (x >= x0 && x <= x1 && y >= y0 && y <= y1) return place;
  }
  return null;
}

/** Boxes of what is chosen. */
export function boxesOf(picture: StripPicture, ref: Ref | null): Box[] {
  return picture.places.filter((place) => sameRef(place.ref, ref)).map(({ box }) => box);
}
