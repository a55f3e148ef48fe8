// A run's heights to the scribe of each of its boards: bottom, trim and gap at each station, how deep, from which end,
// how high to shim. Ticks. Kept: at no place is there both trim and gap.

import { heightAt } from './floor.ts';
import type { ScribeBar, ScribeRun } from './scribe-run.ts';
import type { Scribe, Station } from './types.ts';

/** Less than 1/64 in counts as untouched and as level (RULES: SC8). */
export const UNTOUCHED = 127;
/** What the solver may leave of a zero: 0.001 mm. Nothing that hangs on a comparison may hang on less. */
export const SOLVER_NOISE = 0.32;

interface Placed extends Station {
  /** Along the segment. */
  readonly place: number;
}

/** Bottom, trim and gap of a bar at its stations. */
function placedStations(bar: ScribeBar, left: number, right: number): Placed[] {
  const bottomAt = (at: number): number => left + ((right - left) * (at - bar.from)) / (bar.to - bar.from);
  return bar.stations.map(({ at, floor }) => {
    const bottom = bottomAt(at);
    const trim = noNoise(floor - bottom);
    const gap = noNoise(bottom - floor);
    return { place: at, at, floor, bottom, trim, gap };
  });
}

/** Above zero by more than the solver's last digits, else 0. A hundredth of what counts as its noise. */
function noNoise(value: number): number {
  return value > SOLVER_NOISE / 100 ? value : 0;
}

/** A bar at a place between two stations: floor and bottom lie on straight lines, and trim or gap is what parts them. */
function between(stations: readonly Placed[], place: number): Placed {
  const next = Math.max(
    1,
    stations.findIndex((station) => station.place >= place),
  );
  const a = stations[next - 1]!;
  const b = stations[next]!;
  const t = (place - a.place) / (b.place - a.place);
  const floor = a.floor + (b.floor - a.floor) * t;
  const bottom = a.bottom + (b.bottom - a.bottom) * t;
  return { place, at: place, floor, bottom, trim: noNoise(floor - bottom), gap: noNoise(bottom - floor) };
}

function areaOf(stations: readonly Pick<Station, 'at' | 'trim'>[]): number {
  let area = 0;
  for (let k = 1; k < stations.length; k += 1) {
    const [a, b] = [stations[k - 1]!, stations[k]!];
    area += ((a.trim + b.trim) / 2) * (b.at - a.at);
  }
  return area;
}

/**
 * How much the bar's top falls short of the old line at worst between two places; 0 or less where it covers. Null without
 * a line. Line and top are straight between the places that are looked at, so the worst is at one of them.
 */
export function shortfallOf(
  bar: ScribeBar,
  left: number,
  right: number,
  from: number,
  to: number,
): number | null {
  const { height } = bar;
  if (height === null) return null;
  const lines = [...bar.stations, ...bar.lineOnly]
    .flatMap(({ at, line }) => (line === null ? [] : [{ at, height: line }]))
    .sort((a, b) => a.at - b.at);
  if (lines.length === 0) return null;
  const top = (at: number): number =>
    left + ((right - left) * (at - bar.from)) / (bar.to - bar.from) + height;
  const places = [from, ...lines.map((each) => each.at).filter((at) => at > from && at < to), to];
  return Math.max(...places.map((at) => heightAt(lines, at) - top(at)));
}

function kindOf(stations: readonly Station[]): Scribe['kind'] {
  const first = stations[0]!;
  const last = stations.at(-1)!;
  let hump = 0;
  let dip = 0;
  for (const station of stations) {
    const chord = first.floor + ((last.floor - first.floor) * (station.at - first.at)) / (last.at - first.at);
    hump = Math.max(hump, station.floor - chord);
    dip = Math.max(dip, chord - station.floor);
  }
  const least = UNTOUCHED - SOLVER_NOISE;
  if (Math.max(hump, dip) >= least) return hump >= dip ? 'hump' : 'dip';
  return Math.abs(last.floor - first.floor) >= least ? 'slope' : 'level';
}

function takeFrom(stations: readonly Station[]): Scribe['takeFrom'] {
  const touched = stations.map((station) => station.trim >= UNTOUCHED - SOLVER_NOISE);
  if (!touched.includes(true)) return 'none';
  const left = touched[0];
  const right = touched.at(-1);
  if (left && right) return 'both';
  return left ? 'left' : right ? 'right' : 'middle';
}

/** The scribe of each board of a run whose heights are known. One for each piece; a scarfed bar gives several. */
export function scribeOf(run: ScribeRun, heights: readonly number[]): Scribe[] {
  const bars = run.bars.map((bar) => ({
    bar,
    stations: placedStations(bar, heights[bar.left]!, heights[bar.right]!),
  }));
  const runArea = bars.reduce((sum, { stations }) => sum + areaOf(stations), 0);
  return bars.flatMap(({ bar, stations }) =>
    bar.pieces.map((piece, p): Scribe => {
      const first = p === 0 ? stations[0]! : between(stations, piece.from);
      const last = p === bar.pieces.length - 1 ? stations.at(-1)! : between(stations, piece.to);
      const inside = stations.filter((station) => station.place > first.place && station.place < last.place);
      const own = [first, ...inside, last].map(
        ({ place, floor, bottom, trim, gap }): Station => ({
          at: place - first.place,
          floor,
          bottom,
          trim,
          gap,
        }),
      );
      const deepest = Math.max(...own.map((station) => station.trim));
      const touched = deepest >= UNTOUCHED - SOLVER_NOISE;
      const short = shortfallOf(
        bar,
        heights[bar.left]!,
        heights[bar.right]!,
        p === 0 ? bar.from : piece.from,
        p === bar.pieces.length - 1 ? bar.to : piece.to,
      );
      return {
        piece: piece.id,
        kind: kindOf(own),
        takeFrom: takeFrom(own),
        deepest,
        area: areaOf(own),
        shim: touched ? Math.ceil((deepest - SOLVER_NOISE) / run.shimStep) * run.shimStep : 0,
        coversOldLine: short === null || short <= SOLVER_NOISE,
        runArea,
        stations: own,
        underGap: run.gap,
        carpet: run.carpet,
        assumed: bar.assumed,
      };
    }),
  );
}
