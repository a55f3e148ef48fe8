// Gives every corner of every room a number of its own, once. A number is kept in the corner's record and never given
// again; the counter never falls. Knows nothing of how records follow an edit (carry-corners.ts). RULES: ED10, ED11.

import type { FaceLoop } from '../graph/index.ts';
import { faceLoops } from '../graph/index.ts';
import type { CornerKey, CornerRecord, Level, Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { recordOf } from './records.ts';

/**
 * Numbers every room corner that has no number yet: levels as they stand in the file, rooms in canonical order, outer
 * loop before islands, each loop from its smallest corner (y, then x of the node, then key) in walking order. Raises a
 * counter that is below the largest number in use. The same plan when there is nothing to do. Requires planar levels.
 * RULES: ED10, WK9.
 */
export function number(plan: Plan, since?: Plan): Plan {
  return numberLevels(plan, new Map(plan.levels.map((_, i) => [i, null])), since);
}

/**
 * The same for only some levels, by their position; with their face loops where the caller has them at hand. `since`: an
 * earlier state of the plan, whose faces may lend to those of this one.
 */
export function numberLevels(
  plan: Plan,
  which: ReadonlyMap<number, readonly FaceLoop[] | null>,
  since?: Plan,
): Plan {
  const settings = settingsOf(plan);
  let counter = plan.counters.corner;
  for (const level of plan.levels) counter = Math.max(counter, highestNumber(level.corners));
  const next = (): number => {
    counter += 1;
    return counter;
  };
  const levels = plan.levels.map((level, i) => {
    const loops = which.get(i);
    if (loops === undefined) return level;
    const was = since?.levels.find(({ id }) => id === level.id);
    return numberLevel(level, loops ?? faceLoops(level, settings, was), next);
  });
  const changed = levels.some((level, i) => level !== plan.levels[i]);
  if (!changed && counter === plan.counters.corner) return plan;
  return {
    ...plan,
    levels: changed ? levels : plan.levels,
    counters: { ...plan.counters, corner: counter },
  };
}

/** The highest number of frozen maps of corners: they cannot change. */
const highest = new WeakMap<Level['corners'], number>();

/** The highest number in use on a level, 0 where there is none. */
function highestNumber(corners: Level['corners']): number {
  const known = highest.get(corners);
  if (known !== undefined) return known;
  let most = 0;
  for (const key of Object.keys(corners) as CornerKey[]) {
    const { number } = corners[key]!;
    if (number !== undefined && number > most) most = number;
  }
  if (Object.isFrozen(corners)) highest.set(corners, most);
  return most;
}

/** Frozen maps of corners in which each corner of some face loops has a number. */
const numbered = new WeakMap<Level['corners'], WeakSet<readonly FaceLoop[]>>();

function rememberNumbered(corners: Level['corners'], loops: readonly FaceLoop[]): void {
  if (!Object.isFrozen(corners)) return;
  const others = numbered.get(corners);
  if (others === undefined) numbered.set(corners, new WeakSet([loops]));
  else others.add(loops);
}

function numberLevel(level: Level, loops: readonly FaceLoop[], next: () => number): Level {
  if (numbered.get(level.corners)?.has(loops) === true) return level;
  const corners = new Map<CornerKey, CornerRecord>();
  for (const loop of loops) {
    if (loop.kind !== 'outer' && loop.kind !== 'island') continue;
    for (const { key } of loop.corners) {
      // A corner's key is no name that a map inherits.
      const record = level.corners[key] as CornerRecord | undefined;
      if (record?.number === undefined) corners.set(key, { ...record, number: next() });
    }
  }
  if (corners.size === 0) {
    rememberNumbered(level.corners, loops);
    return level;
  }
  for (const [key, record] of Object.entries(level.corners) as [CornerKey, CornerRecord][]) {
    if (!corners.has(key)) corners.set(key, record);
  }
  const all = recordOf(level.corners, corners);
  rememberNumbered(all, loops);
  return { ...level, corners: all };
}
