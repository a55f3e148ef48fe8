// Faces of one room that look at each other across its floor: which they are and how far apart. Ticks. Knows no edit: what
// is to become of a distance is core/edit's.

import { cross, dot, minus, NO_CORNER_DEG } from '../graph/index.ts';
import type { Room, Segment } from './types.ts';

/** A face that looks at another one. */
export interface Facing {
  readonly segment: Segment;
  /** Clear, face to face, ticks. */
  readonly distance: number;
}

/** A turn smaller than this is none (RULES: WK6). */
const LEAST_SIN = Math.sin((NO_CORNER_DEG * Math.PI) / 180);

/**
 * The faces of the room that run parallel to `segment`, look at it and stand opposite some part of it; nearest first, of
 * two at one distance the one earlier on the walk. Wall ends and jogs are none (RULES: WK20).
 */
export function facingSegments(room: Room, segment: Segment): readonly Facing[] {
  if (segment.parts.length === 0) return [];
  return room.loops
    .flatMap((loop) => loop.segments)
    .flatMap((other): Facing[] => {
      if (other.parts.length === 0) return [];
      const parallel = Math.abs(cross(segment.along, other.along)) < LEAST_SIN;
      if (!parallel || dot(segment.inward, other.inward) >= 0) return [];
      const distance = dot(minus(other.start, segment.start), segment.inward);
      const reach = [other.start, other.end].map((at) => dot(minus(at, segment.start), segment.along));
      const opposite = Math.min(Math.max(...reach), segment.drawn) - Math.max(Math.min(...reach), 0);
      return distance > 0 && opposite > 0 ? [{ segment: other, distance }] : [];
    })
    .sort((a, b) => a.distance - b.distance);
}
