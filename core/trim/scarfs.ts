// Where a stretch longer than the stock is joined, and which of two pieces laps the other. Ticks along the stretch
// from its left end. RULES: LN30 to LN33. Which stock is bought is not decided here.

import { lookup } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Room } from '../walk/types.ts';
import { scarfCut } from './lengths.ts';
import { LEAST_LENGTH } from './stretches.ts';
import { type Splits, type Stretch, stretchKey } from './types.ts';

/** A stretch is never cut into more than this many equal parts; stock so short for it is not stock for it. */
const MOST_PARTS = 200;

/** What boards are made from beside their corners. */
export interface Making {
  readonly plan: Plan;
  readonly room: Room;
  readonly settings: Settings;
  readonly splits: Splits;
}

/** The most that the ends of a stretch stand out past L, whatever is chosen at its corners; negative where they fall short. */
export interface Reach {
  readonly left: number;
  readonly right: number;
  /** The most that one board for all of it would have to hold, spring included. */
  readonly whole: number;
}

/** One part of a stretch. `rightLaps`: at the joint to its right, does the piece to the right lap this one. */
export interface Part {
  readonly from: number;
  readonly to: number;
  /** Null for the last part. */
  readonly rightLaps: boolean | null;
}

/** The lengths of this profile that can be had, ticks, longest first: stock not used up and boards on hand [LN30]. */
export function stockLengths(plan: Plan, id: ProfileId, profile: Profile): readonly Ticks[] {
  const bought = profile.stock.filter((each) => each.onHand !== 0).map((each) => each.length);
  const kept = (lookup(plan.stockOnHand, id) ?? [])
    .filter((each) => each.count > 0)
    .map((each) => each.length);
  return [...bought, ...kept].sort((a, b) => b - a);
}

/** The longest of these; undefined where none can be had. Makes no list: it is asked for every stretch. */
export function longestStock(plan: Plan, id: ProfileId, profile: Profile): Ticks | undefined {
  let longest: Ticks | undefined;
  const take = (length: Ticks): void => {
    if (longest === undefined || length > longest) longest = length;
  };
  if (profile.stock.length === 0) return undefined;
  for (const each of profile.stock) if (each.onHand !== 0) take(each.length);
  for (const each of lookup(plan.stockOnHand, id) ?? []) if (each.count > 0) take(each.length);
  return longest;
}

/**
 * The parts of a stretch, left to right: one where it needs no scarf, may have none, or is not to be parted [LN30–LN33].
 */
export function partsOf(
  stretch: Stretch,
  reach: Reach,
  { plan, room, settings, splits }: Making,
  unparted: boolean,
): readonly Part[] {
  const whole: Part[] = [{ from: 0, to: stretch.L, rightLaps: null }];
  if (stretch.profile.scarf === false || unparted) return whole;
  const key = stretchKey(room, stretch);
  if (Object.hasOwn(splits, key)) return withLaps(givenCuts(stretch.L, splits[key]!), stretch, room);

  const had = longestStock(plan, stretch.profileId, stretch.profile);
  if (had === undefined) return whole;
  const longest = had - settings.endTrim;
  const fits = (length: number): boolean => roundHalfAway(length) <= longest;
  if (fits(reach.whole)) return whole;
  const least = Math.max(2, Math.floor(stretch.L / Math.max(1, longest)));
  for (let count = least; count <= MOST_PARTS; count++) {
    const cuts = Array.from({ length: count + 1 }, (_, i) =>
      i === count ? stretch.L : roundHalfAway((stretch.L * i) / count),
    );
    const parts = withLaps(cuts, stretch, room);
    if (parts.every((_, i) => fits(roughOverall(parts, i, stretch, reach, settings)))) return parts;
  }
  return whole;
}

/** Joints given from outside, those that leave less than the least length on either side left out. */
function givenCuts(length: number, at: readonly Ticks[]): number[] {
  const cuts = [0];
  for (const cut of [...at].sort((a, b) => a - b)) {
    if (cut - cuts.at(-1)! >= LEAST_LENGTH && length - cut >= LEAST_LENGTH) cuts.push(cut);
  }
  cuts.push(length);
  return cuts;
}

/** Overall length of one part, its outer ends at their longest. */
function roughOverall(
  parts: readonly Part[],
  i: number,
  stretch: Stretch,
  reach: Reach,
  settings: Settings,
): number {
  const part = parts[i]!;
  const out = (lap: 'laps' | 'under'): number =>
    Math.max(0, scarfCut(stretch.profile.thickness, settings.scarfDeg, lap).backOffset);
  const left = i === 0 ? reach.left : out(parts[i - 1]!.rightLaps ? 'laps' : 'under');
  const right = i === parts.length - 1 ? reach.right : out(part.rightLaps ? 'under' : 'laps');
  return part.to - part.from + left + right;
}

/** Parts between cuts. The piece whose middle is nearer the entry laps; a tie, or no entry: the right one [LN32]. */
export function withLaps(cuts: readonly number[], stretch: Stretch, room: Room): Part[] {
  const far = cuts.slice(1).map((to, i) => fromEntry((cuts[i]! + to) / 2, stretch, room));
  return far.map((distance, i) => ({
    from: cuts[i]!,
    to: cuts[i + 1]!,
    rightLaps: i === far.length - 1 ? null : far[i + 1]! <= distance,
  }));
}

/** Distance in whole ticks from the entry's middle to a place on the stretch, as drawn; 0 without an entry. */
function fromEntry(at: number, stretch: Stretch, room: Room): number {
  if (room.entry === null) return 0;
  const { segment } = stretch;
  const along = stretch.from + (at / stretch.L) * (stretch.to - stretch.from);
  const dx = segment.start[0] + segment.along[0] * along - room.entry.middle[0];
  const dy = segment.start[1] + segment.along[1] * along - room.entry.middle[1];
  return roundHalfAway(Math.sqrt(dx * dx + dy * dy));
}
