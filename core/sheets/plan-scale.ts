// The scale at which a level, one of its rooms or a part of it is drawn in a frame, and the view of it. Ticks in, points out.
// Knows nothing of what is drawn.

import type { DerivedLevel } from '../report/types.ts';
import type { Room } from '../walk/types.ts';
import { type Box, boxOf } from './boxes.ts';
import type { PlanOptions } from './plan-options.ts';
import { extentOf, type PlanView, type TickBox, viewOf } from './plan-view.ts';
import { chooseScale, looseScale, type NamedScale, pointsPerTick, SCALES } from './scale.ts';

/** Clear paper round a room's walls when it is drawn alone, and round a whole level, points. */
const ROOM_MARGIN = 22;
const LEVEL_MARGIN = 8;

/**
 * The scale that is meant, and the view at which it is drawn before it is enlarged `by` times; null where there are no walls.
 * Throws on `shown` without `scale`.
 */
export function chooseView(
  level: DerivedLevel,
  frame: Box,
  options: PlanOptions,
  by: number,
): { readonly view: PlanView; readonly scale: NamedScale } | null {
  const at = (shown: TickBox, window: Box, scale: NamedScale) => ({
    view: viewOf(shown, window, { name: scale.name, ratio: scale.ratio * by }),
    scale,
  });
  if (options.shown) {
    if (!options.scale) throw new Error('planDrawing: a part of a level needs its scale');
    return at(options.shown, frame, options.scale);
  }
  const room = options.room === undefined ? null : roomOf(level, options.room);
  const extent = room ? boxOf(room.loops[0]!.corners.map((corner) => corner.at)) : extentOf(level.walk);
  if (extent === null) return null;
  const margin = room ? ROOM_MARGIN : LEVEL_MARGIN;
  const size = sizeOf(extent);
  const clear = clearIn(frame, margin, by);
  const scale = options.scale ?? chooseScale(size, clear, SCALES[options.units]) ?? looseScale(size, clear);
  if (!room) return at(extent, frame, scale);
  // The window is the room and a little of what is behind its walls, in the middle of the frame.
  const per = pointsPerTick(scale.ratio * by);
  const [cx, cy] = [(frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2];
  const half = [(size[0] * per) / 2 + margin, (size[1] * per) / 2 + margin] as const;
  const window: Box = [
    Math.max(frame[0], cx - half[0]),
    Math.max(frame[1], cy - half[1]),
    Math.min(frame[2], cx + half[0]),
    Math.min(frame[3], cy + half[1]),
  ];
  return at(extent, window, scale);
}

/** The largest of the scales, which go from large to small, at which a room alone fits a frame on paper; null where none is. */
export function roomScale(
  level: DerivedLevel,
  id: string,
  frame: Box,
  by: number,
  scales: readonly NamedScale[],
): NamedScale | null {
  const extent = boxOf(roomOf(level, id).loops[0]!.corners.map((corner) => corner.at));
  return chooseScale(sizeOf(extent), clearIn(frame, ROOM_MARGIN * by, 1), scales);
}

function sizeOf(box: TickBox): readonly [width: number, height: number] {
  return [box[2] - box[0], box[3] - box[1]];
}

/** What a frame holds within its margin, `by` times as large. */
function clearIn(frame: Box, margin: number, by: number): readonly [width: number, height: number] {
  return [(frame[2] - frame[0] - 2 * margin) * by, (frame[3] - frame[1] - 2 * margin) * by];
}

function roomOf(level: DerivedLevel, id: string): Room {
  const room = level.walk.rooms.find((each) => each.id === id);
  if (!room) throw new Error(`planDrawing: level ${level.walk.levelId} has no room ${id}`);
  return room;
}
