// What the same pieces cost bought otherwise: one row for the plan as it stands, one for each stock length alone, one for
// each order that the caller derived otherwise (no scarfs, say). Data only. Ticks and hundredths.

import type { Solver } from '../fit/types.ts';
import type { Ticks } from '../units/ticks.ts';
import { cutStock } from './cut.ts';
import { ownJoints, takeHeld } from './held.ts';
import { moneyOf, purchaseOf } from './purchase.ts';
import type { StockBudget, StockLength, StockOrder, StockPlan } from './types.ts';

export interface Alternative {
  readonly kind: 'asked' | 'only' | 'other';
  /** `as asked`, or the caller's words; empty for `only`, which has a length. */
  readonly name: string;
  /** The one length bought. */
  readonly only: Ticks | null;
  /** Hundredths; null where a board bought has no price, and where no piece fits: nothing costs nothing. */
  readonly money: number | null;
  readonly bought: Ticks;
  /** All boards, those on hand too. */
  readonly boards: number;
  /** Of all boards: length less what the pieces need. */
  readonly waste: Ticks;
  readonly unplaced: number;
  /** How many more scarfs there are than as asked; fewer are less than 0. */
  readonly moreScarfs: number;
  /** Where a row of one length buys more boards of it than the plan says can be had; else null. */
  readonly tooFew: { readonly bought: number; readonly toBeHad: number } | null;
  readonly proved: boolean;
}

/** A row for boards that hold none of the pieces has no figures. */
export function placesNothing({ boards, unplaced }: Pick<Alternative, 'boards' | 'unplaced'>): boolean {
  return boards === 0 && unplaced > 0;
}

/** The lines of one length that are bought. */
function lotsOf(lengths: readonly StockLength[], only: Ticks): readonly StockLength[] {
  return lengths.filter((each) => !each.onHand && each.length === only);
}

/** Whether nothing is bought but boards of one length. */
function buysOnly({ boards }: StockPlan, only: Ticks): boolean {
  return boards.every((board) => board.onHand || board.length === only);
}

/** Whether a row buys more boards of its one length than can be had: it is laid without limit [ST11]. */
function tooFewOf({ lengths }: StockOrder, only: Ticks, plan: StockPlan): Alternative['tooFew'] {
  const lots = lotsOf(lengths, only);
  // Of one length at several prices each price counts for itself.
  for (const { price } of lots) {
    const limits = lots.filter((each) => each.price === price).map(({ limit }) => limit);
    const toBeHad = limits.reduce<number>((sum, limit) => sum + (limit ?? Number.POSITIVE_INFINITY), 0);
    const bought = plan.boards.filter(
      (board) => !board.onHand && board.length === only && board.price === price,
    ).length;
    if (bought > toBeHad) return { bought, toBeHad };
  }
  return null;
}

function rowOf(
  kind: Alternative['kind'],
  name: string,
  only: Ticks | null,
  plan: StockPlan,
  moreScarfs = 0,
  tooFew: Alternative['tooFew'] = null,
): Alternative {
  const { money, unpriced } = moneyOf(purchaseOf(plan));
  const [boards, unplaced] = [plan.boards.length, plan.unplaced.length];
  return {
    kind,
    name,
    only,
    money: unpriced > 0 || placesNothing({ boards, unplaced }) ? null : money,
    bought: plan.boards.reduce((sum, board) => sum + (board.onHand ? 0 : board.length), 0),
    boards,
    waste: plan.boards.reduce((sum, board) => sum + board.length - board.used, 0),
    unplaced,
    moreScarfs,
    tooFew,
    proved: plan.proved,
  };
}

/** Part of the work on a row that is no price for the same job: pieces are left out of it. */
const LITTLE_WORK = 0.05;

function hasTooLong({ items, lengths, endTrim }: StockOrder): boolean {
  const room = Math.max(0, ...lengths.map((each) => each.length)) - endTrim;
  return items.some((item) => item.need > room);
}

/** Fewer pieces left out, then fewer scarfs, then cheaper (or less bought), then fewer boards. */
function isBetter(a: Alternative, b: Alternative): boolean {
  const cost = a.money === null || b.money === null ? a.bought - b.bought : a.money - b.money;
  return (a.unplaced - b.unplaced || a.moreScarfs - b.moreScarfs || cost || a.boards - b.boards) < 0;
}

/** Whether an order is its own row of this length alone: it buys no other, as much of it as serves, and nothing is left out. */
function isOnly(plan: StockPlan, only: Ticks): boolean {
  const [lot, ...more] = lotsOf(plan.order.lengths, only);
  const isEndless = more.length === 0 && lot?.limit === null;
  return plan.proved && plan.unplaced.length === 0 && isEndless && buysOnly(plan, only);
}

/**
 * The lines of one length as they are bought where nothing else is, `left` being what boards held leave of them: a length
 * that is to be had without limit at some price, so; else its dearest line, for more than its count. The others keep theirs.
 */
function unlimited(
  { lengths }: StockOrder,
  left: readonly StockLength[],
  only: Ticks,
): readonly StockLength[] {
  const lots = lotsOf(lengths, only).filter(({ limit }) => limit !== 0);
  if (lots.some(({ limit }) => limit === null)) return lotsOf(left, only);
  const dearest = lots.reduce((a, b) => ((b.price ?? 0) > (a.price ?? 0) ? b : a));
  const others = lotsOf(left, only).filter(({ price }) => price !== dearest.price);
  return [...others, { ...dearest, limit: null }];
}

/** The same stretches joined anew for boards of one length; null where none of them is joined. */
export type JoinedFor = (only: Ticks) => StockPlan | null;

/**
 * The table of alternatives of one order [ST11]: `asked` as it was solved, then each length alone (without limit; boards on
 * hand and boards held stay), shortest first, then `others` in the order given; of these, boards stay held that need no
 * joint. `joinedFor` is asked for each length alone, and the better stays; an order that buys one length only is the row of
 * it. A row in which pieces stay unplaced says how many.
 */
export function alternatives(
  asked: StockPlan,
  solver: Solver,
  others: readonly { readonly name: string; readonly order: StockOrder }[] = [],
  budget: StockBudget = {},
  joinedFor: JoinedFor = () => null,
): Alternative[] {
  const { order } = asked;
  const held = takeHeld(order);
  const { by: _, ...rest } = held.rest;
  const bought = order.lengths.filter((each) => !each.onHand && each.limit !== 0);
  // Each scarf makes two pieces of one.
  const scarfsIn = (other: StockOrder): number => other.items.length - order.items.length;
  const lengths = [...new Set(bought.map((each) => each.length))].sort((a, b) => a - b);
  const onlyOf = (only: Ticks): Alternative => {
    if (isOnly(asked, only)) return rowOf('only', '', only, asked);
    const row = foundFor(only);
    // The order as asked may be of that length alone, laid in fewer boards: a row looks for the cost only.
    const own = rowOf('only', '', only, asked);
    const isAlike = own.money === row.money && own.bought === row.bought;
    return buysOnly(asked, only) && isAlike && isBetter(own, row) ? { ...own, proved: row.proved } : row;
  };
  const foundFor = (only: Ticks): Alternative => {
    const anew = joinedFor(only);
    const ownRow = (plan: StockPlan, scarfs = 0): Alternative =>
      rowOf('only', '', only, plan, scarfs, tooFewOf(order, only, plan));
    const joined = anew && ownRow(anew, scarfsIn(anew.order));
    const lengths = [...rest.lengths.filter((each) => each.onHand), ...unlimited(order, rest.lengths, only)];
    // What is too long for these boards as it is joined now would be laid only to be left out.
    if (joined?.unplaced === 0 && hasTooLong({ ...rest, lengths })) return joined;
    const cut = cutStock({ ...rest, lengths }, solver, budget);
    const asNow = ownRow({ ...cut, boards: [...held.boards, ...cut.boards] });
    // Proved for joints as they are now says nothing of joints elsewhere.
    if (joined) return isBetter(asNow, joined) ? { ...asNow, proved: false } : joined;
    return asNow;
  };
  return [
    rowOf('asked', 'as asked', null, asked),
    ...(lengths.length < 2 ? [] : lengths).map(onlyOf),
    ...others.map((other) => {
      const whole = order.held?.filter((board) => ownJoints(board).length === 0) ?? [];
      const effort = hasTooLong(other.order) ? { ...budget, work: LITTLE_WORK } : budget;
      const cut = cutStock({ ...other.order, held: whole }, solver, effort);
      return rowOf('other', other.name, null, cut, scarfsIn(other.order));
    }),
  ];
}
