// What stands in the way on a wall: casings that overlap a corner, a built-in or each other; trim over a pocket door's
// pocket; base that runs into a marked outlet, a register or a window's sill. Along and height in ticks.

import { lookup } from '../plan/maps.ts';
import type { Profile } from '../plan/schema.ts';
import type { CasingSet } from '../trim/types.ts';
import type { Room, Segment, SegmentOpening } from '../walk/types.ts';
import {
  cornersOf,
  partedOf,
  placeIn,
  placeParts,
  type RoomContext,
  standingHeight,
  stockLengths,
  stretchesOf,
} from './context.ts';
import { cornerName, finding, listed, mm, pointOn, sayAtLeast, sayAtMost, sayLength, whole } from './say.ts';
import type { Finding } from './types.ts';

/** Drywall on a pocket door's wall, where the plan does not say: 1/2 in. Common practice, no published source. */
const POCKET_DRYWALL = 4064;

/** What a casing covers on its face, to its outer edges. */
interface Covered {
  readonly opening: SegmentOpening;
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
    width,
    left: opening.holeFrom - out,
    right: opening.holeTo + out,
    bottom: opening.opening.sill > 0 ? opening.bottom - out : Number.NEGATIVE_INFINITY,
    top: opening.top + out,
  };
}

/** casing-crowded: a casing overlaps a corner, a built-in or another casing, and by how much (RULES: FD6). */
export function crowdedFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  const found: Finding[] = [];
  const report = (cover: Covered, other: string, what: string, rip: number, at: number, segment: Segment) => {
    const left = cover.width - rip;
    found.push(
      finding('casing-crowded', placeIn(context, pointOn(segment, at)), {
        about: [cover.opening.id, other],
        figures: { ripMm: mm(rip), leftMm: mm(Math.max(0, left)) },
        message: `The casing of ${cover.opening.id} overlaps ${what} by ${sayLength(plan, rip)}.`,
        remedies: [
          left > 0
            ? `Rip ${sayAtLeast(plan, rip)} off the casing, which leaves ${sayAtMost(plan, left)}.`
            : `The casing is only ${sayLength(plan, cover.width)} wide: leave that leg out, and trim to the jamb with a small moulding.`,
          'Use a narrower casing on this opening.',
          'Move the opening, while the wall is open.',
        ],
      }),
    );
  };
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    const covers = segment.openings.map(casingCover).filter((cover) => cover !== null);
    const [left, right] = cornersOf(room, segment);
    for (const [i, cover] of covers.entries()) {
      if (left && whole(-cover.left) > 0) {
        report(cover, cornerName(left), cornerName(left), whole(-cover.left), 0, segment);
      }
      const past = whole(cover.right - segment.drawn);
      if (right && past > 0) {
        report(cover, cornerName(right), cornerName(right), past, segment.drawn, segment);
      }
      for (const item of segment.builtIns) {
        const rip = overlap(cover, { left: item.from, right: item.to, bottom: item.bottom, top: item.top });
        if (rip > 0) {
          const at = item.from >= cover.opening.from ? item.from : item.to;
          report(cover, item.id, `${item.kind} ${item.id}`, rip, at, segment);
        }
      }
      for (const other of covers.slice(i + 1)) {
        const rip = overlap(cover, other);
        if (rip > 0) {
          const at = Math.max(cover.left, other.left);
          report(cover, other.opening.id, `that of ${other.opening.id}`, rip, at, segment);
        }
      }
    }
  }
  return found;
}

type Box = Pick<Covered, 'left' | 'right' | 'bottom' | 'top'>;

/** How much must come off for two boxes on a face to clear each other, the cheaper way; 0 where they do not overlap. */
function overlap(a: Box, b: Box): number {
  const along = Math.min(a.right - b.left, b.right - a.left);
  const up = Math.min(a.top - b.bottom, b.top - a.bottom);
  const least = whole(Math.min(along, up));
  return Math.max(least, 0);
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
          message: `${listed(ids)} ${ids.length > 1 ? 'lie' : 'lies'} over the pocket of door ${opening.id}: a long nail stops the door or scratches it.`,
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

/** sill-hit: base rises above the under side of a sill or of the casing under it, on the same span (RULES: FD15). */
export function sillFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  const stands = standingHeight(room);
  if (stands === null) return [];
  const found = new Map<string, Finding>();
  for (const stretch of stretchesOf(context.trim, 'base')) {
    const height = stretch.profile.height;
    if (height === undefined) continue;
    const top = stands + height;
    for (const opening of stretch.segment.openings) {
      if (opening.opening.sill <= 0 || found.has(opening.id)) continue;
      const under = underSill(opening);
      if (top <= under) continue;
      const cover = casingCover(opening) ?? { left: opening.holeFrom, right: opening.holeTo };
      const along = whole(Math.min(stretch.to, cover.right) - Math.max(stretch.from, cover.left));
      const stopped = [stretch.left, stretch.right].some(
        (stop) => stop.kind === 'opening' && stop.opening.id === opening.id,
      );
      if (along <= 0 && !stopped) continue;
      const most = under - stands;
      found.set(
        opening.id,
        finding('sill-hit', placeIn(context, pointOn(stretch.segment, (opening.from + opening.to) / 2)), {
          about: [opening.id, stretch.profileId],
          figures: { overlapMm: mm(top - under), baseTopMm: mm(top), underMm: mm(under) },
          message: `The base's top runs ${sayLength(plan, top - under)} into what hangs under the sill of ${opening.id}.`,
          remedies: [
            ...(most > 0 ? [`Use a base at most ${sayAtMost(plan, most)} tall.`] : []),
            'Rip the casing under the sill, or leave it out and let the stool stand on the base.',
            'Stop the base on both sides of the window.',
          ],
        }),
      );
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
    const longest = stockLengths(plan, set.profileId, profile)[0] ?? 0;
    const need = whole(Math.max(...set.parts.map((part) => part.long)));
    if (need <= longest - settings.endTrim) continue;
    const home = openingPlace(room, set);
    found.push(
      finding('stock-none', placeIn(context, home), {
        about: [set.id, set.profileId],
        figures: { needMm: mm(need), longestMm: mm(longest), endTrimMm: mm(settings.endTrim) },
        message: `The casing of ${set.opening} takes ${sayLength(plan, need)} in one piece, and the longest ${set.profileId} is ${sayLength(plan, longest)} less ${sayLength(plan, settings.endTrim)} for trimming its end.`,
        remedies: [
          `Find stock of at least ${sayAtLeast(plan, need + settings.endTrim)}.`,
          'Choose another casing.',
        ],
      }),
    );
  }
  return found;
}

function openingPlace(room: Room, set: CasingSet) {
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    const opening = segment.openings.find((each) => each.id === set.opening && each.side === set.side);
    if (opening) return pointOn(segment, (opening.from + opening.to) / 2);
  }
  return null;
}
