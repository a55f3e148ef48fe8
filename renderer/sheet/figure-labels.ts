// The figures of a room: corner angles, lengths of faces, floor readings. What was measured is bold and in the user's ink;
// what was only drawn stands in brackets while measuring. Points. Knows no order of placing.

import type { Point } from '../../core/graph/index.ts';
import type { TextMeasure } from '../../core/sheets/items.ts';
import { grown, middleBaseline, rule, text } from '../../core/sheets/kit.ts';
import { dimensionCandidates } from '../../core/sheets/plan-dimensions.ts';
import type { Candidate } from '../../core/sheets/plan-place.ts';
import { onSegment } from '../../core/sheets/plan-walls.ts';
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
      yield { boxes: [item.box], cost: (away - 9) * 0.5 + Math.abs(swing) * 3, items: () => [item] };
    }
}

/** Lengths of faces, corner to corner. */
export function dimensions(placing: Placing): void {
  const { trim, measure, view, box, inRoom, words, stage } = placing;
  const said: Segment[] = [];
  for (const segment of segmentsOf(trim.room)) {
    // A wall's end or a jog is as wide as its wall: a figure would only crowd it.
    if (segment.parts.length === 0 || segment.drawn * view.pointsPerTick < 24) continue;
    const figure = figureOf(segment, words, stage);
    if (stage === 'draw' && !figure.measured && said.some((other) => facing(other, segment))) continue;
    const ref: Ref = { kind: 'segment', level: trim.room.level, id: segment.key };
    const candidates = dimensionCandidates(measure, segment, figure, view, grown(box, 60), inRoom);
    if (put(placing, candidates, ref)) said.push(segment);
  }
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
