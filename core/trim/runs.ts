// Boards in walking order to runs, each with its worked boards chosen and its order of putting up, as finished pieces.
// Lengths in ticks. Invariant: within a run each piece's right end and the next one's left end are two halves of one
// joint. RULES: WB, LN12, LN18, LN8.

import type { Settings } from '../plan/settings.ts';
import type { Corner, Room } from '../walk/types.ts';
import { type Board, type Choice, choicesOf, jointEnds } from './boards.ts';
import type { CornerJoint } from './corners.ts';
import { endOf, scarfEnd, springOf } from './ends.ts';
import { overallLength, returnPieceCut, squareCut } from './lengths.ts';
import type { Piece, PieceEnd, Run } from './types.ts';
import {
  type Aim,
  type Chain,
  chooseWorked,
  type EndEffect,
  type JunctionOption,
  puttingUp,
} from './worked.ts';

/** The entry as the choice of worked boards sees it. */
export interface View {
  readonly room: Room;
  /** Is this corner of the floor in sight; null without an entry. */
  readonly inSight: ((corner: Corner) => boolean) | null;
}

/** What was chosen at a corner, and which aim settled it. */
export interface Decision {
  readonly joint: CornerJoint;
  readonly choice: Choice;
  readonly aim: Aim;
  /** The boards before and after the corner. */
  readonly before: Piece;
  readonly after: Piece;
  /** |e · a| of the two boards' walls where the corner is in sight; null where it is not. */
  readonly seams: { readonly before: number; readonly after: number } | null;
}

/** The boards of one loop in chains that touch each other; a closed one starts at the loop's first corner [WB8]. */
export function chainsOf(
  boards: readonly Board[],
): { readonly closed: boolean; readonly boards: readonly Board[] }[] {
  if (boards.length === 0) return [];
  const closed = boards.every((board) => board.next !== null);
  // Segment 1 leaves the loop's first corner; segment 0 comes back to it.
  const home = (board: Board): boolean => board.stretch.segment.index === 0;
  const walked = [...boards.filter((board) => !home(board)), ...boards.filter(home)];
  const start = closed
    ? 0
    : walked.findIndex((_, i) => walked[(i + walked.length - 1) % walked.length]!.next === null);
  const turned = [...walked.slice(start), ...walked.slice(0, start)];
  if (closed) return [{ closed, boards: turned }];
  const chains: Board[][] = [];
  let chain: Board[] = [];
  for (const board of turned) {
    chain.push(board);
    if (board.next === null) {
      chains.push(chain);
      chain = [];
    }
  }
  return chains.map((each) => ({ closed: false, boards: each }));
}

const effect = (end: PieceEnd, needs: EndEffect['needs'] = null): EndEffect => ({
  worked: end.end !== 'square',
  backOffset: end.backOffset,
  needs,
});
const NO_END: EndEffect = { worked: false, backOffset: 0, needs: null };

/** Only a coped or butted corner has a seam to look at. */
function isSeen(joint: CornerJoint, view: View): boolean {
  return (joint.how === 'cope' || joint.how === 'butt') && (view.inSight?.(joint.corner) ?? false);
}

function seamOf(joint: CornerJoint, through: 'before' | 'after', view: View): number {
  const inward = view.room.entry?.inward;
  if (inward === undefined) return 0;
  const { along } = joint[through].segment;
  return Math.abs(inward[0] * along[0] + inward[1] * along[1]);
}

/** What each choice at a link does to the two boards [WB1–WB5]. */
function optionsOf(left: Board, right: Board, settings: Settings, view: View): readonly JunctionOption[] {
  const link = left.next!;
  if (link.kind === 'scarf') {
    const ends = scarfEnds(left, right, settings);
    return [
      {
        choice: 'mitre',
        before: effect(ends.before),
        after: effect(ends.after),
        first: link.rightLaps ? 'before' : 'after',
        seam: 0,
        through: 0,
        lastResort: false,
      },
    ];
  }
  const { joint } = link;
  const seen = isSeen(joint, view);
  return choicesOf(joint).map((choice) => {
    const ends = jointEnds(joint, choice);
    if (choice === 'mitre') {
      const needs = joint.needsLength ? 'short' : null;
      const [before, after] = [effect(ends.before, needs), effect(ends.after, needs)];
      return { choice, before, after, first: null, seam: 0, through: 0, lastResort: joint.needsLength };
    }
    const through = choice === 'after' ? 'before' : 'after';
    const needs = (mine: 'before' | 'after') => (joint.needsLength && choice === mine ? 'long' : null);
    return {
      choice,
      before: effect(ends.before, needs('before')),
      after: effect(ends.after, needs('after')),
      first: through,
      seam: seen ? seamOf(joint, through, view) : 0,
      through: through === 'before' ? left.L : right.L,
      lastResort: false,
    };
  });
}

function scarfEnds(left: Board, right: Board, settings: Settings): { before: PieceEnd; after: PieceEnd } {
  const t = left.stretch.profile.thickness;
  const rightLaps = left.next?.kind === 'scarf' && left.next.rightLaps;
  return {
    before: scarfEnd(t, settings, rightLaps ? 'under' : 'laps', right.id),
    after: scarfEnd(t, settings, rightLaps ? 'laps' : 'under', left.id),
  };
}

/** The run as the optimum sees it. */
function chainFor(boards: readonly Board[], closed: boolean, settings: Settings, view: View): Chain {
  const count = boards.length;
  const junctions = closed
    ? boards.map((board, i) => optionsOf(boards[(i + count - 1) % count]!, board, settings, view))
    : boards.slice(1).map((board, i) => optionsOf(boards[i]!, board, settings, view));
  const [first, last] = [boards[0]!, boards.at(-1)!];
  return {
    closed,
    lengths: boards.map((board) => board.L),
    junctions,
    leftEnd: first.leftEnd === null ? NO_END : effect(first.leftEnd),
    rightEnd: last.rightEnd === null ? NO_END : effect(last.rightEnd),
    copeMin: settings.copeMin,
  };
}

function pieceOf(board: Board, left: PieceEnd, right: PieceEnd, order: number, settings: Settings): Piece {
  const { stretch, L } = board;
  const overall = overallLength(L, left, right);
  return {
    id: board.id,
    line: stretch.line,
    room: stretch.segment.room,
    profileId: stretch.profileId,
    profile: stretch.profile,
    segment: stretch.segment,
    stretch,
    part: board.part,
    parts: board.parts,
    L,
    back: L + left.backOffset + right.backOffset,
    face: L + left.faceOffset + right.faceOffset,
    overall,
    spring: springOf(left, right, overall, settings),
    wholeNeed: board.wholeNeed,
    left,
    right,
    lengthFrom: stretch.measured !== null ? 'measured' : 'drawn',
    order,
    returnOf: null,
  };
}

/** The little piece that closes a returned end: outer face t, back 0 [LN8]. */
function returnPiece(parent: Piece, side: 'left' | 'right'): Piece {
  const t = parent.profile.thickness;
  const mitred = endOf('return', { piece: parent.id }, returnPieceCut(t));
  const square = endOf('square', parent[side].at, squareCut());
  const [left, right] = side === 'right' ? [mitred, square] : [square, mitred];
  return {
    ...parent,
    id: `${parent.id}r-${side}`,
    part: 0,
    parts: 1,
    L: 0,
    back: 0,
    face: t,
    overall: t,
    spring: 0,
    wholeNeed: t,
    left,
    right,
    returnOf: parent.id,
  };
}

/** One chain to its run, and what was decided at each of its corners [WB1–WB8]. */
export function runOf(
  boards: readonly Board[],
  closed: boolean,
  settings: Settings,
  view: View,
): { readonly run: Run; readonly decisions: readonly Decision[] } {
  const count = boards.length;
  const chain = chainFor(boards, closed, settings, view);
  const { chosen, aims, circle } = chooseWorked(chain);
  const picks = chain.junctions.map((options, j) => options[chosen[j]!]!);
  const order = puttingUp(
    count,
    closed,
    picks.map((pick) => pick.first),
  );

  const lefts = boards.map((board) => board.leftEnd);
  const rights = boards.map((board) => board.rightEnd);
  const after = (junction: number): number => (closed ? junction : junction + 1);
  const before = (junction: number): number => (after(junction) + count - 1) % count;
  picks.forEach((pick, j) => {
    const [l, r] = [boards[before(j)]!, boards[after(j)]!];
    const ends = l.next!.kind === 'scarf' ? scarfEnds(l, r, settings) : jointEnds(l.next!.joint, pick.choice);
    rights[before(j)] = ends.before;
    lefts[after(j)] = ends.after;
  });
  const pieces = boards.map((board, i) => pieceOf(board, lefts[i]!, rights[i]!, order[i]!, settings));
  const returns = pieces.flatMap((piece) =>
    (['left', 'right'] as const)
      .filter((side) => piece[side].end === 'return')
      .map((side) => returnPiece(piece, side)),
  );
  const decisions = picks.flatMap((pick, j): Decision[] => {
    const link = boards[before(j)]!.next!;
    if (link.kind === 'scarf') return [];
    const { joint } = link;
    const seen = isSeen(joint, view);
    return [
      {
        joint,
        choice: pick.choice,
        aim: aims[j]!,
        before: pieces[before(j)]!,
        after: pieces[after(j)]!,
        seams: seen ? { before: seamOf(joint, 'before', view), after: seamOf(joint, 'after', view) } : null,
      },
    ];
  });
  return { run: { line: boards[0]!.stretch.line, closed, pieces, returns, circle }, decisions };
}
