// Figures as the sheet prints them: core's own printing with the plan's units and rounding. Ticks and degrees in, text out.

import { type Plan, settingsOf } from '../../core/plan/index.ts';
import { formatAngle, formatArea, formatLength } from '../../core/units/index.ts';
import type { SheetWords } from './placing.ts';

/** A memory by the plan's settings: edits of walls leave them as they are, and labels stay with the same words. */
const made = new WeakMap<Plan['settings'], { readonly units: Plan['units']; readonly words: SheetWords }>();

/** The same object for plans with the same settings and units. */
export function wordsOf(plan: Plan): SheetWords {
  const known = made.get(plan.settings);
  if (known?.units === plan.units) return known.words;
  const { units } = plan;
  const { roundIn, roundMm } = settingsOf(plan);
  const words: SheetWords = {
    length: (ticks) => formatLength(ticks, { units, roundIn, roundMm, style: 'feet' }),
    height: (ticks) =>
      `${ticks > 0 ? '+' : ''}${formatLength(ticks, { units, roundIn, roundMm, style: 'inches' })}`,
    angle: formatAngle,
    area: (squareTicks) => formatArea(squareTicks, units),
  };
  made.set(plan.settings, { units, words });
  return words;
}
