// What differs between the walls of two levels, told by the records themselves: a record that is the same object is the
// same record, since plans are never changed in place. What an edit did not touch is found this way, and lent (RP3).

import { changedKeys } from '../plan/maps.ts';
import type { Level, NodeId, WallId } from '../plan/schema.ts';

type Net = Pick<Level, 'nodes' | 'walls'>;

/** The walls that changed, are new or gone, or of which an end moved. */
export function touchedWalls(before: Net, after: Net): Set<WallId> {
  const touched = new Set<WallId>(changedKeys(before.walls, after.walls));
  const moved = new Set<NodeId>(changedKeys(before.nodes, after.nodes));
  if (moved.size === 0) return touched;
  for (const id of Object.keys(after.walls) as WallId[]) {
    const { from, to } = after.walls[id]!;
    if (moved.has(from) || moved.has(to)) touched.add(id);
  }
  return touched;
}
