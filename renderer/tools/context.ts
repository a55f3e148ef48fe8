// The state of the program to what a tool may look at. Built once per state of plan, view and options, not per event: the
// snapping and pointing indexes once per level. Places in ticks.

import { type Level, settingsOf } from '../../core/plan/index.ts';
import { type SnapIndex, snapIndex } from '../../core/snap/index.ts';
import { figuresOf } from '../panels/kit/figures.ts';
import { hitIndex } from '../sheet/hit.ts';
import type { AppState } from '../state/app-state.ts';
import { derivedLevelOf, levelOf, shownOf } from '../state/selectors.ts';
import { type Bounds, boundsOf } from '../state/viewport.ts';
import type { ToolContext } from './types.ts';

const EVERYWHERE: Bounds = [-Infinity, -Infinity, Infinity, Infinity];

/** Caches by what they are made of: they hold nothing that could not be made again. */
const snapsOf = new WeakMap<Level, SnapIndex>();
const contexts = new WeakMap<Level, { readonly from: readonly unknown[]; readonly context: ToolContext }>();

/** Null where no plan is open. The same object for the same plan, level, view, options and selection. */
export function contextOf(state: AppState): ToolContext | null {
  const level = levelOf(state);
  const derived = shownOf(state);
  const derivedLevel = derivedLevelOf(state);
  if (state.open === null || level === null || derived === null || derivedLevel === null) return null;
  const { viewport, drawing, snapping, selection, recent, stage } = state;
  const { plan } = state.open;
  const from = [plan, derivedLevel, viewport, drawing, snapping, selection, recent, stage];
  const known = contexts.get(level);
  if (known?.from.every((each, i) => each === from[i])) return known.context;

  const settings = settingsOf(plan);
  const { pixelsPerTick } = viewport;
  const context: ToolContext = {
    plan,
    level,
    derived,
    walk: derivedLevel.walk,
    settings,
    figures: figuresOf(plan),
    get snaps() {
      return kept(snapsOf, level, () => snapIndex(level, settings));
    },
    pixelsPerTick,
    view: viewport.width > 0 ? boundsOf(viewport) : EVERYWHERE,
    drawing,
    snapping,
    selection,
    stage,
    recent: recent.filter((id) => Object.hasOwn(level.nodes, id)),
    hit: (at) => hitIndex(derivedLevel, stage).hit(at, pixelsPerTick),
    within: (box, touching) => hitIndex(derivedLevel, stage).within(box, touching),
  };
  contexts.set(level, { from, context });
  return context;
}

function kept<K extends object, V>(cache: WeakMap<K, V>, key: K, make: () => V): V {
  const known = cache.get(key);
  if (known !== undefined) return known;
  const made = make();
  cache.set(key, made);
  return made;
}
