// What a strip is made from, and the small questions its parts ask: which line's boards are shown, what they stand on, which
// board is worked at a corner. Ticks. Draws nothing.

import { standingHeight } from '../fit/context.ts';
import type { Scribe } from '../fit/types.ts';
import type { Report } from '../report/schema.ts';
import type { LineTrim, RoomTrim } from '../trim/types.ts';
import type { Corner } from '../walk/types.ts';

/** Half the height of the lane in which the floor's shape is drawn, on a letter sheet, points. */
export const HUMP_HIGH = 8;

export interface StripSpec {
  readonly trim: RoomTrim;
  /** Position of the loop in the room. */
  readonly loop: number;
  readonly reportRoom: Report['rooms'][number];
  readonly pieces: ReadonlyMap<string, Report['pieces'][number]>;
  readonly scribes: ReadonlyMap<string, Scribe>;
  /** Heights drawn two thirds as large as usual. */
  readonly low?: boolean;
}

/** How large a strip is drawn: all its rows share it. */
export interface StripScale {
  /** Points per tick along the wall. */
  readonly along: number;
  /** Points per tick of height. */
  readonly up: number;
  /** How many times larger than heights the floor's humps are drawn; null where there are none. */
  readonly humps: number | null;
  /** Height of the surface that is drawn as the floor, ticks above the subfloor. */
  readonly floor: number;
  /** Top of the band of wall that is shown, ticks above the subfloor. */
  readonly top: number;
}

/**
 * Positions of a loop's walls in walking order, from the wall that leaves its lowest corner number: where the strip and
 * the lists of walls begin. Corner i ends wall i.
 */
export function wallsFromLowest(corners: readonly { readonly number: number | null }[]): number[] {
  const count = corners.length;
  let lowest = 0;
  corners.forEach((corner, index) => {
    if ((corner.number ?? Infinity) < (corners[lowest]!.number ?? Infinity)) lowest = index;
  });
  return corners.map((_, step) => (lowest + 1 + step) % count);
}

/** One line of the room's trim. */
export function line(spec: StripSpec, name: 'base' | 'shoe'): LineTrim | undefined {
  return spec.trim.lines.find((each) => each.line === name);
}

/** The line whose boards are shown: base, where there is none shoe. */
export function boardLine(spec: StripSpec): LineTrim | undefined {
  const base = line(spec, 'base');
  return base && base.stretches.length > 0 ? base : line(spec, 'shoe');
}

/** Height of what the boards stand on; the subfloor where the plan does not say. */
export function stands(spec: StripSpec): number {
  return standingHeight(spec.trim.room) ?? spec.trim.room.record?.new?.floor ?? 0;
}

/** Scribes of the boards shown on this loop. */
export function scribesOf(spec: StripSpec): Scribe[] {
  const ours = (boardLine(spec)?.runs ?? [])
    .flatMap((run) => run.pieces)
    .filter((piece) => piece.stretch.segment.loop === spec.loop);
  return ours.flatMap((piece) => spec.scribes.get(piece.id) ?? []);
}

/** The board that is coped or butted at a corner: the one before it ends there, the one after it begins there. */
export function workedBoard(
  trim: LineTrim | undefined,
  corner: Corner,
  coped: 'before' | 'after',
): string | null {
  const pieces = (trim?.runs ?? []).flatMap((run) => run.pieces);
  const ends = pieces.find((piece) => {
    const end = coped === 'before' ? piece.right : piece.left;
    return 'corner' in end.at && end.at.corner.key === corner.key;
  });
  return ends?.id ?? null;
}
