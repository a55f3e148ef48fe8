// What is in sight: the box round a room, and whether two boxes meet. Ticks. Pure.

import type { Room } from '../../core/walk/types.ts';
import { type Bounds, boundsOfPoints } from '../state/viewport.ts';
import { loopPoints } from './shapes.ts';

/** A memory by the room itself: it goes when the room goes. */
const boxes = new WeakMap<Room, Bounds | null>();

/** The box round a room's outer loop; null where it has none. */
export function roomBox(room: Room): Bounds | null {
  let box = boxes.get(room);
  if (box === undefined) {
    const outer = room.loops[0];
    box = outer === undefined ? null : boundsOfPoints(loopPoints(outer));
    boxes.set(room, box);
  }
  return box;
}

/** Whether two boxes share a point. */
export function meet(a: Bounds, b: Bounds): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];
}
