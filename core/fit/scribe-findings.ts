// What is wrong with a scribe: too much to take off, an old line that nothing covers, a board whose end leans against a
// casing or in a mitre. And in words how to set the board up. Heights in ticks, angles in degrees.

import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Piece } from '../trim/types.ts';
import { lineOf, piecesOf } from './context.ts';
import type { LevelBundle } from './level.ts';
import { finding, listed, mm, type Place, pointOn, sayAtLeast, sayDegrees, sayLength } from './say.ts';
import { SOLVER_NOISE, shortfallOf, UNTOUCHED } from './scribe-board.ts';
import { scribeRuns } from './scribe-run.ts';
import type { Finding, Scribe } from './types.ts';

/** An end that leans more than this over the board's height shows. 1/32 in (RULES: SC9). */
const END_TILT = 254;

/** scribe-deep and end-tilt for the scribes of one level. Sorting is the caller's (RULES: SC9). */
export function scribeFindings(plan: Plan, level: LevelBundle, scribes: readonly Scribe[]): Finding[] {
  const byPiece = new Map(scribes.map((scribe) => [scribe.piece, scribe]));
  const shortfalls = shortfallsOf(plan, level, byPiece);
  return level.trims.flatMap((trim) => {
    const place = (piece: Piece, along: number): Place => ({
      level: level.walk.levelId,
      room: trim.room.id,
      at: pointOn(piece.segment, along),
    });
    return piecesOf(lineOf(trim, 'base')).flatMap((piece) => {
      const scribe = byPiece.get(piece.id);
      if (!scribe) return [];
      const middle = (piece.stretch.from + piece.stretch.to) / 2;
      return [
        ...deepFinding(plan, scribe, shortfalls.get(piece.id) ?? 0, place(piece, middle)),
        ...tiltFinding(plan, scribe, piece, place),
      ];
    });
  });
}

/** How far each board's top falls short of the old line, where the scribe does not cover it. */
function shortfallsOf(
  plan: Plan,
  level: LevelBundle,
  scribes: ReadonlyMap<string, Scribe>,
): Map<string, number> {
  const short = new Map<string, number>();
  if ([...scribes.values()].every((scribe) => scribe.coversOldLine)) return short;
  for (const bar of scribeRuns(plan, level.walk, level.trims).flatMap((run) => run.bars)) {
    for (const piece of bar.pieces) {
      const scribe = scribes.get(piece.id);
      const first = scribe?.stations[0];
      const last = scribe?.stations.at(-1);
      if (!scribe || !first || !last || scribe.coversOldLine) continue;
      const perTick = (last.bottom - first.bottom) / (last.at - first.at);
      const left = first.bottom - perTick * (piece.from - bar.from);
      const right = last.bottom + perTick * (bar.to - piece.to);
      short.set(piece.id, shortfallOf(bar, left, right, piece.from, piece.to) ?? 0);
    }
  }
  return short;
}

function deepFinding(plan: Plan, scribe: Scribe, shortfall: number, place: Place): Finding[] {
  const { scribeDeep } = settingsOf(plan);
  const deep = scribe.deepest > scribeDeep + SOLVER_NOISE;
  if (!deep && scribe.coversOldLine) return [];
  const what = [
    ...(deep
      ? [`takes ${sayLength(plan, scribe.deepest)} off, more than ${sayLength(plan, scribeDeep)}`]
      : []),
    ...(scribe.coversOldLine ? [] : [`leaves ${sayLength(plan, shortfall)} of the old line bare at best`]),
  ];
  return [
    finding('scribe-deep', place, {
      about: [scribe.piece],
      figures: {
        deepestMm: mm(scribe.deepest),
        limitMm: mm(scribeDeep),
        ...(scribe.coversOldLine ? {} : { shortMm: mm(shortfall) }),
      },
      message: `Scribing board ${scribe.piece} to the floor ${what.join(' and ')}.`,
      remedies: [
        'Have the floor levelled along this wall before the base goes up.',
        scribe.coversOldLine
          ? 'Let shoe cover part of the gap: the base can then stand higher.'
          : `Use a base at least ${sayAtLeast(plan, shortfall)} taller, or a cap moulding on top of it.`,
        ...(deep ? ['Use a taller base, so that what is left still looks like one board.'] : []),
      ],
    }),
  ];
}

/** How far the board's bottom rises over its length, per tick. */
function slopeOf(scribe: Scribe): number {
  const first = scribe.stations[0]!;
  const last = scribe.stations.at(-1)!;
  return (last.bottom - first.bottom) / (last.at - first.at);
}

/** Which ends of a board stand against a casing or plinth, or in a mitred corner. */
function strictEnds(piece: Piece): ('left' | 'right')[] {
  const isStrict = (side: 'left' | 'right'): boolean => {
    const end = piece[side];
    if ('corner' in end.at) return end.end === 'mitre';
    const stop = piece.stretch[side];
    return 'opening' in end.at && (stop.kind !== 'opening' || stop.against !== 'open');
  };
  return (['left', 'right'] as const).filter(isStrict);
}

function tiltFinding(
  plan: Plan,
  scribe: Scribe,
  piece: Piece,
  place: (piece: Piece, along: number) => Place,
): Finding[] {
  const height = piece.profile.height;
  if (height === undefined) return [];
  const slope = slopeOf(scribe);
  const tilt = slope * height;
  const ends = strictEnds(piece);
  if (Math.abs(tilt) <= END_TILT + SOLVER_NOISE || ends.length === 0) return [];
  const degrees = (Math.atan(Math.abs(slope)) * 180) / Math.PI;
  const along = ends[0] === 'left' ? piece.stretch.from : piece.stretch.to;
  const longer = slope > 0 ? 'rises to the right' : 'rises to the left';
  return [
    finding('end-tilt', place(piece, along), {
      about: [piece.id],
      figures: { tiltMm: mm(Math.abs(tilt)), endDeg: degrees, slopeMmPerM: slope * 1000 },
      message: `Board ${piece.id} ${longer}: its ${listed(ends)} end${ends.length > 1 ? 's lean' : ' leans'} ${sayLength(plan, tilt)} over its height.`,
      remedies: [
        `Cut the ${listed(ends)} end ${sayDegrees(degrees)} off square, so that it stands plumb.`,
        'Let the board lie level and take more off it, if the old line allows.',
      ],
    }),
  ];
}

/** What each place where a board is scribed is called. */
const TAKEN: Readonly<Record<Scribe['takeFrom'], string>> = {
  left: 'from its left end',
  right: 'from its right end',
  both: 'from both ends',
  middle: 'in its middle',
  none: 'nowhere',
};

const LIES: Readonly<Record<Scribe['kind'], string>> = {
  hump: 'has a hump',
  dip: 'has a dip',
  slope: 'slopes',
  level: 'is level',
};

/**
 * How to set a board up and scribe it, in plain sentences, for the crew (RULES: SC8). Blocks stand on the floor that was
 * read: with a gap under the base they and the scriber are larger by it.
 */
export function scribeWords(scribe: Scribe, plan: Plan): string[] {
  const { underGap: gap, shim } = scribe;
  const first = scribe.stations[0]!;
  const last = scribe.stations.at(-1)!;
  const under = scribe.carpet && gap > 0 ? 'the floor under the carpet and its pad' : 'the floor';
  const within = gap > 0 ? `, the gap of ${sayLength(plan, gap)} included` : '';
  const words = [`The floor under board ${scribe.piece} ${LIES[scribe.kind]}.`];
  if (scribe.takeFrom === 'none') {
    const held = [
      { end: 'left', off: first.gap >= UNTOUCHED ? first.gap + gap : gap },
      { end: 'right', off: last.gap >= UNTOUCHED ? last.gap + gap : gap },
    ].filter(({ off }) => off > 0);
    words.push(held.length > 0 ? 'Nothing to scribe.' : 'It stands as it is: nothing to scribe.');
    const offs = [...new Set(held.map(({ off }) => sayLength(plan, off)))];
    if (held.length === 2 && offs.length === 1) words.push(`Hold it ${offs[0]} off ${under}${within}.`);
    else if (held.length > 0) {
      const ends = held.map(({ end, off }) => `the ${end} end ${sayLength(plan, off)}`);
      words.push(`Hold ${listed(ends)} off ${under}${within}.`);
    }
  } else {
    const block = (station: typeof first): string =>
      sayLength(plan, Math.max(0, station.bottom + shim - station.floor) + gap);
    words.push(
      `Block the left end ${block(first)} and the right end ${block(last)} off ${under}${within}.`,
      `Set the scriber at ${sayLength(plan, shim + gap)}${gap > 0 ? ` (${sayLength(plan, shim)} and the gap)` : ''}, draw along ${under} and cut to the line: it comes off ${TAKEN[scribe.takeFrom]}, ${sayLength(plan, scribe.deepest)} at the deepest.`,
    );
  }
  if (!scribe.coversOldLine) words.push('The top does not cover the old line.');
  if (scribe.assumed.length > 0)
    words.push(`Assumed, not measured: ${listed(scribe.assumed)}. Check before cutting.`);
  return words;
}
