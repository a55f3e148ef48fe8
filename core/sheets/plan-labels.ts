// Names of rooms and built-ins, ids of boards, marks along walls, and findings: each with the places where it may stand.
// Points. Knows no placing order and no page.

import type { Point } from '../graph/types.ts';
import type { PieceEnd } from '../trim/types.ts';
import type { Segment } from '../walk/types.ts';
import { type Box, boxOf, itemBox } from './boxes.ts';
import type { Item, Stroke, TextMeasure } from './items.ts';
import { SMALLEST_TEXT } from './items.ts';
import { endMark, MARK_SIZE } from './marks.ts';
import type { DrawnPiece } from './plan-boards.ts';
import { type Candidate, segmentMeetsBox } from './plan-place.ts';
import { inRings, type PlanView } from './plan-view.ts';
import { onSegment } from './plan-walls.ts';
import { flaggedLetter, flagHalf, rule } from './shapes.ts';
import { middleBaseline, text } from './texts.ts';

const LEADER: Stroke = { ink: 'graphite', width: 0.4 };
const ID_SIZE = 7.5;
const FLAG_SIZE = 7.5;

/** Places for a room's name with its area under it: within the room, clear of its walls, the roomiest first. */
export function* nameCandidates(
  measure: TextMeasure,
  room: { readonly name: string; readonly area: string; readonly rings: readonly (readonly Point[])[] },
  window: Box,
): Generator<Candidate> {
  const edges = room.rings.flatMap((ring) =>
    ring.map((p, i): [Point, Point] => [p, ring[(i + 1) % ring.length]!]),
  );
  const [x0, y0, x1, y1] = boxOf(room.rings[0]!);
  const spots: { at: Point; clear: number }[] = [];
  const steps = 14;
  for (let i = 1; i < steps; i++)
    for (let j = 1; j < steps; j++) {
      const at: Point = [x0 + ((x1 - x0) * i) / steps, y0 + ((y1 - y0) * j) / steps];
      if (at[0] < window[0] || at[0] > window[2] || at[1] < window[1] || at[1] > window[3]) continue;
      if (inRings(room.rings, at))
        spots.push({ at, clear: Math.min(...edges.map((e) => distanceTo(at, e))) });
    }
  const widest = Math.max(0, ...spots.map((spot) => spot.clear));
  for (const [index, [size, areaSize]] of NAME_SIZES.entries()) {
    const width = Math.max(
      measure.width(room.name, 'bold', size),
      measure.width(room.area, 'regular', areaSize),
    );
    for (const { at, clear } of spots) {
      const top = at[1] - (size + areaSize) * 0.62;
      const name = text(measure, {
        text: room.name,
        at: [at[0], top + size * 0.8],
        size,
        font: 'bold',
        align: 'middle',
        halo: true,
        role: 'room-name',
      });
      const area = text(measure, {
        text: room.area,
        at: [at[0], top + size * 0.8 + areaSize * 1.45],
        size: areaSize,
        ink: 'graphite',
        align: 'middle',
        halo: true,
        role: 'room-area',
      });
      const whole: Box = [at[0] - width / 2 - 3, name.box[1] - 2, at[0] + width / 2 + 3, area.box[3] + 2];
      if (edges.some(([a, b]) => segmentMeetsBox(a, b, whole))) continue;
      yield {
        boxes: [name.box, area.box],
        cost: index * 6 + (widest - clear) * 0.35,
        items: () => [name, area],
      };
    }
  }
}

const NAME_SIZES = [
  [12, 8],
  [9.5, 7.5],
  [7.5, 7],
] as const;

/** Places for a built-in's kind: within its outline, level or turned. */
export function* builtInCandidates(measure: TextMeasure, words: string, box: Box): Generator<Candidate> {
  const [cx, cy] = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  const size = SMALLEST_TEXT;
  for (const turn of [0, -90] as const) {
    const at: Point = turn === 0 ? [cx, middleBaseline(cy, size)] : [middleBaseline(cx, size), cy];
    const item = text(measure, {
      text: words,
      at,
      size,
      font: 'italic',
      ink: 'graphite',
      align: 'middle',
      turn,
      halo: true,
      role: 'built-in-name',
    });
    const [x0, y0, x1, y1] = item.box;
    if (x0 < box[0] + 1.5 || y0 < box[1] + 1.5 || x1 > box[2] - 1.5 || y1 > box[3] - 1.5) continue;
    yield { boxes: [item.box], cost: turn === 0 ? 0 : 1, items: () => [item] };
  }
}

/** Places for a board's id: in the room beside the board, its middle first, then along it and further in on a leader. */
export function* idCandidates(
  measure: TextMeasure,
  drawn: DrawnPiece,
  view: PlanView,
  inRoom: (p: Point) => boolean,
): Generator<Candidate> {
  const { piece, from, to, thick } = drawn;
  const at = onSegment(piece.segment, view);
  const { inward } = piece.segment;
  const width = measure.width(piece.id, 'semibold', ID_SIZE);
  const half: Point = [width / 2, ID_SIZE * 0.38];
  const support = Math.abs(inward[0]) * half[0] + Math.abs(inward[1]) * half[1];
  for (const out of [0, 7, 14, 22, 32]) {
    for (const t of [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]) {
      const foot = at(from + (to - from) * t, thick / view.pointsPerTick);
      const far = 3.2 + support + out;
      const centre: Point = [foot[0] + inward[0] * far, foot[1] + inward[1] * far];
      if (!inRoom(centre)) continue;
      const item = text(measure, {
        text: piece.id,
        at: [centre[0], middleBaseline(centre[1], ID_SIZE)],
        size: ID_SIZE,
        font: 'semibold',
        ink: 'graphite',
        align: 'middle',
        halo: true,
        role: 'piece-id',
      });
      const near: Point = [centre[0] - inward[0] * (support + 1.5), centre[1] - inward[1] * (support + 1.5)];
      const tie = out > 7;
      yield {
        boxes: [item.box],
        cost: Math.abs(t - 0.5) * 9 + out * 0.8,
        ...(tie ? { leader: [foot, near] as const } : {}),
        items: () => [...(tie ? [rule(foot, near, LEADER, 'leader')] : []), item],
      };
    }
  }
}

/** Places for an opening's id: in the room beside it, its middle first, then along it and further in. */
export function* openingCandidates(
  measure: TextMeasure,
  words: string,
  segment: Segment,
  opening: { readonly from: number; readonly to: number },
  view: PlanView,
  inRoom: (p: Point) => boolean,
): Generator<Candidate> {
  const at = onSegment(segment, view);
  const { inward } = segment;
  const half: Point = [measure.width(words, 'italic', ID_SIZE) / 2, ID_SIZE * 0.38];
  const support = Math.abs(inward[0]) * half[0] + Math.abs(inward[1]) * half[1];
  for (const out of [0, 6, 13, 21])
    for (const t of [0.5, 0.35, 0.65, 0.2, 0.8]) {
      const foot = at(opening.from + (opening.to - opening.from) * t, 0);
      const far = 3 + support + out;
      const centre: Point = [foot[0] + inward[0] * far, foot[1] + inward[1] * far];
      if (!inRoom(centre)) continue;
      const item = text(measure, {
        text: words,
        at: [centre[0], middleBaseline(centre[1], ID_SIZE)],
        size: ID_SIZE,
        font: 'italic',
        align: 'middle',
        halo: true,
        role: 'opening-id',
      });
      yield { boxes: [item.box], cost: Math.abs(t - 0.5) * 6 + out * 0.9, items: () => [item] };
    }
}

/** An end that has a mark of its own along the wall: a scarf (marked once, by the board on its left), a return, a scribe. */
export interface MarkedEnd {
  readonly kind: 'scarf' | 'return' | 'scribe';
  readonly foot: Point;
  readonly along: Point;
  readonly inward: Point;
}

/** The ends of a drawn piece that are marked along the wall. */
export function markedEnds(drawn: DrawnPiece, view: PlanView): MarkedEnd[] {
  const { piece, from, to, thick } = drawn;
  const { along, inward } = piece.segment;
  const at = onSegment(piece.segment, view);
  const back: Point = [-along[0], -along[1]];
  const found: MarkedEnd[] = [];
  const add = (end: PieceEnd, side: 'left' | 'right', place: number) => {
    const foot = at(place, thick / view.pointsPerTick);
    if (end.end === 'return' || end.end === 'scribe')
      found.push({ kind: end.end, foot, along: side === 'left' ? back : along, inward });
    else if (end.end === 'scarf' && side === 'right')
      found.push({ kind: 'scarf', foot, along: end.lap === 'laps' ? back : along, inward });
  };
  add(piece.left, 'left', from);
  add(piece.right, 'right', to);
  return found;
}

/** Places for such a mark: in the room beside the end. */
export function* endMarkCandidates(
  measure: TextMeasure,
  end: MarkedEnd,
  inRoom: (p: Point) => boolean,
): Generator<Candidate> {
  const { foot, along, inward } = end;
  const half = MARK_SIZE / 2;
  for (const out of [0, 6, 14, 24, 36])
    for (const shift of [0, -8, 8, -16, 16]) {
      const far = half + 3 + out;
      const centre: Point = [
        foot[0] + inward[0] * far + along[0] * shift,
        foot[1] + inward[1] * far + along[1] * shift,
      ];
      if (!inRoom(centre)) continue;
      const near: Point = [centre[0] - inward[0] * half, centre[1] - inward[1] * half];
      const tie = out > 0 || shift !== 0;
      const mark = endMark(measure, end.kind, along, inward, centre);
      yield {
        boxes: mark.map(itemBox),
        cost: out * 0.7 + Math.abs(shift) * 0.4,
        ...(tie ? { leader: [foot, near] as const } : {}),
        items: () => [...(tie ? [rule(foot, near, LEADER, 'leader')] : []), ...mark],
      };
    }
}

/** Places for a finding's flag about the point it is about, which is marked with a dot of pencil. */
export function* flagCandidates(
  measure: TextMeasure,
  letter: string,
  at: Point,
  reach: number,
): Generator<Candidate> {
  const half = flagHalf(measure, letter, FLAG_SIZE);
  const high = half * 0.875;
  const dot: Item = {
    kind: 'arc',
    centre: at,
    radius: 1.6,
    fromDeg: 0,
    toDeg: 360,
    stroke: { ink: 'pencil', width: 0.4 },
    fill: 'pencil',
    role: 'finding-place',
  };
  for (let step = 0; ; step++) {
    const away = 5 + step * 7 * (1 + step * 0.1);
    if (away > reach) break;
    for (let turn = 0; turn < 16; turn++) {
      const angle = (turn * Math.PI) / 8 - Math.PI / 4;
      const direction: Point = [Math.cos(angle), Math.sin(angle)];
      const support = Math.min(
        half / Math.max(1e-9, Math.abs(direction[0])),
        high / Math.max(1e-9, Math.abs(direction[1])),
      );
      const far = away + support;
      const centre: Point = [at[0] + direction[0] * far, at[1] + direction[1] * far];
      const edge: Point = [at[0] + direction[0] * (away + 1), at[1] + direction[1] * (away + 1)];
      const foot: Point = [at[0] + direction[0] * 2, at[1] + direction[1] * 2];
      yield {
        boxes: [[centre[0] - half, centre[1] - high, centre[0] + half, centre[1] + high]],
        cost: (away - 5) * 0.6 + turn * 0.05,
        leader: [foot, edge],
        items: () => [
          dot,
          rule(foot, edge, { ink: 'pencil', width: 0.7 }, 'finding-leader'),
          ...flaggedLetter(measure, centre, letter, FLAG_SIZE),
        ],
      };
    }
  }
}

function distanceTo(p: Point, [a, b]: readonly [Point, Point]): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2));
  return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t);
}
