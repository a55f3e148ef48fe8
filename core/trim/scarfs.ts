// Where a stretch longer than the stock is joined, and which of two pieces laps the other. Ticks along the stretch
// from its left end. RULES: LN30 to LN33. Which stock is bought is not decided here.

import type { Settings } from '../plan/settings.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Room } from '../walk/types.ts';
import { scarfCut } from './lengths.ts';
import { LEAST_LENGTH } from './stretches.ts';
import { type Splits, type Stretch, splitKey } from './types.ts';

/** A stretch is never cut into more than this many equal parts; stock so short for it is not stock for it. */
const MOST_PARTS = 200;

/** The most that the ends of a stretch can stand out past L, whatever is chosen at its corners. */
export interface Reach {
  readonly left: number;
  readonly right: number;
  readonly spring: Ticks;
}

/** One part of a stretch. `rightLaps`: at the joint to its right, does the piece to the right lap this one. */
export interface Part {
  readonly from: number;
  readonly to: number;
  /** Null for the last part. */
  readonly rightLaps: boolean | null;
}

/** The longest piece that the profile's stock can give, ticks; null where it has no stock list [LN30]. */
export function longestPiece(stretch: Stretch, settings: Settings): number | null {
  const lengths = stretch.profile.stock.filter((stock) => stock.onHand !== 0).map((stock) => stock.length);
  return lengths.length === 0 ? null : Math.max(...lengths) - settings.endTrim;
}

/** The parts of a stretch, left to right: one where it needs no scarf or may have none [LN30–LN33]. */
export function partsOf(
  stretch: Stretch,
  reach: Reach,
  room: Room,
  settings: Settings,
  splits: Splits,
): readonly Part[] {
  const whole: Part[] = [{ from: 0, to: stretch.L, rightLaps: null }];
  if (stretch.profile.scarf === false) return whole;
  const key = splitKey(stretch.segment.key, stretch.line, stretch.key);
  if (Object.hasOwn(splits, key)) return withLaps(givenCuts(stretch.L, splits[key]!), stretch, room);

  const longest = longestPiece(stretch, settings);
  if (longest === null) return whole;
  const fits = (length: number): boolean => roundHalfAway(length) <= longest;
  if (fits(stretch.L + reach.left + reach.right + reach.spring)) return whole;
  const least = Math.max(2, Math.floor(stretch.L / Math.max(1, longest)));
  for (let count = least; count <= MOST_PARTS; count++) {
    const cuts = Array.from({ length: count + 1 }, (_, i) => (stretch.L * i) / count);
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

/** The piece whose middle is nearer the entry laps; a tie, or no entry: the right one [LN32]. */
function withLaps(cuts: readonly number[], stretch: Stretch, room: Room): Part[] {
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
