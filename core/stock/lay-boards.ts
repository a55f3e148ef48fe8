// All boards of a plan, laid around those it holds: where long stretches are joined and how boards are cut are decided
// together. Each profile is cut as equal parts have it, then with its stretches joined where the boards gain most; the better
// stays, with a bound over every place a joint may lie [ST12]. Pure and deterministic.

import type { Solver } from '../fit/types.ts';
import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Splits } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { cutStock } from './cut.ts';
import { holdBoards } from './held-joints.ts';
import { type Choice, joinBoards, withBound } from './join-boards.ts';
import { joinedAt, keepsRules, type Layout, levelsAt, ordersOf } from './layout.ts';
import { longStretches, stretchesToJoin } from './long.ts';
import { oneLengthTried } from './one-length.ts';
import { sameItems, type TrimmedLevel } from './order.ts';
import { cellsOf, firstAllowed } from './places.ts';
import { mayJoinMore, REACHES, type RunOut, runOutJoints } from './run-out.ts';
import { runOutBound } from './run-out-bound.ts';
import { soFarOf } from './so-far.ts';
import type { Stoppable } from './stoppable.ts';
import type { Loosened, StockBudget, StockPlan } from './types.ts';

/** Ways of joining looked at in one profile, and for one stretch at most and at least. */
const WAYS = 240;
const WAYS_EACH = 120;
const LEAST_WAYS = 8;
/** Joints that may have turned out needless where boards ran out, looked at again at most. */
const UNJOINED = 8;

/** The boards of a plan, and where its stretches are joined for them. */
export interface PlannedBoards {
  /** The splits given, and those chosen: the same object where none was chosen. */
  readonly splits: Splits;
  /** In the order of `orderOf`, for the plan laid out at `splits`. */
  readonly stock: readonly StockPlan[];
  /** Boards of the plan that can no longer be held [ST13]. */
  readonly loosened: readonly Loosened[];
}

/** What `planBoards` says of one search: every order cut once, around the boards held [ST5–ST8, ST12, ST13]. */
export function layBoards(
  plan: Plan,
  levels: readonly TrimmedLevel[],
  given: Splits,
  solver: Solver,
  { budget, stopped }: Stoppable,
  soFar?: (planned: PlannedBoards) => void,
): PlannedBoards {
  const holding = holdBoards(plan, levels, given);
  const kept = new Set([...holding.boards.values()].flatMap((held) => held.flatMap((board) => board.pieces)));
  const loosenedIn = (stock: readonly StockPlan[]): Loosened[] => [
    ...holding.loosened,
    ...stock.flatMap((each) => each.loosened),
  ];
  /** `more`: joints of stretches for which boards ran out; where they lie is chosen as of all others. */
  const plannedWith = (more: Splits): Laid => {
    const keys = new Set(Object.keys(more));
    const splits = keys.size === 0 ? holding.splits : { ...holding.splits, ...more };
    const own = keys.size === 0 ? holding.levels : joinedAt(plan, holding.levels, splits, keys);
    const longs = longStretches(plan, own, holding.standing, kept);
    const layout: Layout = { plan, levels: own, longs, given: splits, held: holding.boards };
    const tell =
      soFar && soFarOf(layout, solver, (boards) => soFar({ ...boards, loosened: loosenedIn(boards.stock) }));
    const { stock, ...planned } = cutOrders(layout, solver, budget, stopped, tell);
    const isOtherwise = (key: string): boolean => keys.has(key) || holding.otherwise.has(key);
    const joined = new Set(longs.filter(({ key }) => isOtherwise(key)).map(({ profileId }) => profileId));
    const laid = joinedAt(plan, holding.levels, planned.splits, new Set(Object.keys(planned.splits)));
    // Which stretches are joined is a choice as well: the bound must hold for each.
    const leastOf = (each: StockPlan): number => {
      const open = stretchesToJoin(plan, laid, holding.standing, kept, 1);
      const own = open.filter(({ profileId }) => profileId === each.order.profileId);
      return each.unplaced.length > 0 ? 0 : runOutBound(plan, laid, each, own, solver);
    };
    return {
      ...planned,
      stock: stock.map((each) => (joined.has(each.order.profileId) ? withBound(each, leastOf(each)) : each)),
    };
  };
  const runOutOf = (planned: Laid): RunOut => {
    const levels = joinedAt(plan, holding.levels, planned.splits, new Set(Object.keys(planned.splits)));
    return { plan, levels, ...planned, held: holding.boards, given: holding.standing, kept };
  };
  const work = stopped() ? 0 : (budget.work ?? 1);
  const planned = withRunOutJoints(plannedWith, runOutOf, holding.recorded, solver, work);
  const runOut = runOutOf(planned);
  // That no board is left is proved only where no joint could help: not all joints are tried.
  const stock = planned.stock.map((each) =>
    each.unplaced.length > 0 && mayJoinMore(runOut, each.order.profileId) ? withBound(each, 0) : each,
  );
  return { splits: planned.splits, stock, loosened: loosenedIn(stock) };
}

type Laid = Omit<PlannedBoards, 'loosened'>;

/** Boards with stretches joined in more parts while that leaves fewer pieces out: as recorded first [ST12, ST13]. */
function withRunOutJoints(
  plannedWith: (more: Splits) => Laid,
  runOutOf: (planned: Laid) => RunOut,
  recorded: Splits,
  solver: Solver,
  work: number,
): Laid {
  let more: Splits = {};
  let planned = plannedWith(more);
  if (unplacedIn(planned.stock) > 0 && Object.keys(recorded).length > 0) {
    const next = plannedWith(recorded);
    if (unplacedIn(next.stock) < unplacedIn(planned.stock)) [more, planned] = [recorded, next];
  }
  const needless = new Set<string>();
  for (const reach of REACHES) {
    while (unplacedIn(planned.stock) > 0) {
      const joints = runOutJoints(runOutOf(planned), reach, solver, work);
      const keys = Object.keys(joints);
      if (keys.length === 0) break;
      const next = plannedWith({ ...more, ...joints });
      if (unplacedIn(next.stock) >= unplacedIn(planned.stock)) break;
      more = { ...more, ...joints };
      planned = next;
      if (reach.whose === 'all') for (const key of keys) needless.add(key);
    }
  }
  for (const key of [...needless].slice(0, UNJOINED)) {
    const { [key]: _, ...fewer } = more;
    const next = plannedWith(fewer);
    if (unplacedIn(next.stock) > unplacedIn(planned.stock)) continue;
    more = fewer;
    planned = next;
  }
  return planned;
}

const unplacedIn = (stock: readonly StockPlan[]): number =>
  stock.reduce((sum, each) => sum + each.unplaced.length, 0);

function cutOrders(
  layout: Layout,
  solver: Solver,
  budget: StockBudget,
  stopped: () => boolean,
  soFar?: (splits: Splits, found: StockPlan) => void,
): Pick<PlannedBoards, 'splits' | 'stock'> {
  const { choices, splits: first } = choicesIn(layout);
  let splits = first;
  const stock = ordersOf(layout, levelsAt(layout, splits)).map((order) => {
    const own = choices.filter((each) => each.long.profileId === order.profileId);
    // While joints are still to be chosen, the bound of these is none.
    const told = (found: StockPlan): StockPlan => (own.length === 0 ? found : withBound(found, 0));
    const plain = cutStock(order, solver, {
      ...budget,
      ...(soFar && { found: (found) => soFar(splits, told(found)) }),
    });
    if (stopped() || (budget.work ?? 1) <= 0) {
      soFar?.(splits, told(plain));
      return told(plain);
    }
    const joined =
      own.length === 0 ? { stock: plain, splits } : joinBoards(layout, plain, own, splits, solver, budget);
    const found = oneLengthTried(layout, joined, own, { splits, order }, solver, budget);
    splits = found.splits;
    soFar?.(splits, found.stock);
    return found.stock;
  });
  if (splits === layout.given) return { splits, stock };
  // Where one profile's joints change what another's pieces need, that one is cut again.
  return {
    splits,
    stock: ordersOf(layout, levelsAt(layout, splits)).map((order) => {
      const known = stock.find((each) => each.order.profileId === order.profileId);
      if (known && sameItems(known.order, order)) return known;
      const again = cutStock(order, solver, budget);
      const chosen = choices.some((each) => each.long.profileId === order.profileId);
      return chosen ? withBound(again, known?.bound ?? 0) : again;
    }),
  };
}

/** The stretches whose joints are to be chosen, and where they lie at first: in equal parts, or as near as is allowed. */
function choicesIn(layout: Layout): { choices: Choice[]; splits: Splits } {
  const { plan, longs, given } = layout;
  const least = settingsOf(plan).minScarfPiece;
  const share = new Map<string, number>();
  for (const { profileId } of longs) share.set(profileId, (share.get(profileId) ?? 0) + 1);
  const all = longs.flatMap((long): Choice[] => {
    const even = Math.floor(WAYS / share.get(long.profileId)!);
    const ways = Math.max(LEAST_WAYS, Math.min(WAYS_EACH, even));
    const cells = cellsOf(long, least, ways);
    return cells ? [{ long, cells, ways }] : [];
  });
  const start = ({ long, cells }: Choice): readonly Ticks[] | undefined =>
    firstAllowed(long, cells.count) ?? cells.exact?.[0]?.cuts;
  const at = (choices: readonly Choice[]): Splits => {
    const moved = choices.flatMap((each) => {
      const cuts = start(each);
      return cuts === undefined || cuts === each.long.usual ? [] : [[each.long.key, cuts] as const];
    });
    return moved.length === 0 ? given : { ...given, ...Object.fromEntries(moved) };
  };
  // Another joint can change which board is worked at a corner, and so a length: what then breaks a rule stays as it was.
  const levels = levelsAt(layout, at(all));
  const choices = all.filter((each) => keepsRules(layout, levels, [each.long]));
  return { choices, splits: at(choices) };
}
