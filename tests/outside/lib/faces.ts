// A second reading of 'From walls to rooms': faces of a level by offset lines, written apart from core.
// Walks with the wall on the left hand and the room on the right, millimetres, x right, y down.

import type { FileLevel, Vec } from './file.ts';
import {
  add,
  cross,
  dist,
  dot,
  inside,
  len,
  meet,
  mul,
  rightOf,
  ringLength,
  shoelace,
  sub,
  turnDeg,
  unit,
} from './plane.ts';

export interface RefPart {
  wall: string;
  side: 'left' | 'right';
}

export interface RefCorner {
  key: string;
  node: string;
  nodeAt: Vec;
  at: Vec;
  wallIn: string;
  wallOut: string;
  kind: 'inside' | 'outside';
  roomAngleDeg: number;
  includedDeg: number;
}

/** Segment i ends in corner i. */
export interface RefSegment {
  key: string;
  parts: RefPart[];
  start: Vec;
  end: Vec;
  along: Vec;
  inward: Vec;
  length: number;
}

export interface RefLoop {
  segments: RefSegment[];
  corners: RefCorner[];
  area: number;
  /** A segment came out reversed or under 1 mm and was dropped: keys and corners are then not compared. */
  dropped: boolean;
  crosses: boolean;
  /** Corners at links between feet (jogs and sharp outside corners). */
  links: number;
  ends: number;
}

export interface RefRoom {
  loops: RefLoop[];
  area: number;
  perimeter: number;
}

export interface RefLevel {
  loops: RefLoop[];
  rooms: RefRoom[];
}

interface Half {
  wall: string;
  side: 'left' | 'right';
  from: string;
  to: string;
  dir: Vec;
  half: number;
}

const MIN_TURN_DEG = 0.05;
const MIN_SEGMENT_MM = 1;

/** Steps of one walk: half-edges joined at nodes by anticlockwise neighbours. */
function walks(level: FileLevel): Half[][] {
  const halves: Half[] = [];
  for (const [id, wall] of Object.entries(level.walls)) {
    const a = level.nodes[wall.from]!;
    const b = level.nodes[wall.to]!;
    const dir = unit(sub(b, a));
    const half = wall.thickness / 2;
    halves.push({ wall: id, side: 'right', from: wall.from, to: wall.to, dir, half });
    halves.push({ wall: id, side: 'left', from: wall.to, to: wall.from, dir: mul(dir, -1), half });
  }
  const leaving = new Map<string, Half[]>();
  for (const half of halves) leaving.set(half.from, [...(leaving.get(half.from) ?? []), half]);
  const next = (half: Half): Half => {
    // Clockwise angle from the way back to each wall that leaves; the next anticlockwise is the greatest.
    const back = mul(half.dir, -1);
    let best: Half | null = null;
    let bestAngle = -1;
    for (const other of leaving.get(half.to)!) {
      const isBack = other.wall === half.wall;
      let angle = turnDeg(back, other.dir);
      if (angle <= 0) angle += 360;
      if (isBack) angle = 0;
      if (angle > bestAngle) {
        bestAngle = angle;
        best = other;
      }
    }
    return best!;
  };
  const seen = new Set<Half>();
  const loops: Half[][] = [];
  for (const start of halves) {
    if (seen.has(start)) continue;
    const loop: Half[] = [];
    let at = start;
    do {
      seen.add(at);
      loop.push(at);
      at = next(at);
    } while (at !== start);
    loops.push(loop);
  }
  return loops;
}

interface RawCorner {
  key: string;
  node: string;
  at: Vec;
  wallIn: string;
  wallOut: string;
  /** Opens a link (wall end or jog) whose second corner follows. */
  opensLink: boolean;
  dirIn: Vec;
  dirOut: Vec;
}

/** The corner or corners where `a` gives way to `b` at their node; none where they run on straight. */
function cornersAt(level: FileLevel, a: Half, b: Half): RawCorner[] {
  const node = a.to;
  const at = level.nodes[node]!;
  const footA = add(at, mul(rightOf(a.dir), a.half));
  const footB = add(at, mul(rightOf(b.dir), b.half));
  const base = `${node}:${a.wall}>${b.wall}`;
  const link = (): RawCorner[] => {
    const along = unit(sub(footB, footA));
    return [
      {
        key: `${base}#0`,
        node,
        at: footA,
        wallIn: a.wall,
        wallOut: b.wall,
        opensLink: true,
        dirIn: a.dir,
        dirOut: along,
      },
      {
        key: `${base}#1`,
        node,
        at: footB,
        wallIn: a.wall,
        wallOut: b.wall,
        opensLink: false,
        dirIn: along,
        dirOut: b.dir,
      },
    ];
  };
  if (a.wall === b.wall) return link();
  const turn = turnDeg(a.dir, b.dir);
  if (Math.abs(turn) < MIN_TURN_DEG && a.half === b.half) return [];
  const x = meet(footA, a.dir, footB, b.dir);
  if (x !== null) {
    const aheadOnA = dot(sub(x, at), mul(a.dir, -1)) >= 0;
    const aheadOnB = dot(sub(x, at), b.dir) >= 0;
    const near = dist(x, at) <= 4 * Math.max(a.half, b.half);
    if ((aheadOnA && aheadOnB) || near) {
      return [
        {
          key: base,
          node,
          at: x,
          wallIn: a.wall,
          wallOut: b.wall,
          opensLink: false,
          dirIn: a.dir,
          dirOut: b.dir,
        },
      ];
    }
  }
  return link();
}

function crossesItself(ring: readonly Vec[]): boolean {
  const n = ring.length;
  for (let i = 0; i < n; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % n]!;
    for (let j = i + 1; j < n; j++) {
      const c = ring[j]!;
      const d = ring[(j + 1) % n]!;
      if (j === i + 1 || (i === 0 && j === n - 1)) continue;
      const s1 = cross(sub(b, a), sub(c, a));
      const s2 = cross(sub(b, a), sub(d, a));
      const s3 = cross(sub(d, c), sub(a, c));
      const s4 = cross(sub(d, c), sub(b, c));
      if (s1 * s2 < 0 && s3 * s4 < 0) return true;
    }
  }
  return false;
}

interface RawSegment {
  key: string;
  parts: RefPart[];
  dir: Vec;
}

function loopOf(level: FileLevel, walk: Half[]): RefLoop | null {
  const corners: RawCorner[] = [];
  const segments: RawSegment[] = [];
  // Start after a corner so that no segment is cut in two.
  const first = walk.findIndex((half, i) => cornersAt(level, half, walk[(i + 1) % walk.length]!).length > 0);
  if (first < 0) return null;
  const order = walk.map((_, i) => walk[(first + 1 + i) % walk.length]!);
  let open: RawSegment | null = null;
  let links = 0;
  let ends = 0;
  order.forEach((half, i) => {
    if (open === null) open = { key: `${half.wall}:${half.side}`, parts: [], dir: half.dir };
    open.parts.push({ wall: half.wall, side: half.side });
    const after = order[(i + 1) % order.length]!;
    const here = cornersAt(level, half, after);
    if (here.length === 0) return;
    segments.push(open);
    open = null;
    corners.push(here[0]!);
    if (here.length === 2) {
      if (half.wall === after.wall) ends++;
      else links++;
      segments.push({ key: here[0]!.key.replace('#0', ''), parts: [], dir: here[0]!.dirOut });
      corners.push(here[1]!);
    }
  });
  let dropped = false;
  let points = corners.map((corner) => corner.at);
  let kept = segments.map((segment, i) => ({ segment, corner: corners[i]! }));
  for (;;) {
    const n = kept.length;
    const short = kept.findIndex(
      ({ segment }, i) => dot(sub(points[i]!, points[(i + n - 1) % n]!), segment.dir) < MIN_SEGMENT_MM,
    );
    if (short < 0 || n <= 3) break;
    dropped = true;
    const before = (short + n - 1) % n;
    const after = (short + 1) % n;
    const x = meet(points[before]!, kept[before]!.segment.dir, points[short]!, kept[after]!.segment.dir);
    if (x !== null) points[before] = x;
    points = points.filter((_, i) => i !== short);
    kept = kept.filter((_, i) => i !== short);
  }
  const n = kept.length;
  const refSegments = kept.map(({ segment }, i): RefSegment => {
    const start = points[(i + n - 1) % n]!;
    const end = points[i]!;
    const along = unit(sub(end, start));
    return {
      key: segment.key,
      parts: segment.parts,
      start,
      end,
      along,
      inward: rightOf(along),
      length: len(sub(end, start)),
    };
  });
  const refCorners = kept.map(({ corner }, i): RefCorner => {
    const room = 180 - turnDeg(refSegments[i]!.along, refSegments[(i + 1) % n]!.along);
    return {
      key: corner.key,
      node: corner.node,
      nodeAt: level.nodes[corner.node]!,
      at: points[i]!,
      wallIn: corner.wallIn,
      wallOut: corner.wallOut,
      kind: room < 180 ? 'inside' : 'outside',
      roomAngleDeg: room,
      includedDeg: room < 180 ? room : 360 - room,
    };
  });
  // Canonical start: the smallest corner (y, then x of its node, then key) is corner 0.
  let smallest = 0;
  for (let i = 1; i < n; i++) if (smaller(refCorners[i]!, refCorners[smallest]!)) smallest = i;
  const turn = <T>(list: T[]): T[] => list.map((_, i) => list[(smallest + i) % n]!);
  return {
    segments: turn(refSegments),
    corners: turn(refCorners),
    area: shoelace(points),
    dropped,
    crosses: crossesItself(points),
    links,
    ends,
  };
}

function smaller(a: RefCorner, b: RefCorner): boolean {
  if (a.nodeAt[1] !== b.nodeAt[1]) return a.nodeAt[1] < b.nodeAt[1];
  if (a.nodeAt[0] !== b.nodeAt[0]) return a.nodeAt[0] < b.nodeAt[0];
  return a.key < b.key;
}

export const ringOf = (loop: RefLoop): Vec[] => loop.corners.map((corner) => corner.at);

/** All loops of a level, and its rooms: loops around at least `voidMm2` of floor, each with the islands it holds. */
export function refLevel(level: FileLevel, voidMm2 = 250_000): RefLevel {
  const loops = walks(level)
    .map((walk) => loopOf(level, walk))
    .filter((loop) => loop !== null);
  const outers = loops.filter((loop) => loop.area > 0);
  const islands = loops.filter((loop) => loop.area < 0);
  const held = new Map<RefLoop, RefLoop[]>();
  for (const island of islands) {
    let best: RefLoop | null = null;
    for (const outer of outers) {
      const ring = ringOf(outer);
      const holds = outer.area > -island.area && island.corners.every((corner) => inside(corner.at, ring));
      if (holds && (best === null || outer.area < best.area)) best = outer;
    }
    if (best !== null) held.set(best, [...(held.get(best) ?? []), island]);
  }
  const rooms = outers
    .filter((outer) => outer.area >= voidMm2)
    .map((outer) => {
      const all = [outer, ...(held.get(outer) ?? [])];
      return {
        loops: all,
        area: all.reduce((sum, loop) => sum + loop.area, 0),
        perimeter: all.reduce((sum, loop) => sum + ringLength(ringOf(loop)), 0),
      };
    });
  return { loops, rooms };
}
