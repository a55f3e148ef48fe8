// Walls and what stands on them copied, pasted, doubled, mirrored and turned; a single thing doubled along its wall. Each
// is one edit and says what is chosen after it. Ticks, x right, y down.

import { type Edit, idGiver, type PasteWalls } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import {
  type BuiltInId,
  type Level,
  type LevelId,
  lookup,
  type MarkId,
  mustLookup,
  type NodeId,
  type OpeningId,
  type WallId,
} from '../../core/plan/index.ts';
import { roundHalfAway, ticksFromMm } from '../../core/units/index.ts';
import type { Ref } from '../state/refs.ts';
import { type Bounds, boundsOfPoints } from '../state/viewport.ts';
import type { EditOrWhy } from './delete.ts';
import { isStanding, nodesOf, type StandingRef, thingOf, wallsAt, wallsOf } from './drag.ts';
import type { ToolContext } from './types.ts';

/** What was copied: walls of a level, or one thing with its record. */
export type Clip =
  | { readonly kind: 'walls'; readonly level: LevelId; readonly walls: readonly WallId[] }
  | { readonly kind: 'thing'; readonly ref: StandingRef };

export type Copied = EditOrWhy & { readonly select?: readonly Ref[]; readonly say?: string };
type Context = Pick<ToolContext, 'level' | 'walk' | 'selection' | 'plan' | 'view'>;

/** Between what is doubled and its double: 2 ft, or half a metre. */
const BESIDE_MM = { imperial: 609.6, metric: 500 } as const;

/** The walls that the selection means: walls, faces, rooms, and walls with both ends chosen. */
export function chosenWalls({
  level,
  walk,
  selection,
}: Pick<ToolContext, 'level' | 'walk' | 'selection'>): readonly WallId[] {
  const here = selection.filter((ref) => ref.level === level.id);
  const nodes = new Set<NodeId>(here.flatMap((ref) => (ref.kind === 'node' ? [ref.id] : [])));
  const between = wallsAt(level, [...nodes]).filter((id) => {
    const { from, to } = mustLookup(level.walls, id);
    return nodes.has(from) && nodes.has(to);
  });
  return [...new Set([...here.flatMap((ref) => wallsOf(ref, { level, walk })), ...between])];
}

/** What copying takes; null with nothing to take. */
export function clipOf(context: Context): Clip | null {
  const walls = chosenWalls(context);
  if (walls.length > 0) return { kind: 'walls', level: context.level.id, walls };
  const thing = context.selection.find(isStanding);
  return thing === undefined ? null : { kind: 'thing', ref: thing };
}

/**
 * Puts a clip at a place that was pointed out, else in the middle of what is shown, or beside its original where that is
 * shown; but never over walls that stand unless the place was pointed out.
 */
export function pasted(clip: Clip, at: Point | null, context: Context): Copied {
  const { plan, level } = context;
  if (clip.kind === 'thing') return doubledThing(clip.ref, context);
  const source = plan.levels.find(({ id }) => id === clip.level);
  const walls = clip.walls.filter((id) => lookup(source?.walls ?? {}, id) !== undefined);
  if (source === undefined || walls.length === 0)
    return { why: 'The walls that were copied are no longer there.' };
  const box = boundsOf(source, walls);
  const target = at ?? middleOf(context.view);
  if (target === null)
    return source.id === level.id ? beside(walls, context) : paste(source, walls, [0, 0], context);
  const by: Point = [
    roundHalfAway(target[0] - (box[0] + box[2]) / 2),
    roundHalfAway(target[1] - (box[1] + box[3]) / 2),
  ];
  if (source.id === level.id && Math.abs(by[0]) < 8 && Math.abs(by[1]) < 8) return beside(walls, context);
  const clear = at === null ? clearOf(source, walls, by, context) : by;
  return paste(source, walls, clear, context);
}

/** The selection once more: walls beside themselves, a thing farther along its wall. */
export function doubled(context: Context): Copied {
  const clip = clipOf(context);
  if (clip === null) return { why: 'Choose walls, a room or a thing on a wall first.' };
  return clip.kind === 'thing' ? doubledThing(clip.ref, context) : beside(clip.walls, context);
}

function beside(walls: readonly WallId[], context: Context): Copied {
  const { level } = context;
  const [left, , right] = bodyOf(level, walls);
  const by: Point = [right - left + besideTicks(context), 0];
  const made = paste(level, walls, clearOf(level, walls, by, context), context);
  const rooms = context.selection.filter(({ kind }) => kind === 'room').length;
  return { ...made, words: rooms === 1 ? 'duplicate room' : 'duplicate walls' };
}

const besideTicks = ({ plan }: Context): number => roundHalfAway(ticksFromMm(BESIDE_MM[plan.units]));

/** Where copies of walls stand clear of those of the level: as far off as wished, else to the right of all of them. */
function clearOf(source: Level, walls: readonly WallId[], wish: Point, context: Context): Point {
  const { level } = context;
  const standing = Object.keys(level.walls) as WallId[];
  const [left, top, right, bottom] = bodyOf(source, walls);
  const inTheWay = standing.some((id) => {
    const [l, t, r, b] = bodyOf(level, [id]);
    const [x, y] = wish;
    return l < right + x && r > left + x && t < bottom + y && b > top + y;
  });
  if (!inTheWay) return wish;
  return [roundHalfAway(bodyOf(level, standing)[2] - left) + besideTicks(context), 0];
}

function paste(
  source: Level,
  walls: readonly WallId[],
  by: Point,
  { level }: Context,
): { readonly edit: Edit; readonly select: readonly Ref[] } {
  const names = freshNames(level, walls);
  const edit: PasteWalls = {
    type: 'pasteWalls',
    level: level.id,
    ...(source.id === level.id ? {} : { from: source.id }),
    walls,
    place: { by },
    ids: { walls: names },
  };
  const select = walls.map((id): Ref => ({ kind: 'wall', level: level.id, id: names[id]! }));
  return { edit, select };
}

/** New names for walls on a level. */
function freshNames(level: Level, walls: readonly WallId[]): Readonly<Record<string, WallId>> {
  const give = idGiver<WallId>('w', Object.keys(level.walls));
  return Object.fromEntries(walls.map((id) => [id, give()]));
}

function doubledThing(ref: StandingRef, { level }: Context): Copied {
  const thing = thingOf(level, ref);
  const wall = thing === undefined ? undefined : lookup(level.walls, thing.wall);
  if (thing === undefined || wall === undefined) return { why: 'What was copied is no longer there.' };
  const [from, to] = [mustLookup(level.nodes, wall.from), mustLookup(level.nodes, wall.to)];
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const gap = Math.min(thing.width, ticksFromMm(300));
  const at = [thing.at + thing.width + gap, thing.at - thing.width - gap].find(
    (each) => each >= 0 && each + thing.width <= length,
  );
  if (at === undefined) return { why: 'There is no room for a second one on this wall.' };
  const on = { level: level.id };
  if (ref.kind === 'opening') {
    const id = idGiver<OpeningId>('o', Object.keys(level.openings))();
    const record = { ...mustLookup(level.openings, ref.id), at };
    return { edit: { type: 'addOpening', ...on, opening: id, record }, select: [{ ...ref, id }] };
  }
  if (ref.kind === 'builtIn') {
    const id = idGiver<BuiltInId>('b', Object.keys(level.builtIns))();
    const record = { ...mustLookup(level.builtIns, ref.id), at };
    return { edit: { type: 'addBuiltIn', ...on, builtIn: id, record }, select: [{ ...ref, id }] };
  }
  const id = idGiver<MarkId>('k', Object.keys(level.marks))();
  const record = { ...mustLookup(level.marks, ref.id), at };
  return { edit: { type: 'addMark', ...on, mark: id, record }, select: [{ ...ref, id }] };
}

/** Turns the chosen walls a quarter to the right about their middle; of chosen ends alone the walls come along. */
export function turned(context: Context): Copied {
  const walls = chosenWalls(context);
  const nodes = walls.length > 0 ? nodesOfWalls(context.level, walls) : nodesOf(context.selection, context);
  if (nodes.length < 2) return { why: 'Choose the walls or the room to turn first.' };
  const box = boundsOfPoints(nodes.map((id) => mustLookup(context.level.nodes, id)))!;
  const about: Point = [Math.round((box[0] + box[2]) / 2), Math.round((box[1] + box[3]) / 2)];
  const level = context.level.id;
  const turn = { by: [0, 0], turnDeg: 90, about } as const;
  if (walls.length > 0) return { edit: { type: 'placeWalls', level, walls, place: turn } };
  return { edit: { type: 'moveNodes', level, nodes, ...turn } };
}

/** Swaps the chosen walls left for right where they stand, with all that is kept of them. */
export function mirroredInPlace(context: Context): Copied {
  const walls = chosenWalls(context);
  if (walls.length === 0) return { why: 'Choose the walls or the room to mirror first.' };
  const [left, , right] = boundsOf(context.level, walls);
  const about: Point = [(left + right) / 2, 0];
  const place = { by: [0, 0], mirror: true, about } as const;
  const level = context.level.id;
  // Faces and corners have other names in the mirror, and so has a room without a record: its walls are chosen then.
  const keepsName = (ref: Ref): boolean =>
    ref.kind === 'room'
      ? lookup(context.level.rooms, ref.id) !== undefined
      : ref.kind !== 'segment' && ref.kind !== 'corner' && ref.kind !== 'piece';
  const select = context.selection.every(keepsName)
    ? context.selection
    : walls.map((id): Ref => ({ kind: 'wall', level, id }));
  return { edit: { type: 'placeWalls', level, walls, place }, select };
}

function nodesOfWalls(level: Level, walls: readonly WallId[]): readonly NodeId[] {
  return [
    ...new Set(walls.flatMap((id) => [mustLookup(level.walls, id).from, mustLookup(level.walls, id).to])),
  ];
}

function boundsOf(level: Level, walls: readonly WallId[]): Bounds {
  return boundsOfPoints(nodesOfWalls(level, walls).map((id) => mustLookup(level.nodes, id)))!;
}

/** The box round walls with their thickness. */
function bodyOf(level: Level, walls: readonly WallId[]): Bounds {
  const [left, top, right, bottom] = boundsOf(level, walls);
  const half = Math.max(...walls.map((id) => mustLookup(level.walls, id).thickness)) / 2;
  return [left - half, top - half, right + half, bottom + half];
}

function middleOf([left, top, right, bottom]: Bounds): Point | null {
  const at: Point = [(left + right) / 2, (top + bottom) / 2];
  return Number.isFinite(at[0]) && Number.isFinite(at[1]) ? at : null;
}
