// A level's walls, holes, casings, built-ins and marks on walls as drawing items: all to size at the view's scale.
// Ticks in, points out. Walls are one area with holes, washed and hatched so that a photocopy still shows them solid.
// Knows no boards, no joints and no labels.

import type { Point } from '../graph/types.ts';
import { mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Level, Opening } from '../plan/schema.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import type { LevelWalk, Segment, SegmentBuiltIn, SegmentOpening } from '../walk/types.ts';
import { type Box, boxesOverlap, boxOf } from './boxes.ts';
import type { Item, Stroke } from './items.ts';
import { type PlanView, wallRings } from './plan-view.ts';
import { circle, MEDIUM, THIN } from './shapes.ts';

const WALL_EDGE: Stroke = { ink: 'ink', width: 0.9 };
const EDGE: Stroke = { ink: 'ink', width: 0.6 };
const FINE: Stroke = { ink: 'graphite', width: THIN };
const DASHED: Stroke = { ink: 'ink', width: 0.6, dash: [2.4, 1.8] };
/** A door leaf as drawn shut, 35 mm; common practice, from memory. */
const LEAF = 35 * TICKS_PER_MM;

/** Walls as one area: outlines even-odd, washed and hatched. */
export function wallItems(walk: LevelWalk, view: PlanView): Item[] {
  // A ring that lies wholly beside the window changes nothing in it.
  const rings = wallRings(walk)
    .map((ring) => ring.map(view.on))
    .filter((ring) => boxesOverlap(boxOf(ring), view.window));
  if (rings.length === 0) return [];
  return [
    {
      kind: 'area',
      rings,
      fill: 'wash',
      hatch: { spacing: 3, angleDeg: 45, stroke: { ink: 'graphite', width: 0.22 } },
      stroke: WALL_EDGE,
      role: 'walls',
    },
  ];
}

/** Wall edges as lines, points: what labels had better not stand on. */
export function wallLines(walk: LevelWalk, view: PlanView): [Point, Point][] {
  return wallRings(walk).flatMap((ring) => {
    const points = ring.map(view.on);
    return points.map((p, i): [Point, Point] => [p, points[(i + 1) % points.length]!]);
  });
}

/** Holes in walls: the gap, its jambs, and inside it what closes it (leaf, glass, nothing), never a swing. */
export function openingItems(level: Level, view: PlanView): Item[] {
  return sortedEntries(level.openings).flatMap(([, opening]) => oneOpening(level, opening, view));
}

function oneOpening(level: Level, opening: Opening, view: PlanView): Item[] {
  const wall = mustLookup(level.walls, opening.wall);
  const a = mustLookup(level.nodes, wall.from);
  const b = mustLookup(level.nodes, wall.to);
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return [];
  const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const across: Point = [-along[1], along[0]];
  const half = wall.thickness / 2;
  /** Along from the wall's first node, across to its right hand. */
  const at = (x: number, y: number): Point =>
    view.on([a[0] + along[0] * x + across[0] * y, a[1] + along[1] * x + across[1] * y]);
  const quad = (x0: number, x1: number, y0: number, y1: number): Point[] => [
    at(x0, y0),
    at(x1, y0),
    at(x1, y1),
    at(x0, y1),
  ];
  const [from, to] = [opening.at, opening.at + opening.width];
  // A hair over the faces, so that the walls' own outline is gone there.
  const over = half + 0.7 / view.pointsPerTick;
  const items: Item[] = [
    { kind: 'area', rings: [quad(from, to, -over, over)], fill: 'paper', role: 'opening' },
    ...[from, to].map(
      (x): Item => ({ kind: 'line', points: [at(x, -half), at(x, half)], stroke: WALL_EDGE, role: 'jamb' }),
    ),
  ];
  const leaf = Math.min(LEAF, wall.thickness) / 2;
  const box = (x0: number, x1: number, y0: number, y1: number, stroke = FINE, role = 'leaf'): Item => ({
    kind: 'line',
    points: quad(x0, x1, y0, y1),
    stroke,
    closed: true,
    fill: 'paper',
    role,
  });
  switch (opening.kind) {
    case 'window':
      for (const y of [-half, -half * 0.12, half * 0.12, half]) {
        const [stroke, role] = Math.abs(y) === half ? [EDGE, 'sill'] : [FINE, 'glass'];
        items.push({ kind: 'line', points: [at(from, y), at(to, y)], stroke, role });
      }
      break;
    case 'door':
      items.push(box(from, to, -leaf, leaf));
      break;
    case 'sliding': {
      const middle = (from + to) / 2;
      const lap = opening.width * 0.04;
      items.push(box(from, middle + lap, -leaf, 0), box(middle - lap, to, 0, leaf));
      break;
    }
    case 'pocket': {
      const edge = opening.pocket === 'start' ? Math.max(0, from - opening.width) : from;
      const far = opening.pocket === 'end' ? Math.min(length, to + opening.width) : to;
      if (opening.pocket !== undefined) {
        const [x0, x1] = opening.pocket === 'start' ? [edge, from] : [to, far];
        const deep = half * 0.55;
        items.push(box(x0, x1, -deep, deep, DASHED, 'pocket'));
      }
      items.push(box(from, to, -leaf / 2, leaf / 2));
      break;
    }
    case 'cased':
    case 'passage':
      break;
  }
  return items;
}

/** Place on a segment: along from its left corner, inward from its face. Ticks in, points out. */
export function onSegment(segment: Segment, view: PlanView): (x: number, y: number) => Point {
  const { start, along, inward } = segment;
  return (x, y) =>
    view.on([start[0] + along[0] * x + inward[0] * y, start[1] + along[1] * x + inward[1] * y]);
}

/** Casings and plinths on one segment, to size. */
export function casingItems(segment: Segment, view: PlanView): Item[] {
  return segment.openings.flatMap((opening) => casingOf(segment, opening, view));
}

function casingOf(segment: Segment, seen: SegmentOpening, view: PlanView): Item[] {
  const { casing, opening } = seen;
  if (!casing) return [];
  const at = onSegment(segment, view);
  const width = casing.profile.width ?? 0;
  const items: Item[] = [];
  const block = (from: number, to: number, deep: number, role: string) => {
    const [x0, x1] = [Math.max(0, from), Math.min(segment.drawn, to)];
    if (x1 <= x0) return;
    items.push({
      kind: 'line',
      points: [at(x0, 0), at(x1, 0), at(x1, deep), at(x0, deep)],
      stroke: EDGE,
      closed: true,
      fill: 'paper',
      role,
    });
  };
  for (const [edge, way] of [
    [seen.holeFrom - seen.reveal, -1],
    [seen.holeTo + seen.reveal, 1],
  ] as const) {
    const leg = (wide: number): [number, number] => (way < 0 ? [edge - wide, edge] : [edge, edge + wide]);
    block(...leg(width), casing.profile.thickness, 'casing');
    if (opening.plinth) block(...leg(opening.plinth.width), opening.plinth.thickness, 'plinth');
  }
  return items;
}

/** Casing edges as lines, points: labels keep off them. */
export function casingLines(segment: Segment, view: PlanView): [Point, Point][] {
  return casingItems(segment, view).flatMap((item) => {
    if (item.kind !== 'line') return [];
    return item.points.map((p, i): [Point, Point] => [p, item.points[(i + 1) % item.points.length]!]);
  });
}

/** What stands on the segment: each built-in's outline in points, with its kind. Those round a corner are drawn on their own wall. */
export function builtInOutlines(
  segment: Segment,
  level: Level,
  view: PlanView,
): { readonly builtIn: SegmentBuiltIn; readonly outline: Point[]; readonly box: Box }[] {
  const at = onSegment(segment, view);
  const least = 3 / view.pointsPerTick;
  return segment.builtIns
    .filter((builtIn) => !builtIn.roundCorner)
    .map((builtIn) => {
      // One without a depth is a strip, so that it can be seen at all.
      const deep = Math.max(least, mustLookup(level.builtIns, builtIn.id).depth ?? 0);
      const outline = [at(builtIn.from, 0), at(builtIn.to, 0), at(builtIn.to, deep), at(builtIn.from, deep)];
      return { builtIn, outline, box: boxOf(outline) };
    });
}

/** Edges of built-ins as lines, points: labels keep off them. */
export function builtInLines(segment: Segment, level: Level, view: PlanView): [Point, Point][] {
  return builtInOutlines(segment, level, view).flatMap(({ outline }) =>
    outline.map((p, i): [Point, Point] => [p, outline[(i + 1) % outline.length]!]),
  );
}

/** A built-in as drawn: its outline and what tells its kind without words (treads, a basin, a grate). */
export function builtInItems(segment: Segment, level: Level, view: PlanView): Item[] {
  return builtInOutlines(segment, level, view).flatMap(({ builtIn, outline }) => {
    const [a, b, c, d] = outline as [Point, Point, Point, Point];
    /** From the left end along, from the wall outwards, both 0 to 1. */
    const at = (s: number, t: number): Point => [
      a[0] + (b[0] - a[0]) * s + (d[0] - a[0]) * t,
      a[1] + (b[1] - a[1]) * s + (d[1] - a[1]) * t,
    ];
    const items: Item[] = [
      { kind: 'line', points: [a, b, c, d], stroke: EDGE, closed: true, fill: 'paper', role: 'built-in' },
    ];
    const fine = (points: Point[], closed = false) =>
      items.push({ kind: 'line', points, stroke: FINE, closed });
    const wide = Math.hypot(b[0] - a[0], b[1] - a[1]);
    switch (builtIn.kind) {
      case 'stair': {
        const treads = Math.max(2, Math.min(16, Math.round(wide / 7)));
        for (let k = 1; k < treads; k++) fine([at(k / treads, 0), at(k / treads, 1)]);
        break;
      }
      case 'tub':
        fine([at(0.06, 0.12), at(0.94, 0.12), at(0.94, 0.88), at(0.06, 0.88)], true);
        break;
      case 'cabinet':
        fine([at(0, 0.92), at(1, 0.92)]);
        break;
      case 'hearth':
      case 'column':
        fine([at(0, 0), at(1, 1)]);
        fine([at(1, 0), at(0, 1)]);
        break;
      case 'radiator': {
        const fins = Math.max(3, Math.min(24, Math.round(wide / 3)));
        for (let k = 1; k < fins; k++) fine([at(k / fins, 0.2), at(k / fins, 0.8)]);
        break;
      }
    }
    return items;
  });
}

/** Outlets and registers where they sit on the face: a half-filled dot, a grille. */
export function faceMarkItems(segment: Segment, view: PlanView): Item[] {
  const at = onSegment(segment, view);
  return segment.marks.flatMap((mark): Item[] => {
    if (mark.kind === 'outlet') {
      const reach = 2.2 / view.pointsPerTick;
      return [
        circle(at((mark.from + mark.to) / 2, reach), 1.9, { ink: 'ink', width: MEDIUM }, 'paper', 'outlet'),
      ];
    }
    const deep = 2.6 / view.pointsPerTick;
    const middle = (mark.from + mark.to) / 2;
    return [
      {
        kind: 'line',
        points: [at(mark.from, 0), at(mark.to, 0), at(mark.to, deep), at(mark.from, deep)],
        stroke: EDGE,
        closed: true,
        fill: 'paper',
        role: 'register',
      },
      { kind: 'line', points: [at(middle, 0), at(middle, deep)], stroke: FINE },
    ];
  });
}
