// Gives every corner of every room a number of its own, once. A number is kept in the corner's record and never given
// again; the counter never falls. Knows nothing of how records follow an edit (carry-corners.ts). RULES: ED10, ED11.

import type { FaceLoop } from '../graph/index.ts';
import { faceLoops } from '../graph/index.ts';
import { lookup } from '../plan/maps.ts';
import type { CornerKey, CornerRecord, Level, Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { recordOf } from './records.ts';

/**
 * Numbers every room corner that has no number yet: levels as they stand in the file, rooms in canonical order, outer
 * loop before islands, each loop from its smallest corner (y, then x of the node, then key) in walking order. Raises a
 * counter that is below the largest number in use. The same plan when there is nothing to do. Requires planar levels.
 * RULES: ED10, WK9.
 */
export function number(plan: Plan): Plan {
  return numberLevels(plan, new Map(plan.levels.map((_, i) => [i, null])));
}

/** The same for only some levels, by their position; with their face loops where the caller has them at hand. */
export function numberLevels(plan: Plan, which: ReadonlyMap<number, readonly FaceLoop[] | null>): Plan {
  const settings = settingsOf(plan);
  let counter = plan.counters.corner;
  for (const level of plan.levels) {
    for (const record of Object.values<CornerRecord>(level.corners)) {
      counter = Math.max(counter, record.number ?? 0);
    }
  }
  const next = (): number => {
    counter += 1;
    return counter;
  };
  const levels = plan.levels.map((level, i) => {
    const loops = which.get(i);
    return loops === undefined ? level : numberLevel(level, loops ?? faceLoops(level, settings), next);
  });
  const changed = levels.some((level, i) => level !== plan.levels[i]);
  if (!changed && counter === plan.counters.corner) return plan;
  return {
    ...plan,
    levels: changed ? levels : plan.levels,
    counters: { ...plan.counters, corner: counter },
  };
}

function numberLevel(level: Level, loops: readonly FaceLoop[], next: () => number): Level {
  const corners = new Map<CornerKey, CornerRecord>();
  for (const loop of loops) {
    if (loop.kind !== 'outer' && loop.kind !== 'island') continue;
    for (const { key } of loop.corners) {
      const record = lookup(level.corners, key);
      if (record?.number === undefined) corners.set(key, { ...record, number: next() });
    }
  }
  if (corners.size === 0) return level;
  for (const [key, record] of Object.entries(level.corners) as [CornerKey, CornerRecord][]) {
    if (!corners.has(key)) corners.set(key, record);
  }
  return { ...level, corners: recordOf(level.corners, corners) };
}
