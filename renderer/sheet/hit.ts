// What lies under the pointer and within a box, by spatial index. Places in ticks; how near is near enough is in pixels, so
// that it feels the same at every zoom. A label that stands on the sheet
// counts as what it names. Knows no tool and no canvas.

import Flatbush from 'flatbush';
import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import { inRings } from '../../core/sheets/plan-view.ts';
import type { Stage } from '../state/app-state.ts';
import { type Ref, refKey } from '../state/refs.ts';
import { type Bounds, boundsOfPoints } from '../state/viewport.ts';
import { namedAt } from './painted.ts';
import { type Thing, thingsOf } from './shapes.ts';

export interface HitIndex {
  /** What lies at a place, nearest and smallest first. */
  hit(at: Point, pixelsPerTick: number): readonly Ref[];
  /** What lies wholly inside a box, or touches it. Rooms and corners are not gathered by a box. */
  within(box: Bounds, touching: boolean): readonly Ref[];
}

/** How far off a thing is still caught, pixels. */
const REACH: Readonly<Record<Ref['kind'], number>> = {
  node: 8,
  corner: 13,
  mark: 7,
  opening: 4,
  casing: 3,
  builtIn: 3,
  piece: 5,
  segment: 5,
  wall: 4,
  room: 0,
};
const FARTHEST = Math.max(...Object.values(REACH));

/** Which kinds are looked for at each stage, the first before the last. */
const ORDER: Readonly<Record<Stage, readonly Ref['kind'][]>> = {
  measure: ['node', 'corner', 'mark', 'opening', 'builtIn', 'segment', 'wall', 'room'],
  draw: ['node', 'mark', 'opening', 'builtIn', 'wall', 'corner', 'segment', 'room'],
  trim: ['corner', 'casing', 'mark', 'piece', 'opening', 'builtIn', 'wall', 'segment', 'node', 'room'],
  cut: ['corner', 'casing', 'mark', 'piece', 'opening', 'builtIn', 'wall', 'segment', 'node', 'room'],
};

const IN_A_BOX: ReadonlySet<Ref['kind']> = new Set(['node', 'wall', 'opening', 'builtIn', 'mark', 'piece']);

/** An index of all that can be chosen on a level at a stage. Made once for each derived level and stage. */
export function hitIndex(level: DerivedLevel, stage: Stage): HitIndex {
  let byStage = made.get(level);
  if (byStage === undefined) {
    byStage = new Map();
    made.set(level, byStage);
  }
  const known = byStage.get(stage);
  if (known !== undefined) return known;
  const bare = makeIndex(thingsOf(level), ORDER[stage]);
  const index: HitIndex = {
    ...bare,
    hit: (at, pixelsPerTick) => {
      const named = namedAt(level, stage, at, pixelsPerTick);
      const found = bare.hit(at, pixelsPerTick);
      // A label stands over everything but what is taken hold of by its point.
      if (named === null || found[0]?.kind === 'node') return found;
      return once([named, ...found]);
    },
  };
  byStage.set(stage, index);
  return index;
}

/** A memory of what was asked for, by the derived level itself: it goes when the level goes. */
const made = new WeakMap<DerivedLevel, Map<Stage, HitIndex>>();

interface Found {
  readonly ref: Ref;
  readonly rank: number;
  readonly away: number;
  readonly size: number;
}

function makeIndex(all: readonly Thing[], order: readonly Ref['kind'][]): HitIndex {
  const things = all.filter(({ ref }) => order.includes(ref.kind));
  const boxes = things.map(({ points }) => boundsOfPoints(points)!);
  const tree = things.length === 0 ? null : new Flatbush(things.length);
  if (tree !== null) {
    for (const box of boxes) tree.add(...box);
    tree.finish();
  }
  return {
    hit: (at, pixelsPerTick) => {
      const far = FARTHEST / pixelsPerTick;
      const found: Found[] = [];
      for (const i of tree?.search(at[0] - far, at[1] - far, at[0] + far, at[1] + far) ?? []) {
        const thing = things[i]!;
        const away = distanceTo(thing, at);
        if (away > REACH[thing.ref.kind] / pixelsPerTick) continue;
        const [left, top, right, bottom] = boxes[i]!;
        const size = (right - left) * (bottom - top);
        found.push({ ref: thing.ref, rank: order.indexOf(thing.ref.kind), away, size });
      }
      found.sort((a, b) => a.rank - b.rank || a.away - b.away || a.size - b.size);
      return once(found.map(({ ref }) => ref));
    },
    within: (box, touching) => {
      const refs: Ref[] = [];
      for (const i of (tree?.search(...box) ?? []).sort((a, b) => a - b)) {
        const thing = things[i]!;
        if (!IN_A_BOX.has(thing.ref.kind)) continue;
        const inside = contains(box, boxes[i]!);
        if (inside || (touching && touches(thing.points, box))) refs.push(thing.ref);
      }
      return once(refs);
    },
  };
}

function once(refs: readonly Ref[]): readonly Ref[] {
  return [...new Map(refs.map((ref) => [refKey(ref), ref])).values()];
}

function contains(outer: Bounds, inner: Bounds): boolean {
  return outer[0] <= inner[0] && outer[1] <= inner[1] && outer[2] >= inner[2] && outer[3] >= inner[3];
}

function distanceTo({ points, holes = [] }: Thing, at: Point): number {
  if (points.length >= 3 && inRings([points, ...holes], at)) return 0;
  let nearest = Infinity;
  for (const ring of [points, ...holes])
    for (const [a, b] of edges(ring)) nearest = Math.min(nearest, toSegment(at, a, b));
  return nearest;
}

/** Edges of a closed polygon, a line or a place. */
function edges(points: readonly Point[]): readonly (readonly [Point, Point])[] {
  if (points.length < 3) return [[points[0]!, points.at(-1)!]];
  return points.map((p, i) => [p, points[(i + 1) % points.length]!] as const);
}

/** From a place to a straight line between two others, ticks. */
export function toSegment(at: Point, a: Point, b: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / square));
  return Math.hypot(at[0] - a[0] - dx * t, at[1] - a[1] - dy * t);
}

/** Whether a polygon, a line or a place has a point in the box, its edge counted in. */
function touches(points: readonly Point[], [left, top, right, bottom]: Bounds): boolean {
  const inside = ([x, y]: Point): boolean => x >= left && x <= right && y >= top && y <= bottom;
  if (points.some(inside)) return true;
  const frame: Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  if (points.length >= 3 && inRings([points], frame[0]!)) return true;
  return edges(points).some(([a, b]) => crossesBox(a, b, left, top, right, bottom));
}

/** Whether a straight line passes through a box, slab by slab. */
function crossesBox(a: Point, b: Point, left: number, top: number, right: number, bottom: number): boolean {
  let [from, to] = [0, 1];
  for (const [start, way, low, high] of [
    [a[0], b[0] - a[0], left, right],
    [a[1], b[1] - a[1], top, bottom],
  ] as const) {
    if (way === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const [p, q] = [(low - start) / way, (high - start) / way];
    from = Math.max(from, Math.min(p, q));
    to = Math.min(to, Math.max(p, q));
  }
  return from <= to;
}
