// One segment and one trim line to the stretches that the line covers without a stop, and what stands at each end.
// Lengths in ticks along the segment from its left corner; heights in ticks above the subfloor. Invariant: stretches of
// a segment do not overlap, run left to right and are at least 1 mm long as drawn. RULES: LN13 to LN17, LN19.
// Knows nothing of corners' joints.

import { lookup, mustLookup } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId, TrimLine } from '../plan/schema.ts';
import { TICKS_PER_MM, type Ticks } from '../units/ticks.ts';
import type { Corner, Room, Segment, SegmentOpening } from '../walk/types.ts';
import type { StopAt, Stretch } from './types.ts';

/** A stretch or a piece shorter than this is not made, ticks [LN17]. */
export const LEAST_LENGTH: Ticks = TICKS_PER_MM;

/** A moulding as it stands in the plan. */
export interface ChosenProfile {
  readonly id: ProfileId;
  readonly profile: Profile;
}

/** What one line does on one segment. */
export interface SegmentLine {
  /** Null where the line is not wanted here, or the wall is too low for it. */
  readonly chosen: ChosenProfile | null;
  readonly stretches: readonly Stretch[];
  /** What stands in the left and right corner in place of a stretch; null where a stretch reaches it or no line is. */
  readonly leftStop: StopAt | null;
  readonly rightStop: StopAt | null;
}

/** The profile of a line on a face: the face's own choice, else the room's [LN13]. Throws on an id the plan lacks. */
export function profileOn(plan: Plan, room: Room, segment: Segment, line: TrimLine): ChosenProfile | null {
  const own = segment.record?.trim?.[line];
  const id = own !== undefined ? own : room.record?.trim?.[line];
  return id == null ? null : { id, profile: mustLookup(plan.profiles, id) };
}

/** Height band of a base or shoe above the subfloor [LN14]. What is not known of the new floor counts as 0. */
export function bandOf(room: Room, profile: Profile): { readonly bottom: Ticks; readonly top: Ticks } {
  const bottom = (room.record?.new?.floor ?? 0) + (room.record?.new?.gap ?? 0);
  return { bottom, top: bottom + Math.max(profile.height ?? 0, 1) };
}

interface Stop {
  readonly from: number;
  readonly to: number;
  readonly at: Exclude<StopAt, { kind: 'corner' }>;
}

/** How far the stop at an opening reaches past the hole's edges on this side, and what a board ends against [LN15]. */
function openingStop(opening: SegmentOpening): Stop {
  const { casing, reveal } = opening;
  const plinth = opening.opening.plinth;
  let reach = 0;
  let against: 'casing' | 'plinth' | 'open' = 'open';
  let thickness: Ticks | null = null;
  let body: Ticks | null = null;
  if (opening.opening.kind !== 'passage' && casing !== null) {
    against = casing !== undefined && plinth !== undefined ? 'plinth' : 'casing';
    reach = reveal;
    if (casing !== undefined) {
      reach += plinth !== undefined ? plinth.width : (casing.profile.width ?? 0);
      thickness =
        plinth !== undefined ? plinth.thickness : (casing.profile.edgeThickness ?? casing.profile.thickness);
      body = plinth !== undefined ? plinth.thickness : casing.profile.thickness;
    }
  }
  return {
    from: opening.holeFrom - reach,
    to: opening.holeTo + reach,
    at: { kind: 'opening', opening, against, thickness, body },
  };
}

const overlaps = (bottom: number, top: number, band: { bottom: number; top: number }): boolean =>
  Math.min(top, band.top) > Math.max(bottom, band.bottom);

/** All stops of the band, clipped to the segment, left to right; of two at one place a built-in counts [LN16]. */
function stopsOf(segment: Segment, band: { bottom: number; top: number }): Stop[] {
  const stops: Stop[] = [];
  for (const builtIn of segment.builtIns) {
    if (!overlaps(builtIn.bottom, builtIn.top, band)) continue;
    stops.push({
      from: builtIn.from,
      to: builtIn.to,
      at: { kind: 'builtIn', id: builtIn.id, ends: builtIn.ends },
    });
  }
  for (const opening of segment.openings) {
    if (overlaps(opening.bottom, opening.top, band)) stops.push(openingStop(opening));
  }
  return stops
    .map((stop) => ({ ...stop, from: Math.max(0, stop.from), to: Math.min(segment.drawn, stop.to) }))
    .filter((stop) => stop.to > stop.from)
    .sort((a, b) => a.from - b.from);
}

const keyOf = (at: StopAt): string =>
  at.kind === 'corner' ? 'corner' : at.kind === 'opening' ? at.opening.id : at.id;

const NONE: SegmentLine = { chosen: null, stretches: [], leftStop: null, rightStop: null };

/**
 * The stretches of one line on one segment [LN13–LN17, LN19]. `left` and `right` are the segment's corners. L is the measured
 * length, else the drawn one; nothing is taken off for a shoe's base here.
 */
export function segmentLine(
  plan: Plan,
  room: Room,
  segment: Segment,
  left: Corner,
  right: Corner,
  line: TrimLine,
): SegmentLine {
  const chosen = profileOn(plan, room, segment, line);
  if (chosen === null) return NONE;
  const band = bandOf(room, chosen.profile);
  if (segment.wallHeight !== null && segment.wallHeight < band.top) return NONE;

  const gaps: { from: number; to: number; left: StopAt; right: StopAt }[] = [];
  let from = 0;
  let at: StopAt = { kind: 'corner', corner: left };
  for (const stop of stopsOf(segment, band)) {
    if (stop.from > from) gaps.push({ from, to: stop.from, left: at, right: stop.at });
    if (stop.to > from || (stop.to === from && stop.at.kind === 'builtIn')) {
      from = stop.to;
      at = stop.at;
    }
  }
  if (segment.drawn > from) {
    gaps.push({ from, to: segment.drawn, left: at, right: { kind: 'corner', corner: right } });
  }
  const kept = gaps.filter((gap) => gap.to - gap.from >= LEAST_LENGTH);
  const whole = kept.length === 1 && kept[0]!.left.kind === 'corner' && kept[0]!.right.kind === 'corner';
  const stretches = kept.map((gap): Stretch => {
    const key = `${keyOf(gap.left)}..${keyOf(gap.right)}`;
    const own = lookup(segment.record?.stretches ?? {}, key);
    const measured = own ?? (whole ? (segment.record?.measured ?? null) : null);
    const drawn = gap.to - gap.from;
    return {
      line,
      segment,
      key,
      profileId: chosen.id,
      profile: chosen.profile,
      from: gap.from,
      to: gap.to,
      left: gap.left,
      right: gap.right,
      drawn,
      measured,
      L: measured ?? drawn,
      inset: 0,
    };
  });
  const reachesLeft = kept[0]?.left.kind === 'corner';
  const reachesRight = kept.at(-1)?.right.kind === 'corner';
  const first = gaps.find((gap) => gap.from === 0 && gap.left.kind === 'corner');
  const last = gaps.at(-1)?.right.kind === 'corner' ? gaps.at(-1)! : null;
  return {
    chosen,
    stretches,
    // A gap too small for a stretch still shows what stands behind it.
    leftStop: reachesLeft ? null : standing(first?.right ?? firstStop(segment, band)),
    rightStop: reachesRight ? null : standing(last?.left ?? at),
  };
}

/** What stands in a corner; a corner itself does not. */
const standing = (at: StopAt | null): StopAt | null => (at === null || at.kind === 'corner' ? null : at);

function firstStop(segment: Segment, band: { bottom: number; top: number }): StopAt | null {
  return stopsOf(segment, band)[0]?.at ?? null;
}
