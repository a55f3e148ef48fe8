// Names for the nodes and walls that a drawing tool adds, so that what was drawn last is known: guides run from it.

import { idGiver } from '../../core/edit/index.ts';
import type { Level, NodeId, WallId } from '../../core/plan/index.ts';

/** So many new names of nodes and walls on a level. RULES: ED4. */
export function newIds(
  level: Level,
  nodes: number,
  walls: number,
): { readonly nodes: readonly NodeId[]; readonly walls: readonly WallId[] } {
  const giveNode = idGiver<NodeId>('n', Object.keys(level.nodes));
  const giveWall = idGiver<WallId>('w', Object.keys(level.walls));
  return {
    nodes: Array.from({ length: nodes }, giveNode),
    walls: Array.from({ length: walls }, giveWall),
  };
}
