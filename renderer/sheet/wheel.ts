// What a wheel, a trackpad or two fingers mean for the viewport. Pixels in, a new viewport out. Pure.

import type { Point } from '../../core/graph/index.ts';
import { pannedBy, type Viewport, zoomedAt } from '../state/viewport.ts';

/** As a wheel event has it. A trackpad's pinch arrives as one in pixels with `ctrlKey`; so does a wheel with Ctrl held. */
interface WheelTurn {
  readonly deltaX: number;
  readonly deltaY: number;
  /** 0 pixels, 1 lines, 2 pages. */
  readonly deltaMode: number;
  readonly ctrlKey: boolean;
  readonly shiftKey: boolean;
}

const LINE_PX = 16;
/** One event turns no further than this, pixels: some wheels send a whole page. */
const MOST_PX = 240;
const WHEEL_RATE = 0.0016;
const PINCH_RATE = 0.01;
/** Fingers do not pinch further than this in one event, pixels. A wheel's notch, some 100, then zooms as without Ctrl. */
const PINCH_MOST_PX = 20;

/** Zooms at a place on the screen; a sideways turn, or one with Shift, moves the sheet. */
export function turned(viewport: Viewport, turn: WheelTurn, at: Point): Viewport {
  const unit = turn.deltaMode === 1 ? LINE_PX : turn.deltaMode === 2 ? viewport.height : 1;
  const clamp = (delta: number): number => Math.max(-MOST_PX, Math.min(MOST_PX, delta * unit));
  const [dx, dy] = [clamp(turn.deltaX), clamp(turn.deltaY)];
  if (!turn.ctrlKey && turn.shiftKey) return pannedBy(viewport, [-(dx === 0 ? dy : dx), 0]);
  if (!turn.ctrlKey && Math.abs(dx) > Math.abs(dy)) return pannedBy(viewport, [-dx, 0]);
  const pinches = turn.ctrlKey && turn.deltaMode === 0;
  const way = pinches ? Math.max(-PINCH_MOST_PX, Math.min(PINCH_MOST_PX, dy)) * PINCH_RATE : dy * WHEEL_RATE;
  return zoomedAt(viewport, at, Math.exp(-way));
}

/** Two fingers from where they were to where they are: the place between them goes along, their distance zooms. */
export function pinched(
  viewport: Viewport,
  before: readonly [Point, Point],
  after: readonly [Point, Point],
): Viewport {
  const middle = ([a, b]: readonly [Point, Point]): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const apart = ([a, b]: readonly [Point, Point]): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
  const [from, to] = [middle(before), middle(after)];
  const moved = pannedBy(viewport, [to[0] - from[0], to[1] - from[1]]);
  const was = apart(before);
  return was < 1 ? moved : zoomedAt(moved, to, apart(after) / was);
}
