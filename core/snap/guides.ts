// Guide lines near a pointer: level and upright lines through nodes touched lately, walls carried on, angle steps from the
// gesture's start, lines parallel and square to a reference, and through what the gesture has put down. Ticks, x right, y
// down; angles clockwise as seen from +x. RULES: SN6, SN7, SN13.

import type { Point } from '../graph/index.ts';
import { cross, distance, dot, lengthOf, minus, unit } from '../graph/index.ts';
import { lookup, mustLookup } from '../plan/maps.ts';
import { formatAngle } from '../units/index.ts';
import { isShown } from './candidates.ts';
import type { Rated } from './choose.ts';
import { ANGLE_STEP_DEG, CAUGHT_DEG, LET_GO_DEG, LET_GO_PX, RECENT_NODES } from './limits.ts';
import type { SnapQuery } from './types.ts';

/** Which of the pointer's two freedoms a guide takes: an upright line fixes x, a level one y, any other a mixture. */
export type Family = 'x' | 'y' | 'slope';

export interface Guide extends Rated {
  readonly kind: 'guide';
  readonly family: Family;
  readonly through: Point;
  /** Unit vector; exactly [0, 1] for x and [1, 0] for y. */
  readonly way: Point;
  readonly words: string;
}

interface Guides {
  readonly guides: readonly Guide[];
  readonly looked: number;
}

/** All guides that pass within the distance at which they are let go. */
export function nearGuides(query: SnapQuery): Guides {
  const all = [
    ...recentGuides(query),
    ...drawnGuides(query),
    ...stepGuides(query),
    ...referenceGuides(query),
  ];
  const guides = all.filter(({ offPx }) => offPx <= LET_GO_PX);
  return { guides, looked: all.length };
}

function guide(query: SnapQuery, key: string, words: string, through: Point, way: Point, nearDeg = 0): Guide {
  const family: Family = way[0] === 0 ? 'x' : way[1] === 0 ? 'y' : 'slope';
  const unitWay: Point = family === 'x' ? [0, 1] : family === 'y' ? [1, 0] : unit(way);
  const offPx = Math.abs(cross(unitWay, minus(query.at, through))) * query.pixelsPerTick;
  const tooFar = nearDeg > LET_GO_DEG;
  return {
    kind: 'guide',
    key,
    family,
    through,
    way: unitWay,
    words,
    offPx: tooFar ? Number.POSITIVE_INFINITY : offPx,
    catchable: nearDeg <= CAUGHT_DEG,
  };
}

/** Level, upright and carried-on lines from nodes touched lately, those that are shown and do not move. RULES: SN6. */
function recentGuides(query: SnapQuery): Guide[] {
  const { index, recent = [], without, view } = query;
  const { level, wallsAt } = index;
  const moved = new Set(without?.nodes ?? []);
  for (const id of without?.walls ?? []) {
    const wall = lookup(level.walls, id);
    if (wall !== undefined) moved.add(wall.from).add(wall.to);
  }
  const guides: Guide[] = [];
  for (const node of [...new Set([...recent].reverse())].slice(0, RECENT_NODES)) {
    const at = lookup(level.nodes, node);
    if (at === undefined || moved.has(node) || !isShown(at, view)) continue;
    guides.push(guide(query, `up:${node}`, `straight up and down from ${node}`, at, [0, 1]));
    guides.push(guide(query, `across:${node}`, `straight across from ${node}`, at, [1, 0]));
    for (const id of wallsAt.get(node) ?? []) {
      const wall = mustLookup(level.walls, id);
      if (moved.has(wall.from) || moved.has(wall.to)) continue;
      const way = minus(at, mustLookup(level.nodes, wall.from === node ? wall.to : wall.from));
      if (way[0] === 0 || way[1] === 0) continue;
      // Only beyond the wall's end: on the wall itself the wall is the target.
      if (dot(minus(query.at, at), way) > 0)
        guides.push(guide(query, `on:${id}:${node}`, `wall ${id} carried on`, at, way));
    }
  }
  return guides;
}

/** Level and upright lines through what the gesture has put down. RULES: SN13. */
function drawnGuides(query: SnapQuery): Guide[] {
  return (query.drawn ?? []).flatMap(({ at, words }, i) => [
    guide(query, `drawn-up:${i}`, `in line with ${words}`, at, [0, 1]),
    guide(query, `drawn-across:${i}`, `in line with ${words}`, at, [1, 0]),
  ]);
}

/** The angle from one direction to another, either way along it, degrees 0 to 90. */
function betweenDeg(a: Point, b: Point): number {
  return (Math.atan2(Math.abs(cross(a, b)), Math.abs(dot(a, b))) * 180) / Math.PI;
}

/** Steps of angle from the start nearest to the pointer's direction. RULES: SN7. */
function stepGuides(query: SnapQuery): Guide[] {
  const { start, at, angleStepDeg: step = ANGLE_STEP_DEG } = query;
  if (start === undefined || !(step > 0) || distance(start, at) === 0) return [];
  const way = minus(at, start);
  const deg = (Math.atan2(way[1], way[0]) * 180) / Math.PI;
  const nearest = Math.round(deg / step);
  return [nearest - 1, nearest, nearest + 1].map((count) => {
    const turn = (((count * step) % 360) + 360) % 360;
    const dir = direction(turn);
    return guide(query, `step:${turn}`, headingWords(turn), start, dir, betweenDeg(dir, way));
  });
}

/** A heading, 0 up to 360, as the tape bar counts it: clockwise from straight to the right, the short way. */
function headingWords(deg: number): string {
  if (deg % 180 === 0) return 'straight across';
  if (deg % 90 === 0) return 'straight up and down';
  return `heading ${formatAngle(deg > 180 ? deg - 360 : deg)}`;
}

function direction(deg: number): Point {
  if (deg === 0) return [1, 0];
  if (deg === 90) return [0, 1];
  if (deg === 180) return [-1, 0];
  if (deg === 270) return [0, -1];
  const radians = (deg * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}

/** Lines from the start parallel and square to each reference. RULES: SN7. */
function referenceGuides(query: SnapQuery): Guide[] {
  const { start, at, references = [] } = query;
  if (start === undefined || distance(start, at) === 0) return [];
  const way = minus(at, start);
  return references.flatMap(({ from, to, words }, i) => {
    const dir = minus(to, from);
    if (lengthOf(dir) === 0) return [];
    const square: Point = [0 - dir[1], dir[0]];
    return [
      guide(query, `parallel:${i}:${words}`, `parallel to ${words}`, start, dir, betweenDeg(dir, way)),
      guide(query, `squared:${i}:${words}`, `square to ${words}`, start, square, betweenDeg(square, way)),
    ];
  });
}
