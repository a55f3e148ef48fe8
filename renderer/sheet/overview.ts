// The whole level in small, without labels: what shows about the last picture while the sheet is zoomed out, until the new
// one is painted. Painted when there is time for it, once for each level and colours. Places in ticks. Knows no React.

import type { DerivedLevel } from '../../core/report/index.ts';
import { toScreen, type Viewport } from '../state/viewport.ts';
import { groundOf } from './ground.ts';
import type { Palette } from './palette.ts';
import { levelBounds } from './show.ts';

/** The longer side of the picture, and what is left free about the level, pixels. */
const [LONGEST, MARGIN] = [1400, 8];

export interface Overview {
  /** Paints what is not painted yet. */
  prepare(level: DerivedLevel, palette: Palette): void;
  /** Shows the level where it is in a view; nothing where it is not painted as it is now. */
  show(level: DerivedLevel, palette: Palette, viewport: Viewport): void;
  hide(): void;
}

/** On a canvas that lies under the sheet's own. */
export function overviewOn(canvas: HTMLCanvasElement): Overview {
  let painted: { readonly level: DerivedLevel; readonly palette: Palette; readonly view: Viewport } | null =
    null;
  return {
    prepare: (level, palette) => {
      if (painted?.level.walk === level.walk && painted.palette === palette) return;
      painted = null;
      const view = viewOf(level);
      const context = canvas.getContext('2d');
      if (view === null || context === null) return;
      [canvas.width, canvas.height] = [view.width, view.height];
      context.fillStyle = palette.ground;
      context.fillRect(0, 0, view.width, view.height);
      groundOf(level).paint(context, view, palette);
      painted = { level, palette, view };
    },
    show: (level, palette, viewport) => {
      if (painted?.level.walk !== level.walk || painted.palette !== palette) return;
      const { centre, pixelsPerTick, width, height } = painted.view;
      const by = viewport.pixelsPerTick / pixelsPerTick;
      const [x, y] = toScreen(viewport, centre);
      canvas.style.transform = `matrix(${by}, 0, 0, ${by}, ${x - (width / 2) * by}, ${y - (height / 2) * by})`;
      canvas.style.visibility = 'visible';
    },
    hide: () => {
      canvas.style.visibility = 'hidden';
    },
  };
}

function viewOf(level: DerivedLevel): Viewport | null {
  const bounds = levelBounds(level);
  if (bounds === null) return null;
  const [left, top, right, bottom] = bounds;
  const long = Math.max(right - left, bottom - top, 1);
  const pixelsPerTick = (LONGEST - 2 * MARGIN) / long;
  return {
    centre: [(left + right) / 2, (top + bottom) / 2],
    pixelsPerTick,
    width: Math.ceil((right - left) * pixelsPerTick) + 2 * MARGIN,
    height: Math.ceil((bottom - top) * pixelsPerTick) + 2 * MARGIN,
  };
}
