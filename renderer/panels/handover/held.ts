// Boards held as they are, between the solved boards that are shown and the plan that holds them. What is held is asked of the
// plan, so that a board is marked at once, before the boards are laid out anew.

import type { Edit } from '../../../core/edit/index.ts';
import { type HeldBoard, lookup, type Plan, type ProfileId } from '../../../core/plan/index.ts';
import type { Report } from '../../../core/report/index.ts';
import { heldBoardOf } from '../../../core/stock/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';
import { ticks } from './names.ts';

export type Stock = Report['stock'][number];
export type Board = Stock['boards'][number];

/** The plan's record of a board with just these pieces; undefined where it is not held. */
function recordOf(plan: Plan, profile: string, board: Board): HeldBoard | undefined {
  const length = ticks(board.lengthMm);
  return lookup(plan.heldBoards, profile)?.find(
    (held) =>
      held.length === length &&
      held.onHand === board.onHand &&
      held.pieces.length === board.pieces.length &&
      held.pieces.every((piece) => board.pieces.includes(piece)),
  );
}

export function isHeld(plan: Plan, profile: string, board: Board): boolean {
  return recordOf(plan, profile, board) !== undefined;
}

/** How many boards of a profile the plan holds, those that can no longer be held too. */
export function heldCount(plan: Plan, profile: string): number {
  return lookup(plan.heldBoards, profile)?.length ?? 0;
}

/** Holds a board that is shown, or lets go of it. `place`: of the board in its profile. */
export function holdEdit({ solved }: SolvedPlan, plan: Plan, stock: Stock, place: number): Edit {
  const profile = stock.profile as ProfileId;
  const shown = stock.boards[place]!;
  if (isHeld(plan, profile, shown)) return { type: 'letGoBoard', profile, piece: shown.pieces[0]! };
  const board = solved.stock.find(({ order }) => order.profileId === profile)!.boards[place]!;
  return { type: 'holdBoard', profile, board: heldBoardOf(solved.levels, board) };
}
