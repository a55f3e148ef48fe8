// Boards in the plane of the floor: where the back and the face of each end must be, found by crossing lines only (wall
// faces, and the same moved into the room by a board's or a casing's thickness). No tables, no angles. Lengths mm.

import type { RefStretch } from './boards.ts';
import type { RefLoop } from './faces.ts';
import type { Vec } from './file.ts';
import { add, dot, meet, mul, sub } from './plane.ts';

interface Ray {
  at: Vec;
  dir: Vec;
}

export type CornerEnd = 'cope' | 'mitre' | 'butt' | 'through' | 'alone' | 'casing';

export interface EndPoints {
  back: Vec;
  face: Vec;
}

const crossing = (a: Ray, b: Ray): Vec => {
  const x = meet(a.at, a.dir, b.at, b.dir);
  if (x === null) throw new Error('two faces run parallel where they should meet');
  return x;
};

/** A face of a loop's segment, `into` mm into the room. */
export function faceLine(loop: RefLoop, segment: number, into: number): Ray {
  const s = loop.segments[segment]!;
  return { at: add(s.start, mul(s.inward, into)), dir: s.along };
}

/**
 * Back and face point of a board's end in the corner at its right or left. `other` is how far the neighbouring board
 * (or the casing, for 'casing') stands into the room. A through end of flat stock is cut to the wall (`toWall`).
 */
export function endInCorner(
  loop: RefLoop,
  stretch: RefStretch,
  side: 'left' | 'right',
  kind: CornerEnd,
  other: number,
  toWall: boolean,
): EndPoints {
  const n = loop.segments.length;
  const index = stretch.segment;
  const neighbour = side === 'right' ? (index + 1) % n : (index + n - 1) % n;
  const wall = faceLine(loop, index, 0);
  const face = faceLine(loop, index, stretch.t);
  const otherWall = faceLine(loop, neighbour, 0);
  const otherFace = faceLine(loop, neighbour, other);
  if (kind === 'mitre' || kind === 'cope')
    return { back: crossing(wall, otherWall), face: crossing(face, otherFace) };
  if (kind === 'butt') return { back: crossing(wall, otherFace), face: crossing(face, otherFace) };
  const stop = kind === 'casing' ? otherFace : otherWall;
  const ends = { back: crossing(wall, stop), face: crossing(face, stop) };
  if (toWall) return ends;
  // Square: as far as neither edge goes past what it stops at.
  const along = (p: Vec): number => dot(sub(p, wall.at), wall.dir);
  const both = [along(ends.back), along(ends.face)];
  return squareAt(loop, stretch, side === 'right' ? Math.min(...both) : Math.max(...both));
}

/** A square end `s` mm from the segment's left corner. */
export function squareAt(loop: RefLoop, stretch: RefStretch, s: number): EndPoints {
  const wall = faceLine(loop, stretch.segment, 0);
  const face = faceLine(loop, stretch.segment, stretch.t);
  return { back: add(wall.at, mul(wall.dir, s)), face: add(face.at, mul(face.dir, s)) };
}

/** The end moved along the wall: its back by `back`, its face by `face` mm, to the right positive. */
export function moved(
  loop: RefLoop,
  stretch: RefStretch,
  end: EndPoints,
  back: number,
  face: number,
): EndPoints {
  const { along } = loop.segments[stretch.segment]!;
  return { back: add(end.back, mul(along, back)), face: add(end.face, mul(along, face)) };
}
