// A level's findings, room by room, and the order in which findings are read. Pure: the same level gives the same list.

import { byCodeUnit } from '../plan/maps.ts';
import type { LevelId, Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { CasingSet, RoomTrim } from '../trim/types.ts';
import type { LevelWalk } from '../walk/types.ts';
import type { RoomContext } from './context.ts';
import {
  casingStockFindings,
  crowdedFindings,
  markFindings,
  pocketFindings,
  sillFindings,
} from './crowding.ts';
import { heightChangeFindings, oldLineFindings } from './heights.ts';
import { walkFindings } from './house.ts';
import {
  circleFindings,
  copeShortFindings,
  sawFindings,
  scarfFindings,
  sliverFindings,
  stockFindings,
} from './joints.ts';
import { angleFindings, lengthFindings, recordFindings, unmeasuredFindings } from './measured.ts';
import { whole } from './say.ts';
import { thicknessFindings } from './thickness.ts';
import { type Finding, SEVERITIES } from './types.ts';

/** One level as walked and trimmed. `trims` is parallel to `walk.rooms`. */
export interface LevelBundle {
  readonly walk: LevelWalk;
  readonly trims: readonly RoomTrim[];
  readonly casings: readonly CasingSet[];
}

/** Everything that is checked in one room without a solver, in no particular order. */
export function roomFindings(
  plan: Plan,
  level: LevelId,
  trim: RoomTrim,
  casings: readonly CasingSet[],
): Finding[] {
  const context: RoomContext = { plan, settings: settingsOf(plan), level, room: trim.room, trim };
  return [
    ...thicknessFindings(context),
    ...oldLineFindings(context),
    ...heightChangeFindings(context),
    ...crowdedFindings(context),
    ...sliverFindings(context),
    ...scarfFindings(context),
    ...angleFindings(context),
    ...lengthFindings(context),
    ...recordFindings(context),
    ...sawFindings(context),
    ...circleFindings(context),
    ...copeShortFindings(context),
    ...pocketFindings(context),
    ...markFindings(context),
    ...sillFindings(context),
    ...stockFindings(context),
    ...casingStockFindings(context, casings),
    ...unmeasuredFindings(context),
  ];
}

/**
 * What is wrong on one level, apart from what needs the solver (`scribeFindings`), the whole plan (`planFindings`) or
 * the opening of the file (`mendedFinding`). Requires `trims` parallel to `walk.rooms`. Sorted (RULES: FD1).
 */
export function findingsOf(plan: Plan, level: LevelBundle): Finding[] {
  const found = [
    ...walkFindings(plan, level.walk),
    ...level.trims.flatMap((trim) => roomFindings(plan, level.walk.levelId, trim, level.casings)),
  ];
  return sortFindings(found, plan);
}

/**
 * Findings in reading order: severity, level as the file has them (the whole plan first), place (y, then x, to the
 * tick; no place first), code, then what it is about. Does not change its argument (RULES: FD1).
 */
export function sortFindings(findings: readonly Finding[], plan: Plan): Finding[] {
  const order = new Map(plan.levels.map((level, index) => [level.id, index]));
  const levelOf = (found: Finding): number =>
    found.level === null ? -1 : (order.get(found.level) ?? plan.levels.length);
  const place = (found: Finding, axis: 0 | 1): number =>
    found.at === null ? Number.NEGATIVE_INFINITY : whole(found.at[axis]);
  const compare = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);
  return [...findings].sort(
    (a, b) =>
      SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
      compare(levelOf(a), levelOf(b)) ||
      compare(place(a, 1), place(b, 1)) ||
      compare(place(a, 0), place(b, 0)) ||
      byCodeUnit(a.code, b.code) ||
      byCodeUnit(a.about.join('\n'), b.about.join('\n')) ||
      byCodeUnit(a.message, b.message),
  );
}
