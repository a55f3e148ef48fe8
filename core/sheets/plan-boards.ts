// The boards of one trim line along the walls, in plan. Ticks in, points out. Kept: a board lies where it will hang and
// ends as it is cut; where its true thickness would be too thin to see it is drawn thicker, ends and all in proportion.
// Knows no labels.

import type { Point } from '../graph/types.ts';
import type { TrimLine } from '../plan/schema.ts';
import type { LineTrim, Piece, PieceEnd, RoomTrim } from '../trim/types.ts';
import type { Item } from './items.ts';
import type { PlanView } from './plan-view.ts';
import { onSegment } from './plan-walls.ts';

/** The thinnest board that is drawn, points. */
const LEAST = 2;

/** A piece as drawn: its outline and where along its segment it lies (ticks). */
export interface DrawnPiece {
  readonly piece: Piece;
  readonly from: number;
  readonly to: number;
  /** Thickness as drawn, points. */
  readonly thick: number;
  readonly outline: readonly [backLeft: Point, backRight: Point, faceRight: Point, faceLeft: Point];
}

const SHOWN_FIRST: readonly TrimLine[] = ['base', 'shoe', 'crown', 'chairRail', 'pictureRail'];

/** The line that a room's plan shows: base, or the first that it has where it has none. */
export function shownLine(trim: RoomTrim): LineTrim | null {
  for (const name of SHOWN_FIRST) {
    const found = trim.lines.find(
      (line) => line.line === name && line.runs.some((run) => run.pieces.length > 0),
    );
    if (found) return found;
  }
  return null;
}

/** All pieces of a line as they are drawn; return pieces are too small and are left to the marks. */
export function drawnPieces(line: LineTrim, view: PlanView): DrawnPiece[] {
  const pieces = line.runs.flatMap((run) => run.pieces);
  const shares = sharesOf(pieces);
  return pieces.map((piece) => drawn(piece, shares.get(piece)!, view));
}

/** Where each piece begins and ends along its segment: its share of the stretch as drawn. */
function sharesOf(pieces: readonly Piece[]): Map<Piece, readonly [number, number]> {
  const byStretch = new Map<Piece['stretch'], Piece[]>();
  for (const piece of pieces) {
    const list = byStretch.get(piece.stretch);
    if (list) list.push(piece);
    else byStretch.set(piece.stretch, [piece]);
  }
  const shares = new Map<Piece, readonly [number, number]>();
  for (const [stretch, list] of byStretch) {
    const total = list.reduce((sum, piece) => sum + piece.L, 0);
    let at = stretch.from;
    for (const piece of list.toSorted((a, b) => a.part - b.part)) {
      const long = total > 0 ? ((stretch.to - stretch.from) * piece.L) / total : 0;
      shares.set(piece, [at, at + long]);
      at += long;
    }
  }
  return shares;
}

function drawn(piece: Piece, [from, to]: readonly [number, number], view: PlanView): DrawnPiece {
  const truly = piece.profile.thickness * view.pointsPerTick;
  const thick = Math.max(LEAST, truly);
  const by = truly > 0 ? thick / truly : 1;
  const left = offsets(piece.left, by);
  const right = offsets(piece.right, by);
  const at = onSegment(piece.segment, view);
  const deep = thick / view.pointsPerTick;
  return {
    piece,
    from,
    to,
    thick,
    outline: [
      at(from - left.back, 0),
      at(to + right.back, 0),
      at(to + right.face, deep),
      at(from - left.face, deep),
    ],
  };
}

/**
 * How far an end's back and face reach, in ticks, in proportion to the drawn thickness. A coped end is drawn as it stands
 * when it is up: against the face of the board that runs through. A scribing allowance is not there any more by then.
 */
function offsets(end: PieceEnd, by: number): { readonly back: number; readonly face: number } {
  if (end.end === 'scribe') return { back: 0, face: 0 };
  if (end.end === 'block') return { back: end.backOffset, face: end.faceOffset };
  if (end.end === 'cope') return { back: end.faceOffset * by, face: end.faceOffset * by };
  return { back: end.backOffset * by, face: end.faceOffset * by };
}

/** The boards as items: white strips with a fine outline. */
export function boardItems(pieces: readonly DrawnPiece[]): Item[] {
  return pieces.map(({ outline }) => ({
    kind: 'line',
    points: outline,
    stroke: { ink: 'ink', width: 0.45 },
    closed: true,
    fill: 'paper',
    role: 'board',
  }));
}
