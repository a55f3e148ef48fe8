// Where boards run out: stretches of which no board is left for a piece are joined anew, in more parts if need be, so that
// shorter boards hold them. Which of them, in how many parts and where is one choice together with the boards there are; the
// places are chosen again later, as of every long stretch [ST12]. Ticks along the stretch from its left end.

import type { Solver } from '../fit/types.ts';
import { sameList } from '../graph/index.ts';
import { lookup } from '../plan/maps.ts';
import type { Plan, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Splits } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { cutStock } from './cut.ts';
import { takeHeld } from './held.ts';
import { jointPicks } from './joint.ts';
import { joinedAt, type Layout, ordersOf } from './layout.ts';
import { type LongStretch, stretchesToJoin } from './long.ts';
import type { TrimmedLevel } from './order.ts';
import { optionsOf, roomsOf } from './places.ts';
import type { Cut } from './problem.ts';
import type { StockItem, StockOrder, StockPlan } from './types.ts';

/** Ways of joining looked at in one profile, and for one stretch at most and at least. */
const WAYS = 480;
const WAYS_EACH = 120;
const LEAST_WAYS = 12;
/** Work on the choice; where the boards cannot hold everything however it is joined, and in a first layout, less. */
const WORK = 1;
const LITTLE_WORK = 0.25;
/** How often it is chosen anew for pieces as they came out. */
const ROUNDS = 5;

/** What may be joined: only stretches of which a piece was left out, or all of their profile; in how many parts more. */
export interface Reach {
  readonly whose: 'left out' | 'all';
  readonly moreParts: number;
}

/** Tried in turn while pieces stay unplaced: no more joints than it takes. */
export const REACHES: readonly Reach[] = [
  { whose: 'left out', moreParts: 1 },
  { whose: 'left out', moreParts: 2 },
  { whose: 'left out', moreParts: 4 },
  { whose: 'all', moreParts: 1 },
  { whose: 'all', moreParts: 2 },
];

/** Boards as they were cut, and what joints may be given to. */
export interface RunOut {
  readonly plan: Plan;
  /** As they are joined for `stock`. */
  readonly levels: readonly TrimmedLevel[];
  readonly splits: Splits;
  readonly held: Layout['held'];
  readonly stock: readonly StockPlan[];
  /** Stretches that are joined as they must be, and pieces that stay as they are. */
  readonly given: Splits;
  readonly kept: ReadonlySet<string>;
}

/** Joints with which fewer pieces are left out, as far as the choice tells; none where it finds none. */
export function runOutJoints(run: RunOut, reach: Reach, solver: Solver, work: number): Splits {
  const found: Record<string, readonly Ticks[]> = {};
  for (const own of run.stock.filter((each) => each.unplaced.length > 0)) {
    const hopeless = needsMore(own.order);
    // Then some are left out anyway: fewer by the first reach, if at all. A first layout has no time for that.
    if ((hopeless && work <= 0) || ((hopeless || work <= 0) && reach !== REACHES[0])) continue;
    const longs = openStretches(run, own.order.profileId);
    const left = new Set(own.unplaced);
    const meant =
      reach.whose === 'all'
        ? longs
        : longs.filter(({ pieces }) => pieces.some((piece) => left.has(piece.id)));
    const effort = hopeless || work <= 0 ? LITTLE_WORK : WORK * work;
    if (meant.length > 0) Object.assign(found, chosen(run, own, meant, reach.moreParts, solver, effort));
  }
  return found;
}

/** Whether the pieces are longer together than all boards there are. */
function needsMore({ items, lengths, endTrim }: StockOrder): boolean {
  const room = lengths.reduce(
    (sum, { length, limit }) =>
      sum + Math.max(0, length - endTrim) * (limit === null ? Number.POSITIVE_INFINITY : limit),
    0,
  );
  return items.reduce((sum, item) => sum + item.need, 0) > room;
}

/** Whether a stretch of the profile could be joined in more parts: it is long enough for that. */
export function mayJoinMore(run: RunOut, id: ProfileId): boolean {
  const least = settingsOf(run.plan).minScarfPiece;
  return openStretches(run, id).some(
    ({ stretch, pieces, ends }) =>
      stretch.L + Math.abs(ends.left) + Math.abs(ends.right) >= (pieces.length + 1) * least,
  );
}

function openStretches({ plan, levels, given, kept }: RunOut, id: ProfileId): LongStretch[] {
  if (lookup(plan.profiles, id)?.scarf === false) return [];
  return stretchesToJoin(plan, levels, given, kept, 1).filter((long) => long.profileId === id);
}

/**
 * Where a choice joins these stretches otherwise than now so that fewer pieces are left out; nothing where none is found.
 * What is chosen is laid out and cut: joints can change which board is worked at a corner. The choice is made again for the
 * longest that each piece was seen to be.
 */
function chosen(
  run: RunOut,
  own: StockPlan,
  longs: readonly LongStretch[],
  moreParts: number,
  solver: Solver,
  work: number,
): Splits {
  const { plan } = run;
  const { profileId } = own.order;
  // Without a stock list it is not known what can be had beside the boards on hand: joined only where these hold all [LN30].
  const isListed = (lookup(plan.profiles, profileId)?.stock.length ?? 0) > 0;
  const most = isListed ? own.unplaced.length - 1 : 0;
  const ways = Math.max(LEAST_WAYS, Math.min(WAYS_EACH, Math.floor(WAYS / longs.length / (moreParts + 1))));
  let laid = laidAt(own.order, longs, {});
  const places = longs.map((long) => {
    const counts = Array.from({ length: moreParts + 1 }, (_, more) => long.pieces.length + more);
    const anew = counts
      .filter((count) => count > 1)
      .flatMap((count) => optionsOf(plan, long, count, laid.sure, roomsOf(own.order), ways));
    return [long.usual, ...anew.map((option) => option.cuts)];
  });
  let sure = laid.sure;
  let needs = places.map((cuts, i) => cuts.map((at) => laid.partsAt(i, at)));
  for (let round = 0; round < ROUNDS; round++) {
    const best = jointPicks({ ...laid.rest, items: sure }, needs, solver, work);
    if (best === null || best.missed > most) return {};
    const joints = Object.fromEntries(
      longs.flatMap((long, i) =>
        best.picks[i] === 0 ? [] : [[long.key, places[i]![best.picks[i]!]!] as const],
      ),
    );
    const levels = joinedAt(plan, run.levels, { ...run.splits, ...joints }, new Set(Object.keys(joints)));
    const order = ordersOf(run, levels).find((each) => each.profileId === profileId);
    if (!order) throw new Error(`stock: no order of ${profileId} once its stretches are joined elsewhere`);
    if (cutStock(order, solver, { work }).unplaced.length <= most) return joints;
    const again = stretchesToJoin(plan, levels, run.given, run.kept, 1);
    const now = longs.map((long) => again.find((each) => each.key === long.key) ?? long);
    laid = laidAt(order, now, joints);
    sure = longest(sure, laid.sure);
    needs = places.map((cuts, i) => cuts.map((at, j) => longest(needs[i]![j]!, laid.partsAt(i, at))));
  }
  return {};
}

interface LaidOut {
  readonly rest: StockOrder;
  /** Pieces of no open stretch, those not held. */
  readonly sure: readonly StockItem[];
  /** The pieces of a stretch joined at these places, its ends as they are now. */
  readonly partsAt: (stretch: number, cuts: readonly Ticks[]) => readonly Cut[];
}

function laidAt(order: StockOrder, longs: readonly LongStretch[], joints: Splits): LaidOut {
  const { rest } = takeHeld(order);
  const open = new Set(longs.flatMap((long) => long.pieces.map((piece) => piece.id)));
  return {
    rest,
    sure: rest.items.filter((item) => !open.has(item.id)),
    partsAt: (stretch, cuts) => {
      const long = longs[stretch]!;
      const isNow = sameList(cuts, joints[long.key] ?? long.usual);
      return isNow
        ? rest.items.filter((item) => long.pieces.some((piece) => piece.id === item.id))
        : long.partsAt(cuts);
    },
  };
}

/** Each as long as the longer of two; they are the same pieces in the same order, or the first stay. */
function longest<Piece extends Cut>(a: readonly Piece[], b: readonly Cut[]): readonly Piece[] {
  if (a.length !== b.length) return a;
  return a.map((piece, i) => ({
    ...piece,
    need: Math.max(piece.need, b[i]!.need),
    kerf: Math.max(piece.kerf, b[i]!.kerf),
  }));
}
