// What stands in the way on a wall: casings that overlap a corner, a built-in or each other; trim over a pocket door's
// pocket; base that runs into a marked outlet, a register or a window's sill. Along and height in ticks.

import type { Point } from '../graph/types.ts';
import { lookup } from '../plan/maps.ts';
import type { Profile } from '../plan/schema.ts';
import { longestStock } from '../trim/index.ts';
import type { CasingSet } from '../trim/types.ts';
import type { Room, Segment, SegmentBuiltIn, SegmentOpening } from '../walk/types.ts';
import { coversHole, noClearWall, openingsOverlap, pastCorner } from './clash.ts';
import {
  cornersOf,
  partedOf,
  placeIn,
  placeParts,
  type RoomContext,
  standingHeight,
  stretchesOf,
} from './context.ts';
import {
  builtInName,
  cornerName,
  finding,
  listed,
  mm,
  openingName,
  pointOn,
  profileName,
  sayAtLeast,
  sayAtMost,
  sayLength,
  whole,
} from './say.ts';
import type { Finding } from './types.ts';

/** Drywall on a pocket door's wall, where the plan does not say: 1/2 in. Common practice, no published source. */
const POCKET_DRYWALL = 4064;

/** What a casing or a plinth block covers on its face, to its outer edges. */
interface Covered {
  readonly opening: SegmentOpening;
  readonly thing: 'casing' | 'plinth block';
  readonly width: number;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** A casing's outer edges along the segment and in height; null where there is none or none is known. */
export function casingCover(opening: SegmentOpening): Covered | null {
  const width = opening.casing?.profile.width;
  if (!opening.casing || width === undefined) return null;
  const out = opening.reveal + width;
  return {
    opening,
    thing: 'casing',
    width,
    left: opening.holeFrom - out,
    right: opening.holeTo + out,
    bottom: opening.opening.sill > 0 ? opening.bottom - out : Number.NEGATIVE_INFINITY,
    top: opening.top + out,
  };
}

/** The same of the plinth blocks under a casing's legs, as high above the new floor as they are; null where there are none. */
function plinthCover(opening: SegmentOpening, floor: number): Covered | null {
  const { plinth } = opening.opening;
  if (!opening.casing || plinth === undefined) return null;
  const out = opening.reveal + plinth.width;
  return {
    opening,
    thing: 'plinth block',
    width: plinth.width,
    left: opening.holeFrom - out,
    right: opening.holeTo + out,
    bottom: Number.NEGATIVE_INFINITY,
    top: floor + plinth.height,
  };
}

/** What overlaps, how much of it must come off, and of which part of it. */
interface Overlap {
  readonly cover: Covered;
  readonly rip: number;
  readonly part: 'leg' | 'head' | 'sill';
}

/**
 * casing-crowded: a casing or a plinth block overlaps a corner, a built-in or those of another opening, and by how much
 * (RULES: FD6).
 */
export function crowdedFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  const floor = room.record?.new?.floor ?? 0;
  const found: Finding[] = [];
  const report = (
    { cover, rip, part }: Overlap,
    other: string,
    what: string,
    at: number,
    segment: Segment,
  ) => {
    const left = cover.width - rip;
    const plinth = cover.thing === 'plinth block';
    const name = plinth ? 'plinth block' : 'casing';
    found.push(
      finding('casing-crowded', placeIn(context, pointOn(segment, at)), {
        about: [cover.opening.id, other],
        figures: { ripMm: mm(rip), leftMm: mm(Math.max(0, left)) },
        message: `The ${name} of ${openingName(cover.opening)} overlaps ${what} by ${sayLength(plan, rip)}.`,
        remedies: [
          left > 0
            ? `Rip ${sayAtLeast(plan, rip)} off the ${name}, which leaves ${sayAtMost(plan, left)}.`
            : plinth
              ? `The plinth block is only ${sayLength(plan, cover.width)} wide: leave it out on that side, and let the casing run to the floor.`
              : `The casing is only ${sayLength(plan, cover.width)} wide: leave ${LEFT_OUT[part]} out, and trim to the jamb with a small moulding.`,
          plinth ? 'Use narrower plinth blocks on this opening.' : 'Use a narrower casing on this opening.',
          'Move the opening, while the wall is open.',
        ],
      }),
    );
  };
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    const openings = segment.openings.map((opening) =>
      [casingCover(opening), plinthCover(opening, floor)].filter((cover) => cover !== null),
    );
    const [left, right] = cornersOf(room, segment);
    for (const [i, covers] of openings.entries()) {
      for (const cover of covers) {
        const before = whole(-cover.left);
        if (left && before > 0 && pastCorner(cover.opening, segment, 'left') === 0) {
          report({ cover, rip: before, part: 'leg' }, cornerName(left), cornerName(left), 0, segment);
        }
        const past = whole(cover.right - segment.drawn);
        if (right && past > 0 && pastCorner(cover.opening, segment, 'right') === 0) {
          const name = cornerName(right);
          report({ cover, rip: past, part: 'leg' }, name, name, segment.drawn, segment);
        }
        for (const { item, over, at } of besideIt(cover, segment))
          report(over, item.id, builtInName(item), at, segment);
      }
      found.push(...noClearWall(segment.openings[i]!, segment, [left, right], context));
      // Of those before it the nearest, so that many in one place are told as often as there are of them.
      for (let j = i - 1; covers.length > 0 && j >= 0; j--) {
        if (openingsOverlap(segment.openings[j]!, segment.openings[i]!) > 0) continue;
        const worst = worstOf(openings[j]!, covers);
        for (const { over, other } of worst) {
          const of =
            over.cover.thing === other.thing
              ? `that of ${openingName(other.opening)}`
              : `the ${other.thing} of ${openingName(other.opening)}`;
          report(over, other.opening.id, of, Math.max(over.cover.left, other.left), segment);
        }
        if (worst.length > 0) break;
      }
    }
  }
  return found;
}

/** The built-in on either side of a cover of which most must come off, but for those that stand before the hole itself. */
function besideIt(
  cover: Covered,
  segment: Segment,
): { readonly item: SegmentBuiltIn; readonly over: Overlap; readonly at: number }[] {
  const found = segment.builtIns.flatMap((item) => {
    if (coversHole(item, cover.opening) > 0) return [];
    const over = overlap(cover, { left: item.from, right: item.to, bottom: item.bottom, top: item.top });
    const isRight = item.from >= cover.opening.from;
    return over === null ? [] : [{ item, over, isRight, at: isRight ? item.from : item.to }];
  });
  return [false, true].flatMap((side) => {
    const here = found.filter(({ isRight }) => isRight === side);
    return here.length === 0 ? [] : [here.reduce((a, b) => (b.over.rip > a.over.rip ? b : a))];
  });
}

const LEFT_OUT = { leg: 'that leg', head: 'that head casing', sill: 'the casing under that sill' } as const;

/** Of two openings: their casings' overlap, and the greatest one in which a plinth block has part. */
function worstOf(
  covers: readonly Covered[],
  others: readonly Covered[],
): { readonly over: Overlap; readonly other: Covered }[] {
  const all = covers.flatMap((cover) =>
    others.flatMap((other) => {
      const over = overlap(cover, other);
      // What is told is what can be ripped: a casing over a plinth block is told of the block.
      const turned =
        cover.thing === 'casing' && other.thing === 'plinth block' ? overlap(other, cover) : null;
      return turned !== null ? [{ over: turned, other: cover }] : over === null ? [] : [{ over, other }];
    }),
  );
  const isCasings = ({ over, other }: (typeof all)[number]): boolean =>
    over.cover.thing === 'casing' && other.thing === 'casing';
  const withPlinth = all.filter((each) => !isCasings(each)).sort((a, b) => b.over.rip - a.over.rip);
  return [...all.filter(isCasings), ...withPlinth.slice(0, 1)];
}

type Box = Pick<Covered, 'left' | 'right' | 'bottom' | 'top'>;

/** How much must come off a cover to clear a box on the same face, the cheaper way, and of which part; null: they are clear. */
function overlap(cover: Covered, box: Box): Overlap | null {
  const along = whole(Math.min(cover.right - box.left, box.right - cover.left));
  const [over, under] = [cover.top - box.bottom, box.top - cover.bottom];
  const up = whole(Math.min(over, under));
  const rip = Math.min(along, up);
  if (rip <= 0) return null;
  return { cover, rip, part: along <= up ? 'leg' : over <= under ? 'head' : 'sill' };
}

/** pocket-nails: base, shoe or chair rail over the pocket of a pocket door, on either side of its wall (RULES: FD13). */
export function pocketFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  const found: Finding[] = [];
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    for (const opening of segment.openings) {
      const pocket = opening.pocket;
      if (!pocket) continue;
      const over: { id: string; thickness: number }[] = [];
      for (const line of context.trim.lines) {
        if (line.line !== 'base' && line.line !== 'shoe' && line.line !== 'chairRail') continue;
        for (const { stretch, parts } of partedOf(line)) {
          if (stretch.segment.key !== segment.key) continue;
          for (const { piece, from, to } of placeParts(stretch, parts)) {
            if (whole(Math.min(to, pocket.to) - Math.max(from, pocket.from)) > 0) {
              over.push({ id: piece.id, thickness: stretch.profile.thickness });
            }
          }
        }
      }
      if (over.length === 0) continue;
      const thinnest = Math.min(...over.map((each) => each.thickness));
      const nail = thinnest + POCKET_DRYWALL;
      const ids = over.map((each) => each.id);
      found.push(
        finding('pocket-nails', placeIn(context, pointOn(segment, (pocket.from + pocket.to) / 2)), {
          about: [opening.id, ...ids],
          figures: { nailMm: mm(nail), drywallAssumedMm: mm(POCKET_DRYWALL) },
          message: `${ids.length > 1 ? `Boards ${listed(ids)} lie` : `Board ${ids[0]} lies`} over the pocket of door ${opening.id}: a long nail stops the door or scratches it.`,
          remedies: [
            `Use nails no longer than trim and drywall together, ${sayAtMost(plan, nail)} where the drywall is ${sayLength(plan, POCKET_DRYWALL)} (assumed), and adhesive.`,
            'Slide the door right in, and try it after every nail.',
          ],
        }),
      );
    }
  }
  return found;
}

/** outlet-hit: base covers part of a marked outlet or register (RULES: FD14). */
export function markFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  const stands = standingHeight(room);
  if (stands === null) return [];
  const found = new Map<string, Finding>();
  for (const stretch of stretchesOf(context.trim, 'base')) {
    const height = stretch.profile.height;
    if (height === undefined) continue;
    const top = stands + height;
    for (const mark of stretch.segment.marks) {
      if (found.has(mark.id)) continue;
      const along = whole(Math.min(stretch.to, mark.to) - Math.max(stretch.from, mark.from));
      if (along <= 0 || top <= mark.bottom || mark.top <= stands) continue;
      const most = mark.bottom - stands;
      found.set(
        mark.id,
        finding('outlet-hit', placeIn(context, pointOn(stretch.segment, (mark.from + mark.to) / 2)), {
          about: [mark.id, stretch.profileId],
          figures: { overlapMm: mm(top - mark.bottom), baseTopMm: mm(top), bottomMm: mm(mark.bottom) },
          message: `The base's top runs ${sayLength(plan, top - mark.bottom)} past the under side of ${mark.kind} ${mark.id}.`,
          remedies: [
            ...(most > 0 ? [`Use a base at most ${sayAtMost(plan, most)} tall.`] : []),
            mark.kind === 'outlet'
              ? 'Have the box moved by a licensed electrician.'
              : 'Have the register moved, or stop the base on both sides of it with returns.',
            mark.kind === 'outlet'
              ? 'Cut the base round the box and have the box brought forward to its face.'
              : 'Cut the base round the register.',
          ],
        }),
      );
    }
  }
  return [...found.values()];
}

/** The lowest part of a window's sill: the under side of its casing or stool, else the sill itself. */
export function underSill(opening: SegmentOpening): number {
  return casingCover(opening)?.bottom ?? opening.bottom;
}

/**
 * sill-hit: base or shoe that runs past under a window rises above the under side of the casing under its sill, or of the
 * sill itself. A line that breaks at the window does not run into it (RULES: FD15).
 */
export function sillFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  const stands = standingHeight(room);
  if (stands === null) return [];
  const found = new Map<string, Finding>();
  for (const line of ['base', 'shoe'] as const) {
    for (const stretch of stretchesOf(context.trim, line)) {
      const { height } = stretch.profile;
      if (height === undefined) continue;
      const top = stands + height;
      for (const opening of stretch.segment.openings) {
        const key = `${opening.id} ${line}`;
        if (opening.opening.sill <= 0 || found.has(key)) continue;
        const under = underSill(opening);
        const cover = casingCover(opening) ?? {
          left: opening.holeFrom,
          right: opening.holeTo,
          top: opening.top,
        };
        if (top <= under || stands >= cover.top) continue;
        const along = whole(Math.min(stretch.to, cover.right) - Math.max(stretch.from, cover.left));
        if (along <= 0) continue;
        const most = under - stands;
        found.set(
          key,
          finding('sill-hit', placeIn(context, pointOn(stretch.segment, (opening.from + opening.to) / 2)), {
            about: [opening.id, stretch.profileId],
            figures: { overlapMm: mm(top - under), [`${line}TopMm`]: mm(top), underMm: mm(under) },
            message: `The ${line}'s top runs ${sayLength(plan, top - under)} into what hangs under the sill of ${openingName(opening)}.`,
            remedies: [
              ...(most > 0 ? [`Use a ${line} at most ${sayAtMost(plan, most)} tall.`] : []),
              `Rip the casing under the sill, or leave it out and let the stool stand on the ${line}.`,
              `Stop the ${line} on both sides of the window.`,
            ],
          }),
        );
      }
    }
  }
  return [...found.values()];
}

/** stock-none for casings: a leg or head longer than any stock. A casing is never scarfed (RULES: FD16). */
export function casingStockFindings(context: RoomContext, casings: readonly CasingSet[]): Finding[] {
  const { plan, settings, room } = context;
  const found: Finding[] = [];
  for (const set of casings) {
    if (set.room !== room.id) continue;
    const profile: Profile | undefined = lookup(plan.profiles, set.profileId);
    if (!profile || profile.stock.length === 0) continue;
    const had = longestStock(plan, set.profileId, profile);
    const longest = had ?? 0;
    const need = whole(Math.max(...set.parts.map((part) => part.long)));
    if (had !== undefined && need <= longest - settings.endTrim) continue;
    const { home, name } = openingPlace(room, set);
    const casing = profileName(set.profileId, profile);
    found.push(
      finding('stock-none', placeIn(context, home), {
        about: [set.id, set.profileId],
        figures: { needMm: mm(need), longestMm: mm(longest), endTrimMm: mm(settings.endTrim) },
        message:
          had === undefined
            ? `There is nothing to cut the casing of ${name} from: every length listed for ${casing} is used up and none is on hand.`
            : `The casing of ${name} takes ${sayLength(plan, need)} in one piece, and the longest ${casing} is ${sayLength(plan, longest)} less ${sayLength(plan, settings.endTrim)} for trimming its end.`,
        remedies: [
          had === undefined
            ? 'Say how many boards there are, or leave the number open where more can be bought.'
            : `Find stock of at least ${sayAtLeast(plan, need + settings.endTrim)}.`,
          'Choose another casing.',
        ],
      }),
    );
  }
  return found;
}

/** Where a casing's opening stands on its side, and what it is called. */
function openingPlace(room: Room, set: CasingSet): { readonly home: Point | null; readonly name: string } {
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    const opening = segment.openings.find((each) => each.id === set.opening && each.side === set.side);
    if (opening)
      return { home: pointOn(segment, (opening.from + opening.to) / 2), name: openingName(opening) };
  }
  return { home: null, name: set.opening };
}
