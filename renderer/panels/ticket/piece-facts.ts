// A board as its ticket tells it: its place in the order of putting up, the boards it waits for, the blank it is cut from,
// its scribe in words. From what was derived and solved; nothing is reckoned.

import { scribeWords } from '../../../core/fit/index.ts';
import type { Derived, Solved } from '../../../core/report/index.ts';
import type { PieceFound } from './find.ts';

export interface PieceFacts {
  readonly order: string;
  /** Boards of the run that are put up before it, next to it. */
  readonly after: readonly string[];
  /** The board of stock it is cut from: its length in ticks and what else comes from it; null where none is found. */
  readonly stock: {
    readonly length: number;
    readonly onHand: boolean;
    readonly others: readonly string[];
  } | null;
  /** Longer than every board there is. */
  readonly unplaced: boolean;
  readonly scribe: readonly string[];
}

/** `solved`: null while boards and scribes are being worked out. */
export function pieceFacts(shown: Derived, solved: Solved | null, found: PieceFound): PieceFacts {
  const { piece, run } = found;
  const at = run.pieces.findIndex(({ id }) => id === piece.id);
  const count = run.pieces.length;
  const beside = [
    ...(at > 0 || run.closed ? [run.pieces[(at + count - 1) % count]!] : []),
    ...(at < count - 1 || run.closed ? [run.pieces[(at + 1) % count]!] : []),
  ];
  const after = [
    ...new Set(beside.filter(({ order, id }) => order < piece.order && id !== piece.id).map(({ id }) => id)),
  ];
  const scribe = solved?.scribes.find((each) => each.piece === piece.id);
  const plan = solved?.stock.find(({ order }) => order.profileId === piece.profileId);
  const board = plan?.boards.find(({ items }) => items.some(({ id }) => id === piece.id));
  return {
    order: count === 1 ? 'the only board of its run' : `${piece.order} of ${count} in its run`,
    after: at === -1 ? [] : after,
    stock:
      board === undefined
        ? null
        : {
            length: board.length,
            onHand: board.onHand,
            others: board.items.map(({ id }) => id).filter((id) => id !== piece.id),
          },
    unplaced: plan?.unplaced.includes(piece.id) ?? false,
    scribe: scribe === undefined ? [] : scribeWords(scribe, shown.plan),
  };
}
