// Which board is worked at each junction of a run: the exact optimum, by dynamic programming along a path or a ring.
// Knows no geometry: pieces are lengths, junctions are lists of options with what each does to the two boards.
// All costs are whole numbers, so that sums compare exactly (RULES: WB). Lengths in ticks.

import type { Ticks } from '../units/ticks.ts';
import { roundHalfAway } from '../units/ticks.ts';

/** What an option does to one board's end. */
export interface EndEffect {
  /** Any end but square. */
  readonly worked: boolean;
  readonly backOffset: number;
  /** What the option asks of this board's back length: at least the cope limit, under it, or nothing. */
  readonly needs: 'long' | 'short' | null;
}

/** One way to make a junction. `after`: the board after the junction is worked, the one before runs through. */
export interface JunctionOption {
  readonly choice: 'after' | 'before' | 'mitre';
  readonly before: EndEffect;
  readonly after: EndEffect;
  /** The board that must go up first. */
  readonly first: 'before' | 'after' | null;
  /** |e · a| of the board that runs through, where the corner is in sight; 0 otherwise. */
  readonly seam: number;
  /** Length of the board that runs through; 0 where none does. */
  readonly through: Ticks;
  /** True for a mitre that stands in for a cope which both boards are too short for. */
  readonly lastResort: boolean;
}

/**
 * A run. Closed: junction j lies between piece j − 1 (cyclically) and piece j, so there are as many as pieces.
 * Open: junction j lies between piece j and piece j + 1, one fewer than pieces. Options stand in the order
 * after, before, mitre. A junction with nothing to decide has one option.
 */
export interface Chain {
  readonly closed: boolean;
  readonly lengths: readonly number[];
  readonly junctions: readonly (readonly JunctionOption[])[];
  /** Ends of an open run; not looked at in a closed one. */
  readonly leftEnd: EndEffect;
  readonly rightEnd: EndEffect;
  readonly copeMin: Ticks;
}

/** The aims in order; the first in which the best other choice is worse. */
export type Aim = 'only' | 'short' | 'order' | 'bothEnds' | 'sight' | 'length' | 'walking';

export interface Worked {
  /** Position in each junction's options. */
  readonly chosen: readonly number[];
  /** Which aim settled each junction; 'only' where there was one option. */
  readonly aims: readonly Aim[];
  /** True where no order of putting up exists: every board would have to go up before the next, all round. */
  readonly circle: boolean;
}

/** Sums of seams are compared to this [WB4]. */
const SEAM_STEP = 1e-9;

/** Broken length needs, last resorts, circle, pieces worked at both ends, seams, minus the lengths that run through. */
type Cost = readonly [number, number, number, number, number, number];
const AIMS: readonly Aim[] = ['short', 'short', 'order', 'bothEnds', 'sight', 'length'];
const ZERO: Cost = [0, 0, 0, 0, 0, 0];

const plus = (a: Cost, b: Cost): Cost => [
  a[0] + b[0],
  a[1] + b[1],
  a[2] + b[2],
  a[3] + b[3],
  a[4] + b[4],
  a[5] + b[5],
];

/** Position of the first part that differs, −1 where none does. */
function firstDifference(a: Cost, b: Cost): number {
  for (let part = 0; part < 6; part++) if (a[part] !== b[part]) return part;
  return -1;
}

function less(a: Cost, b: Cost): boolean {
  const part = firstDifference(a, b);
  return part >= 0 && a[part]! < b[part]!;
}

function optionCost(option: JunctionOption): Cost {
  return [
    0,
    option.lastResort ? 1 : 0,
    0,
    0,
    Math.round(option.seam / SEAM_STEP),
    0 - roundHalfAway(option.through),
  ];
}

function pieceCost(length: number, left: EndEffect, right: EndEffect, copeMin: Ticks): Cost {
  const short = roundHalfAway(length + left.backOffset + right.backOffset) < copeMin;
  const broken = (end: EndEffect): number =>
    (end.needs === 'long' && short) || (end.needs === 'short' && !short) ? 1 : 0;
  return [broken(left) + broken(right), 0, 0, left.worked && right.worked ? 1 : 0, 0, 0];
}

// While walking a ring the state remembers whether every junction so far asks for the same direction of putting up.
const MIXED = 0;
const BEFORE_FIRST = 1;
const AFTER_FIRST = 2;
const FLAGS = 3;

function direction(option: JunctionOption): number {
  return option.first === null ? MIXED : option.first === 'before' ? BEFORE_FIRST : AFTER_FIRST;
}

/** The run cut open into columns of options: piece p lies between column p and column p + 1. */
interface Columns {
  readonly options: readonly (readonly JunctionOption[])[];
  readonly startFlag: number;
  readonly closed: boolean;
}

type Table = (Cost | null)[][];
const blank = (columns: Columns): Table =>
  columns.options.map((options) => new Array<Cost | null>(options.length * FLAGS).fill(null));

/** Cost of going from option `o` in a state to option `p` of the next column, and the state it leads to. */
function step(
  chain: Chain,
  columns: Columns,
  column: number,
  o: number,
  flag: number,
  p: number,
): { cost: Cost; flag: number } {
  const from = columns.options[column]![o]!;
  const to = columns.options[column + 1]![p]!;
  const piece = pieceCost(chain.lengths[column]!, from.after, to.before, chain.copeMin);
  // The last column is the run's end, or the first junction met again: nothing to pay and no direction of its own.
  if (column + 1 === columns.options.length - 1) return { cost: piece, flag };
  return {
    cost: plus(piece, optionCost(to)),
    flag: flag === direction(to) ? flag : MIXED,
  };
}

/** Least cost from each state to the end. */
function backward(chain: Chain, columns: Columns): Table {
  const table = blank(columns);
  const last = columns.options.length - 1;
  // Along an open run there is no direction to remember.
  const flags = columns.closed ? FLAGS : MIXED + 1;
  for (let flag = 0; flag < flags; flag++) {
    table[last]![flag] = columns.closed && flag !== MIXED ? [0, 0, 1, 0, 0, 0] : ZERO;
  }
  for (let column = last - 1; column >= 0; column--) {
    const width = columns.options[column]!.length;
    const nextWidth = columns.options[column + 1]!.length;
    for (let o = 0; o < width; o++) {
      for (let flag = 0; flag < flags; flag++) {
        let best: Cost | null = null;
        for (let p = 0; p < nextWidth; p++) {
          const { cost, flag: then } = step(chain, columns, column, o, flag, p);
          const total = plus(cost, table[column + 1]![p * FLAGS + then]!);
          if (best === null || less(total, best)) best = total;
        }
        table[column]![o * FLAGS + flag] = best;
      }
    }
  }
  return table;
}

/** Least cost from the start to each state; null where a state cannot be reached. */
function forward(chain: Chain, columns: Columns): Table {
  const table = blank(columns);
  const last = columns.options.length - 1;
  table[0]![columns.startFlag] = ZERO;
  for (let column = 0; column < last; column++) {
    const width = columns.options[column]!.length;
    const nextWidth = columns.options[column + 1]!.length;
    for (let o = 0; o < width; o++) {
      for (let flag = 0; flag < FLAGS; flag++) {
        const soFar = table[column]![o * FLAGS + flag];
        if (soFar == null) continue;
        for (let p = 0; p < nextWidth; p++) {
          const { cost, flag: then } = step(chain, columns, column, o, flag, p);
          const total = plus(soFar, cost);
          const known = table[column + 1]![p * FLAGS + then];
          if (known == null || less(total, known)) table[column + 1]![p * FLAGS + then] = total;
        }
      }
    }
  }
  return table;
}

const endOption = (end: EndEffect): JunctionOption => ({
  choice: 'mitre',
  before: end,
  after: end,
  first: null,
  seam: 0,
  through: 0,
  lastResort: false,
});

/** Walks the table from the start, taking the first option that still reaches the least cost [WB6]. */
function walkBest(chain: Chain, columns: Columns, table: Table): { picks: number[]; flag: number } {
  const picks: number[] = [];
  let o = 0;
  let flag = columns.startFlag;
  for (let column = 0; column < columns.options.length - 2; column++) {
    const target = table[column]![o * FLAGS + flag]!;
    const width = columns.options[column + 1]!.length;
    let moved = false;
    for (let p = 0; p < width && !moved; p++) {
      const { cost, flag: then } = step(chain, columns, column, o, flag, p);
      if (firstDifference(plus(cost, table[column + 1]![p * FLAGS + then]!), target) !== -1) continue;
      picks.push(p);
      o = p;
      flag = then;
      moved = true;
    }
    if (!moved) throw new Error(`worked boards: no way on from column ${column}`);
  }
  return { picks, flag };
}

function check(chain: Chain): void {
  const expected = chain.closed ? chain.lengths.length : chain.lengths.length - 1;
  if (chain.lengths.length === 0 || chain.junctions.length !== expected) {
    throw new Error(`a run of ${chain.lengths.length} pieces with ${chain.junctions.length} junctions`);
  }
  for (const options of chain.junctions) {
    if (options.length === 0) throw new Error('a junction without an option');
    for (let i = 1; i < options.length; i++) {
      if (options[i - 1]!.choice >= options[i]!.choice) throw new Error('options out of order');
    }
  }
}

/**
 * The best choice at every junction [WB1–WB6]: fewest mitres that stand in for copes, no circle in the order of putting
 * up, fewest pieces worked at both ends, least seam in sight, most length running through, and then the first in
 * walking order, `after` before `before` before `mitre`. A need for length that no choice meets is broken as seldom as
 * possible. Throws on a chain whose junctions do not fit its pieces.
 */
export function chooseWorked(chain: Chain): Worked {
  check(chain);
  const count = chain.junctions.length;
  /** least[j][o]: the least cost of all with option o at junction j. */
  const least: (Cost | null)[][] = chain.junctions.map((options) => options.map(() => null));
  const offer = (junction: number, option: number, cost: Cost): void => {
    const known = least[junction]![option];
    if (known == null || less(cost, known)) least[junction]![option] = cost;
  };
  const firsts = chain.closed ? chain.junctions[0]! : [endOption(chain.leftEnd)];
  const middles = chain.closed ? chain.junctions.slice(1) : chain.junctions;
  let best: { cost: Cost; chosen: number[]; circle: boolean } | null = null;

  for (let start = 0; start < firsts.length; start++) {
    const first = firsts[start]!;
    const columns: Columns = {
      options: [[first], ...middles, [chain.closed ? first : endOption(chain.rightEnd)]],
      startFlag: chain.closed ? direction(first) : MIXED,
      closed: chain.closed,
    };
    const base = chain.closed ? optionCost(first) : ZERO;
    const toEnd = backward(chain, columns);
    const fromStart = forward(chain, columns);
    const total = plus(base, toEnd[0]![columns.startFlag]!);
    if (chain.closed) offer(0, start, total);
    for (let column = 1; column < columns.options.length - 1; column++) {
      const junction = chain.closed ? column : column - 1;
      for (let o = 0; o < columns.options[column]!.length; o++) {
        for (let flag = 0; flag < FLAGS; flag++) {
          const reached = fromStart[column]![o * FLAGS + flag];
          if (reached == null) continue;
          offer(junction, o, plus(base, plus(reached, toEnd[column]![o * FLAGS + flag]!)));
        }
      }
    }
    if (best !== null && !less(total, best.cost)) continue;
    const { picks, flag } = walkBest(chain, columns, toEnd);
    best = {
      cost: total,
      chosen: chain.closed ? [start, ...picks] : picks,
      circle: chain.closed && flag !== MIXED,
    };
  }

  const { cost, chosen, circle } = best!;
  const aims: Aim[] = [];
  for (let junction = 0; junction < count; junction++) {
    const rivals = least[junction]!.filter(
      (other, o): other is Cost => o !== chosen[junction] && other !== null,
    );
    const rival = rivals.reduce<Cost | null>(
      (low, next) => (low === null || less(next, low) ? next : low),
      null,
    );
    if (rival === null) aims.push('only');
    else {
      const part = firstDifference(cost, rival);
      aims.push(part < 0 ? 'walking' : AIMS[part]!);
    }
  }
  return { chosen, aims, circle };
}

/**
 * The order of putting up, from 1, by piece [WB7]: a board that runs through or lies under goes before its neighbour;
 * of those that may go up, the first in walking order. `first[j]` belongs to junction j as in `Chain`. Where the
 * choices make a circle, the first board in walking order is put up against the rule.
 */
export function puttingUp(
  pieces: number,
  closed: boolean,
  first: readonly ('before' | 'after' | null)[],
): number[] {
  const waits = new Array<number>(pieces).fill(0);
  const frees: number[][] = Array.from({ length: pieces }, () => []);
  first.forEach((which, junction) => {
    if (which === null) return;
    const after = closed ? junction : junction + 1;
    const before = (after - 1 + pieces) % pieces;
    const [goes, follows] = which === 'before' ? [before, after] : [after, before];
    waits[follows]!++;
    frees[goes]!.push(follows);
  });
  const order = new Array<number>(pieces).fill(0);
  let low = 0; // no board before this one is free
  for (let rank = 1; rank <= pieces; rank++) {
    let next = low;
    while (next < pieces && (order[next] !== 0 || waits[next]! > 0)) next++;
    // None is free: a circle.
    if (next === pieces) next = order.indexOf(0);
    order[next] = rank;
    low = next + 1;
    for (const freed of frees[next]!) {
      waits[freed]!--;
      if (waits[freed] === 0) low = Math.min(low, freed);
    }
  }
  return order;
}
