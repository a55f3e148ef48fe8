// The last step of changing walls: what stands on them gets whole places and lies on its wall again. Lengths in ticks.
// RULES: ED5.

import type { Point } from '../graph/index.ts';
import { distance } from '../graph/index.ts';
import { byCodeUnit } from '../plan/maps.ts';
import type { WallId } from '../plan/schema.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { moveStanding, type Standing } from './standing.ts';
import { mustGet, note, type Working } from './working.ts';

/** Makes the places of all that was moved whole and brings what hangs over its wall back onto it. RULES: ED5. */
export function settleStanding(working: Working): void {
  for (const id of [...working.stirred].sort(byCodeUnit)) {
    const wall = mustGet(working.walls, id);
    const [from, to] = [mustGet(working.nodes, wall.from), mustGet(working.nodes, wall.to)];
    const length = distance(from, to);
    const things = working.standing.get(id) ?? [];
    for (const thing of things.sort((a, b) => byCodeUnit(a.kind, b.kind) || byCodeUnit(a.id, b.id))) {
      fit(working, thing, id, from, to, length);
    }
  }
}

/** An opening lies inside its wall, if need be made narrower; the rest only where it did before. RULES: ED5. */
function fit(working: Working, thing: Standing, id: WallId, from: Point, to: Point, length: number): void {
  const { width } = thing.record;
  const free = thing.overhangs && thing.kind !== 'openings';
  const wanted = roundHalfAway(thing.record.at);
  const at = free ? wanted : Math.max(0, Math.min(wanted, Math.floor(length - width)));
  moveStanding(thing, id, at);
  const share = Math.max(0, Math.min(1, (at + width / 2) / length));
  const middle: Point = [
    roundHalfAway(from[0] + (to[0] - from[0]) * share),
    roundHalfAway(from[1] + (to[1] - from[1]) * share),
  ];
  const name = `${WORDS[thing.kind]} ${thing.id}`;
  if (!free && width > length) {
    let done = 'no longer fits it';
    if (thing.kind === 'openings') {
      thing.record = { ...thing.record, width: Math.max(1, Math.floor(length)) };
      done = 'is made as narrow as that';
    }
    note(working, middle, [thing.id, id], `${name} was wider than wall ${id} now is and ${done}.`, true);
  } else if (Math.abs(at - wanted) > 1) {
    note(
      working,
      middle,
      [thing.id, id],
      `${name} stood past the end of wall ${id} and is moved onto it.`,
      true,
    );
  }
}

const WORDS = { openings: 'Opening', builtIns: 'Built-in', marks: 'Mark' } as const;
