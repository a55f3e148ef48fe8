// Walls copied with what stands on them: beside, turned, mirrored, or on another level. Rooms that the copied walls go
// round whole take their record along; what was measured on the original stays there. Ticks, x right, y down.
// RULES: ED21.

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
import { noLevel } from './plan-edits.ts';
import { failure, isFailure, newIdFault, noWall, wholePoint } from './refuse.ts';
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

/** Copies walls of a level (`from`, else the level pasted on). New names by the old ones; those not given are made. */
export interface PasteWalls {
  readonly type: 'pasteWalls';
  readonly level: LevelId;
  readonly from?: LevelId;
  readonly walls: readonly WallId[];
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

export function pasteWalls(working: Working, edit: PasteWalls, plan: Plan): EditFailure | null {
  const sourceId = edit.from ?? edit.level;
  const source = plan.levels.find((level) => level.id === sourceId);
  if (source === undefined) return noLevel(sourceId);
  const walls = [...new Set(edit.walls)];
  if (walls.length === 0) return failure('no-walls', 'No wall is named.');
  const missing = walls.find((id) => lookup(source.walls, id) === undefined);
  if (missing !== undefined) return noWall(missing);
  if (!Number.isFinite(edit.place.turnDeg ?? 0))
    return failure('bad-number', `${edit.place.turnDeg} is no angle to turn by.`);

  const copy = taken(source, new Set(walls), plan);
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

interface Copy {
  readonly nodes: readonly (readonly [NodeId, Point])[];
  readonly walls: readonly (readonly [WallId, Wall])[];
  readonly standing: readonly Standing[];
  readonly rooms: readonly (readonly [RoomId, RoomRecord])[];
}

/** What goes with the walls, in code-unit order. */
function taken(source: Level, chosen: ReadonlySet<WallId>, plan: Plan): Copy {
  const walls = sortedEntries(source.walls).filter(([id]) => chosen.has(id));
  const ends = new Set(walls.flatMap(([, { from, to }]) => [from, to]));
  const nodes = sortedEntries(source.nodes).filter(([id]) => ends.has(id));
  const on = <T extends { readonly wall: WallId }>([, record]: readonly [string, T]) =>
    chosen.has(record.wall);
  const standing: Standing[] = [
    ...sortedEntries(source.openings)
      .filter(on)
      .map(([id, record]) => ({ kind: 'openings' as const, id, record, overhangs: false })),
    ...sortedEntries(source.builtIns)
      .filter(on)
      .map(([id, record]) => ({ kind: 'builtIns' as const, id, record, overhangs: true })),
    ...sortedEntries(source.marks)
      .filter(on)
      .map(([id, record]) => ({ kind: 'marks' as const, id, record, overhangs: true })),
  ];
  return { nodes, walls, standing, rooms: roomsWithin(source, chosen, plan) };
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
