// One profile bought in one length alone, its long stretches joined for that length: what a table of alternatives asks of a
// plan whose walls are longer than the yard's boards. Boards on hand and boards held stay [ST11]. Ticks.

import type { Solver } from '../fit/types.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Piece } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { needOf, type TrimmedLevel } from './order.ts';
import { planBoards } from './plan-boards.ts';
import { piecesIn, trimmedAnew } from './stretches.ts';
import type { StockBudget, StockPlan } from './types.ts';

/**
 * The plan with stock of one profile alone, of one length without limit, and of other lengths as many as are held. Of a
 * length at several prices only the dearest is without limit, and only where none is so already.
 */
function boughtOnly(plan: Plan, id: ProfileId, profile: Profile, only: Ticks): Plan {
  const held = (lookup(plan.heldBoards, id) ?? []).filter((board) => !board.onHand && board.length !== only);
  const left = new Map(held.map(({ length }) => [length, 0]));
  for (const { length } of held) left.set(length, left.get(length)! + 1);
  const price = (each: Profile['stock'][number]): number => each.price ?? Number.POSITIVE_INFINITY;
  // Cheapest first, as held boards are taken.
  const cheapestFirst = profile.stock.toSorted((a, b) => price(a) - price(b));
  const lots = cheapestFirst.filter((each) => each.length === only && each.onHand !== 0);
  const endlessLot = lots.find(({ onHand }) => onHand === undefined) ?? lots.at(-1);
  const stock = cheapestFirst.flatMap((each): Profile['stock'] => {
    const { onHand: had = Number.POSITIVE_INFINITY, ...endless } = each;
    if (had === 0) return [];
    if (each.length === only) return [each === endlessLot ? endless : each];
    const count = Math.min(had, left.get(each.length) ?? 0);
    left.set(each.length, (left.get(each.length) ?? 0) - count);
    return count === 0 ? [] : [{ ...endless, onHand: count }];
  });
  const profiles = Object.fromEntries(
    sortedEntries(plan.profiles).map(([own, each]) => [own, { ...each, stock: own === id ? stock : [] }]),
  ) as Plan['profiles'];
  return {
    ...plan,
    profiles,
    stockOnHand: ofOne(plan.stockOnHand, id),
    heldBoards: ofOne(plan.heldBoards, id),
  };
}

function ofOne<Each>(all: Readonly<Record<ProfileId, Each>>, id: ProfileId): Record<ProfileId, Each> {
  const own = lookup(all, id);
  return own === undefined ? {} : { [id]: own };
}

/**
 * The boards of a profile, its stretches joined anew for boards of one length; null where none is joined now and all fit
 * such boards whole.
 */
export function joinedForLength(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  id: ProfileId,
  only: Ticks,
  solver: Solver,
  budget: StockBudget,
): StockPlan | null {
  const profile = lookup(plan.profiles, id);
  if (profile === undefined) return null;
  const room = only - settingsOf(plan).endTrim;
  const bought = boughtOnly(plan, id, profile, only);
  const ownIn = (all: readonly TrimmedLevel[]): Piece[] =>
    all.flatMap(({ trims }) => trims.flatMap(piecesIn)).filter((piece) => piece.profileId === id);
  const trimmed = trimmedAnew(bought, levels, {}, (trim) =>
    piecesIn(trim).some((piece) => piece.profileId === id),
  );
  const isOpen = ({ parts, overall, spring }: Piece): boolean => parts > 1 || needOf(overall + spring) > room;
  if (![...ownIn(levels), ...ownIn(trimmed)].some(isOpen)) return null;
  const { stock } = planBoards(bought, trimmed, {}, solver, budget);
  return stock.find(({ order }) => order.profileId === id) ?? null;
}
