// A level's findings, room by room, and the order in which findings are read. Pure: the same level gives the same list.

import { once, sameList } from '../graph/index.ts';
import { byCodeUnit } from '../plan/maps.ts';
import type { LevelId, Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { CasingSet, RoomTrim } from '../trim/types.ts';
import type { LevelWalk } from '../walk/types.ts';
import { clashFindings } from './clash.ts';
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

/** What was found on a level: room by room as it was found, and all of it in reading order. */
export interface LevelFindings {
  /** Parallel to `walk.rooms`. */
  readonly roomFindings: readonly (readonly Finding[])[];
  readonly findings: readonly Finding[];
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
    ...clashFindings(context),
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
  return [...levelFindings(plan, level).findings];
}

/** A level whose rooms' findings may be lent. */
export type FoundLevel = LevelBundle & Pick<LevelFindings, 'roomFindings'>;

/**
 * The same, with the findings of each room by itself. `lenders`: the level as derived otherwise with the same settings,
 * profiles and stock; what was found in rooms whose trim and casings are the same objects is lent from them (RP3).
 */
export function levelFindings(
  plan: Plan,
  level: LevelBundle,
  lenders: readonly FoundLevel[] = [],
): LevelFindings {
  const byRoom = level.trims.map(findingsByRoom(plan, level, lenders));
  const found = [...walkFindings(plan, level.walk), ...byRoom.flat()];
  return { roomFindings: byRoom, findings: sortFindings(found, plan) };
}

/** What is found in a room of the level, lent where it can be. */
export function findingsByRoom(
  plan: Plan,
  level: LevelBundle,
  lenders: readonly FoundLevel[] = [],
): (trim: RoomTrim) => readonly Finding[] {
  const casings = once(() => casingsByRoom(level));
  const lend = lenders.map((since) => {
    const sameCasings = level.casings === since.casings;
    const before = once(() => casingsByRoom(since));
    const position = new Map(since.trims.map((trim, i) => [trim, i]));
    return (trim: RoomTrim) => {
      const was = position.get(trim);
      if (was === undefined) return undefined;
      const own = () => casings().get(trim.room.id) ?? [];
      const then = () => before().get(trim.room.id) ?? [];
      return sameCasings || sameList(own(), then()) ? since.roomFindings[was]! : undefined;
    };
  });
  return (trim) => {
    for (const from of lend) {
      const lent = from(trim);
      if (lent !== undefined) return lent;
    }
    return roomFindings(plan, level.walk.levelId, trim, casings().get(trim.room.id) ?? []);
  };
}

function casingsByRoom({ casings }: LevelBundle): Map<string, CasingSet[]> {
  const byRoom = new Map<string, CasingSet[]>();
  for (const set of casings) {
    if (set.room === null) continue;
    const list = byRoom.get(set.room);
    if (list === undefined) byRoom.set(set.room, [set]);
    else list.push(set);
  }
  return byRoom;
}

/**
 * Findings in reading order: severity, level as the file has them (the whole plan first), place (y, then x, to the
 * tick; no place first), code, then what it is about. Does not change its argument (RULES: FD1).
 */
export function sortFindings(findings: readonly Finding[], plan: Plan): Finding[] {
  const order = new Map(plan.levels.map((level, index) => [level.id, index]));
  const keyed = findings.map((found) => ({
    found,
    severity: SEVERITIES.indexOf(found.severity),
    level: found.level === null ? -1 : (order.get(found.level) ?? plan.levels.length),
    y: found.at === null ? Number.NEGATIVE_INFINITY : whole(found.at[1]),
    x: found.at === null ? Number.NEGATIVE_INFINITY : whole(found.at[0]),
  }));
  const compare = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);
  keyed.sort(
    (a, b) =>
      a.severity - b.severity ||
      a.level - b.level ||
      compare(a.y, b.y) ||
      compare(a.x, b.x) ||
      byCodeUnit(a.found.code, b.found.code) ||
      byCodeUnit(a.found.about.join('\n'), b.found.about.join('\n')) ||
      byCodeUnit(a.found.message, b.found.message),
  );
  return keyed.map(({ found }) => found);
}
