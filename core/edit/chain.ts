// Walls drawn along a line: a chain of points, or a room by two corners. The line may be the face towards the room, the
// middle of the walls, or the face away from it. An open end that lies in a wall is carried on to that wall's middle; where it
// comes past that wall's end, the wall is carried on to meet it.
// Ticks, x right, y down. RULES: ED18.

import type { Point } from '../graph/index.ts';
import { along as alongLine, cross, distance, dot, minus, signedArea, unit } from '../graph/index.ts';
import { mustLookup, sortedEntries } from '../plan/maps.ts';
import type { LevelId, NodeId, RoomId, RoomRecord, Wall, WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { centreLine, type DrawnAlong, type Hand, roomHand } from './chain-lines.ts';
import { wholeTicks } from './fields.ts';
import { idGiver } from './ids.ts';
import { joinFault, joinTo } from './join-to.ts';
import { failure, idFault, isFailure, newIdFault, wholePoint } from './refuse.ts';
import type { EditFailure } from './types.ts';
import { keepTrack, mustGet, type Working } from './working.ts';

/** What all walls of a chain are. Thickness goes to an even number of ticks. */
interface ChainWalls {
  readonly level: LevelId;
  readonly along: DrawnAlong;
  readonly thickness: number;
  readonly height?: number;
  readonly faces?: NonNullable<Wall['faces']>;
  /** Names for the new nodes and walls in their order; those not given are made. */
  readonly ids?: { readonly nodes?: readonly NodeId[]; readonly walls?: readonly WallId[] };
  /** A record for the room that the walls go round. */
  readonly room?: { readonly id: RoomId; readonly record: Omit<RoomRecord, 'at'> };
}

/** Draws walls along a line through points. Walls they cross or touch are split. */
export interface AddChain extends ChainWalls {
  readonly type: 'addChain';
  readonly points: readonly Point[];
  readonly closed: boolean;
  /** Which hand the room is on, walking the points; where not given, the side they turn to. */
  readonly hand?: Hand;
  /** Typed lengths of the drawn line's parts, kept as measured lengths of the faces. Only along the inside. */
  readonly measured?: readonly (number | null)[];
}

/** Draws four walls round the rectangle that two of its corners give. */
export interface AddRoomByCorners extends ChainWalls {
  readonly type: 'addRoomByCorners';
  readonly from: Point;
  readonly to: Point;
}

/** Two walls nearer to one direction than this (sine of the angle) do not meet: an end is not carried on between them. */
const LEAST_MEET_SINE = Math.sin((5 * Math.PI) / 180);

export function addRoomByCorners(working: Working, edit: AddRoomByCorners): EditFailure | null {
  const [from, to] = [wholePoint(edit.from), wholePoint(edit.to)];
  if (isFailure(from)) return from;
  if (isFailure(to)) return to;
  const [left, right] = [Math.min(from[0], to[0]), Math.max(from[0], to[0])];
  const [top, bottom] = [Math.min(from[1], to[1]), Math.max(from[1], to[1])];
  const least = edit.along === 'inside' ? 0 : edit.along === 'centre' ? edit.thickness : 2 * edit.thickness;
  if (!(right - left > least && bottom - top > least)) {
    return failure('no-length', 'There is no floor left between walls so close together.');
  }
  const points: Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  return addChain(working, { ...edit, type: 'addChain', points, closed: true, hand: 'right' });
}

export function addChain(working: Working, edit: AddChain): EditFailure | null {
  const { closed, along } = edit;
  const drawn: Point[] = [];
  for (const point of edit.points) {
    const at = wholePoint(point);
    if (isFailure(at)) return at;
    drawn.push(at);
  }
  if (drawn.length < (closed ? 3 : 2)) {
    return failure('no-point', closed ? 'A closed chain needs three points.' : 'A chain needs two points.');
  }
  const thickness = 2 * roundHalfAway(edit.thickness / 2);
  if (!(thickness >= 2)) return failure('bad-number', 'A wall needs a thickness of more than nothing.');
  const hand = edit.hand ?? roomHand(drawn);
  const line = centreLine(drawn, closed, thickness, along, hand);
  if (line === null) {
    return failure('no-length', 'The line turns back on itself, or two of its points are one.');
  }
  const { points, ways } = line;
  const ends: (Met | null)[] = points.map(() => null);
  const places = [...points];
  if (!closed) {
    const last = places.length - 1;
    for (const [i, way] of [
      [0, [0 - ways[0]![0], 0 - ways[0]![1]]],
      [last, ways.at(-1)!],
    ] as const) {
      const met = wallAt(working, drawn[i]!, places[i]!, way, thickness / 2);
      if (met !== null) [places[i], ends[i]] = [met.at, met];
    }
  }
  return drawWalls(working, edit, { drawn, places, ends, thickness, hand });
}

interface Drawn {
  readonly drawn: readonly Point[];
  readonly places: readonly Point[];
  /** What an open end is carried on to. */
  readonly ends: readonly (Met | null)[];
  readonly thickness: number;
  readonly hand: Hand;
}

function drawWalls(working: Working, edit: AddChain, line: Drawn): EditFailure | null {
  const places: Point[] = [];
  for (const place of line.places) {
    const at = wholePoint(place);
    if (isFailure(at)) return at;
    places.push(at);
  }
  const count = edit.closed ? places.length : places.length - 1;
  for (let i = 0; i < count; i++) {
    if (distance(places[i]!, places[(i + 1) % places.length]!) === 0)
      return failure('no-length', 'One of the walls would have no length.');
  }
  const ids = namesFor(working, edit, places, count);
  if (isFailure(ids)) return ids;
  const room = edit.room;
  if (room !== undefined) {
    const taken = Object.hasOwn(working.before.rooms, room.id);
    const fault = newIdFault(room.id, taken, 'on this level');
    if (fault !== null) return fault;
  }
  const height = edit.height === undefined ? undefined : roundHalfAway(edit.height);
  for (const [i, node] of ids.nodes.entries()) working.nodes.set(node, places[i]!);
  for (let i = 0; i < count; i++) {
    working.walls.set(ids.walls[i]!, {
      from: ids.nodes[i]!,
      to: ids.nodes[(i + 1) % places.length]!,
      thickness: line.thickness,
      ...(height === undefined ? {} : { height }),
      ...(edit.faces === undefined ? {} : { faces: edit.faces }),
    });
    const length = edit.measured?.[i];
    if (length != null && edit.along === 'inside') {
      const drawn = distance(line.drawn[i]!, line.drawn[(i + 1) % places.length]!);
      keepTrack(working, ids.walls[i]!);
      working.measured.push({ wall: ids.walls[i]!, side: line.hand, drawn, length: roundHalfAway(length) });
    }
  }
  for (const [i, met] of line.ends.entries()) {
    if (met === null) continue;
    if (met.past !== null) carryOn(working, met.wall, met.past, ids.nodes[i]!);
    else if (working.walls.has(met.wall)) joinEnd(working, ids.nodes[i]!, met.wall);
  }
  if (room !== undefined) {
    const record = { ...wholeTicks(room.record), at: middleOf(line.drawn) };
    working.addedRooms.set(room.id, { record, beside: { wall: ids.walls[0]!, side: line.hand } });
  }
  return null;
}

/** A wall's end carried on to a node in line with it. */
function carryOn(working: Working, id: WallId, end: NodeId, to: NodeId): void {
  if (end === to) return;
  const { thickness, height, faces } = working.walls.get(id) ?? mustLookup(working.before.walls, id);
  const give = idGiver<WallId>('w', [...working.walls.keys(), ...Object.keys(working.before.walls)]);
  working.walls.set(give(), {
    from: end,
    to,
    thickness,
    ...(height === undefined ? {} : { height }),
    ...(faces === undefined ? {} : { faces }),
  });
}

/** Splits the wall that an end was carried on to; where the other end split it already, the part that lies here. */
function joinEnd(working: Working, node: NodeId, wall: WallId): void {
  if (joinTo(working, node, wall) === null) return;
  const parts = [...working.walls].filter(([, { from, to }]) => from !== node && to !== node);
  const part = parts.find(([id]) => joinFault(working, node, id) === null);
  if (part !== undefined) joinTo(working, node, part[0]);
}

function namesFor(
  working: Working,
  edit: AddChain,
  places: readonly Point[],
  count: number,
): { nodes: NodeId[]; walls: WallId[] } | EditFailure {
  const given = { nodes: edit.ids?.nodes ?? [], walls: edit.ids?.walls ?? [] };
  for (const [list, taken] of [
    [given.nodes.slice(0, places.length), working.nodes],
    [given.walls.slice(0, count), working.walls],
  ] as const) {
    for (const [i, id] of list.entries()) {
      const fault = idFault(id, taken);
      if (fault !== null) return fault;
      if (list.indexOf(id as never) !== i) return failure('id-taken', `The id ${id} is given twice.`);
    }
  }
  const { before } = working;
  const usedNodes = [...working.nodes.keys(), ...Object.keys(before.nodes), ...given.nodes];
  const usedWalls = [...working.walls.keys(), ...Object.keys(before.walls), ...given.walls];
  const giveNode = idGiver<NodeId>('n', usedNodes);
  const giveWall = idGiver<WallId>('w', usedWalls);
  const there = new Map([...working.nodes].map(([id, at]) => [at.join(), id]));
  const nodes = places.map((at, i) => {
    const id = there.get(at.join()) ?? given.nodes[i] ?? giveNode();
    there.set(at.join(), id);
    return id;
  });
  return { nodes, walls: Array.from({ length: count }, (_, i) => given.walls[i] ?? giveWall()) };
}

/** Where an open end meets a wall's centre line. */
interface Met {
  readonly at: Point;
  readonly wall: WallId;
  /** The wall's end that it comes past; null where it meets the wall itself. */
  readonly past: NodeId | null;
}

/** No farther past a wall's end than this, ticks, a line is taken to end at it: what rounding leaves. */
const AT_END_TICKS = 2;

/**
 * Where a line that ends in a wall's body, faces included, meets that wall's centre line; null where it ends in none. Past the
 * wall's end it meets it as far as the two walls' bodies touch. `half`: of the line's own wall.
 */
function wallAt(working: Working, drawn: Point, at: Point, way: Point, half: number): Met | null {
  let best: (Met & { readonly off: number }) | null = null;
  for (const [id, wall] of sortedEntries(Object.fromEntries(working.walls) as Record<WallId, Wall>)) {
    const [from, to] = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)];
    const length = distance(from, to);
    if (length === 0) continue;
    const dir = unit(minus(to, from));
    const sine = cross(way, dir);
    if (Math.abs(sine) < LEAST_MEET_SINE) continue;
    const off = Math.abs(cross(dir, minus(drawn, from)));
    if (off > wall.thickness / 2 + 0.5) continue;
    const met = alongLine(at, way, cross(minus(from, at), dir) / sine);
    const place = dot(minus(met, from), dir);
    const beyond = Math.max(-place, place - length);
    if (beyond > wall.thickness / 2 + half + 0.5) continue;
    const end = beyond <= 0.5 ? null : place < 0 ? wall.from : wall.to;
    const found = {
      ...(end === null ? { at: met, wall: id, past: null } : pastEnd(working, id, end, met)),
      off,
    };
    if (best === null || isBetter(found, best)) best = found;
  }
  return best;
}

/** A line that meets a wall's centre line past its end: at that end, on a wall that goes on from there, or where it is carried on. */
function pastEnd(working: Working, id: WallId, end: NodeId, met: Point): Met {
  const at = mustGet(working.nodes, end);
  const beyond = distance(at, met);
  if (beyond <= AT_END_TICKS) return { at, wall: id, past: end };
  const way = unit(minus(met, at));
  for (const [other, { from, to }] of working.walls) {
    if (other === id || (from !== end && to !== end)) continue;
    const along = minus(mustGet(working.nodes, from === end ? to : from), at);
    const goesOn = Math.abs(cross(way, along)) <= 0.5 && dot(way, along) >= beyond;
    if (goesOn) return { at: met, wall: other, past: null };
  }
  return { at: met, wall: id, past: end };
}

/** Rather a wall that is met than one that has to be carried on, then the one whose middle the line's end is nearer to. */
function isBetter(a: Met & { readonly off: number }, b: Met & { readonly off: number }): boolean {
  return (a.past === null) === (b.past === null) ? a.off < b.off : a.past === null;
}

/** The middle by area of what the drawn line goes round, whole; of a hooked room it may lie outside. */
function middleOf(points: readonly Point[]): [number, number] {
  const origin = points[0]!;
  const area = signedArea(points);
  if (area === 0) return [origin[0], origin[1]];
  let [x, y] = [0, 0];
  for (let i = 1; i + 1 < points.length; i++) {
    const [a, b] = [minus(points[i]!, origin), minus(points[i + 1]!, origin)];
    const part = cross(a, b) / 6;
    x += (a[0] + b[0]) * part;
    y += (a[1] + b[1]) * part;
  }
  return [roundHalfAway(origin[0] + x / area), roundHalfAway(origin[1] + y / area)];
}
