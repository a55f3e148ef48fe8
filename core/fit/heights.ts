// Base against the line the old base left in the paint (base-short, base-close), and boards of two heights or profiles
// that meet (height-change). Heights are ticks above the subfloor; whole, so 'equal passes' is exact.

import { sortedEntries } from '../plan/maps.ts';
import type { ProfileId } from '../plan/schema.ts';
import type { Stretch } from '../trim/types.ts';
import { oldLine, placeIn, type RoomContext, standingHeight, stretchesOf } from './context.ts';
import {
  bareName,
  capital,
  cornerName,
  finding,
  mm,
  profileName,
  roomPoint,
  sayAtLeast,
  sayLength,
} from './say.ts';
import type { Finding } from './types.ts';

/** base-short and base-close: one for each base profile in the room (RULES: FD3). */
export function oldLineFindings(context: RoomContext): Finding[] {
  const { plan, settings, room } = context;
  const stands = standingHeight(room);
  const line = oldLine(room);
  if (stands === null || line === null) return [];
  const profiles = new Map<ProfileId, Stretch['profile']>();
  for (const stretch of stretchesOf(context.trim, 'base')) profiles.set(stretch.profileId, stretch.profile);
  const found: Finding[] = [];
  for (const [id, profile] of profiles) {
    if (profile.height === undefined) continue;
    const covers = stands + profile.height - line;
    if (covers >= settings.closeUnder && covers >= 0) continue;
    const least = line - stands;
    const figures = { coversMm: mm(covers), heightMm: mm(profile.height), leastHeightMm: mm(least) };
    const place = placeIn(context, roomPoint(room));
    const tall = sayLength(plan, profile.height);
    if (covers < 0) {
      const enough = sortedEntries(plan.profiles)
        .filter(([, each]) => each.kind === 'base' && (each.height ?? 0) >= least)
        .map(([other, each]) => bareName(other, each));
      const such = enough.length > 0 ? `, such as ${enough.slice(0, 3).join(' or ')}` : '';
      found.push(
        finding('base-short', place, {
          about: [id],
          figures,
          message: `Base ${tall} tall ends ${sayLength(plan, covers)} under the line the old base left. It takes at least ${sayAtLeast(plan, least)} to cover it.`,
          remedies: [
            `Use a base at least ${sayAtLeast(plan, least)} tall${such}.`,
            `Set a cap moulding of at least ${sayAtLeast(plan, covers)} on top of the base.`,
            `Raise the base by at least ${sayAtLeast(plan, covers)} and cover the gap with shoe.`,
            'Cut back, fill and repaint the wall down to the new top.',
          ],
        }),
      );
    } else {
      found.push(
        finding('base-close', place, {
          about: [id],
          figures,
          message: `Base ${tall} tall covers the line the old base left by ${covers === 0 ? 'nothing to spare' : `only ${sayLength(plan, covers)}`}; the old caulk ridge stands a little over the old top.`,
          remedies: [
            'Scrape and sand the ridge off before the base goes up, with the care old paint asks for.',
            `Use a base at least ${sayAtLeast(plan, least + settings.closeUnder)} tall.`,
          ],
        }),
      );
    }
  }
  return found;
}

/** height-change: boards of unlike height or profile meet in a corner (RULES: FD5). */
export function heightChangeFindings(context: RoomContext): Finding[] {
  const { plan } = context;
  const found: Finding[] = [];
  for (const line of context.trim.lines) {
    for (const joint of line.joints.flat()) {
      if (!joint?.differs) continue;
      const name = cornerName(joint.corner);
      const { before, after } = joint;
      const say = ({ profile, profileId }: Stretch): string =>
        profile.height === undefined
          ? profileName(profileId, profile)
          : `${profileName(profileId, profile)} (${sayLength(plan, profile.height)})`;
      const [low, high] = [before.profile.height, after.profile.height];
      const figures: Record<string, number> = {};
      if (low !== undefined) figures.beforeMm = mm(low);
      if (high !== undefined) figures.afterMm = mm(high);
      const taller =
        low === undefined || high === undefined || low === high ? null : low > high ? 'before' : 'after';
      // The worked board is the one that does not run through.
      const runsThrough = taller !== null && joint.coped !== null && joint.coped !== taller;
      const canRun = joint.corner.kind === 'inside' && taller !== null && !runsThrough;
      found.push(
        finding('height-change', placeIn(context, joint.corner.at), {
          about: [name, before.profileId, after.profileId],
          figures,
          message: `${capital(name)}: ${line.line} ${say(before)} meets ${say(after)}.`,
          remedies: [
            'Set a block in the corner, taller and thicker than both boards.',
            ...(canRun ? ['Let the taller board run through to the wall.'] : []),
            'Use one profile on both walls.',
          ],
        }),
      );
    }
  }
  return found;
}
