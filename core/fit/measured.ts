// What was measured against what was drawn (angle-odd, length-odd), what was measured or chosen and is not used
// (record-unused), and the checks that could not be made because something was not measured (unmeasured: one for each
// room, listing what is missing).

import { byCodeUnit, lookup } from '../plan/maps.ts';
import type { ProfileId, TrimLine } from '../plan/schema.ts';
import { profileOn } from '../trim/index.ts';
import type { Segment } from '../walk/types.ts';
import { cornersOf, placeIn, type RoomContext, stretchesOf } from './context.ts';
import { faceEnd } from './floor.ts';
import {
  capital,
  cornerName,
  finding,
  listed,
  mm,
  openingName,
  pointOn,
  profileName,
  roomPoint,
  sayDegrees,
  sayLength,
  whole,
} from './say.ts';
import type { Finding } from './types.ts';

/** Angles are compared to this, degrees. */
const ANGLE_SLACK_DEG = 1e-6;

/** angle-odd: an angle finder and the drawing differ by more than the setting (RULES: FD12). */
export function angleFindings(context: RoomContext): Finding[] {
  const { room, trim, settings } = context;
  const found: Finding[] = [];
  room.loops.forEach((loop, l) => {
    loop.corners.forEach((corner, c) => {
      const angles = trim.angles[l]?.[c];
      if (!angles || angles.measured === null) return;
      const off = angles.measured - angles.drawn;
      if (Math.abs(off) <= settings.angleOddDeg + ANGLE_SLACK_DEG) return;
      const name = cornerName(corner);
      found.push(
        finding('angle-odd', placeIn(context, corner.at), {
          about: [name],
          figures: { measuredDeg: angles.measured, drawnDeg: angles.drawn, offDeg: off },
          message: `${capital(name)} was measured at ${sayDegrees(angles.measured)} and is drawn at ${sayDegrees(angles.drawn)}. The measured angle is used.`,
          remedies: ['Measure the corner again.', 'Correct the drawing.'],
        }),
      );
    });
  });
  return found;
}

/** length-odd: a measured face or stretch and the drawing differ by more than the setting (RULES: FD12). */
export function lengthFindings(context: RoomContext): Finding[] {
  const { plan, room, trim, settings } = context;
  const found = new Map<string, Finding>();
  const compare = (segment: Segment, stretch: string | null, measured: number, drawn: number, at: number) => {
    const key = stretch === null ? segment.key : `${segment.key} ${stretch}`;
    const off = whole(measured - drawn);
    if (found.has(key) || Math.abs(off) <= settings.lengthOdd) return;
    const between = cornersOf(room, segment).map((corner) => (corner ? cornerName(corner) : 'its end'));
    const what = `The wall from ${between.join(' to ')}${stretch === null ? '' : `, stretch ${stretch.replace('..', ' to ')},`}`;
    found.set(
      key,
      finding('length-odd', placeIn(context, pointOn(segment, at)), {
        about: stretch === null ? [segment.key] : [segment.key, stretch],
        figures: { measuredMm: mm(measured), drawnMm: mm(drawn), offMm: mm(off) },
        message: `${what} was measured at ${sayLength(plan, measured)} and is drawn ${sayLength(plan, drawn)} long: ${sayLength(plan, off)} ${off > 0 ? 'more' : 'less'}. The drawing may be at fault or the tape; a length that was measured stays when walls are moved.`,
        remedies: ['Measure it again.', 'Correct the drawing.', 'Forget the measured length.'],
      }),
    );
  };
  for (const segment of room.loops.flatMap((loop) => loop.segments)) {
    const measured = segment.record?.measured;
    if (measured !== undefined) compare(segment, null, measured, segment.drawn, segment.drawn / 2);
  }
  for (const { segment, key, drawn, from, to } of trim.lines.flatMap((line) => line.stretches)) {
    const measured = lookup(segment.record?.stretches ?? {}, key);
    if (measured !== undefined) compare(segment, key, measured, drawn, (from + to) / 2);
  }
  return [...found.values()];
}

/** unmeasured: what is missing for the checks of a room that has trim; at most one (RULES: FD17). */
export function unmeasuredFindings(context: RoomContext): Finding[] {
  const { room, trim } = context;
  if (trim.lines.every((line) => line.stretches.length === 0)) return [];
  const stretches = stretchesOf(trim, 'base');
  const { old, new: next } = room.record ?? {};
  const missing: string[] = [];
  if (stretches.length > 0) {
    if (old?.floor === undefined) missing.push('the old floor height');
    if (old?.baseHeight === undefined) missing.push('the height of the old base');
    if (next?.floor === undefined) missing.push('the new floor height');
  }
  const profiles = new Map<ProfileId, string>();
  for (const { profile, profileId } of stretches)
    if (profile.height === undefined) profiles.set(profileId, profileName(profileId, profile));
  const casings = new Map<string, string>();
  const pockets = new Map<string, string>();
  for (const opening of room.loops.flatMap((loop) => loop.segments.flatMap((segment) => segment.openings))) {
    if (opening.casing === undefined) casings.set(opening.id, opening.id);
    if (opening.opening.kind === 'pocket' && opening.opening.pocket === undefined)
      pockets.set(opening.id, openingName(opening));
  }
  const inOrder = (names: ReadonlyMap<string, string>): (readonly [string, string])[] =>
    [...names].sort(([one], [other]) => byCodeUnit(one, other));
  for (const [, name] of inOrder(profiles)) missing.push(`the height of ${name}`);
  for (const [, name] of inOrder(casings)) missing.push(`the casing of ${name}`);
  for (const [, name] of inOrder(pockets)) missing.push(`the side to which ${name} slides`);
  if (missing.length === 0) return [];
  return [
    finding('unmeasured', placeIn(context, roomPoint(room)), {
      about: [...new Set([profiles, casings, pockets].flatMap((names) => inOrder(names).map(([id]) => id)))],
      figures: { missing: missing.length },
      message: `${room.name}: some checks could not be made for want of ${listed(missing)}.`,
      remedies: ['Measure what is missing and type it in.'],
    }),
  ];
}

/** A reading farther than this past the face's end is not of this face. 25 mm. */
const PAST_END = 25 * 320;
/** Lines of a face whose stretches this version does not lay out: a key may be one of theirs. */
const NOT_LAID_OUT: readonly TrimLine[] = ['crown', 'chairRail', 'pictureRail'];

/**
 * record-unused within a face or corner that is there: measured stretches that no line has, readings beyond the face's
 * end, and joints chosen where two boards do not meet (RULES: FD21). One for each face and one for each corner and line.
 */
export function recordFindings(context: RoomContext): Finding[] {
  return [...stretchFindings(context), ...readingFindings(context), ...choiceFindings(context)];
}

/** `the wall from corner 4 to corner 1`. */
function wallName(context: RoomContext, segment: Segment): string {
  const ends = cornersOf(context.room, segment).map((corner) => (corner ? cornerName(corner) : 'its end'));
  return `the wall from ${ends.join(' to ')}`;
}

function stretchFindings(context: RoomContext): Finding[] {
  const { plan, room, trim } = context;
  const laid = new Map<string, Set<string>>();
  for (const line of trim.lines) {
    for (const { segment, key } of [...line.stretches, ...line.gone]) {
      const keys = laid.get(segment.key) ?? new Set();
      laid.set(segment.key, keys.add(key));
    }
  }
  return room.loops.flatMap((loop) =>
    loop.tooNarrow
      ? []
      : loop.segments.flatMap((segment): Finding[] => {
          if (NOT_LAID_OUT.some((line) => profileOn(plan, room, segment, line) !== null)) return [];
          const keys = laid.get(segment.key);
          const unused = Object.keys(segment.record?.stretches ?? {})
            .filter((key) => !keys?.has(key))
            .sort(byCodeUnit);
          if (unused.length === 0) return [];
          const several = unused.length > 1;
          const names = unused.map((key) => key.replace('..', ' to '));
          const why = keys
            ? `no such stretch${several ? 'es are' : ' is'} there`
            : 'no base or shoe is laid out on it';
          return [
            finding('record-unused', placeIn(context, pointOn(segment, segment.drawn / 2)), {
              about: [segment.key, ...unused],
              figures: { stretches: unused.length },
              message: `On ${wallName(context, segment)} the measured stretch${several ? 'es' : ''} ${listed(names)} ${several ? 'are' : 'is'} not used: ${why}.`,
              remedies: ['Measure the stretches that are there.', 'Delete what is no longer true.'],
            }),
          ];
        }),
  );
}

function readingFindings(context: RoomContext): Finding[] {
  const { plan, room } = context;
  return room.loops.flatMap((loop) =>
    loop.segments.flatMap((segment): Finding[] => {
      const end = faceEnd(segment);
      const beyond = (readings: readonly { readonly at: number }[] | undefined): number[] =>
        (readings ?? [])
          .map((reading) => reading.at)
          .filter((at) => whole(at - end) > PAST_END || at < -PAST_END)
          .sort((a, b) => a - b);
      const kinds = [
        { what: 'floor', at: beyond(segment.record?.floor) },
        { what: 'old line', at: beyond(segment.record?.line) },
      ].filter(({ at }) => at.length > 0);
      if (kinds.length === 0) return [];
      const said = kinds.map(
        ({ what, at }) =>
          `${at.length > 1 ? 'readings' : 'the reading'} of the ${what} at ${listed(at.map((each) => `${each < 0 ? '−' : ''}${sayLength(plan, each)}`))}`,
      );
      const count = kinds.reduce((sum, { at }) => sum + at.length, 0);
      return [
        finding('record-unused', placeIn(context, pointOn(segment, segment.drawn / 2)), {
          about: [segment.key],
          figures: { readings: count, faceMm: mm(end) },
          message: `On ${wallName(context, segment)}, which is ${sayLength(plan, end)} long, ${listed(said)} ${count > 1 ? 'lie' : 'lies'} beyond its end: ${count > 1 ? 'they do' : 'it does'} not count there.`,
          remedies: [
            'Look whether it was read on another wall, or counted from the other corner.',
            'Measure it again.',
          ],
        }),
      ];
    }),
  );
}

function choiceFindings(context: RoomContext): Finding[] {
  return context.trim.lines.flatMap((line) =>
    line.unmade.map(({ corner, why }) => {
      const name = cornerName(corner);
      return finding('record-unused', placeIn(context, corner.at), {
        about: [name, line.line],
        message: `${capital(name)}: ${why.charAt(0).toLowerCase()}${why.slice(1)}`,
        remedies: ['Let the corner follow the rule.', 'Make room for a board there.'],
      });
    }),
  );
}
