// Which room of now is a room of before an edit. A room without a record is named by its first segment, so another first
// corner, its first record and the loss of its last give it another id: it is known by the numbers of its corners, which
// stay with them (RULES: ED10). What is chosen follows it here, for every change of the plan.

import type { Derived, DerivedLevel } from '../../core/report/index.ts';
import type { Ref } from './refs.ts';

type Room = DerivedLevel['walk']['rooms'][number];
type Levels = Pick<Derived, 'levels'>;

/**
 * The id that a room of before goes by now: of several rooms with corners of it the one with the most. The same id where
 * there is none.
 */
export function roomNow(id: string, then: readonly Room[], now: readonly Room[]): string {
  const old = then.find((room) => room.id === id);
  if (old === undefined || now.includes(old)) return id;
  if (old.record !== undefined && now.some((room) => room.id === id)) return id;
  const numbers = new Set(numbersOf(old));
  let [heir, most] = [id, 0];
  for (const room of now) {
    const shared = numbersOf(room).filter((number) => numbers.has(number)).length;
    if (shared > most) [heir, most] = [room.id, shared];
  }
  return heir;
}

/** What was chosen before, as it is named now. The same list where every name stays. */
export function refsNow(refs: readonly Ref[], then: Levels, now: Levels): readonly Ref[] {
  const all = refs.map((ref) => refNow(ref, then, now));
  return all.every((ref, index) => ref === refs[index]) ? refs : all;
}

export function refNow(ref: Ref, then: Levels, now: Levels): Ref {
  if (ref.kind !== 'room') return ref;
  const id = roomNow(ref.id, roomsOf(then, ref.level), roomsOf(now, ref.level));
  return id === ref.id ? ref : { ...ref, id };
}

/** The numbers of a room's corners, loop by loop. */
export function numbersOf({ loops }: Room): number[] {
  return loops.flatMap(({ corners }) => corners.flatMap(({ number }) => number ?? []));
}

export function roomsOf({ levels }: Levels, level: string): readonly Room[] {
  return levels.find(({ walk }) => walk.levelId === level)?.walk.rooms ?? [];
}
