// Boards and their joints: slivers, scarfs in sight, cuts beyond the saw, copes that could not be had, circles in the
// order of putting up, boards longer than any stock. Lengths in ticks, angles in degrees.

import { lookup } from '../plan/maps.ts';
import type { Plan, ProfileId } from '../plan/schema.ts';
import { longestStock } from '../trim/index.ts';
import type { LineTrim, Piece, PieceEnd, Stretch } from '../trim/types.ts';
import { formatLength, formatSaw } from '../units/index.ts';
import type { Ticks } from '../units/ticks.ts';
import { partedOf, placeIn, placeParts, type RoomContext } from './context.ts';
import {
  capital,
  cornerName,
  finding,
  listed,
  mm,
  pointOn,
  profileName,
  sayAtLeast,
  sayLength,
  whole,
} from './say.ts';
import type { Finding } from './types.ts';

/** A scarf nearer to an end of its stretch than this is in sight. 24 in. */
export const SCARF_CLEAR = 24 * 8128;
/** Angles are compared to this, degrees. */
const ANGLE_SLACK_DEG = 1e-6;

/** sliver: a piece shorter than the setting. A return piece is always small and is not meant (RULES: FD7). */
export function sliverFindings(context: RoomContext): Finding[] {
  const { plan, settings } = context;
  return context.trim.lines.flatMap((line) =>
    partedOf(line).flatMap(({ stretch, parts }) =>
      placeParts(stretch, parts).flatMap(({ piece, from, to }) => {
        const long = whole(piece.overall);
        if (long >= settings.sliverUnder) return [];
        return finding('sliver', placeIn(context, pointOn(stretch.segment, (from + to) / 2)), {
          about: [piece.id],
          figures: { lengthMm: mm(piece.overall) },
          // As the boards table prints it: one number, one rounding.
          message: `Board ${piece.id} is only ${formatLength(long, { units: plan.units, roundIn: settings.roundIn, roundMm: settings.roundMm })} long.`,
          remedies: sliverRemedies(stretch),
        });
      }),
    ),
  );
}

function sliverRemedies({ left, right }: Stretch): string[] {
  const cased = [left, right].some((stop) => stop.kind === 'opening' && stop.against !== 'open');
  const builtIn = [left, right].some((stop) => stop.kind === 'builtIn');
  return [
    ...(cased ? ['Widen the casing or set a plinth block so that no board is needed there.'] : []),
    ...(builtIn ? ['Fill the gap beside the built-in with a scribed filler strip instead.'] : []),
    'Cut it from the end of a long board and glue it; nails split it.',
    ...(cased || builtIn ? [] : ['Glue it to the board beside it first, and put up both as one.']),
  ];
}

/** joint-in-sight: a scarf that one stock length could avoid, or that lies within 24 in of an end (RULES: FD8). */
export function scarfFindings(context: RoomContext): Finding[] {
  const { plan, settings } = context;
  const found: Finding[] = [];
  for (const line of context.trim.lines) {
    for (const { stretch, parts } of partedOf(line)) {
      const first = parts[0];
      if (!first || parts.length < 2) continue;
      const need = first.wholeNeed;
      const longest = longestStock(plan, stretch.profileId, stretch.profile);
      const avoidable = longest !== undefined && whole(need) <= longest - settings.endTrim;
      const few = avoidable ? fewThatReach(plan, stretch, whole(need) + settings.endTrim) : null;
      const placed = placeParts(stretch, parts);
      for (let i = 1; i < placed.length; i += 1) {
        const here = placed[i]!;
        const fromLeft = here.from - stretch.from;
        const toEnd = whole(Math.min(fromLeft, stretch.to - here.from));
        const near = toEnd < SCARF_CLEAR;
        if (!avoidable && !near) continue;
        const ids = [placed[i - 1]!.piece.id, here.piece.id];
        const why = [
          ...(avoidable ? [reachWords(plan, longest, few)] : []),
          ...(near
            ? [`it lies ${sayLength(plan, toEnd)} from an end, nearer than ${sayLength(plan, SCARF_CLEAR)}`]
            : []),
        ];
        found.push(
          finding('joint-in-sight', placeIn(context, pointOn(stretch.segment, here.from)), {
            about: ids,
            figures: { fromEndMm: mm(toEnd), wholeMm: mm(need) },
            message: `The scarf between ${listed(ids)} could be better placed: ${listed(why)}.`,
            remedies: [
              ...(avoidable
                ? [few === null ? 'Cut the stretch from one board.' : 'Get one such board more.']
                : []),
              ...(near ? ['Move the scarf over a stud farther from the end.'] : []),
            ],
          }),
        );
      }
    }
  }
  return found;
}

/** How many boards there are that would reach, where more of them cannot be bought; null where they can. */
function fewThatReach(plan: Plan, { profile, profileId }: Stretch, length: Ticks): number | null {
  const reach = profile.stock.filter((each) => each.length >= length);
  if (reach.some(({ onHand }) => onHand === undefined)) return null;
  const kept = (lookup(plan.stockOnHand, profileId) ?? []).filter((each) => each.length >= length);
  return (
    reach.reduce((sum, { onHand = 0 }) => sum + onHand, 0) + kept.reduce((sum, { count }) => sum + count, 0)
  );
}

/** What one board could do, and that such boards are few: one may be left for this stretch or none. */
function reachWords(plan: Plan, longest: Ticks, few: number | null): string {
  const board = `one ${sayLength(plan, longest)} board would reach`;
  if (few === null) return board;
  return `${board}, but there ${few === 1 ? 'is only 1 that long' : `are only ${few} that long`}`;
}

/** Where an end stands, said and as a key: both boards of a corner share one. */
function endPlace(piece: Piece, end: PieceEnd): { key: string; name: string } {
  if ('corner' in end.at) return { key: `c ${end.at.corner.key}`, name: cornerName(end.at.corner) };
  if ('opening' in end.at) return { key: `o ${end.at.opening} ${piece.id}`, name: end.at.opening };
  if ('builtIn' in end.at) return { key: `b ${end.at.builtIn} ${piece.id}`, name: end.at.builtIn };
  return { key: `p ${[piece.id, end.at.piece].sort().join(' ')}`, name: `the joint with ${end.at.piece}` };
}

/** saw-limit: a cut beyond what the saw swings to with the board standing; one for each corner and line (RULES: FD9). */
export function sawFindings(context: RoomContext): Finding[] {
  const { settings } = context;
  const found: Finding[] = [];
  for (const line of context.trim.lines) {
    const over = new Map<
      string,
      { name: string; pieces: Piece[]; deg: number; piece: Piece; end: PieceEnd }
    >();
    for (const piece of line.runs.flatMap((run) => [...run.pieces, ...run.returns])) {
      for (const end of [piece.left, piece.right]) {
        if (end.sawDeg <= settings.sawStandingDeg + ANGLE_SLACK_DEG) continue;
        const { key, name } = endPlace(piece, end);
        const entry = over.get(key);
        if (!entry) over.set(key, { name, pieces: [piece], deg: end.sawDeg, piece, end });
        else {
          if (!entry.pieces.includes(piece)) entry.pieces.push(piece);
          entry.deg = Math.max(entry.deg, end.sawDeg);
        }
      }
    }
    for (const { name, pieces, deg, piece, end } of over.values()) {
      const at =
        'corner' in end.at
          ? end.at.corner.at
          : pointOn(piece.segment, end === piece.left ? piece.stretch.from : piece.stretch.to);
      const ids = pieces.map((each) => each.id);
      const wedge = deg > 45 ? 45 : 30;
      found.push(
        finding('saw-limit', placeIn(context, at), {
          about: [name, ...ids],
          figures: { sawDeg: deg, limitDeg: settings.sawStandingDeg },
          message: `${capital(name)}: ${ids.length > 1 ? `boards ${listed(ids)} need` : `board ${ids[0]} needs`} the saw at ${formatSaw(deg)}, and it swings to ${formatSaw(settings.sawStandingDeg)} with the board standing.`,
          remedies: [
            `Clamp a ${wedge}° wedge to the fence and set the saw to the rest, ${formatSaw(Math.abs(deg - wedge))}.`,
            'Make the turn in two mitres with a narrow board between, half the angle each.',
            'Set a block in the corner and cut both boards square.',
          ],
        }),
      );
    }
  }
  return found;
}

/** cope-short: both boards of a corner are too short to cope, so it was mitred (RULES: FD10). */
export function copeShortFindings(context: RoomContext): Finding[] {
  return context.trim.lines.flatMap((line) =>
    line.joints.flat().flatMap((joint) => {
      if (!joint?.copeShort) return [];
      const name = cornerName(joint.corner);
      return finding('cope-short', placeIn(context, joint.corner.at), {
        about: [name],
        figures: { copeMinMm: mm(context.settings.copeMin) },
        message: `${capital(name)}: both ${line.line} boards are under ${sayLength(context.plan, context.settings.copeMin)}, too short to cope safely, so the corner is mitred.`,
        remedies: [
          'Fit the mitre with both boards in hand; glue it.',
          'Cope a longer board first and cut it to length afterwards.',
        ],
      });
    }),
  );
}

/** order-circle: the joints chosen leave no board that can go up first (RULES: FD11). */
export function circleFindings(context: RoomContext): Finding[] {
  return context.trim.lines.flatMap((line) =>
    line.runs.flatMap((run) => {
      const first = run.pieces[0];
      if (!run.circle || !first) return [];
      const ids = run.pieces.map((piece) => piece.id);
      return finding('order-circle', placeIn(context, pointOn(first.segment, first.stretch.from)), {
        about: [...chosenCorners(line, run.pieces), ...ids],
        figures: { boards: ids.length },
        message: `No ${line.line} board of ${listed(ids)} can go up first: each is worked into the next, all the way round.`,
        remedies: [
          'Turn one of the chosen corners round, so that one board runs through at both ends.',
          'Let one of the chosen corners follow the rule, or mitre it.',
        ],
      });
    }),
  );
}

function chosenCorners(line: LineTrim, pieces: readonly Piece[]): string[] {
  const corners = new Set(
    pieces.flatMap((piece) =>
      [piece.left, piece.right].flatMap((end) => ('corner' in end.at ? [end.at.corner.key] : [])),
    ),
  );
  return line.joints
    .flat()
    .filter((joint) => joint !== null)
    .filter((joint) => joint.chosenBy === 'user' && corners.has(joint.corner.key))
    .map((joint) => cornerName(joint.corner));
}

/**
 * stock-none: no stock board is long enough, and no scarf is allowed or would do; one for each board. Where nothing of a
 * listed profile can be had at all: one for the line, naming all its boards (RULES: FD16).
 */
export function stockFindings(context: RoomContext): Finding[] {
  const { plan, settings } = context;
  const found: Finding[] = [];
  for (const line of context.trim.lines) {
    const without = new Map<ProfileId, Piece[]>();
    for (const { stretch, parts } of partedOf(line)) {
      const { profile, profileId } = stretch;
      if (profile.stock.length === 0) continue;
      const longest = longestStock(plan, profileId, profile);
      if (longest === undefined) {
        without.set(profileId, [...(without.get(profileId) ?? []), ...parts]);
        continue;
      }
      for (const { piece, from, to } of placeParts(stretch, parts)) {
        const need = whole(piece.overall + piece.spring);
        if (need <= longest - settings.endTrim) continue;
        const scarf = profile.scarf !== false;
        found.push(
          finding('stock-none', placeIn(context, pointOn(stretch.segment, (from + to) / 2)), {
            about: [piece.id, profileId],
            figures: { needMm: mm(need), longestMm: mm(longest), endTrimMm: mm(settings.endTrim) },
            message: `Board ${piece.id} takes ${sayLength(plan, need)}, and the longest ${profileName(profileId, profile)} is ${sayLength(plan, longest)} less ${sayLength(plan, settings.endTrim)} for trimming its end. ${scarf ? 'Scarfs do not help: the board would be in too many parts, or its joints lie elsewhere.' : 'Scarfs are not allowed for it.'}`,
            remedies: [
              `Find stock of at least ${sayAtLeast(plan, need + settings.endTrim)}.`,
              ...(scarf ? [] : ['Allow a scarf for this profile.']),
              'Choose another profile.',
            ],
          }),
        );
      }
    }
    for (const [profileId, pieces] of without) found.push(nothingLeft(context, line, profileId, pieces));
  }
  return found;
}

/** Every listed length of a profile is used up and no board of it is on hand. */
function nothingLeft(
  context: RoomContext,
  line: LineTrim,
  profileId: ProfileId,
  pieces: readonly Piece[],
): Finding {
  const first = pieces[0]!;
  const ids = pieces.map((piece) => piece.id);
  const returns = line.runs
    .flatMap((run) => run.returns)
    .filter((piece) => piece.returnOf !== null && ids.includes(piece.returnOf))
    .map((piece) => piece.id);
  const { endTrim } = context.settings;
  const need = Math.max(...pieces.map((piece) => whole(piece.overall + piece.spring)));
  const boards = ids.length > 1 ? `boards ${listed(ids)}` : `board ${ids[0]}`;
  const { from, to } = first.stretch;
  return finding('stock-none', placeIn(context, pointOn(first.segment, (from + to) / 2)), {
    about: [...ids, ...returns, profileId],
    figures: { needMm: mm(need), longestMm: 0, endTrimMm: mm(endTrim) },
    message: `There is nothing to cut ${boards} from: every length listed for ${profileName(profileId, first.profile)} is used up and none is on hand.`,
    remedies: [
      'Say how many boards there are, or leave the number open where more can be bought.',
      'Choose another profile.',
    ],
  });
}
