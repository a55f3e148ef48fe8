// Which rooms of the walk are open, from one state of the house to the next. A room's id changes when it gets its first
// record or loses its last, and a wall makes two rooms of one: a room is known by the numbers of its corners, which stay.

import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import { numbersOf, roomNow, roomsOf } from '../../state/same-room.ts';
import { levelKey, roomKey } from './row.ts';

/** A house with no more rooms than this has all of them open until the user folds some. */
const FEW_ROOMS = 4;

type Shown = Pick<Derived, 'levels'>;
type Room = DerivedLevel['walk']['rooms'][number];

/** What is open when the walk is first shown: all levels, and all rooms of a small house, else the first. */
export function firstOpened({ levels }: Shown): ReadonlySet<string> {
  const keys = levels.map(({ walk }) => levelKey(walk.levelId));
  const rooms = levels.flatMap(({ walk }) => walk.rooms.map((room) => roomKey(walk.levelId, room.id)));
  return new Set([...keys, ...(rooms.length <= FEW_ROOMS ? rooms : rooms.slice(0, 1))]);
}

/**
 * What is open in `now`, given what was in `then`: a room that was not there is open where it has a corner of one that
 * was open; one that has no corner of any, in a small house. The same set where nothing is added.
 */
export function openedStill(opened: ReadonlySet<string>, then: Shown, now: Shown): ReadonlySet<string> {
  const count = now.levels.reduce((sum, { walk }) => sum + walk.rooms.length, 0);
  const added = now.levels.flatMap(({ walk }) => {
    const was = then.levels.find((level) => level.walk.levelId === walk.levelId)?.walk;
    if (was === walk) return [];
    const known = new Set(was?.rooms.map(({ id }) => id));
    const fresh = walk.rooms.filter(({ id }) => !known.has(id));
    if (fresh.length === 0) return [];
    const openBefore = new Map<number, boolean>();
    for (const room of was?.rooms ?? []) {
      const open = opened.has(roomKey(walk.levelId, room.id));
      for (const number of numbersOf(room)) openBefore.set(number, open);
    }
    const isOpen = (room: Room): boolean => {
      const kin = numbersOf(room).flatMap((number) => openBefore.get(number) ?? []);
      return kin.length === 0 ? count <= FEW_ROOMS : kin.includes(true);
    };
    return fresh.filter(isOpen).map(({ id }) => roomKey(walk.levelId, id));
  });
  return added.length === 0 ? opened : new Set([...opened, ...added]);
}

/** The key of a row once its room has another id. The same key where no room has a corner of it. */
export function rowKeyNow(key: string, then: Shown, now: Shown): string {
  const [room, thing] = key.includes(' ') ? (key.split(' ') as [string, string]) : [null, key];
  const [kind, level, id] = thing.split('|');
  const was = room ?? (kind === 'room' ? id : undefined);
  if (was === undefined) return key;
  const heir = roomNow(was, roomsOf(then, level!), roomsOf(now, level!));
  return room === null ? roomKey(level!, heir) : `${heir} ${thing}`;
}
