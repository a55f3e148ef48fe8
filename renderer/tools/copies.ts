// Walls and what stands on them copied, pasted, doubled, mirrored and turned; a single thing doubled along its wall. Each
// is one edit and says what is chosen after it. Ticks, x right, y down.

import { type Edit, idGiver, type PasteWalls } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import {
  type BuiltIn,
  type BuiltInId,
  type Level,
  type LevelId,
  lookup,
  type Mark,
  type MarkId,
  mustLookup,
  type NodeId,
  type Opening,
  type OpeningId,
  type WallId,
} from '../../core/plan/index.ts';
import { roundHalfAway, ticksFromMm } from '../../core/units/index.ts';
import type { Ref } from '../state/refs.ts';
import { type Bounds, boundsOfPoints } from '../state/viewport.ts';
import type { EditOrWhy } from './delete.ts';
import { isStanding, nodesOf, type StandingRef, thingOf, wallsAt, wallsOf } from './drag.ts';
import { type Face, standingOn } from './faces.ts';
import { chosenFace } from './standing-places.ts';
import type { ToolContext } from './types.ts';

/** What was copied: walls of a level, or things with their records. */
export type Clip =
  | { readonly kind: 'walls'; readonly level: LevelId; readonly walls: readonly WallId[] }
  | { readonly kind: 'things'; readonly things: readonly CopiedThing[] };

type Thing = Opening | BuiltIn | Mark;
/** What stands on a wall, as it was when it was copied: it may be gone when it is pasted. */
interface CopiedThing {
  readonly ref: StandingRef;
  readonly record: Thing;
}

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
  const things = context.selection.flatMap((ref): CopiedThing[] => {
    const record =
      isStanding(ref) && ref.level === context.level.id ? thingOf(context.level, ref) : undefined;
    return isStanding(ref) && record !== undefined ? [{ ref, record }] : [];
  });
  return things.length === 0 ? null : { kind: 'things', things };
}

/**
 * Puts a clip at a place that was pointed out, else in the middle of what is shown, or beside its original where that is
 * shown; but never over walls that stand unless the place was pointed out.
 */
export function pasted(clip: Clip, at: Point | null, context: ToolContext): Copied {
  const { plan, level } = context;
  if (clip.kind === 'things') return placedThings(clip.things, chosenFace(context), context);
  const source = plan.levels.find(({ id }) => id === clip.level);
  const walls = clip.walls.filter((id) => lookup(source?.walls ?? {}, id) !== undefined);
  if (source === undefined || walls.length === 0)
    return { why: 'The walls that were copied are no longer there.' };
  // From another level straight above or below, where that place is free.
  if (at === null && source.id !== level.id)
    return paste(source, walls, clearOf(source, walls, [0, 0], context), context);
  const box = boundsOf(source, walls);
  const target = at ?? middleOf(context.view);
  if (target === null) return beside(walls, context);
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
  return clip.kind === 'things' ? placedThings(clip.things, null, context) : beside(clip.walls, context);
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

/**
 * Things once more, each where there is room for it: on another face that is chosen in its middle or nearest to it, else on
 * its own wall, beside itself first. One step for all; none where one finds no room.
 */
function placedThings(things: readonly CopiedThing[], chosen: Face | null, { level }: Context): Copied {
  const edits: Edit[] = [];
  const select: Ref[] = [];
  let now = level;
  for (const { ref, record } of things) {
    const other = chosen !== null && chosen.wall !== record.wall ? chosen : null;
    const wall = other?.wall ?? record.wall;
    if (lookup(level.walls, wall) === undefined)
      return { why: 'The wall that it stood on is no longer there.' };
    const side = 'side' in record ? { side: other?.side ?? record.side } : {};
    const at = freePlace(now, { ...record, wall, ...side }, other !== null);
    if (at === null) return { why: 'There is no room for another one on this wall.' };
    const made = addedThing(ref, { ...record, wall, ...side, at }, now);
    edits.push(made.edit);
    select.push(made.ref);
    now = made.level;
  }
  const [edit] = edits;
  return edit !== undefined && edits.length === 1
    ? { edit, select }
    : { edit: { type: 'several', edits, words: 'copy things on walls' }, select };
}

/** The place nearest to where a thing would be, on its wall and clear of what stands there; null where there is none. */
function freePlace(level: Level, thing: Thing, inMiddle: boolean): number | null {
  const { from, to } = mustLookup(level.walls, thing.wall);
  const [a, b] = [mustLookup(level.nodes, from), mustLookup(level.nodes, to)];
  const last = Math.floor(Math.hypot(b[0] - a[0], b[1] - a[1]) - thing.width);
  const gap = Math.min(thing.width, ticksFromMm(300));
  const wish = inMiddle ? Math.round(last / 2) : thing.at + thing.width + gap;
  const side = 'side' in thing ? thing.side : 'right';
  const spans = standingOn(level, { wall: thing.wall, side }, null);
  const free = (at: number): boolean =>
    at >= 0 && at <= last && spans.every(([low, high]) => at + thing.width <= low || at >= high);
  const places = spans.flatMap(([low, high]) => [
    high + gap,
    low - gap - thing.width,
    high,
    low - thing.width,
  ]);
  return [wish, ...places.sort((p, q) => Math.abs(p - wish) - Math.abs(q - wish))].find(free) ?? null;
}

/** The edit that adds a thing like another, with the level as it then is. */
function addedThing(
  ref: StandingRef,
  record: Thing,
  level: Level,
): { readonly edit: Edit; readonly ref: Ref; readonly level: Level } {
  const on = { level: level.id };
  const and = <K extends 'openings' | 'builtIns' | 'marks'>(map: K, id: string): Level => ({
    ...level,
    [map]: { ...level[map], [id]: record },
  });
  if (ref.kind === 'opening') {
    const id = idGiver<OpeningId>('o', Object.keys(level.openings))();
    const edit: Edit = { type: 'addOpening', ...on, opening: id, record: record as Opening };
    return { edit, ref: { ...ref, ...on, id }, level: and('openings', id) };
  }
  if (ref.kind === 'builtIn') {
    const id = idGiver<BuiltInId>('b', Object.keys(level.builtIns))();
    const edit: Edit = { type: 'addBuiltIn', ...on, builtIn: id, record: record as BuiltIn };
    return { edit, ref: { ...ref, ...on, id }, level: and('builtIns', id) };
  }
  const id = idGiver<MarkId>('k', Object.keys(level.marks))();
  const edit: Edit = { type: 'addMark', ...on, mark: id, record: record as Mark };
  return { edit, ref: { ...ref, ...on, id }, level: and('marks', id) };
}

/**
 * Turns the chosen walls to the right about their middle, a quarter where no angle is given, and moves them; of chosen ends
 * alone the walls come along.
 */
export function turned(context: Context, turnDeg = 90, by: Point = [0, 0]): Copied {
  const walls = chosenWalls(context);
  const nodes = walls.length > 0 ? nodesOfWalls(context.level, walls) : nodesOf(context.selection, context);
  if (nodes.length < 2) return { why: 'Choose the walls or the room to turn first.' };
  const box = boundsOfPoints(nodes.map((id) => mustLookup(context.level.nodes, id)))!;
  const about: Point = [Math.round((box[0] + box[2]) / 2), Math.round((box[1] + box[3]) / 2)];
  const level = context.level.id;
  const turn = { by, turnDeg, about };
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
