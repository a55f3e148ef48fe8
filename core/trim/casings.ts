// The casings of a level's openings, side by side: head, legs and, round a window, sill, with short and long points.
// Lengths in ticks; left and right leg as seen facing the wall on that side. RULES: CS.

import { mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Plan } from '../plan/schema.ts';
import type { LevelWalk, Room } from '../walk/types.ts';
import type { CasingSet } from './types.ts';

const SIDES = ['left', 'right'] as const;

/**
 * The casing sets of a level, by opening id and then left before right [CS1–CS4]. A side whose casing is none or not
 * known gives none, nor does a passage. `room` is the room whose face shows the opening on that side, null outdoors.
 */
export function casingsOf(plan: Plan, walk: LevelWalk): CasingSet[] {
  const roomAt = new Map<string, Room>();
  for (const room of walk.rooms) {
    for (const loop of room.loops) {
      for (const segment of loop.segments) {
        for (const seen of segment.openings) {
          const id = `${seen.id}.${seen.side}`;
          if (!roomAt.has(id)) roomAt.set(id, room);
        }
      }
    }
  }
  const sets: CasingSet[] = [];
  for (const [opening, record] of sortedEntries(walk.level.openings)) {
    if (record.kind === 'passage') continue;
    for (const side of SIDES) {
      const profileId = record.casing?.[side];
      if (profileId == null) continue;
      const id = `${opening}.${side}`;
      const room = roomAt.get(id);
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
