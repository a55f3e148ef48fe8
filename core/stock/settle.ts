// Boards of one cost and number made handier: pieces are moved between boards so that off-cuts gather in few long ones
// (the sum of their squares grows), then each board gets its pieces in the order that sets the saw least.
// Which boards are used is never changed here.

import type { Answer } from './fill.ts';
import { type Parts, type Pattern, type Problem, taken } from './problem.ts';
import type { CutBoard, StockItem, StockLength, StockOrder } from './types.ts';

/** Pairs of boards with more ways to share their pieces than this are left as they are. */
const MOST_WAYS = 4096;

/** How the pieces of two boards are shared best: what the first one gets, null where no way is better. */
function shared(problem: Problem, a: Pattern, b: Pattern): { parts: [Parts, Parts]; ways: number } | null {
  const { kinds, supplies } = problem;
  const counts = new Map<number, number>();
  for (const [kind, count] of [...a.parts, ...b.parts]) counts.set(kind, (counts.get(kind) ?? 0) + count);
  const all = [...counts].sort((x, y) => x[0] - y[0]);
  const ways = all.reduce((product, [, count]) => product * (count + 1), 1);
  if (ways > MOST_WAYS) return null;
  const roomA = supplies[a.supply]!.room;
  const roomB = supplies[b.supply]!.room;
  const worth = (left: number, right: number): number => left * left + right * right;
  const over = (room: number, parts: Parts): number => offcut(problem, room, parts);
  let best = worth(over(roomA, a.parts), over(roomB, b.parts));
  let chosen: [Parts, Parts] | null = null;
  const take: number[] = all.map(() => 0);
  for (let way = 0; way < ways; way++) {
    let rest = way;
    for (let i = 0; i < all.length; i++) {
      const base = all[i]![1] + 1;
      take[i] = rest % base;
      rest = Math.floor(rest / base);
    }
    const first: Parts = all.map(([kind], i) => [kind, take[i]!] as const).filter(([, count]) => count > 0);
    if (first.length === 0 || taken(kinds, first) > roomA) continue;
    const second: Parts = all
      .map(([kind, count], i) => [kind, count - take[i]!] as const)
      .filter(([, count]) => count > 0);
    if (second.length === 0 || taken(kinds, second) > roomB) continue;
    const value = worth(over(roomA, first), over(roomB, second));
    if (value > best) {
      best = value;
      chosen = [first, second];
    }
  }
  return chosen && { parts: chosen, ways };
}

/** What is left of a board's room after its pieces and their cuts. */
function offcut(problem: Problem, room: number, parts: Parts): number {
  let weight = 0;
  for (const [kind, count] of parts) weight += problem.kinds[kind]!.weight * count;
  return Math.max(0, room - weight);
}

/** Gathers the off-cuts, pair by pair of boards, those with most left first, until nothing helps or work runs out. */
export function gathered(problem: Problem, answer: Answer, work: number): Pattern[] {
  const boards = answer.boards.slice();
  const left = (at: number): number =>
    offcut(problem, problem.supplies[boards[at]!.supply]!.room, boards[at]!.parts);
  let ways = 0;
  let moved = true;
  while (moved && ways < work) {
    moved = false;
    const order = boards.map((_, at) => at).sort((x, y) => left(y) - left(x) || x - y);
    for (let i = 0; i < order.length && ways < work; i++) {
      for (let j = i + 1; j < order.length && ways < work; j++) {
        const a = boards[order[i]!]!;
        const b = boards[order[j]!]!;
        ways += 2 ** Math.min(12, a.parts.length + b.parts.length);
        const better = shared(problem, a, b);
        if (!better) continue;
        boards[order[i]!] = { supply: a.supply, parts: better.parts[0] };
        boards[order[j]!] = { supply: b.supply, parts: better.parts[1] };
        moved = true;
      }
    }
  }
  return boards;
}

/** Least setting first, so that the saw moves little and the widest cut comes last, where it may fall off the end. */
function inSawOrder(items: readonly StockItem[], place: ReadonlyMap<StockItem, number>): StockItem[] {
  return items
    .slice()
    .sort(
      (a, b) =>
        a.kerf - b.kerf ||
        a.sawDeg[0] - b.sawDeg[0] ||
        a.sawDeg[1] - b.sawDeg[1] ||
        b.need - a.need ||
        place.get(a)! - place.get(b)!,
    );
}

/** One board with these pieces, cut in the saw's order. `place`: of each piece in the order. */
export function boardOf(
  order: StockOrder,
  stock: StockLength,
  items: readonly StockItem[],
  place: ReadonlyMap<StockItem, number>,
  held: boolean,
): CutBoard {
  const used = items.reduce((sum, item) => sum + item.need, 0);
  const cuts = items.reduce((sum, item) => sum + item.kerf, 0);
  const left = stock.length - order.endTrim - used;
  return {
    length: stock.length,
    price: stock.price,
    onHand: stock.onHand,
    items: inSawOrder(items, place),
    trim: order.endTrim,
    used,
    kerfs: Math.min(cuts, left),
    offcut: Math.max(0, left - cuts),
    held,
  };
}

/** The boards with their pieces by name, in ticks, longest stock first; what is on hand before what is bought. */
export function boardsOf(
  order: StockOrder,
  problem: Problem,
  patterns: readonly Pattern[],
): { boards: CutBoard[]; missed: StockItem[] } {
  const place = new Map(order.items.map((item, at) => [item, at]));
  const next = problem.kinds.map(() => 0);
  const drawn = patterns.slice().sort((a, b) => {
    const one = problem.supplies[a.supply]!;
    const two = problem.supplies[b.supply]!;
    const hand = (stock: number): number => (order.lengths[stock]!.onHand ? 0 : 1);
    return (
      hand(one.stock) - hand(two.stock) ||
      two.length - one.length ||
      one.stock - two.stock ||
      offcut(problem, one.room, a.parts) - offcut(problem, two.room, b.parts) ||
      compareParts(a.parts, b.parts)
    );
  });
  const boards = drawn.map((pattern): CutBoard => {
    const stock = order.lengths[problem.supplies[pattern.supply]!.stock]!;
    const items: StockItem[] = [];
    for (const [kind, count] of pattern.parts) {
      for (let i = 0; i < count; i++) items.push(problem.kinds[kind]!.items[next[kind]!++]!);
    }
    return boardOf(order, stock, items, place, false);
  });
  const missed = problem.kinds.flatMap((kind, i) => kind.items.slice(next[i]!));
  return { boards, missed };
}

function compareParts(a: Parts, b: Parts): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const step = a[i]![0] - b[i]![0] || b[i]![1] - a[i]![1];
    if (step !== 0) return step;
  }
  return a.length - b.length;
}
