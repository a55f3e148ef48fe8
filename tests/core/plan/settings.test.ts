import { describe, expect, it } from 'vitest';
import {
  byCodeUnit,
  DEFAULT_SETTINGS,
  emptyPlan,
  lookup,
  mustLookup,
  PlanSchema,
  readPlan,
  settingsOf,
  sortedEntries,
  writePlan,
} from '../../../core/plan/index.ts';
import { mmFromTicks } from '../../../core/units/index.ts';

// As the plan file's description lists them: millimetres, degrees, square metres, counts.
const DEFAULTS = {
  roundIn: 16,
  roundMm: 1,
  voidAreaM2: 0.25,
  buildUpDeg: 1.5,
  scribeAllowance: 12.7,
  returnHold: 0,
  scarfDeg: 30,
  copeMin: 152.4,
  springOver: 1219.2,
  springBy: 0.79375,
  flushUnder: 1.5875,
  closeUnder: 3.175,
  sliverUnder: 50.8,
  angleOddDeg: 5,
  lengthOdd: 12.7,
  sawStandingDeg: 50,
  sawBevelDeg: 45,
  scribeDeep: 9.525,
  scribeTolerance: 0.79375,
  carpetTolerance: 3.175,
  kerf: 3.175,
  endTrim: 12.7,
  sparePercent: 10,
  blockSize: 25.4,
  shimStep: 1.5875,
  nearlyMeet: 304.8,
  minScarfPiece: 914.4,
  labelColumns: 3,
  labelRows: 10,
};

describe('settings', () => {
  it('[SET] the defaults written to a file are the listed ones, whole ticks each, and none is missing', () => {
    const text = writePlan({ ...emptyPlan('imperial'), settings: { ...DEFAULT_SETTINGS } });
    expect(JSON.parse(text).settings).toEqual(DEFAULTS);
    expect(Object.keys(PlanSchema.shape.settings.def.innerType.shape)).toEqual(Object.keys(DEFAULTS));
    expect(mmFromTicks(DEFAULT_SETTINGS.springBy) / 25.4).toBe(1 / 32);
  });

  it('[SET] a plan sets some, null and absent take the default', () => {
    const file = { format: 'copewright-plan', version: 1, title: '', units: 'metric', levels: [] };
    const read = readPlan(JSON.stringify({ ...file, settings: { kerf: 2, buildUpDeg: 0, endTrim: null } }));
    if (!read.ok) throw new Error(read.error.message);
    expect(settingsOf(read.plan)).toEqual({ ...DEFAULT_SETTINGS, kerf: 640, buildUpDeg: 0 });
  });
});

describe('maps', () => {
  it('an id that is named like a part of every object is found only where it is a record', () => {
    const map: Record<string, number> = { a: 1 };
    expect(lookup(map, 'constructor')).toBeUndefined();
    expect(lookup(map, 'toString')).toBeUndefined();
    expect(lookup(map, null)).toBeUndefined();
    expect(lookup(map, undefined)).toBeUndefined();
    expect(lookup({ ...map, constructor: 2 } as Record<string, number>, 'constructor')).toBe(2);
    expect(() => mustLookup(map, 'hasOwnProperty')).toThrow(/"hasOwnProperty"/);
  });

  it('[PL7] entries come in code-unit order, capitals and digits as they fall', () => {
    const map = { n9: 0, n10: 0, b: 0, B: 0, a_b: 0, 'a-b': 0, aé: 0 };
    expect(sortedEntries(map).map(([key]) => key)).toEqual(['B', 'a-b', 'a_b', 'aé', 'b', 'n10', 'n9']);
    expect([byCodeUnit('a', 'b'), byCodeUnit('b', 'a'), byCodeUnit('a', 'a')]).toEqual([-1, 1, 0]);
  });
});
