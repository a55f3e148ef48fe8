// The tag of a corner: its number in a ring, and beside it the mark of the joint. Points in and out.
// Kept: the mark is dropped before the number is.
// Knows no plan: it is told where the corner is and which way its walls go.

import type { Point } from '../graph/types.ts';
import type { JointAt } from '../trim/types.ts';
import type { Corner, Loop } from '../walk/types.ts';
import type { Box } from './boxes.ts';
import type { Stroke, TextMeasure } from './items.ts';
import { cornerMark, MARK_LETTERS, MARK_SIZE, type MarkCorner } from './marks.ts';
import type { Candidate } from './plan-place.ts';
import { patch, ringedNumber, ringRadius, rule } from './shapes.ts';

/** Size of corner numbers, points. */
const NUMBER_SIZE = 8;
const LEADER: Stroke = { ink: 'graphite', width: 0.4 };
/** From here on a tag is tied to its corner by a leader, points from the corner to the tag's nearest edge. */
const NEAR = 15;
/** The least clear space between a corner and its tag, points: the boards lie there. */
const FIRST = 6.5;

/** A corner with its way on the sheet. */
export interface TaggedCorner {
  readonly number: string;
  readonly at: Point;
  readonly shape: MarkCorner;
  readonly joint: JointAt['joint'] | null;
}

/** Corner `index` of a loop, as its mark needs it; `at` in points. */
export function tagged(loop: Loop, index: number, at: Point, joint: JointAt | null): TaggedCorner {
  const corner: Corner = loop.corners[index]!;
  const into = loop.segments[index]!;
  const out = loop.segments[(index + 1) % loop.segments.length]!;
  return {
    number: corner.number === null ? '–' : String(corner.number),
    at,
    shape: {
      before: [-into.along[0], -into.along[1]],
      after: out.along,
      inwardBefore: into.inward,
      inwardAfter: out.inward,
      kind: corner.kind,
      worked: joint?.coped ?? null,
    },
    joint: joint?.joint ?? null,
  };
}

/** From the corner into its room, along the middle between the faces. */
function intoRoom(shape: MarkCorner): Point {
  const sum: Point = [
    shape.inwardBefore[0] + shape.inwardAfter[0],
    shape.inwardBefore[1] + shape.inwardAfter[1],
  ];
  const length = Math.hypot(sum[0], sum[1]);
  if (length > 0.02) return [sum[0] / length, sum[1] / length];
  // A wall's end: straight on.
  return shape.kind === 'outside' ? [-shape.before[0], -shape.before[1]] : shape.before;
}

/** Number and mark together, near the corner first, then further out on a leader, all within `reach` points. */
export function tagCandidates(
  measure: TextMeasure,
  corner: TaggedCorner,
  inRoom: (p: Point) => boolean,
  reach: number,
): Iterable<Candidate> {
  return candidates(measure, corner, corner.joint, inRoom, reach);
}

/** The number alone, anywhere within `reach` points. */
export function numberCandidates(
  measure: TextMeasure,
  corner: TaggedCorner,
  inRoom: (p: Point) => boolean,
  reach: number,
): Iterable<Candidate> {
  return candidates(measure, corner, null, inRoom, reach);
}

/** What is printed in a list where the mark found no place. */
export function jointWords(joint: JointAt['joint']): string {
  return `${joint} (${MARK_LETTERS[joint]})`;
}

function* candidates(
  measure: TextMeasure,
  corner: TaggedCorner,
  joint: JointAt['joint'] | null,
  inRoom: (p: Point) => boolean,
  reach: number,
): Generator<Candidate> {
  const m = intoRoom(corner.shape);
  const base = Math.atan2(m[1], m[0]);
  const radius = ringRadius(measure, corner.number, NUMBER_SIZE);
  for (const layout of layouts(radius, joint !== null)) {
    for (let step = 0; ; step++) {
      const away = FIRST + step * 7 * (1 + step * 0.12);
      if (away > reach) break;
      const turns = step < 5 ? 9 : 16;
      for (let turn = 0; turn < turns; turn++) {
        const swing =
          ((turn % 2 === 0 ? 1 : -1) * Math.ceil(turn / 2) * 2 * Math.PI) / (turns < 16 ? 20 : 16);
        const direction: Point = [Math.cos(base + swing), Math.sin(base + swing)];
        yield candidate(measure, corner, joint, layout, radius, direction, away, Math.abs(swing), inRoom);
      }
    }
  }
}

/** How ring and mark stand to each other: offsets of their centres from the tag's centre, and the tag's half size. */
interface Layout {
  readonly ring: Point;
  readonly mark: Point;
  readonly half: Point;
  readonly cost: number;
}

function layouts(radius: number, marked: boolean): Layout[] {
  if (!marked) return [{ ring: [0, 0], mark: [0, 0], half: [radius, radius], cost: 0 }];
  const half = MARK_SIZE / 2;
  const between = 1.5;
  const long = radius + half + between / 2;
  const wide = Math.max(radius, half);
  const [ringOff, markOff] = [half + between / 2, radius + between / 2];
  return [
    { ring: [-ringOff, 0], mark: [markOff, 0], half: [long, wide], cost: 0 },
    { ring: [ringOff, 0], mark: [-markOff, 0], half: [long, wide], cost: 0.5 },
    { ring: [0, -ringOff], mark: [0, markOff], half: [wide, long], cost: 1 },
    { ring: [0, ringOff], mark: [0, -markOff], half: [wide, long], cost: 1.5 },
  ];
}

function candidate(
  measure: TextMeasure,
  corner: TaggedCorner,
  joint: JointAt['joint'] | null,
  layout: Layout,
  radius: number,
  direction: Point,
  away: number,
  swing: number,
  inRoom: (p: Point) => boolean,
): Candidate {
  const [hx, hy] = layout.half;
  // How far the tag's centre is from the corner when its nearest edge, seen along the direction, is `away` off.
  const support = Math.min(
    hx / Math.max(1e-9, Math.abs(direction[0])),
    hy / Math.max(1e-9, Math.abs(direction[1])),
  );
  const far = away + support;
  const centre: Point = [corner.at[0] + direction[0] * far, corner.at[1] + direction[1] * far];
  const ring: Point = [centre[0] + layout.ring[0], centre[1] + layout.ring[1]];
  const mark: Point = [centre[0] + layout.mark[0], centre[1] + layout.mark[1]];
  const boxes: Box[] = [squareAt(ring, radius)];
  if (joint) boxes.push(squareAt(mark, MARK_SIZE / 2));
  const ringFar = Math.hypot(ring[0] - corner.at[0], ring[1] - corner.at[1]);
  const tie = away > NEAR;
  const toRing: Point = [(corner.at[0] - ring[0]) / ringFar, (corner.at[1] - ring[1]) / ringFar];
  const edge: Point = [ring[0] + toRing[0] * radius, ring[1] + toRing[1] * radius];
  // A leader leaves the corner a little off it, so that the joint itself stays clear.
  const foot: Point = [corner.at[0] - toRing[0] * 2.5, corner.at[1] - toRing[1] * 2.5];
  const outside = [ring, ...(joint ? [mark] : [])].filter((p) => !inRoom(p)).length;
  return {
    boxes,
    opaque: true,
    cost: layout.cost + (away - FIRST) * 0.55 + swing * 3 + outside * 12 + ringFar * 0.08 + (tie ? 3 : 0),
    ...(tie ? { leader: [foot, edge] as const } : {}),
    items: () => [
      ...(tie ? [rule(foot, edge, LEADER, 'leader')] : []),
      ...ringedNumber(measure, ring, corner.number, NUMBER_SIZE),
      // White under the mark, so that no dimension's line runs through it.
      ...(joint
        ? [patch(squareAt(mark, MARK_SIZE / 2), 'paper'), ...cornerMark(measure, joint, corner.shape, mark)]
        : []),
    ],
  };
}

function squareAt(centre: Point, half: number): Box {
  return [centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half];
}
