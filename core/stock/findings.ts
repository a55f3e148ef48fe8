// Pieces that no board is left for, and boards that can no longer be held, as findings. What is longer than every board of
// a profile without scarfs the checks of the rooms have said already; nothing is said twice and nothing is left unsaid.

import { finding, listed, mm, type Place, profileName, sayLength } from '../fit/say.ts';
import type { Finding } from '../fit/types.ts';
import { lookup } from '../plan/maps.ts';
import type { LevelId, Plan, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Piece } from '../trim/types.ts';
import { formatLength } from '../units/index.ts';
import type { Ticks } from '../units/ticks.ts';
import { casingPartId, type TrimmedLevel } from './order.ts';
import type { Loosened, OtherPiece, StockItem, StockOrder, StockPlan } from './types.ts';

interface Home {
  readonly place: Place;
  /** How the checks of the rooms name it: the piece itself, or the casing whose part it is. */
  readonly said: string;
  /** Null for a part of a casing. */
  readonly piece: Piece | null;
}

function homesOf(levels: readonly (TrimmedLevel & { walk: { levelId: LevelId } })[]): Map<string, Home> {
  const homes = new Map<string, Home>();
  for (const { walk, trims, casings } of levels) {
    for (const trim of trims) {
      const place = { level: walk.levelId, room: trim.room.id, at: null };
      for (const run of trim.lines.flatMap((line) => line.runs)) {
        for (const piece of [...run.pieces, ...run.returns])
          homes.set(piece.id, { place, said: piece.id, piece });
      }
    }
    for (const set of casings) {
      for (const { part } of set.parts) {
        const place = { level: walk.levelId, room: set.room, at: null };
        homes.set(casingPartId(walk.levelId, levels.length, set.id, part), {
          place,
          said: set.id,
          piece: null,
        });
      }
    }
  }
  return homes;
}

/**
 * stock-none for every piece that stays unplaced and that `said` does not name yet; of a profile of which nothing can be
 * bought, one for all [ST6].
 */
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
  return stock.flatMap(({ order, unplaced }) => {
    const left = order.items.flatMap((item): Left[] => {
      if (!unplaced.includes(item.id)) return [];
      const home = homes.get(item.id);
      if (!home) throw new Error(`stock: no piece ${item.id} in the plan`);
      return named.has(`${home.place.level} ${home.said}`) ? [] : [{ item, home }];
    });
    if (left.length === 0) return [];
    if (order.lengths.every(({ onHand }) => onHand)) return [onHandTooFew(plan, order, left)];
    return left.map((each) => boardMissing(plan, order, each));
  });
}

interface Left {
  readonly item: StockItem;
  readonly home: Home;
}

function boardMissing(plan: Plan, order: StockOrder, { item, home }: Left): Finding {
  const { lengths, endTrim, profileId } = order;
  const longest = Math.max(0, ...lengths.map((each) => each.length));
  const fits = lengths.some((each) => item.need <= each.length - endTrim);
  const short = tooShortJoined(plan, order, home);
  return finding('stock-none', home.place, {
    about: [item.id, profileId],
    figures: { needMm: mm(item.need), longestMm: mm(longest), endTrimMm: mm(endTrim) },
    message: [
      `No board of ${mouldingName(plan, profileId)} is left for ${item.id}, which takes ${sayLength(plan, item.need)}${fits ? '' : `; the longest is ${sayLength(plan, longest)}`}.`,
      ...(short === null
        ? []
        : [
            `Joined of the boards that can be had, it would have a part under ${sayLength(plan, short)}, the shortest part that is joined.`,
          ]),
      ...(short === null ? joinedWords(plan, order, [home]) : []),
    ].join(' '),
    remedies: [
      fits
        ? 'Get more boards of this profile.'
        : `Find stock of at least ${sayLength(plan, item.need + endTrim)}.`,
      ...(short === null ? [] : ['Set the shortest scarfed piece lower, in the settings.']),
      ...joinRemedies(plan, order, [home]),
      'Choose another profile.',
    ],
  });
}

/** The shortest part that may be joined, where a piece in one part is not joined for want of that; null where that is not why. */
function tooShortJoined(
  plan: Plan,
  { lengths, endTrim, profileId }: StockOrder,
  { piece }: Home,
): Ticks | null {
  if (piece === null || piece.parts > 1 || lookup(plan.profiles, profileId)?.scarf === false) return null;
  const { minScarfPiece } = settingsOf(plan);
  const room = Math.max(
    0,
    ...lengths.filter(({ limit }) => limit === null).map(({ length }) => length - endTrim),
  );
  if (room === 0) return null;
  const parts = Math.max(2, Math.ceil(piece.overall / room));
  return piece.L / parts < minScarfPiece ? minScarfPiece : null;
}

/** Whether one of the pieces is long enough to be joined of two parts. */
function couldBeJoined(plan: Plan, homes: readonly Home[]): boolean {
  const least = settingsOf(plan).minScarfPiece;
  return homes.some(({ piece }) => piece !== null && piece.returnOf === null && piece.stretch.L >= 2 * least);
}

/** What is known of joints, where a piece is left out that could have some. */
function joinedWords(plan: Plan, { profileId }: StockOrder, homes: readonly Home[]): string[] {
  if (!couldBeJoined(plan, homes)) return [];
  const profile = lookup(plan.profiles, profileId);
  if (profile?.scarf === false) return ['Scarfs are not allowed for it.'];
  return profile?.stock.length === 0
    ? ['Walls are joined for boards on hand alone only where these then hold everything.']
    : ['No way of joining walls was found that leaves fewer pieces out.'];
}

function joinRemedies(plan: Plan, { profileId }: StockOrder, homes: readonly Home[]): string[] {
  const refused = lookup(plan.profiles, profileId)?.scarf === false;
  return refused && couldBeJoined(plan, homes)
    ? ['Allow a scarf for this profile: walls are then joined of shorter boards.']
    : [];
}

/** So many pieces are named. */
const MOST_NAMED = 8;

/** What boards on hand do not hold of a profile of which no length can be bought. */
function onHandTooFew(plan: Plan, order: StockOrder, left: readonly Left[]): Finding {
  const { profileId, lengths, endTrim } = order;
  const homes = left.map(({ home }) => home);
  const ids = left.map(({ item }) => item.id);
  const more = ids.length - MOST_NAMED;
  const names = more > 1 ? [...ids.slice(0, MOST_NAMED), `${more} more pieces`] : ids;
  return finding('stock-none', left[0]!.home.place, {
    about: [...ids, profileId],
    figures: {
      needMm: mm(Math.max(...left.map(({ item }) => item.need))),
      longestMm: mm(Math.max(...lengths.map((each) => each.length))),
      endTrimMm: mm(endTrim),
    },
    message: [
      `The boards on hand of ${mouldingName(plan, profileId)} do not hold ${listed(names)}, and no length of it is listed to be bought.`,
      ...joinedWords(plan, order, homes),
    ].join(' '),
    remedies: [
      'List the stock lengths that can be bought.',
      ...joinRemedies(plan, order, homes),
      'Choose another profile.',
    ],
  });
}

function mouldingName(plan: Plan, id: ProfileId): string {
  const profile = lookup(plan.profiles, id);
  return profile ? profileName(id, profile) : id;
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
    const which = `The ${sayLength(plan, length)} board of ${mouldingName(plan, profileId)}${onHand ? ' on hand' : ''} held for ${listed(pieces)}`;
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
    case 'other':
      return why.pieces.map(otherWords).join('; ');
    case 'changed': {
      const said = why.pieces.map(
        ({ piece, was, now }) =>
          `${piece} takes ${sayFinely(plan, now)} and took ${sayFinely(plan, was)} when it was held`,
      );
      return said.join('; ');
    }
    case 'joint':
      return 'a wall that was joined for it is no longer joined there';
    case 'no-stock':
      return 'no stock lengths are listed for this moulding any more, and none of it is on hand';
    case 'no-length':
      return `there is no ${kind} of ${sayLength(plan, board.length)} any more`;
    case 'used-up':
      return `no ${kind} of ${sayLength(plan, board.length)} is left for it`;
    case 'too-long':
      return `${board.pieces.length === 1 ? 'it takes' : 'they take'} ${sayLength(plan, why.takes)} now, and the board has ${sayLength(plan, why.room)}`;
  }
}

/** To 1/64 in or 0.1 mm: lengths that differ must not read the same. */
function sayFinely({ units }: Plan, ticks: Ticks): string {
  return formatLength(ticks, { units, roundIn: 64, roundMm: 0.1 });
}

function otherWords({ piece, now, parts }: OtherPiece): string {
  if (now !== null) return `${piece} is another piece now, and what was ${piece} is ${now}`;
  if (parts === null) return `${piece} is another piece now`;
  const [to, from] = [parts.now, parts.was].map((count) => (count === 1 ? 'one piece' : `${count} parts`));
  return `what ${piece} was cut for is in ${to} now and was in ${from}`;
}
