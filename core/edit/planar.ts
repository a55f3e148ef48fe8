// Makes an opened level exactly planar: walls touch only at shared nodes, no two nodes in one place, every position a
// whole tick. Each pass merges, drops and splits; rounding a crossing bends its walls by less than a tick, which may
// make new touches, so passes repeat until one finds nothing. Positions in ticks. RULES: ED1 to ED5.

import type { Point } from '../graph/index.ts';
import { byCodeUnit, lookup, sortedEntries } from '../plan/maps.ts';
import type { Level, NodeId, Wall, WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { idGiver } from './ids.ts';
import { MEND_PASSES, SNAP_PASS } from './limits.ts';
import { type Effort, findMeets, meetAnywhere, nearTouches, type PlacedWall } from './meets.ts';
import { standingWords } from './standing.ts';
import { dropWall, mergeInto, mustGet, note, splitAt, type Working } from './working.ts';

type Net = Pick<Level, 'nodes' | 'walls'>;

/**
 * Maps of nodes and of walls that are planar together. Only frozen ones: what is remembered of them cannot become untrue.
 */
const known = new WeakMap<Level['nodes'], WeakSet<Level['walls']>>();

function isKnown({ nodes, walls }: Net): boolean {
  return known.get(nodes)?.has(walls) === true;
}

/** Remembers that a level is planar, as `makePlanar` or `isPlanar` found. */
export function rememberPlanar({ nodes, walls }: Net): void {
  if (!Object.isFrozen(nodes) || !Object.isFrozen(walls)) return;
  const others = known.get(nodes);
  if (others === undefined) known.set(nodes, new WeakSet([walls]));
  else others.add(walls);
}

/**
 * Whether a level is exactly planar as mending leaves it. `since`: an earlier state of it; where that was planar only what
 * changed is looked at. Throws `Tangled` where that takes more than `effort`. RULES: ED1.
 */
export function isPlanar(level: Level, since?: Net, effort?: Effort): boolean {
  if (isKnown(level)) return true;
  const planar =
    since !== undefined && isKnown(since)
      ? staysPlanar(new Map(sortedEntries(level.nodes)), new Map(sortedEntries(level.walls)), since)
      : isPlanarThroughout(level, effort);
  if (planar) rememberPlanar(level);
  return planar;
}

/** Whether nodes and walls are planar, `before` being so: only what is not the same object is looked at. */
function staysPlanar(
  nodes: ReadonlyMap<NodeId, Point>,
  walls: ReadonlyMap<WallId, Wall>,
  before: Net,
): boolean {
  const stirred = stirredSince(nodes, walls, before);
  if (stirred.nodes.size === 0 && stirred.walls.size === 0) return true;
  const places = new Set<string>();
  for (const id of stirred.nodes) {
    const at = mustGet(nodes, id);
    if (!isWhole(at)) return false;
    places.add(placeOf(at));
  }
  if (places.size < stirred.nodes.size) return false;
  const columns = new Set([...stirred.nodes].map((id) => mustGet(nodes, id)[0]));
  for (const [id, at] of nodes) {
    if (columns.has(at[0]) && !stirred.nodes.has(id) && places.has(placeOf(at))) return false;
  }
  const ends = new Set<NodeId>();
  const pairs = new Set<string>();
  for (const id of stirred.walls) {
    const { from, to } = mustGet(walls, id);
    if (from === to || pairs.has(pairOf(from, to))) return false;
    pairs.add(pairOf(from, to));
    ends.add(from).add(to);
  }
  for (const [id, { from, to }] of walls) {
    if (ends.has(from) && ends.has(to) && !stirred.walls.has(id) && pairs.has(pairOf(from, to))) return false;
  }
  const { placed, loose } = placedWalls(nodes, walls);
  return !meetAnywhere(placed, loose, stirred);
}

/** What is new or changed, and walls of which an end moved. */
function stirredSince(
  nodes: ReadonlyMap<NodeId, Point>,
  walls: ReadonlyMap<WallId, Wall>,
  before: Net,
): { readonly nodes: ReadonlySet<NodeId>; readonly walls: ReadonlySet<WallId> } {
  const movedNodes = new Set<NodeId>();
  for (const [id, at] of nodes) if (before.nodes[id] !== at) movedNodes.add(id);
  const movedWalls = new Set<WallId>();
  for (const [id, wall] of walls) {
    if (before.walls[id] !== wall || movedNodes.has(wall.from) || movedNodes.has(wall.to)) movedWalls.add(id);
  }
  return { nodes: movedNodes, walls: movedWalls };
}

function isPlanarThroughout(level: Level, effort: Effort | undefined): boolean {
  const places = new Set<string>();
  for (const at of Object.values<Point>(level.nodes)) {
    if (!isWhole(at)) return false;
    places.add(placeOf(at));
  }
  if (places.size !== Object.keys(level.nodes).length) return false;
  const pairs = new Set<string>();
  const loose = new Map<NodeId, Point>(sortedEntries(level.nodes));
  const placed: PlacedWall[] = [];
  for (const [id, wall] of sortedEntries(level.walls)) {
    if (wall.from === wall.to || pairs.has(pairOf(wall.from, wall.to))) return false;
    pairs.add(pairOf(wall.from, wall.to));
    const [from, to] = [lookup(level.nodes, wall.from), lookup(level.nodes, wall.to)];
    if (from === undefined || to === undefined)
      throw new Error(`wall ${id} names a node that does not exist`);
    placed.push({ id, wall, from, to });
    loose.delete(wall.from);
    loose.delete(wall.to);
  }
  return !meetAnywhere(placed, loose, null, effort);
}

/**
 * Mends an opened level. False when it is still not planar after the passes allowed. Throws `Tangled` where that takes more
 * than `effort`. RULES: ED1 to ED5.
 */
export function makePlanar(working: Working, effort?: Effort): boolean {
  const { nodes, walls, before } = working;
  const freeNode = idGiver<NodeId>('n', [...nodes.keys(), ...Object.keys(before.nodes)]);
  const freeWall = idGiver<WallId>('w', [...walls.keys(), ...Object.keys(before.walls)]);
  const wasPlanar = isPlanar(before);
  for (let pass = 0; pass <= MEND_PASSES; pass++) {
    if (wasPlanar && staysPlanar(nodes, walls, before)) return true;
    const changes = [
      roundNodes(working),
      mergeNodes(working),
      mergeWalls(working),
      splitMeets(working, freeNode, freeWall, pass >= SNAP_PASS, wasPlanar, effort),
    ];
    if (!changes.includes(true)) return true;
  }
  return false;
}

function isWhole(at: Point): boolean {
  return Number.isInteger(at[0]) && Number.isInteger(at[1]) && !Object.is(at[0], -0) && !Object.is(at[1], -0);
}

function placeOf(at: Point): string {
  return `${at[0]},${at[1]}`;
}

/** Ids hold no comma. */
function pairOf(a: NodeId, b: NodeId): string {
  return a < b ? `${a},${b}` : `${b},${a}`;
}

function roundNodes(working: Working): boolean {
  let changed = false;
  for (const [id, at] of working.nodes) {
    if (isWhole(at)) continue;
    const whole: Point = [roundHalfAway(at[0]), roundHalfAway(at[1])];
    working.nodes.set(id, whole);
    if (whole[0] !== at[0] || whole[1] !== at[1]) {
      note(working, whole, [id], `Node ${id} lay between two ticks and is moved to the nearest.`);
    }
    changed = true;
  }
  return changed;
}

/** Nodes in one place become the one with the lowest id; a wall left without length goes. RULES: ED2. */
function mergeNodes(working: Working): boolean {
  const lowest = new Map<string, NodeId>();
  const renamed = new Map<NodeId, NodeId>();
  for (const [id, at] of [...working.nodes].sort(([a], [b]) => byCodeUnit(a, b))) {
    const kept = lowest.get(placeOf(at));
    if (kept === undefined) {
      lowest.set(placeOf(at), id);
      continue;
    }
    renamed.set(id, kept);
    working.nodes.delete(id);
    note(working, at, [kept, id], `Node ${id} lay on node ${kept} and is merged into it.`);
  }
  let dropped = false;
  const bare = new Set<NodeId>();
  for (const [id, wall] of [...working.walls].sort(([a], [b]) => byCodeUnit(a, b))) {
    const [from, to] = [renamed.get(wall.from) ?? wall.from, renamed.get(wall.to) ?? wall.to];
    if (from !== wall.from || to !== wall.to) working.walls.set(id, { ...wall, from, to });
    if (from !== to) continue;
    const things = dropWall(working, id);
    const lost = things.map((thing) => thing.id);
    const at = mustGet(working.nodes, from);
    const also = lost.length === 0 ? '' : ` With it went ${things.map(standingWords).join(', ')}.`;
    note(working, at, [id, ...lost], `Wall ${id} had no length and is dropped.${also}`, lost.length > 0);
    bare.add(from);
    dropped = true;
  }
  if (bare.size > 0) dropBare(working, bare);
  return dropped || renamed.size > 0;
}

/** Takes away those of the nodes that carry no wall. */
export function dropBare(working: Working, nodes: Iterable<NodeId>): void {
  const carrying = new Set<NodeId>();
  for (const wall of working.walls.values()) carrying.add(wall.from).add(wall.to);
  for (const node of nodes) if (!carrying.has(node)) working.nodes.delete(node);
}

/** Walls between the same two nodes become the one with the lowest id. RULES: ED3. */
function mergeWalls(working: Working): boolean {
  const lowest = new Map<string, WallId>();
  let changed = false;
  for (const [id, wall] of [...working.walls].sort(([a], [b]) => byCodeUnit(a, b))) {
    const pair = pairOf(wall.from, wall.to);
    const kept = lowest.get(pair);
    if (kept === undefined) {
      lowest.set(pair, id);
      continue;
    }
    const thicker = wall.thickness > mustGet(working.walls, kept).thickness;
    mergeInto(working, kept, id);
    const [from, to] = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)];
    const middle: Point = [roundHalfAway((from[0] + to[0]) / 2), roundHalfAway((from[1] + to[1]) / 2)];
    const made = thicker ? `, which takes its thickness` : '';
    note(working, middle, [kept, id], `Wall ${id} lay on wall ${kept} and is merged into it${made}.`);
    changed = true;
  }
  return changed;
}

/**
 * Splits every wall at every node in its course and every two walls where they cross. With `snap` also at every node
 * within whose tick the wall passes, which leaves nothing to cross. RULES: ED1, ED4.
 */
function splitMeets(
  working: Working,
  freeNode: () => NodeId,
  freeWall: () => WallId,
  snap: boolean,
  wasPlanar: boolean,
  effort: Effort | undefined,
): boolean {
  const { placed, loose } = placedWalls(working.nodes, working.walls);
  const stirred = wasPlanar ? stirredSince(working.nodes, working.walls, working.before) : null;
  const { touches, crossings } = findMeets(placed, loose, stirred, effort);
  if (touches.length === 0 && crossings.length === 0) return false;

  // New nodes in the order of their places, so that their ids do not hang on the order of the search.
  const nodeAt = new Map<string, NodeId>();
  for (const [id, at] of working.nodes) nodeAt.set(placeOf(at), id);
  for (const { at } of [...crossings].sort((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0])) {
    if (nodeAt.has(placeOf(at))) continue;
    const id = freeNode();
    working.nodes.set(id, at);
    nodeAt.set(placeOf(at), id);
  }

  const cuts = new Map<WallId, Map<NodeId, WallId | null>>();
  const cut = (wall: WallId, node: NodeId, by: WallId | null) => {
    const { from, to } = mustGet(working.walls, wall);
    if (node === from || node === to) return;
    const nodes = cuts.get(wall) ?? new Map();
    if (!nodes.has(node)) nodes.set(node, by);
    cuts.set(wall, nodes);
  };
  for (const { wall, node, by } of touches) cut(wall, node, by);
  if (snap) for (const { wall, node } of nearTouches(placed, working.nodes)) cut(wall, node, null);
  for (const { walls, at } of crossings) {
    const node = mustGet(nodeAt, placeOf(at));
    cut(walls[0], node, walls[1]);
    cut(walls[1], node, walls[0]);
  }
  for (const [id, nodes] of [...cuts].sort(([a], [b]) => byCodeUnit(a, b))) {
    const ordered = alongWall(working, id, [...nodes.keys()]);
    const named = ordered.map((node) => ({ node, newWall: freeWall() }));
    splitAt(working, id, named);
    for (const { node, newWall } of named) {
      const by = nodes.get(node) ?? null;
      const met =
        by === null ? `Node ${node} lies in wall ${id}` : `Wall ${by} meets wall ${id} at node ${node}`;
      const about = by === null ? [id, newWall, node] : [id, newWall, by, node];
      note(
        working,
        mustGet(working.nodes, node),
        about,
        `${met}, which is split there: the part beyond is ${newWall}.`,
      );
    }
  }
  return true;
}

function placedWalls(
  nodes: ReadonlyMap<NodeId, Point>,
  walls: ReadonlyMap<WallId, Wall>,
): { placed: PlacedWall[]; loose: Map<NodeId, Point> } {
  const loose = new Map([...nodes].sort(([a], [b]) => byCodeUnit(a, b)));
  const placed: PlacedWall[] = [];
  for (const [id, wall] of [...walls].sort(([a], [b]) => byCodeUnit(a, b))) {
    placed.push({ id, wall, from: mustGet(nodes, wall.from), to: mustGet(nodes, wall.to) });
    loose.delete(wall.from);
    loose.delete(wall.to);
  }
  return { placed, loose };
}

/** Nodes in the course of a wall, from its first node on: by the longer axis, then by the other. Exact. */
function alongWall(working: Working, id: WallId, nodes: NodeId[]): NodeId[] {
  const wall = mustGet(working.walls, id);
  const [from, to] = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)];
  const reach = [to[0] - from[0], to[1] - from[1]] as const;
  const [main, minor] = Math.abs(reach[0]) >= Math.abs(reach[1]) ? ([0, 1] as const) : ([1, 0] as const);
  return nodes.sort((a, b) => {
    const [p, q] = [mustGet(working.nodes, a), mustGet(working.nodes, b)];
    return (
      Math.sign(reach[main]) * (p[main] - q[main]) || Math.sign(reach[minor]) * (p[minor] - q[minor]) || 0
    );
  });
}
