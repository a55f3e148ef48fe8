// A derived plan with its stretches joined otherwise, as the boards want them. Only rooms whose joints differ are set anew,
// one step each, so that a window can do other things in between. Kept: the result equals a derivation from nothing (RP3).

import { findingsByRoom, levelFindings, sortFindings } from '../fit/index.ts';
import type { Finding } from '../fit/types.ts';
import { sameList } from '../graph/index.ts';
import type { Plan } from '../plan/schema.ts';
import { trimRoom } from '../trim/index.ts';
import { type RoomTrim, type Splits, stretchKey } from '../trim/types.ts';
import type { Room } from '../walk/types.ts';
import { type LevelLender, levelReport, roomReport } from './build.ts';
import { atOnce } from './steps.ts';
import { sameSurroundings } from './surroundings.ts';
import type { Derived, DerivedLevel, LevelReport } from './types.ts';

/** A level whose rooms may be lent, and the stretches that are joined otherwise there. */
interface Joined {
  readonly level: DerivedLevel;
  readonly otherwise: ReadonlySet<string>;
}

/**
 * A derived plan with its stretches joined as `splits` says, as `solve` chooses them. Levels that `splits` does not name stay
 * as they are. Its `report` is not made anew: that is the solved one's. `earlier`, joined as boards wanted it then, lends the
 * rooms that are the same and joined the same.
 */
export function rejoined(derived: Derived, splits: Splits, earlier?: Derived): Derived {
  return atOnce(rejoining(derived, splits, earlier));
}

/** The same in steps: a room each, and what is to be done of a level and of the plan as a whole. */
export function* rejoining(derived: Derived, splits: Splits, earlier?: Derived): Generator<void, Derived> {
  if (splits === derived.splits) return derived;
  const { plan } = derived;
  const named = joinedOtherwise(splits, derived.splits);
  const lent = earlier !== undefined && sameSurroundings(earlier.plan, plan) ? earlier : undefined;
  const than = lent && joinedOtherwise(splits, lent.splits);
  const levels: DerivedLevel[] = [];
  for (const level of derived.levels) {
    const { levelId } = level.walk;
    const before = lent?.levels.find(({ walk }) => walk.levelId === levelId);
    const lenders: Joined[] = [{ level, otherwise: named }];
    if (before !== undefined) lenders.push({ level: before, otherwise: than! });
    const stays = ![...named].some((key) => key.startsWith(`${levelId}|`));
    levels.push(stays ? level : yield* rejoinLevel(plan, level, splits, lenders));
  }
  yield;
  const ofLevels = new Set(derived.levels.flatMap((level) => level.findings));
  const findings = sortFindings(
    [...derived.findings.filter((each) => !ofLevels.has(each)), ...levels.flatMap((level) => level.findings)],
    plan,
  );
  return { ...derived, levels, splits, findings };
}

/** The keys of the stretches that two ways of joining join otherwise. */
function joinedOtherwise(a: Splits, b: Splits): ReadonlySet<string> {
  const differs = (key: string): boolean => {
    const [one, other] = [a[key], b[key]];
    return one === undefined || other === undefined || !sameList(one, other);
  };
  return new Set([...Object.keys(a), ...Object.keys(b)].filter(differs));
}

function* rejoinLevel(
  plan: Plan,
  { walk, casings, report }: DerivedLevel,
  splits: Splits,
  lenders: readonly Joined[],
): Generator<void, DerivedLevel> {
  const known = new Map<Room, RoomTrim>();
  for (const { level, otherwise } of lenders)
    level.walk.rooms.forEach((room, i) => {
      const trim = level.trims[i]!;
      if (!known.has(room) && !joins(trim, otherwise)) known.set(room, trim);
    });
  const trims: RoomTrim[] = [];
  const roomFindings: (readonly Finding[])[] = [];
  const rooms: LevelReport['rooms'][number][] = [];
  const findingsIn = findingsByRoom(plan, { walk, trims, casings });
  for (const room of walk.rooms) {
    if (known.has(room)) continue;
    const trim = trimRoom(plan, room, splits);
    known.set(room, trim);
    trims.push(trim);
    roomFindings.push(findingsIn(trim));
    rooms.push(roomReport(trim));
    yield;
  }
  const anew: LevelLender = { walk, casings, trims, roomFindings, report: { ...report, rooms } };
  const lend = [...lenders.map(({ level }) => level), anew];
  yield;
  const bare = { walk, casings, trims: walk.rooms.map((room) => known.get(room)!) };
  return { ...bare, ...levelFindings(plan, bare, lend), report: levelReport(bare, lend) };
}

/** Whether one of a room's stretches is among those named by their keys. */
function joins({ room, lines }: RoomTrim, named: ReadonlySet<string>): boolean {
  return lines.some(({ stretches }) => stretches.some((stretch) => named.has(stretchKey(room, stretch))));
}
