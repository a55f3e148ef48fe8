// Trimmed levels to one cutting order per profile: what each piece needs of a board, what its saw cuts take, which
// boards there are. Ticks; prices become hundredths. A profile with an empty stock list gives no order.

import { byCodeUnit, lookup, sortedEntries } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { CasingSet, Piece, RoomTrim } from '../trim/types.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import { stretchPart } from './stretch-name.ts';
import type { StockItem, StockLength, StockOrder } from './types.ts';

/** Less than this is rounding, ticks: sines differ in the last bit between engines. */
const DUST: Ticks = 1e-6;
/** Settings beyond this are charged as this, degrees: a cut along the board would have no end. */
const STEEPEST_DEG = 89;
const MITRE_DEG = 45;
/** Hundredths to the unit of money. */
export const HUNDREDTHS = 100;

/** What of a level is cut from stock. */
export interface TrimmedLevel {
  readonly walk: { readonly levelId: string };
  readonly trims: readonly RoomTrim[];
  readonly casings: readonly CasingSet[];
}

/** What a cut at this setting takes off the board: kerf / cos, rounded up to a tick [ST2]. */
export function kerfCharge(kerf: Ticks, sawDeg: number): Ticks {
  const cosine = Math.cos((Math.min(Math.abs(sawDeg), STEEPEST_DEG) * Math.PI) / 180);
  return Math.max(kerf, Math.ceil(kerf / cosine - DUST));
}

/** A length as it is laid on a board: the nearest tick, halves longer [ST1]. */
export function needOf(length: number): Ticks {
  return Math.max(0, Math.floor(length + 0.5 + DUST));
}

/** The id under which a part of a casing is cut. Opening ids are unique within a level only. */
export function casingPartId(level: string, levels: number, casing: string, part: string): string {
  return `${levels > 1 ? `${level}:` : ''}${casing}.${part}`;
}

function itemOf(id: string, length: number, kerf: Ticks, a: number, b: number): StockItem {
  const sawDeg = [Math.max(a, b), Math.min(a, b)] as const;
  return { id, need: needOf(length), kerf: kerfCharge(kerf, sawDeg[0]), sawDeg };
}

function pieceItem(trim: RoomTrim, piece: Piece, kerf: Ticks): StockItem {
  const item = itemOf(piece.id, piece.overall + piece.spring, kerf, piece.left.sawDeg, piece.right.sawDeg);
  return { ...item, of: stretchPart(trim, piece) };
}

/** A head and a sill are mitred at both ends; a leg at its top, and at its foot too where there is a sill [ST3]. */
function casingItems(set: CasingSet, level: string, levels: number, kerf: Ticks): StockItem[] {
  const allRound = set.parts.some((part) => part.part === 'sill');
  return set.parts
    .filter((part) => part.long > 0)
    .map((part) => {
      const foot = part.part.startsWith('leg') && !allRound ? 0 : MITRE_DEG;
      return itemOf(casingPartId(level, levels, set.id, part.part), part.long, kerf, MITRE_DEG, foot);
    });
}

function lengthsOf(plan: Plan, id: ProfileId, profile: Profile): StockLength[] {
  const bought = profile.stock.map((each) => ({
    length: each.length,
    price: each.price === undefined ? null : roundHalfAway(Number((each.price * HUNDREDTHS).toPrecision(15))),
    limit: each.onHand ?? null,
    onHand: false,
  }));
  const kept = (lookup(plan.stockOnHand, id) ?? []).map((each) => ({
    length: each.length,
    price: 0,
    limit: each.count,
    onHand: true,
  }));
  return [...kept, ...bought];
}

/** Whether two orders are of the same pieces, to the tick. */
export function sameItems(a: StockOrder, b: StockOrder): boolean {
  return (
    a.items.length === b.items.length &&
    a.items.every((item, i) => {
      const other = b.items[i]!;
      return item.id === other.id && item.need === other.need && item.kerf === other.kerf;
    })
  );
}

/** Whether a profile is reckoned: boards of it are listed or on hand [ST6]. */
export function isStocked(plan: Plan, id: ProfileId): boolean {
  const listed = lookup(plan.profiles, id)?.stock.length ?? 0;
  return listed > 0 || (lookup(plan.stockOnHand, id) ?? []).some(({ count }) => count > 0);
}

/**
 * One order for each profile that is cut and has a stock list or boards on hand, in code-unit order of the profiles [ST1–ST5]. Levels need
 * only their trims and casings; nothing is decided here.
 */
export function orderOf(plan: Plan, levels: readonly TrimmedLevel[]): StockOrder[] {
  const settings = settingsOf(plan);
  const items = new Map<string, StockItem[]>();
  const add = (profile: string, item: StockItem): void => {
    const own = items.get(profile);
    if (own) own.push(item);
    else items.set(profile, [item]);
  };
  for (const trim of levels.flatMap((level) => level.trims)) {
    for (const run of trim.lines.flatMap((line) => line.runs)) {
      for (const piece of run.pieces) {
        add(piece.profileId, pieceItem(trim, piece, settings.kerf));
        for (const back of run.returns) {
          if (back.returnOf === piece.id) add(back.profileId, pieceItem(trim, back, settings.kerf));
        }
      }
    }
  }
  for (const level of levels) {
    for (const set of level.casings) {
      for (const item of casingItems(set, level.walk.levelId, levels.length, settings.kerf)) {
        add(set.profileId, item);
      }
    }
  }
  return sortedEntries(plan.profiles)
    .filter(([id]) => isStocked(plan, id) && items.has(id))
    .sort((a, b) => byCodeUnit(a[0], b[0]))
    .map(([id, profile]) => ({
      profileId: id,
      kind: profile.kind,
      items: items.get(id)!,
      lengths: lengthsOf(plan, id, profile),
      endTrim: settings.endTrim,
      keepFrom: settings.minScarfPiece,
      sparePercent: settings.sparePercent,
    }));
}
