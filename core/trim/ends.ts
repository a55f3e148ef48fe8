// A cut to the end of a piece: what kind it is and what it stands at. Ends that no choice can change are made here.
// Offsets in ticks, outward positive; left and right as seen facing the wall. RULES: JT, LN.

import type { Settings } from '../plan/settings.ts';
import { roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Corner, Segment } from '../walk/types.ts';
import {
  buttCut,
  type Cut,
  copeCut,
  mitreCut,
  returnCut,
  scarfCut,
  scribeCut,
  squareCut,
  throughCut,
} from './lengths.ts';
import type { CornerAngles, EndKind, PieceEnd, StopAt, Stretch } from './types.ts';

/** A piece's end from its cut. */
export function endOf(
  end: EndKind,
  at: PieceEnd['at'],
  cut: Cut,
  more: { readonly through?: boolean; readonly lap?: PieceEnd['lap'] } = {},
): PieceEnd {
  return {
    end,
    at,
    backOffset: cut.backOffset,
    faceOffset: cut.faceOffset,
    sawDeg: cut.sawDeg,
    longPoint: cut.longPoint,
    lap: more.lap ?? null,
    through: more.through ?? false,
  };
}

/**
 * The end at an opening or a built-in [JT10–JT13]. A shoe that stands past a casing is returned: `standsOut` is what
 * base and shoe together measure, null for other lines.
 */
export function endAtStop(
  stretch: Stretch,
  stop: Exclude<StopAt, { kind: 'corner' }>,
  settings: Settings,
  standsOut: Ticks | null,
): PieceEnd {
  const t = stretch.profile.thickness;
  if (stop.kind === 'builtIn') {
    const at = { builtIn: stop.id };
    if (stop.ends === 'scribe') return endOf('scribe', at, scribeCut(settings.scribeAllowance));
    if (stop.ends === 'return') return endOf('return', at, returnCut(t, settings.returnHold));
    return endOf('square', at, squareCut());
  }
  const at = { opening: stop.opening.id };
  const past = standsOut !== null && stop.thickness !== null && standsOut > stop.thickness;
  if (stop.against === 'open' || past) return endOf('return', at, returnCut(t, settings.returnHold));
  return endOf('square', at, squareCut());
}

/** The end in a corner whose other face carries no such line [JT14, JT15]. `other` is that face's segment. */
export function endWithoutNeighbour(
  stretch: Stretch,
  side: 'left' | 'right',
  corner: Corner,
  angles: CornerAngles,
  other: Segment,
  settings: Settings,
): PieceEnd {
  const at = { corner };
  const t = stretch.profile.thickness;
  if (corner.kind === 'outside') return endOf('return', at, returnCut(t, settings.returnHold));
  const surface = side === 'right' ? other.surfaceLeft : other.surfaceRight;
  if (surface === 'masonry') return endOf('scribe', at, scribeCut(settings.scribeAllowance));
  return endOf('square', at, throughCut(t, angles.plain, stretch.profile.form));
}

/** A piece with one end coped or butted and the other square or coped is cut long to spring in [LN18]. */
export function springOf(left: PieceEnd, right: PieceEnd, overall: number, settings: Settings): Ticks {
  const worked = (end: PieceEnd): boolean => end.end === 'cope' || end.end === 'butt';
  const stands = (end: PieceEnd): boolean => end.end === 'square' || end.end === 'cope';
  const springs = (worked(left) && stands(right)) || (worked(right) && stands(left));
  return springs && roundHalfAway(overall) > settings.springOver ? settings.springBy : 0;
}

/** Both boards' ends at a corner where `worked` is coped or butted into the other. */
export function workedEnds(
  how: 'cope' | 'butt',
  worked: 'before' | 'after',
  corner: Corner,
  angles: CornerAngles,
  before: Stretch,
  after: Stretch,
): { readonly before: PieceEnd; readonly after: PieceEnd } {
  const at = { corner };
  const [mine, theirs] = worked === 'before' ? [before, after] : [after, before];
  const t = mine.profile.thickness;
  const t2 = theirs.profile.thickness;
  const cut = how === 'cope' ? copeCut(t, t2, angles.used) : buttCut(t, t2, angles.plain);
  const workedEnd = endOf(how, at, cut);
  const through = endOf('square', at, throughCut(t2, angles.plain, theirs.profile.form), { through: true });
  return worked === 'before' ? { before: workedEnd, after: through } : { before: through, after: workedEnd };
}

/** Both boards' ends at a mitred corner. */
export function mitredEnds(
  corner: Corner,
  angles: CornerAngles,
  before: Stretch,
  after: Stretch,
): { readonly before: PieceEnd; readonly after: PieceEnd } {
  const [t, t2] = [before.profile.thickness, after.profile.thickness];
  return {
    before: endOf('mitre', { corner }, mitreCut(corner.kind, t, t2, angles.used)),
    after: endOf('mitre', { corner }, mitreCut(corner.kind, t2, t, angles.used)),
  };
}

/** One half of a scarf; `neighbour` is the other piece's id. */
export function scarfEnd(t: Ticks, settings: Settings, lap: 'laps' | 'under', neighbour: string): PieceEnd {
  return endOf('scarf', { piece: neighbour }, scarfCut(t, settings.scarfDeg, lap), { lap });
}
