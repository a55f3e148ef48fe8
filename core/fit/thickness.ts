// Base against casing: does the base stand out past the casing's outer edge or the plinth? (base-proud, base-flush.)
// Thicknesses are whole ticks, so a step of exactly the limit is told from one a tick under it.

import { placeIn, type RoomContext, stretchesOf } from './context.ts';
import { finding, mm, openingName, pointOn, sayAtMost, sayLength } from './say.ts';
import type { Finding } from './types.ts';

/** base-proud and base-flush of a room: one for each opening side and profile (RULES: FD2). */
export function thicknessFindings(context: RoomContext): Finding[] {
  const { plan, settings } = context;
  const found = new Map<string, Finding>();
  for (const stretch of stretchesOf(context.trim, 'base')) {
    for (const [stop, at] of [
      [stretch.left, stretch.from],
      [stretch.right, stretch.to],
    ] as const) {
      if (stop.kind !== 'opening' || stop.against === 'open' || stop.thickness === null) continue;
      const { profile, profileId } = stretch;
      const step = stop.thickness - profile.thickness;
      if (step >= settings.flushUnder && step >= 0) continue;
      const key = `${stop.opening.id}.${stop.opening.side}|${profileId}`;
      if (found.has(key)) continue;
      const thing = stop.against === 'plinth' ? 'plinth block' : "casing's outer edge";
      const base = sayLength(plan, profile.thickness);
      const edge = sayLength(plan, stop.thickness);
      const place = placeIn(context, pointOn(stretch.segment, at));
      const about = [stop.opening.id, profileId];
      const figures = {
        stepMm: mm(step),
        baseMm: mm(profile.thickness),
        [stop.against === 'plinth' ? 'plinthMm' : 'casingMm']: mm(stop.thickness),
      };
      if (step < 0) {
        found.set(
          key,
          finding('base-proud', place, {
            about,
            figures,
            message: `Base ${base} thick stands ${sayLength(plan, step)} proud of the ${thing} at ${openingName(stop.opening)}, which is ${edge} thick.`,
            remedies: [
              `Use a base no thicker than ${sayAtMost(plan, stop.thickness)}.`,
              stop.against === 'plinth'
                ? `Use a plinth block more than ${base} thick.`
                : `Set a plinth block more than ${base} thick under the casing leg.`,
              ...(stop.against === 'plinth'
                ? []
                : ['Add a back band to the casing, so that its outer edge is thicker than the base.']),
              'Only as a last resort, bevel the end of the base back to the casing.',
            ],
          }),
        );
      } else {
        found.set(
          key,
          finding('base-flush', place, {
            about,
            figures,
            message:
              step === 0
                ? `Base and ${thing} at ${openingName(stop.opening)} are both ${base} thick: they lie flush, and any unevenness shows.`
                : `The step from the ${thing} (${edge}) down to the base (${base}) at ${openingName(stop.opening)} is only ${sayLength(plan, step)}.`,
            remedies: [
              `Use a base at least ${sayLength(plan, settings.flushUnder)} thinner than the ${thing}.`,
              stop.against === 'plinth'
                ? 'Use a thicker plinth block.'
                : 'Set a plinth block under the casing leg, or add a back band to the casing.',
            ],
          }),
        );
      }
    }
  }
  return [...found.values()];
}
