// One invented room of 4 m by 3 m between its faces, and the little that the tests change in it. File units: mm, degrees.
// Walls: w1 along the top (left to right), w2 right, w3 bottom, w4 left; corners 1 to 4 end them in walking order.

import { findingsOf } from '../../../core/fit/index.ts';
import type { LevelBundle } from '../../../core/fit/level.ts';
import type { Finding, FindingCode } from '../../../core/fit/types.ts';
import { type Plan, type PlanFile, PlanSchema } from '../../../core/plan/schema.ts';
import { casingsOf, trimRoom } from '../../../core/trim/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';

type FileLevel = PlanFile['levels'][number];
export type Change = Partial<Omit<FileLevel, 'id'>> & {
  readonly plan?: Partial<PlanFile>;
  readonly room?: Partial<NonNullable<FileLevel['rooms']>[string]>;
};

/** Millimetres of so many inches, without the dust of the multiplication. */
export const inch = (inches: number): number => Math.round(inches * 25.4e6) / 1e6;
/** Half a wall. */
const HALF = 50;

export const PROFILES: NonNullable<PlanFile['profiles']> = {
  base: {
    kind: 'base',
    name: 'Eased base',
    height: inch(5.5),
    thickness: inch(0.5),
    form: 'shaped',
    material: 'pine',
    stock: [{ length: 4876.8, price: null, onHand: null }],
  },
  casing: {
    kind: 'casing',
    name: 'Casing',
    width: inch(2.75),
    thickness: inch(0.6875),
    edgeThickness: inch(0.5625),
    form: 'flat',
    material: 'poplar',
    stock: [],
  },
  shoe: {
    kind: 'shoe',
    name: 'Shoe',
    height: inch(0.75),
    thickness: inch(0.5),
    form: 'shaped',
    material: 'pine',
    stock: [],
  },
};

/** A door in the middle of w1, cased on both sides. */
export const DOOR: NonNullable<FileLevel['openings']>[string] = {
  wall: 'w1',
  at: 1650,
  width: 800,
  height: 2032,
  sill: 0,
  kind: 'door',
  reveal: inch(3 / 16),
  casing: { left: 'casing', right: 'casing' },
};

/** The room: base all round, everything known, old and new alike so that nothing is wrong with it. */
export function planFile(change: Change = {}): PlanFile {
  const { plan, room, ...level } = change;
  return {
    format: 'copewright-plan',
    version: 1,
    title: 'Test room',
    units: 'imperial',
    builtYear: 1999,
    profiles: PROFILES,
    counters: { corner: 4 },
    ...plan,
    levels: [
      {
        id: 'L1',
        name: 'Ground floor',
        ceilingHeight: 2438.4,
        nodes: {
          n1: [-HALF, -HALF],
          n2: [4000 + HALF, -HALF],
          n3: [4000 + HALF, 3000 + HALF],
          n4: [-HALF, 3000 + HALF],
        },
        walls: {
          w1: { from: 'n1', to: 'n2', thickness: 2 * HALF },
          w2: { from: 'n2', to: 'n3', thickness: 2 * HALF },
          w3: { from: 'n3', to: 'n4', thickness: 2 * HALF },
          w4: { from: 'n4', to: 'n1', thickness: 2 * HALF },
        },
        corners: {
          'n2:w1>w2': { number: 1 },
          'n3:w2>w3': { number: 2 },
          'n4:w3>w4': { number: 3 },
          'n1:w4>w1': { number: 4 },
        },
        ...level,
        rooms: {
          r1: {
            name: 'Hall',
            at: [2000, 1500],
            trim: { base: 'base' },
            old: { baseHeight: inch(3.5), floor: 0, gap: 0 },
            new: { floor: 0, gap: 0 },
            ...room,
          },
        },
      },
    ],
  };
}

export function planOf(change: Change = {}): Plan {
  return PlanSchema.parse(planFile(change));
}

export function bundleOf(plan: Plan): LevelBundle {
  const walk = walkLevel(plan, plan.levels[0]!);
  return {
    walk,
    trims: walk.rooms.map((room) => trimRoom(plan, room, {})),
    casings: casingsOf(plan, walk),
  };
}

export function found(change: Change): Finding[] {
  const plan = planOf(change);
  return findingsOf(plan, bundleOf(plan));
}

/** The findings of one code. */
export function all(code: FindingCode, change: Change): Finding[] {
  return found(change).filter((each) => each.code === code);
}

/** The only finding of a code. */
export function one(code: FindingCode, change: Change): Finding {
  const findings = all(code, change);
  if (findings.length !== 1) throw new Error(`${findings.length} findings ${code}`);
  return findings[0]!;
}

/** A profile of the test's own beside the usual ones. */
export function profiles(own: Record<string, Partial<(typeof PROFILES)[string]>>): Partial<PlanFile> {
  const kinds = Object.entries(own).map(([id, fields]) => {
    const like = PROFILES[id] ?? PROFILES[(fields.kind ?? 'base') as string]!;
    return [id, { ...like, ...fields }];
  });
  return { profiles: { ...PROFILES, ...Object.fromEntries(kinds) } };
}
