// Edits of profiles: a profile and everything that names it change together, so that no plan names one that is not there.
// RULES: ED16.

import { lookup, sortedEntries } from '../plan/maps.ts';
import {
  type Level,
  LINES,
  type Plan,
  type Profile,
  type ProfileId,
  type TrimChoice,
} from '../plan/schema.ts';
import { wholeTicks, withChanges, withRecord } from './fields.ts';
import { heldOfProfile } from './held-edits.ts';
import type { AddProfile, ChangeProfile, DeleteProfile, RenameProfile } from './record-edits.ts';
import { failure, newIdFault } from './refuse.ts';
import type { EditFailure } from './types.ts';

export type ProfileEdit = AddProfile | ChangeProfile | RenameProfile | DeleteProfile;

/** Fields of a profile that are no lengths. */
const NO_LENGTHS: ReadonlySet<string> = new Set(['springAngle', 'price', 'onHand']);

export function editProfile(plan: Plan, edit: ProfileEdit): Plan | EditFailure {
  const { profile: id } = edit;
  const was = lookup(plan.profiles, id);
  if (edit.type === 'addProfile') {
    const fault = newIdFault(id, was !== undefined, 'in this plan');
    return fault ?? { ...plan, profiles: withRecord(plan.profiles, id, wholeTicks(edit.record, NO_LENGTHS)) };
  }
  if (was === undefined) return noProfile(id);
  switch (edit.type) {
    case 'changeProfile': {
      const record = withChanges<Profile>(was, wholeTicks(edit.set, NO_LENGTHS));
      const used = record.kind === was.kind ? [] : usesOf(plan, id);
      if (used.length > 0) {
        const uses = listed(used);
        return failure('in-use', `Profile ${id} is used as ${was.kind} by ${uses}: its kind cannot change.`);
      }
      return { ...plan, profiles: withRecord(plan.profiles, id, record) };
    }
    case 'renameProfile': {
      if (edit.to === id) return plan;
      const fault = newIdFault(edit.to, lookup(plan.profiles, edit.to) !== undefined, 'in this plan');
      return fault ?? renamed(plan, id, was, edit.to);
    }
    case 'deleteProfile':
      return deleted(plan, id, was, edit);
  }
}

export function noProfile(id: string): EditFailure {
  return failure('no-profile', `There is no profile ${id} in this plan.`);
}

function renamed(plan: Plan, id: ProfileId, record: Profile, to: ProfileId): Plan {
  const boards = lookup(plan.stockOnHand, id);
  const onHand = withRecord(plan.stockOnHand, id, undefined);
  return {
    ...plan,
    profiles: withRecord(withRecord(plan.profiles, id, undefined), to, record),
    stockOnHand: boards === undefined ? plan.stockOnHand : withRecord(onHand, to, boards),
    heldBoards: heldOfProfile(plan, id, to),
    levels: plan.levels.map((level) => renamedOn(level, id, to)),
  };
}

function deleted(plan: Plan, id: ProfileId, was: Profile, { instead }: DeleteProfile): Plan | EditFailure {
  const used = usesOf(plan, id);
  if (used.length > 0 && instead === undefined) {
    return failure('in-use', `Profile ${id} is used by ${listed(used)}: say what takes its place.`);
  }
  if (instead != null) {
    const other = instead === id ? undefined : lookup(plan.profiles, instead);
    if (other === undefined) return noProfile(instead);
    if (other.kind !== was.kind) {
      return failure(
        'in-use',
        `Profile ${instead} is a ${other.kind} and cannot stand for ${id}, a ${was.kind}.`,
      );
    }
  }
  return {
    ...plan,
    profiles: withRecord(plan.profiles, id, undefined),
    stockOnHand: withRecord(plan.stockOnHand, id, undefined),
    heldBoards: heldOfProfile(plan, id, null),
    levels: plan.levels.map((level) => renamedOn(level, id, instead ?? null)),
  };
}

/** What on the plan names a profile, in plain words: rooms by name, faces and openings by id. */
export function usesOf(plan: Plan, id: ProfileId): string[] {
  const uses: string[] = [];
  const inTrim = (trim: TrimChoice | undefined) => LINES.some((line) => trim?.[line] === id);
  for (const level of plan.levels) {
    for (const [, room] of sortedEntries(level.rooms)) {
      if (inTrim(room.trim)) uses.push(`room ${JSON.stringify(room.name)}`);
    }
    for (const [key, face] of sortedEntries(level.faces)) if (inTrim(face.trim)) uses.push(`face ${key}`);
    for (const [opening, { casing }] of sortedEntries(level.openings)) {
      if (casing?.left === id || casing?.right === id) uses.push(`opening ${opening}`);
    }
  }
  return uses;
}

function listed(uses: readonly string[]): string {
  const shown = uses.slice(0, 3);
  const rest = uses.length - shown.length;
  return rest > 0 ? `${shown.join(', ')} and ${rest} more` : shown.join(' and ');
}

/** Profiles that a level names and the plan has not. */
export function strangeProfiles({ rooms, faces, openings }: Level, { profiles }: Plan): readonly ProfileId[] {
  const trims = [...Object.values(rooms), ...Object.values(faces)].flatMap(({ trim }) =>
    Object.values(trim ?? {}),
  );
  const casings = Object.values(openings).flatMap(({ casing }) => Object.values(casing ?? {}));
  const named = new Set([...trims, ...casings].filter((id): id is ProfileId => id != null));
  return [...named].filter((id) => lookup(profiles, id) === undefined).sort();
}

/** A level on which `to` stands wherever `id` stood; null: none. */
export function renamedOn(level: Level, id: ProfileId, to: ProfileId | null): Level {
  const inTrim = <T extends { trim?: TrimChoice | undefined }>(record: T): T => {
    if (!LINES.some((line) => record.trim?.[line] === id)) return record;
    const lines = Object.entries(record.trim ?? {}).map(([line, profile]) => [
      line,
      profile === id ? to : profile,
    ]);
    return { ...record, trim: Object.fromEntries(lines) };
  };
  let { rooms, faces, openings } = level;
  for (const [key, room] of sortedEntries(rooms)) rooms = withRecord(rooms, key, inTrim(room));
  for (const [key, face] of sortedEntries(faces)) faces = withRecord(faces, key, inTrim(face));
  for (const [key, opening] of sortedEntries(openings)) {
    const { casing } = opening;
    if (casing?.left !== id && casing?.right !== id) continue;
    const sides = Object.entries(casing).map(([side, profile]) => [side, profile === id ? to : profile]);
    openings = withRecord(openings, key, { ...opening, casing: Object.fromEntries(sides) });
  }
  const same = rooms === level.rooms && faces === level.faces && openings === level.openings;
  return same ? level : { ...level, rooms, faces, openings };
}
