// Stretches of trimmed levels, as stock joins them: the parts each is made of, where its joints lie, and rooms trimmed anew
// with other joints. Ticks along a stretch from its left end.

import type { Plan } from '../plan/schema.ts';
import { trimRoom } from '../trim/trim-room.ts';
import type { Piece, RoomTrim, Splits, Stretch } from '../trim/types.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { TrimmedLevel } from './order.ts';

/** All pieces of a room, line by line, in walking order. */
export function piecesIn({ lines }: RoomTrim): Piece[] {
  return lines.flatMap((line) => line.runs).flatMap((run) => run.pieces);
}

/** The parts, left to right, of each stretch in `least` parts or more; in the order in which these come first. */
export function joinedParts(pieces: readonly Piece[], least = 2): ReadonlyMap<Stretch, readonly Piece[]> {
  const joined = new Map<Stretch, Piece[]>();
  for (const piece of pieces) {
    if (piece.parts < least) continue;
    const own = joined.get(piece.stretch);
    if (own) own.push(piece);
    else joined.set(piece.stretch, [piece]);
  }
  for (const own of joined.values()) own.sort((a, b) => a.part - b.part);
  return joined;
}

/** Where parts, left to right, are joined. */
export function jointsOf(parts: readonly Piece[]): Ticks[] {
  let along = 0;
  return parts.slice(0, -1).map((piece) => {
    along += piece.L;
    return roundHalfAway(along);
  });
}

/** The levels with some rooms trimmed anew at `splits`; all others stay the same objects. */
export function trimmedAnew(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  splits: Splits,
  isAnew: (trim: RoomTrim, level: number, room: number) => boolean,
): readonly TrimmedLevel[] {
  return levels.map((level, l) => ({
    ...level,
    trims: level.trims.map((trim, r) => (isAnew(trim, l, r) ? trimRoom(plan, trim.room, splits) : trim)),
  }));
}
