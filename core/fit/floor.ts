// Floor readings to floor heights: along a face, in its corners, and their datum. Along in ticks from the segment's left
// corner, heights in ticks, up positive. Kept: one height for each corner, whichever of its two faces is asked.
// Knows nothing of boards.

import type { Settings } from '../plan/settings.ts';
import type { Room, Segment } from '../walk/types.ts';

export interface Reading {
  readonly at: number;
  readonly height: number;
}

/** Readings from the left; two at one place count as their mean. */
export function tidied(readings: readonly Reading[]): Reading[] {
  const at = new Map<number, number[]>();
  for (const reading of readings) at.set(reading.at, [...(at.get(reading.at) ?? []), reading.height]);
  return [...at]
    .map(([place, heights]) => ({
      at: place,
      height: heights.reduce((sum, height) => sum + height, 0) / heights.length,
    }))
    .sort((a, b) => a.at - b.at);
}

/** Linear between readings, level beyond the outermost (RULES: SC1). Requires tidied readings, at least one. */
export function heightAt(readings: readonly Reading[], at: number): number {
  const next = readings.findIndex((reading) => reading.at >= at);
  if (next === -1) return readings.at(-1)!.height;
  const b = readings[next]!;
  const a = readings[next - 1];
  if (!a) return b.height;
  return a.height + ((b.height - a.height) * (at - a.at)) / (b.at - a.at);
}

/** The readings of a segment, tidied; null where it has none. */
export function floorOf(segment: Segment): readonly Reading[] | null {
  const readings = segment.record?.floor;
  return readings && readings.length > 0 ? tidied(readings) : null;
}

/**
 * Where a face's right corner lies for what was read along it: as measured where that is farther than drawn, so that what
 * was read up to the true corner counts (RULES: SC1).
 */
export function faceEnd(segment: Segment): number {
  return Math.max(segment.drawn, segment.record?.measured ?? 0);
}

/** Integral of the height over a face of this length. */
function integral(readings: readonly Reading[], drawn: number): number {
  const inside = readings
    .filter((reading) => reading.at > 0 && reading.at < drawn)
    .map((reading) => reading.at);
  const places = [0, ...inside, drawn];
  let sum = 0;
  for (let i = 1; i < places.length; i += 1) {
    const [a, b] = [places[i - 1]!, places[i]!];
    sum += ((heightAt(readings, a) + heightAt(readings, b)) / 2) * (b - a);
  }
  return sum;
}

/**
 * What is added to every reading of the room to have it above the subfloor. Where the plan gives none, the
 * length-weighted mean of the readings is set at the new floor, and `assumed` says so; without a new floor, at 0 (RULES: SC2).
 */
export function datumOf(room: Room): {
  readonly shift: number;
  readonly assumed: readonly string[];
  readonly placed: boolean;
} {
  const given = room.record?.floorDatum;
  if (given !== undefined) return { shift: given, assumed: [], placed: true };
  let sum = 0;
  let length = 0;
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    const readings = floorOf(segment);
    if (!readings) continue;
    sum += integral(readings, faceEnd(segment));
    length += faceEnd(segment);
  }
  const mean = length > 0 ? sum / length : 0;
  const floor = room.record?.new?.floor;
  return {
    shift: (floor ?? 0) - mean,
    assumed: ['the floor datum', ...(floor === undefined ? ['the new floor height'] : [])],
    placed: floor !== undefined,
  };
}

/** The reading of a corner: the mean of what its two faces say; null where neither has readings (RULES: SC3). */
export function cornerReading(room: Room, loop: number, corner: number): number | null {
  const segments = room.loops[loop]?.segments ?? [];
  const before = segments[corner];
  const after = segments[(corner + 1) % segments.length];
  const said: number[] = [];
  const left = before && floorOf(before);
  const right = after && floorOf(after);
  if (before && left) said.push(heightAt(left, faceEnd(before)));
  if (right) said.push(heightAt(right, 0));
  return said.length > 0 ? said.reduce((sum, height) => sum + height, 0) / said.length : null;
}

/** How far the board's bottom may stand off the floor (RULES: SC5). `shoe` is the height of the shoe that covers it, if any. */
export function toleranceOf(settings: Settings, carpet: boolean, shoe: number | null): number {
  const bare = carpet ? settings.carpetTolerance : settings.scribeTolerance;
  return shoe === null ? bare : Math.max(bare, shoe - SHOE_LAP);
}

/** Shoe covers a gap up to this much under its top. 1/4 in. */
const SHOE_LAP = 2032;

/**
 * Fills unknown heights along a path: straight between known ones by length, level beyond them, round where the path is
 * closed (RULES: SC3). `places` are lengths along the path, rising; `around` is the length of a closed path, else null.
 */
export function filled(
  known: readonly (number | null)[],
  places: readonly number[],
  around: number | null,
): readonly (number | null)[] {
  const points = known
    .map((height, i) => ({ at: places[i]!, height }))
    .filter((point): point is Reading => point.height !== null);
  if (points.length === 0) return known;
  const first = points[0]!;
  const last = points.at(-1)!;
  const wrapped =
    around === null
      ? points
      : [
          { at: last.at - around, height: last.height },
          ...points,
          { at: first.at + around, height: first.height },
        ];
  return known.map((height, i) => height ?? heightAt(wrapped, places[i]!));
}
