// A loop of half-edges to a ring of sides: walls in line become one side, each pushed out by half its thickness, and
// neighbours meet in corners or by a straight link (RULES: WK3 to WK6). Ticks, y down, floor on the right hand.
// Every line and corner is kept twice: on the centre line and on the face, so that drop.ts can tell which side vanishes
// first while the faces move out. Knows nothing of rooms; keys and parts are segments.ts's.

import { mustLookup } from '../plan/maps.ts';
import type { Level } from '../plan/schema.ts';
import { along, cross, dot, exactTurn, minus, NO_CORNER_TAN, rightOf, unit } from './orientation.ts';
import type { HalfEdge, HalfEdgeIndex, HalfEdges, Point } from './types.ts';

/** x counts as the corner within this many larger half thicknesses of the two walls (RULES: WK3). */
const CORNER_REACH = 4;

/** A straight line walked along `dir` (unit): through `centre` before the faces move out and through `face` after. */
export interface Line {
  readonly dir: Point;
  readonly centre: Point;
  readonly face: Point;
  /** Half the wall's thickness; of a link, the larger of its two walls. */
  readonly half: number;
}

/** Where two sides meet: before the faces move out, and after. */
export interface Meeting {
  readonly centre: Point;
  readonly face: Point;
}

/** A link or a wall end: it stands where the half-edge walked in on ends, and leads to the one walked out on. */
export interface Link {
  readonly into: HalfEdgeIndex;
  readonly out: HalfEdgeIndex;
}

/** One side of the ring while it is being worked on: walls in line, or a link. A doubly linked ring. */
export class Side {
  prev: Side = this;
  next: Side = this;
  /** Half-edges in walking order; empty for a link. */
  run: readonly HalfEdgeIndex[];
  readonly link: Link | null;
  /** Line of the first wall and of the last: they differ a little where walls are only nearly in line. */
  readonly first: Line;
  last: Line;
  /** Where it meets `next`. */
  end: Meeting;
  gone = false;

  constructor(run: readonly HalfEdgeIndex[], link: Link | null, first: Line, last: Line, end: Meeting) {
    this.run = run;
    this.link = link;
    this.first = first;
    this.last = last;
    this.end = end;
  }
}

/** What offsetting needs of a level's half-edges, for the loops that are worked out. Parallel to `HalfEdges.edges`. */
export interface Faces {
  readonly edges: readonly HalfEdge[];
  readonly originAt: readonly Point[];
  readonly lines: readonly Line[];
}

/** The face line of every half-edge of some of the graph's loops, and where these half-edges start and end. */
export function facesOf(
  level: Level,
  graph: HalfEdges,
  loops: readonly (readonly HalfEdgeIndex[])[] = graph.loops,
): Faces {
  const originAt = new Array<Point>(graph.edges.length);
  const lines = new Array<Line>(graph.edges.length);
  for (const loop of loops) {
    for (const index of loop) {
      const edge = graph.edges[index]!;
      const at = mustLookup(level.nodes, edge.origin);
      const to = mustLookup(level.nodes, edge.target);
      const dir = unit(minus(to, at));
      const half = mustLookup(level.walls, edge.wall).thickness / 2;
      originAt[index] = at;
      originAt[edge.twin] = to;
      lines[index] = { dir, centre: at, face: along(at, rightOf(dir), half), half };
    }
  }
  return { edges: graph.edges, originAt, lines };
}

/** The ring of sides of one loop, nothing dropped yet. Returns any one of its sides. */
export function offsetRing(loop: readonly HalfEdgeIndex[], faces: Faces): Side {
  const runs = runsOf(loop, faces);
  const sides: Side[] = [];
  for (let i = 0; i < runs.length; i++) {
    const run = runs[i]!;
    const into = run[run.length - 1]!;
    const out = runs[(i + 1) % runs.length]![0]!;
    const node = faces.originAt[out]!;
    const feet = meet(into, out, faces);
    sides.push(
      new Side(run, null, faces.lines[run[0]!]!, faces.lines[into]!, { centre: node, face: feet[0] }),
    );
    if (feet.length === 1) continue;
    const half = Math.max(faces.lines[into]!.half, faces.lines[out]!.half);
    const line = { dir: unit(minus(feet[1], feet[0])), centre: node, face: feet[0], half };
    sides.push(new Side([], { into, out }, line, line, { centre: node, face: feet[1] }));
  }
  for (let i = 0; i < sides.length; i++) {
    sides[i]!.next = sides[(i + 1) % sides.length]!;
    sides[(i + 1) % sides.length]!.prev = sides[i]!;
  }
  return sides[0]!;
}

/** Is the way from one half-edge to the next straight on, along one face? RULES: WK6. */
function straightOn(into: HalfEdgeIndex, out: HalfEdgeIndex, faces: Faces): boolean {
  const a = faces.lines[into]!;
  const b = faces.lines[out]!;
  return a.half === b.half && inLine(a.dir, b.dir);
}

/** A turn of less than 0.05°. RULES: WK6. */
export function inLine(a: Point, b: Point): boolean {
  const straight = dot(a, b);
  return straight > 0 && Math.abs(cross(a, b)) < NO_CORNER_TAN * straight;
}

/**
 * Cuts a loop into runs of walls in line. A run also ends where its walls have together turned by 0.05° from its first,
 * so that a curve of very small turns keeps corners. A loop without any other corner is cut from its smallest node.
 */
function runsOf(loop: readonly HalfEdgeIndex[], faces: Faces): HalfEdgeIndex[][] {
  const count = loop.length;
  const at = (i: number) => loop[(i + count) % count]!;
  let start = loop.findIndex((edge, i) => !straightOn(at(i - 1), edge, faces));
  if (start === -1) start = smallestOrigin(loop, faces);
  const runs: HalfEdgeIndex[][] = [];
  let run: HalfEdgeIndex[] = [];
  for (let i = start; i < start + count; i++) {
    const edge = at(i);
    const goesOn =
      run.length > 0 &&
      straightOn(run[run.length - 1]!, edge, faces) &&
      inLine(faces.lines[run[0]!]!.dir, faces.lines[edge]!.dir);
    if (!goesOn) {
      run = [];
      runs.push(run);
    }
    run.push(edge);
  }
  return runs;
}

function smallestOrigin(loop: readonly HalfEdgeIndex[], faces: Faces): number {
  let best = 0;
  for (let i = 1; i < loop.length; i++) {
    const a = faces.originAt[loop[i]!]!;
    const b = faces.originAt[loop[best]!]!;
    if (a[1] < b[1] || (a[1] === b[1] && a[0] < b[0])) best = i;
  }
  return best;
}

/** The corner of two faces at their node, or the two feet of a link. Exact where walls are in line. RULES: WK3, WK4, WK5. */
function meet(into: HalfEdgeIndex, out: HalfEdgeIndex, faces: Faces): [Point] | [Point, Point] {
  const a = faces.lines[into]!;
  const b = faces.lines[out]!;
  const node = faces.originAt[out]!;
  const footIn = along(node, rightOf(a.dir), a.half);
  const footOut = along(node, rightOf(b.dir), b.half);
  if (faces.edges[into]!.twin === out) return [footIn, footOut];
  const targetAt = faces.originAt[faces.edges[out]!.twin]!;
  const parallel = exactTurn(faces.originAt[into]!, node, targetAt) === 0;
  const turn = cross(a.dir, b.dir);
  if (parallel || turn === 0) return feetOf(footIn, footOut);
  const straight = dot(a.dir, b.dir);
  // How far x lies ahead on each wall, counted from the node along the wall.
  const aheadIn = (b.half - a.half * straight) / turn;
  const aheadOut = (a.half - b.half * straight) / turn;
  const reach = CORNER_REACH * Math.max(a.half, b.half);
  const near = a.half * a.half + aheadIn * aheadIn <= reach * reach;
  if ((aheadIn >= 0 && aheadOut >= 0) || near) return [along(footIn, a.dir, -aheadIn)];
  return feetOf(footIn, footOut);
}

/** Two feet; one where they fall together (walls of one thickness, in line but for the last bit of a double). */
function feetOf(footIn: Point, footOut: Point): [Point] | [Point, Point] {
  return footIn[0] === footOut[0] && footIn[1] === footOut[1] ? [footIn] : [footIn, footOut];
}

/** Length of a side along its walking direction, on the faces; negative where it comes out reversed. */
export function faceLength(side: Side): number {
  return dot(minus(side.end.face, side.prev.end.face), side.first.dir);
}

/** The same before the faces move out. */
export function centreLength(side: Side): number {
  return dot(minus(side.end.centre, side.prev.end.centre), side.first.dir);
}

/** Where two lines cross; null where they are parallel within 0.05° or the same line. */
export function crossing(a: Line, b: Line): Meeting | null {
  const turn = cross(a.dir, b.dir);
  if (Math.abs(turn) < NO_CORNER_TAN * Math.abs(dot(a.dir, b.dir))) return null;
  const meetOf = (p: Point, q: Point): Point => along(p, a.dir, cross(minus(q, p), b.dir) / turn);
  return { centre: meetOf(a.centre, b.centre), face: meetOf(a.face, b.face) };
}

/** Distance between two lines that run the same way, on the faces. */
export function apart(a: Line, b: Line): number {
  return Math.abs(dot(minus(b.face, a.face), rightOf(a.dir)));
}

/** All sides of a ring, from `start` on. */
export function sidesOf(start: Side): Side[] {
  const sides: Side[] = [];
  let side = start;
  do {
    sides.push(side);
    side = side.next;
  } while (side !== start);
  return sides;
}
