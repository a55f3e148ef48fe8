// What was measured against what was drawn (angle-odd, length-odd), and the checks that could not be made because
// something was not measured (unmeasured: one for each room, listing what is missing).

import { lookup } from '../plan/maps.ts';
import type { Segment } from '../walk/types.ts';
import { cornersOf, placeIn, type RoomContext, stretchesOf } from './context.ts';
import {
  cornerName,
  finding,
  listed,
  mm,
  pointOn,
  roomPoint,
  sayDegrees,
  sayLength,
  sentence,
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
          message: `${sentence(name)} was measured at ${sayDegrees(angles.measured)} and is drawn at ${sayDegrees(angles.drawn)}. The measured angle is used.`,
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
        message: `${what} was measured at ${sayLength(plan, measured)} and is drawn ${sayLength(plan, drawn)} long: ${sayLength(plan, off)} ${off > 0 ? 'more' : 'less'}.`,
        remedies: ['Measure it again.', 'Correct the drawing.'],
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
  const profiles = new Set<string>();
  for (const stretch of stretches) if (stretch.profile.height === undefined) profiles.add(stretch.profileId);
  const casings = new Set<string>();
  for (const opening of room.loops.flatMap((loop) => loop.segments.flatMap((segment) => segment.openings))) {
    if (opening.casing === undefined) casings.add(opening.id);
  }
  for (const id of [...profiles].sort()) missing.push(`the height of ${id}`);
  for (const id of [...casings].sort()) missing.push(`the casing of ${id}`);
  if (missing.length === 0) return [];
  return [
    finding('unmeasured', placeIn(context, roomPoint(room)), {
      about: [...[...profiles].sort(), ...[...casings].sort()],
      figures: { missing: missing.length },
      message: `${room.name}: some checks could not be made for want of ${listed(missing)}.`,
      remedies: ['Measure what is missing and type it in.'],
    }),
  ];
}
