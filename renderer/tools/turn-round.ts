// An opening that goes over to another wall keeps its sides: its casing towards the room stays towards the room, though the
// other wall may be drawn the other way round. Rooms are known by their level and their own name.

import { turnedRound } from '../../core/edit/index.ts';
import type { Level, Opening, Side, WallId } from '../../core/plan/index.ts';
import type { LevelWalk } from '../../core/walk/index.ts';
import { faceOf } from './faces.ts';

/** The rooms that a wall's two sides look at; null for none. */
export type Beside = Readonly<Record<Side, string | null>>;

export function besideWall(level: Level, walk: LevelWalk, wall: WallId): Beside {
  const roomAt = (side: Side): string | null => {
    const room = faceOf(level, walk, wall, side)?.segment?.room;
    return room === undefined ? null : `${level.id} ${room}`;
  };
  return { left: roomAt('left'), right: roomAt('right') };
}

/** How many of its sides that are cased look at a room. */
function casedInRooms({ casing }: Opening, now: Beside): number {
  return (['left', 'right'] as const).filter((side) => casing?.[side] != null && now[side] !== null).length;
}

/**
 * The opening for a wall with these rooms beside it, from one with those: turned round where more of its sides then look at
 * what they did, and, where both ways are alike in that, where its casing is then in a room.
 */
export function facingAsBefore(opening: Opening, was: Beside, now: Beside): Opening {
  const turned = turnedRound(opening);
  const kept = Number(was.left === now.left) + Number(was.right === now.right);
  const swapped = Number(was.left === now.right) + Number(was.right === now.left);
  if (kept !== swapped) return swapped > kept ? turned : opening;
  return casedInRooms(turned, now) > casedInRooms(opening, now) ? turned : opening;
}

/** What of an opening is another where it goes to another wall of its level. */
export function setForWall(
  opening: Opening,
  wall: WallId,
  { level, walk }: { readonly level: Level; readonly walk: LevelWalk },
): Partial<Pick<Opening, 'wall' | 'casing' | 'pocket'>> {
  if (wall === opening.wall) return {};
  const there = facingAsBefore(opening, besideWall(level, walk, opening.wall), besideWall(level, walk, wall));
  return {
    wall,
    ...(there.casing === opening.casing ? {} : { casing: there.casing! }),
    ...(there.pocket === opening.pocket ? {} : { pocket: there.pocket! }),
  };
}
