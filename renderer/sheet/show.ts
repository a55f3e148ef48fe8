// Where a thing is on the plan, and bringing it into sight. Ticks. Knows no canvas.

import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { App } from '../state/app.ts';
import { type Ref, refKey } from '../state/refs.ts';
import { shownOf } from '../state/selectors.ts';
import { type Bounds, boundsOf, boundsOfPoints, fitted } from '../state/viewport.ts';
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

function showBounds(app: App, bounds: Bounds): void {
  app.look((viewport) => {
    if (viewport.width === 0) return viewport;
    const [left, top, right, bottom] = boundsOf(viewport);
    const clear = CLEAR / viewport.pixelsPerTick;
    const inSight =
      bounds[0] >= left + clear &&
      bounds[1] >= top + clear &&
      bounds[2] <= right - clear &&
      bounds[3] <= bottom - clear;
    if (inSight) return viewport;
    const fits =
      bounds[2] - bounds[0] <= right - left - 2 * clear && bounds[3] - bounds[1] <= bottom - top - 2 * clear;
    if (fits) return { ...viewport, centre: [(bounds[0] + bounds[2]) / 2, (bounds[1] + bounds[3]) / 2] };
    return fitted(viewport, bounds);
  });
}
