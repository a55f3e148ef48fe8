// What a room's sheet tells the crew beside the figures: preparation, order of work, cautions; each only as it applies.
// Cautions carry the published source they rest on, or null where it is common practice. Core says, sheets print.

import { LINE_NAMES } from '../plan/kinds.ts';
import type { Plan } from '../plan/schema.ts';
import { profileOn } from '../trim/index.ts';
import type { Piece, RoomTrim } from '../trim/types.ts';
import type { Room } from '../walk/types.ts';
import { lineOf, oldLine, standingHeight, stretchesOf } from './context.ts';
import { mayHoldAsbestos, mayHoldLead } from './house.ts';
import { capital, listed, sayAtLeast, sayLength, whole } from './say.ts';
import type { Finding } from './types.ts';

/** A piece whose blank is shorter than this is cut from long stock. 6 in (RULES: CA5). */
export const SMALL_PIECE = 6 * 8128;

export interface Caution {
  readonly text: string;
  /** The published source; null: common practice, no published source. */
  readonly source: string | null;
  /** The same in a few words, for sheets after the first: only cautions that go for any room have it. */
  readonly short?: string;
}

export interface RoomNotes {
  readonly preparation: readonly string[];
  readonly order: readonly string[];
  readonly cautions: readonly Caution[];
}

const LOCAL: Caution = {
  text: 'Local codes and licensed trades come first. What follows is general caution and replaces neither.',
  source: null,
  short: 'Local codes and licensed trades come first.',
};
const EYES: Caution = {
  text: 'Wear eye protection when cutting, prying and nailing. Wear ear protection at the saw and the nailer.',
  source: 'in the USA 29 CFR 1926.102 (eyes)',
  short: 'Eye protection when cutting, prying and nailing; ear protection at the saw and the nailer.',
};
const DUST: Caution = {
  text: 'Keep wood dust down: collect it at the saw, and wear a mask when sanding.',
  source: 'in the USA 29 CFR 1910.1000 (limits for dust)',
  short: 'Collect the dust at the saw; a mask when sanding.',
};
const BLADES: Caution = {
  text: 'Keep the guards on the saw, hands clear of the blade, and unplug it before changing the blade.',
  source: 'in the USA 29 CFR 1926.300 (guards)',
  short: 'Guards on the saw, hands clear of the blade; unplug it before changing the blade.',
};
const SMALL: Caution = {
  text: 'Pieces under 6 in (152 mm) are cut from long stock, clamped, never held by hand. The blade stops before it is lifted.',
  source: null,
};
const CABLES: Caution = {
  text: 'Cables and pipes may lie behind plates and low in the wall. Find them before nailing; a hole less than 1 1/4 in (32 mm) from the face of the stud ought to have a steel plate, and often has none.',
  source: 'in the USA NEC 300.4(A)(1)',
  short: 'Find cables and pipes low in the wall and behind plates before nailing.',
};
const LEAD: Caution = {
  text: 'The old paint may hold lead. Have it tested. No open flame, no power sanding without a HEPA filter, no heat gun over 1100 °F (593 °C); keep children away and contain the dust.',
  source: 'in the USA 40 CFR 745 subpart E (745.83, 745.85)',
};
const ASBESTOS: Caution = {
  text: 'Old resilient floors and their adhesive may hold asbestos. Have them tested before they are disturbed. Do not sand them.',
  source: 'in the USA 29 CFR 1926.1101',
};

function allPieces(trim: RoomTrim): readonly Piece[] {
  return trim.lines.flatMap((line) => line.runs.flatMap((run) => [...run.pieces, ...run.returns]));
}

/** Ids of the pieces that are too small to hold. */
function smallPieces(trim: RoomTrim): string[] {
  return allPieces(trim)
    .filter((piece) => whole(piece.overall) < SMALL_PIECE)
    .map((piece) => piece.id);
}

/** Is there an old base to take off? Yes unless its height is given as 0. */
function hasOldBase(room: Room): boolean {
  return room.record?.old?.baseHeight !== 0;
}

/**
 * Preparation, order of work and cautions of one room (RULES: CA1 to CA7). `findings` may be those of the whole plan;
 * the room's own are picked out of them.
 */
export function roomNotes(plan: Plan, room: Room, trim: RoomTrim, findings: readonly Finding[]): RoomNotes {
  const mine = findings.filter((each) => each.room === room.id);
  return {
    preparation: preparation(plan, room, trim),
    order: orderOfWork(room, trim),
    cautions: roomCautions(plan, room, trim, mine),
  };
}

function preparation(plan: Plan, room: Room, trim: RoomTrim): string[] {
  const hasBase = stretchesOf(trim, 'base').length > 0;
  const steps: string[] = [];
  if (hasBase && hasOldBase(room)) {
    steps.push(
      'Score the paint or caulk line along the top of the old base before prying.',
      'Use a short blade, so that it cuts the paint and not what lies behind.',
      'Pry at the studs, with a block behind the bar to spare the wall.',
    );
    if (room.loops.some((loop) => loop.segments.some((each) => each.surfaceLeft === 'drywall'))) {
      steps.push('Where the paper of the drywall tears: cut it back, seal it, fill it and sand the filler.');
    }
  }
  if (hasBase) {
    const stands = standingHeight(room);
    const line = oldLine(room);
    if (stands !== null && line !== null) {
      const least = line - stands;
      steps.push(
        least > 0
          ? `The new base must be at least ${sayAtLeast(plan, least)} tall to cover the line of the old one.`
          : 'The line of the old base lies under the new floor: any base covers it.',
      );
    }
    const next = room.record?.new;
    const floor = next?.floor;
    steps.push(
      floor === undefined
        ? 'The height of the new floor is not known: measure it before cutting casing legs or base.'
        : floor === 0
          ? 'The new floor is level with the subfloor.'
          : `The new floor lies ${sayLength(plan, floor)} ${floor < 0 ? 'below' : 'above'} the subfloor.`,
    );
    const gap = next?.gap ?? 0;
    if (gap > 0) {
      const carpet = next?.carpet === true ? ' for the carpet' : '';
      steps.push(`Leave a gap of ${sayLength(plan, gap)} under the base${carpet}.`);
    }
  }
  const onSite = notReckoned(plan, room);
  if (onSite.length > 0) {
    const several = onSite.length > 1;
    steps.push(
      `${capital(listed(onSite))} ${several ? 'are' : 'is'} chosen here and not reckoned: this version does base and shoe only. The crew measures ${several ? 'those lines' : 'that line'} on site.`,
    );
  }
  return steps;
}

/** The lines chosen for the room or one of its faces that get no boards here (RULES: CA8). */
function notReckoned(plan: Plan, room: Room): string[] {
  const segments = room.loops.flatMap((loop) => loop.segments);
  return (['crown', 'chairRail', 'pictureRail'] as const)
    .filter((line) => segments.some((segment) => profileOn(plan, room, segment, line) !== null))
    .map((line) => LINE_NAMES[line]);
}

function orderOfWork(room: Room, trim: RoomTrim): string[] {
  const has = (line: 'crown' | 'base' | 'shoe'): boolean => stretchesOf(trim, line).length > 0;
  const cased = room.loops.some((loop) =>
    loop.segments.some((each) => each.openings.some((opening) => opening.casing)),
  );
  const parts = [
    ...(has('crown') ? ['crown'] : []),
    ...(cased ? ['casings'] : []),
    ...(has('base') ? ['base'] : []),
    ...(has('shoe') ? ['shoe'] : []),
  ];
  const order = parts.length > 1 ? [`First ${parts.join(', then ')}.`] : [];
  for (const line of ['crown', 'pictureRail', 'chairRail', 'base', 'shoe'] as const) {
    for (const run of lineOf(trim, line)?.runs ?? []) {
      if (run.pieces.length < 2 || run.circle) continue;
      const ids = run.pieces
        .map((piece, place) => ({ piece, place }))
        .sort((a, b) => a.piece.order - b.piece.order || a.place - b.place)
        .map(({ piece }) => piece.id);
      order.push(`${capital(LINE_NAMES[line])}: ${ids.join(', then ')}.`);
    }
  }
  return order;
}

function roomCautions(plan: Plan, room: Room, trim: RoomTrim, mine: readonly Finding[]): Caution[] {
  const pieces = allPieces(trim);
  const cased = room.loops.some((loop) =>
    loop.segments.some((each) => each.openings.some((opening) => opening.casing)),
  );
  if (pieces.length === 0 && !cased) return [];
  const small = smallPieces(trim);
  const pockets = mine.filter((each) => each.code === 'pocket-nails').map((each) => each.about[0] ?? '');
  const hasBase = stretchesOf(trim, 'base').length > 0;
  return [
    LOCAL,
    EYES,
    DUST,
    BLADES,
    ...(small.length > 0 ? [{ ...SMALL, text: `${SMALL.text} Here: ${listed(small)}.` }] : []),
    CABLES,
    ...(pockets.length > 0
      ? [
          {
            text: `Behind the trim beside ${listed(pockets)} a door slides: nails no longer than trim and drywall together, and adhesive.`,
            source: null,
          },
        ]
      : []),
    ...(mayHoldLead(plan) ? [LEAD] : []),
    ...(hasBase && mayHoldAsbestos(plan) ? [ASBESTOS] : []),
  ];
}

/** The cautions of the whole job, once for its first sheet: each that applies in any room (RULES: CA1). */
export function jobCautions(plan: Plan, trims: readonly RoomTrim[], findings: readonly Finding[]): Caution[] {
  const small = trims.some((trim) => smallPieces(trim).length > 0);
  const pockets = findings.some((each) => each.code === 'pocket-nails');
  return [
    LOCAL,
    EYES,
    DUST,
    BLADES,
    ...(small ? [SMALL] : []),
    CABLES,
    ...(pockets
      ? [
          {
            text: 'Beside a pocket door the nails are no longer than trim and drywall together; use adhesive.',
            source: null,
          },
        ]
      : []),
    ...(mayHoldLead(plan) ? [LEAD] : []),
    ...(mayHoldAsbestos(plan) ? [ASBESTOS] : []),
  ];
}
