// What the view commands do to the viewport: the whole plan, what is chosen, the next named scale, real size.

import type { Plan } from '../../core/plan/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import { SCALES } from '../../core/sheets/scale.ts';
import { TICKS_PER_FOOT } from '../../core/units/index.ts';
import type { App } from '../state/app.ts';
import { derivedLevelOf } from '../state/selectors.ts';
import { type Bounds, REAL_SIZE, type Viewport, zoomedAt } from '../state/viewport.ts';
import { fittedClear, NO_SIDES, panelsOver } from './free.ts';
import { boundsRound, levelBounds, refBounds } from './show.ts';

/** What an empty sheet shows: room for a middling house. */
const EMPTY: Bounds = [-2 * TICKS_PER_FOOT, -2 * TICKS_PER_FOOT, 34 * TICKS_PER_FOOT, 26 * TICKS_PER_FOOT];
const MARGIN = 28;
export function fitAll(app: App): void {
  const state = app.store.get();
  app.look((viewport) => fittedTo(viewport, derivedLevelOf(state), panelsOver(state)));
}

/** A viewport that shows the whole of a level. */
export function fittedTo(viewport: Viewport, level: DerivedLevel | null, panels = NO_SIDES): Viewport {
  if (viewport.width === 0) return viewport;
  return fittedClear(viewport, (level && levelBounds(level)) ?? EMPTY, MARGIN, panels);
}

export function fitSelection(app: App): void {
  const state = app.store.get();
  const level = derivedLevelOf(state);
  if (level === null) return;
  const bounds = boundsRound(state.selection.map((ref) => refBounds(level, ref)));
  if (bounds !== null) app.look((viewport) => fittedClear(viewport, bounds, 3 * MARGIN, panelsOver(state)));
}

/** To the next named scale, larger (1) or smaller (−1); beyond the last one, half as much again. */
export function zoomBy(app: App, way: 1 | -1): void {
  const { open, textScale } = app.store.get();
  zoomTo(app, (zoom) => nextZoom(zoom, open?.plan.units ?? 'imperial', way), textScale);
}

/** CSS pixels to the tick at the next named scale. */
export function nextZoom(pixelsPerTick: number, units: Plan['units'], way: 1 | -1): number {
  const zooms = SCALES[units].map(({ ratio }) => REAL_SIZE / ratio);
  const next =
    way === 1
      ? zooms.filter((zoom) => zoom > pixelsPerTick * 1.01).at(-1)
      : zooms.find((zoom) => zoom < pixelsPerTick / 1.01);
  return next ?? pixelsPerTick * (way === 1 ? 1.5 : 1 / 1.5);
}

export function zoomReal(app: App): void {
  zoomTo(app, () => REAL_SIZE, app.store.get().textScale);
}

/** To another zoom about the middle of the sheet; zooms in CSS pixels to the tick. */
function zoomTo(app: App, zoom: (now: number) => number, textScale: number): void {
  app.look((viewport) => {
    const now = viewport.pixelsPerTick * textScale;
    return zoomedAt(viewport, [viewport.width / 2, viewport.height / 2], zoom(now) / now);
  });
}

/** A zoom (CSS pixels to the tick) in words: the named scale where it is one, else the ratio. */
export function zoomWords(pixelsPerTick: number, units: Plan['units']): string {
  const ratio = REAL_SIZE / pixelsPerTick;
  const named = SCALES[units].find((scale) => Math.abs(scale.ratio / ratio - 1) < 0.005);
  if (named !== undefined) return named.name;
  if (Math.abs(ratio - 1) < 0.005) return 'real size';
  const rounded = (value: number): string =>
    value >= 10 ? String(Math.round(value)) : String(Math.round(value * 10) / 10);
  return ratio >= 1 ? `1 : ${rounded(ratio)}` : `${rounded(1 / ratio)} : 1`;
}
