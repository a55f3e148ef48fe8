// A level's walls to its face loops: which enclose a room, a void or nothing, which lie in which, and which are too
// narrow (RULES: WK3 to WK12). Ticks and square ticks, y down; a room's outer loop runs clockwise as seen and its area
// is positive. Loops whose walls are what they were in an earlier level are lent from it, as the same objects (RP3).
// Names, records and what stands on the faces are core/walk's.

import type { Level, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import { dropVanished } from './drop.ts';
import { buildHalfEdges } from './half-edges.ts';
import { narrowPlaces } from './narrow.ts';
import { type Faces, facesOf, offsetRing } from './offset.ts';
import { exactAreaSign, signedArea } from './orientation.ts';
import { boxOf, polygonIndex } from './polygon-index.ts';
import { sameList } from './same-list.ts';
import { compareCorners, type Outline, outlineOf } from './segments.ts';
import { touchedWalls } from './touched.ts';
import type {
  FaceLoop,
  HalfEdge,
  HalfEdges,
  LevelFaces,
  NarrowPlace,
  Point,
  WallComponent,
} from './types.ts';

const SQUARE_TICKS_PER_M2 = (1000 * TICKS_PER_MM) ** 2;

/** What a loop is by itself: it hangs on its own walls alone. */
interface Draft {
  /** Its half-edges in walking order, from its lowest. */
  readonly walked: readonly Pick<HalfEdge, 'wall' | 'side'>[];
  readonly outline: Outline;
  readonly centre: readonly Point[];
  readonly centreArea: number;
  readonly signedArea: number;
  /** Before it is known what lies in what: all that go round no floor bound the outside. */
  readonly kind: 'outer' | 'void' | 'outside';
}

/** A loop in its place. Positions are those of `HalfEdges.loops`. */
interface Placed {
  readonly draft: Draft;
  readonly component: number;
  kind: FaceLoop['kind'];
  /** Position of the outer loop or void that holds it. */
  holder: number | null;
  narrow: NarrowPlace | null;
}

/** A room's outer loop with its islands, or any other loop alone, and where each is too narrow. */
interface Group {
  readonly members: readonly Draft[];
  readonly kinds: readonly FaceLoop['kind'][];
  readonly narrow: readonly (NarrowPlace | null)[];
}

/** The faces of a level with what a later level may be lent. */
export interface Worked {
  readonly net: Pick<Level, 'nodes' | 'walls'>;
  readonly voidAreaM2: number;
  readonly faces: LevelFaces;
  /** Parallel to `faces.loops`. */
  readonly drafts: readonly Draft[];
  readonly groups: ReadonlyMap<Draft, Group>;
}

/**
 * All face loops of a level, worked out; `base` lends what did not change since. The same with `base` as without, but for
 * which objects are shared. Requires a planar level; throws as `buildHalfEdges` does. RULES: WK3 to WK12, RP3.
 */
export function workFaces(level: Level, { voidAreaM2 }: Settings, base: Worked | null): Worked {
  const graph = buildHalfEdges(level);
  const componentOf = componentsOf(graph);
  const lender = base !== null && base.voidAreaM2 === voidAreaM2 ? base : null;
  const drafts = draftsOf(level, graph, voidAreaM2, lender);
  const placed = drafts.map(
    (draft, i): Placed => ({
      draft,
      component: componentOf[graph.loops[i]![0]!]!,
      kind: draft.kind,
      holder: null,
      narrow: null,
    }),
  );
  placeIslands(placed);
  const groups = markNarrow(placed, lender);
  const order = canonicalOrder(placed);
  const { nodes, walls } = level;
  return {
    net: { nodes, walls },
    voidAreaM2,
    faces: inOrder(graph, placed, componentOf, order, lender),
    drafts: order.map((i) => drafts[i]!),
    groups,
  };
}

/** Parallel to `graph.loops`. */
function draftsOf(level: Level, graph: HalfEdges, voidAreaM2: number, lender: Worked | null): Draft[] {
  const touched = lender === null ? null : touchedWalls(lender.net, level);
  const byFirst = { left: new Map<WallId, Draft>(), right: new Map<WallId, Draft>() };
  for (const draft of lender?.drafts ?? []) {
    const { wall, side } = draft.walked[0]!;
    byFirst[side].set(wall, draft);
  }
  const lent = graph.loops.map((loop): Draft | null => {
    const first = graph.edges[loop[0]!]!;
    const draft = byFirst[first.side].get(first.wall);
    if (touched === null || draft === undefined || draft.walked.length !== loop.length) return null;
    const same = loop.every((index, i) => {
      const { wall, side } = graph.edges[index]!;
      const was = draft.walked[i]!;
      return was.wall === wall && was.side === side && !touched.has(wall);
    });
    return same ? draft : null;
  });
  const fresh = graph.loops.filter((_, i) => lent[i] === null);
  const faces = facesOf(level, graph, fresh);
  return graph.loops.map((loop, i) => lent[i] ?? draftOf(loop, faces, voidAreaM2));
}

function draftOf(loop: readonly number[], faces: Faces, voidAreaM2: number): Draft {
  const centre = loop.map((edge) => faces.originAt[edge]!);
  const outline = outlineOf(dropVanished(offsetRing(loop, faces)), faces);
  const area = signedArea(outline.corners.map((corner) => corner.at));
  let kind: Draft['kind'] = 'outside';
  if (exactAreaSign(centre) > 0) {
    // Faces that have all changed places enclose nothing, though turned right round their area is positive again.
    const everted = outline.segments.every((segment, i) => segment.link !== null || outline.reversed[i]);
    kind = everted || area < voidAreaM2 * SQUARE_TICKS_PER_M2 || area <= 0 ? 'void' : 'outer';
  }
  const walked = loop.map((edge) => {
    const { wall, side } = faces.edges[edge]!;
    return { wall, side };
  });
  return { walked, outline, centre, centreArea: signedArea(centre), signedArea: area, kind };
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
      // The whole loop comes by its next ones, and the loops across its walls by their twins.
      for (let way = 0; way < 2; way++) {
        const near = way === 0 ? edge.next : edge.twin;
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
function placeIslands(placed: readonly Placed[]): void {
  const boundaries = placed.filter(({ kind }) => kind === 'outside');
  if (boundaries.length < 2) return;
  const index = polygonIndex(placed.map(({ draft }) => (draft.kind === 'outside' ? [] : draft.centre)));
  for (const boundary of boundaries) {
    const holders = index
      .holding(boundary.draft.centre[0]!)
      .map((held) => held.polygon)
      .filter((position) => placed[position]!.component !== boundary.component)
      .sort((a, b) => placed[a]!.draft.centreArea - placed[b]!.draft.centreArea);
    const holder = holders[0];
    if (holder === undefined) continue;
    boundary.holder = holder;
    boundary.kind = placed[holder]!.kind === 'void' ? 'void' : 'island';
  }
}

/** Marks loops whose faces cross themselves, another loop of the same room, or lie within a wall. RULES: WK11. */
function markNarrow(placed: readonly Placed[], lender: Worked | null): Map<Draft, Group> {
  const together = new Map<number, number[]>();
  placed.forEach((loop, i) => {
    const leader = loop.kind === 'island' ? loop.holder! : i;
    const list = together.get(leader);
    if (list === undefined) together.set(leader, [i]);
    else list.push(i);
  });
  const groups = new Map<Draft, Group>();
  for (const [leader, positions] of together) {
    const members = positions.map((i) => placed[i]!.draft);
    const kinds = positions.map((i) => placed[i]!.kind);
    const known = lender?.groups.get(members[0]!);
    const group =
      known !== undefined && sameList(known.members, members) && sameList(known.kinds, kinds)
        ? known
        : { members, kinds, narrow: narrowOf(members, kinds, positions.indexOf(leader)) };
    positions.forEach((i, k) => {
      placed[i]!.narrow = group.narrow[k]!;
      groups.set(members[k]!, group);
    });
  }
  return groups;
}

function narrowOf(members: readonly Draft[], kinds: readonly FaceLoop['kind'][], leader: number) {
  return narrowPlaces(
    members.map(({ outline }, i) => ({ outline, island: kinds[i] === 'island' })),
    leader,
  );
}

/** Rooms with their islands, then voids, then the outside, each by smallest corner. RULES: WK9. */
function canonicalOrder(placed: readonly Placed[]): number[] {
  const smallest = (i: number) => placed[i]!.draft.outline.corners[0]!;
  const byCorner = (a: number, b: number) => compareCorners(smallest(a), smallest(b)) || a - b;
  const positions = placed.map((_, i) => i);
  const ofKind = (kind: FaceLoop['kind']) => positions.filter((i) => placed[i]!.kind === kind).sort(byCorner);
  const islands = new Map<number, number[]>();
  for (const i of ofKind('island')) {
    const holder = placed[i]!.holder!;
    const list = islands.get(holder);
    if (list === undefined) islands.set(holder, [i]);
    else list.push(i);
  }
  return [
    ...ofKind('outer').flatMap((outer) => [outer, ...(islands.get(outer) ?? [])]),
    ...ofKind('void'),
    ...ofKind('outside'),
  ];
}

function inOrder(
  graph: HalfEdges,
  placed: readonly Placed[],
  componentOf: Int32Array,
  order: readonly number[],
  lender: Worked | null,
): LevelFaces {
  const place = new Map(order.map((loop, position) => [loop, position]));
  const ordered = order.map((i) => placed[i]!);
  const known = new Map(lender?.drafts.map((draft, i) => [draft, lender.faces.loops[i]!]));
  return {
    loops: ordered.map(({ draft, kind, narrow }): FaceLoop => {
      const was = known.get(draft);
      const tooNarrow = narrow !== null;
      if (was !== undefined && was.kind === kind && was.tooNarrow === tooNarrow) return was;
      const { segments, corners } = draft.outline;
      const box = was?.box ?? boxOf(corners.map((corner) => corner.at));
      return { kind, segments, corners, box, signedArea: draft.signedArea, tooNarrow };
    }),
    holders: ordered.map(({ kind, holder }) => (kind === 'island' ? place.get(holder!)! : null)),
    narrowAt: ordered.map(({ narrow }) => narrow),
    components: wallComponents(graph, componentOf, ordered),
  };
}

/** Half-edges stand in the order of their walls, so a component's walls do too. */
function wallComponents(
  graph: HalfEdges,
  componentOf: Int32Array,
  ordered: readonly Placed[],
): WallComponent[] {
  const walls: WallId[][] = [];
  const loops: number[][] = [];
  for (const edge of graph.edges) {
    if (edge.side === 'left') continue;
    const component = componentOf[edge.index]!;
    walls[component] ??= [];
    walls[component].push(edge.wall);
  }
  ordered.forEach(({ component }, position) => {
    loops[component] ??= [];
    loops[component].push(position);
  });
  return walls.map((ids, component) => ({ walls: ids, loops: loops[component] ?? [] }));
}
