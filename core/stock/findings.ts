// Pieces that no board is left for, as findings. What is longer than every board of a profile without scarfs the checks
// of the rooms have said already; nothing is said twice and nothing is left unsaid.

import { finding, mm, type Place, sayLength } from '../fit/say.ts';
import type { Finding } from '../fit/types.ts';
import type { LevelId, Plan } from '../plan/schema.ts';
import { casingPartId, type TrimmedLevel } from './order.ts';
import type { StockPlan } from './types.ts';

interface Home {
  readonly place: Place;
  /** How the checks of the rooms name it: the piece itself, or the casing whose part it is. */
  readonly said: string;
}

function homesOf(levels: readonly (TrimmedLevel & { walk: { levelId: LevelId } })[]): Map<string, Home> {
  const homes = new Map<string, Home>();
  for (const { walk, trims, casings } of levels) {
    for (const trim of trims) {
      const place = { level: walk.levelId, room: trim.room.id, at: null };
      for (const run of trim.lines.flatMap((line) => line.runs)) {
        for (const piece of [...run.pieces, ...run.returns]) homes.set(piece.id, { place, said: piece.id });
      }
    }
    for (const set of casings) {
      for (const { part } of set.parts) {
        const place = { level: walk.levelId, room: set.room, at: null };
        homes.set(casingPartId(walk.levelId, levels.length, set.id, part), { place, said: set.id });
      }
    }
  }
  return homes;
}

/** stock-none for every piece that stays unplaced and that `said` does not name yet [ST6]. */
export function stockPlanFindings(
  plan: Plan,
  levels: readonly (TrimmedLevel & { walk: { levelId: LevelId } })[],
  stock: readonly StockPlan[],
  said: readonly Finding[],
): Finding[] {
  const homes = homesOf(levels);
  const named = new Set(
    said
      .filter((each) => each.code === 'stock-none')
      .flatMap((each) => each.about.map((id) => `${each.level} ${id}`)),
  );
  return stock.flatMap(({ order, unplaced }) =>
    order.items
      .filter((item) => unplaced.includes(item.id))
      .flatMap((item) => {
        const home = homes.get(item.id);
        if (!home) throw new Error(`stock: no piece ${item.id} in the plan`);
        if (named.has(`${home.place.level} ${home.said}`)) return [];
        const longest = Math.max(0, ...order.lengths.map((each) => each.length));
        const fits = order.lengths.some((each) => item.need <= each.length - order.endTrim);
        return [
          finding('stock-none', home.place, {
            about: [item.id, order.profileId],
            figures: { needMm: mm(item.need), longestMm: mm(longest), endTrimMm: mm(order.endTrim) },
            message: `No board of ${order.profileId} is left for ${item.id}, which takes ${sayLength(plan, item.need)}${fits ? '' : `; the longest is ${sayLength(plan, longest)}`}.`,
            remedies: fits
              ? ['Get more boards of this profile.', 'Choose another profile.']
              : [
                  `Find stock of at least ${sayLength(plan, item.need + order.endTrim)}.`,
                  'Choose another profile.',
                ],
          }),
        ];
      }),
  );
}
