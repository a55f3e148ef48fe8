// Which sizes each kind of moulding has and what they mean, a new moulding to begin with, and a copy. Ticks.

import { type AddProfile, idGiver } from '../../../core/edit/index.ts';
import type { Plan, Profile, ProfileId } from '../../../core/plan/index.ts';
import { ticksFromMm } from '../../../core/units/index.ts';

export type Kind = Profile['kind'];

export const KINDS: readonly { readonly kind: Kind; readonly words: string; readonly prefix: string }[] = [
  { kind: 'base', words: 'Base', prefix: 'base-' },
  { kind: 'shoe', words: 'Shoe', prefix: 'shoe-' },
  { kind: 'casing', words: 'Casing', prefix: 'case-' },
  { kind: 'crown', words: 'Crown', prefix: 'crown-' },
  { kind: 'chairRail', words: 'Chair rail', prefix: 'chair-' },
  { kind: 'pictureRail', words: 'Picture rail', prefix: 'picture-' },
];

export interface SizeField {
  readonly field: 'height' | 'width' | 'thickness' | 'edgeThickness' | 'projection' | 'drop';
  readonly words: string;
  readonly says: string;
  /** Always has a value. */
  readonly needed?: boolean;
}

const THICKNESS: SizeField = {
  field: 'thickness',
  words: 'Thickness',
  says: 'How far it stands off the wall at its thickest.',
  needed: true,
};
const HEIGHT: SizeField = {
  field: 'height',
  words: 'Height',
  says: 'From its bottom to its top.',
  needed: true,
};

export function sizesOf(kind: Kind): readonly SizeField[] {
  switch (kind) {
    case 'casing':
      return [
        { field: 'width', words: 'Width', says: 'Across its face, from the jamb outwards.', needed: true },
        THICKNESS,
        {
          field: 'edgeThickness',
          words: 'Edge thickness',
          says: 'At its outer edge, where the base ends. Empty: as thick as it is.',
        },
      ];
    case 'crown':
      return [
        { ...THICKNESS, says: 'Of the moulding itself, from its back to its face.' },
        { field: 'projection', words: 'Projection', says: 'How far it reaches out along the ceiling.' },
        { field: 'drop', words: 'Drop', says: 'How far it reaches down the wall.' },
      ];
    default:
      return [HEIGHT, THICKNESS];
  }
}

/** Sizes to begin with, mm. Ours: common practice, no published source. */
const FIRST: Readonly<Record<Kind, readonly [imperial: Partial<Sizes>, metric: Partial<Sizes>]>> = {
  base: [
    { height: 88.9, thickness: 12.7 },
    { height: 95, thickness: 12 },
  ],
  shoe: [
    { height: 19.05, thickness: 11.1125 },
    { height: 18, thickness: 12 },
  ],
  casing: [
    { width: 57.15, thickness: 17.4625 },
    { width: 60, thickness: 18 },
  ],
  crown: [
    { projection: 60.325, drop: 60.325, thickness: 14.2875, springAngle: 45 },
    { projection: 60, drop: 60, thickness: 14, springAngle: 45 },
  ],
  chairRail: [
    { height: 63.5, thickness: 17.4625 },
    { height: 65, thickness: 18 },
  ],
  pictureRail: [
    { height: 44.45, thickness: 17.4625 },
    { height: 45, thickness: 18 },
  ],
};

interface Sizes {
  readonly height: number;
  readonly width: number;
  readonly thickness: number;
  readonly projection: number;
  readonly drop: number;
  /** Degrees. */
  readonly springAngle: number;
}

/** A new moulding of a kind, with an id that nothing has. */
export function newProfile(plan: Plan, kind: Kind): AddProfile {
  const { prefix, words } = KINDS.find((each) => each.kind === kind)!;
  const id = idGiver<ProfileId>(prefix, Object.keys(plan.profiles))();
  const { springAngle, ...lengths } = FIRST[kind][plan.units === 'imperial' ? 0 : 1];
  const sizes = Object.fromEntries(Object.entries(lengths).map(([field, mm]) => [field, ticksFromMm(mm)]));
  const record = {
    kind,
    name: `New ${words.toLowerCase()}`,
    form: kind === 'casing' ? 'flat' : 'shaped',
    material: '',
    stock: [],
    ...sizes,
    ...(springAngle === undefined ? {} : { springAngle }),
  } as unknown as Profile;
  return { type: 'addProfile', profile: id, record };
}

/** A copy under a new id. */
export function copyOf(plan: Plan, profile: Profile): AddProfile {
  const { prefix } = KINDS.find((each) => each.kind === profile.kind)!;
  const id = idGiver<ProfileId>(prefix, Object.keys(plan.profiles))();
  return {
    type: 'addProfile',
    profile: id,
    record: { ...profile, name: `${profile.name} copy`.slice(0, 200) },
  };
}

const ID = /^[A-Za-z][A-Za-z0-9_-]{0,39}$/;

/** Why an id cannot be had, in a sentence; null where it can. */
export function idProblem(plan: Plan, id: string): string | null {
  if (!ID.test(id)) return 'A letter, then at most 39 letters, digits, “-” or “_”.';
  return Object.hasOwn(plan.profiles, id) ? `There is a profile ${id} already.` : null;
}
