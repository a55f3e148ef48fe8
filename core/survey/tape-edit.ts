// A tape walk to walls: the closed line as an edit that draws them, with the typed figures kept as measured lengths of
// their faces. Ticks, x right, y down. RULES: SV5, ED18.

import type { AddChain } from '../edit/index.ts';
import type { Point } from '../graph/index.ts';
import type { LevelId, RoomId, RoomRecord } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { compassRule, isSquare, squareRule } from './closing.ts';
import { type TapeEntry, walkTape } from './tape-walk.ts';

export interface TapeRoom {
  readonly level: LevelId;
  /** Where the first corner goes on the sheet. */
  readonly at: Point;
  /** 0: the first wall runs to the right. */
  readonly headingDeg?: number;
  readonly thickness: number;
  readonly room?: { readonly id: RoomId; readonly record: Omit<RoomRecord, 'at'> };
}

/**
 * The edit that draws a typed room from the inside, its miss spread by the square rule where all its corners are square,
 * else by the compass rule. Requires three lengths or more; throws as `walkTape` does. RULES: SV5.
 */
export function tapeEdit(entries: readonly TapeEntry[], where: TapeRoom): AddChain {
  const { points } = walkTape(entries, where.headingDeg ?? 0);
  const square = points.length >= 5 && isSquare(points) && goesBothWays(points);
  const closed = square ? squareRule(points) : compassRule(points);
  const placed = closed.map(
    ([x, y]): Point => [roundHalfAway(where.at[0] + x), roundHalfAway(where.at[1] + y)],
  );
  return {
    type: 'addChain',
    level: where.level,
    points: placed,
    closed: true,
    along: 'inside',
    thickness: where.thickness,
    measured: entries.map(({ length }) => roundHalfAway(length)),
    ...(where.room === undefined ? {} : { room: where.room }),
  };
}

/** Whether in each direction something is walked each way: else there is nothing to spread the miss over. */
function goesBothWays(points: readonly Point[]): boolean {
  return [0, 1].every((axis) => {
    const steps = points.slice(1).map((at, i) => at[axis as 0 | 1] - points[i]![axis as 0 | 1]);
    return steps.some((step) => step > 0) && steps.some((step) => step < 0);
  });
}
