// Everything that is cut from stock, by the id it has there: how long its blank is and how its ends lean. Paper and window
// draw boards from this. Millimetres and degrees, the report's own.

import type { Point } from '../graph/types.ts';
import type { Report } from '../report/schema.ts';
import { casingPartId } from '../stock/index.ts';

type CasingPart = Report['casings'][number]['parts'][number]['part'];

/** How one end leans: degrees off square, and which edge is the longer. */
export interface Slant {
  readonly deg: number;
  readonly longPoint: 'back' | 'face' | null;
}

export interface CutThing {
  readonly id: string;
  readonly of:
    | { readonly kind: 'piece'; readonly piece: Report['pieces'][number] }
    | { readonly kind: 'casing'; readonly casing: Report['casings'][number]; readonly part: CasingPart };
  /** Overall, as the cut list has it. */
  readonly lengthMm: number;
  /** What it is cut longer than that, to spring in. */
  readonly springMm: number;
  /** What the blank must hold: both. */
  readonly needMm: number;
  readonly left: Slant;
  readonly right: Slant;
}

const SQUARE: Slant = { deg: 0, longPoint: null };
const MITRED: Slant = { deg: 45, longPoint: 'back' };

/** By id. `levels`: how many the plan has, for the ids of casing parts. */
export function cutThings(report: Report, levels: number): ReadonlyMap<string, CutThing> {
  const things = new Map<string, CutThing>();
  for (const piece of report.pieces) {
    const { id, left, right, overallMm, springMm } = piece;
    things.set(id, {
      id,
      of: { kind: 'piece', piece },
      lengthMm: overallMm,
      springMm,
      needMm: overallMm + springMm,
      left: { deg: left.sawDeg, longPoint: left.longPoint },
      right: { deg: right.sawDeg, longPoint: right.longPoint },
    });
  }
  for (const casing of report.casings) {
    const foot = casing.parts.some((part) => part.part === 'sill') ? MITRED : SQUARE;
    for (const { part, longMm } of casing.parts) {
      const id = casingPartId(casing.level, levels, casing.id, part);
      // Its outer edge is drawn on top: a left leg then has its head end on the right, a right leg on the left.
      const left = part === 'legLeft' ? foot : MITRED;
      const right = part === 'legRight' ? foot : MITRED;
      const of = { kind: 'casing', casing, part } as const;
      things.set(id, { id, of, lengthMm: longMm, springMm: 0, needMm: longMm, left, right });
    }
  }
  return things;
}

/** A thing in its board, and where it begins from the board's left end. */
export interface LaidThing<T extends CutThing> {
  readonly thing: T;
  readonly fromMm: number;
}

/**
 * The things of a board in the order of cutting, after its trimmed end. The report gives a board's kerfs in one sum: they
 * are shared alike. Throws on a piece that nothing is cut to.
 */
export function laidThings<T extends CutThing>(
  board: Report['stock'][number]['boards'][number],
  things: ReadonlyMap<string, T>,
): LaidThing<T>[] {
  const kerfMm = board.kerfMm / Math.max(1, board.pieces.length);
  let atMm = board.trimMm;
  return board.pieces.map((id) => {
    const thing = things.get(id);
    if (!thing) throw new Error(`stock of ${id}, which nothing is cut to`);
    const fromMm = atMm;
    atMm += thing.needMm + kerfMm;
    return { thing, fromMm };
  });
}

/** The corners of a thing drawn in a board: back left, back right, face right, face left. */
export type CutOutline = readonly [Point, Point, Point, Point];

/**
 * The outline of a thing in a drawn board, from its left end at `x`: `wide` along the board, `high` across it, back on
 * top. Slants are drawn as cut where the board is drawn true; they take at most `most` and a share of the piece.
 */
export function cutOutline(thing: CutThing, x: number, wide: number, high: number, most: number): CutOutline {
  const slant = ({ deg, longPoint }: Slant): readonly [top: number, foot: number] => {
    const lean = Math.min(
      high * Math.tan((Math.min(deg, STEEPEST_DEG) * Math.PI) / 180),
      most,
      wide * SLANT_OF_PIECE,
    );
    return longPoint === 'back' ? [0, lean] : longPoint === 'face' ? [lean, 0] : [0, 0];
  };
  const [leftTop, leftFoot] = slant(thing.left);
  const [rightTop, rightFoot] = slant(thing.right);
  return [
    [x + leftTop, 0],
    [x + wide - rightTop, 0],
    [x + wide - rightFoot, high],
    [x + leftFoot, high],
  ];
}

const STEEPEST_DEG = 89;
/** A slant takes at most this share of its piece, so that both ends of a short one can be told. */
const SLANT_OF_PIECE = 0.35;
