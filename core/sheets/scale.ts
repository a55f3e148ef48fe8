// Named drawing scales, which of them fits, and the bar that shows it. Ticks to points: 72 points and 8128 ticks to the
// inch. Kept: a bar's cells are as long on paper as they say at the drawing's scale [SH8].

import type { Point } from '../graph/types.ts';
import { TICKS_PER_FOOT, TICKS_PER_INCH, TICKS_PER_MM } from '../units/ticks.ts';
import type { Item, TextMeasure } from './items.ts';
import { rectangle, rule, THIN } from './shapes.ts';
import { text } from './texts.ts';

/** `ratio` 48 means that 1 on paper is 48 in the house. */
export interface NamedScale {
  readonly name: string;
  readonly ratio: number;
}
/** One that may be asked for: `key` is how it is typed, `1/4` or `1:50`. */
export interface ListedScale extends NamedScale {
  readonly key: string;
}
export type Units = 'imperial' | 'metric';

/**
 * Largest first. Architectural: inches on paper to a foot; 1/4 in to the foot is 1:48. Metric: the usual ratios of building
 * drawings [SH8]. The hyphen in 1′‐0″ is U+2010: the font sets the other one as wide as a figure.
 */
export const SCALES: Readonly<Record<Units, readonly ListedScale[]>> = {
  imperial: [
    { key: '3', name: '3″ = 1′‐0″', ratio: 4 },
    { key: '1 1/2', name: '1 1⁄2″ = 1′‐0″', ratio: 8 },
    { key: '1', name: '1″ = 1′‐0″', ratio: 12 },
    { key: '3/4', name: '3⁄4″ = 1′‐0″', ratio: 16 },
    { key: '1/2', name: '1⁄2″ = 1′‐0″', ratio: 24 },
    { key: '3/8', name: '3⁄8″ = 1′‐0″', ratio: 32 },
    { key: '1/4', name: '1⁄4″ = 1′‐0″', ratio: 48 },
    { key: '3/16', name: '3⁄16″ = 1′‐0″', ratio: 64 },
    { key: '1/8', name: '1⁄8″ = 1′‐0″', ratio: 96 },
    { key: '3/32', name: '3⁄32″ = 1′‐0″', ratio: 128 },
    { key: '1/16', name: '1⁄16″ = 1′‐0″', ratio: 192 },
  ],
  metric: [
    { key: '1:5', name: '1:5', ratio: 5 },
    { key: '1:10', name: '1:10', ratio: 10 },
    { key: '1:20', name: '1:20', ratio: 20 },
    { key: '1:25', name: '1:25', ratio: 25 },
    { key: '1:50', name: '1:50', ratio: 50 },
    { key: '1:100', name: '1:100', ratio: 100 },
    { key: '1:200', name: '1:200', ratio: 200 },
    { key: '1:500', name: '1:500', ratio: 500 },
  ],
};

/** The smallest scale at which a plan's figures still have room: below it a level is tiled. */
export const SMALLEST_PLAN_RATIO: Readonly<Record<Units, number>> = { imperial: 96, metric: 100 };

/** What a floor plan is drawn at where nothing is asked for, and what may be asked for; largest first [SH12]. */
export const PLAN_SCALES: Readonly<Record<Units, readonly ListedScale[]>> = {
  imperial: SCALES.imperial.filter(({ ratio }) => ratio <= SMALLEST_PLAN_RATIO.imperial),
  metric: SCALES.metric.filter(({ ratio }) => ratio <= SMALLEST_PLAN_RATIO.metric),
};

/** Every key of a plan scale, whatever the units. */
export const PLAN_SCALE_KEYS: readonly string[] = Object.values(PLAN_SCALES).flatMap((scales) =>
  scales.map(({ key }) => key),
);

/** A plan scale as it is typed, `1/4`, `1/4"`, `1-1/2 in` or `1:50`; or one sentence that says which there are [SH8]. */
export function readPlanScale(typed: string, units: Units): ListedScale | string {
  const key = typed
    .trim()
    .replace(/\s*(?:"|″|in)$/, '')
    .replaceAll('⁄', '/')
    .replace(/(\d)[-\s]+(?=\d)/, '$1 ')
    .replace(/\s*:\s*/, ':');
  const scales = PLAN_SCALES[units];
  const found = scales.find((each) => each.key === key);
  if (found !== undefined) return found;
  const said = units === 'imperial' ? 'inches on paper to a foot' : 'ratios';
  return `${JSON.stringify(typed)} is no scale for the floor plans of this house; choose one of ${scales
    .map((each) => each.key)
    .join(', ')} (${said}).`;
}

/** Points on paper for a tick in the house. */
export function pointsPerTick(ratio: number): number {
  return 72 / (TICKS_PER_INCH * ratio);
}

/** The first of the scales, largest first, at which `size` (ticks) fits `room` (points), or null where none does. */
export function chooseScale(
  size: readonly [widthTicks: number, heightTicks: number],
  room: readonly [width: number, height: number],
  scales: readonly NamedScale[],
): NamedScale | null {
  return (
    scales.find(
      ({ ratio }) =>
        size[0] * pointsPerTick(ratio) <= room[0] + 1e-9 && size[1] * pointsPerTick(ratio) <= room[1] + 1e-9,
    ) ?? null
  );
}

/** For what has no named scale that fits: the whole-number ratio that does. Marked as such in its name. */
export function looseScale(
  size: readonly [widthTicks: number, heightTicks: number],
  room: readonly [width: number, height: number],
): NamedScale {
  const exact = Math.max(size[0] / room[0], size[1] / room[1]) * (72 / TICKS_PER_INCH);
  const ratio = Math.max(1, Math.ceil(exact));
  return { name: `1:${ratio}`, ratio };
}

/** Steps that a bar may count in, with what its last figure says. */
const STEPS: Readonly<Record<Units, readonly { ticks: number; shown: number; unit: string }[]>> = {
  imperial: [
    ...[1 / 128, 1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1].map((shown) => ({
      ticks: shown * TICKS_PER_INCH,
      shown,
      unit: 'in',
    })),
    { ticks: 3 * TICKS_PER_INCH, shown: 3, unit: 'in' },
    { ticks: 6 * TICKS_PER_INCH, shown: 6, unit: 'in' },
    ...[1, 2, 4, 5, 10, 20, 50, 100, 200, 500, 1000].map((shown) => ({
      ticks: shown * TICKS_PER_FOOT,
      shown,
      unit: 'ft',
    })),
  ],
  metric: [
    ...[0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200].map((shown) => ({
      ticks: shown * TICKS_PER_MM,
      shown,
      unit: 'mm',
    })),
    ...[0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500].map((shown) => ({
      ticks: shown * 1000 * TICKS_PER_MM,
      shown,
      unit: 'm',
    })),
  ],
};
const CELLS = 4;
const BAR_HEIGHT = 4.5;

/**
 * A bar of four cells, true on paper [SH8], from `at` (its top left) to the right, at most `width` points with its
 * figures. The widest step that fits is taken. `height` is from top to the figures' baseline.
 */
export function scaleBar(
  measure: TextMeasure,
  spec: { readonly at: Point; readonly width: number; readonly ratio: number; readonly units: Units },
): { readonly items: Item[]; readonly height: number; readonly width: number } {
  const perTick = pointsPerTick(spec.ratio);
  const size = 7.5;
  const lastFigure = (step: { shown: number; unit: string }) =>
    `${figure(CELLS * step.shown, step.unit)} ${step.unit}`;
  const reach = (step: { ticks: number; shown: number; unit: string }) =>
    CELLS * step.ticks * perTick + measure.width(lastFigure(step), 'regular', size);
  const steps = STEPS[spec.units];
  const step = steps.findLast((each) => reach(each) <= spec.width) ?? steps[0]!;
  const cell = step.ticks * perTick;
  const [x, y] = spec.at;
  const items: Item[] = [];
  for (let k = 0; k < CELLS; k++)
    items.push(
      rectangle(
        [x + k * cell, y, x + (k + 1) * cell, y + BAR_HEIGHT],
        { ink: 'ink', width: 0.5 },
        k % 2 === 0 ? 'ink' : 'paper',
        'scale-bar',
      ),
    );
  const base = y + BAR_HEIGHT + 3 + size * 0.75;
  for (let k = 0; k <= CELLS; k++) {
    const last = k === CELLS;
    const words = last ? lastFigure(step) : figure(k * step.shown, step.unit);
    // Only 0, the middle and the end are named where the cells are narrow.
    if (!last && k % 2 === 1 && cell < 22) continue;
    items.push(
      rule([x + k * cell, y + BAR_HEIGHT], [x + k * cell, y + BAR_HEIGHT + 2], { ink: 'ink', width: THIN }),
    );
    items.push(
      text(measure, {
        text: words,
        at: [
          last
            ? x + k * cell - measure.width(figure(k * step.shown, step.unit), 'regular', size) / 2
            : x + k * cell,
          base,
        ],
        size,
        ink: 'graphite',
        align: last || k === 0 ? 'left' : 'middle',
        role: 'scale-figure',
      }),
    );
  }
  return { items, height: base - y, width: reach(step) };
}

/** Parts of an inch as fractions, of the rest as decimals. */
function figure(value: number, unit: string): string {
  if (unit !== 'in' || Number.isInteger(value)) return String(Math.round(value * 100) / 100);
  const whole = Math.floor(value);
  let [top, over] = [(value - whole) * 128, 128];
  while (top % 2 === 0) [top, over] = [top / 2, over / 2];
  return `${whole === 0 ? '' : `${whole} `}${top}⁄${over}`;
}
