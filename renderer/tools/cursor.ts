// The cross that arrow keys move over the sheet while something is drawn: the keyboard's twin of the pointer. It moves by
// grid steps and never snaps. Places in ticks.

import type { Point } from '../../core/graph/index.ts';
import { lookup } from '../../core/plan/index.ts';
import { roundHalfAway, ticksFromMm } from '../../core/units/index.ts';
import type { RunningTool, ToolContext, ToolPicture } from './types.ts';

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The way an arrow key points; null for another key. */
export function arrowOf(key: string): Point | null {
  return lookup(ARROWS, key) ?? null;
}

/** How far one press goes: the grid, else 6 in or 100 mm; fine: 1/4 in or 5 mm. */
export function cursorStep({ snapping, plan }: ToolContext, fine: boolean): number {
  const metric = plan.units === 'metric';
  if (fine) return ticksFromMm(metric ? 5 : 6.35);
  return snapping.grid ?? ticksFromMm(metric ? 100 : 152.4);
}

/** One nudge of what is chosen: 1/4 in or 5 mm; far: 1 in or 50 mm. */
export function nudgeStep({ plan }: ToolContext, far: boolean): number {
  const metric = plan.units === 'metric';
  return ticksFromMm(far ? (metric ? 50 : 25.4) : metric ? 5 : 6.35);
}

/** Where drawing starts without a pointer: the chosen node or corner, else the node touched last, else the origin. */
export function startPlace({ selection, level, recent, walk }: ToolContext): Point {
  for (const ref of selection) {
    const node = ref.kind === 'node' ? lookup(level.nodes, ref.id) : undefined;
    if (node !== undefined) return node;
    const corner =
      ref.kind === 'corner'
        ? walk.rooms
            .flatMap(({ loops }) => loops.flatMap(({ corners }) => corners))
            .find(({ key }) => key === ref.id)
        : undefined;
    if (corner !== undefined) return [roundHalfAway(corner.at[0]), roundHalfAway(corner.at[1])];
  }
  const last = recent.at(-1);
  return (last === undefined ? undefined : lookup(level.nodes, last)) ?? [0, 0];
}

export function cursorStart(context: ToolContext): Point {
  const [x, y] = startPlace(context);
  const [left, top, right, bottom] = context.view;
  if (x >= left && x <= right && y >= top && y <= bottom) return [x, y];
  const step = cursorStep(context, false);
  return [Math.round((left + right) / 2 / step) * step, Math.round((top + bottom) / 2 / step) * step];
}

/** A tool's picture with the cross on it. */
export function withCursor(picture: ToolPicture, cursor: RunningTool['cursor']): ToolPicture {
  if (cursor === undefined) return picture;
  return { ...picture, points: [...picture.points, { at: cursor.at, kind: 'cursor' }] };
}
