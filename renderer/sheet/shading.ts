// The pencil shading in the cut of a wall: slanting strokes that lie still on the plan while it is moved, and are left out
// where walls are thin. Pixels.

import { toScreen, type Viewport } from '../state/viewport.ts';
import type { Palette } from './palette.ts';

/** Between one stroke and the next, CSS pixels along the sheet. */
const TILE = 7;
/** Below this zoom walls of the usual thickness are only some pixels thick: pixels to the tick. */
const LEAST_ZOOM = 0.00018;

/** What walls are filled with at a viewport: a pattern, or one tone where strokes would only be noise. */
export function wallFill(
  context: CanvasRenderingContext2D,
  viewport: Viewport,
  palette: Palette,
): CanvasPattern | string {
  if (viewport.pixelsPerTick < LEAST_ZOOM || typeof OffscreenCanvas === 'undefined') return palette.wall;
  const ratio = context.getTransform().a;
  const pattern = patternOf(context, palette, ratio);
  if (pattern === null) return palette.wall;
  const [x, y] = toScreen(viewport, [0, 0]);
  const side = Math.round(TILE * ratio);
  const still = (at: number): number => (Math.round(at * ratio) % side) / ratio;
  pattern.setTransform(new DOMMatrix().translate(still(x), still(y)).scale(1 / ratio));
  return pattern;
}

interface Made {
  readonly ratio: number;
  readonly pattern: CanvasPattern | null;
}

/** A memory by the palette: there are three. */
const made = new WeakMap<Palette, Made>();

function patternOf(context: CanvasRenderingContext2D, palette: Palette, ratio: number): CanvasPattern | null {
  const known = made.get(palette);
  if (known?.ratio === ratio) return known.pattern;
  const side = Math.round(TILE * ratio);
  const tile = new OffscreenCanvas(side, side);
  const pen = tile.getContext('2d');
  if (pen === null) return null;
  pen.fillStyle = palette.wall;
  pen.fillRect(0, 0, side, side);
  pen.strokeStyle = palette.wallStroke;
  pen.lineWidth = 1.1 * ratio;
  pen.lineCap = 'square';
  pen.beginPath();
  // Three times, so that the strokes meet at the tile's corners.
  for (const shift of [-side, 0, side]) {
    pen.moveTo(shift, side);
    pen.lineTo(shift + side, 0);
  }
  pen.stroke();
  const pattern = context.createPattern(tile, 'repeat');
  made.set(palette, { ratio, pattern });
  return pattern;
}
