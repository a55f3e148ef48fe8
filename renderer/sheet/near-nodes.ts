// The nodes about a place, by spatial index. Ticks. Pure.

import Flatbush from 'flatbush';
import type { Point } from '../../core/graph/index.ts';
import { type Level, sortedEntries } from '../../core/plan/index.ts';

interface Nodes {
  readonly at: readonly Point[];
  readonly tree: Flatbush | null;
}

/** A memory by the level's own nodes: it goes when they go. */
const made = new WeakMap<Level['nodes'], Nodes>();

/** Places of the nodes no further than `far` from a place, along either axis. */
export function nodesNear(level: Level, [x, y]: Point, far: number): readonly Point[] {
  let nodes = made.get(level.nodes);
  if (nodes === undefined) {
    const at = sortedEntries(level.nodes).map(([, each]) => each);
    nodes = { at, tree: treeOf(at) };
    made.set(level.nodes, nodes);
  }
  const { at, tree } = nodes;
  return (tree?.search(x - far, y - far, x + far, y + far) ?? []).map((index) => at[index]!);
}

function treeOf(at: readonly Point[]): Flatbush | null {
  if (at.length === 0) return null;
  const tree = new Flatbush(at.length);
  for (const [x, y] of at) tree.add(x, y, x, y);
  tree.finish();
  return tree;
}
