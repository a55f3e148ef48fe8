// What stands on a wall, openings, built-ins and marks alike, while the wall is worked on: moved along it and turned
// round with it. Ticks along the centre line from the wall's first node. Knows no level.

import { BUILT_IN_KINDS, OPENING_KINDS } from '../plan/kinds.ts';
import type { BuiltIn, BuiltInId, Mark, MarkId, Opening, OpeningId, Side, WallId } from '../plan/schema.ts';

/** An opening, built-in or mark while its wall is worked on. `at` need not be whole until the end. */
export type Standing = { overhangs: boolean } & (
  | { readonly kind: 'openings'; readonly id: OpeningId; record: Opening }
  | { readonly kind: 'builtIns'; readonly id: BuiltInId; record: BuiltIn }
  | { readonly kind: 'marks'; readonly id: MarkId; record: Mark }
);

/** `door o2`, as the crew calls it. */
export function standingWords(thing: Standing): string {
  switch (thing.kind) {
    case 'openings':
      return `${OPENING_KINDS[thing.record.kind]} ${thing.id}`;
    case 'builtIns':
      return `${BUILT_IN_KINDS[thing.record.kind]} ${thing.id}`;
    case 'marks':
      return `${thing.record.kind} ${thing.id}`;
  }
}

export function otherSide(side: Side): Side {
  return side === 'left' ? 'right' : 'left';
}

/** Puts it at a place on a wall. */
export function moveStanding(thing: Standing, wall: WallId, at: number): void {
  // One line a kind, so that each keeps its own type.
  if (thing.kind === 'openings') thing.record = { ...thing.record, wall, at };
  else if (thing.kind === 'builtIns') thing.record = { ...thing.record, wall, at };
  else thing.record = { ...thing.record, wall, at };
}

/** Turns what stands on a wall of `length` ticks as its wall is turned round: places from the other end, sides swapped. */
export function turnStanding(thing: Standing, length: number): void {
  moveStanding(thing, thing.record.wall, length - thing.record.at - thing.record.width);
  mirrorStanding(thing);
  if (thing.kind === 'openings') thing.record = pocketTurned(thing.record);
}

/** Swaps the wall's sides for what stands on it, as in a mirror; its places along the wall stay. */
export function mirrorStanding(thing: Standing): void {
  if (thing.kind === 'openings') thing.record = casingTurned(thing.record);
  else if (thing.kind === 'builtIns') thing.record = sideTurned(thing.record);
  else thing.record = sideTurned(thing.record);
}

/** An opening as it is in a wall that is drawn the other way round: what was on its left side is on its right. */
export function turnedRound(opening: Opening): Opening {
  return pocketTurned(casingTurned(opening));
}

function sideTurned<T extends BuiltIn | Mark>(record: T): T {
  return { ...record, side: otherSide(record.side) };
}

function casingTurned({ casing, ...rest }: Opening): Opening {
  if (casing === undefined) return rest;
  const turned = {
    ...(casing.right === undefined ? {} : { left: casing.right }),
    ...(casing.left === undefined ? {} : { right: casing.left }),
  };
  return { ...rest, casing: turned };
}

function pocketTurned(opening: Opening): Opening {
  if (opening.pocket === undefined) return opening;
  return { ...opening, pocket: opening.pocket === 'start' ? 'end' : 'start' };
}
