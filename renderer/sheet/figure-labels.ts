// The figures of a room: corner angles, lengths of faces, floor readings. What was measured is bold and in the user's ink;
// what was only drawn stands in brackets while measuring. Points. Knows no order of placing.

import type { Point } from '../../core/graph/index.ts';
import { type Box, grown } from '../../core/sheets/boxes.ts';
import type { Item, TextMeasure } from '../../core/sheets/items.ts';
import { dimensionCandidates } from '../../core/sheets/plan-dimensions.ts';
import type { Candidate } from '../../core/sheets/plan-place.ts';
import type { PlanView } from '../../core/sheets/plan-view.ts';
import { onSegment } from '../../core/sheets/plan-walls.ts';
import { rule } from '../../core/sheets/shapes.ts';
import { middleBaseline, text } from '../../core/sheets/texts.ts';
import type { Segment } from '../../core/walk/types.ts';
import type { Stage } from '../state/app-state.ts';
import type { Ref } from '../state/refs.ts';
import { type Placing, put, type SheetWords } from './placing.ts';
import { segmentsOf } from './shapes.ts';

/** Corner angles: measured ones in the user's ink, drawn ones in brackets where they are not square. */
export function angles(placing: Placing): void {
  const { trim, measure, view, words } = placing;
  trim.room.loops.forEach((loop, loopIndex) => {
    loop.corners.forEach((corner, index) => {
      const known = trim.angles[loopIndex]?.[index];
      if (known === undefined) return;
      const measured = known.measured !== null;
      if (!measured && Math.abs(known.drawn - 90) < 0.05) return;
      const said = words.angle(known.measured ?? known.drawn);
      const into = loop.segments[index]!.inward;
      const out = loop.segments[(index + 1) % loop.segments.length]!.inward;
      const ref: Ref = { kind: 'corner', level: trim.room.level, id: corner.key };
      const words_ = measured ? said : `(${said})`;
      put(placing, aside(measure, words_, measured, view.on(corner.at), [into, out]), ref);
    });
  });
}

/** Space at either end of an angle, points: two of them in one line are not read as one figure. */
const BESIDE = 2.5;

/** Places for a figure about a point, along the middle of two directions first. */
function* aside(
  measure: TextMeasure,
  words: string,
  measured: boolean,
  at: Point,
  [a, b]: readonly [Point, Point],
): Generator<Candidate> {
  const base = Math.atan2(a[1] + b[1], a[0] + b[0]);
  const half: Point = [measure.width(words, measured ? 'semibold' : 'regular', 8) / 2, 4];
  for (const away of [9, 14, 20, 27, 35])
    for (let turn = 0; turn < 9; turn++) {
      const swing = ((turn % 2 === 0 ? 1 : -1) * Math.ceil(turn / 2) * Math.PI) / 10;
      const way: Point = [Math.cos(base + swing), Math.sin(base + swing)];
      const far = away + Math.abs(way[0]) * half[0] + Math.abs(way[1]) * half[1];
      const centre: Point = [at[0] + way[0] * far, at[1] + way[1] * far];
      const item = text(measure, {
        text: words,
        at: [centre[0], middleBaseline(centre[1], 8)],
        size: 8,
        font: measured ? 'semibold' : 'regular',
        ink: measured ? 'ink' : 'graphite',
        align: 'middle',
        halo: true,
        role: measured ? 'angle-measured' : 'angle',
      });
      const [x0, y0, x1, y1] = item.box;
      const alone: Box = [x0 - BESIDE, y0, x1 + BESIDE, y1];
      yield { boxes: [alone], cost: (away - 9) * 0.5 + Math.abs(swing) * 3, items: () => [item] };
    }
}

/** Lengths of faces, corner to corner. */
export function dimensions(placing: Placing): void {
  const { trim, measure, view, box, inRoom, words, stage } = placing;
  const said: Segment[] = [];
  const field = fieldOf(placing);
  for (const segment of segmentsOf(trim.room)) {
    // A wall's end or a jog is as wide as its wall: a figure would only crowd it.
    if (segment.parts.length === 0 || segment.drawn * view.pointsPerTick < 24) continue;
    const figure = figureOf(segment, words, stage);
    if (stage === 'draw' && !figure.measured && said.some((other) => facing(other, segment))) continue;
    const ref: Ref = { kind: 'segment', level: trim.room.level, id: segment.key };
    const within = (field: Box) =>
      keptInside(
        closeBy(dimensionCandidates(measure, segment, figure, view, field, inRoom), segment, view),
        inRoom,
      );
    const seen = field !== null && put(placing, within(field), ref);
    if (seen || put(placing, within(grown(box, 60)), ref)) said.push(segment);
  }
}

/** Dimensions that stand no farther from their face than it is long: a short face's would be taken for another's. */
function* closeBy(
  candidates: Iterable<Candidate>,
  { start, inward, drawn }: Segment,
  view: PlanView,
): Generator<Candidate> {
  const [x, y] = view.on(start);
  for (const candidate of candidates) {
    const [[from]] = candidate.lines as readonly [Line];
    const far = (from[0] - x) * inward[0] + (from[1] - y) * inward[1];
    if (far <= drawn * view.pointsPerTick) yield candidate;
  }
}

/** Dimensions whose lines end where they would run into walls, as beside a face between sharp corners: no arrow there. */
function* keptInside(candidates: Iterable<Candidate>, inRoom: (p: Point) => boolean): Generator<Candidate> {
  for (const candidate of candidates) {
    const { lines: [line] = [] } = candidate;
    const part = line === undefined ? null : insidePart(...line, inRoom);
    if (part === null) continue;
    if (line !== undefined && part[0] === line[0] && part[1] === line[1]) yield candidate;
    else yield { ...candidate, lines: [part], items: () => cutTo(candidate.items(), part) };
  }
}

type Line = readonly [Point, Point];

/** The longest part of a line within a room, looked at in some places; the line itself where that is all but its ends. */
function insidePart(from: Point, to: Point, inRoom: (p: Point) => boolean): Line | null {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const places = Math.max(8, Math.min(60, Math.ceil(long / 4)));
  const at = (i: number): Point => {
    // The very ends stand on walls.
    const t = Math.min(Math.max(i / places, 2 / long), 1 - 2 / long);
    return [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
  };
  let [best, start]: [readonly [number, number] | null, number] = [null, 0];
  for (let i = 0; i <= places; i++) {
    if (!inRoom(at(i))) start = i + 1;
    else if (best === null || i - start > best[1] - best[0]) best = [start, i];
  }
  if (best === null || best[0] === best[1]) return null;
  return best[0] === 0 && best[1] === places ? [from, to] : [at(best[0]), at(best[1])];
}

function cutTo(items: readonly Item[], part: Line): readonly Item[] {
  const kept = ([x, y]: Point): boolean => part.some((end) => Math.hypot(end[0] - x, end[1] - y) < 2.5);
  return items.flatMap((item): readonly Item[] => {
    if (item.kind !== 'line') return [item];
    if (item.role?.startsWith('dimension-line')) return [{ ...item, points: part }];
    return kept(item.points[0]!) ? [item] : [];
  });
}

/** Of a room that is seen in part: where its figures may stand, points. */
function fieldOf({ sight, view, box }: Placing): Box | null {
  if (sight === null) return null;
  const [left, top] = view.on([sight[0], sight[1]]);
  const [right, bottom] = view.on([sight[2], sight[3]]);
  const around = grown(box, 60);
  const field: Box = [
    Math.max(left, around[0]),
    Math.max(top, around[1]),
    Math.min(right, around[2]),
    Math.min(bottom, around[3]),
  ];
  return field[0] < field[2] && field[1] < field[3] ? field : null;
}

/** Whether two faces stand right across from each other and are as long: one figure tells both. */
function facing(a: Segment, b: Segment): boolean {
  const near = 2;
  if (a.along[0] * b.along[0] + a.along[1] * b.along[1] > -1 + 1e-9) return false;
  const shift = (b.end[0] - a.start[0]) * a.along[0] + (b.end[1] - a.start[1]) * a.along[1];
  return Math.abs(shift) < near && Math.abs(a.drawn - b.drawn) < near;
}

/** Measured lengths as they are, with the drawn one in brackets where it is another; drawn ones in brackets when measuring. */
function figureOf(
  segment: Segment,
  words: SheetWords,
  stage: Stage,
): { readonly words: string; readonly measured: boolean } {
  const drawn = words.length(segment.drawn);
  const measured = segment.record?.measured;
  if (measured === undefined) return { words: stage === 'measure' ? `(${drawn})` : drawn, measured: false };
  const said = words.length(measured);
  return { words: stage === 'measure' && said !== drawn ? `${said} (${drawn})` : said, measured: true };
}

/** Floor readings: a tick at the face and the height. */
export function readings(placing: Placing): void {
  const { trim, measure, view, words } = placing;
  for (const segment of segmentsOf(trim.room))
    for (const { at, height } of segment.record?.floor ?? []) {
      if (at < 0 || at > segment.drawn) continue;
      const foot = onSegment(segment, view)(at, 0);
      const ref: Ref = { kind: 'segment', level: trim.room.level, id: segment.key };
      put(placing, readingCandidates(measure, words.height(height), foot, segment.inward), ref);
    }
}

function* readingCandidates(
  measure: TextMeasure,
  words: string,
  foot: Point,
  inward: Point,
): Generator<Candidate> {
  const half: Point = [measure.width(words, 'italic', 7) / 2, 3];
  for (const out of [0, 6, 12]) {
    const far = 7 + out + Math.abs(inward[0]) * half[0] + Math.abs(inward[1]) * half[1];
    const centre: Point = [foot[0] + inward[0] * far, foot[1] + inward[1] * far];
    const tip: Point = [foot[0] + inward[0] * (5 + out), foot[1] + inward[1] * (5 + out)];
    const item = text(measure, {
      text: words,
      at: [centre[0], middleBaseline(centre[1], 7)],
      size: 7,
      font: 'italic',
      align: 'middle',
      halo: true,
      role: 'floor-reading',
    });
    yield {
      boxes: [item.box],
      cost: out,
      items: () => [rule(foot, tip, { ink: 'ink', width: 0.7 }, 'leader'), item],
    };
  }
}
