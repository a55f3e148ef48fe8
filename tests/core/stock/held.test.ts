// Boards that stay as the user holds them, and a search that is stopped at any moment.

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { apply, copiedPart, type Edit } from '../../../core/edit/index.ts';
import type { Solver } from '../../../core/fit/types.ts';
import { readPlan } from '../../../core/plan/index.ts';
import type { HeldBoard, Plan, ProfileId, WallId } from '../../../core/plan/schema.ts';
import { derive, type Solved, solve } from '../../../core/report/index.ts';
import {
  alternatives,
  cutStock,
  heldBoardOf,
  orderOf,
  purchaseOf,
  type StockOrder,
  type StockPlan,
} from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { gridOrder } from '../../outside/lib/stock-orders.ts';
import { cases, LONG, random } from '../../seeds.ts';
import { housePlan, rectangle } from '../trim/houses.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadHighs();
});

/** Every piece once, every board to the tick, no more boards than there are [ST4, ST6]. */
function mustConserve(order: StockOrder, plan: StockPlan, what: string): void {
  const cut = plan.boards.flatMap((board) => board.items.map((item) => item.id));
  expect([...cut, ...plan.unplaced].sort(), what).toEqual(order.items.map((item) => item.id).sort());
  for (const board of plan.boards) {
    expect(board.trim + board.used + board.kerfs + board.offcut, what).toBe(board.length);
    expect(board.used, what).toBe(board.items.reduce((sum, item) => sum + item.need, 0));
  }
  for (const each of order.lengths.filter((one) => one.limit !== null)) {
    const alike = order.lengths.filter(
      (one) => one.length === each.length && one.onHand === each.onHand && one.price === each.price,
    );
    const limit = alike.reduce((sum, one) => sum + (one.limit ?? Number.POSITIVE_INFINITY), 0);
    const used = plan.boards.filter(
      (board) => board.length === each.length && board.onHand === each.onHand && board.price === each.price,
    );
    expect(used.length, what).toBeLessThanOrEqual(limit);
  }
  expect(plan.bound, what).toBeLessThanOrEqual(plan.cost);
  const bought = purchaseOf(plan).reduce((sum, line) => sum + line.count * line.length, 0);
  expect(bought, what).toBe(plan.boards.reduce((sum, board) => sum + (board.onHand ? 0 : board.length), 0));
}

const asHeld = (board: StockPlan['boards'][number]): HeldBoard => ({
  length: board.length,
  onHand: board.onHand,
  pieces: board.items.map((item) => item.id),
});

describe('held boards', () => {
  it('[ST13] stay as they are, the rest is laid around them, and nothing is lost', () => {
    const count = cases(80);
    for (let seed = 1; seed <= count; seed++) {
      const { order } = gridOrder(seed, 30);
      const next = random(seed);
      const free = cutStock(order, solver, { work: LITTLE });
      const held = free.boards.filter(() => next() < 0.4).map(asHeld);
      const again = cutStock({ ...order, held }, solver, { work: LITTLE });
      mustConserve(order, again, `seed ${seed}`);
      expect(again.loosened, `seed ${seed}`).toEqual([]);
      expect(again.boards.filter((board) => board.held).map(asHeld)).toEqual(held);
      // What is held came from a best answer, so the rest can be as good as before.
      if (free.proved && again.proved) expect(again.cost, `seed ${seed}`).toBe(free.cost);
    }
  });

  it('[ST13] a board held against what is best costs what it costs: the bound is around it', () => {
    const piece = (id: string, need: number) => ({ id, need, kerf: 0, sawDeg: [0, 0] as const });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: [piece('a', 500), piece('b', 500), piece('c', 500)],
      lengths: [{ length: 1000, price: 7, limit: null, onHand: false }],
      endTrim: 0,
      keepFrom: 300,
      sparePercent: 0,
    };
    expect(cutStock(order, solver)).toMatchObject({ cost: 14, boards: { length: 2 } });
    const hold = (...ids: string[]): HeldBoard => ({ length: 1000, onHand: false, pieces: ids });
    const held = cutStock({ ...order, held: [hold('a'), hold('b')] }, solver);
    expect(held).toMatchObject({ cost: 21, bound: 21, proved: true });
    expect(held.boards.map((board) => board.items.map((item) => item.id))).toEqual([['a'], ['b'], ['c']]);
    const all = cutStock({ ...order, held: [hold('a', 'b'), hold('c')] }, solver);
    expect(all).toMatchObject({ cost: 14, bound: 14, proved: true, unplaced: [] });
  });

  it('[ST13] what can no longer be held is handed back with the reason, and its pieces are laid like all others', () => {
    const piece = (id: string, need: number) => ({ id, need, kerf: 10, sawDeg: [0, 0] as const });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: [piece('a', 500), piece('b', 500), piece('c', 480), piece('d', 100)],
      lengths: [
        { length: 700, price: 0, limit: 1, onHand: true },
        { length: 1000, price: 7, limit: null, onHand: false },
      ],
      endTrim: 5,
      keepFrom: 300,
      sparePercent: 0,
    };
    const hold = (length: number, onHand: boolean, ...pieces: string[]): HeldBoard => ({
      length,
      onHand,
      pieces,
    });
    const held = [
      hold(1000, false, 'a', 'gone', 'left'),
      hold(900, false, 'a'),
      hold(700, false, 'a'),
      hold(1000, false, 'a', 'b'),
      hold(700, true, 'd'),
      hold(700, true, 'c'),
      hold(1000, false, 'c', 'a'),
    ];
    const plan = cutStock({ ...order, held }, solver);
    expect(plan.loosened.map(({ board, why }) => [held.indexOf(board), why])).toEqual([
      [0, { is: 'gone', pieces: ['gone', 'left'] }],
      [1, { is: 'no-length' }],
      [2, { is: 'no-length' }],
      [3, { is: 'too-long', takes: 1010, room: 995 }],
      [5, { is: 'used-up' }],
    ]);
    mustConserve(order, plan, 'loosened');
    expect(plan.boards.map((board) => [board.length, board.held, board.items.map(({ id }) => id)])).toEqual([
      [700, true, ['d']],
      [1000, true, ['a', 'c']],
      [1000, false, ['b']],
    ]);
  });

  it('[ST5, ST13] a board held is the cheapest that can be had of its length, those without a price last', () => {
    const piece = (id: string) => ({ id, need: 900, kerf: 0, sawDeg: [0, 0] as const });
    const lot = (price: number, limit: number | null) => ({ length: 1000, price, limit, onHand: false });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: ['a', 'b', 'c'].map(piece),
      lengths: [lot(1000, null), lot(572, 2), lot(800, 0)],
      endTrim: 0,
      keepFrom: 300,
      sparePercent: 0,
    };
    const free = cutStock(order, solver);
    expect(free).toMatchObject({ cost: 2144, proved: true });
    for (const many of [1, 2, 3]) {
      const plan = cutStock({ ...order, held: free.boards.slice(0, many).map(asHeld) }, solver);
      expect(plan).toMatchObject({ cost: 2144, bound: 2144, proved: true, loosened: [] });
      expect(plan.boards.map(({ price }) => price).toSorted()).toEqual([1000, 572, 572]);
    }
    const noPrice = { ...lot(0, null), price: null };
    const mixed = { ...order, lengths: [noPrice, lot(572, 1)], held: free.boards.slice(0, 1).map(asHeld) };
    expect(cutStock(mixed, solver).boards.find(({ held }) => held)).toMatchObject({ price: 572 });
  });

  it('[ST11, ST13] bought otherwise, held boards stay and cost what they cost', () => {
    const piece = (id: string) => ({ id, need: 450, kerf: 10, sawDeg: [0, 0] as const });
    const order: StockOrder = {
      profileId: 'b' as ProfileId,
      kind: 'base',
      items: ['a', 'b', 'c', 'd'].map(piece),
      lengths: [
        { length: 500, price: 6, limit: null, onHand: false },
        { length: 1000, price: 7, limit: null, onHand: false },
      ],
      endTrim: 0,
      keepFrom: 300,
      sparePercent: 0,
      held: [{ length: 1000, onHand: false, pieces: ['a'] }],
    };
    const rows = alternatives(cutStock(order, solver), solver);
    // Held alone on a long board: 7. The other three: 6 each on short boards, or 7 for two and 7 for one on long ones.
    expect(rows.map(({ only, money, boards }) => [only, money, boards])).toEqual([
      [null, 20, 3],
      [500, 25, 4],
      [1000, 21, 3],
    ]);
  });
});

/** A part of the usual work: what is held and kept does not hang on how good the boards are. */
const LITTLE = 0.1;

/** Boards of so many feet and their prices. */
type FeetAndPrice = readonly (readonly [number, number])[];
const USUAL_SHORT: FeetAndPrice = [
  [8, 16],
  [10, 20],
];

/** A demo house with shorter stock, so that long walls are joined; casings are left out. `only`: one profile alone has stock. */
function house(short: FeetAndPrice = USUAL_SHORT, only?: string) {
  const text = readFileSync(
    new URL('../../../demo-data/thimble-cottage.copewright.json', import.meta.url),
    'utf8',
  );
  const read = readPlan(text);
  if (!read.ok) throw new Error(read.error.message);
  const profiles = Object.fromEntries(
    Object.entries(read.plan.profiles).map(([id, profile]) => [
      id,
      {
        ...profile,
        stock:
          profile.kind === 'casing' || (only !== undefined && id !== only)
            ? []
            : short.map(([feet, price]) => ({ length: feet * 12 * 8128, price })),
      },
    ]),
  );
  return derive({ ...read.plan, profiles } as typeof read.plan);
}

/** Pieces that are parts of a longer stretch. */
function joinedPieces({ levels }: Solved): Set<string> {
  return new Set(
    levels
      .flatMap((level) => level.trims)
      .flatMap((trim) => trim.lines.flatMap((line) => line.runs.flatMap((run) => run.pieces)))
      .filter((piece) => piece.parts > 1)
      .map((piece) => piece.id),
  );
}

function holding(plan: Plan, boards: readonly (readonly [ProfileId, HeldBoard])[]): Plan {
  const heldBoards: Record<string, HeldBoard[]> = {};
  for (const [profileId, board] of boards) heldBoards[profileId] = [...(heldBoards[profileId] ?? []), board];
  return { ...plan, heldBoards };
}

interface RoomStock {
  readonly length: number;
  readonly price: number;
  /** How many there are; absent: no limit. */
  readonly onHand?: number;
}

/** A room of four walls between faces, millimetres, whose walls are longer than its stock. */
function roomOf(
  [wide, deep]: readonly [number, number],
  form: string,
  stock: readonly RoomStock[],
  studMm?: number,
): Plan {
  const outline = rectangle(wide, deep);
  const base = { kind: 'base', name: 'Base', height: 100, thickness: 10, form, material: 'pine', stock };
  const plan = housePlan(outline, { profiles: { base }, trim: { base: 'base' } });
  return studMm === undefined ? plan : { ...plan, studs: { spacing: studMm * 320 } };
}

function randomRoom(seed: number): Plan {
  const next = random(seed);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const short = int(24, 40) * 100;
  const stock = [
    { length: short, price: int(8, 14) },
    { length: short + int(3, 14) * 100, price: int(12, 18) },
  ];
  const size = [int(30, 90) * 100, int(30, 70) * 100] as const;
  return roomOf(size, next() < 0.6 ? 'shaped' : 'flat', stock, next() < 0.4 ? 400 : undefined);
}

/** The same stretches joined 100 mm further left. */
function elsewhere({ splits }: Solved): Record<string, number[]> {
  return Object.fromEntries(
    Object.entries(splits).map(([key, at]) => [key, at.map((each) => each - 32_000)]),
  );
}

describe('a whole house', () => {
  it('[ST7, ST13] is told of every profile, and stopped at any step gives whole boards', () => {
    const derived = house();
    const steps: string[] = [];
    const full = solve(derived, solver, {
      work: LITTLE,
      tell: ({ profileId, step }) => {
        steps.push(`${profileId} ${step}`);
        return 'go';
      },
    });
    for (const { order } of full.stock) {
      expect(
        steps.some((each) => each.startsWith(`${order.profileId} `)),
        order.profileId,
      ).toBe(true);
      expect(steps).toContain(`${order.profileId} settle`);
    }
    expect(steps.some((each) => each.endsWith(' join'))).toBe(true);
    const check = (solved: Solved, what: string): void => {
      const orders = orderOf(solved.plan, solved.levels);
      expect(
        solved.stock.map((each) => each.order.profileId),
        what,
      ).toEqual(orders.map((order) => order.profileId));
      solved.stock.forEach((each, i) => {
        expect(each.order.items, what).toEqual(orders[i]!.items);
        mustConserve(orders[i]!, each, what);
      });
    };
    check(full, 'full');
    for (let stop = 1; stop <= steps.length; stop += LONG ? 1 : 4) {
      let told = 0;
      const solved = solve(derived, solver, {
        work: LITTLE,
        tell: () => {
          told += 1;
          return told === stop ? 'stop' : 'go';
        },
      });
      check(solved, `stopped at ${stop}`);
      expect(told, 'asked no more once it stopped').toBe(stop);
      solved.stock.forEach((each, i) => {
        const best = full.stock[i]!;
        if (each.proved && each.by === best.by) expect(each.cost).toBe(best.cost);
      });
    }
    console.info(`${steps.length} steps, ${Object.keys(full.splits).length} joined stretches`);
  });

  it('[ST13] held boards keep their pieces and the joints these have, whatever joints are given otherwise', () => {
    const derived = house();
    const first = solve(derived, solver, { work: LITTLE });
    const joined = joinedPieces(first);
    const boards = first.stock.flatMap(({ order, boards }) =>
      boards
        .filter((board) => board.items.some((item) => joined.has(item.id)))
        .map((board) => [order.profileId, heldBoardOf(first.levels, board)] as const),
    );
    expect(boards.length).toBeGreaterThan(0);
    const plan = holding(derived.plan, boards);
    for (const again of [
      solve(derive(plan), solver, { work: LITTLE }),
      solve(derive(plan), solver, { work: 0 }),
      // Elsewhere than the held boards have it.
      solve(derive(plan, undefined, elsewhere(first)), solver, { work: LITTLE }),
    ]) {
      for (const key of Object.keys(first.splits)) expect(again.splits[key], key).toEqual(first.splits[key]);
      expect(again.findings.filter(({ code }) => code === 'held-loose')).toEqual([]);
      const held = again.stock.flatMap(({ order, boards }) =>
        boards
          .filter((board) => board.held)
          .map((board) => [order.profileId, heldBoardOf(again.levels, board)] as const),
      );
      expect(held).toEqual(boards);
      const lengths = (solved: Solved) =>
        new Map(solved.report.pieces.map((piece) => [piece.id, piece.overallMm]));
      for (const id of joined) expect(lengths(again).get(id), id).toBe(lengths(first).get(id));
    }
  });
});

describe('one board held as it was just laid, nothing else changed', () => {
  /** Each board of a plan in turn; how many there were. */
  function holdEach(plan: Plan, what: string): number {
    const free = solve(derive(plan), solver);
    const [stock] = free.stock;
    for (const board of stock!.boards) {
      const held = [['base' as ProfileId, heldBoardOf(free.levels, board)]] as const;
      const now = solve(derive(holding(plan, held)), solver);
      const told = `${what}, ${board.items.map(({ id }) => id).join(' + ')}`;
      expect(
        now.findings.filter(({ code }) => code === 'held-loose').map(({ message }) => message),
        told,
      ).toEqual([]);
      const { unplaced, cost } = now.stock[0]!;
      expect(unplaced, told).toEqual(stock!.unplaced);
      expect(cost, told).toBeLessThanOrEqual(stock!.cost);
    }
    return stock!.boards.length;
  }
  const priced = (...all: readonly (readonly [number, number])[]) =>
    all.map(([length, price]) => ({ length, price }));

  it('[ST13] is not let loose by joints elsewhere in its room that turn round which board is worked at a corner', () => {
    holdEach(roomOf([4900, 5100], 'flat', priced([2900, 12], [3500, 13])), 'butts');
    holdEach(roomOf([8100, 3200], 'flat', priced([3300, 13], [4100, 18]), 400), 'more parts for the studs');
  });

  it('[ST13] makes no order dearer', () => {
    holdEach(roomOf([9000, 6900], 'flat', priced([2500, 11], [3300, 15])), 'many joints');
  });

  it('[ST13] stays, and the order costs no more, in rooms of any size', () => {
    const count = cases(40);
    let boards = 0;
    for (let seed = 1; seed <= count; seed++) boards += holdEach(randomRoom(seed), `seed ${seed}`);
    console.info(`${boards} boards held one by one, ${count} rooms`);
  });

  it('[ST12, ST13] where boards run out, though a wall beside it is joined for lack of a long one', () => {
    for (const [size, form, short, long, count] of [
      [[5400, 3000], 'flat', 2900, 5600, 1],
      [[5800, 3100], 'shaped', 2900, 5900, 2],
      [[6500, 3900], 'shaped', 2700, 6900, 1],
    ] as const) {
      const stock = [
        { length: short, price: 10 },
        { length: long, price: 10, onHand: count },
      ];
      holdEach(roomOf(size, form, stock, 400), `${count} of ${long}`);
    }
  });

  it('[ED21, ED26, ST13] stays beside copies of its room, is told of in the mirror, and is as before after undo', () => {
    const room = roomOf([4900, 5100], 'flat', priced([2900, 12], [3500, 13]));
    const budget = { work: LITTLE };
    const { plan } = derive(room);
    const free = solve(derive(plan), solver, budget);
    const all = free.stock[0]!.boards.map(
      (board) => ['base' as ProfileId, heldBoardOf(free.levels, board)] as const,
    );
    const held = holding(plan, all);
    const level = plan.levels[0]!;
    const walls = Object.keys(level.walls) as WallId[];
    const source = copiedPart(level, walls, held);
    const aside = [10_000 * 320, 0] as const;
    const edits: readonly (readonly [Edit, stay: boolean, rooms: number])[] = [
      [{ type: 'pasteWalls', level: level.id, source, place: { by: aside } }, true, 2],
      [{ type: 'pasteWalls', level: level.id, source, place: { by: aside, mirror: true } }, true, 2],
      [{ type: 'placeWalls', level: level.id, walls, place: { by: [0, 0], turnDeg: 90 } }, true, 1],
      [{ type: 'placeWalls', level: level.id, walls, place: { by: [0, 0], mirror: true } }, false, 1],
    ];
    for (const [edit, stay, rooms] of edits) {
      const what = JSON.stringify(edit);
      const done = apply(held, edit);
      if (!done.ok) throw new Error(done.message);
      const now = solve(derive(done.plan), solver, budget);
      const own = now.stock[0]!;
      mustConserve(own.order, own, what);
      const pieces = now.report.pieces.length;
      expect(own.boards.flatMap(({ items }) => items).length, what).toBe(pieces);
      expect(now.report.rooms.length, what).toBe(rooms);
      const kept = own.boards.filter((board) => board.held).length;
      const loose = now.findings.filter(({ code }) => code === 'held-loose').length;
      expect(kept + loose, what).toBe(all.length);
      expect(loose === 0, what).toBe(stay);
      expect(
        done.notes.some(({ message }) => message.includes('in the mirror')),
        what,
      ).toBe(!stay);
      const back = apply(done.plan, done.inverse);
      if (!back.ok) throw new Error(back.message);
      expect(back.plan.heldBoards, what).toEqual(held.heldBoards);
      expect(solve(derive(back.plan), solver, budget).stock[0]!.boards.every((board) => board.held)).toBe(
        true,
      );
    }
  });

  it('[ST13] makes no order dearer where nothing is proved, nor beside a board that no search would choose', () => {
    // So little work that the search around the board with 1B misses what was found with it.
    const budget = { work: 0.05 };
    const profile = 'base-tall' as ProfileId;
    const stock: FeetAndPrice = [
      [7, 13],
      [10, 19],
    ];
    const { plan } = house(stock, profile);
    const solvedWith = (held: readonly HeldBoard[]) => {
      const own = held.map((board) => [profile, board] as const);
      const solved = solve(derive(holding(plan, own)), solver, budget);
      return { solved, own: solved.stock.find(({ order }) => order.profileId === profile)! };
    };
    const dear: HeldBoard = { length: 10 * 12 * 8128, onHand: false, pieces: ['7A'] };
    for (const first of [[], [dear]]) {
      const laid = solvedWith(first);
      const board = laid.own.boards.find(({ items }) => items.some(({ id }) => id === '1B'))!;
      const now = solvedWith([...first, heldBoardOf(laid.solved.levels, board)]);
      const told = `${first.length} held before`;
      expect(laid.own.proved, told).toBe(false);
      expect(now.own.cost, told).toBeLessThanOrEqual(laid.own.cost);
      expect(now.own.bound, told).toBeLessThanOrEqual(now.own.cost);
      expect(now.own.boards.filter(({ held }) => held).length, told).toBe(first.length + 1);
      expect(
        now.solved.findings.filter(({ code }) => code === 'held-loose'),
        told,
      ).toEqual([]);
      mustConserve(now.own.order, now.own, told);
    }
  });
});
