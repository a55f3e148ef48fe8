// The targets of a level, in a spatial index that is built once a plan: nodes, the corners of faces, and the straight
// lines between them. Ticks, x right, y down. Knows nothing of pointers. RULES: SN8, SN11.

import Flatbush from 'flatbush';
import type { Point } from '../graph/index.ts';
import { levelFaces } from '../graph/index.ts';
import { lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Level, NodeId, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { roundHalfAway } from '../units/ticks.ts';

/** A straight line to measure others by: its way gives parallel and square lines, its length equal lengths. */
export interface Reference {
  readonly from: Point;
  readonly to: Point;
  /** As it is named: `wall w3`. */
  readonly words: string;
}

/** A node or a corner of faces. */
export interface PointItem {
  readonly shape: 'point';
  readonly of: 'centre' | 'face';
  readonly key: string;
  readonly at: Point;
  readonly words: string;
  readonly node: NodeId | null;
  /** It moves with these. */
  readonly walls: readonly WallId[];
}

/** A wall's centre line, or the straight part of a face between two corners. */
export interface LineItem {
  readonly shape: 'line';
  readonly of: 'centre' | 'face';
  readonly key: string;
  readonly from: Point;
  readonly to: Point;
  /** `wall w3`, `the face of wall w3`. */
  readonly words: string;
  /** Set for a centre line. */
  readonly wall: WallId | null;
  readonly walls: readonly WallId[];
}

export type SnapItem = PointItem | LineItem;

export interface SnapIndex {
  readonly level: Level;
  readonly items: readonly SnapItem[];
  readonly tree: Flatbush | null;
  readonly wallsAt: ReadonlyMap<NodeId, readonly WallId[]>;
}

/** The index of a level. Requires a planar level. Build it again when the level changes. RULES: SN11. */
export function snapIndex(level: Level, settings: Settings): SnapIndex {
  const wallsAt = new Map<NodeId, WallId[]>();
  for (const [id, { from, to }] of sortedEntries(level.walls)) {
    for (const node of [from, to]) {
      const walls = wallsAt.get(node);
      if (walls === undefined) wallsAt.set(node, [id]);
      else walls.push(id);
    }
  }
  const items = [...centreItems(level, wallsAt), ...faceItems(level, settings)];
  if (items.length === 0) return { level, items, tree: null, wallsAt };
  const tree = new Flatbush(items.length);
  for (const item of items) {
    const [a, b] = item.shape === 'point' ? [item.at, item.at] : [item.from, item.to];
    tree.add(Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1]));
  }
  tree.finish();
  return { level, items, tree, wallsAt };
}

/** A wall as a line to measure others by. Throws where there is no such wall. */
export function wallReference({ level }: SnapIndex, wall: WallId): Reference {
  const { from, to } = mustLookup(level.walls, wall);
  return { from: mustLookup(level.nodes, from), to: mustLookup(level.nodes, to), words: `wall ${wall}` };
}

function centreItems(level: Level, wallsAt: ReadonlyMap<NodeId, readonly WallId[]>): SnapItem[] {
  const items: SnapItem[] = [];
  for (const [node, at] of sortedEntries(level.nodes)) {
    const walls = wallsAt.get(node) ?? [];
    items.push({
      shape: 'point',
      of: 'centre',
      key: `node:${node}`,
      at,
      words: nodeWords(node, walls),
      node,
      walls,
    });
  }
  for (const [wall, { from, to }] of sortedEntries(level.walls)) {
    items.push({
      shape: 'line',
      of: 'centre',
      key: `wall:${wall}`,
      from: mustLookup(level.nodes, from),
      to: mustLookup(level.nodes, to),
      words: `wall ${wall}`,
      wall,
      walls: [wall],
    });
  }
  return items;
}

function nodeWords(node: NodeId, walls: readonly WallId[]): string {
  if (walls.length === 0) return `node ${node}`;
  if (walls.length === 1) return `end of wall ${walls[0]}`;
  return `corner of walls ${listed(walls)}`;
}

export function listed(ids: readonly string[]): string {
  return ids.length < 2 ? ids.join('') : `${ids.slice(0, -1).join(', ')} and ${ids.at(-1)}`;
}

/** Corners and straight parts of all face loops; corners go to the nearest tick. */
function faceItems(level: Level, settings: Settings): SnapItem[] {
  const items: SnapItem[] = [];
  for (const { corners, segments } of levelFaces(level, settings).loops) {
    for (const { key, at, wallIn, wallOut } of corners) {
      const walls = wallIn === wallOut ? [wallIn] : [wallIn, wallOut];
      const words =
        walls.length === 1 ? `edge of wall ${wallIn}’s end` : `face corner of walls ${listed(walls)}`;
      const place: Point = [roundHalfAway(at[0]), roundHalfAway(at[1])];
      items.push({ shape: 'point', of: 'face', key: `corner:${key}`, at: place, words, node: null, walls });
    }
    for (const { key, parts, start, end } of segments) {
      // A wall end or a jog has no face of its own: it moves with the walls that its key names.
      const ends = key.slice(key.indexOf(':') + 1).split('>');
      const named = parts.length > 0 ? parts.map(({ wall }) => wall) : (ends as WallId[]);
      const walls = [...new Set(named)].filter((id) => lookup(level.walls, id) !== undefined);
      const words =
        parts.length > 0 ? `the face of wall ${listed(walls)}` : `the end of wall ${listed(walls)}`;
      items.push({
        shape: 'line',
        of: 'face',
        key: `face:${key}`,
        from: start,
        to: end,
        words,
        wall: null,
        walls,
      });
    }
  }
  return items;
}
