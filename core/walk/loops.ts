// A face loop to a walked loop: segments with all that stands on them, and corners with their angle (RULES: WK13 to
// WK16, CN1). Ticks along each segment from its left corner, degrees through the room. Which room it is has been settled
// before (rooms.ts); trim lines are core/trim's.

import type { FaceCorner, FaceLoop, FaceSegment, LevelFaces, Point } from '../graph/index.ts';
import { distance, minus, NO_CORNER_DEG, rightOf, roomAngleDeg, unit } from '../graph/index.ts';
import { lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { CornerRecord, FaceRecord, FaceSurface, Level, Plan, Side, WallId } from '../plan/schema.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import {
  builtInsOn,
  inPlace,
  marksOn,
  type OwnBuiltIn,
  openingsOn,
  type Stand,
  type Standing,
} from './standing.ts';
import type { Corner, Loop, Segment, SegmentBuiltIn } from './types.ts';

/** A built-in this near to a corner, in ticks, stands in it (1 mm). RULES: WK15. */
const IN_CORNER = TICKS_PER_MM;
/** It stops the next wall's trim where the corner's angle lies between these, degrees. RULES: WK15. */
const REACHES_FROM_DEG = 45;
const REACHES_TO_DEG = 135;

/** What is the same for all loops of a level. */
export interface Floor {
  readonly plan: Plan;
  readonly level: Level;
  readonly faces: LevelFaces;
  readonly standing: Standing;
  readonly records: Records;
}

/** Corner and face records by key. */
export interface Records {
  readonly corners: { get(key: string): CornerRecord | undefined };
  readonly faces: { get(key: string): FaceRecord | undefined };
}

/** The corner and face records of a level. `few`: only some will be asked for, and a map of all is not worth its making. */
export function recordsOf(level: Level, few: boolean): Records {
  if (few) {
    return {
      corners: { get: (key) => lookup(level.corners, key) },
      faces: { get: (key) => lookup(level.faces, key) },
    };
  }
  // A map, since keys are made up afresh for every corner of the level.
  return { corners: new Map(sortedEntries(level.corners)), faces: new Map(sortedEntries(level.faces)) };
}

/** Walks one loop of a room. `position` is its place in the room's `loops`. */
export function walkLoop(face: FaceLoop, floor: Floor, room: string, position: number): Loop {
  const stands = face.segments.map(standOf);
  const corners = face.corners.map((corner, i) => cornerOf(corner, stands, i, floor.records));
  const builtIns = allBuiltIns(stands, corners, floor);
  const segments = face.segments.map((segment, index): Segment => {
    const stand = stands[index]!;
    return {
      key: segment.key,
      room,
      index,
      loop: position,
      parts: segment.parts,
      start: segment.start,
      end: segment.end,
      along: stand.along,
      inward: rightOf(stand.along),
      drawn: stand.drawn,
      record: floor.records.faces.get(segment.key),
      ...madeOf(segment, floor),
      openings: openingsOn(stand, floor.plan, floor.level, floor.standing),
      builtIns: builtIns[index]!,
      marks: marksOn(stand, floor.level, floor.standing),
    };
  });
  return {
    kind: face.kind === 'island' ? 'island' : 'outer',
    segments,
    corners,
    tooNarrow: face.tooNarrow,
    signedArea: face.signedArea,
  };
}

function standOf(segment: FaceSegment): Stand {
  const { start, end, parts } = segment;
  const drawn = distance(start, end);
  // Only a loop that is too narrow keeps a segment of no length: any direction serves.
  const along: Point = drawn === 0 ? [1, 0] : unit(minus(end, start));
  return { start, along, drawn, parts };
}

function cornerOf(corner: FaceCorner, stands: readonly Stand[], i: number, records: Records): Corner {
  const angleDeg = roomAngleDeg(stands[i]!.along, stands[(i + 1) % stands.length]!.along);
  const record = records.corners.get(corner.key);
  const { key, node, nodeAt, at, wallIn, wallOut } = corner;
  return {
    key,
    node,
    nodeAt,
    at,
    wallIn,
    wallOut,
    number: record?.number ?? null,
    kind: angleDeg < 180 ? 'inside' : 'outside',
    roomAngleDeg: angleDeg,
    record,
  };
}

/** Built-ins of every segment of a loop, those that reach round a corner included. RULES: WK15. */
function allBuiltIns(
  stands: readonly Stand[],
  corners: readonly Corner[],
  { level, standing }: Floor,
): SegmentBuiltIn[][] {
  const own = stands.map((stand) => builtInsOn(stand, level, standing));
  const all: SegmentBuiltIn[][] = own.map((list) => list.map(plain));
  const count = stands.length;
  const reach = (item: OwnBuiltIn, corner: Corner, neighbour: number, fromLeft: boolean) => {
    const covered = coveredRound(item, corner);
    if (covered === 0) return;
    const { drawn } = stands[neighbour]!;
    const from = fromLeft ? 0 : Math.max(0, drawn - covered);
    const to = fromLeft ? Math.min(drawn, covered) : drawn;
    if (from < to) all[neighbour]!.push({ ...plain(item), from, to, roundCorner: true });
  };
  own.forEach((list, i) => {
    const [before, after] = [(i + count - 1) % count, (i + 1) % count];
    for (const item of list) {
      if (item.holeFrom <= IN_CORNER) reach(item, corners[before]!, before, false);
      if (item.holeTo >= stands[i]!.drawn - IN_CORNER) reach(item, corners[i]!, after, true);
    }
  });
  return all.map(inPlace);
}

function plain(item: OwnBuiltIn): SegmentBuiltIn {
  const { id, from, to, bottom, top, kind, ends, roundCorner } = item;
  return { id, from, to, bottom, top, kind, ends, roundCorner };
}

/** How much of the wall round the corner a built-in covers, ticks; 0 where it does not reach. */
function coveredRound(item: OwnBuiltIn, corner: Corner): number {
  const angleDeg = corner.roomAngleDeg;
  const reaches = angleDeg >= REACHES_FROM_DEG - NO_CORNER_DEG && angleDeg <= REACHES_TO_DEG + NO_CORNER_DEG;
  return reaches ? item.depth / Math.sin((angleDeg * Math.PI) / 180) : 0;
}

/** What a segment's face is made of at both ends, and the lowest of its walls. RULES: WK13. */
function madeOf(
  segment: FaceSegment,
  floor: Floor,
): Pick<Segment, 'surfaceLeft' | 'surfaceRight' | 'wallHeight'> {
  const { level } = floor;
  const faces = segment.link === null ? facesOfParts(segment) : facesOfLink(segment.link, level);
  const heights = faces.map(({ wall }) => heightOf(level, wall)).filter((height) => height !== null);
  return {
    surfaceLeft: surfaceOf(level, faces[0]!),
    surfaceRight: surfaceOf(level, faces.at(-1)!),
    wallHeight: heights.length === 0 ? null : Math.min(...heights),
  };
}

interface WallFace {
  readonly wall: WallId;
  readonly side: Side;
}

/** The walls that really show on a segment: one whose part another wall hides altogether does not count. */
function facesOfParts(segment: FaceSegment): readonly WallFace[] {
  const showing = segment.parts.filter(({ from, to }) => from < to);
  return showing.length > 0 ? showing : segment.parts;
}

/** A wall end is its wall's; a jog is the thicker wall's, for it is that one which stands out; else both walls'. */
function facesOfLink({ into, out }: NonNullable<FaceSegment['link']>, level: Level): readonly WallFace[] {
  const thicker = mustLookup(level.walls, into.wall).thickness - mustLookup(level.walls, out.wall).thickness;
  return thicker > 0 ? [into] : thicker < 0 ? [out] : [into, out];
}

function surfaceOf(level: Level, { wall, side }: WallFace): FaceSurface {
  return mustLookup(level.walls, wall).faces?.[side] ?? 'drywall';
}

/** Null where the wall reaches the ceiling. */
function heightOf(level: Level, id: WallId): number | null {
  const { height } = mustLookup(level.walls, id);
  return height === undefined || height >= level.ceilingHeight ? null : height;
}
