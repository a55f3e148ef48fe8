// A new plan: one level, nothing drawn. Lengths in ticks. RULES: PL9.

import { ticksFromMm } from '../units/ticks.ts';
import type { LevelId, Plan } from './schema.ts';

/** Ceiling height of a new level, mm: 8 ft, and the round figure nearest to it. */
const CEILING_MM = { imperial: 2438.4, metric: 2400 } as const;

/** A plan with one empty level `L1`. [PL9] */
export function emptyPlan(units: 'imperial' | 'metric'): Plan {
  return {
    format: 'copewright-plan',
    version: 1,
    title: 'New plan',
    units,
    settings: {},
    profiles: {},
    levels: [
      {
        id: 'L1' as LevelId,
        name: 'Ground floor',
        ceilingHeight: ticksFromMm(CEILING_MM[units]),
        nodes: {},
        walls: {},
        openings: {},
        builtIns: {},
        marks: {},
        rooms: {},
        corners: {},
        faces: {},
      },
    ],
    stockOnHand: {},
    heldBoards: {},
    counters: { corner: 0 },
  };
}
