// Corner and face records of mirrored walls under the keys that the mirror gives them. In the mirror a loop is walked the
// other way: each wall shows its other side, what was walked in on is walked out on, left ends are right ends. Corners
// and faces are found by the wall sides beside them. Ticks along a face from its left corner. RULES: ED26.

import { distance, type FaceLoop, type FaceSegment, faceLoops } from '../graph/index.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type { CornerKey, CornerRecord, FaceRecord, Level, SegmentKey, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { sideName } from './face-lookups.ts';
import type { WallSide } from './kin.ts';
import { recordOf } from './records.ts';
import { otherSide } from './standing.ts';
import type { MendNote } from './types.ts';

/** Walls with their nodes. */
export type Net = Pick<Level, 'nodes' | 'walls'>;

export interface MirroredRecords {
  readonly corners: Level['corners'];
  readonly faces: Level['faces'];
  readonly notes: readonly MendNote[];
}

/**
 * The records of `level` once the walls of `net` are mirrored to `image`, which no other wall ends at. Records that fit
 * nothing stay as they are, but that a corner's key is mirrored with its walls.
 */
export function mirroredRecords(level: Level, net: Net, image: Net, settings: Settings): MirroredRecords {
  const [then, now] = [net, image].map((each) => faceLoops({ ...level, ...each }, settings));
  const notes: MendNote[] = [];
  const lost = (what: string, key: string) =>
    notes.push({
      level: level.id,
      at: null,
      about: [key],
      message: `${what} ${key} is no more: what was kept for it is dropped.`,
      loses: true,
    });

  const corners = new Map<CornerKey, CornerRecord>();
  const cornerTo = pairing(cornerNames(then!, IN_MIRROR), cornerNames(now!, AS_IT_IS));
  for (const [key, record] of sortedEntries(level.corners)) {
    const to = cornerTo.has(key) ? cornerTo.get(key)! : cornerKeyInMirror(key, net);
    if (to !== null && !corners.has(to)) corners.set(to, to === key ? record : mirroredCorner(record));
    else if (record.measured !== undefined || record.lines !== undefined) lost('Corner', key);
  }

  const faces = new Map<SegmentKey, FaceRecord>();
  const faceTo = pairing(faceNames(then!, IN_MIRROR), faceNames(now!, AS_IT_IS));
  const lengths = new Map(
    then!.flatMap(({ segments }) => segments.map(({ key, start, end }) => [key, distance(start, end)])),
  );
  for (const [key, record] of sortedEntries(level.faces)) {
    const to = faceTo.has(key) ? faceTo.get(key)! : key;
    const length = lengths.get(key);
    if (to === null || faces.has(to)) lost('Face', key);
    else faces.set(to, length === undefined ? record : mirroredFace(record, length));
  }
  return { corners: recordOf(level.corners, corners), faces: recordOf(level.faces, faces), notes };
}

/** By key of before: the key of what has its name now, or null where nothing has. */
function pairing<K extends string>(
  then: ReadonlyMap<K, string>,
  now: ReadonlyMap<K, string>,
): ReadonlyMap<K, K | null> {
  const named = new Map([...now].map(([key, name]) => [name, key]));
  return new Map([...then].map(([key, name]) => [key, named.get(name) ?? null]));
}

/** How a loop is read: as it is walked, or as its image in the mirror is. */
type Reading = 'as it is' | 'in the mirror';
const AS_IT_IS: Reading = 'as it is';
const IN_MIRROR: Reading = 'in the mirror';

/** Names of corners: the last wall side before and the first after, and how many wall ends or jogs stand before. */
function cornerNames(loops: readonly FaceLoop[], reading: Reading): Map<CornerKey, string> {
  const names = new Map<CornerKey, string>();
  for (const loop of loops) {
    loop.corners.forEach(({ key }, i) => {
      const name = cornerName(loop, i, reading);
      if (name !== null) names.set(key, name);
    });
  }
  return names;
}

/** Names of faces: their first wall side; of a wall end or a jog its left corner's. */
function faceNames(loops: readonly FaceLoop[], reading: Reading): Map<SegmentKey, string> {
  const names = new Map<SegmentKey, string>();
  for (const loop of loops) {
    loop.segments.forEach(({ key, parts }, i) => {
      const first = reading === AS_IT_IS ? parts[0] : parts.at(-1);
      const left = reading === AS_IT_IS ? i - 1 : i;
      const name = first === undefined ? cornerName(loop, left, reading) : sideAs(first, reading);
      if (name !== null) names.set(key, name);
    });
  }
  return names;
}

function cornerName({ segments }: FaceLoop, i: number, reading: Reading): string | null {
  const before = showing(segments, i, -1);
  const after = showing(segments, i + 1, 1);
  if (before === null || after === null) return null;
  const [into, out] = [before.segment.parts.at(-1)!, after.segment.parts[0]!];
  return reading === AS_IT_IS
    ? `${sideName(into)}>${sideName(out)} ${before.skipped}`
    : `${sideAs(out, reading)}>${sideAs(into, reading)} ${after.skipped}`;
}

/** The nearest segment from `i` on, forwards or backwards, that is a wall's face, and how many are not. */
function showing(
  segments: readonly FaceSegment[],
  i: number,
  step: 1 | -1,
): { segment: FaceSegment; skipped: number } | null {
  const count = segments.length;
  for (let skipped = 0; skipped < count; skipped++) {
    const segment = segments[(((i + step * skipped) % count) + count) % count]!;
    if (segment.parts.length > 0) return { segment, skipped };
  }
  return null;
}

function sideAs({ wall, side }: WallSide, reading: Reading): string {
  return sideName({ wall, side: reading === AS_IT_IS ? side : otherSide(side) });
}

const CORNER = /^([^:]+):([^>]+)>([^#]+?)(?:#([01]))?$/;

/** The key of a corner that is not there, as its mirrored walls would make it. */
function cornerKeyInMirror(key: CornerKey, { walls }: Net): CornerKey {
  const parsed = CORNER.exec(key);
  if (parsed === null) return key;
  const [, node, wallIn, wallOut, index] = parsed as unknown as [string, string, WallId, WallId, string?];
  if (lookup(walls, wallIn) === undefined || lookup(walls, wallOut) === undefined) return key;
  const place = index === undefined ? '' : index === '0' ? '#1' : '#0';
  return `${node}:${wallOut}>${wallIn}${place}` as CornerKey;
}

function mirroredCorner(record: CornerRecord): CornerRecord {
  if (record.lines === undefined) return record;
  const lines = sortedEntries(record.lines as Record<string, { coped?: 'before' | 'after' }>).map(
    ([line, choice]) =>
      choice.coped === undefined
        ? [line, choice]
        : [line, { ...choice, coped: choice.coped === 'before' ? 'after' : 'before' }],
  );
  return { ...record, lines: Object.fromEntries(lines) };
}

/** A face read from its other end. What was read up to a corner measured farther away than drawn counts from there. */
function mirroredFace(record: FaceRecord, drawn: number): FaceRecord {
  const length = roundHalfAway(Math.max(drawn, record.measured ?? 0));
  const far = <T extends { at: number }>(readings: readonly T[]): T[] =>
    readings.map((reading) => ({ ...reading, at: length - reading.at })).reverse();
  const { stretches, floor, line, studs } = record;
  const turned = Object.entries(stretches ?? {}).map(([key, value]) => [
    key.split('..').reverse().join('..'),
    value,
  ]);
  return {
    ...record,
    ...(stretches && { stretches: Object.fromEntries(turned) }),
    ...(floor && { floor: far(floor) }),
    ...(line && { line: far(line) }),
    ...(studs && { studs: studs.map((at) => length - at).reverse() }),
  };
}
