// The boards of one profile with its long stretches joined elsewhere: a choice of joints and boards at once, laid out and
// cut. A joint can change which board is worked at a corner, so what was laid out is looked at and the choice made again;
// where studs leave few ways, each is laid out. The best stays [ST12].

import type { Solver } from '../fit/types.ts';
import type { Splits } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { costOfBoards, cutStock } from './cut.ts';
import { takeHeld } from './held.ts';
import { jointBound, jointPicks } from './joint.ts';
import { keepsRules, type Layout, levelsAt, ordersOf } from './layout.ts';
import { type LongStretch, longStretches } from './long.ts';
import type { TrimmedLevel } from './order.ts';
import { type Cells, optionsOf, roomsOf } from './places.ts';
import { withLeastNeeds, without } from './sure.ts';
import type { StockBudget, StockOrder, StockPlan } from './types.ts';

/**
 * How often joints are chosen anew for corners as the last choice left them. On orders of more pieces than `MANY` once, and
 * they are laid out only if the choice promises a gain.
 */
const ROUNDS = 3;
const MANY = 60;
/** Up to so many ways on orders of up to so many pieces, each is laid out. */
const FEW_WAYS = 150;
const FEW_PIECES = 40;

/** A stretch whose joints are chosen, where they may lie, and how many ways are looked at. */
export interface Choice {
  readonly long: LongStretch;
  readonly cells: Cells;
  readonly ways: number;
}

export interface Joined {
  readonly stock: StockPlan;
  readonly splits: Splits;
}

/** The same boards beside a bound that holds for every way of joining; of pieces that are left out it tells nothing. */
export function withBound(stock: StockPlan, bound: number): StockPlan {
  const least = Math.min(stock.cost, bound);
  const proved = least === stock.cost && stock.unplaced.length === 0;
  return { ...stock, bound: least, proved, fewestProved: false };
}

/** Fewer boards let loose, fewer pieces left out, then cheaper, then fewer boards. Throws where one counts money, the other length. */
export function isBetter(a: StockPlan, b: StockPlan): boolean {
  if (a.by !== b.by) throw new Error(`stock: boards by ${a.by} beside boards by ${b.by}`);
  return (
    (a.loosened.length - b.loosened.length ||
      a.unplaced.length - b.unplaced.length ||
      a.cost - b.cost ||
      a.boards.length - b.boards.length) < 0
  );
}

/** Better boards by joining these stretches elsewhere than `splits` has them; `plain`, cut for `splits`, where there are none. */
export function joinBoards(
  layout: Layout,
  plain: StockPlan,
  choices: readonly Choice[],
  splits: Splits,
  solver: Solver,
  budget: StockBudget,
): Joined {
  const { plan } = layout;
  const { profileId } = plain.order;
  const work = budget.work ?? 1;
  const longs = choices.map((each) => each.long);
  const start = levelsAt(layout, splits);
  const held = takeHeld(plain.order);
  const heldCost = costOfBoards(plain.by, held.boards);
  const sure = without(held.rest, start, longs);
  const placed = plain.unplaced.length === 0;
  let best: Joined = { stock: plain, splits };
  let bound = placed
    ? heldCost +
      jointBound(
        withLeastNeeds(plan, sure, start, longs),
        choices.map(({ cells }) => cells),
        solver,
        plain.cost - heldCost,
        work,
      )
    : 0;
  const done = (): boolean => bound >= best.stock.cost && placed;
  const told = (): boolean =>
    budget.tell?.({ profileId, step: 'join', cost: best.stock.cost, bound }) !== 'stop';

  const laidOut = (tried: Splits): { levels: readonly TrimmedLevel[]; order: StockOrder } | null => {
    const levels = levelsAt(layout, tried);
    const order = ordersOf(layout, levels).find((each) => each.profileId === profileId);
    if (!order) throw new Error(`stock: no order of ${profileId} once its stretches are joined elsewhere`);
    return keepsRules(layout, levels, longs) ? { levels, order } : null;
  };
  const joinedAt = (cuts: readonly (readonly Ticks[])[]): Splits => ({
    ...splits,
    ...Object.fromEntries(longs.map((long, i) => [long.key, cuts[i]!])),
  });

  const rooms = roomsOf(plain.order);
  const others = [...new Map(sure.items.map((item) => [`${item.need} ${item.kerf}`, item])).values()];
  const tried = new Set<string>();
  let now: readonly LongStretch[] = longs;
  const many = plain.order.items.length > MANY;
  const rounds = many ? 1 : ROUNDS;
  // A large order is joined anew only where the bound leaves room for a board less: less gain is not worth the work.
  const least = cheapest(plain);
  const promising = !many || !placed || plain.cost - bound >= least;
  for (let round = 0; round < rounds && promising && !done() && told(); round++) {
    const options = choices.map(({ cells, ways }, i) => {
      const long = now[i]!;
      if (!cells.all) return optionsOf(plan, long, cells.count, others, rooms, ways);
      return cells.all
        .filter((cuts) => long.allows(cuts))
        .map((cuts) => ({ cuts, parts: long.partsAt(cuts) }));
    });
    if (options.some((ways) => ways.length === 0)) break;
    const chosen = jointPicks(
      sure,
      options.map((ways) => ways.map((way) => way.parts)),
      solver,
      work,
    );
    if (!chosen || (many && heldCost + chosen.cost >= best.stock.cost)) break;
    const cuts = options.map((ways, i) => ways[chosen.picks[i]!]!.cuts);
    const key = cuts.join(';');
    if (tried.has(key)) break;
    tried.add(key);
    const next = joinedAt(cuts);
    const levels = levelsAt(layout, next);
    const laid = laidOut(next);
    if (laid) {
      const stock = cutStock(laid.order, solver, budget);
      if (isBetter(stock, best.stock)) best = { stock, splits: next };
    }
    const again = longStretches(plan, levels, {}, new Set());
    now = longs.map((long) => again.find((each) => each.key === long.key) ?? long);
  }

  const ways = choices.map(({ cells }) => cells.all);
  const count = ways.reduce((product, all) => product * (all?.length ?? Number.POSITIVE_INFINITY), 1);
  if (!done() && count <= FEW_WAYS && plain.order.items.length <= FEW_PIECES && told()) {
    let least = plain.cost;
    let whole = true;
    const seen = new Set<string>();
    for (let way = 0; way < count; way++) {
      if (!told()) {
        whole = false;
        break;
      }
      let rest = way;
      const cuts = ways.map((all) => {
        const at = rest % all!.length;
        rest = Math.floor(rest / all!.length);
        return all![at]!;
      });
      const next = joinedAt(cuts);
      const laid = laidOut(next);
      if (!laid) continue;
      const key = laid.order.items
        .map((item) => `${item.need} ${item.kerf}`)
        .sort()
        .join(';');
      if (seen.has(key)) continue;
      seen.add(key);
      const stock = cutStock(
        laid.order,
        solver,
        enough(budget, () => best.stock),
      );
      least = Math.min(least, stock.bound);
      if (isBetter(stock, best.stock)) best = { stock, splits: next };
    }
    if (whole && placed) bound = Math.max(bound, Math.min(least, best.stock.cost));
  }
  return { stock: withBound(best.stock, bound), splits: best.splits };
}

/** What the cheapest board that can be bought costs, in the unit of the plan's cost; 0 where none can be. */
function cheapest({ order, by }: StockPlan): number {
  const costs = order.lengths
    .filter((each) => !each.onHand && each.limit !== 0)
    .map((each) => (by === 'money' ? (each.price ?? 0) : each.length));
  return costs.length === 0 ? 0 : Math.min(...costs);
}

/** A budget that stops once the boards cannot get better than those at hand. */
function enough(budget: StockBudget, best: () => StockPlan): StockBudget {
  return {
    ...budget,
    tell: (progress) => {
      if (budget.tell?.(progress) === 'stop') return 'stop';
      const { bound } = progress;
      return bound !== null && best().unplaced.length === 0 && bound > best().cost ? 'stop' : 'go';
    },
  };
}
