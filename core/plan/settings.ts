// The plan's settings with every default filled in. Lengths in ticks, angles in degrees. RULES: SET.

import { roundHalfAway, TICKS_PER_MM } from '../units/ticks.ts';
import type { Plan } from './schema.ts';

type SettingKey = keyof Plan['settings'];
/** All settings, none missing. Lengths in ticks. */
export type Settings = { readonly [K in SettingKey]-?: Exclude<Plan['settings'][K], undefined> };

const mm = (value: number): number => roundHalfAway(value * TICKS_PER_MM);

/** The defaults of the plan file, lengths in ticks. */
export const DEFAULT_SETTINGS: Settings = {
  roundIn: 16,
  roundMm: 1,
  voidAreaM2: 0.25,
  buildUpDeg: 1.5,
  scribeAllowance: mm(12.7),
  returnHold: 0,
  scarfDeg: 30,
  copeMin: mm(152.4),
  springOver: mm(1219.2),
  springBy: mm(0.79375),
  flushUnder: mm(1.5875),
  closeUnder: mm(3.175),
  sliverUnder: mm(50.8),
  angleOddDeg: 5,
  lengthOdd: mm(12.7),
  sawStandingDeg: 50,
  sawBevelDeg: 45,
  scribeDeep: mm(9.525),
  scribeTolerance: mm(0.79375),
  carpetTolerance: mm(3.175),
  kerf: mm(3.175),
  endTrim: mm(12.7),
  sparePercent: 10,
  blockSize: mm(25.4),
  shimStep: mm(1.5875),
  nearlyMeet: mm(304.8),
  minScarfPiece: mm(914.4),
  labelColumns: 3,
  labelRows: 10,
};

/** The plan's settings, defaults where it sets none. */
export function settingsOf(plan: Plan): Settings {
  const set = Object.fromEntries(Object.entries(plan.settings).filter(([, value]) => value !== undefined));
  return { ...DEFAULT_SETTINGS, ...set };
}
