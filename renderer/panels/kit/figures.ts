// Lengths and angles as the window reads and prints them: core's own reading and printing, with the plan's units and
// rounding.

import { type Plan, settingsOf } from '../../../core/plan/index.ts';
import { formatLength, parseAngle, parseLength } from '../../../core/units/index.ts';

export interface Figures {
  readonly units: 'imperial' | 'metric';
  /** A length in ticks as text, in feet and inches. */
  length(ticks: number): string;
  /** The same in inches only: board lengths. */
  inches(ticks: number): string;
  /** To 1/64 in or 0.1 mm: small lengths. */
  fine(ticks: number): string;
  /** Ticks, or a sentence saying what is wrong. */
  readLength(text: string): { readonly ok: true; readonly value: number } | Refused;
  readAngle(text: string): { readonly ok: true; readonly value: number } | Refused;
}
export interface Refused {
  readonly ok: false;
  readonly message: string;
}

export function figuresOf(plan: Plan): Figures {
  const { units } = plan;
  const { roundIn, roundMm } = settingsOf(plan);
  return {
    units,
    length: (ticks) => formatLength(ticks, { units, roundIn, roundMm, style: 'feet' }),
    inches: (ticks) => formatLength(ticks, { units, roundIn, roundMm, style: 'inches' }),
    fine: (ticks) => formatLength(ticks, { units, roundIn: 64, roundMm: 0.1, style: 'inches' }),
    readLength: (text) => {
      const read = parseLength(text, units);
      return read.ok ? { ok: true, value: read.ticks } : { ok: false, message: read.message };
    },
    readAngle: (text) => {
      const read = parseAngle(text);
      return read.ok ? { ok: true, value: read.deg } : { ok: false, message: read.message };
    },
  };
}
