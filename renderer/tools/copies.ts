// Walls and what stands on them copied, pasted, doubled, mirrored and turned; a single thing doubled along its wall. Each
// is one edit and says what is chosen after it. Ticks, x right, y down.

import { copiedPart, type Edit, idGiver } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import {
  type BuiltIn,
  type BuiltInId,
  type Level,
  lookup,
  type Mark,
  type MarkId,
  mustLookup,
  type NodeId,
  type Opening,
  type OpeningId,
  type Plan,
  type ProfileId,
  type WallId,
} from '../../core/plan/index.ts';
import { roundHalfAway, ticksFromMm } from '../../core/units/index.ts';
import type { Ref } from '../state/refs.ts';
import { type Bounds, boundsOfPoints } from '../state/viewport.ts';
import type { EditOrWhy } from './delete.ts';
import { isStanding, nodesOf, type StandingRef, thingOf, wallsAt, wallsOf } from './drag.ts';
import { type Face, faceOf, standingOn } from './faces.ts';
import { placesOn, type Span, type ThingKind } from './room-on-face.ts';
import { faceOfRef } from './standing-places.ts';
import { type Beside, besideWall, facingAsBefore } from './turn-round.ts';
import type { ToolContext } from './types.ts';

/** What was copied, as it was then: a part of a level, or things with their records. */
export type Clip =
  | { readonly kind: 'walls'; readonly part: Level }
  | { readonly kind: 'things'; readonly things: readonly CopiedThing[] };

type Thing = Opening | BuiltIn | Mark;
interface CopiedThing {
  readonly ref: StandingRef;
  readonly record: Thing;
  readonly beside: Beside;
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
  if (walls.length > 0) return { kind: 'walls', part: copiedPart(context.level, walls, context.plan) };
  const things = context.selection.flatMap((ref): CopiedThing[] => {
    const record =
      isStanding(ref) && ref.level === context.level.id ? thingOf(context.level, ref) : undefined;
    if (!isStanding(ref) || record === undefined) return [];
    return [{ ref, record, beside: besideWall(context.level, context.walk, record.wall) }];
  });
  return things.length === 0 ? null : { kind: 'things', things };
}

/**
 * Puts a clip at a place that was pointed out, else in the middle of what is shown, or beside its original where that is
 * shown; but never over walls that stand unless the place was pointed out.
 */
export function pasted(clip: Clip, at: Point | null, context: ToolContext): Copied {
  if (clip.kind === 'things') return placedThings(clip.things, chosenPlace(context), context);
  return paste(clip.part, shiftOf(clip.part, at, context), context);
}

/** How far a copy of walls goes from where they were. */
function shiftOf(part: Level, at: Point | null, context: Context): Point {
  const here = part.id === context.level.id;
  // From another level straight above or below, where that place is free.
  if (at === null && !here) return clearOf(part, NO_SHIFT, context);
  const by = shiftTo(at ?? middleOf(context.view), part);
  const same = here && Math.abs(by[0]) < 8 && Math.abs(by[1]) < 8;
  if (same && isInTheWay(part, by, context)) return asideBy(part, context);
  return at === null ? clearOf(part, by, context) : by;
}

const NO_SHIFT: Point = [0, 0];

/** So that their middle is there; nowhere else where no place is known. */
function shiftTo(target: Point | null, part: Level): Point {
  if (target === null) return NO_SHIFT;
  const [left, top, right, bottom] = boundsOf(part, wallsIn(part));
  return [roundHalfAway(target[0] - (left + right) / 2), roundHalfAway(target[1] - (top + bottom) / 2)];
}

/** The selection once more: walls beside themselves, a thing farther along its wall. */
export function doubled(context: Context): Copied {
  const clip = clipOf(context);
  if (clip === null) return { why: 'Choose walls, a room or a thing on a wall first.' };
  if (clip.kind === 'things') return placedThings(clip.things, null, context);
  const { part } = clip;
  const words = isOneRoom(part, context) ? 'duplicate room' : 'duplicate walls';
  return { ...paste(part, asideBy(part, context), context), words };
}

/** Whether walls are those round one room, and no others. */
function isOneRoom(part: Level, { level, walk }: Context): boolean {
  const round = walk.rooms.map(({ id }) => wallsOf({ kind: 'room', level: level.id, id }, { level, walk }));
  const walls = wallsIn(part);
  return round.some((each) => each.length === walls.length && each.every((id) => walls.includes(id)));
}

/** Beside themselves, clear of what stands. */
function asideBy(part: Level, context: Context): Point {
  const [left, , right] = bodyOf(part, wallsIn(part));
  return clearOf(part, [right - left + besideTicks(context), 0], context);
}

const besideTicks = ({ plan }: Context): number => roundHalfAway(ticksFromMm(BESIDE_MM[plan.units]));

/** Where copies of walls stand clear of those of the level: as far off as wished, else to the right of all of them. */
function clearOf(part: Level, wish: Point, context: Context): Point {
  if (!isInTheWay(part, wish, context)) return wish;
  const { level } = context;
  const [left] = bodyOf(part, wallsIn(part));
  return [roundHalfAway(bodyOf(level, wallsIn(level))[2] - left) + besideTicks(context), 0];
}

/** Whether copies of walls, so far off, would lie over walls of the level. */
function isInTheWay(part: Level, [x, y]: Point, { level }: Context): boolean {
  const [left, top, right, bottom] = bodyOf(part, wallsIn(part));
  return wallsIn(level).some((id) => {
    const [l, t, r, b] = bodyOf(level, [id]);
    return l < right + x && r > left + x && t < bottom + y && b > top + y;
  });
}

function paste(
  part: Level,
  by: Point,
  { level }: Context,
): { readonly edit: Edit; readonly select: readonly Ref[] } {
  const walls = freshNames(level, wallsIn(part));
  const edit: Edit = { type: 'pasteWalls', level: level.id, source: part, place: { by }, ids: { walls } };
  const select = Object.values(walls).map((id): Ref => ({ kind: 'wall', level: level.id, id }));
  return { edit, select };
}

const wallsIn = ({ walls }: Level): readonly WallId[] => Object.keys(walls) as WallId[];

/** New names for walls on a level. */
function freshNames(level: Level, walls: readonly WallId[]): Readonly<Record<string, WallId>> {
  const give = idGiver<WallId>('w', Object.keys(level.walls));
  return Object.fromEntries(walls.map((id) => [id, give()]));
}

/**
 * Things once more, each where there is room for it: on another face that is chosen in its middle or nearest to it, else on
 * its own wall, beside itself first. One step for all; none where one finds no room.
 */
function placedThings(
  things: readonly CopiedThing[],
  chosen: ChosenPlace | null,
  { level, walk, plan }: Context,
): Copied {
  const edits: Edit[] = [];
  const select: Ref[] = [];
  const gone = new Set<ProfileId>();
  let now = level;
  for (const { ref, record: copied, beside } of things) {
    // A wall of the same name on another level is another wall.
    const elsewhere = ref.level !== level.id;
    if (chosen === null && elsewhere) return { why: 'Choose the wall that it is to stand on first.' };
    const record = withKnownCasings(copied, plan, gone);
    const other = chosen !== null && (elsewhere || isOther(chosen, record)) ? chosen.face : null;
    const wall = other?.wall ?? record.wall;
    const side = 'side' in record ? { side: other?.side ?? record.side } : {};
    const face = faceOf(level, walk, wall, side.side ?? 'right');
    if (face === null) return { why: 'The wall that it stood on is no longer there.' };
    const at = freePlace(now, face, ref.kind, record, other !== null);
    if (at === null) return { why: 'There is no room for another one on this wall.' };
    const facing =
      other === null || 'side' in record
        ? record
        : facingAsBefore(record, beside, besideWall(level, walk, wall));
    const made = addedThing(ref, { ...facing, wall, ...side, at }, now);
    edits.push(made.edit);
    select.push(made.ref);
    now = made.level;
  }
  const [edit] = edits;
  const say =
    gone.size === 0 ? {} : { say: `What is pasted goes without ${[...gone].join(', ')}, which is no more.` };
  return edit !== undefined && edits.length === 1
    ? { edit, select, ...say }
    : { edit: { type: 'several', edits, words: 'copy things on walls' }, select, ...say };
}

/** The face that is chosen, and whether its side of the wall is meant. */
interface ChosenPlace {
  readonly face: Face;
  readonly sided: boolean;
}

/** Several things that are chosen are what was copied, not where it is to go. */
function chosenPlace(context: Context): ChosenPlace | null {
  const places = context.selection.flatMap((ref) => {
    const face = faceOfRef(ref, context);
    return face === null ? [] : [{ ref, face }];
  });
  const [first, ...others] = places;
  if (first === undefined || (isStanding(first.ref) && others.length > 0)) return null;
  return { face: first.face, sided: first.ref.kind === 'segment' };
}

/** Whether that is another place than where a thing stands; an opening stands on both sides of its wall. */
function isOther({ face, sided }: ChosenPlace, record: Thing): boolean {
  return face.wall !== record.wall || (sided && 'side' in record && face.side !== record.side);
}

/** Where a casing's profile is gone since an opening was copied there is none, as after its deletion; `gone` is told which. */
function withKnownCasings(record: Thing, { profiles }: Plan, gone: Set<ProfileId>): Thing {
  if (!('casing' in record) || record.casing === undefined) return record;
  const sides = Object.entries(record.casing).map(([side, id]) => {
    if (id == null || lookup(profiles, id) !== undefined) return [side, id] as const;
    gone.add(id);
    return [side, null] as const;
  });
  return { ...record, casing: Object.fromEntries(sides) };
}

/** The place nearest to where a thing would be, on a face and clear of what stands there; null where there is none. */
function freePlace(
  level: Level,
  face: Face,
  kind: ThingKind,
  { at: from, width }: Span,
  inMiddle: boolean,
): number | null {
  const [least, most] = placesOn(face, { kind, width, was: null });
  const last = Math.floor(face.length - width);
  const gap = Math.min(width, ticksFromMm(300));
  const wish = inMiddle ? Math.round(last / 2) : from + width + gap;
  const spans = standingOn(level, face, null);
  const free = (at: number): boolean =>
    at >= Math.max(0, least) &&
    at <= Math.min(last, most) &&
    spans.every(([low, high]) => at + width <= low || at >= high);
  const places = spans.flatMap(([low, high]) => [high + gap, low - gap - width, high, low - width]);
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

/** What goes by another name after its walls are mirrored. */
const RENAMED: readonly Ref['kind'][] = ['segment', 'corner', 'piece'];

/** Swaps the chosen walls left for right where they stand, with all that is kept of them. */
export function mirroredInPlace(context: Context): Copied {
  const walls = chosenWalls(context);
  if (walls.length === 0) return { why: 'Choose the walls or the room to mirror first.' };
  const [left, , right] = boundsOf(context.level, walls);
  const about: Point = [(left + right) / 2, 0];
  const place = { by: [0, 0], mirror: true, about } as const;
  const level = context.level.id;
  // Faces, corners and boards have other names in the mirror: their walls are chosen then.
  const select = context.selection.some(({ kind }) => RENAMED.includes(kind))
    ? walls.map((id): Ref => ({ kind: 'wall', level, id }))
    : context.selection;
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
