// What cannot stand where it is drawn: two openings, two built-ins or one of each in one place on a wall, an opening that
// reaches past the corner of its face into the next wall; and one that stands in a corner, where no casing has room. Ticks.

import type { Room, Segment, SegmentBuiltIn, SegmentOpening } from '../walk/types.ts';
import { cornersOf, placeIn, type RoomContext } from './context.ts';
import {
  builtInName,
  capital,
  cornerName,
  finding,
  mm,
  openingName,
  pointOn,
  sayLength,
  whole,
} from './say.ts';
import type { Finding } from './types.ts';

/** What overlaps by less than this is rounding: 1 mm (RULES: FD22). */
const LEAST_CLASH = 320;

interface Extent {
  readonly from: number;
  readonly to: number;
  readonly bottom: number;
  readonly top: number;
}

type Place = Extent & { readonly id: string };

/** By how much two things of a face overlap along it; 0 where they are clear along the wall or in height. */
function overlapOf(one: Extent, other: Extent): number {
  const along = Math.min(one.to, other.to) - Math.max(one.from, other.from);
  const up = Math.min(one.top, other.top) - Math.max(one.bottom, other.bottom);
  return along < LEAST_CLASH || up < LEAST_CLASH ? 0 : whole(along);
}

function holeOf({ holeFrom: from, holeTo: to, bottom, top }: SegmentOpening): Extent {
  return { from, to, bottom, top };
}

/** By how much the holes of two openings of a face overlap. */
export function openingsOverlap(one: SegmentOpening, other: SegmentOpening): number {
  return overlapOf(holeOf(one), holeOf(other));
}

/** By how much a built-in stands before the hole of an opening of its face. */
export function coversHole(builtIn: SegmentBuiltIn, opening: SegmentOpening): number {
  return overlapOf(builtIn, holeOf(opening));
}

/** By how much a hole reaches past the corner at one end of its face; 0 where it does not. */
export function pastCorner(opening: SegmentOpening, segment: Segment, end: 'left' | 'right'): number {
  const past = end === 'left' ? -opening.holeFrom : opening.holeTo - segment.drawn;
  return past < LEAST_CLASH ? 0 : whole(past);
}

/** opening-clash and built-in-clash, by how much (RULES: FD22, FD23). On both faces of a wall, as each room sees it. */
export function clashFindings(context: RoomContext): Finding[] {
  return context.room.loops
    .flatMap((loop) => loop.segments)
    .flatMap((segment) => [
      ...overlapsOn(segment, context),
      ...reachesOn(segment, context.room, context),
      ...builtInsOver(segment, context),
    ]);
}

/**
 * Each thing with the first before it that it overlaps: of many in one place there are as many findings, not as many as
 * pairs, and those that remain are told once one of them is moved.
 */
function clashing<T>(
  things: readonly T[],
  overlap: (one: T, other: T) => number,
): { readonly one: T; readonly other: T; readonly over: number }[] {
  return things.flatMap((other, i) => {
    const one = things.find((each, at) => at >= i || overlap(each, other) > 0)!;
    return one === other ? [] : [{ one, other, over: overlap(one, other) }];
  });
}

function overlapsOn(segment: Segment, context: RoomContext): Finding[] {
  const { plan } = context;
  return clashing(segment.openings, openingsOverlap).map(({ one, other, over }) => {
    const middle = (Math.max(one.from, other.from) + Math.min(one.to, other.to)) / 2;
    return finding('opening-clash', placeIn(context, pointOn(segment, middle)), {
      about: [one.id, other.id],
      figures: { overlapMm: mm(over) },
      message: `${capital(openingName(one))} and ${openingName(other)} overlap by ${sayLength(plan, over)}: one wall cannot hold both there.`,
      remedies: ['Move one of them, or make it narrower.', 'Delete the one that is not there.'],
    });
  });
}

function builtInsOver(segment: Segment, context: RoomContext): Finding[] {
  // What reaches round a corner is drawn to the corner on both walls, as cabinets are: of two such it is not meant.
  const standing = segment.builtIns.filter(({ roundCorner }) => !roundCorner);
  const told = (one: SegmentBuiltIn, other: Place, over: number, name: string): Finding => {
    const middle = (Math.max(one.from, other.from) + Math.min(one.to, other.to)) / 2;
    return finding('built-in-clash', placeIn(context, pointOn(segment, middle)), {
      about: [one.id, other.id],
      figures: { overlapMm: mm(over) },
      message: `${capital(builtInName(one))} and ${name} overlap by ${sayLength(context.plan, over)} along the wall and in height.`,
      remedies: ['Move one of them, or make it narrower.', 'Delete the one that is not there.'],
    });
  };
  const others = clashing(standing, overlapOf).map(({ one, other, over }) =>
    told(one, other, over, builtInName(other)),
  );
  const openings = segment.builtIns.flatMap((one) => {
    const opening = segment.openings.find((each) => coversHole(one, each) > 0);
    return opening === undefined ? [] : told(one, opening, coversHole(one, opening), openingName(opening));
  });
  return [...others, ...openings];
}

function reachesOn(segment: Segment, room: Room, context: RoomContext): Finding[] {
  const [left, right] = cornersOf(room, segment);
  const ends = [
    { end: 'left', corner: left, at: 0 },
    { end: 'right', corner: right, at: segment.drawn },
  ] as const;
  return segment.openings.flatMap((opening) =>
    ends.flatMap(({ end, corner, at }) => {
      const past = pastCorner(opening, segment, end);
      if (past === 0 || corner === undefined) return [];
      const by = sayLength(context.plan, past);
      return finding('opening-clash', placeIn(context, pointOn(segment, at)), {
        about: [opening.id, cornerName(corner)],
        figures: { overlapMm: mm(past) },
        message: `${capital(openingName(opening))} reaches ${by} past ${cornerName(corner)}, into the next wall.`,
        remedies: [`Move it ${by} away from the corner, or make it narrower.`],
      });
    }),
  );
}

/**
 * casing-crowded where the plan does not say the casing: beside a corner that the opening stands in, or nearer to than its
 * reveal, none has room (RULES: FD6).
 */
export function noClearWall(
  opening: SegmentOpening,
  segment: Segment,
  [left, right]: ReturnType<typeof cornersOf>,
  context: RoomContext,
): Finding[] {
  if (opening.casing !== undefined || opening.opening.kind === 'passage') return [];
  const ends = [
    { corner: left, end: 'left', gap: opening.holeFrom, at: 0 },
    { corner: right, end: 'right', gap: segment.drawn - opening.holeTo, at: segment.drawn },
  ] as const;
  return ends.flatMap(({ corner, end, gap: exact, at }) => {
    const gap = Math.max(0, whole(exact));
    if (corner === undefined || gap > opening.reveal || pastCorner(opening, segment, end) > 0) return [];
    const where = gap === 0 ? 'right in' : `${sayLength(context.plan, gap)} from`;
    return finding('casing-crowded', placeIn(context, pointOn(segment, at)), {
      about: [opening.id, cornerName(corner)],
      figures: { gapMm: mm(gap) },
      message: `${capital(openingName(opening))} stands ${where} ${cornerName(corner)}: no casing has room on that side.`,
      remedies: [
        'Leave that leg out, and trim to the jamb with a small moulding.',
        'Move the opening, while the wall is open.',
      ],
    });
  });
}
