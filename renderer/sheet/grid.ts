// The grid on the sheet: lines at the grid's spacing, thinned out so that they stay at least some pixels apart, every so
// many of them heavier. Ticks in, pixels out. Knows no snapping.

import { TICKS_PER_FOOT, TICKS_PER_INCH, TICKS_PER_MM, ticksFromMm } from '../../core/units/ticks.ts';
import { boundsOf, toScreen, type Viewport } from '../state/viewport.ts';
import type { Palette } from './palette.ts';

const LEAST_PX = 9;

/** The grid's spacing in ticks: as the user set it, else what is usual. Round figures, common practice. */
export function gridSpacing(setMm: number | null, units: 'imperial' | 'metric'): number {
  if (setMm !== null) return ticksFromMm(setMm);
  return units === 'imperial' ? 6 * TICKS_PER_INCH : 100 * TICKS_PER_MM;
}

/** The spacing that is drawn: the grid's own, or so many of it that its lines keep apart; and how many make a heavy one. */
export function drawnGrid(
  spacing: number,
  pixelsPerTick: number,
): { readonly spacing: number; readonly bold: number } {
  const foot = spacing % TICKS_PER_INCH === 0;
  const multiples = foot ? [1, 2, 4, 8, 20, 40, 100, 200, 1000] : [1, 2, 5, 10, 20, 50, 100, 1000];
  const by = multiples.find((each) => spacing * each * pixelsPerTick >= LEAST_PX) ?? multiples.at(-1)!;
  const bold = foot && spacing * by < TICKS_PER_FOOT ? Math.max(2, TICKS_PER_FOOT / (spacing * by)) : 5;
  return { spacing: spacing * by, bold: Number.isInteger(bold) ? bold : 5 };
}

export function paintGrid(
  context: CanvasRenderingContext2D,
  viewport: Viewport,
  grid: number,
  palette: Palette,
): void {
  const { spacing, bold } = drawnGrid(grid, viewport.pixelsPerTick);
  const [left, top, right, bottom] = boundsOf(viewport);
  if ((right - left) / spacing > 2000) return;
  const ratio = context.getTransform().a;
  const sharp = (at: number): number => Math.round(at * ratio) / ratio + 0.5;
  context.save();
  context.lineWidth = 1;
  context.setLineDash([]);
  for (const heavy of [false, true]) {
    context.beginPath();
    for (let k = Math.ceil(left / spacing); k * spacing <= right; k++) {
      if ((k % bold === 0) !== heavy) continue;
      const x = sharp(toScreen(viewport, [k * spacing, 0])[0]);
      context.moveTo(x, 0);
      context.lineTo(x, viewport.height);
    }
    for (let k = Math.ceil(top / spacing); k * spacing <= bottom; k++) {
      if ((k % bold === 0) !== heavy) continue;
      const y = sharp(toScreen(viewport, [0, k * spacing])[1]);
      context.moveTo(0, y);
      context.lineTo(viewport.width, y);
    }
    context.strokeStyle = heavy ? palette.gridBold : palette.grid;
    context.stroke();
  }
  context.restore();
}
