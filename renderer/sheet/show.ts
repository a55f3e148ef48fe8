// Where a thing is on the plan, and bringing it into sight. Ticks. Knows no canvas.

import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';
import { type Ref, refKey } from '../state/refs.ts';
import { shownOf } from '../state/selectors.ts';
import { type Bounds, boundsOf, boundsOfPoints, pannedBy, type Viewport } from '../state/viewport.ts';
import { fittedClear, panelsOver, type Sides } from './free.ts';
import { ofItself, type Thing, thingsOf } from './shapes.ts';

/** The shapes of a thing: one, or several where it lies in several places. None where it is not on the level. */
export function thingsFor(level: DerivedLevel, ref: Ref): readonly Thing[] {
  if (ref.kind === 'node' || ref.kind === 'wall' || ref.kind === 'opening') {
    const thing = ref.level === level.walk.levelId ? ofItself(level.walk.level, ref) : null;
    return thing === null ? [] : [thing];
  }
  let byKey = made.get(level);
  if (byKey === undefined) {
    byKey = new Map();
    for (const thing of thingsOf(level)) {
      const key = refKey(thing.ref);
      const list = byKey.get(key);
      if (list) list.push(thing);
      else byKey.set(key, [thing]);
    }
    made.set(level, byKey);
  }
  return byKey.get(refKey(ref)) ?? [];
}

/** A memory by the derived level itself: it goes when the level goes. */
const made = new WeakMap<DerivedLevel, Map<string, Thing[]>>();

/** The bounds of a thing, ticks; null where it is not on the level. */
export function refBounds(level: DerivedLevel, ref: Ref): Bounds | null {
  const points: Point[] = thingsFor(level, ref).flatMap((thing) => [...thing.points]);
  return boundsOfPoints(points);
}

/** The bounds of all that a level has; null where it has nothing. */
export function levelBounds({ walk }: DerivedLevel): Bounds | null {
  const corners = walk.rooms.flatMap(({ loops }) =>
    loops.flatMap((loop) => loop.corners.map(({ at }) => at)),
  );
  const nodes = Object.values(walk.level.nodes) as readonly Point[];
  return boundsOfPoints([...walk.outside.flat(), ...walk.voids.flat(), ...corners, ...nodes]);
}

/** Bounds round several. */
export function boundsRound(all: readonly (Bounds | null)[]): Bounds | null {
  return boundsOfPoints(
    all.flatMap((box) =>
      box === null
        ? []
        : ([
            [box[0], box[1]],
            [box[2], box[3]],
          ] as readonly Point[]),
    ),
  );
}

/** Shows a thing: changes the level where it is on another, and moves the sheet only where it is out of sight. */
export function showRef(app: App, ref: Ref): void {
  if (app.store.get().level !== ref.level) app.change(() => ({ level: ref.level }));
  const level = shownOf(app.store.get())?.levels.find(({ walk }) => walk.levelId === ref.level);
  const bounds = level === undefined ? null : refBounds(level, ref);
  if (bounds !== null) showBounds(app, bounds);
}

/** Shows several things of the level shown, moving the sheet only where some of them are out of sight. */
export function showRefs(app: App, refs: readonly Ref[]): void {
  const state = app.store.get();
  const level = shownOf(state)?.levels.find(({ walk }) => walk.levelId === state.level);
  if (level === undefined) return;
  const bounds = boundsRound(refs.map((ref) => refBounds(level, ref)));
  if (bounds !== null) showBounds(app, bounds);
}

/** Shows a place, such as a finding's, moving the sheet only where it is out of sight. */
export function showPlace(app: App, at: Point): void {
  showBounds(app, [...at, ...at]);
}

/** Space that a thing in sight has round it, pixels. */
const CLEAR = 24;
/** And one that the sheet is fitted to. */
const FITTED = 56;

function showBounds(app: App, bounds: Bounds): void {
  const panels = panelsOver(app.store.get());
  app.look((viewport) => {
    if (viewport.width === 0) return viewport;
    const free = freeOf(viewport, panels);
    if (within(bounds, free)) return viewport;
    return fits(bounds, free)
      ? centred(viewport, bounds, panels)
      : fittedClear(viewport, bounds, FITTED, panels);
  });
}

/** What is chosen and was in sight while panels lay over the sheet as they did before: moved out from under those of now. */
export function keepInSight(app: App, covered: AppState['covered']): void {
  const state = app.store.get();
  const level = shownOf(state)?.levels.find(({ walk }) => walk.levelId === state.level);
  const bounds =
    level === undefined ? null : boundsRound(state.selection.map((ref) => refBounds(level, ref)));
  if (bounds === null) return;
  const [were, are] = [panelsOver({ ...state, covered }), panelsOver(state)];
  app.look((viewport) => {
    const free = freeOf(viewport, are);
    const hidden = within(bounds, freeOf(viewport, were)) && !within(bounds, free);
    return hidden && fits(bounds, free) ? centred(viewport, bounds, are) : viewport;
  });
}

/** The part of the sheet that lies free, with some space round what stands there. Ticks. */
function freeOf(viewport: Viewport, panels: Sides): Bounds {
  const [left, top, right, bottom] = boundsOf(viewport);
  const px = 1 / viewport.pixelsPerTick;
  return [
    left + (panels.left + CLEAR) * px,
    top + CLEAR * px,
    right - (panels.right + CLEAR) * px,
    bottom - CLEAR * px,
  ];
}

function within(inner: Bounds, outer: Bounds): boolean {
  return inner[0] >= outer[0] && inner[1] >= outer[1] && inner[2] <= outer[2] && inner[3] <= outer[3];
}

function fits(inner: Bounds, outer: Bounds): boolean {
  return inner[2] - inner[0] <= outer[2] - outer[0] && inner[3] - inner[1] <= outer[3] - outer[1];
}

/** With the middle of some bounds in the middle of what panels leave free. */
function centred(viewport: Viewport, [left, top, right, bottom]: Bounds, panels: Sides): Viewport {
  const centre: Point = [(left + right) / 2, (top + bottom) / 2];
  return pannedBy({ ...viewport, centre }, [(panels.left - panels.right) / 2, 0]);
}
