// What became of the walls of a level: of their ends and of their sides, in walking order. Built from the ancestry that
// an opened level keeps; the carrying of corner, face and room records asks it. Knows no records. RULES: ED6.

import { distance } from '../graph/index.ts';
import { lookup } from '../plan/maps.ts';
import type { NodeId, Side, Wall, WallId } from '../plan/schema.ts';
import { mustGet, piecesOf, sideOn, type Working } from './working.ts';

export interface WallEnd {
  readonly wall: WallId;
  readonly node: NodeId;
}

export interface WallSide {
  readonly wall: WallId;
  readonly side: Side;
}

export interface Kin {
  /** Where an old wall's end at `node` is now; null where the wall is gone or its end lies inside a joined wall. */
  endOf(wall: WallId, node: NodeId): WallEnd | null;
  /**
   * Where an old corner, wall end or jog is now, as `node:wallIn>wallOut`: the node at which the wall walked in on ends
   * and both walls. The wall walked out on starts at the same node, or near it where a face between them vanished.
   */
  jointOf(node: NodeId, wallIn: WallId, wallOut: WallId): string | null;
  /** What one side of an old wall is now, in walking order; empty where it is gone. */
  sidesOf(wall: WallId, side: Side): readonly WallSide[];
}

export function kinOf(working: Working): Kin {
  const { before, walls } = working;
  const endOf = (id: WallId, node: NodeId): WallEnd | null => {
    const wall = lookup(before.walls, id);
    if (wall === undefined || (wall.from !== node && wall.to !== node)) return null;
    const piece = piecesOf(working, id).at(wall.from === node ? 0 : -1);
    if (piece === undefined) return null;
    const at = wall.from === node ? piece.from : piece.to;
    const now = mustGet(walls, piece.wall);
    if (at === 0) return { wall: piece.wall, node: now.from };
    return at === 1 ? { wall: piece.wall, node: now.to } : null;
  };
  const jointOf = (node: NodeId, wallIn: WallId, wallOut: WallId): string | null => {
    const out = lookup(before.walls, wallOut);
    if (out === undefined) return null;
    const arriving = endOf(wallIn, node);
    const leaving = endOf(wallOut, out.from === node || out.to === node ? node : nearerEnd(out, node));
    return arriving && leaving && `${arriving.node}:${arriving.wall}>${leaving.wall}`;
  };
  const nearerEnd = (wall: Wall, node: NodeId): NodeId => {
    const at = lookup(before.nodes, node);
    const from = lookup(before.nodes, wall.from);
    const to = lookup(before.nodes, wall.to);
    if (at === undefined || from === undefined || to === undefined) return wall.from;
    return distance(at, from) <= distance(at, to) ? wall.from : wall.to;
  };
  const sidesOf = (id: WallId, side: Side): readonly WallSide[] => {
    const sides = piecesOf(working, id).map((piece) => ({
      wall: piece.wall,
      side: sideOn(piece, side),
    }));
    return side === 'left' ? sides.reverse() : sides;
  };
  return { endOf, jointOf, sidesOf };
}
