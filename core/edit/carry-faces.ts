// Face records through a change of walls. A face that is what it was keeps its record whole, under its new key. Where a
// face was divided, joined or has another end, what was typed goes to the faces it still fits: readings and studs by
// their place, stretches by what stands at their ends; a whole-face length fits no longer. Ticks along the face from its
// left corner. RULES: ED6, ED7.

import type { FaceSegment, LevelFaces, Point } from '../graph/index.ts';
import { dot, minus, once, unit } from '../graph/index.ts';
import { byCodeUnit, lookup, sortedEntries } from '../plan/maps.ts';
import type { CornerKey, FaceRecord, Level, NodeId, SegmentKey, Side, WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { type Corners, cornerNow } from './carry-corners.ts';
import {
  type Face,
  facesByKey,
  facesBySide,
  fewFirst,
  isIn,
  type Lookup,
  NO_LOOPS,
  sameFaces,
  sideName,
} from './face-lookups.ts';
import type { Kin, WallSide } from './kin.ts';
import { FARTHEST_TICKS } from './limits.ts';
import { recordOf } from './records.ts';
import type { MendNote } from './types.ts';

/** What an old record gives to one face of now. */
interface Share {
  readonly from: SegmentKey;
  readonly record: FaceRecord;
  /** Where along the face its first wall stands. */
  readonly order: number;
  readonly room: number | null;
}

/** An old face as its record knew it. Corners, start and room are unknown where the old level was not planar. */
interface OldFace {
  readonly sides: readonly WallSide[];
  readonly known: Face | null;
}

export interface Carried {
  readonly faces: Level['faces'];
  readonly notes: readonly MendNote[];
}

/**
 * The face records of `level` (its walls changed already, its records not) under their new keys. `before` is the old
 * level's faces, null where that was not planar: then a record is taken to stand for its first wall alone. Records that
 * fitted nothing before stay as they are. The same object when nothing changes.
 */
export function carryFaces(
  level: Level,
  old: Level,
  kin: Kin,
  before: LevelFaces | null,
  after: LevelFaces,
  corners: Corners,
): Carried {
  if (Object.keys(level.faces).length === 0) return { faces: level.faces, notes: [] };
  const stayed = new Set(before?.loops.filter(isIn(after)));
  const context: Context = {
    level,
    old,
    kin,
    now: fewFirst(
      () => facesByKey(after, stayed),
      () => facesByKey(after, NO_LOOPS),
    ),
    bySide: fewFirst(
      () => facesBySide(after, stayed),
      () => facesBySide(after, NO_LOOPS),
    ),
    corners,
    shares: new Map(),
    notes: [],
  };
  const then = before === null ? null : once(() => facesByKey(before, stayed));
  const same = before === null ? null : sameFaces(before, stayed);
  const unused: [SegmentKey, FaceRecord][] = [];
  for (const [key, record] of sortedEntries(level.faces)) {
    const room = same?.get(key);
    if (room !== undefined) {
      give(context, key, { from: key, record, order: 0, room: key.includes('>') ? null : room });
      continue;
    }
    const known = then?.().get(key) ?? null;
    if (then !== null && known === null) unused.push([key, record]);
    else {
      const found = key.includes('>')
        ? carryLink(key, record, context)
        : carryFace(key, record, oldFace(key, known), context);
      if (found) continue;
      if (then === null) unused.push([key, record]);
      else drop(context, key, null, 'is no more: what was kept for it is dropped');
    }
  }
  const carried = new Map<SegmentKey, FaceRecord>();
  for (const [key, shares] of [...context.shares].sort(([a], [b]) => byCodeUnit(a, b))) {
    const record = combine(key, shares, context);
    if (record !== null) carried.set(key, record);
  }
  for (const [key, record] of unused) {
    if (!carried.has(key)) carried.set(key, record);
    else drop(context, key, null, 'is another one now: what was kept for it is dropped');
  }
  return { faces: recordOf(level.faces, carried), notes: context.notes };
}

interface Context {
  readonly level: Level;
  readonly old: Level;
  readonly kin: Kin;
  readonly now: Lookup<SegmentKey, Face>;
  readonly bySide: Lookup<string, SegmentKey>;
  readonly corners: Corners;
  readonly shares: Map<SegmentKey, Share[]>;
  readonly notes: MendNote[];
}

function oldFace(key: SegmentKey, known: Face | null): OldFace {
  if (known !== null) return { sides: known.segment.parts, known };
  const [wall, side] = key.split(':') as [WallId, Side];
  return { sides: [{ wall, side }], known };
}

/** A wall end or a jog goes by the wall ends it links, as a corner does. False where it is no more. */
function carryLink(key: SegmentKey, record: FaceRecord, context: Context): boolean {
  const [node, ends] = key.split(':') as [NodeId, string];
  const [wallIn, wallOut] = ends.split('>') as [WallId, WallId];
  const to = context.kin.jointOf(node, wallIn, wallOut) as SegmentKey | null;
  if (to === null || context.now(to) === undefined) return false;
  give(context, to, { from: key, record, order: 0, room: null });
  return true;
}

/** Gives an old face's record to the faces that are left of it. False where there is none. */
function carryFace(key: SegmentKey, record: FaceRecord, old: OldFace, context: Context): boolean {
  const sides = old.sides.flatMap(({ wall, side }) => context.kin.sidesOf(wall, side));
  const keys = new Set(sides.flatMap((side) => context.bySide(sideName(side)) ?? []));
  const faces = [...keys].map((to) => context.now(to)!);
  const [first, last] = [faces[0], faces.at(-1)];
  if (first === undefined || last === undefined) return false;
  const mine = new Set(sides.map(sideName));
  const startsHere = mine.has(sideName(first.segment.parts[0]!));
  const endsHere = mine.has(sideName(last.segment.parts.at(-1)!));
  const { known } = old;
  const leftSame = known === null ? startsHere : cornerIs(known.left, first.left, context);
  const rightSame = known === null ? endsHere : cornerIs(known.right, last.right, context);
  const orderOf = (face: Face) => face.segment.parts.findIndex((part) => mine.has(sideName(part)));
  const room = known?.room ?? null;
  if (
    faces.length === 1 &&
    leftSame &&
    rightSame &&
    first.segment.parts.every((part) => mine.has(sideName(part)))
  ) {
    give(context, first.segment.key, { from: key, record, order: 0, room });
    return true;
  }
  if (record.measured !== undefined) {
    const why = 'is no longer the face that was measured: its whole length is dropped';
    drop(context, key, first.segment.start, why);
  }
  const offsets = offsetsOf(faces, firstOffset(old, first, leftSame, mine, context));
  let lost = 0;
  const shares = faces.map((face, i): FaceRecord => {
    const share: FaceRecord = {};
    const place = (at: number) => roundHalfAway(at + offsets[i]!.add);
    const here = (at: number) => holderOf(at, offsets) === i && Math.abs(place(at)) <= FARTHEST_TICKS;
    for (const kind of ['floor', 'line'] as const) {
      const readings = record[kind]?.filter((reading) => here(reading.at)) ?? [];
      if (readings.length > 0) share[kind] = readings.map(({ at, height }) => ({ at: place(at), height }));
    }
    const studs = record.studs?.filter(here) ?? [];
    if (studs.length > 0) share.studs = studs.map(place);
    if (record.trim !== undefined) share.trim = record.trim;
    const stretches = Object.entries(record.stretches ?? {}).filter(([stretch]) => {
      const [left, right] = stretch.split('..') as [string, string];
      return (
        standsOn(left, face, i === 0 && leftSame, context) &&
        standsOn(right, face, i === faces.length - 1 && rightSame, context)
      );
    });
    if (stretches.length > 0) share.stretches = Object.fromEntries(stretches);
    lost += stretches.length;
    return share;
  });
  const unfit = Object.keys(record.stretches ?? {}).length - lost;
  if (unfit > 0) {
    const what = unfit === 1 ? 'one measured stretch of it is' : `${unfit} measured stretches of it are`;
    drop(context, key, first.segment.start, `was divided or joined: ${what} no more and dropped`);
  }
  // The corner of a sliver between two walls may lie farther away than any file can say.
  const far = [...(record.floor ?? []), ...(record.line ?? [])].map((reading) => reading.at);
  const beyond = [...far, ...(record.studs ?? [])].some(
    (at) => !(Math.abs(at + offsets[holderOf(at, offsets)]!.add) <= FARTHEST_TICKS),
  );
  if (beyond) drop(context, key, null, 'has no place any more for some of its readings: they are dropped');
  faces.forEach((face, i) => {
    give(context, face.segment.key, { from: key, record: shares[i]!, order: orderOf(face), room });
  });
  return true;
}

function cornerIs(was: CornerKey, is: CornerKey, { kin, corners }: Context): boolean {
  return cornerNow(was, kin, corners) === is;
}

/** Whether the left or right end of a stretch is found on a face: a corner that stayed, an opening or a built-in. */
function standsOn(end: string, face: Face, cornerStays: boolean, { level }: Context): boolean {
  if (end === 'corner') return cornerStays;
  const opening = lookup(level.openings, end);
  const builtIn = lookup(level.builtIns, end);
  return face.segment.parts.some(
    ({ wall, side }) => opening?.wall === wall || (builtIn?.wall === wall && builtIn.side === side),
  );
}

interface Offset {
  /** Added to a place along the old face gives the place along this one. */
  readonly add: number;
  /** The place along the old face from which on this one has it. */
  readonly since: number;
}

/** From face to face along the old one: each begins where the one before ends, past whatever wall stands between. */
function offsetsOf(faces: readonly Face[], first: number): Offset[] {
  const offsets: Offset[] = [{ add: first, since: Number.NEGATIVE_INFINITY }];
  for (let i = 1; i < faces.length; i++) {
    const before = faces[i - 1]!.segment;
    const way = wayOf(before);
    const length = dot(minus(before.end, before.start), way);
    const gap = dot(minus(faces[i]!.segment.start, before.end), way);
    const add = offsets[i - 1]!.add - length - gap;
    offsets.push({ add, since: -add - gap / 2 });
  }
  return offsets;
}

/** Unit vector along a face; none for a face of no length. */
function wayOf({ start, end }: FaceSegment): Point {
  return start[0] === end[0] && start[1] === end[1] ? [0, 0] : unit(minus(end, start));
}

function holderOf(at: number, offsets: readonly Offset[]): number {
  return offsets.findLastIndex(({ since }) => at >= since);
}

/** How far along the first face of now the old face's left corner stood. */
function firstOffset(
  old: OldFace,
  first: Face,
  leftSame: boolean,
  mine: ReadonlySet<string>,
  { kin, level, old: oldLevel }: Context,
): number {
  if (leftSame) return 0;
  const part = first.segment.parts.find((candidate) => mine.has(sideName(candidate)))!;
  if (old.known === null) return part.from;
  // The old corner's node still in its place: by the sheet. Else the old face starts where its first wall does.
  const node = old.known.left.slice(0, old.known.left.indexOf(':')) as NodeId;
  const side = old.sides[0]!;
  const end = kin.endOf(side.wall, node);
  const was = lookup(oldLevel.nodes, node);
  const is = end === null ? was : lookup(level.nodes, end.node);
  if (was === undefined || is === undefined || was[0] !== is[0] || was[1] !== is[1]) return part.from;
  return dot(minus(old.known.segment.start, first.segment.start), wayOf(first.segment));
}

function give(context: Context, to: SegmentKey, share: Share): void {
  const shares = context.shares.get(to) ?? [];
  shares.push(share);
  context.shares.set(to, shares);
}

function drop({ notes, level }: Context, key: SegmentKey, at: Point | null, why: string): void {
  const place: Point | null = at === null ? null : [roundHalfAway(at[0]), roundHalfAway(at[1])];
  notes.push({ level: level.id, at: place, about: [key], message: `${faceWords(key)} ${why}.`, loses: true });
}

/** A face as the user knows it: by its wall, or by the point where a wall ends. */
function faceWords(key: SegmentKey): string {
  const [name, side] = key.split(':');
  return side === 'left' || side === 'right'
    ? `The ${side} face of wall ${name}`
    : `The wall’s end at ${name}`;
}

/**
 * One record from all that old faces gave to a face of now, in walking order. Of two that clash the first wins; heights
 * from another room stand over another datum and clash too. Null where nothing is left. RULES: ED7.
 */
function combine(to: SegmentKey, shares: readonly Share[], context: Context): FaceRecord | null {
  const [first, ...later] = [...shares].sort((a, b) => a.order - b.order || byCodeUnit(a.from, b.from));
  if (first === undefined) return null;
  if (later.length === 0) {
    const untouched = lookup(context.level.faces, first.from) === first.record;
    return untouched || Object.keys(first.record).length > 0 ? first.record : null;
  }
  const whole: FaceRecord = { ...first.record };
  let datum = hasHeights(first.record) ? first.room : null;
  for (const { from, record, room } of later) {
    let clash = false;
    if (hasHeights(record)) {
      clash = hasHeights(whole) && datum !== room;
      if (!hasHeights(whole)) datum = room;
      for (const kind of ['floor', 'line'] as const) {
        if (clash || record[kind] === undefined) continue;
        whole[kind] = [...(whole[kind] ?? []), ...record[kind]].sort((a, b) => a.at - b.at);
      }
    }
    if (record.studs !== undefined) {
      whole.studs = [...(whole.studs ?? []), ...record.studs].sort((a, b) => a - b);
    }
    if (record.stretches !== undefined) whole.stretches = { ...record.stretches, ...whole.stretches };
    if (record.trim !== undefined) {
      if (whole.trim === undefined) whole.trim = record.trim;
      else clash ||= !sameTrim(whole.trim, record.trim);
    }
    if (clash) {
      const why = `is now part of ${faceWords(to).replace('The', 'the')}, whose own record comes first: the rest is dropped`;
      drop(context, from, null, why);
    }
  }
  return Object.keys(whole).length > 0 ? whole : null;
}

function hasHeights({ floor, line }: FaceRecord): boolean {
  return (floor?.length ?? 0) + (line?.length ?? 0) > 0;
}

function sameTrim(a: NonNullable<FaceRecord['trim']>, b: NonNullable<FaceRecord['trim']>): boolean {
  const entries = (trim: typeof a) => JSON.stringify(sortedEntries(trim as Record<string, string | null>));
  return entries(a) === entries(b);
}
