// The casings of a level's openings, side by side: head, legs and, round a window, sill, with short and long points.
// Lengths in ticks; left and right leg as seen facing the wall on that side. RULES: CS.

import { byCodeUnit, changedKeys, lookup, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Opening, OpeningId, Plan, Side } from '../plan/schema.ts';
import type { LevelWalk, Room } from '../walk/types.ts';
import type { CasingSet } from './types.ts';

const SIDES = ['left', 'right'] as const;

/** The casing sets of an earlier walk of the level, in a plan with the same profiles. */
export interface EarlierCasings {
  readonly walk: LevelWalk;
  readonly casings: readonly CasingSet[];
}

/**
 * The casing sets of a level, by opening id and then left before right [CS1–CS4]. A side whose casing is none or not
 * known gives none, nor does a passage. `room` is the room whose face shows the opening on that side, null outdoors.
 * `since` lends the sets of openings that are what they were, in rooms that are what they were, as the same objects [RP3].
 */
export function casingsOf(plan: Plan, walk: LevelWalk, since?: EarlierCasings): readonly CasingSet[] {
  const { openings } = walk.level;
  if (since === undefined) return setsOf(plan, sortedEntries(openings), roomsAtOpenings(walk));
  const touched = touchedOpenings(walk, since.walk);
  if (touched.size === 0) return since.casings;
  const there = [...touched].filter((id) => lookup(openings, id) !== undefined).sort(byCodeUnit);
  const entries = there.map((id): [OpeningId, Opening] => [id, openings[id]!]);
  const fresh = setsOf(plan, entries, roomsAtOpenings(walk, touched));
  const lent = since.casings.filter((set) => !touched.has(set.opening));
  return [...lent, ...fresh].sort((a, b) => byCodeUnit(a.opening, b.opening));
}

/** Openings that changed, came or went, and those seen in rooms that did. */
function touchedOpenings(walk: LevelWalk, before: LevelWalk): Set<OpeningId> {
  const touched = new Set(changedKeys(before.level.openings, walk.level.openings));
  const [rooms, then] = [new Set(walk.rooms), new Set(before.rooms)];
  const changed = [
    ...walk.rooms.filter((room) => !then.has(room)),
    ...before.rooms.filter((room) => !rooms.has(room)),
  ];
  for (const { loops } of changed) {
    for (const { segments } of loops) {
      for (const segment of segments) for (const { id } of segment.openings) touched.add(id);
    }
  }
  return touched;
}

/** The sets of some openings. */
function setsOf(plan: Plan, openings: readonly [OpeningId, Opening][], roomAt: BySide<Room>): CasingSet[] {
  const sets: CasingSet[] = [];
  for (const [opening, record] of openings) {
    if (record.kind === 'passage') continue;
    for (const side of SIDES) {
      const profileId = record.casing?.[side];
      if (profileId == null) continue;
      const room = roomAt[side].get(opening);
      const id = `${opening}.${side}`;
      const width = mustLookup(plan.profiles, profileId).width ?? 0;
      const reveal = record.reveal ?? 0;
      const allRound = record.sill > 0;
      const floor = room?.record?.new?.floor;
      const headShort = record.width + 2 * reveal;
      const head = { short: headShort, long: headShort + 2 * width };
      const foot = (floor ?? 0) + (record.plinth?.height ?? 0);
      const legShort = allRound ? record.height + 2 * reveal : record.height - foot + reveal;
      const leg = { short: legShort, long: legShort + (allRound ? 2 : 1) * width };
      sets.push({
        id,
        opening,
        side,
        room: room?.id ?? null,
        profileId,
        assumedFloor: !allRound && floor === undefined,
        parts: [
          { part: 'head', ...head },
          { part: 'legLeft', ...leg },
          { part: 'legRight', ...leg },
          ...(allRound ? [{ part: 'sill' as const, ...head }] : []),
        ],
      });
    }
  }
  return sets;
}

type BySide<T> = { readonly [S in Side]: Map<OpeningId, T> };

/** The first room, in canonical order, whose face shows an opening on a side; of all openings, or only some. */
function roomsAtOpenings(walk: LevelWalk, only?: ReadonlySet<OpeningId>): BySide<Room> {
  const roomAt: BySide<Room> = { left: new Map(), right: new Map() };
  for (const room of walk.rooms) {
    for (const { segments } of room.loops) {
      for (const segment of segments) {
        for (const { id, side } of segment.openings) {
          if (only?.has(id) === false || roomAt[side].has(id)) continue;
          roomAt[side].set(id, room);
        }
      }
    }
  }
  return roomAt;
}
