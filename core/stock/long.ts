// Stretches longer than the stock, and what becomes of one that is joined at given places: what each part needs of a board,
// and whether joints may lie there. Ticks along the stretch from its left end. Which places are chosen is not decided
// here, nor what happens at corners: outer ends are taken as they are decided now [ST12].

import { SCARF_CLEAR } from '../fit/joints.ts';
import { sortedEntries } from '../plan/maps.ts';
import type { Plan, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { scarfCut } from '../trim/lengths.ts';
import { stockLengths, withLaps } from '../trim/scarfs.ts';
import {
  type Piece,
  type PieceEnd,
  type RoomTrim,
  type Splits,
  type Stretch,
  stretchKey,
} from '../trim/types.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import { kerfCharge, needOf } from './order.ts';
import type { Cut } from './problem.ts';
import { joinedParts, jointsOf } from './stretches.ts';

/** A level as far as it matters here. */
export interface JoinedLevel {
  readonly trims: readonly RoomTrim[];
}

/** A stretch that is joined, and all that its parts are reckoned from. */
export interface LongStretch {
  /** Into `Splits`. */
  readonly key: string;
  readonly profileId: ProfileId;
  /** Where its room stands: the level's index, and the room's on it. */
  readonly level: number;
  readonly room: number;
  readonly stretch: Stretch;
  /** Its pieces as they are now, left to right. */
  readonly pieces: readonly Piece[];
  /** Joints as they are now. */
  readonly usual: readonly Ticks[];
  /** What the longest board holds. */
  readonly longest: Ticks;
  /** What its two ends, and the lower half of a scarf, add to a part's length along the wall. */
  readonly ends: { readonly left: number; readonly right: number; readonly slant: number };
  /** Studs from the stretch's left end, ascending; null where the layout is not known. */
  readonly studs: readonly Ticks[] | null;
  /** What joints at these places, ascending, make of it. */
  readonly partsAt: (cuts: readonly Ticks[]) => readonly Part[];
  /** Whether joints may lie there [ST12]. */
  readonly allows: (cuts: readonly Ticks[]) => boolean;
  /** The least that its parts can need while each joint lies between its `from` and its `to`. */
  readonly leastBetween: (cells: readonly Cell[]) => readonly Part[];
  /** The least that all its parts and their cuts can take together, whichever places in these cells are chosen. */
  readonly leastTogether: (cells: readonly Cell[]) => Ticks;
}

/** A joint's place, within bounds. */
export type Cell = readonly [from: Ticks, to: Ticks];

export interface Part extends Cut {
  /** Its shorter edge, finished. */
  readonly shorter: number;
}

const out = (end: Pick<PieceEnd, 'backOffset' | 'faceOffset'>): number =>
  Math.max(end.backOffset, end.faceOffset);

/** A corner's angle as a through board or a butt sees it, kept off a line along the wall, degrees. */
const SHARPEST_DEG = 15;

/** The thickest board of a kind of trim: what a butt can take off at most. */
function thickest(plan: Plan, kind: string): Ticks {
  return Math.max(
    0,
    ...sortedEntries(plan.profiles).map(([, each]) => (each.kind === kind ? each.thickness : 0)),
  );
}

/** Whether the other board could be worked at this end instead. */
function mayTurn(end: PieceEnd): boolean {
  return 'corner' in end.at && (end.end === 'cope' || end.end === 'butt' || end.end === 'square');
}

/** The setting that an end has at least. */
const leastSaw = (end: PieceEnd): number => (mayTurn(end) ? 0 : end.sawDeg);

/**
 * What an end adds at least, whichever board is worked at its corner: other joints elsewhere can turn that round. Ends that
 * do not meet a board that could be worked instead add what they add.
 */
function leastOut(plan: Plan, piece: Piece, end: PieceEnd): number {
  const now = out(end);
  if (!('corner' in end.at) || !mayTurn(end)) return now;
  const { corner } = end.at;
  const drawn = Math.min(corner.roomAngleDeg, 360 - corner.roomAngleDeg);
  const angle = Math.max(SHARPEST_DEG, Math.min(drawn, corner.record?.measured ?? drawn));
  const [sine, cosine] = [Math.sin((angle * Math.PI) / 180), Math.cos((angle * Math.PI) / 180)];
  const through = -Math.max(0, (piece.profile.thickness * cosine) / sine);
  const butts =
    piece.profile.form === 'flat' ||
    end.end === 'butt' ||
    corner.record?.lines?.[piece.line]?.joint === 'butt';
  const wide = Math.max(drawn, corner.record?.measured ?? drawn);
  const least = Math.min(sine, Math.sin((Math.min(wide, 180 - SHARPEST_DEG) * Math.PI) / 180));
  return Math.min(now, through, butts ? -thickest(plan, piece.profile.kind) / least : 0);
}

/** What a piece needs and its cut takes at least, whichever boards are worked at its corners. */
export function leastCut(plan: Plan, piece: Piece): Cut {
  const { left, right } = piece;
  const given = out(left) - leastOut(plan, piece, left) + out(right) - leastOut(plan, piece, right);
  return {
    // A tick for the rounding of sines, which differ between engines.
    need: given + piece.spring === 0 ? needOf(piece.overall) : Math.max(0, needOf(piece.overall - given) - 1),
    kerf: kerfCharge(settingsOf(plan).kerf, Math.max(leastSaw(left), leastSaw(right))),
  };
}

/** A scarf's end with the overlap that is not known to be needed left out. */
const UNSURE = { backOffset: 0, faceOffset: 0 };

function studsOf(plan: Plan, stretch: Stretch): Ticks[] | null {
  const own = stretch.segment.record?.studs;
  const spacing = plan.studs?.spacing;
  const along =
    own !== undefined && own.length > 0
      ? own
      : spacing === undefined
        ? null
        : Array.from({ length: Math.floor(stretch.segment.drawn / spacing) + 1 }, (_, i) => i * spacing);
  if (along === null) return null;
  const here = along.map((at) => roundHalfAway(at - stretch.from - stretch.inset));
  return [...new Set(here)].filter((at) => at > 0 && at < stretch.L).sort((a, b) => a - b);
}

/**
 * Every stretch that is joined now and not by `given`. Pieces in `kept` hold theirs as it is. Levels by file, rooms and
 * runs in walking order.
 */
export function longStretches(
  plan: Plan,
  levels: readonly JoinedLevel[],
  given: Splits,
  kept: ReadonlySet<string>,
): LongStretch[] {
  return stretchesToJoin(plan, levels, given, kept, 2);
}

/** The same, of stretches that are in at least so many parts: of 1, those in one piece too. */
export function stretchesToJoin(
  plan: Plan,
  levels: readonly JoinedLevel[],
  given: Splits,
  kept: ReadonlySet<string>,
  leastParts: number,
): LongStretch[] {
  const found: LongStretch[] = [];
  levels.forEach(({ trims }, level) => {
    trims.forEach((trim, room) => {
      for (const run of trim.lines.flatMap((line) => line.runs)) {
        for (const pieces of joinedParts(run.pieces, leastParts).values()) {
          const one = longStretch(plan, trim, level, room, pieces);
          if (one && !Object.hasOwn(given, one.key) && !pieces.some((piece) => kept.has(piece.id))) {
            found.push(one);
          }
        }
      }
    });
  });
  return found;
}

function longStretch(
  plan: Plan,
  trim: RoomTrim,
  level: number,
  room: number,
  pieces: readonly Piece[],
): LongStretch | null {
  const settings = settingsOf(plan);
  const { stretch, profileId, profile } = pieces[0]!;
  const had = stockLengths(plan, profileId, profile)[0];
  if (had === undefined) return null;
  const longest = had - settings.endTrim;
  const [first, last] = [pieces[0]!.left, pieces.at(-1)!.right];
  const scarf = {
    laps: scarfCut(profile.thickness, settings.scarfDeg, 'laps'),
    under: scarfCut(profile.thickness, settings.scarfDeg, 'under'),
  };
  const kerfOf = (left: number, right: number): Ticks => kerfCharge(settings.kerf, Math.max(left, right));
  const studs = studsOf(plan, stretch);

  const partsAt = (cuts: readonly Ticks[]): Part[] => {
    const parts = withLaps([0, ...cuts, stretch.L], stretch, trim.room);
    return parts.map((part, i) => {
      const left = i === 0 ? first : scarf[parts[i - 1]!.rightLaps ? 'laps' : 'under'];
      const right = part.rightLaps === null ? last : scarf[part.rightLaps ? 'under' : 'laps'];
      const length = part.to - part.from;
      return {
        need: needOf(length + out(left) + out(right)),
        kerf: kerfOf(left.sawDeg, right.sawDeg),
        shorter: length + Math.min(left.backOffset + right.backOffset, left.faceOffset + right.faceOffset),
      };
    });
  };
  const allows = (cuts: readonly Ticks[]): boolean => {
    const ends = [0, ...cuts, stretch.L];
    if (ends.some((at, i) => i > 0 && at <= ends[i - 1]!)) return false;
    if (cuts.some((at) => Math.min(at, stretch.L - at) < SCARF_CLEAR)) return false;
    if (studs !== null && !cuts.every((at) => studs.includes(at))) return false;
    return partsAt(cuts).every((part) => part.shorter >= settings.minScarfPiece && part.need <= longest);
  };
  /** What the ends of each part add at least, and what its cut takes at least. */
  const leastEnds = (cells: readonly Cell[]) => {
    const low = withLaps([0, ...cells.map((cell) => cell[0]), stretch.L], stretch, trim.room);
    const high = withLaps([0, ...cells.map((cell) => cell[1]), stretch.L], stretch, trim.room);
    const joint = (i: number, side: 'left' | 'right') => {
      const laps = low[i]!.rightLaps;
      if (laps !== high[i]!.rightLaps) return UNSURE;
      return scarf[(side === 'left') === laps ? 'under' : 'laps'];
    };
    return low.map((_, i) => {
      const [isFirst, isLast] = [i === 0, i === cells.length];
      return {
        left: isFirst ? leastOut(plan, pieces[0]!, first) : out(joint(i - 1, 'right')),
        right: isLast ? leastOut(plan, pieces.at(-1)!, last) : out(joint(i, 'left')),
        kerf: kerfOf(
          isFirst ? leastSaw(first) : settings.scarfDeg,
          isLast ? leastSaw(last) : settings.scarfDeg,
        ),
      };
    });
  };
  const leastBetween = (cells: readonly Cell[]): Part[] =>
    leastEnds(cells).map(({ left, right, kerf }, i) => {
      const from = i === 0 ? 0 : cells[i - 1]![1];
      const to = i === cells.length ? stretch.L : cells[i]![0];
      const length = Math.max(0, to - from);
      return {
        need: Math.max(needOf(settings.minScarfPiece), needOf(length + left + right) - 1),
        kerf,
        shorter: length,
      };
    });
  const leastTogether = (cells: readonly Cell[]): Ticks => {
    const ends = leastEnds(cells);
    // A tick for each part: it is rounded on its own.
    return ends.reduce(
      (sum, { left, right, kerf }) => sum + left + right + kerf - 1,
      needOf(stretch.L) - ends.length,
    );
  };
  return {
    key: stretchKey(trim.room, stretch),
    profileId,
    level,
    room,
    stretch,
    pieces,
    usual: jointsOf(pieces),
    longest,
    ends: { left: out(first), right: out(last), slant: out(scarf.under) },
    studs,
    partsAt,
    allows,
    leastBetween,
    leastTogether,
  };
}
