// A plan's levels with their long stretches joined at given places, and whether the pieces then keep the rules. Rooms that
// are joined as before stay the same objects. Ticks.

import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { type Piece, type Splits, stretchKey } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { type Holding, withHeld } from './held-joints.ts';
import type { LongStretch } from './long.ts';
import { needOf, orderOf, type TrimmedLevel } from './order.ts';
import { leastOf } from './problem.ts';
import { piecesIn, trimmedAnew } from './stretches.ts';
import type { StockOrder } from './types.ts';

/** What is laid out: the levels as they were derived with the splits given, and the stretches that may be joined anew. */
export interface Layout {
  readonly plan: Plan;
  readonly levels: readonly TrimmedLevel[];
  readonly longs: readonly LongStretch[];
  readonly given: Splits;
  readonly held: Holding['boards'];
  /** Bought in this length alone, where that is asked; ticks. */
  readonly only?: Ticks;
}

/** The levels with rooms trimmed anew in which a stretch is joined at `splits` and not as given. */
export function levelsAt({ plan, levels, longs, given }: Layout, splits: Splits): readonly TrimmedLevel[] {
  if (splits === given) return levels;
  return trimmedAnew(plan, levels, splits, (_, l, r) =>
    longs.some((long) => long.level === l && long.room === r && Object.hasOwn(splits, long.key)),
  );
}

/** The levels with the rooms of these stretches trimmed anew at `splits`; all others stay the same objects. */
export function joinedAt(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  splits: Splits,
  keys: ReadonlySet<string>,
): readonly TrimmedLevel[] {
  if (keys.size === 0) return levels;
  return trimmedAnew(plan, levels, splits, (trim) =>
    piecesIn(trim).some(({ stretch }) => keys.has(stretchKey(trim.room, stretch))),
  );
}

/** The orders of levels that were laid out, with the boards that are held of each. */
export function ordersOf(
  { plan, held, only }: Pick<Layout, 'plan' | 'held' | 'only'>,
  levels: readonly TrimmedLevel[],
): StockOrder[] {
  return orderOf(plan, levels).map((order) => {
    const own = withHeld(order, held);
    return only === undefined ? own : boughtAlone(own, only);
  });
}

/** The order with boards bought of one length alone, and as cheap by the same count; what is on hand stays. */
export function boughtAlone(order: StockOrder, only: Ticks): StockOrder {
  const by = leastOf(order);
  return { ...order, by, lengths: order.lengths.filter((each) => each.onHand || each.length === only) };
}

/** The pieces of these stretches, wherever they are joined. */
export function piecesOf(levels: readonly TrimmedLevel[], longs: readonly LongStretch[]): Piece[] {
  const keys = new Set(longs.map((long) => long.key));
  return levels
    .flatMap((level) => level.trims)
    .flatMap((trim) => piecesIn(trim).filter(({ stretch }) => keys.has(stretchKey(trim.room, stretch))));
}

/** Whether every piece of these stretches is long enough, fits a board, and is a part of one [ST12]. */
export function keepsRules(
  { plan }: Layout,
  levels: readonly TrimmedLevel[],
  longs: readonly LongStretch[],
): boolean {
  const least = settingsOf(plan).minScarfPiece;
  return longs.every((long) => {
    const pieces = piecesOf(levels, [long]);
    return (
      pieces.length > 1 &&
      pieces.every(
        (piece) =>
          Math.min(piece.back, piece.face) >= least && needOf(piece.overall + piece.spring) <= long.longest,
      )
    );
  });
}
