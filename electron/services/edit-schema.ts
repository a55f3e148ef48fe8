// Edits as they come from outside (the window, a journal): their shape, before core is asked to do them. Lengths in
// ticks, places [x, y]. What an edit means, and whether its figures can be, is core's to say. A record in an edit has the
// fields of the plan schema; an edit that core knows and this table does not is an error of types. RULES: SK15.

import { z } from 'zod';
import type { Edit, PatchEdit } from '../../core/edit/index.ts';
import { lookup, PlanSchema } from '../../core/plan/index.ts';
import { changesOf, inMemory } from './memory-schema.ts';

const id = z.string().max(64);
const text = z.string();
const ticks = z.number();
const place = z.tuple([ticks, ticks]);
const surface = z.enum(['drywall', 'plaster', 'masonry', 'wood']);
const side = z.enum(['left', 'right']);
const count = z.number().int().min(0);

const plan = PlanSchema.shape;
const level = plan.levels.element.shape;
const opening = level.openings.unwrap().valueType;
const builtIn = level.builtIns.unwrap().valueType;
const mark = level.marks.unwrap().valueType;
const room = level.rooms.unwrap().valueType;
const face = level.faces.unwrap().valueType;
const profile = plan.profiles.unwrap().valueType;
const heldBoard = plan.heldBoards.unwrap().valueType.element;

const lines = <S extends z.ZodType>(choice: S) => {
  const one = choice.nullable().optional();
  return z.strictObject({ base: one, shoe: one, crown: one, chairRail: one, pictureRail: one });
};

const nodeChoice = z.union([id, z.strictObject({ id, at: place, on: id.optional() })]);
const faces = z.strictObject({ left: surface.optional(), right: surface.optional() });
const wallFace = z.strictObject({ wall: id, side });

const chainWalls = {
  level: id,
  along: z.enum(['inside', 'centre', 'outside']),
  thickness: ticks,
  height: ticks.optional(),
  faces: faces.optional(),
  ids: z.strictObject({ nodes: z.array(id).optional(), walls: z.array(id).optional() }).optional(),
  room: z.strictObject({ id, record: inMemory(room.omit({ at: true })) }).optional(),
};

const placing = z.strictObject({
  by: place,
  turnDeg: z.number().optional(),
  mirror: z.boolean().optional(),
  about: place.optional(),
});

const names = z.record(z.string(), id).optional();

const patch = z.strictObject({
  type: z.literal('patch'),
  patches: z.array(
    z.strictObject({
      op: z.enum(['add', 'remove', 'replace']),
      path: z.array(z.union([z.string().max(200), count])).max(20),
      value: z.unknown().optional(),
    }),
  ),
});

type EditType = Edit['type'];
type FieldsOf<T extends EditType> = keyof Extract<Edit, { type: T }>;
type Same<A, B> = [A, B] extends [B, A] ? true : false;
/** A table in which every edit of core has exactly its fields. */
type Complete<S extends Record<EditType, z.ZodType>> = {
  [T in EditType]: Same<keyof z.output<S[T]>, FieldsOf<T>> extends true ? S[T] : never;
};
const complete = <S extends Record<EditType, z.ZodType>>(table: S & Complete<S>): S => table;

const of = <T extends EditType, S extends z.core.$ZodLooseShape>(type: T, fields: S) =>
  z.strictObject({ type: z.literal(type), ...fields });

const SHAPES = complete({
  patch,
  several: of('several', {
    edits: z.array(z.custom<Edit>((each) => readEdit(each) !== null)),
    words: text.optional(),
  }),

  addWall: of('addWall', {
    level: id,
    wall: id,
    from: nodeChoice,
    to: nodeChoice,
    thickness: ticks,
    height: ticks.optional(),
    faces: faces.optional(),
  }),
  moveNode: of('moveNode', { level: id, node: id, to: place, on: id.optional() }),
  moveWall: of('moveWall', { level: id, wall: id, by: place }),
  splitWall: of('splitWall', { level: id, wall: id, at: ticks, node: id, newWall: id }),
  joinWalls: of('joinWalls', { level: id, node: id }),
  deleteWall: of('deleteWall', {
    level: id,
    wall: id,
    also: z.array(id).optional(),
    joins: z.boolean().optional(),
  }),
  changeWalls: of('changeWalls', {
    level: id,
    walls: z.array(id),
    set: z.strictObject({
      thickness: ticks.optional(),
      height: ticks.nullable().optional(),
      faces: z
        .strictObject({ left: surface.nullable().optional(), right: surface.nullable().optional() })
        .optional(),
    }),
  }),
  moveNodes: of('moveNodes', {
    level: id,
    nodes: z.array(id),
    by: place,
    turnDeg: z.number().optional(),
    about: place.optional(),
  }),
  setClearDistance: of('setClearDistance', { level: id, stays: wallFace, moves: wallFace, distance: ticks }),
  pasteWalls: of('pasteWalls', {
    level: id,
    source: inMemory(plan.levels.element),
    place: placing,
    ids: z
      .strictObject({
        nodes: names,
        walls: names,
        openings: names,
        builtIns: names,
        marks: names,
        rooms: names,
      })
      .optional(),
  }),
  placeWalls: of('placeWalls', { level: id, walls: z.array(id), place: placing }),
  addChain: of('addChain', {
    ...chainWalls,
    points: z.array(place),
    closed: z.boolean(),
    hand: z.enum(['left', 'right']).optional(),
    measured: z.array(ticks.nullable()).optional(),
  }),
  addRoomByCorners: of('addRoomByCorners', { ...chainWalls, from: place, to: place }),

  addOpening: of('addOpening', { level: id, opening: id, record: inMemory(opening) }),
  changeOpening: of('changeOpening', { level: id, opening: id, set: changesOf(opening) }),
  deleteOpening: of('deleteOpening', { level: id, opening: id }),
  addBuiltIn: of('addBuiltIn', { level: id, builtIn: id, record: inMemory(builtIn) }),
  changeBuiltIn: of('changeBuiltIn', { level: id, builtIn: id, set: changesOf(builtIn) }),
  deleteBuiltIn: of('deleteBuiltIn', { level: id, builtIn: id }),
  addMark: of('addMark', { level: id, mark: id, record: inMemory(mark) }),
  changeMark: of('changeMark', { level: id, mark: id, set: changesOf(mark) }),
  deleteMark: of('deleteMark', { level: id, mark: id }),
  addRoom: of('addRoom', { level: id, room: id, record: inMemory(room) }),
  changeRoom: of('changeRoom', { level: id, room: id, set: changesOf(room.omit({ trim: true })) }),
  deleteRoom: of('deleteRoom', { level: id, room: id }),
  setTrim: of('setTrim', {
    level: id,
    of: z.union([z.strictObject({ room: id }), z.strictObject({ face: z.string().max(200) })]),
    lines: lines(z.strictObject({ profile: id.nullable() })),
  }),
  setCorner: of('setCorner', {
    level: id,
    corner: z.string().max(200),
    set: z.strictObject({
      measured: z.number().nullable().optional(),
      lines: lines(
        z.strictObject({
          joint: z.enum(['cope', 'mitre', 'butt', 'block']).nullable().optional(),
          coped: z.enum(['before', 'after']).nullable().optional(),
        }),
      ).optional(),
    }),
  }),
  setFace: of('setFace', {
    level: id,
    face: z.string().max(200),
    set: changesOf(face.omit({ trim: true, stretches: true })).extend({
      stretches: z.record(z.string(), ticks.nullable()).optional(),
    }),
  }),

  addLevel: of('addLevel', {
    level: id,
    record: z.strictObject({ name: text, ceilingHeight: ticks }),
    position: z.number().optional(),
  }),
  changeLevel: of('changeLevel', {
    level: id,
    set: z.strictObject({ name: text.optional(), ceilingHeight: ticks.optional() }),
  }),
  moveLevel: of('moveLevel', { level: id, position: z.number() }),
  deleteLevel: of('deleteLevel', { level: id }),
  addProfile: of('addProfile', { profile: id, record: inMemory(profile) }),
  changeProfile: of('changeProfile', { profile: id, set: changesOf(profile) }),
  renameProfile: of('renameProfile', { profile: id, to: id }),
  deleteProfile: of('deleteProfile', { profile: id, instead: id.nullable().optional() }),
  setSettings: of('setSettings', { set: changesOf(plan.settings.unwrap()) }),
  setPlan: of('setPlan', {
    set: z.strictObject({
      title: text.optional(),
      units: z.enum(['imperial', 'metric']).optional(),
      builtYear: z.number().nullable().optional(),
      studs: z.strictObject({ spacing: ticks }).nullable().optional(),
    }),
  }),
  setStockOnHand: of('setStockOnHand', {
    profile: id,
    boards: z.array(z.strictObject({ length: ticks, count: z.number() })),
  }),
  holdBoard: of('holdBoard', { profile: id, board: inMemory(heldBoard) }),
  letGoBoard: of('letGoBoard', { profile: id, piece: text }),
  letGoBoards: of('letGoBoards', { profile: id }),
});

/** Every kind of edit that is taken from outside. */
export const EDIT_TYPES = Object.keys(SHAPES) as readonly EditType[];

/** Deeper than any edit is; deeper ones would overflow the stack of whoever looks at them. */
const MOST_DEEP = 40;

/** Whether plain data is no deeper than an edit may be, and names nothing that is Object's own. Does not recurse. */
function isPlain(value: unknown): boolean {
  const waiting: [unknown, number][] = [[value, 0]];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const [now, depth] = next;
    if (typeof now !== 'object' || now === null) continue;
    if (depth === MOST_DEEP || Object.hasOwn(now, '__proto__')) return false;
    for (const inner of Object.values(now)) waiting.push([inner, depth + 1]);
  }
  return true;
}

function fits(value: unknown, shape: z.ZodType | undefined): boolean {
  return shape?.safeParse(value).success ?? false;
}

/**
 * The edit that `value` is, or null. It is handed on as it came: the window did this very edit. Ids carry no brand in
 * JSON, and an absent key reads as absent: the cast says no more than the schema checked.
 */
export function readEdit(value: unknown): Edit | null {
  if (typeof value !== 'object' || value === null || !isPlain(value)) return null;
  const { type } = value as { type?: unknown };
  const shape = typeof type === 'string' ? lookup(SHAPES as Record<string, z.ZodType>, type) : undefined;
  return fits(value, shape) ? (value as Edit) : null;
}

/** The same for an inverse, which is always patches. */
export function readPatch(value: unknown): PatchEdit | null {
  return isPlain(value) && fits(value, patch) ? (value as PatchEdit) : null;
}
