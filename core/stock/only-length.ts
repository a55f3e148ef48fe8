// One profile bought in one length alone, its long stretches joined for that length: what a table of alternatives asks of a
// plan whose walls are longer than the yard's boards. Boards on hand and boards held stay [ST11]. Ticks.

import type { Solver } from '../fit/types.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId } from '../plan/schema.ts';
import { trimRoom } from '../trim/trim-room.ts';
import type { Ticks } from '../units/ticks.ts';
import type { TrimmedLevel } from './order.ts';
import { planBoards } from './plan-boards.ts';
import type { StockBudget, StockPlan } from './types.ts';

/** The plan with stock of one profile alone, of one length without limit, and of other lengths as many as are held. */
function boughtOnly(plan: Plan, id: ProfileId, profile: Profile, only: Ticks): Plan {
  const held = (lookup(plan.heldBoards, id) ?? []).filter((board) => !board.onHand && board.length !== only);
  const stock = profile.stock.flatMap((each, at): Profile['stock'] => {
    if (each.onHand === 0) return [];
    const { onHand: _, ...endless } = each;
    if (each.length === only) return [endless];
    // The first of its length, as held boards are taken.
    if (profile.stock.findIndex((one) => one.length === each.length && one.onHand !== 0) < at) return [];
    const count = held.filter((board) => board.length === each.length).length;
    return count === 0 ? [] : [{ ...endless, onHand: count }];
  });
  const profiles = Object.fromEntries(
    sortedEntries(plan.profiles).map(([own, each]) => [own, { ...each, stock: own === id ? stock : [] }]),
  ) as Plan['profiles'];
  return { ...plan, profiles };
}

/** The boards of a profile, its stretches joined anew for boards of one length; null where nothing of it is cut. */
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
  const bought = boughtOnly(plan, id, profile, only);
  const trimmed = levels.map((level) => ({
    ...level,
    trims: level.trims.map(({ room }) => trimRoom(bought, room, {})),
  }));
  const { stock } = planBoards(bought, trimmed, {}, solver, budget);
  return stock.find(({ order }) => order.profileId === id) ?? null;
}
