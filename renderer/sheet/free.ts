// What of the sheet lies free: the tools, the scale and, where the window is narrow, a side panel lie over its edges. Sheet
// pixels. Pure.

import type { AppState } from '../state/app-state.ts';
import { type Bounds, fitted, pannedBy, type Viewport } from '../state/viewport.ts';

/** What lies over the sheet's sides beside the tools. */
export interface Sides {
  readonly left: number;
  readonly right: number;
}

export const NO_SIDES: Sides = { left: 0, right: 0 };

/** Below this height the tools lie along the top, as tape.css has it; so wide are they in one row, so high is each. Pixels. */
const LOW = 352;
const RACK = { width: 290, row: 34, edge: 14, margins: 20 };
/** Less than this is not worth keeping clear. */
const LEAST_FREE = { width: 200, height: 90 };

/** The side panels that lie over the sheet; none where what they leave is not worth keeping clear. */
export function panelsOver({ covered, textScale, viewport }: AppState): Sides {
  const sides = { left: covered.left / textScale, right: covered.right / textScale };
  return viewport.width - sides.left - sides.right < LEAST_FREE.width ? NO_SIDES : sides;
}

/** Fits bounds into what of the sheet lies free. */
export function fittedClear(viewport: Viewport, bounds: Bounds, margin: number, panels = NO_SIDES): Viewport {
  const { width, height } = viewport;
  const { left, right, top, bottom } = over(viewport, panels);
  const free = { ...viewport, width: width - left - right, height: height - top - bottom };
  if (free.width < LEAST_FREE.width || free.height < LEAST_FREE.height)
    return fitted(viewport, bounds, margin);
  const shown = fitted(free, bounds, Math.min(margin, free.height / 8));
  return pannedBy({ ...shown, width, height }, [(left - right) / 2, (top - bottom) / 2]);
}

/** What lies over the sheet's edges: panels, the tools on the left or the top, the scale and the view's buttons at the bottom. */
function over(
  { width, height }: Viewport,
  { left, right }: Sides,
): Sides & { readonly top: number; readonly bottom: number } {
  if (height >= LOW) return { left: Math.max(44, left), right, top: 0, bottom: 48 };
  const rows = Math.ceil(RACK.width / Math.max(1, width - RACK.margins));
  return { left, right, top: RACK.edge + rows * RACK.row, bottom: 40 };
}
