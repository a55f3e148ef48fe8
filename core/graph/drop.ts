// Drops from a ring what the faces leave no room for: a side that comes out reversed or under 1 mm, or is hidden
// behind its neighbours, goes and its neighbours' lines meet (RULES: WK7). Sides go in the order in which they vanish
// while the faces move out from the centre lines, as in a straight skeleton, so that the outcome does not hang on where
// the ring starts. What cannot be dropped stays, and crossing.ts calls the loop too narrow.

import FlatQueue from 'flatqueue';
import { TICKS_PER_MM } from '../units/ticks.ts';
import {
  apart,
  centreLength,
  crossing,
  faceLength,
  type Line,
  type Meeting,
  Side,
  sidesOf,
} from './offset.ts';
import { along, cross, distance, dot, lengthOf, midpoint, minus, signedArea, unit } from './orientation.ts';
import type { Point } from './types.ts';

/** A segment shorter than this is dropped, ticks (1 mm). RULES: WK7. */
export const SHORTEST_SEGMENT = TICKS_PER_MM;
/** A ring keeps at least this many sides. */
const FEWEST_SIDES = 3;
/** A corner put in place of a dropped short side stays within this many half thicknesses of it. */
const CORNER_REACH = 4;

/** Drops until nothing more can go. Changes the ring; returns one of the sides that are left. */
export function dropVanished(start: Side): Side {
  const sides = sidesOf(start);
  const queue = new FlatQueue<Side>();
  let count = sides.length;
  const consider = (side: Side) => {
    if (vanishes(side)) queue.push(side, vanishesAt(side));
  };
  sides.forEach(consider);
  for (let due = queue.peekValue(); due !== undefined; due = queue.peekValue()) {
    const side = queue.pop()!;
    if (side.gone || count <= FEWEST_SIDES) continue;
    // Its neighbours have moved since it was queued: a newer entry stands for it, or it is long enough now.
    if (!vanishes(side) || vanishesAt(side) !== due) continue;
    const gap = drop(side, count);
    if (gap === null) continue;
    count -= gap.lost;
    for (const near of nearTo(gap.before)) consider(near);
  }
  return sides.find((side) => !side.gone)!;
}

/** The sides whose lot may have changed where `before` now meets its next: a hidden span looks two sides either way. */
function nearTo(before: Side): Side[] {
  const { prev, next } = before;
  return [prev.prev, prev, before, next, next.next, next.next.next];
}

/** What closing a gap cost: the side before it, and how many sides the ring lost. */
interface Gap {
  readonly before: Side;
  readonly lost: number;
}

/** Drops one side and what must go with it; null where it cannot be dropped. */
function drop(side: Side, count: number): Gap | null {
  const { prev, next } = side;
  if (faceLength(side) >= SHORTEST_SEGMENT) {
    const [first, last] = hiddenSpan(side) ?? [side, side];
    return close(first, last, count - (first === last ? 1 : 2));
  }
  if (isStep(side)) return toLink(side);
  const alone = close(side, side, count - 1);
  if (alone !== null) return alone;
  // Its neighbours run side by side and cannot meet. Where one of them is a link, it goes as well: a wall end hidden
  // in the wall it stands on, or a jog hidden in the wall across.
  const withNext = isLink(next) ? close(side, next, count - 2) : null;
  if (withNext !== null) return withNext;
  return isLink(prev) ? close(prev, side, count - 2) : null;
}

/**
 * Takes the sides from `first` to `last` out of the ring, where their neighbours can meet or become one and enough
 * sides are left; `left` counts them before any merging.
 */
function close(first: Side, last: Side, left: number): Gap | null {
  const before = first.prev;
  const after = last.next;
  const lost = first === last ? 1 : 2;
  const meeting = crossing(before.last, after.first);
  if (meeting !== null) {
    if (left < FEWEST_SIDES) return null;
    before.end = first !== last || nearEnough(first, meeting) ? meeting : middleOf(first);
  } else if (left - 1 < FEWEST_SIDES || !canMerge(before, after)) {
    return null;
  }
  first.gone = true;
  last.gone = true;
  before.next = after;
  after.prev = before;
  if (meeting !== null) return { before, lost };
  merge(before, after);
  return { before, lost: lost + 1 };
}

/** Sides that follow one another in the ring. */
type Span = readonly [first: Side, last: Side];

/** Must a side go? It comes out reversed or under 1 mm, or it is hidden behind the crossing of its neighbours. */
function vanishes(side: Side): boolean {
  return faceLength(side) < SHORTEST_SEGMENT || hiddenSpan(side) !== null;
}

/** What is hidden at a side: itself, or a link together with the side before or after it. */
function hiddenSpan(side: Side): Span | null {
  const spans: Span[] = [[side, side]];
  if (isLink(side)) spans.push([side, side.next], [side.prev, side]);
  return spans.find(isHidden) ?? null;
}

/**
 * Do the faces before and after a span cross each other short of it, so that the walk turns left round it behind them?
 * That is a jog hidden in a wall that passes close by.
 */
function isHidden([first, last]: Span): boolean {
  const [a, b] = [first.prev, last.next];
  if (a === last || a === b) return false;
  const before = minus(a.end.face, a.prev.end.face);
  const after = minus(b.end.face, last.end.face);
  const gap = minus(last.end.face, a.end.face);
  const turn = cross(before, after);
  if (turn === 0) return false;
  const backOnBefore = -cross(gap, after) / turn;
  const aheadOnAfter = -cross(before, gap) / turn;
  const within = backOnBefore > 0 && backOnBefore < 1 && aheadOnAfter > 0 && aheadOnAfter < 1;
  if (!within) return false;
  const ear = [along(a.end.face, before, -backOnBefore), a.end.face, first.end.face, last.end.face];
  return signedArea(ear) < 0;
}

/**
 * When a side vanishes, from 0 (faces on the centre lines) to 1 (faces in place); hidden sides after all reversed ones,
 * then short ones, shortest first. Corners move evenly, so its length does too.
 */
function vanishesAt(side: Side): number {
  const after = faceLength(side);
  if (after >= SHORTEST_SEGMENT) return 1;
  if (after >= 0) return 1 + after;
  const before = centreLength(side);
  return before > 0 ? before / (before - after) : 0;
}

/**
 * Is a reversed side the end of a thicker wall: a jog whose neighbours run on the same way and do not meet by it? They
 * meet by it where the corner rule of two walls (RULES: WK3) would have them meet at the side's middle.
 */
function isStep(side: Side): boolean {
  const { prev, next } = side;
  if (isLink(side) || isLink(prev) || isLink(next) || faceLength(side) >= 0) return false;
  if (dot(prev.last.dir, next.first.dir) <= 0 || canMerge(prev, next)) return false;
  const meeting = crossing(prev.last, next.first);
  if (meeting === null) return true;
  const way = minus(meeting.face, middleOf(side).centre);
  const ahead = dot(way, prev.last.dir) <= 0 && dot(way, next.first.dir) >= 0;
  const reach = CORNER_REACH * Math.max(prev.last.half, next.first.half);
  return !ahead && lengthOf(way) > reach;
}

/** Puts a link in place of a step: its neighbours end at their feet beside the side's middle (RULES: WK4). */
function toLink(step: Side): Gap {
  const { prev, next } = step;
  const { centre } = middleOf(step);
  const footOn = (line: Line): Point => along(line.face, line.dir, dot(minus(centre, line.face), line.dir));
  const [footIn, footOut] = [footOn(prev.last), footOn(next.first)];
  const half = Math.max(prev.last.half, next.first.half);
  const line: Line = { dir: unit(minus(footOut, footIn)), centre, face: footIn, half };
  const ends = { into: prev.run[prev.run.length - 1]!, out: next.run[0]! };
  const link = new Side([], ends, line, line, { centre, face: footOut });
  prev.end = { centre, face: footIn };
  link.prev = prev;
  link.next = next;
  prev.next = link;
  next.prev = link;
  step.gone = true;
  return { before: prev, lost: 0 };
}

/** Neighbours of a reversed side or a hidden one meet wherever they cross; those of a short side not far from it. */
function nearEnough(side: Side, meeting: Meeting): boolean {
  const length = faceLength(side);
  if (length < 0 || length >= SHORTEST_SEGMENT) return true;
  const reach = CORNER_REACH * Math.max(side.prev.last.half, side.next.first.half, SHORTEST_SEGMENT);
  return distance(meeting.face, middleOf(side).face) <= reach;
}

function middleOf(side: Side): Meeting {
  return {
    centre: midpoint(side.prev.end.centre, side.end.centre),
    face: midpoint(side.prev.end.face, side.end.face),
  };
}

function isLink(side: Side): boolean {
  return side.run.length === 0;
}

/** Neighbours in line, less than a dropped segment apart, become one. */
function canMerge(prev: Side, next: Side): boolean {
  return (
    prev !== next &&
    dot(prev.last.dir, next.first.dir) > 0 &&
    apart(prev.last, next.first) <= SHORTEST_SEGMENT
  );
}

/** `next` becomes the far part of `prev`. A link that merges into a wall takes the wall's place in the ring. */
function merge(prev: Side, next: Side): void {
  prev.run = [...prev.run, ...next.run];
  prev.last = next.last;
  prev.end = next.end;
  prev.next = next.next;
  prev.next.prev = prev;
  next.gone = true;
}
