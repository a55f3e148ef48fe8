// Corner records through a change of walls: a corner that still exists keeps its record, and with it its number, though
// its key may change. A corner is known by the end of the wall walked in on and the end of the wall walked out on.
// RULES: ED6.

import type { FaceCorner, LevelFaces } from '../graph/index.ts';
import { distance, once } from '../graph/index.ts';
import { lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { CornerKey, CornerRecord, Level, NodeId, WallId } from '../plan/schema.ts';
import type { Kin } from './kin.ts';
import { BESIDE_TICKS } from './limits.ts';
import { recordOf } from './records.ts';
import type { MendNote } from './types.ts';

const CORNER = /^([^:]+):([^>]+)>([^#]+)(?:#([01]))?$/;

/** The corners that a level has. */
export interface Corners {
  has(key: CornerKey): boolean;
  /** Those whose loop is the same object as before the change: nothing about them changed. */
  readonly same: ReadonlySet<CornerKey>;
  /** By `wallIn>wallOut`; made when it is first asked for. */
  readonly between: () => ReadonlyMap<string, readonly FaceCorner[]>;
  readonly nodes: Level['nodes'];
}

export function cornersOf(level: Level, faces: LevelFaces, before: LevelFaces | null = null): Corners {
  const loops = new Set(before?.loops);
  const others = new Set<CornerKey>();
  const same = new Set<CornerKey>();
  for (const loop of faces.loops) {
    const keys = loops.has(loop) ? same : others;
    for (const { key } of loop.corners) keys.add(key);
  }
  return {
    has: (key) => same.has(key) || others.has(key),
    same,
    between: once(() => cornersBetween(faces)),
    nodes: level.nodes,
  };
}

function cornersBetween(faces: LevelFaces): Map<string, FaceCorner[]> {
  const between = new Map<string, FaceCorner[]>();
  for (const corner of faces.loops.flatMap((loop) => loop.corners)) {
    const walls = `${corner.wallIn}>${corner.wallOut}`;
    const others = between.get(walls);
    if (others === undefined) between.set(walls, [corner]);
    else others.push(corner);
  }
  return between;
}

/** The key of an old corner among the corners there are now; null where it is no more. */
export function cornerNow(key: CornerKey, kin: Kin, now: Corners): CornerKey | null {
  if (now.same.has(key)) return key;
  const parsed = CORNER.exec(key);
  if (parsed === null) return null;
  const [, node, wallIn, wallOut, index] = parsed as unknown as [string, NodeId, WallId, WallId, string?];
  const joint = kin.jointOf(node, wallIn, wallOut);
  const here = joint === null ? [] : [joint, `${joint}#0`, `${joint}#1`];
  if (joint !== null && here.some((at) => now.has(at as CornerKey))) {
    return sameEnds(joint, index, now);
  }
  return index === undefined ? besideIt(node, wallIn, wallOut, kin, now) : null;
}

/**
 * Where a part too short to show came to lie at the corner, the corner is found by the next parts of the same two
 * walls: the only one there is within such a length of the old node.
 */
function besideIt(
  node: NodeId,
  wallIn: WallId,
  wallOut: WallId,
  kin: Kin,
  { between, nodes }: Corners,
): CornerKey | null {
  const end = kin.endOf(wallIn, node) ?? kin.endOf(wallOut, node);
  if (end === null) return null;
  const at = mustLookup(nodes, end.node);
  const ways = kin
    .sidesOf(wallIn, 'right')
    .flatMap((into) => kin.sidesOf(wallOut, 'right').map((out) => `${into.wall}>${out.wall}`));
  const near = ways
    .flatMap((walls) => between().get(walls) ?? [])
    .filter((corner) => distance(corner.nodeAt, at) <= BESIDE_TICKS);
  return near.length === 1 ? near[0]!.key : null;
}

/** Of the corners between two wall ends the one meant: the same index, else the first of two, else the only one. */
function sameEnds(ends: string, index: string | undefined, now: Pick<Corners, 'has'>): CornerKey | null {
  const wanted = index === undefined ? [ends, `${ends}#0`] : [`${ends}#${index}`, ends];
  return (wanted.find((key) => now.has(key as CornerKey)) as CornerKey | undefined) ?? null;
}

/**
 * The corner records of `level` (whose walls are changed already, its records not) under their new keys, `now` being its
 * corners. Records that fitted nothing before stay as they are. `before` is null where the old level was not planar: then what fits nothing
 * now stays too. The same object when nothing changes.
 */
export function carryCorners(
  level: Level,
  kin: Kin,
  before: LevelFaces | null,
  now: Corners,
): { readonly corners: Level['corners']; readonly notes: readonly MendNote[] } {
  const notes: MendNote[] = [];
  const fitted = before === null ? null : keysBut(before, now);
  const carried = new Map<CornerKey, CornerRecord>();
  const unused: [CornerKey, CornerRecord][] = [];
  for (const [key, record] of sortedEntries(level.corners)) {
    if (fitted !== null && !now.same.has(key) && !fitted.has(key)) {
      unused.push([key, record]);
      continue;
    }
    const to = cornerNow(key, kin, now);
    if (to !== null && !carried.has(to)) carried.set(to, record);
    else if (to === null && fitted === null) unused.push([key, record]);
    else if (record.measured !== undefined || record.lines !== undefined) {
      const name = record.number === undefined ? `Corner ${key}` : `Corner ${record.number} (${key})`;
      const message = `${name} is no more: its measured angle and chosen joints are dropped.`;
      notes.push({ level: level.id, at: null, about: [key], message, loses: true });
    }
  }
  for (const [key, record] of unused) {
    if (!carried.has(key)) carried.set(key, record);
    else
      notes.push({
        level: level.id,
        at: null,
        about: [key],
        message: `Corner ${key} is another one now: what was kept for it is dropped.`,
        loses: true,
      });
  }
  return { corners: recordOf(level.corners, carried), notes };
}

/** The keys of all corners of a level but those that stayed as they were. */
function keysBut({ loops }: LevelFaces, { same }: Corners): Set<CornerKey> {
  const changed = loops.filter(({ corners }) => !same.has(corners[0]!.key));
  return new Set(changed.flatMap(({ corners }) => corners.map(({ key }) => key)));
}

/**
 * The records of `level` where one corner became two between the same walls, or two one, with nothing else changed (as
 * when a thickness is set). Only records that fit no corner are renamed; all others stay.
 */
export function refitCorners(level: Level, faces: LevelFaces): Level['corners'] {
  const now = cornersOf(level, faces);
  const misfits = sortedEntries(level.corners).filter(([key]) => !now.has(key));
  if (misfits.length === 0) return level.corners;
  const refitted = new Map<CornerKey, CornerRecord>(sortedEntries(level.corners));
  for (const [key, record] of misfits) {
    const parsed = CORNER.exec(key);
    const to = parsed === null ? null : sameEnds(key.replace(/#[01]$/, ''), parsed[4], now);
    if (to === null || lookup(level.corners, to) !== undefined || refitted.has(to)) continue;
    refitted.delete(key);
    refitted.set(to, record);
  }
  return recordOf(level.corners, refitted);
}
