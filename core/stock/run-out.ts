// Where boards run out: a stretch that only a limited board would reach in one piece, and for which none is left, is
// joined so that boards without limit hold its parts. Which places suit the boards best is chosen later, as of every long
// stretch [ST12]. Ticks along the stretch from its left end.

import { lookup } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId } from '../plan/schema.ts';
import { trimRoom } from '../trim/trim-room.ts';
import { type Splits, stretchKey } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import type { TrimmedLevel } from './order.ts';
import { joinedParts, jointsOf, piecesIn, trimmedAnew } from './stretches.ts';
import type { StockPlan } from './types.ts';

/** The plan as if a profile were had only in lengths without limit; null where there are none or none would be joined. */
function withoutLimited(plan: Plan, id: ProfileId): Plan | null {
  const profile = lookup(plan.profiles, id);
  const stock = profile?.stock.filter((each) => each.onHand === undefined) ?? [];
  if (profile === undefined || profile.scarf === false || stock.length === 0) return null;
  const profiles: Record<ProfileId, Profile> = { ...plan.profiles, [id]: { ...profile, stock } };
  return { ...plan, profiles, stockOnHand: { ...plan.stockOnHand, [id]: [] } };
}

/**
 * Joints for the stretches whose pieces found no board, in more parts than now: equal ones that boards without limit hold.
 * None of those that `splits` joins already, nor of those with pieces in `kept`.
 */
export function runOutJoints(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  stock: readonly StockPlan[],
  splits: Splits,
  kept: ReadonlySet<string>,
): Splits {
  const found: Record<string, readonly Ticks[]> = {};
  for (const { order, unplaced } of stock) {
    const other = unplaced.length === 0 ? null : withoutLimited(plan, order.profileId);
    if (other === null) continue;
    const left = new Set(unplaced);
    for (const trim of levels.flatMap((level) => level.trims)) {
      const own = piecesIn(trim).filter((piece) => piece.profileId === order.profileId);
      const held = new Set(own.filter((piece) => kept.has(piece.id)).map((piece) => piece.stretch));
      const short = own.filter((piece) => left.has(piece.id) && !held.has(piece.stretch));
      if (short.length === 0) continue;
      const joined = joinedParts(piecesIn(trimRoom(other, trim.room, {})));
      const joints = new Map(
        [...joined].map(([stretch, parts]) => [stretchKey(trim.room, stretch), jointsOf(parts)]),
      );
      for (const { stretch, parts } of short) {
        const key = stretchKey(trim.room, stretch);
        const own = joints.get(key) ?? [];
        if (!Object.hasOwn(splits, key) && own.length >= parts) found[key] = own;
      }
    }
  }
  return found;
}

/** The levels with the rooms of these stretches trimmed anew at `splits`; all others stay the same objects. */
export function joinedAt(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  splits: Splits,
  keys: ReadonlySet<string>,
): readonly TrimmedLevel[] {
  return trimmedAnew(plan, levels, splits, (trim) =>
    piecesIn(trim).some(({ stretch }) => keys.has(stretchKey(trim.room, stretch))),
  );
}
