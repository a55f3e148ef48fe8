// What the crew calls the kinds of things that a plan holds: the words that window, findings, undo list and paper share.

import type { BuiltIn, Opening, Profile, TrimLine } from './schema.ts';

export const LINE_NAMES: Readonly<Record<TrimLine, string>> = {
  base: 'base',
  shoe: 'shoe',
  crown: 'crown',
  chairRail: 'chair rail',
  pictureRail: 'picture rail',
};

export const PROFILE_KINDS: Readonly<Record<Profile['kind'], string>> = { ...LINE_NAMES, casing: 'casing' };

export const OPENING_KINDS: Readonly<Record<Opening['kind'], string>> = {
  door: 'door',
  cased: 'cased opening',
  window: 'window',
  sliding: 'sliding door',
  pocket: 'pocket door',
  passage: 'passage',
};

export const BUILT_IN_KINDS: Readonly<Record<BuiltIn['kind'], string>> = {
  cabinet: 'cabinet',
  hearth: 'hearth',
  tub: 'tub',
  stair: 'stair',
  radiator: 'radiator',
  column: 'column',
};
