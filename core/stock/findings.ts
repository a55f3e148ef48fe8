// Pieces that no board is left for, and boards that can no longer be held, as findings. What is longer than every board of
// a profile without scarfs the checks of the rooms have said already; nothing is said twice and nothing is left unsaid.

import { finding, listed, mm, type Place, profileName, sayLength } from '../fit/say.ts';
import type { Finding } from '../fit/types.ts';
import { lookup } from '../plan/maps.ts';
import type { LevelId, Plan } from '../plan/schema.ts';
import { casingPartId, type TrimmedLevel } from './order.ts';
import type { Loosened, StockPlan } from './types.ts';

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

/** held-loose for every board that the plan holds and that can no longer be held [ST13]. It stays in the plan. */
export function heldFindings(
  plan: Plan,
  levels: readonly (TrimmedLevel & { walk: { levelId: LevelId } })[],
  loosened: readonly Loosened[],
): Finding[] {
  if (loosened.length === 0) return [];
  const homes = homesOf(levels);
  return loosened.map((loose): Finding => {
    const { board, profileId, why } = loose;
    const { length, onHand, pieces } = board;
    const home = pieces.flatMap((id) => homes.get(id) ?? [])[0];
    const profile = lookup(plan.profiles, profileId);
    const moulding = profile ? profileName(profileId, profile) : profileId;
    const which = `The ${sayLength(plan, length)} board of ${moulding}${onHand ? ' on hand' : ''} held for ${listed(pieces)}`;
    return finding('held-loose', home?.place ?? { level: null, room: null, at: null }, {
      about: [...pieces, profileId],
      figures: {
        lengthMm: mm(length),
        ...(why.is === 'too-long' ? { needMm: mm(why.takes), roomMm: mm(why.room) } : {}),
      },
      message: `${which} can no longer be held: ${looseWords(plan, loose)}.`,
      remedies: ['Let it go.', 'Hold the board that its pieces are cut from now.'],
    });
  });
}

function looseWords(plan: Plan, { board, why }: Loosened): string {
  const kind = board.onHand ? 'board on hand' : 'stock length';
  switch (why.is) {
    case 'gone':
      return `${listed(why.pieces)} ${why.pieces.length === 1 ? 'is' : 'are'} no longer cut from this moulding`;
    case 'joint':
      return 'a wall that was joined for it is no longer joined there';
    case 'no-length':
      return `there is no ${kind} of ${sayLength(plan, board.length)} any more`;
    case 'used-up':
      return `no ${kind} of ${sayLength(plan, board.length)} is left for it`;
    case 'too-long':
      return `they take ${sayLength(plan, why.takes)} now, and it has ${sayLength(plan, why.room)}`;
  }
}
