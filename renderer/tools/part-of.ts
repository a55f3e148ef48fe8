// A level cut down to some of its walls, so that trying what a drag would do costs what is dragged, not the house. Ticks.

import { type Level, mustLookup, type NodeId, type WallId } from '../../core/plan/index.ts';

const STANDING = ['openings', 'builtIns', 'marks'] as const;
type Standing = Pick<Level, (typeof STANDING)[number]>;

/** The level with some of its nodes and walls only: with the walls' ends and what stands on them. */
export function partOf(level: Level, nodes: readonly NodeId[], walls: readonly WallId[]): Level {
  const own = walls.map((id) => [id, mustLookup(level.walls, id)] as const);
  const ends = [...nodes, ...own.flatMap(([, { from, to }]) => [from, to])];
  const byWall = standingOn(level);
  const standing = STANDING.map((map) => [
    map,
    Object.fromEntries(walls.flatMap((wall) => byWall[map].get(wall) ?? [])),
  ]);
  return {
    ...level,
    nodes: Object.fromEntries(ends.map((id) => [id, mustLookup(level.nodes, id)])) as Level['nodes'],
    walls: Object.fromEntries(own) as Level['walls'],
    ...(Object.fromEntries(standing) as Standing),
  };
}

/** What stands on each wall, with its id. */
type ByWall = Readonly<Record<keyof Standing, ReadonlyMap<WallId, readonly (readonly [string, unknown])[]>>>;

function standingOn(level: Level): ByWall {
  let byWall = known.get(level);
  if (byWall === undefined) {
    byWall = {
      openings: groupedByWall(level.openings),
      builtIns: groupedByWall(level.builtIns),
      marks: groupedByWall(level.marks),
    };
    known.set(level, byWall);
  }
  return byWall;
}

/** A memory by the level itself: it goes when the level goes. */
const known = new WeakMap<Level, ByWall>();

function groupedByWall(map: Readonly<Record<string, { readonly wall: WallId }>>) {
  const groups = new Map<WallId, [string, unknown][]>();
  for (const entry of Object.entries(map)) {
    const group = groups.get(entry[1].wall);
    if (group) group.push(entry);
    else groups.set(entry[1].wall, [entry]);
  }
  return groups;
}
