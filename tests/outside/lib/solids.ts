// Rooms by a general polygon library: walls as solids, their union taken by jsts 2.12.1 (the JTS topology suite), floors
// as what the union leaves. Nothing here walks faces or builds loops. Lengths mm, x right, y down.

import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import UnaryUnionOp from 'jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js';
import type { FileLevel, Vec } from './file.ts';
import { add, cross, dot, len, mul, sub, unit } from './plane.ts';

/** What this file uses of the library's geometries; its own type files cover the short names only. */
interface Geometry {
  getArea(): number;
  getLength(): number;
  getNumGeometries(): number;
  getGeometryN(index: number): Geometry;
  getEnvelope(): Geometry;
  getExteriorRing(): Geometry;
  getInteriorRingN(index: number): Geometry;
  getNumInteriorRing(): number;
  getCoordinates(): { x: number; y: number }[];
  isEmpty(): boolean;
}

const factory = new GeometryFactory();
const at = ([x, y]: Vec): Coordinate => new Coordinate(x, y);

export function polygon(ring: readonly Vec[]): Geometry {
  return factory.createPolygon([...ring, ring[0]!].map(at)) as unknown as Geometry;
}

export function line(a: Vec, b: Vec): Geometry {
  return factory.createLineString([at(a), at(b)]) as unknown as Geometry;
}

export function overlay(a: Geometry, b: Geometry, how: 'difference' | 'intersection'): Geometry {
  const code = how === 'difference' ? OverlayOp.DIFFERENCE : OverlayOp.INTERSECTION;
  return OverlayOp.overlayOp(a as never, b as never, code) as unknown as Geometry;
}

export function union(parts: readonly Geometry[]): Geometry {
  return UnaryUnionOp.union(factory.createGeometryCollection(parts as never) as never) as unknown as Geometry;
}

/** Grown by `by` mm with mitred corners and flat line ends. */
export function buffer(geometry: Geometry, by: number): Geometry {
  const how = new BufferParameters(8, BufferParameters.CAP_FLAT, BufferParameters.JOIN_MITRE, 10);
  return BufferOp.bufferOp(geometry as never, by, how as never) as unknown as Geometry;
}

interface Spoke {
  wall: string;
  dir: Vec;
  half: number;
}

/** Walls at each node, clockwise. */
function spokes(level: FileLevel): Map<string, Spoke[]> {
  const all = new Map<string, Spoke[]>();
  for (const [id, wall] of Object.entries(level.walls)) {
    for (const [here, there] of [
      [wall.from, wall.to],
      [wall.to, wall.from],
    ] as const) {
      const dir = unit(sub(level.nodes[there]!, level.nodes[here]!));
      all.set(here, [...(all.get(here) ?? []), { wall: id, dir, half: wall.thickness / 2 }]);
    }
  }
  for (const list of all.values()) {
    list.sort((p, q) => Math.atan2(p.dir[1], p.dir[0]) - Math.atan2(q.dir[1], q.dir[0]));
  }
  return all;
}

/** Clockwise side of a wall that leaves a node: east's is south. */
const clockwise = (spoke: Spoke): Vec => mul([-spoke.dir[1], spoke.dir[0]], spoke.half);
const anticlockwise = (spoke: Spoke): Vec => mul(clockwise(spoke), -1);

/**
 * Walls of one thickness as the library's flat-ended buffers, and between neighbours at a node that leave more than
 * half a turn open the mitre's wedge: the library's buffer of a short bend, or a triangle to the feet where the faces cross
 * beyond 4 half thicknesses.
 */
export function bufferedWalls(level: FileLevel): Geometry[] {
  const parts: Geometry[] = Object.values(level.walls).map((wall) =>
    buffer(line(level.nodes[wall.from]!, level.nodes[wall.to]!), wall.thickness / 2),
  );
  for (const [node, list] of spokes(level)) {
    if (list.length < 2) continue;
    list.forEach((first, i) => {
      const second = list[(i + 1) % list.length]!;
      // Clockwise from first to second lies floor; more than half a turn of it leaves a gap between the rectangles.
      if (cross(first.dir, second.dir) >= 0) return;
      const a = clockwise(first);
      const b = anticlockwise(second);
      const middle = add(a, b);
      // Both feet are h from the node, so the crossing lies on their bisector at h² / |middle/2|.
      const tip = mul(middle, (2 * first.half * first.half) / dot(middle, middle));
      const o = level.nodes[node]!;
      if (cross(a, b) < -1e-6 * first.half) parts.push(polygon([o, add(o, a), add(o, b)]));
      if (len(tip) <= 4 * first.half) {
        const bend = [add(o, mul(first.dir, first.half)), o, add(o, mul(second.dir, first.half))];
        parts.push(buffer(factory.createLineString(bend.map(at)) as unknown as Geometry, first.half));
      }
    });
  }
  return parts;
}

/**
 * Walls of any thickness as polygons that meet along their corners: from node to node round both faces, with the point
 * where neighbouring offset lines cross as corner, found by solving for the point that is half a thickness off each.
 */
export function cutWalls(level: FileLevel): Geometry[] {
  const at = spokes(level);
  const parts: Geometry[] = [];
  const corner = (o: Vec, first: Spoke, second: Spoke): { first: Vec; second: Vec } => {
    const a = clockwise(first);
    const b = anticlockwise(second);
    const feet = { first: add(o, a), second: add(o, b) };
    if (first === second) return feet;
    // Rows: nA · x = hA, nB · x = hB, by Cramer.
    const nA = mul(a, 1 / first.half);
    const nB = mul(b, 1 / second.half);
    const det = cross(nA, nB);
    if (Math.abs(det) < Math.sin((0.05 * Math.PI) / 180)) {
      // Straight on: one point for both, so that no hairline is left.
      if (first.half !== second.half) return feet;
      const middle = mul(add(feet.first, feet.second), 0.5);
      return { first: middle, second: middle };
    }
    const x: Vec = [
      (first.half * nB[1] - second.half * nA[1]) / det,
      (nA[0] * second.half - nB[0] * first.half) / det,
    ];
    const ahead = dot(x, first.dir) >= 0 && dot(x, second.dir) >= 0;
    if (!ahead && len(x) > 4 * Math.max(first.half, second.half)) return feet;
    return { first: add(o, x), second: add(o, x) };
  };
  const around = (node: string, wall: string): { left: Vec; right: Vec } => {
    const list = at.get(node)!;
    const i = list.findIndex((spoke) => spoke.wall === wall);
    const me = list[i]!;
    const after = list[(i + 1) % list.length]!;
    const before = list[(i + list.length - 1) % list.length]!;
    const o = level.nodes[node]!;
    return { right: corner(o, me, after).first, left: corner(o, before, me).second };
  };
  for (const [id, wall] of Object.entries(level.walls)) {
    const u = around(wall.from, id);
    const v = around(wall.to, id);
    parts.push(polygon([level.nodes[wall.from]!, u.right, v.left, level.nodes[wall.to]!, v.right, u.left]));
  }
  for (const [node, list] of at) {
    const o = level.nodes[node]!;
    if (list.length < 2) continue;
    list.forEach((first, i) => {
      const second = list[(i + 1) % list.length]!;
      const { first: p, second: q } = corner(o, first, second);
      if (Math.abs(cross(sub(p, o), sub(q, o))) > 1e-6) parts.push(polygon([o, p, q]));
    });
  }
  return parts;
}

export interface Floor {
  area: number;
  /** Without the islands in it. */
  outerArea: number;
  perimeter: number;
  islands: number;
  rings: Vec[][];
}

/** What a union of solids leaves of the sheet, but for the part that reaches the sheet's edge. */
export function floors(solids: readonly Geometry[]): Floor[] {
  const walls = union(solids);
  const sheet = buffer(walls.getEnvelope(), 1000);
  const left = overlay(sheet, walls, 'difference');
  const edge = Math.min(...sheet.getCoordinates().map((p) => p.x));
  const found: Floor[] = [];
  for (let i = 0; i < left.getNumGeometries(); i++) {
    const part = left.getGeometryN(i);
    const shell = part.getExteriorRing();
    if (shell.getCoordinates().some((p) => p.x === edge)) continue;
    const rings = [shell];
    for (let j = 0; j < part.getNumInteriorRing(); j++) rings.push(part.getInteriorRingN(j));
    const points = rings.map((ring) => ring.getCoordinates().map((p): Vec => [p.x, p.y]));
    found.push({
      area: part.getArea(),
      outerArea: polygon(points[0]!.slice(1)).getArea(),
      perimeter: part.getLength(),
      islands: rings.length - 1,
      rings: points,
    });
  }
  return found;
}
