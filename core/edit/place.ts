// Walls mirrored, turned and shifted where they stand, with all that stands on them and all that is kept of their corners,
// faces and rooms. Only walls that no other wall ends at: what hangs on them would be torn off. Ticks, x right, y down.
// Knows no mending: where placed walls meet others, that comes after (apply.ts). RULES: ED26, ED27.

import { distance, levelFaces, type Point } from '../graph/index.ts';
import { lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Level, LevelId, NodeId, Plan, RoomId, RoomRecord, Wall, WallId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { carryRooms } from './carry-rooms.ts';
import { mirroredRecords, type Net } from './mirror-records.ts';
import { type Placing, placed, roomsWithin } from './paste.ts';
import { isPlanar } from './planar.ts';
import { failure, isFailure, noWall, wholePoint } from './refuse.ts';
import { mirrorStanding, otherSide } from './standing.ts';
import { mirrored } from './turns.ts';
import type { EditFailure } from './types.ts';
import { openLevel, turnedFaces, type Working } from './working.ts';

/**
 * Places walls anew: mirrored, turned, shifted, as `place` says. Mirrored twice about one line on whole or half ticks they
 * are what they were; so they are after four quarter turns about one place on whole ticks.
 */
export interface PlaceWalls {
  readonly type: 'placeWalls';
  readonly level: LevelId;
  readonly walls: readonly WallId[];
  readonly place: Placing;
}

/** The level with the walls in their new places, opened; or why they cannot go there. RULES: ED26, ED27. */
export function placeWalls(level: Level, edit: PlaceWalls, plan: Plan): Working | EditFailure {
  const { place } = edit;
  const chosen = new Set(edit.walls);
  const fault = placingFault(level, chosen, place);
  if (fault !== null) return fault;
  const net = netOf(level, chosen);
  const nodes = placedNodes(net, place);
  if (isFailure(nodes)) return nodes;
  const rooms = placedRooms(level, chosen, plan, place);
  if (isFailure(rooms)) return rooms;
  const mirror = place.mirror === true;
  const image = mirror ? mirroredNet(net) : net;
  const { corners, faces, notes } = mirror
    ? mirroredRecords(level, net, image, settingsOf(plan))
    : { corners: level.corners, faces: level.faces, notes: [] };
  const walls = mirror ? { ...level.walls, ...image.walls } : level.walls;
  const after: Level = { ...level, nodes: { ...level.nodes, ...nodes }, walls, corners, faces };
  const working = openLevel({
    ...after,
    rooms: { ...keptRooms(level, after, chosen, plan, mirror), ...rooms },
  });
  working.notes.push(...notes);
  // Boards are named by the corner at their left: in the mirror a held board's pieces are others.
  const held = sortedEntries(plan.heldBoards).map(([profile]) => profile);
  if (mirror && held.length > 0) {
    const message = 'Boards have other names in the mirror: look at those that are held, or let them go.';
    working.notes.push({ level: level.id, at: null, about: held, message, loses: true });
  }
  for (const id of chosen) {
    if (mirror) working.standing.get(id)?.forEach(mirrorStanding);
    if (lengthIn(level, id) !== lengthIn(after, id)) working.stirred.add(id);
  }
  return working;
}

function placingFault(level: Level, chosen: ReadonlySet<WallId>, place: Placing): EditFailure | null {
  if (chosen.size === 0) return failure('no-walls', 'No wall is named.');
  const missing = [...chosen].find((id) => lookup(level.walls, id) === undefined);
  if (missing !== undefined) return noWall(missing);
  if (!Number.isFinite(place.turnDeg ?? 0))
    return failure('bad-number', `${place.turnDeg} is no angle to turn by.`);
  const { nodes } = netOf(level, chosen);
  const others = sortedEntries(level.walls)
    .filter(
      ([id, { from, to }]) => !chosen.has(id) && (Object.hasOwn(nodes, from) || Object.hasOwn(nodes, to)),
    )
    .map(([id]) => id);
  if (others.length === 0) return null;
  const named = inWords(others);
  const whose = others.length === 1 ? `Wall ${named} ends` : `Walls ${named} end`;
  return failure(
    'walls-shared',
    `${whose} at these walls and would be torn off: choose all walls that hang together, or do it on the whole level.`,
  );
}

/** `w1`, `w1 and w2`, `w1, w2 and w3`, `w1, w2, w3 and 4 more`. */
function inWords(ids: readonly WallId[]): string {
  const [some, more] = [ids.slice(0, 3), ids.length - 3];
  const last = more > 0 ? `${more} more` : some.pop();
  return some.length === 0 ? `${last}` : `${some.join(', ')} and ${last}`;
}

/** The chosen walls alone, with their nodes. */
function netOf({ nodes, walls }: Level, chosen: ReadonlySet<WallId>): Net {
  const only = sortedEntries(walls).filter(([id]) => chosen.has(id));
  const ends = only.flatMap(([, { from, to }]) => [from, to]).map((id) => [id, mustLookup(nodes, id)]);
  return { nodes: Object.fromEntries(ends), walls: Object.fromEntries(only) } as Net;
}

function placedNodes({ nodes }: Net, place: Placing): Level['nodes'] | EditFailure {
  const moved: [NodeId, Point][] = [];
  for (const [id, at] of sortedEntries(nodes)) {
    const to = wholePoint(placed(at, place));
    if (isFailure(to)) return to;
    moved.push([id, to]);
  }
  return Object.fromEntries(moved) as Level['nodes'];
}

/** As the mirror alone shows the walls, wherever it stands. */
function mirroredNet({ nodes, walls }: Net): Net {
  const turnedRound = ({ faces, ...wall }: Wall): Wall => {
    const sides = turnedFaces(faces);
    return { ...wall, ...(sides && { faces: sides }) };
  };
  return {
    nodes: Object.fromEntries(sortedEntries(nodes).map(([id, at]) => [id, mirrored(at, [0, 0])])),
    walls: Object.fromEntries(sortedEntries(walls).map(([id, wall]) => [id, turnedRound(wall)])),
  } as Net;
}

/** Records of the rooms that the chosen walls go round whole, in their new places. */
function placedRooms(
  level: Level,
  chosen: ReadonlySet<WallId>,
  plan: Plan,
  place: Placing,
): Level['rooms'] | EditFailure {
  const rooms: [RoomId, RoomRecord][] = [];
  for (const [id, record] of roomsWithin(level, chosen, plan)) {
    const at = wholePoint(placed(record.at, place));
    if (isFailure(at)) return at;
    rooms.push([id, { ...record, at: [at[0], at[1]] }]);
  }
  return Object.fromEntries(rooms) as Level['rooms'];
}

/** The other rooms' records: a column placed on a room's point moves the point, not the name. RULES: ED12. */
function keptRooms(
  level: Level,
  after: Level,
  chosen: ReadonlySet<WallId>,
  plan: Plan,
  mirror: boolean,
): Level['rooms'] {
  if (!isPlanar(after)) return level.rooms;
  const settings = settingsOf(plan);
  const sidesOf = (wall: WallId, side: 'left' | 'right') => [
    { wall, side: mirror && chosen.has(wall) ? otherSide(side) : side },
  ];
  return carryRooms(after, { sidesOf }, levelFaces(level, settings), levelFaces(after, settings));
}

function lengthIn({ nodes, walls }: Level, id: WallId): number {
  const { from, to } = mustLookup(walls, id);
  const [a, b]: readonly Point[] = [mustLookup(nodes, from), mustLookup(nodes, to)];
  return distance(a!, b!);
}
