// The strip: one loop of a room's walls unrolled left to right as the carpenter walks it, facing the wall. Base and shoe,
// casings, built-ins, marks, the old paint line, the floor with its humps drawn larger by a stated factor, corners with
// their joints, boards with their ids. Points; wraps into rows between walls [SH26].
// Heights are ticks above the level's subfloor. Draws what was derived and reckons no board.

import { oldLine } from '../fit/context.ts';
import type { Point } from '../graph/types.ts';
import type { Report } from '../report/schema.ts';
import type { Corner } from '../walk/types.ts';
import { moved } from './boxes.ts';
import { type Block, block } from './flow.ts';
import type { Item, TextMeasure } from './items.ts';
import { dimensionLine, MEDIUM, ringedNumber, ringRadius, rule, THIN } from './shapes.ts';
import { heldBy, inLanes, type Label, widthOf } from './strip-labels.ts';
import {
  boardLine,
  HUMP_HIGH,
  type StripScale,
  type StripSpec,
  scribesOf,
  stands,
  wallsFromLowest,
  workedBoard,
} from './strip-spec.ts';
import { boards, paintLine, standing, wall } from './strip-wall.ts';
import type { TypeSizes } from './table.ts';
import { lineHeight, text } from './texts.ts';
import { type Figures, factorWords, JOINT_WORDS, sayableFactor } from './words.ts';

/** On a letter sheet, points: a foot of wall is at least so long before another row is taken. */
const LEAST_FOOT = 15;
const MOST_ROWS = 9;
/** So many walls stand in a row at most, so that their corners can be named. */
const MOST_IN_ROW = 14;
/** So many lanes of names stand above a row, and below it, at most; what they do not hold is counted. */
const MOST_LANES_UP = 6;
const MOST_LANES_DOWN = 12;
const BASE_HIGH = 36;
const MOST_HIGH = 90;
const LOW = 2 / 3;
/** What is shown of a wall without boards, in ticks: 2 1/2 in. */
const LEAST_BASE = 2.5 * 8128;
/** Room above the boards for their names and lengths, and half the height of the lane that the floor's shape is drawn in. */
const NAME_HIGH = 25;

const FOOT = 12 * 8128;
/** A floor that strays less than this from level has no shape to draw: 0.1 mm in ticks. */
const FLAT = 32;

/** The strip of one loop as blocks for a column of `width` points: a note of its scales, then its rows. */
export function strip(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  width: number,
  spec: StripSpec,
): Block[] {
  const loop = spec.trim.room.loops[spec.loop]!;
  if (loop.segments.length === 0) return [];
  const clear = width - 2 * edge(sizes);
  const order = wallsFromLowest(loop.corners);
  const { rows, along } = packed(
    order.map((index) => loop.segments[index]!.drawn),
    clear,
    sizes.by,
  );
  const scale = scaleOf(spec, along, sizes.by);
  const drawn = rows.map((row) =>
    drawRow(
      measure,
      sizes,
      figures,
      width,
      spec,
      scale,
      row.map((position) => order[position]!),
    ),
  );
  return drawn.map((each, index) => block(each.height, each.items, { before: index === 0 ? 4 : 7 }));
}

/** What the strip shows and at which exaggeration, in one sentence. */
export function stripNote(sizes: TypeSizes, width: number, spec: StripSpec): string {
  const loop = spec.trim.room.loops[spec.loop]!;
  if (loop.segments.length === 0) return '';
  const { along } = packed(
    wallsFromLowest(loop.corners).map((index) => loop.segments[index]!.drawn),
    width - 2 * edge(sizes),
    sizes.by,
  );
  const scale = scaleOf(spec, along, sizes.by);
  const times = sayableFactor((scale.up / scale.along) * (1 + 1e-9));
  const parts = [`Facing the wall, left to right. Heights drawn ${factorWords(times)} lengths.`];
  if (oldLineShown(spec)) parts.push('Dashed: the line the old base left.');
  if (scale.humps !== null)
    parts.push(`Floor: humps and dips under the boards drawn ${factorWords(scale.humps)} other heights.`);
  return parts.join(' ');
}

/** Room at a row's ends for half a corner's ring and its words. */
function edge(sizes: TypeSizes): number {
  return 22 * sizes.by;
}

/** Segments in rows, and the largest scale at which they fit: the fewest rows that keep a foot of wall long enough. */
function packed(
  lengths: readonly number[],
  width: number,
  by: number,
): { readonly rows: number[][]; readonly along: number } {
  const longest = Math.max(...lengths);
  const total = lengths.reduce((sum, each) => sum + each, 0);
  let best: { rows: number[][]; along: number } | undefined;
  const least = Math.ceil(lengths.length / MOST_IN_ROW);
  for (let count = least; count < least + MOST_ROWS; count++) {
    // Rows break between walls only, so the scale for a number of rows is found by halving.
    let low = width / total;
    let high = width / longest;
    if (packAt(lengths, width, high).length <= count) low = high;
    for (let step = 0; step < 40 && high - low > low * 1e-6; step++) {
      const middle = (low + high) / 2;
      if (packAt(lengths, width, middle).length <= count) low = middle;
      else high = middle;
    }
    const most = (70 * by) / FOOT;
    const along = Math.min(low, most);
    best = { rows: packAt(lengths, width, along), along };
    if (along * FOOT >= LEAST_FOOT * by || best.rows.length >= lengths.length) break;
  }
  return best!;
}

function packAt(lengths: readonly number[], width: number, along: number): number[][] {
  const rows: number[][] = [];
  let used = 0;
  lengths.forEach((length, index) => {
    const needs = length * along;
    const row = rows.at(-1);
    if (row && row.length < MOST_IN_ROW && used + needs <= width * (1 + 1e-9)) {
      row.push(index);
      used += needs;
    } else {
      rows.push([index]);
      used = needs;
    }
  });
  return rows;
}

function oldLineShown(spec: StripSpec): boolean {
  const segments = spec.trim.room.loops[spec.loop]!.segments;
  return (
    oldLine(spec.trim.room) !== null || segments.some((segment) => (segment.record?.line ?? []).length > 0)
  );
}

function scaleOf(spec: StripSpec, along: number, by: number): StripScale {
  const floor = spec.trim.room.record?.new?.floor ?? 0;
  const boards = (boardLine(spec)?.stretches ?? []).map((stretch) => stretch.profile.height ?? 0);
  const tallest = Math.max(LEAST_BASE, ...boards);
  const old = oldLine(spec.trim.room) ?? 0;
  const shown = Math.max(stands(spec) + tallest, old) - floor;
  const high = by * (spec.low ? LOW : 1);
  const times = sayableFactor((high * Math.min(BASE_HIGH / tallest, MOST_HIGH / shown)) / along);
  const up = times * along;
  const top = floor + shown + (NAME_HIGH * by) / up;
  const deviations = scribesOf(spec).flatMap((scribe) =>
    scribe.stations.map((station) => Math.abs(station.floor - stands(spec))),
  );
  const deepest = Math.max(0, ...deviations);
  const humps = deepest < FLAT ? null : sayableFactor((HUMP_HIGH * by) / (deepest * up));
  return { along, up, humps, floor, top };
}

function drawRow(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  width: number,
  spec: StripSpec,
  scale: StripScale,
  row: readonly number[],
): { readonly height: number; readonly items: Item[] } {
  const loop = spec.trim.room.loops[spec.loop]!;
  const by = sizes.by;
  const small = sizes.small;
  const left = edge(sizes);
  const items: Item[] = [];
  const corners: Label[] = [];
  const named: Label[] = [];
  const low: Label[] = [];
  const dimensions: { from: number; to: number; figure: string }[] = [];

  // Heights are drawn about y = 0 at the floor; the row is moved down when the labels above it are known.
  const yOf = (height: number) => -(height - scale.floor) * scale.up;
  const bandTop = yOf(scale.top);
  let x = left;
  row.forEach((index, position) => {
    const segment = loop.segments[index]!;
    const at = (ticks: number) => x + ticks * scale.along;
    const end = at(segment.drawn);
    if (position === 0) corners.push(cornerLabel(measure, sizes, figures, spec, index - 1, x, by));
    corners.push(cornerLabel(measure, sizes, figures, spec, index, end, by));
    items.push(...wall(segment, x, end, yOf, bandTop, scale));
    items.push(...boards(measure, sizes, figures, spec, segment, at, yOf, scale, low));
    items.push(...paintLine(spec, segment, at, yOf, bandTop));
    items.push(...standing(measure, sizes, segment, at, yOf, bandTop, named));
    for (const cornerX of position === 0 ? [x, end] : [end])
      items.push(
        rule([cornerX, bandTop - 3 * by], [cornerX, 5 * by], { ink: 'ink', width: MEDIUM }, 'corner-line'),
      );
    const said = spec.reportRoom.loops[spec.loop]!.segments[index]!;
    dimensions.push({
      from: x,
      to: end,
      figure:
        said.measuredMm === null
          ? figures.length(said.drawnMm)
          : `${figures.length(said.measuredMm)} measured`,
    });
    x = end;
  });

  const high = width;
  const above = [...corners, ...heldBy(named, MOST_LANES_UP * high - widthOf(corners))];
  const below = heldBy(low, MOST_LANES_DOWN * high);
  const upper = inLanes(above, 0, high);
  const pushed = upper.some(({ label, lane, x: middle }) => lane > 0 || Math.abs(middle - label.x) > 0.5);
  const lift = (pushed ? 11 : 5) * by;
  const laneHigh = Math.max(0, ...above.map((label) => label.height)) + 3;
  for (const { label, lane, x: middle } of upper) {
    const top = bandTop - lift - lane * laneHigh - label.height;
    if (lane > 0 || Math.abs(middle - label.x) > 0.5)
      items.push(
        rule(
          [label.x, bandTop - 3 * by],
          [middle, top + label.height + 1],
          { ink: 'faint', width: THIN },
          'leader',
        ),
      );
    items.push(...label.draw(middle, top));
  }
  const lanesUp = Math.max(1, ...upper.map((each) => each.lane + 1));
  const under = inLanes(below, 0, high);
  const floorLow = (scale.humps === null ? 3 : 2 * HUMP_HIGH + 5) * by;
  const lowLane = lineHeight(small) + 1;
  for (const { label, lane, x: middle } of under) {
    const top = floorLow + 3 * by + lane * lowLane;
    items.push(rule([label.x, 1.5 * by], [middle, top - 0.5], { ink: 'faint', width: THIN }, 'leader'));
    items.push(...label.draw(middle, top));
  }
  const lanesDown = Math.max(0, ...under.map((each) => each.lane + 1));
  const dimY = floorLow + lanesDown * lowLane + 9 * by;
  const dims = dimensionRow(measure, sizes, dimensions, dimY, width);
  items.push(...dims.items);
  let foot = dimY + dims.down;
  const lost = named.length - (above.length - corners.length) + low.length - below.length;
  if (lost > 0) {
    foot += lineHeight(small);
    const said = `${lost} narrow things of these walls are not named here; the plan and the tables name them.`;
    items.push(
      text(measure, {
        text: said,
        at: [0, foot],
        size: small,
        font: 'italic',
        ink: 'graphite',
        role: 'note',
      }),
    );
    foot += small * 0.3;
  }
  const top = bandTop - lift - lanesUp * laneHigh;
  return { height: foot - top, items: moved(items, [0, -top]) };
}

/** Wall lengths under the floor: each in the middle of its line, or on a lane below where the wall is shorter than it. */
function dimensionRow(
  measure: TextMeasure,
  sizes: TypeSizes,
  dimensions: readonly { from: number; to: number; figure: string }[],
  y: number,
  width: number,
): { readonly items: Item[]; readonly down: number } {
  const size = sizes.small;
  const items: Item[] = [];
  const spilled: Label[] = [];
  for (const { from, to, figure } of dimensions) {
    const words = measure.width(figure, 'regular', size);
    if (words + 18 <= to - from) {
      items.push(
        ...dimensionLine(measure, { from: [from, y], to: [to, y], figure, size, role: 'wall-length' }),
      );
      continue;
    }
    items.push(...(to - from > 9 ? dimensionLineBare([from, y], [to, y]) : []));
    spilled.push({
      x: (from + to) / 2,
      width: words,
      height: lineHeight(size),
      draw: (x, top) => [
        text(measure, {
          text: figure,
          at: [x, top + size * 0.75],
          size,
          align: 'middle',
          role: 'wall-length',
        }),
      ],
    });
  }
  const lanes = inLanes(spilled, 0, width);
  // Clear of the figures that stand in their lines.
  const first = Math.max(5, size * 0.65);
  for (const { label, lane, x } of lanes) {
    const top = y + first + lane * (label.height + 1);
    items.push(rule([label.x, y], [x, top - 0.5], { ink: 'faint', width: THIN }, 'leader'));
    items.push(...label.draw(x, top));
  }
  const count = Math.max(0, ...lanes.map((each) => each.lane + 1));
  return { items, down: count === 0 ? size * 0.5 : first + count * (lineHeight(size) + 1) };
}

function dimensionLineBare(from: Point, to: Point): Item[] {
  return [rule(from, to, { ink: 'ink', width: THIN }, 'wall-length-line')];
}

/** Number and joint of a corner; position −1 is the loop's last corner, where segment 0 starts. */
function cornerLabel(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  spec: StripSpec,
  position: number,
  x: number,
  by: number,
): Label {
  const corners = spec.trim.room.loops[spec.loop]!.corners;
  const index = (position + corners.length) % corners.length;
  const corner = corners[index]!;
  const number = `${corner.number ?? '?'}`;
  const said = spec.reportRoom.loops[spec.loop]!.corners[index]!;
  const joint = said.base ?? said.shoe;
  const words = joint === null ? '' : jointWords(figures, spec, corner, joint);
  const size = sizes.small;
  const ring = ringRadius(measure, number, size + 0.5);
  const wordsWide = words === '' ? 0 : measure.width(words, 'semibold', size);
  const height = 2 * ring + (words === '' ? 0 : 2 + size);
  return {
    x,
    width: Math.max(2 * ring, wordsWide) + 2 * by,
    height,
    draw: (middle, top) => [
      ...ringedNumber(measure, [middle, top + ring], number, size + 0.5),
      ...(words === ''
        ? []
        : [
            text(measure, {
              text: words,
              at: [middle, top + height - size * 0.2],
              size,
              font: 'semibold',
              align: 'middle',
              role: 'joint',
            }),
          ]),
    ],
  };
}

/** `cope 4A`: the joint and the board that is worked; a mitre names the saw setting, both boards being worked. */
function jointWords(
  figures: Figures,
  spec: StripSpec,
  corner: Corner,
  joint: NonNullable<Report['rooms'][number]['loops'][number]['corners'][number]['base']>,
): string {
  const word = JOINT_WORDS[joint.joint];
  if (joint.joint === 'mitre') return `${word} ${figures.saw(joint.sawDeg)}`;
  if (joint.coped === null) return word;
  const worked = workedBoard(boardLine(spec), corner, joint.coped);
  return worked === null ? word : `${word} ${worked}`;
}
