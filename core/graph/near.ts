// Where two states of a level's faces differ, so that what lies far from there can be left as it is. Ticks, y down.

import type { FaceLoop, LevelFaces, Point } from './types.ts';

/**
 * Whether a point may lie in another room in one state than in the other: false is sure, true is not. A loop is the same
 * where it is the same object with the same holder; far is outside the box of every loop that is not.
 */
export function changedNear(a: LevelFaces, b: LevelFaces): (at: Point) => boolean {
  const [one, other] = [holdersOf(a), holdersOf(b)];
  const boxes = [
    ...[...one].filter(([loop, holder]) => other.get(loop) !== holder),
    ...[...other].filter(([loop, holder]) => one.get(loop) !== holder),
  ].map(([loop]) => loop.box);
  return ([x, y]) =>
    boxes.some(([left, top, right, bottom]) => x >= left && x <= right && y >= top && y <= bottom);
}

/** The loops round floor, with the outer loop that holds each island; null for an outer loop itself. */
function holdersOf({ loops, holders }: LevelFaces): Map<FaceLoop, FaceLoop | null> {
  const map = new Map<FaceLoop, FaceLoop | null>();
  loops.forEach((loop, i) => {
    if (loop.kind !== 'outer' && loop.kind !== 'island') return;
    const holder = holders[i] ?? null;
    map.set(loop, holder === null ? null : loops[holder]!);
  });
  return map;
}
