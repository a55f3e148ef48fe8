// The scribe of a run by linear programmes, one aim after the other: shortfall of the old line, trimmed area, deepest
// cut, open gap, slopes, lowest from left to right (RULES: SC6, SC7). Worked in millimetres about the mean floor; ticks in
// and out. Kept: an aim once reached is held to within SLACK_MM, which moves no height by 0.001 mm.

import { mmFromTicks, TICKS_PER_MM } from '../units/ticks.ts';
import { scribeOf } from './scribe-board.ts';
import type { ScribeRun } from './scribe-run.ts';
import type { LinearProgram, Scribe, Solver } from './types.ts';

/** How much of an aim already reached a later aim may give back: mm of height, or of mean height over the run. */
export const SLACK_MM = 1e-9;
/** If the engine's own rounding leaves no room within the slack, it is widened by tens up to this. */
const WIDEST_SLACK_MM = 1e-5;

type Column = LinearProgram['columns'][number];
type Row = LinearProgram['rows'][number];
type Term = readonly [column: number, factor: number];

/** An aim: what is made least, and whether it can go below zero. */
type Aim = { readonly name: string; readonly terms: readonly Term[] };

interface Stated {
  readonly columns: readonly Omit<Column, 'cost'>[];
  readonly rows: readonly Row[];
  readonly aims: readonly Aim[];
}

/** Writes the run as columns, rows and aims. Heights are mm above `zero` (ticks). */
function state(run: ScribeRun, zero: number): Stated {
  const columns: Omit<Column, 'cost'>[] = [];
  const rows: Row[] = [];
  const column = (lower: number): number => columns.push({ lower, upper: Number.POSITIVE_INFINITY }) - 1;
  const atLeast = (terms: readonly Term[], lower: number): void => {
    rows.push({ terms, lower, upper: Number.POSITIVE_INFINITY });
  };
  const height = (ticks: number): number => mmFromTicks(ticks - zero);

  for (let h = 0; h < run.heights; h += 1) column(Number.NEGATIVE_INFINITY);
  const deepest = column(0);
  const shortfall = column(0);
  const area: Term[] = [];
  const gap: Term[] = [];
  const slopes: Term[] = [];
  const total = run.bars.reduce((sum, bar) => sum + (bar.to - bar.from), 0);
  let hasLine = false;

  for (const bar of run.bars) {
    const long = bar.to - bar.from;
    /** The untrimmed bottom at a place, as terms. */
    const bottom = (at: number, sign: 1 | -1 = 1): Term[] => {
      const share = (at - bar.from) / long;
      const terms: Term[] = [];
      if (share < 1) terms.push([bar.left, sign * (1 - share)]);
      if (share > 0) terms.push([bar.right, sign * share]);
      return terms;
    };
    const covered = (at: number, line: number | null): void => {
      if (line === null || bar.height === null) return;
      hasLine = true;
      atLeast([...bottom(at), [shortfall, 1]], height(line - bar.height));
    };
    bar.stations.forEach((station, k) => {
      const before = bar.stations[k - 1]?.at ?? station.at;
      const after = bar.stations[k + 1]?.at ?? station.at;
      const weight = (after - before) / 2 / total;
      const floor = height(station.floor);
      const trim = column(0);
      const open = column(0);
      atLeast([...bottom(station.at), [trim, 1]], floor);
      atLeast([...bottom(station.at, -1)], -(floor + mmFromTicks(station.tolerance)));
      atLeast([...bottom(station.at, -1), [open, 1]], -floor);
      atLeast(
        [
          [deepest, 1],
          [trim, -1],
        ],
        0,
      );
      area.push([trim, weight]);
      gap.push([open, weight]);
      covered(station.at, station.line);
    });
    for (const { at, line } of bar.lineOnly) covered(at, line);
    const slope = column(0);
    // In mm to the metre, so that it is of the size of the other aims.
    const perMetre = (1000 * TICKS_PER_MM) / long;
    for (const sign of [1, -1]) {
      atLeast(
        [
          [slope, 1],
          [bar.right, -sign * perMetre],
          [bar.left, sign * perMetre],
        ],
        0,
      );
    }
    slopes.push([slope, 1]);
  }

  const lowest = Array.from(
    { length: run.heights },
    (_, h): Aim => ({ name: `lowest ${h}`, terms: [[h, 1]] }),
  );
  const aims: Aim[] = [
    ...(hasLine ? [{ name: 'shortfall', terms: [[shortfall, 1]] as Term[] }] : []),
    { name: 'area', terms: area },
    { name: 'deepest', terms: [[deepest, 1]] },
    { name: 'gap', terms: gap },
    { name: 'slopes', terms: slopes },
    ...lowest,
  ];
  return { columns, rows, aims };
}

function withCosts(columns: Stated['columns'], aim: Aim): Column[] {
  const costs = new Map(aim.terms);
  return columns.map((column, c) => ({ ...column, cost: costs.get(c) ?? 0 }));
}

/** The free heights of the run's ends, ticks above the subfloor, in the order of `ScribeBar.left` and `right`. */
function heightsOf(run: ScribeRun, solver: Solver, slackMm: number): number[] {
  const floors = run.bars.flatMap((bar) => bar.stations.map((station) => station.floor));
  const zero = floors.reduce((sum, floor) => sum + floor, 0) / floors.length;
  const { columns, rows, aims } = state(run, zero);
  const reached: { readonly aim: Aim; readonly value: number }[] = [];
  let answer: readonly number[] = [];
  for (const aim of aims) {
    let slack = slackMm;
    for (;;) {
      const held = reached.map(
        ({ aim: { terms }, value }): Row => ({
          terms,
          lower: Number.NEGATIVE_INFINITY,
          upper: value + slack,
        }),
      );
      const solved = solver.solve({ columns: withCosts(columns, aim), rows: [...rows, ...held] });
      if (solved.status === 'optimal') {
        reached.push({ aim, value: aim.terms.reduce((sum, [c, factor]) => sum + factor * solved.x[c]!, 0) });
        answer = solved.x;
        break;
      }
      slack *= 10;
      if (solved.status !== 'infeasible' || slack > WIDEST_SLACK_MM) {
        const board = run.bars[0]?.pieces[0]?.id;
        throw new Error(`scribe of the run of ${board}: the aim ${aim.name} ended ${solved.status}`);
      }
    }
  }
  return answer.slice(0, run.heights).map((y) => zero + y * TICKS_PER_MM);
}

/**
 * The scribe of every board of a run, left to right. Heights in ticks, not rounded. One answer: what the aims leave open
 * the last one settles. Throws if the solver finds none: only the old line can stand against it, and that is given way to.
 */
export function solveScribe(run: ScribeRun, solver: Solver, slackMm: number = SLACK_MM): Scribe[] {
  const heights = heightsOf(run, solver, slackMm);
  return scribeOf(run, heights);
}
