// The faces of a level, remembered for as long as the level's own maps of nodes and walls are in use. Plans are never
// changed in place, and only maps that are frozen are remembered, so what is remembered cannot become untrue: this is
// memory of a pure function's answers, not state. An answer that is remembered also lends to those of later levels.

import type { Level } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { type Worked, workFaces } from './faces.ts';
import type { FaceLoop, LevelFaces } from './types.ts';

type Net = Pick<Level, 'nodes' | 'walls'>;

const known = new WeakMap<Level['nodes'], WeakMap<Level['walls'], Worked>>();

function remembered({ nodes, walls }: Net): Worked | null {
  return known.get(nodes)?.get(walls) ?? null;
}

function remember(worked: Worked): void {
  const { nodes, walls } = worked.net;
  if (!Object.isFrozen(nodes) || !Object.isFrozen(walls)) return;
  const byWalls = known.get(nodes);
  if (byWalls === undefined) known.set(nodes, new WeakMap([[walls, worked]]));
  else byWalls.set(walls, worked);
}

/**
 * All face loops of a level in canonical order, how they lie in one another, where they are too narrow, and which walls
 * hang together. `since`: an earlier state of the level, whose loops are lent where its faces are known; the answer is
 * the same without. Requires a planar level; throws as `buildHalfEdges` does. RULES: WK3 to WK12.
 */
export function levelFaces(level: Level, settings: Settings, since?: Net): LevelFaces {
  const before = remembered(level);
  if (before !== null && before.voidAreaM2 === settings.voidAreaM2) return before.faces;
  const worked = workFaces(level, settings, since === undefined ? null : remembered(since));
  remember(worked);
  return worked.faces;
}

/** The loops alone. */
export function faceLoops(level: Level, settings: Settings, since?: Net): readonly FaceLoop[] {
  return levelFaces(level, settings, since).loops;
}
