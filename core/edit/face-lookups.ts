// The faces of a level by their keys and by the wall sides on them, for the carrying of face records (carry-faces.ts).
// Loops that stayed as they were can be left out: most questions are about the few that did not.

import type { FaceLoop, FaceSegment, LevelFaces } from '../graph/index.ts';
import { once } from '../graph/index.ts';
import type { CornerKey, SegmentKey } from '../plan/schema.ts';
import type { WallSide } from './kin.ts';

/** A face among the loops of a level, with the keys of the corners at its ends. */
export interface Face {
  readonly segment: FaceSegment;
  readonly left: CornerKey;
  readonly right: CornerKey;
  /** The room's outer loop as a position; a loop of no room stands for itself. */
  readonly room: number;
}

export type Lookup<K, V> = (key: K) => V | undefined;

export const NO_LOOPS: ReadonlySet<FaceLoop> = new Set();

export function isIn({ loops }: LevelFaces): (loop: FaceLoop) => boolean {
  const all = new Set(loops);
  return (loop) => all.has(loop);
}

/** Looks in a small map first and only then in the whole; each is made when it is first needed. */
export function fewFirst<K, V>(
  makeFew: () => ReadonlyMap<K, V>,
  makeAll: () => ReadonlyMap<K, V>,
): Lookup<K, V> {
  const [few, all] = [once(makeFew), once(makeAll)];
  return (key) => few().get(key) ?? all().get(key);
}

/** The keys of faces of loops that stayed, with their room before: nothing of them changed. */
export function sameFaces(before: LevelFaces, stayed: ReadonlySet<FaceLoop>): Map<SegmentKey, number> {
  const same = new Map<SegmentKey, number>();
  before.loops.forEach((loop, position) => {
    if (!stayed.has(loop)) return;
    for (const { key } of loop.segments) same.set(key, before.holders[position] ?? position);
  });
  return same;
}

/** Faces by key, those of some loops left out. */
export function facesByKey(
  { loops, holders }: LevelFaces,
  but: ReadonlySet<FaceLoop>,
): Map<SegmentKey, Face> {
  const faces = new Map<SegmentKey, Face>();
  loops.forEach((loop: FaceLoop, position) => {
    if (but.has(loop)) return;
    loop.segments.forEach((segment, i) => {
      const left = loop.corners.at(i - 1)!.key;
      faces.set(segment.key, {
        segment,
        left,
        right: loop.corners[i]!.key,
        room: holders[position] ?? position,
      });
    });
  });
  return faces;
}

export function facesBySide({ loops }: LevelFaces, but: ReadonlySet<FaceLoop>): Map<string, SegmentKey> {
  const keys = new Map<string, SegmentKey>();
  for (const loop of loops) {
    if (but.has(loop)) continue;
    for (const { key, parts } of loop.segments) for (const part of parts) keys.set(sideName(part), key);
  }
  return keys;
}

export function sideName(side: WallSide): string {
  return `${side.wall}:${side.side}`;
}
