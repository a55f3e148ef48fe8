// Scribing a run to its floor, a second formulation: stations and heights from the plan file by the domain page, the linear
// programme written out for yalps 0.6.4 (a simplex solver in TypeScript). Millimetres; heights above the subfloor.

import { solve } from 'yalps';
import type { RefStretch } from './boards.ts';
import type { RefRun } from './choice.ts';
import type { RefRoom } from './faces.ts';
import type { FileLevel, FileRoom, PlanJson } from './file.ts';

export interface RefStation {
  /** From the segment's left corner. */
  at: number;
  floor: number;
  /** An open end on a face nobody read, whose far corner nobody read: the page leaves its floor open. It takes no trim. */
  guessed?: boolean;
}

export interface RefBar {
  stretch: RefStretch;
  stations: RefStation[];
  /** Which of the run's free heights stands at its left and right end. */
  left: number;
  right: number;
  height: number;
}

export interface RefScribe {
  bars: RefBar[];
  heights: number;
  tolerance: number;
  line: number | null;
}

interface Reading {
  at: number;
  height: number;
}

function heightOn(readings: readonly Reading[], at: number): number {
  const first = readings[0]!;
  const last = readings[readings.length - 1]!;
  if (at <= first.at) return first.height;
  if (at >= last.at) return last.height;
  const i = readings.findIndex((reading) => reading.at >= at);
  const a = readings[i - 1]!;
  const b = readings[i]!;
  return a.height + ((b.height - a.height) * (at - a.at)) / (b.at - a.at);
}

/** What a run of boards stands on. null where no face of it was read. Readings of a face must be at different places. */
export function refScribe(
  plan: PlanJson,
  level: FileLevel,
  record: FileRoom,
  room: RefRoom,
  run: RefRun,
): RefScribe | 'silent' | null {
  const gap = record.new?.gap ?? 0;
  const datum = record.floorDatum ?? 0;
  const readingsOf = (loop: number, segment: number): Reading[] | null => {
    const floor = level.faces[room.loops[loop]!.segments[segment]!.key]?.floor ?? [];
    if (floor.length === 0) return null;
    return [...floor]
      .sort((p, q) => p.at - q.at)
      .map(({ at, height }) => ({ at, height: height + gap + datum }));
  };
  /** Mean of what the two faces of the corner at the end of a segment say. */
  const cornerHeight = (loop: number, corner: number): number | null => {
    const { segments } = room.loops[loop]!;
    const before = readingsOf(loop, corner);
    const after = readingsOf(loop, (corner + 1) % segments.length);
    const said: number[] = [];
    if (before !== null) said.push(heightOn(before, segments[corner]!.length));
    if (after !== null) said.push(heightOn(after, 0));
    return said.length === 0 ? null : said.reduce((a, b) => a + b, 0) / said.length;
  };

  // One bar for the boards of a stretch; neighbouring bars share the height in their corner.
  const stretches = run.boards.filter((board) => board.part === 0).map((board) => board.stretch);
  if (stretches.every((s) => readingsOf(s.loop, s.segment) === null)) return null;
  const n = stretches.length;
  const heights = run.closed ? n : n + 1;
  const bars = stretches.map(
    (stretch, i): RefBar => ({
      stretch,
      stations: [],
      left: i,
      right: (i + 1) % heights,
      height: plan.profiles[stretch.profile]!.height!,
    }),
  );

  // Heights at the bars' ends: in corners as its faces say; unknown ones between known ones along the run.
  const known = bars.map(({ stretch }): { left: number | null; right: number | null } => {
    const corners = room.loops[stretch.loop]!.segments.length;
    const mine = readingsOf(stretch.loop, stretch.segment);
    const at = (stop: RefStretch['left'], corner: number, s: number): number | null => {
      if (stop.kind === 'corner') return cornerHeight(stretch.loop, corner);
      return mine === null ? null : heightOn(mine, s);
    };
    return {
      left: at(stretch.left, (stretch.segment + corners - 1) % corners, stretch.from),
      right: at(stretch.right, stretch.segment, stretch.to),
    };
  });
  const ends: (number | null)[] = [];
  for (let h = 0; h < heights; h++) ends.push(h < n ? known[h]!.left : known[n - 1]!.right);
  // A run from a block round to the same block, in a corner nobody read: one corner, two ends; the page does not say.
  const [first, last] = [stretches[0]!, stretches[n - 1]!];
  const around =
    first.left.kind === 'corner' && last.right.kind === 'corner' && ends[0] === null && ends[n] === null;
  const sameLoop = room.loops[first.loop]!.segments.length;
  if (!run.closed && around && (last.segment + 1) % sameLoop === first.segment) return 'silent';
  const lengths = stretches.map((s) => s.to - s.from);
  const filled = ends.map((height, h): number => {
    if (height !== null) return height;
    const look = (step: 1 | -1): { height: number; far: number } | null => {
      let far = 0;
      let here = h;
      for (let i = 0; i < heights; i++) {
        const bar = step === 1 ? here : here - 1;
        if (!run.closed && (bar < 0 || bar >= n)) return null;
        far += lengths[(bar + n) % n]!;
        here = run.closed ? (here + step + heights) % heights : here + step;
        const height = ends[here];
        if (height !== null && height !== undefined) return { height, far };
      }
      return null;
    };
    const forth = look(1);
    const back = look(-1);
    if (forth !== null && back !== null) {
      return back.height + ((forth.height - back.height) * back.far) / (back.far + forth.far);
    }
    return (forth ?? back)!.height;
  });
  const guessed = new Set<number>();
  // A face nobody read is straight between its two corners, past whatever stands between them.
  bars.forEach((bar, i) => {
    const { stretch } = bar;
    if (readingsOf(stretch.loop, stretch.segment) !== null) return;
    const segment = room.loops[stretch.loop]!.segments[stretch.segment]!;
    const corners = room.loops[stretch.loop]!.segments.length;
    const far = (corner: number, at: number, own: number, stop: number): number => {
      const height = cornerHeight(stretch.loop, corner);
      const near = segment.length - at;
      if (height === null) guessed.add(at === 0 ? bar.left : bar.right);
      return height === null ? own : height + ((own - height) * (stop - at)) / (near - at);
    };
    if (stretch.left.kind !== 'corner' && i === 0) {
      const corner = (stretch.segment + corners - 1) % corners;
      filled[bar.left] = far(corner, 0, filled[bar.right]!, stretch.from);
    } else if (stretch.right.kind !== 'corner' && i === n - 1) {
      filled[bar.right] = far(stretch.segment, segment.length, filled[bar.left]!, stretch.to);
    }
  });
  for (const bar of bars) {
    const { stretch } = bar;
    const mine = readingsOf(stretch.loop, stretch.segment) ?? [];
    bar.stations = [
      { at: stretch.from, floor: filled[bar.left]!, guessed: guessed.has(bar.left) },
      ...mine
        .filter(({ at }) => at > stretch.from && at < stretch.to)
        .map(({ at, height }) => ({ at, floor: height })),
      { at: stretch.to, floor: filled[bar.right]!, guessed: guessed.has(bar.right) },
    ];
  }
  const old = record.old;
  const whole = old?.baseHeight !== undefined && old.floor !== undefined && old.gap !== undefined;
  return {
    bars,
    heights,
    tolerance: record.new?.carpet
      ? (plan.settings.carpetTolerance ?? 3.175)
      : (plan.settings.scribeTolerance ?? 0.79375),
    line: whole ? old.floor! + old.gap! + old.baseHeight! : null,
  };
}

export interface RefAnswer {
  shortfall: number;
  area: number;
  deepest: number;
}

type Row = Map<string, number>;

/** Least shortfall of the old line, then least trimmed area, then least deepest cut. */
export function answer(scribe: RefScribe): RefAnswer {
  // The solver's variables are at least 0: heights count from well below every floor.
  const lowest = Math.min(...scribe.bars.flatMap((bar) => bar.stations.map((s) => s.floor))) - 500;
  const constraints = new Map<string, { min?: number; max?: number }>();
  const columns = new Map<string, Row>();
  const put = (column: string, row: string, factor: number): void => {
    const list = columns.get(column) ?? new Map<string, number>();
    list.set(row, (list.get(row) ?? 0) + factor);
    columns.set(column, list);
  };
  scribe.bars.forEach((bar, b) => {
    const { stations } = bar;
    const from = stations[0]!.at;
    const length = stations[stations.length - 1]!.at - from;
    stations.forEach((station, k) => {
      const name = `${b}.${k}`;
      const share = (station.at - from) / length;
      const y = (row: string): void => {
        if (share < 1) put(`y${bar.left}`, row, 1 - share);
        if (share > 0) put(`y${bar.right}`, row, share);
      };
      constraints.set(`open${name}`, { max: station.floor + scribe.tolerance - lowest });
      y(`open${name}`);
      constraints.set(`trim${name}`, { min: station.floor - lowest });
      y(`trim${name}`);
      put(`s${name}`, `trim${name}`, 1);
      if (scribe.line !== null) {
        constraints.set(`line${name}`, { min: scribe.line - bar.height - lowest });
        y(`line${name}`);
        put('short', `line${name}`, 1);
      }
      constraints.set(`deep${name}`, { min: 0 });
      put('deep', `deep${name}`, 1);
      put(`s${name}`, `deep${name}`, -1);
      const before = stations[k - 1]?.at ?? station.at;
      const after = stations[k + 1]?.at ?? station.at;
      put(`s${name}`, 'area', (after - before) / 2);
    });
  });
  put('short', 'shortfall', 1);
  put('deep', 'deepest', 1);
  const aim = (objective: string): number => {
    const solution = solve(
      { direction: 'minimize', objective, constraints, variables: columns },
      { precision: 1e-9, maxPivots: 100_000, checkCycles: true },
    );
    if (solution.status !== 'optimal') throw new Error(`${objective}: ${solution.status}`);
    return solution.result;
  };
  const shortfall = scribe.line === null ? 0 : aim('shortfall');
  constraints.set('shortfall', { max: shortfall + 1e-8 });
  const area = aim('area');
  constraints.set('area', { max: area + 1e-6 });
  return { shortfall, area, deepest: aim('deepest') };
}

/** Lower hull of the floor profile read at `at`: how high a straight board that may leave no gap can stand there. */
export function hullAt(stations: readonly RefStation[], at: number): number {
  let best = Infinity;
  for (const p of stations) {
    if (p.at === at) best = Math.min(best, p.floor);
    for (const q of stations) {
      if (p.at < at && q.at > at) {
        best = Math.min(best, p.floor + ((q.floor - p.floor) * (at - p.at)) / (q.at - p.at));
      }
    }
  }
  return best;
}
