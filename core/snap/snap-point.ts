// What a pointer means: the place it snaps to, what that is called, the lines to draw, and what to hold on to. Pure: the
// same query and state give the same answer. Ticks, x right, y down. RULES: SN1 to SN12.

import type { Point } from '../graph/index.ts';
import { along, cross, distance, minus, unit } from '../graph/index.ts';
import { type Candidate, isShown, nearTargets, whole } from './candidates.ts';
import { caughtOf, choose } from './choose.ts';
import { type Guide, nearGuides } from './guides.ts';
import { LET_GO_PX } from './limits.ts';
import { lockOf } from './lock.ts';
import type { LineItem } from './snap-index.ts';
import type { SnapAnswer, SnapQuery, SnapState, SnapTarget } from './types.ts';

/** Where nothing was caught before. */
export const NO_SNAP: SnapState = { held: [], cycle: 0, pinned: false, touched: [] };

/** Guides from more places than these at once are in the way. */
const TOUCHED_NODES = 2;

/**
 * Where the pointer is taken to be. Pass the state of the answer before on each move of one gesture, none at its start.
 * Requires `pixelsPerTick` above 0; throws otherwise. RULES: SN1 to SN12.
 */
export function snapPoint(query: SnapQuery, state: SnapState = NO_SNAP): SnapAnswer {
  const found = snapped({ ...query, recent: [...(query.recent ?? []), ...state.touched] }, state);
  return { ...found, state: { ...found.state, touched: touchedNow(found, state) } };
}

/** What is caught twice running was rested on, not passed. RULES: SN6. */
function touchedNow({ what }: Found, { held, touched }: SnapState): SnapState['touched'] {
  const [target] = what;
  if (target?.node == null || !held.includes(target.key)) return touched;
  const { node } = target;
  return [...touched.filter((each) => each !== node), node].slice(-TOUCHED_NODES);
}

type Found = Omit<SnapAnswer, 'state'> & { readonly state: Omit<SnapState, 'touched'> };

function snapped(query: SnapQuery, state: SnapState): Found {
  const { at, pixelsPerTick, cycle = 0 } = query;
  if (!(pixelsPerTick > 0)) throw new Error(`snapPoint: ${pixelsPerTick} pixels to the tick`);
  if ((query.snapping ?? true) === (query.inverted ?? false))
    return answer(whole(at), [], [], [], cycle, false, 0);

  const { candidates: targets, lines, looked: lookedTargets } = nearTargets(query);
  const { guides, looked: lookedGuides } = nearGuides(query);
  const looked = lookedTargets + lookedGuides;
  const candidates = [...targets, ...crossings(query, lines, guides)];

  const presses = Math.max(0, cycle - state.cycle);
  const cycled = presses > 0 ? nextOf(caughtOf(candidates), state.held, presses) : null;
  const pinned = state.pinned && presses === 0 ? stillHeld(candidates, state.held) : null;
  const won = cycled ?? pinned ?? choose(candidates, state.held);
  if (won !== null) {
    const { kind, key, words, node, wall } = won;
    const what: SnapTarget = { kind, key, words, node, wall };
    return answer(won.at, [what], won.lines, [key], cycle, (cycled ?? pinned) !== null, looked);
  }
  const lock = lockOf(query, guides, state.held);
  if (lock === null) return answer(whole(at), [], [], [], cycle, false, looked);
  const keys = lock.what.map(({ key }) => key);
  return answer(lock.at, lock.what, lock.lines, keys, cycle, false, looked);
}

function answer(
  at: Point,
  what: readonly SnapTarget[],
  lines: SnapAnswer['lines'],
  held: readonly string[],
  cycle: number,
  pinned: boolean,
  looked: number,
): Found {
  const words = [...new Set(what.map((each) => each.words))].join(', ');
  return { at, what, words, lines, state: { held, cycle, pinned }, looked };
}

/** The next candidate after the one held, or after the best. RULES: SN10. */
function nextOf(caught: readonly Candidate[], held: readonly string[], presses: number): Candidate | null {
  const now = Math.max(
    0,
    caught.findIndex(({ key }) => held.includes(key)),
  );
  return caught.length === 0 ? null : caught[(now + presses) % caught.length]!;
}

function stillHeld(candidates: readonly Candidate[], held: readonly string[]): Candidate | null {
  return candidates.find(({ key, offPx }) => held.includes(key) && offPx <= LET_GO_PX) ?? null;
}

/** Where guides cross walls and faces near the pointer. RULES: SN2. */
function crossings(query: SnapQuery, lines: readonly LineItem[], guides: readonly Guide[]): Candidate[] {
  const found: Candidate[] = [];
  for (const line of lines) {
    const length = distance(line.from, line.to);
    if (length === 0) continue;
    const way = unit(minus(line.to, line.from));
    for (const guide of guides) {
      const turn = cross(way, guide.way);
      if (Math.abs(turn) < LEAST_CROSS_SINE) continue;
      const ahead = cross(minus(guide.through, line.from), guide.way) / turn;
      if (ahead < 0 || ahead > length) continue;
      const met = along(line.from, way, ahead);
      const place: Point = [
        guide.family === 'x' ? guide.through[0] : way[0] === 0 ? line.from[0] : met[0],
        guide.family === 'y' ? guide.through[1] : way[1] === 0 ? line.from[1] : met[1],
      ];
      const offPx = distance(place, query.at) * query.pixelsPerTick;
      if (offPx > LET_GO_PX || !isShown(place, query.view)) continue;
      found.push({
        kind: 'crossing',
        key: `${line.key}×${guide.key}`,
        words: `on ${line.words}, ${guide.words}`,
        node: null,
        wall: line.wall,
        at: whole(place),
        offPx,
        catchable: guide.catchable,
        lines: [[guide.through, whole(place)]],
      });
    }
  }
  return found;
}

/** A guide and a wall that run nearer to one direction than 5° do not cross anywhere that is meant. */
const LEAST_CROSS_SINE = Math.sin((5 * Math.PI) / 180);
