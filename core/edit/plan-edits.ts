// Edits of the plan as a whole: its levels, settings, title, units, the boards on hand and those
// that are held. Ticks. RULES: ED13, ED17.

import { lookup } from '../plan/maps.ts';
import type { Level, Plan } from '../plan/schema.ts';
import { type Changes, wholeTicks, withChanges, withRecord } from './fields.ts';
import { editHeld, heldOnLevels } from './held-edits.ts';
import { editProfile, noProfile } from './profile-edits.ts';
import type { AddLevel, PlanRecordEdit } from './record-edits.ts';
import { failure, newIdFault } from './refuse.ts';
import type { EditFailure } from './types.ts';

/** Settings that are no lengths. */
const NO_LENGTHS: ReadonlySet<string> = new Set([
  'roundIn',
  'roundMm',
  'voidAreaM2',
  'buildUpDeg',
  'scarfDeg',
  'angleOddDeg',
  'sawStandingDeg',
  'sawBevelDeg',
  'sparePercent',
  'labelColumns',
  'labelRows',
]);

export function editPlan(plan: Plan, edit: PlanRecordEdit): Plan | EditFailure {
  switch (edit.type) {
    case 'addProfile':
    case 'changeProfile':
    case 'renameProfile':
    case 'deleteProfile':
      return editProfile(plan, edit);
    case 'setSettings': {
      const settings = withChanges(plan.settings, wholeTicks(edit.set, NO_LENGTHS));
      return settings === plan.settings ? plan : { ...plan, settings };
    }
    case 'setPlan': {
      const { title, units, builtYear, studs } = edit.set;
      return withChanges<Plan>(plan, { title, units, builtYear, studs: wholeTicks(studs) } as Changes<Plan>);
    }
    case 'setStockOnHand': {
      if (lookup(plan.profiles, edit.profile) === undefined) return noProfile(edit.profile);
      const boards = edit.boards.map(({ length, count }) => ({ length: wholeTicks(length), count }));
      const stockOnHand = withRecord(
        plan.stockOnHand,
        edit.profile,
        boards.length === 0 ? undefined : boards,
      );
      return stockOnHand === plan.stockOnHand ? plan : { ...plan, stockOnHand };
    }
    case 'holdBoard':
    case 'letGoBoard':
    case 'letGoBoards':
      if (lookup(plan.profiles, edit.profile) === undefined) return noProfile(edit.profile);
      return editHeld(plan, edit);
    case 'addLevel':
      return addLevel(plan, edit);
    default: {
      const position = plan.levels.findIndex((level) => level.id === edit.level);
      const level = plan.levels[position];
      if (level === undefined) return noLevel(edit.level);
      if (edit.type === 'changeLevel') {
        const { name, ceilingHeight } = wholeTicks(edit.set);
        const changed = withChanges<Level>(level, { name, ceilingHeight } as Changes<Level>);
        return changed === level ? plan : { ...plan, levels: plan.levels.with(position, changed) };
      }
      const others = plan.levels.toSpliced(position, 1);
      if (edit.type === 'deleteLevel') {
        if (others.length > 0) return { ...plan, levels: others, heldBoards: heldOnLevels(plan, others) };
        return failure('last-level', `Level ${level.id} is the only one: a plan has at least one.`);
      }
      if (edit.position === position) return plan;
      if (!isPlace(edit.position, others)) return noPlace(edit.position, others);
      return { ...plan, levels: others.toSpliced(edit.position, 0, level) };
    }
  }
}

export function noLevel(id: string): EditFailure {
  return failure('no-level', `There is no level ${id} in this plan.`);
}

function isPlace(position: number, levels: readonly Level[]): boolean {
  return Number.isInteger(position) && position >= 0 && position <= levels.length;
}

function noPlace(position: number, levels: readonly Level[]): EditFailure {
  return failure('bad-number', `${position} is no place among the levels: 0 to ${levels.length} are.`);
}

function addLevel(
  plan: Plan,
  { level: id, record, position = plan.levels.length }: AddLevel,
): Plan | EditFailure {
  const taken = plan.levels.some((level) => level.id === id);
  const fault = newIdFault(id, taken, 'in this plan');
  if (fault !== null) return fault;
  if (!isPlace(position, plan.levels)) return noPlace(position, plan.levels);
  const { name, ceilingHeight } = wholeTicks(record);
  const level: Level = {
    id,
    name,
    ceilingHeight,
    nodes: {},
    walls: {},
    openings: {},
    builtIns: {},
    marks: {},
    rooms: {},
    corners: {},
    faces: {},
  };
  const levels = plan.levels.toSpliced(position, 0, level);
  return { ...plan, levels, heldBoards: heldOnLevels(plan, levels) };
}
