// Lengths as words, for reasons and messages. Ticks in, text in the plan's units out.

import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { formatLength } from '../units/index.ts';
import type { Ticks } from '../units/ticks.ts';

/** Below this a length is printed finely: a step of 1/64 in must not vanish. One foot. */
const FINE_UNDER: Ticks = 12 * 8128;

/** The size of a length in the plan's units, to 1/64 in or 0.1 mm under a foot, else as the plan rounds. No sign. */
export function sayLength(plan: Plan, ticks: Ticks): string {
  const settings = settingsOf(plan);
  const size = Math.abs(ticks);
  const fine = size < FINE_UNDER;
  const options = {
    units: plan.units,
    roundIn: fine ? 64 : settings.roundIn,
    roundMm: fine ? 0.1 : settings.roundMm,
  } as const;
  const leastTicks = plan.units === 'imperial' ? 127 : 32;
  if (size > 0 && size < leastTicks / 2) return `less than ${formatLength(leastTicks, options)}`;
  return formatLength(size, options);
}
