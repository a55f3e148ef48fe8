// Walls copied with what stands on them: beside, turned, mirrored, or on another level, and as they were when they were
// copied. Rooms that the copied walls go round whole take their record along; what was measured on the original stays
// there. Ticks, x right, y down. RULES: ED21.

import type { Point } from '../graph/index.ts';
import { levelFaces } from '../graph/index.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type {
  Level,
  LevelId,
  NodeId,
  OpeningId,
  Plan,
  RoomId,
  RoomRecord,
  Wall,
  WallId,
} from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { roomsOf } from './carry-rooms.ts';
import { idGiver } from './ids.ts';
import { renamedOn, strangeProfiles } from './profile-edits.ts';
import { failure, isFailure, newIdFault, noNode, noWall, wholePoint } from './refuse.ts';
import { mirrorStanding, moveStanding, type Standing } from './standing.ts';
import { mirrored, turned } from './turns.ts';
import type { EditFailure } from './types.ts';
import { turnedFaces, type Working } from './working.ts';

/** Mirrored left for right in the upright line through `about`, then turned about it clockwise, then shifted. */
export interface Placing {
  readonly by: Point;
  readonly turnDeg?: number;
  readonly mirror?: boolean;
  readonly about?: Point;
}

/**
 * Puts copied walls down on a level. `source`: the part of a level that they are, as `copiedPart` gives it; the plan may have
 * changed since. New names by the old ones; those not given are made.
 */
export interface PasteWalls {
  readonly type: 'pasteWalls';
  readonly level: LevelId;
  readonly source: Level;
  readonly place: Placing;
  readonly ids?: { readonly [M in PastedMap]?: Readonly<Record<string, string>> };
}

const PASTED = ['nodes', 'walls', 'openings', 'builtIns', 'marks', 'rooms'] as const;
type PastedMap = (typeof PASTED)[number];
const PREFIX: Readonly<Record<PastedMap, string>> = {
  nodes: 'n',
  walls: 'w',
  openings: 'o',
  builtIns: 'b',
  marks: 'k',
  rooms: 'r',
};

/** The part of a level that is copied with walls of it: their nodes, what stands on them, rooms that they go round whole. */
export function copiedPart(level: Level, walls: readonly WallId[], plan: Plan): Level {
  const chosen = new Set(walls);
  const own = sortedEntries(level.walls).filter(([id]) => chosen.has(id));
  const ends = new Set(own.flatMap(([, { from, to }]) => [from, to]));
  const part = <T>(entries: readonly (readonly [string, T])[]) =>
    Object.fromEntries(entries) as Readonly<Record<string, T>>;
  const on = <T extends { readonly wall: WallId }>(map: Readonly<Record<string, T>>) =>
    part(sortedEntries(map).filter(([, { wall }]) => chosen.has(wall)));
  return {
    ...level,
    nodes: part(sortedEntries(level.nodes).filter(([id]) => ends.has(id))),
    walls: part(own),
    openings: on(level.openings),
    builtIns: on(level.builtIns),
    marks: on(level.marks),
    rooms: part(roomsWithin(level, chosen, plan)),
    corners: {},
    faces: {},
  };
}

export function pasteWalls(working: Working, edit: PasteWalls, plan: Plan): EditFailure | null {
  if (!Number.isFinite(edit.place.turnDeg ?? 0))
    return failure('bad-number', `${edit.place.turnDeg} is no angle to turn by.`);
  const copy = taken(withKnownProfiles(edit.source, working, plan));
  if (isFailure(copy)) return copy;
  const names = namesOf(working, edit, copy);
  if (isFailure(names)) return names;
  const places = new Map<NodeId, Point>();
  for (const [id, at] of copy.nodes) {
    const to = wholePoint(placed(at, edit.place));
    if (isFailure(to)) return to;
    places.set(id, to);
  }
  const rooms = new Map<RoomId, RoomRecord>();
  for (const [id, record] of copy.rooms) {
    const at = wholePoint(placed(record.at, edit.place));
    if (isFailure(at)) return at;
    rooms.set(names('rooms', id) as RoomId, movedRoom(record, at, names));
  }
  putDown(working, copy, names, places, edit.place.mirror === true);
  for (const [id, record] of rooms) working.addedRooms.set(id, { record, beside: null });
  return null;
}

export function placed(at: Point, { by, turnDeg = 0, mirror = false, about = [0, 0] }: Placing): Point {
  const [x, y] = turned(mirror ? mirrored(at, about) : at, about, turnDeg);
  return [x + by[0], y + by[1]];
}

/** Where a profile is gone since its wall was copied, there is none, as after its deletion. */
function withKnownProfiles(source: Level, working: Working, plan: Plan): Level {
  let part = source;
  for (const id of strangeProfiles(source, plan)) {
    part = renamedOn(part, id, null);
    const message = `Profile ${id} is no more: what is pasted goes without it.`;
    working.notes.push({ level: working.before.id, at: null, about: [id], message, loses: 'new' });
  }
  return part;
}

interface Copy {
  readonly nodes: readonly (readonly [NodeId, Point])[];
  readonly walls: readonly (readonly [WallId, Wall])[];
  readonly standing: readonly Standing[];
  readonly rooms: readonly (readonly [RoomId, RoomRecord])[];
}

/** What is copied, in code-unit order; or why it cannot stand by itself. */
function taken({ nodes, walls, openings, builtIns, marks, rooms }: Level): Copy | EditFailure {
  const all = sortedEntries(walls);
  if (all.length === 0) return failure('no-walls', 'No wall is copied.');
  const node = all.flatMap(([, { from, to }]) => [from, to]).find((id) => lookup(nodes, id) === undefined);
  if (node !== undefined) return noNode(node);
  const standing: Standing[] = [
    ...sortedEntries(openings).map(([id, record]) => ({
      kind: 'openings' as const,
      id,
      record,
      overhangs: false,
    })),
    ...sortedEntries(builtIns).map(([id, record]) => ({
      kind: 'builtIns' as const,
      id,
      record,
      overhangs: true,
    })),
    ...sortedEntries(marks).map(([id, record]) => ({ kind: 'marks' as const, id, record, overhangs: true })),
  ];
  const wall = standing.map(({ record }) => record.wall).find((id) => lookup(walls, id) === undefined);
  if (wall !== undefined) return noWall(wall);
  return { nodes: sortedEntries(nodes), walls: all, standing, rooms: sortedEntries(rooms) };
}

/** Records of the rooms whose outer loop runs along chosen walls only. */
export function roomsWithin(source: Level, chosen: ReadonlySet<WallId>, plan: Plan): [RoomId, RoomRecord][] {
  const records = sortedEntries(source.rooms);
  if (records.length === 0) return [];
  const faces = levelFaces(source, settingsOf(plan));
  const rooms = roomsOf(faces);
  return records.filter(([, { at }]) => {
    const room = rooms.holding(at);
    const outer = room === null ? undefined : faces.loops[room];
    return outer?.segments.every(({ parts }) => parts.every(({ wall }) => chosen.has(wall))) ?? false;
  });
}

type Names = (map: PastedMap, id: string) => string;

function namesOf(working: Working, edit: PasteWalls, copy: Copy): Names | EditFailure {
  const old: Record<PastedMap, readonly string[]> = {
    nodes: copy.nodes.map(([id]) => id),
    walls: copy.walls.map(([id]) => id),
    openings: copy.standing.filter(({ kind }) => kind === 'openings').map(({ id }) => id),
    builtIns: copy.standing.filter(({ kind }) => kind === 'builtIns').map(({ id }) => id),
    marks: copy.standing.filter(({ kind }) => kind === 'marks').map(({ id }) => id),
    rooms: copy.rooms.map(([id]) => id),
  };
  const made = new Map<PastedMap, Map<string, string>>();
  for (const map of PASTED) {
    const used = new Set([...Object.keys(working.before[map]), ...usedIn(working, map)]);
    const given = old[map].flatMap((id) => lookup(edit.ids?.[map] ?? {}, id) ?? []);
    for (const [i, id] of given.entries()) {
      const fault = newIdFault(id, used.has(id) || given.indexOf(id) !== i, 'on this level');
      if (fault !== null) return fault;
    }
    const give = idGiver(PREFIX[map], [...used, ...given]);
    made.set(map, new Map(old[map].map((id) => [id, lookup(edit.ids?.[map] ?? {}, id) ?? give()])));
  }
  return (map, id) => made.get(map)!.get(id)!;
}

function usedIn(working: Working, map: PastedMap): Iterable<string> {
  if (map === 'nodes') return working.nodes.keys();
  return map === 'walls' ? working.walls.keys() : [];
}

function movedRoom(record: RoomRecord, at: Point, names: Names): RoomRecord {
  const { entry, ...rest } = record;
  const moved: RoomRecord = { ...rest, at: [at[0], at[1]] };
  const copied = entry === undefined ? undefined : names('openings', entry);
  return copied === undefined ? moved : { ...moved, entry: copied as OpeningId };
}

function putDown(
  working: Working,
  copy: Copy,
  names: Names,
  places: ReadonlyMap<NodeId, Point>,
  mirror: boolean,
): void {
  for (const [id, at] of places) working.nodes.set(names('nodes', id) as NodeId, at);
  for (const [id, wall] of copy.walls) {
    const { faces, ...rest } = wall;
    const sides = mirror ? turnedFaces(faces) : faces;
    const from = names('nodes', wall.from) as NodeId;
    const to = names('nodes', wall.to) as NodeId;
    working.walls.set(names('walls', id) as WallId, { ...rest, ...(sides && { faces: sides }), from, to });
  }
  for (const original of copy.standing) {
    const thing = { ...original, id: names(original.kind, original.id) } as Standing;
    const wall = names('walls', thing.record.wall) as WallId;
    if (mirror) mirrorStanding(thing);
    moveStanding(thing, wall, thing.record.at);
    working.standing.set(wall, [...(working.standing.get(wall) ?? []), thing]);
    working.stirred.add(wall);
  }
}
