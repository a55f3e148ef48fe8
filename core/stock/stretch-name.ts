// What a held board calls the stretches and pieces that it knows: names that edits elsewhere leave alone, where the letters of
// boards move as soon as a stretch beside them is joined otherwise [ST13]. Knows no board and no length of one.

import type { StretchPart } from '../plan/schema.ts';
import type { Piece, RoomTrim, Stretch } from '../trim/types.ts';

/** A stretch by the number of the corner its wall starts at, its line and its stops. */
export type StretchName = Pick<StretchPart, 'corner' | 'line' | 'stretch'>;

/** Of a stretch: the corner as its boards are named after it [LN40]; one without a number is 0. */
export function stretchName({ room }: RoomTrim, { segment, line, key }: Stretch): StretchName {
  const corners = room.loops[segment.loop]!.corners;
  const left = corners[(segment.index + corners.length - 1) % corners.length]!;
  return { corner: left.number ?? 0, line, stretch: key };
}

/** Which part of its stretch a piece is; a return piece has the stretch of the board that it closes. */
export function stretchPart(trim: RoomTrim, { stretch, part, parts }: Piece): StretchPart {
  return { ...stretchName(trim, stretch), part: part + 1, parts };
}

/** The same name as text. */
export const nameKey = ({ corner, line, stretch }: StretchName): string => `${corner}|${line}|${stretch}`;

/** The same part of the same stretch, or neither of any. */
export function samePart(a: StretchPart | undefined, b: StretchPart | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return nameKey(a) === nameKey(b) && a.part === b.part && a.parts === b.parts;
}
