// What a drag moves, and the edit it makes of the whole way the pointer has gone: nodes, walls with their neighbours,
// rooms, or things along their face. Plain data; the plan is not touched. Ticks.

import type { Edit, WallEdit } from '../../core/edit/index.ts';
import { preview } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import { dot, minus, NO_CORNER_DEG, unit } from '../../core/graph/index.ts';
import {
  type BuiltIn,
  type Level,
  lookup,
  type Mark,
  mustLookup,
  type NodeId,
  type Opening,
  type WallId,
} from '../../core/plan/index.ts';
import type { SnapAnswer } from '../../core/snap/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import type { Ref } from '../state/refs.ts';
import { turnOfWays } from './directions.ts';
import { alongFace, type Face, faceNear, faceOf, segmentsOf } from './faces.ts';
import { partOf } from './part-of.ts';
import { placesOn, wasOn } from './room-on-face.ts';
import { slide } from './slide.ts';
import { snapped } from './snapping.ts';
import { faceOfRef } from './standing-places.ts';
import { setForWall } from './turn-round.ts';
import type { PointerInput, ToolContext } from './types.ts';

/** Nodes that move together. */
export interface MovingNodes {
  readonly kind: 'nodes';
  readonly nodes: readonly NodeId[];
  /** Walls that change their place or shape. */
  readonly walls: readonly WallId[];
  /** The place that is snapped: a node of it. */
  readonly anchor: Point;
  /** Moves this way only: square to a wall. */
  readonly axis: Point | null;
}

/** Things that slide along their walls. The first is the one in hand. */
export interface MovingThings {
  readonly kind: 'things';
  readonly refs: readonly StandingRef[];
  /** From the thing's nearer edge to where it was taken hold of. */
  readonly grip: number;
}
export type StandingRef = Extract<Ref, { kind: 'opening' | 'builtIn' | 'mark' }>;
export type Moving = MovingNodes | MovingThings;

export interface Moved {
  readonly by: Point;
  readonly caught: SnapAnswer | null;
  /** Of a thing: where it slides to. */
  readonly to: { readonly face: Face; readonly at: number } | null;
  readonly held: string | null;
  readonly words: string;
}

export const NOT_MOVED: Moved = { by: [0, 0], caught: null, to: null, held: null, words: '' };

export function isStanding(ref: Ref): ref is StandingRef {
  return ref.kind === 'opening' || ref.kind === 'builtIn' || ref.kind === 'mark';
}

export function thingOf(level: Level, ref: StandingRef) {
  if (ref.kind === 'opening') return lookup(level.openings, ref.id);
  return ref.kind === 'builtIn' ? lookup(level.builtIns, ref.id) : lookup(level.marks, ref.id);
}

/** What moves when these are dragged, the first being the one in hand; null where they cannot be. `alone`: not the walls in line. */
export function movingOf(
  refs: readonly Ref[],
  at: Point,
  alone: boolean,
  context: ToolContext,
): Moving | null {
  const { level, walk } = context;
  const here = refs.filter((ref) => ref.level === level.id);
  const [first] = here;
  if (first === undefined) return null;
  if (isStanding(first)) {
    const thing = thingOf(level, first);
    const face = thing === undefined ? null : faceOf(level, walk, thing.wall, 'right');
    if (thing === undefined || face === null) return null;
    return { kind: 'things', refs: here.filter(isStanding), grip: alongFace(face, at) - thing.at };
  }
  const nodes = nodesOf(here, context);
  if (nodes.length === 0) return null;
  const own = here.length === 1 && first.kind !== 'room' ? wallsOf(first, context)[0] : undefined;
  const one = own === undefined ? undefined : mustLookup(level.walls, own);
  const moved = own === undefined || alone ? nodes : inLineWith(level, own);
  const way =
    one === undefined
      ? null
      : unit(minus(mustLookup(level.nodes, one.to), mustLookup(level.nodes, one.from)));
  return {
    kind: 'nodes',
    nodes: moved,
    walls: wallsAt(level, moved),
    anchor: mustLookup(level.nodes, nodes[0]!),
    axis: way === null ? null : [0 - way[1], way[0]],
  };
}

/** Nodes of walls, rooms, faces and nodes. */
export function nodesOf(
  refs: readonly Ref[],
  { level, walk }: Pick<ToolContext, 'level' | 'walk'>,
): readonly NodeId[] {
  const nodes = new Set<NodeId>();
  for (const ref of refs) {
    if (ref.kind === 'node' && lookup(level.nodes, ref.id) !== undefined) nodes.add(ref.id);
    for (const id of wallsOf(ref, { level, walk })) {
      const { from, to } = mustLookup(level.walls, id);
      nodes.add(from).add(to);
    }
  }
  return [...nodes];
}

/** The walls that a reference means: a wall, those of a face, those that a room's faces lie on. */
export function wallsOf(ref: Ref, { level, walk }: Pick<ToolContext, 'level' | 'walk'>): readonly WallId[] {
  const there = (ids: readonly WallId[]) =>
    [...new Set(ids)].filter((id) => lookup(level.walls, id) !== undefined);
  if (ref.kind === 'wall') return there([ref.id]);
  if (ref.kind === 'segment')
    return there(
      segmentsOf(walk)
        .find(({ key }) => key === ref.id)
        ?.parts.map(({ wall }) => wall) ?? [],
    );
  if (ref.kind !== 'room') return [];
  const room = walk.rooms.find(({ id }) => id === ref.id);
  return there(
    room?.loops.flatMap(({ segments }) => segments.flatMap(({ parts }) => parts.map(({ wall }) => wall))) ??
      [],
  );
}

export function wallsAt(level: Level, nodes: readonly NodeId[]): readonly WallId[] {
  const moved = new Set(nodes);
  return (Object.keys(level.walls) as WallId[]).filter((id) => {
    const { from, to } = mustLookup(level.walls, id);
    return moved.has(from) || moved.has(to);
  });
}

/** The nodes of a wall and of all walls that go straight on from it. */
export function inLineWith(level: Level, id: WallId): readonly NodeId[] {
  const wayOf = (wall: WallId): Point => {
    const { from, to } = mustLookup(level.walls, wall);
    return minus(mustLookup(level.nodes, to), mustLookup(level.nodes, from));
  };
  const way = wayOf(id);
  const straight = (wall: WallId): boolean => {
    const turn = Math.abs(turnOfWays(way, wayOf(wall)));
    return Math.min(turn, 180 - turn) < NO_CORNER_DEG;
  };
  const at = new Map<NodeId, WallId[]>();
  for (const wall of (Object.keys(level.walls) as WallId[]).filter(straight)) {
    const { from, to } = mustLookup(level.walls, wall);
    for (const node of [from, to]) at.set(node, [...(at.get(node) ?? []), wall]);
  }
  const { from, to } = mustLookup(level.walls, id);
  const nodes = new Set<NodeId>([from, to]);
  for (const node of nodes)
    for (const wall of at.get(node) ?? []) {
      const ends = mustLookup(level.walls, wall);
      nodes.add(ends.from).add(ends.to);
    }
  return [...nodes];
}

/** Nearer to another wall than this a thing goes over to it, pixels. */
const REACH_PX = 40;

/** How far it is moved by a pointer that went from one place to another. */
export function movedTo(
  moving: Moving,
  from: Point,
  input: PointerInput,
  last: Moved,
  cycle: number,
  context: ToolContext,
): Moved {
  const { level } = context;
  if (moving.kind === 'things') {
    const first = moving.refs[0]!;
    const thing = thingOf(level, first);
    if (thing === undefined) return last;
    const near =
      moving.refs.length > 1 ? null : faceNear(context, input.at, REACH_PX / context.pixelsPerTick);
    const face = near === null ? faceOfRef(first, context) : faceFor(first, near, context);
    if (face === null) return last;
    const grip = face.wall === thing.wall ? moving.grip : thing.width / 2;
    const snaps = context.snapping.on !== input.mod;
    const { kind, id: but } = first;
    const wish = { kind, width: thing.width, was: wasOn(face, thing), but, held: last.held, snaps };
    const { at, words, held } = slide(face, alongFace(face, input.at) - grip, wish, context);
    return { by: [0, 0], caught: null, to: { face, at }, held, words };
  }
  const gone = minus(input.at, from);
  const { anchor, axis } = moving;
  const far = axis === null ? gone : times(axis, dot(gone, axis));
  const caught = snapped(
    { ...input, at: [anchor[0] + far[0], anchor[1] + far[1]] },
    { start: anchor, steps: axis === null, without: { nodes: moving.nodes }, last: last.caught, cycle },
    context,
  );
  const way = minus(caught.at, anchor);
  const by = axis === null ? way : times(axis, dot(way, axis));
  return {
    by: [roundHalfAway(by[0]), roundHalfAway(by[1])],
    caught,
    to: null,
    held: null,
    words: caught.words,
  };
}

/** An opening is told from one and the same face of its wall, whichever side the pointer is on. */
function faceFor({ kind, level }: StandingRef, near: Face, context: ToolContext): Face | null {
  return kind === 'opening' ? faceOfRef({ kind: 'wall', level, id: near.wall }, context) : near;
}

function times(way: Point, by: number): Point {
  return [way[0] * by, way[1] * by];
}

/** The edit that a drag so far would be; null where nothing moved. */
export function dragEdit(moving: Moving, moved: Moved, context: ToolContext): Edit | null {
  if (moving.kind === 'nodes') return nodesEdit(moving, moved, context);
  const { level } = context;
  const first = thingOf(level, moving.refs[0]!);
  if (first === undefined || moved.to === null) return null;
  const { face, at } = moved.to;
  const by = at - first.at;
  if (by === 0 && face.wall === first.wall && (!('side' in first) || first.side === face.side)) return null;
  if (moving.refs.length === 1) {
    return standingEdit(moving.refs[0]!, { at, ...setForFace(first, face, context) }, level);
  }
  return thingsBy(moving.refs, by, context);
}

/**
 * Things moved along their own walls, all the same way on the sheet, as one step: `by` is along the first one's wall. They
 * go as far as the first that comes to an end of its face; null where they cannot go at all.
 */
export function thingsBy(
  refs: readonly StandingRef[],
  by: number,
  context: Pick<ToolContext, 'level' | 'walk'>,
): Edit | null {
  const things = refs.flatMap((ref) => {
    const [thing, face] = [thingOf(context.level, ref), faceOfRef(ref, context)];
    return thing === undefined || face === null ? [] : [{ ref, thing, face }];
  });
  const moves = things.map(({ ref, thing, face }) => {
    const way = dot(face.way, things[0]!.face.way) < -SQUARE ? -by : by;
    const [least, most] = placesOn(face, { kind: ref.kind, width: thing.width, was: thing });
    return { ref, at: thing.at, way: Math.sign(way), room: way > 0 ? most - thing.at : thing.at - least };
  });
  const far = Math.min(Math.abs(by), ...moves.map(({ room }) => room));
  if (!(far > 0)) return null;
  const edits = moves.map(({ ref, at, way }) => standingEdit(ref, { at: at + way * far }, context.level));
  return edits.length < 2
    ? (edits[0] ?? null)
    : { type: 'several', edits, words: 'move things along their walls' };
}

/** What of a thing is another where it goes to this face. */
export function setForFace(
  thing: Opening | BuiltIn | Mark,
  face: Face,
  context: Pick<ToolContext, 'level' | 'walk'>,
): StandingSet {
  if (!('side' in thing)) return setForWall(thing, face.wall, context);
  return {
    ...(face.wall === thing.wall ? {} : { wall: face.wall }),
    ...(face.side === thing.side ? {} : { side: face.side }),
  };
}

/** Walls as square to each other as this run neither the same way nor opposite ways. */
const SQUARE = 1e-6;

/** Where a thing stands other than by its place along the wall. */
export type StandingSet = Partial<Pick<Opening, 'wall' | 'casing' | 'pocket'> & Pick<BuiltIn, 'side'>>;

export function standingEdit(
  ref: StandingRef,
  set: StandingSet & { readonly at: number; readonly width?: number },
  { id: level }: Level,
): Edit {
  const { side, casing, pocket, ...along } = set;
  if (ref.kind === 'opening') {
    const turned = {
      ...(casing === undefined ? {} : { casing }),
      ...(pocket === undefined ? {} : { pocket }),
    };
    return { type: 'changeOpening', level, opening: ref.id, set: { ...along, ...turned } };
  }
  const all = side === undefined ? along : { ...along, side };
  return ref.kind === 'builtIn'
    ? { type: 'changeBuiltIn', level, builtIn: ref.id, set: all }
    : { type: 'changeMark', level, mark: ref.id, set: all };
}

function nodesEdit(
  { nodes, anchor }: MovingNodes,
  { by, caught }: Moved,
  { level }: ToolContext,
): WallEdit | null {
  if (by[0] === 0 && by[1] === 0) return null;
  if (nodes.length > 1) return { type: 'moveNodes', level: level.id, nodes, by };
  const target = caught?.what.length === 1 ? caught.what[0] : undefined;
  const on = target?.node === null ? target.wall : null;
  const to: Point = [anchor[0] + by[0], anchor[1] + by[1]];
  return { type: 'moveNode', level: level.id, node: nodes[0]!, to, ...(on == null ? {} : { on }) };
}

/**
 * What the drag would change, as it would leave it, for drawing: of dragged nodes only the walls that come along, with what
 * stands on them. Null where it would be refused.
 */
export function dragPreview(
  moving: Moving,
  edit: Edit,
  { plan, level }: ToolContext,
): { level: Level; changedWalls: ReadonlySet<string> } | null {
  if (moving.kind === 'nodes') {
    const on = edit.type === 'moveNode' && edit.on !== undefined ? [edit.on] : [];
    const part = partOf(level, moving.nodes, [...moving.walls, ...on]);
    const shown = preview({ ...plan, levels: [part] }, edit as WallEdit);
    return shown.ok ? { level: shown.level, changedWalls: new Set(moving.walls) } : null;
  }
  const edits = edit.type === 'several' ? edit.edits : [edit];
  let next = level;
  const changedWalls = new Set<string>();
  for (const each of edits) {
    const [map, id] =
      each.type === 'changeOpening'
        ? (['openings', each.opening] as const)
        : each.type === 'changeBuiltIn'
          ? (['builtIns', each.builtIn] as const)
          : each.type === 'changeMark'
            ? (['marks', each.mark] as const)
            : [null, null];
    if (map === null) continue;
    const was = mustLookup(next[map] as Record<string, Level['builtIns'][keyof Level['builtIns']]>, id);
    const now = { ...was, ...(each as { set: Partial<typeof was> }).set };
    changedWalls.add(was.wall).add(now.wall);
    next = { ...next, [map]: { ...next[map], [id]: now } };
  }
  return { level: next, changedWalls };
}
