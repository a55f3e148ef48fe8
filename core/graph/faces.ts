// A level's walls to its face loops: which enclose a room, a void or nothing, which lie in which, and which are too
// narrow (RULES: WK3 to WK12). Ticks and square ticks, y down; a room's outer loop runs clockwise as seen and its area
// is positive. Names, records and what stands on the faces are core/walk's.

import { byCodeUnit } from '../plan/maps.ts';
import type { Level, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import { crossingPairs, type LoopSide } from './crossing.ts';
import { dropVanished } from './drop.ts';
import { buildHalfEdges } from './half-edges.ts';
import { type Faces, facesOf, offsetRing } from './offset.ts';
import { cross, exactAreaSign, midpoint, minus, signedArea } from './orientation.ts';
import { polygonIndex } from './polygon-index.ts';
import { compareCorners, type Outline, outlineOf } from './segments.ts';
import type { FaceLoop, HalfEdges, LevelFaces, NarrowPlace, Point, WallComponent } from './types.ts';

const SQUARE_TICKS_PER_M2 = (1000 * TICKS_PER_MM) ** 2;

/** A loop while it is being sorted out. Positions are those of `HalfEdges.loops`. */
interface Draft {
  readonly outline: Outline;
  readonly centre: readonly Point[];
  readonly centreArea: number;
  readonly component: number;
  readonly signedArea: number;
  kind: FaceLoop['kind'];
  /** Position of the outer loop or void that holds it. */
  holder: number | null;
  narrow: NarrowPlace | null;
}

/**
 * All face loops of a level in canonical order: each room's outer loop with its islands after it, then voids, then
 * what bounds the outside. Requires a planar level; throws as `buildHalfEdges` does. RULES: WK3 to WK12.
 */
export function faceLoops(level: Level, settings: Settings): FaceLoop[] {
  return [...levelFaces(level, settings).loops];
}

/** The same with how the loops lie in one another, where they are too narrow, and which walls hang together. */
export function levelFaces(level: Level, settings: Settings): LevelFaces {
  const graph = buildHalfEdges(level);
  const faces = facesOf(level, graph);
  const components = componentsOf(graph);
  const drafts = graph.loops.map((loop) => draftOf(loop, faces, components, settings));
  placeIslands(drafts);
  markNarrow(drafts);
  return inCanonicalOrder(graph, drafts, components);
}

function draftOf(loop: readonly number[], faces: Faces, components: Int32Array, settings: Settings): Draft {
  const centre = loop.map((edge) => faces.originAt[edge]!);
  const outline = outlineOf(dropVanished(offsetRing(loop, faces)), faces);
  const area = signedArea(outline.corners.map((corner) => corner.at));
  const draft: Draft = {
    outline,
    centre,
    centreArea: signedArea(centre),
    component: components[loop[0]!]!,
    signedArea: area,
    kind: 'outside',
    holder: null,
    narrow: null,
  };
  if (exactAreaSign(centre) > 0) {
    // Faces that have all changed places enclose nothing, though turned right round their area is positive again.
    const everted = outline.segments.every((segment, i) => segment.link !== null || outline.reversed[i]);
    const least = settings.voidAreaM2 * SQUARE_TICKS_PER_M2;
    draft.kind = everted || area < least || area <= 0 ? 'void' : 'outer';
  }
  return draft;
}

/** Component of each half-edge: walls that hang together by nodes. Numbered by their lowest half-edge. */
function componentsOf(graph: HalfEdges): Int32Array {
  const component = new Int32Array(graph.edges.length).fill(-1);
  let count = 0;
  for (let first = 0; first < component.length; first++) {
    if (component[first] !== -1) continue;
    const open = [first];
    component[first] = count;
    while (open.length > 0) {
      const edge = graph.edges[open.pop()!]!;
      for (const near of [edge.next, edge.prev, edge.twin]) {
        if (component[near] !== -1) continue;
        component[near] = count;
        open.push(near);
      }
    }
    count += 1;
  }
  return component;
}

/**
 * Finds what holds each component's outer boundary: of the loops around floor that hold one of its nodes the smallest.
 * In a room it is an island, in a void void, else it bounds the outside. RULES: WK10.
 */
function placeIslands(drafts: readonly Draft[]): void {
  const around = drafts.map((draft) => (draft.kind === 'outside' ? [] : draft.centre));
  const boundaries = drafts.filter((draft) => draft.kind === 'outside');
  if (boundaries.length < 2) return;
  const index = polygonIndex(around);
  for (const boundary of boundaries) {
    const holders = index
      .holding(boundary.centre[0]!)
      .map((held) => held.polygon)
      .filter((position) => drafts[position]!.component !== boundary.component)
      .sort((a, b) => drafts[a]!.centreArea - drafts[b]!.centreArea);
    const holder = holders[0];
    if (holder === undefined) continue;
    boundary.holder = holder;
    boundary.kind = drafts[holder]!.kind === 'void' ? 'void' : 'island';
  }
}

/** Marks loops whose faces cross themselves, another loop of the same room, or lie within a wall. RULES: WK11. */
function markNarrow(drafts: readonly Draft[]): void {
  const groups = new Map<number, number[]>();
  drafts.forEach((draft, i) => {
    const group = draft.kind === 'island' ? draft.holder! : i;
    const list = groups.get(group);
    if (list === undefined) groups.set(group, [i]);
    else list.push(i);
  });
  for (const group of groups.values()) markGroup(group, drafts);
  markSwallowed(drafts);
}

function markGroup(group: readonly number[], drafts: readonly Draft[]): void {
  const sides: LoopSide[] = [];
  const place: { draft: Draft; segment: number }[] = [];
  for (const loop of group) {
    const draft = drafts[loop]!;
    draft.outline.segments.forEach(({ start, end }, segment) => {
      sides.push({ loop, start, end });
      place.push({ draft, segment });
      if (draft.outline.reversed[segment]) mark(draft, midpoint(start, end), [[draft, segment]]);
    });
  }
  for (const [i, j] of crossingPairs(sides)) {
    const [a, b] = [place[i]!, place[j]!];
    const at = crossingPoint(sides[i]!, sides[j]!);
    const both: [Draft, number][] = [
      [a.draft, a.segment],
      [b.draft, b.segment],
    ];
    mark(a.draft, at, both);
    mark(b.draft, at, both);
  }
}

function mark(draft: Draft, at: Point, segments: readonly (readonly [Draft, number])[]): void {
  if (draft.narrow !== null) return;
  draft.narrow = { at, segments: segments.map(([of, i]) => of.outline.segments[i]!.key) };
}

/** Where two crossing sides cross; the middle between their middles where they lie along one another. */
function crossingPoint(a: LoopSide, b: LoopSide): Point {
  const along = minus(a.end, a.start);
  const turn = cross(along, minus(b.end, b.start));
  const t = cross(minus(b.start, a.start), minus(b.end, b.start)) / turn;
  if (!(t >= 0 && t <= 1)) return midpoint(midpoint(a.start, a.end), midpoint(b.start, b.end));
  return [a.start[0] + along[0] * t, a.start[1] + along[1] * t];
}

/** An island that crosses nothing may still lie wholly within a wall or within another island. */
function markSwallowed(drafts: readonly Draft[]): void {
  const islands = drafts.filter((draft) => draft.kind === 'island' && draft.narrow === null);
  if (islands.length === 0) return;
  const index = polygonIndex(
    drafts.map(({ kind, outline }) =>
      kind === 'outer' || kind === 'island' ? outline.corners.map((corner) => corner.at) : [],
    ),
  );
  for (const island of islands) {
    const corner = island.outline.corners[0]!;
    const held = index.holding(corner.at).filter(({ winding }) => winding !== 0);
    const inRoom = held.some(({ polygon }) => polygon === island.holder);
    const sibling = held
      .map(({ polygon }) => drafts[polygon]!)
      .find((other) => other !== island && other.kind === 'island' && other.holder === island.holder);
    if (inRoom && sibling === undefined) continue;
    mark(island, corner.at, [[island, 0]]);
    const other = sibling ?? drafts[island.holder!]!;
    mark(other, corner.at, [[island, 0]]);
  }
}

/** Rooms with their islands, then voids, then the outside, each by smallest corner. RULES: WK9. */
function inCanonicalOrder(graph: HalfEdges, drafts: readonly Draft[], componentOf: Int32Array): LevelFaces {
  const smallest = (i: number) => drafts[i]!.outline.corners[0]!;
  const byCorner = (a: number, b: number) => compareCorners(smallest(a), smallest(b)) || a - b;
  const positions = drafts.map((_, i) => i);
  const ofKind = (kind: FaceLoop['kind']) => positions.filter((i) => drafts[i]!.kind === kind).sort(byCorner);
  const islands = new Map<number, number[]>();
  for (const i of ofKind('island')) {
    const holder = drafts[i]!.holder!;
    const list = islands.get(holder);
    if (list === undefined) islands.set(holder, [i]);
    else list.push(i);
  }
  const order = [
    ...ofKind('outer').flatMap((outer) => [outer, ...(islands.get(outer) ?? [])]),
    ...ofKind('void'),
    ...ofKind('outside'),
  ];
  const place = new Map(order.map((draft, position) => [draft, position]));
  const inOrder = order.map((i) => drafts[i]!);
  return {
    graph,
    loops: inOrder.map(
      ({ kind, outline, signedArea, narrow }): FaceLoop => ({
        kind,
        segments: outline.segments,
        corners: outline.corners,
        signedArea,
        tooNarrow: narrow !== null,
      }),
    ),
    holders: inOrder.map(({ kind, holder }) => (kind === 'island' ? place.get(holder!)! : null)),
    narrowAt: inOrder.map(({ narrow }) => narrow),
    components: wallComponents(graph, componentOf, order, drafts),
  };
}

function wallComponents(
  graph: HalfEdges,
  componentOf: Int32Array,
  order: readonly number[],
  drafts: readonly Draft[],
): WallComponent[] {
  const walls: WallId[][] = [];
  const loops: number[][] = [];
  for (const edge of graph.edges) {
    if (edge.side === 'left') continue;
    const component = componentOf[edge.index]!;
    walls[component] ??= [];
    walls[component].push(edge.wall);
  }
  order.forEach((draft, position) => {
    const component = drafts[draft]!.component;
    loops[component] ??= [];
    loops[component].push(position);
  });
  return walls.map((ids, component) => ({ walls: ids.sort(byCodeUnit), loops: loops[component] ?? [] }));
}
